/* window.c: the one window round one job
 *
 * Title bar with the job and where it stands, the stages, the cautions and the menu; below it the
 * pages.  Each window has its own job.  Closing asks nothing: everything is on disk.  What the actions
 * of the window do is in window-actions.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "window-private.h"

#include "class-page.h"
#include "debrief-page.h"
#include "fold.h"
#include "import-page.h"
#include "replay-page.h"
#include "words.h"

G_DEFINE_FINAL_TYPE (TgWindow, tg_window, GTK_TYPE_APPLICATION_WINDOW)

/* --- failures -------------------------------------------------------------------------------- */

static void
hide_failure (TgWindow *self)
{
  gtk_info_bar_set_revealed (GTK_INFO_BAR (self->failure), FALSE);
  gtk_widget_set_visible (self->failure, FALSE);
}

static void
on_failure_response (TgWindow *self, int response)
{
  g_autoptr (GError) error = NULL;

  hide_failure (self);
  if (response == 1 && self->session && !tg_session_reload (self->session, &error))
    tg_window_report_failure (self, error->message);
}

void
tg_window_report_failure (TgWindow *window, const char *message)
{
  g_return_if_fail (TG_IS_WINDOW (window));

  gtk_label_set_text (GTK_LABEL (window->failure_text), message);
  gtk_widget_set_visible (window->reload, window->session && tg_session_is_stale (window->session));
  gtk_widget_set_visible (window->failure, TRUE);
  gtk_info_bar_set_revealed (GTK_INFO_BAR (window->failure), TRUE);
}

/* --- pages ----------------------------------------------------------------------------------- */

const char *
tg_window_page (TgWindow *window)
{
  g_return_val_if_fail (TG_IS_WINDOW (window), NULL);

  return gtk_stack_get_visible_child_name (GTK_STACK (window->pages));
}

/* The first thing on a page that can have it; asked for again, it stays. */
static void
focus_first (GtkWidget *later)
{
  GtkWidget *page = tg_later_get (TG_LATER (later));

  if (!gtk_widget_get_focus_child (page))
    gtk_widget_child_focus (page, GTK_DIR_TAB_FORWARD);
}

static gboolean
focus_field (gpointer data)
{
  TgWindow *self = data;
  const char *page = tg_window_page (self);

  self->focus_source = 0;
  if (g_strcmp0 (page, "weigh") == 0)
    tg_weigh_page_focus (TG_WEIGH_PAGE (tg_later_get (TG_LATER (self->weigh))));
  else if (g_strcmp0 (page, "match") == 0)
    tg_match_page_focus (TG_MATCH_PAGE (tg_later_get (TG_LATER (self->match))));
  else if (g_strcmp0 (page, "grind") == 0)
    tg_grind_page_focus (TG_GRIND_PAGE (tg_later_get (TG_LATER (self->grind))));
  else if (g_strcmp0 (page, "prove") == 0)
    tg_prove_page_focus (TG_PROVE_PAGE (tg_later_get (TG_LATER (self->prove))));
  else if (g_strcmp0 (page, "build") == 0)
    tg_build_page_focus (TG_BUILD_PAGE (tg_later_get (TG_LATER (self->build))));
  else if (g_strcmp0 (page, "replay") == 0)
    tg_replay_page_focus (TG_REPLAY_PAGE (tg_later_get (TG_LATER (self->replay))));
  else if (g_strcmp0 (page, "debrief") == 0)
    focus_first (self->debrief);
  else if (g_strcmp0 (page, "class") == 0)
    focus_first (self->class_table);
  else if (g_strcmp0 (page, "import") == 0)
    gtk_widget_grab_focus (tg_later_get (TG_LATER (self->import)));
  else if (g_strcmp0 (page, "lessons") == 0)
    tg_lessons_page_focus (TG_LESSONS_PAGE (tg_later_get (TG_LATER (self->lessons))));
  else if (g_strcmp0 (page, "scale") == 0)
    tg_scale_page_focus (TG_SCALE_PAGE (tg_later_get (TG_LATER (self->scale))));
  return G_SOURCE_REMOVE;
}

void
tg_window_focus_field (TgWindow *window)
{
  if (window->focus_source == 0)
    window->focus_source = g_idle_add (focus_field, window);
}

void
tg_window_refresh_cautions (TgWindow *window)
{
  const char *page = tg_window_page (window);
  TgStage stage = g_strcmp0 (page, "setup") == 0   ? TG_STAGE_SETUP
                  : g_strcmp0 (page, "scale") == 0 ? TG_STAGE_WEIGH
                  : g_strcmp0 (page, "weigh") == 0 ? TG_STAGE_WEIGH
                  : g_strcmp0 (page, "build") == 0 ? TG_STAGE_BUILD
                                                   : TG_STAGE_GRIND;

  if (gtk_widget_get_visible (window->cautions_box))
    g_object_set (tg_later_get (TG_LATER (window->cautions)), "stage", (int) stage, NULL);
}

/* --- the scale ------------------------------------------------------------------------------- */

/* All windows of the program share one; a window without an application has its own. */
static TgScaleLink *
find_link (GtkApplication *application)
{
  TgScaleLink *link = application ? g_object_get_data (G_OBJECT (application), "scale-link") : NULL;

  if (link)
    return g_object_ref (link);
  link = tg_scale_link_new_here ();
  if (application)
    g_object_set_data_full (G_OBJECT (application), "scale-link", g_object_ref (link),
                            g_object_unref);
  tg_scale_link_resume (link);
  return link;
}

static void
make_link (TgWindow *self)
{
  GtkWidget *const pages[] = { self->scale, self->weigh, self->grind };

  if (self->link)
    return;
  self->link = find_link (gtk_window_get_application (GTK_WINDOW (self)));
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    g_object_set (pages[i], "link", self->link, NULL);
}

/* The scale is weighed on for the window in front. */
static void
refresh_step (TgWindow *self)
{
  if (self->link && self->session)
    tg_scale_link_set_step (self->link, tg_session_review (self->session)->setup->resolution);
}

static void
on_active (TgWindow *self)
{
  if (gtk_window_is_active (GTK_WINDOW (self)))
    refresh_step (self);
}

TgScaleLink *
tg_window_link (TgWindow *window)
{
  g_return_val_if_fail (TG_IS_WINDOW (window), NULL);

  return window->link;
}

/* --- pages, made when they are wanted -------------------------------------------------------- */

static void
make_page (TgWindow *self)
{
  GtkWidget *page = gtk_stack_get_visible_child (GTK_STACK (self->pages));

  if (TG_IS_LATER (page))
    tg_later_get (TG_LATER (page));
  tg_window_refresh_cautions (self);
  tg_window_refresh_glossary (self);
  /* After the switcher has had its say about the focus. */
  tg_window_focus_field (self);
}

/* In a narrow bar the stages are longer than the bar: the one that is shown, or has the keyboard, is
 * moved into sight, with a piece of its neighbours. */
static gboolean
show_stage (gpointer data)
{
  TgWindow *self = data;
  GtkAdjustment *along = gtk_scrolled_window_get_hadjustment (
      GTK_SCROLLED_WINDOW (self->stages_row));
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  gboolean keyboard = focus && gtk_widget_is_ancestor (focus, self->stages);
  const double peek = 36;

  self->stages_source = 0;
  for (GtkWidget *stage = gtk_widget_get_first_child (self->stages); stage;
       stage = gtk_widget_get_next_sibling (stage))
    {
      graphene_rect_t bounds;

      if ((keyboard ? stage == focus : gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (stage))) &&
          gtk_widget_compute_bounds (stage, self->stages, &bounds))
        gtk_adjustment_clamp_page (along, (double) bounds.origin.x - peek,
                                   (double) (bounds.origin.x + bounds.size.width) + peek);
    }
  return G_SOURCE_REMOVE;
}

static void
show_stage_soon (TgWindow *self)
{
  if (self->stages_source == 0 && gtk_widget_get_mapped (GTK_WIDGET (self)))
    self->stages_source = g_idle_add (show_stage, self);
}

static void
on_page (TgWindow *self)
{
  show_stage_soon (self);
  if (self->lesson)
    g_object_set (self->lesson, "page", tg_window_page (self), NULL);
  /* The window itself is on the screen first; its page follows with the next frame. */
  if (self->cautions && self->painted)
    make_page (self);
}

static gboolean
make_first_page (gpointer data)
{
  TgWindow *self = data;

  self->page_source = 0;
  self->painted = TRUE;
  make_page (self);
  make_link (self);
  refresh_step (self);
  return G_SOURCE_REMOVE;
}

static void
on_first_frame (GdkFrameClock *clock, TgWindow *self)
{
  g_signal_handlers_disconnect_by_func (clock, on_first_frame, self);
  self->page_source = g_idle_add (make_first_page, self);
}

static void
on_map (TgWindow *self)
{
  if (!self->painted)
    g_signal_connect_object (gtk_widget_get_frame_clock (GTK_WIDGET (self)), "after-paint",
                             G_CALLBACK (on_first_frame), self, 0);
}

void
tg_window_show_page (TgWindow *window, const char *name)
{
  g_return_if_fail (TG_IS_WINDOW (window));

  gtk_stack_set_visible_child_name (GTK_STACK (window->pages), name);
  on_page (window);
}

/* Weighing that belongs to grinding is done on the grind page. */
static const char *
page_that_is_next (const TgReview *review)
{
  TgState state = tg_review_part (review, review->next->slot.part)->state;

  if (review->next->kind == TG_NEXT_PAIR)
    return "match";
  if (review->next->kind == TG_NEXT_WEIGH &&
      (state == TG_STATE_UNWEIGHED || state == TG_STATE_WAITING))
    return "weigh";
  return "grind";
}

/* --- the session ----------------------------------------------------------------------------- */

static void
refresh_title (TgWindow *self)
{
  const TgReview *review;

  if (!self->session)
    return;
  review = tg_session_review (self->session);
  gtk_label_set_text (GTK_LABEL (self->job_name), review->setup->name);
  gtk_label_set_text (GTK_LABEL (self->standing), review->standing);
  gtk_widget_set_tooltip_text (self->job_name, tg_session_path (self->session));
  gtk_window_set_title (GTK_WINDOW (self), review->setup->name);
}

static void
on_changed (TgWindow *self)
{
  hide_failure (self);
  gtk_widget_set_visible (self->toast, FALSE);
  refresh_title (self);
  refresh_step (self);
  tg_window_refresh_actions (self);
}

static void
connect_pages (TgWindow *self)
{
  GtkWidget *const pages[] = { self->import,  self->setup,      self->scale,  self->weigh,
                               self->match,   self->grind,      self->prove,  self->build,
                               self->journal, self->cautions,   self->lesson, self->debrief,
                               self->replay,  self->class_table };

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    g_object_set (pages[i], "session", self->session, NULL); /* made or not */
}

/* A person who comes back on another day is told where things stand. */
static void
greet (TgWindow *self)
{
  const TgReview *review = tg_session_review (self->session);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  gint64 today = tg_stamp_day ((TgStamp){
      g_date_time_to_unix (now), (gint) (g_date_time_get_utc_offset (now) / G_TIME_SPAN_MINUTE) });

  gtk_widget_set_visible (self->strip, FALSE);
  if (review->days->len > 0 && ((const TgDay *) g_ptr_array_index (review->days, 0))->day < today)
    tg_return_strip_show (TG_RETURN_STRIP (self->strip), review);
}

static void
remember (TgWindow *self)
{
  g_autofree char *uri = g_filename_to_uri (tg_session_path (self->session), NULL, NULL);

  if (uri)
    gtk_recent_manager_add_item (gtk_recent_manager_get_default (), uri);
}

static void
drop_session (TgWindow *self)
{
  if (self->session)
    g_clear_signal_handler (&self->changed, self->session);
  g_clear_object (&self->session);
}

/* Where the lesson is, if the job is for one, else where the work goes on. */
static const char *
first_page (TgWindow *self)
{
  const char *page = tg_lesson_panel_wants_page (TG_LESSON_PANEL (self->lesson));

  return page && page[0] ? page : page_that_is_next (tg_session_review (self->session));
}

void
tg_window_set_session (TgWindow *window, TgSession *session)
{
  g_return_if_fail (TG_IS_WINDOW (window));
  g_return_if_fail (session == NULL || TG_IS_SESSION (session));

  drop_session (window);
  window->session = session ? g_object_ref (session) : NULL;
  connect_pages (window);
  gtk_widget_set_visible (window->stages_row, session != NULL);
  gtk_widget_set_visible (window->standing, session != NULL);
  gtk_widget_set_visible (window->practice, session && tg_session_desk (session));
  gtk_widget_set_visible (window->cautions_button, session != NULL);
  tg_window_refresh_actions (window);
  hide_failure (window);
  if (!session)
    {
      tg_window_show_page (window, "welcome");
      return;
    }
  window->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (on_changed), window);
  tg_welcome_page_set_message (TG_WELCOME_PAGE (window->welcome), NULL);
  refresh_title (window);
  refresh_step (window);
  greet (window);
  remember (window);
  tg_window_show_page (window, first_page (window));
}

TgSession *
tg_window_session (TgWindow *window)
{
  g_return_val_if_fail (TG_IS_WINDOW (window), NULL);

  return window->session;
}

gboolean
tg_window_open (TgWindow *window, const char *path)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TgSession) session = NULL;

  g_return_val_if_fail (TG_IS_WINDOW (window), FALSE);

  session = tg_session_open (whole, &error);
  if (session)
    {
      tg_window_set_session (window, session);
      return TRUE;
    }
  if (window->session)
    tg_window_report_failure (window, error->message);
  else
    tg_welcome_page_set_message (TG_WELCOME_PAGE (window->welcome), error->message);
  return FALSE;
}

/* In a narrow bar the job's name has the room that there is. */
static void
on_bar_shape (TgWindow *self)
{
  gboolean wide = tg_fold_shape (TG_FOLD (self->bar)) == TG_FOLD_WIDE;

  gtk_widget_set_hexpand (self->bar_end, wide);
  /* the stages share what room there is, and need little */
  gtk_widget_set_halign (self->stages, wide ? GTK_ALIGN_FILL : GTK_ALIGN_CENTER);
  show_stage_soon (self);
  gtk_widget_set_visible (self->cautions_label, wide);
}

/* --- keys ------------------------------------------------------------------------------------ */

/* Escape closes what has opened by itself, one after the other. */
static gboolean
on_key (G_GNUC_UNUSED GtkEventControllerKey *key,
        guint keyval,
        G_GNUC_UNUSED guint keycode,
        G_GNUC_UNUSED GdkModifierType state,
        TgWindow *self)
{
  GtkWidget *const closable[] = { self->toast, self->strip, self->cautions_box,
                                  self->glossary_box };

  if (keyval != GDK_KEY_Escape)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (closable); i++)
    if (gtk_widget_get_visible (closable[i]))
      {
        gtk_widget_set_visible (closable[i], FALSE);
        focus_field (self);
        return TRUE;
      }
  return FALSE;
}

static void
on_put_back (TgWindow *self)
{
  tg_window_put_back (self);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_window_dispose (GObject *object)
{
  TgWindow *self = TG_WINDOW (object);

  g_clear_handle_id (&self->page_source, g_source_remove);
  g_clear_handle_id (&self->focus_source, g_source_remove);
  g_clear_handle_id (&self->stages_source, g_source_remove);
  g_clear_handle_id (&self->toast_source, g_source_remove);
  drop_session (self);
  g_clear_object (&self->link);
  self->cautions = NULL;
  self->glossary = NULL;
  self->lesson = NULL;
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_WINDOW);
  G_OBJECT_CLASS (tg_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgWindow, bar);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, bar_end);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, job_name);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, practice);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, standing);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, stages);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, stages_row);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, cautions_button);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, cautions_label);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, failure);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, failure_text);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, reload);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, strip);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, lesson);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, lessons);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, welcome);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, new_job);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, import);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, setup);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, scale);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, weigh);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, match);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, prove);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, build);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, grind);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, journal);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, debrief);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, replay);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, class_table);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, cautions_box);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, cautions);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, glossary_box);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, glossary_scroll);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, toast);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, toast_text);
  gtk_widget_class_bind_template_child (widget_class, TgWindow, toast_back);
  gtk_widget_class_bind_template_callback (widget_class, on_bar_shape);
  gtk_widget_class_bind_template_callback (widget_class, on_failure_response);
  gtk_widget_class_bind_template_callback (widget_class, on_page);
  gtk_widget_class_bind_template_callback (widget_class, on_put_back);
}

static void
tg_window_class_init (TgWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_window_dispose;
  g_type_ensure (TG_TYPE_BUILD_PAGE);
  g_type_ensure (TG_TYPE_CAUTIONS_PANEL);
  g_type_ensure (TG_TYPE_CLASS_PAGE);
  g_type_ensure (TG_TYPE_DEBRIEF_PAGE);
  g_type_ensure (TG_TYPE_REPLAY_PAGE);
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_GRIND_PAGE);
  g_type_ensure (TG_TYPE_IMPORT_PAGE);
  g_type_ensure (TG_TYPE_JOURNAL_PAGE);
  g_type_ensure (TG_TYPE_LATER);
  g_type_ensure (TG_TYPE_LESSON_PANEL);
  g_type_ensure (TG_TYPE_LESSONS_PAGE);
  g_type_ensure (TG_TYPE_MATCH_PAGE);
  g_type_ensure (TG_TYPE_PROVE_PAGE);
  g_type_ensure (TG_TYPE_RETURN_STRIP);
  g_type_ensure (TG_TYPE_SCALE_PAGE);
  g_type_ensure (TG_TYPE_SETUP_PAGE);
  g_type_ensure (TG_TYPE_WEIGH_PAGE);
  g_type_ensure (TG_TYPE_WELCOME_PAGE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/window.ui");
  bind_children (widget_class);
  tg_window_install_actions (widget_class);
}

static void
tg_window_init (TgWindow *self)
{
  GtkEventController *key = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  for (GtkWidget *stage = gtk_widget_get_first_child (self->stages); stage;
       stage = gtk_widget_get_next_sibling (stage))
    gtk_widget_set_hexpand (stage, TRUE);
  g_object_set (gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (self->stages_row)),
                "scroll-to-focus", FALSE, NULL);
  g_signal_connect (self, "notify::focus-widget", G_CALLBACK (show_stage_soon), NULL);
  /* the stage that is shown is written in bold, and so a little wider once it has been laid out */
  g_signal_connect_object (
      gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (self->stages_row)), "changed",
      G_CALLBACK (show_stage_soon), self, G_CONNECT_SWAPPED);
  gtk_widget_add_css_class (GTK_WIDGET (self), "tenthgram");
  tg_words_name_menu (GTK_MENU_BUTTON (self->menu_button), "Menu");
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (on_active), NULL);
  gtk_widget_add_controller (GTK_WIDGET (self), key);
  tg_window_take_tables (self);
  tg_window_take_terms (self);
  tg_welcome_page_set_has_demo (TG_WELCOME_PAGE (self->welcome), tg_demo_exists ());
  tg_window_refresh_actions (self);
}

GtkWidget *
tg_window_new (GtkApplication *application)
{
  return g_object_new (TG_TYPE_WINDOW, "application", application, NULL);
}
