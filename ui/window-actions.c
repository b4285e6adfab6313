/* window-actions.c: what the menu and the keys of the window do
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "window-private.h"

#include "config.h"
#include "reading-entry.h"
#include "report.h"

#define TOAST_SECONDS 12

/* The window for another job: this one while it has none. */
static TgWindow *
window_for_job (TgWindow *self)
{
  GtkWidget *window;

  if (!self->session)
    return self;
  window = tg_window_new (gtk_window_get_application (GTK_WINDOW (self)));
  gtk_window_present (GTK_WINDOW (window));
  return TG_WINDOW (window);
}

/* (nullable): a window that has @path open already comes to the front. */
static TgWindow *
present_if_open (TgWindow *self, const char *path)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  g_autofree char *whole = g_canonicalize_filename (path, NULL);

  for (GList *l = application ? gtk_application_get_windows (application) : NULL; l; l = l->next)
    {
      TgSession *session = TG_IS_WINDOW (l->data) ? tg_window_session (l->data) : NULL;

      if (session && g_strcmp0 (tg_session_path (session), whole) == 0)
        {
          gtk_window_present (l->data);
          return l->data;
        }
    }
  return NULL;
}

/* A refused file must not leave an empty window behind, so it is read before there is one. */
TgWindow *
tg_window_open_path (TgWindow *window, const char *path)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);
  TgWindow *shows = present_if_open (window, path);
  g_autoptr (TgSession) session = NULL;
  g_autoptr (GError) error = NULL;

  if (shows)
    return shows;
  if (!window->session)
    return tg_window_open (window, path) ? window : NULL;
  session = tg_session_open (whole, &error);
  if (!session)
    {
      tg_window_report_failure (window, error->message);
      return NULL;
    }
  shows = window_for_job (window);
  tg_window_set_session (shows, session);
  return shows;
}

/* --- new, open, demo ------------------------------------------------------------------------- */

static void
leave_new_job (TgWindow *self)
{
  GtkWidget *child = gtk_widget_get_first_child (self->new_job);

  if (child)
    gtk_box_remove (GTK_BOX (self->new_job), child);
}

static void
on_created (TgNewJob *page, TgSession *session, TgWindow *self)
{
  g_autoptr (GObject) alive = g_object_ref (G_OBJECT (page));

  tg_window_set_session (self, session);
  leave_new_job (self);
}

static void
on_cancelled (TgNewJob *page, TgWindow *self)
{
  g_autoptr (GObject) alive = g_object_ref (G_OBJECT (page));

  tg_window_show_page (self, "welcome");
  leave_new_job (self);
}

static void
show_new_job (GtkWidget *widget, gboolean practice)
{
  TgWindow *self = window_for_job (TG_WINDOW (widget));
  GtkWidget *page = tg_new_job_new ();

  if (practice)
    tg_new_job_set_practice (TG_NEW_JOB (page));
  leave_new_job (self);
  gtk_widget_set_hexpand (page, TRUE);
  gtk_widget_set_vexpand (page, TRUE);
  g_signal_connect (page, "created", G_CALLBACK (on_created), self);
  g_signal_connect (page, "cancelled", G_CALLBACK (on_cancelled), self);
  gtk_box_append (GTK_BOX (self->new_job), page);
  tg_window_show_page (self, "new-job");
  gtk_widget_grab_focus (page);
}

static void
act_new_job (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  show_new_job (widget, FALSE);
}

static void
act_practise (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  show_new_job (widget, TRUE);
}

static void
on_open_response (GtkNativeDialog *dialog, int response, TgWindow *self)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file ? g_file_get_path (file) : NULL;

      if (path)
        tg_window_open_path (self, path);
    }
  g_object_unref (dialog);
}

static void
act_open (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      "Open a job", GTK_WINDOW (widget), GTK_FILE_CHOOSER_ACTION_OPEN, "_Open", "_Cancel");
  g_autoptr (GtkFileFilter) jobs = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (jobs, "Tenthgram jobs");
  gtk_file_filter_add_pattern (jobs, "*.tenthgram");
  gtk_file_filter_set_name (all, "All files");
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), jobs);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), all);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_open_response), widget, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
act_open_path (GtkWidget *widget, G_GNUC_UNUSED const char *name, GVariant *parameter)
{
  tg_window_open_path (TG_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

static void
act_open_demo (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = tg_demo_place (&error);

  if (path)
    tg_window_open_path (TG_WINDOW (widget), path);
  else
    tg_welcome_page_set_message (TG_WELCOME_PAGE (TG_WINDOW (widget)->welcome), error->message);
}

/* --- lessons --------------------------------------------------------------------------------- */

static void
on_lesson (TgLessonsPage *page G_GNUC_UNUSED, TgSession *session, TgWindow *self)
{
  if (!present_if_open (self, tg_session_path (session)))
    tg_window_set_session (window_for_job (self), session);
}

static void
act_lessons (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);
  GtkWidget *page = tg_later_get (TG_LATER (self->lessons));

  if (g_signal_handler_find (page, G_SIGNAL_MATCH_FUNC, 0, 0, NULL, on_lesson, NULL) == 0)
    g_signal_connect (page, "open", G_CALLBACK (on_lesson), self);
  tg_window_show_page (self, "lessons");
}

/* To the step of the lesson, from wherever the keyboard is. */
static void
act_lesson_step (GtkWidget *widget,
                 G_GNUC_UNUSED const char *name,
                 G_GNUC_UNUSED GVariant *parameter)
{
  TgLessonPanel *panel = TG_LESSON_PANEL (TG_WINDOW (widget)->lesson);

  if (tg_lesson_panel_has_lesson (panel))
    tg_lesson_panel_focus (panel);
}

/* --- striking out ---------------------------------------------------------------------------- */

static gboolean
hide_toast (gpointer data)
{
  TgWindow *self = data;

  self->toast_source = 0;
  gtk_widget_set_visible (self->toast, FALSE);
  return G_SOURCE_REMOVE;
}

void
tg_window_show_toast (TgWindow *window, const char *text, gboolean can_put_back)
{
  gtk_label_set_text (GTK_LABEL (window->toast_text), text);
  gtk_widget_set_visible (window->toast_back, can_put_back);
  gtk_widget_set_visible (window->toast, TRUE);
  g_clear_handle_id (&window->toast_source, g_source_remove);
  window->toast_source = g_timeout_add_seconds (TOAST_SECONDS, hide_toast, window);
}

/* Text being typed elsewhere than in a reading has its own undo. */
static gboolean
undo_text (TgWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (!focus || (!GTK_IS_TEXT (focus) && !GTK_IS_TEXT_VIEW (focus)) ||
      gtk_widget_get_ancestor (focus, TG_TYPE_READING_ENTRY))
    return FALSE;
  gtk_widget_activate_action (focus, "text.undo", NULL);
  return TRUE;
}

/* The person is put where the struck entry was made, to make it anew. */
static void
go_back_to (TgWindow *self, const TgEvent *event)
{
  TgSlot slot = { 0, event->figure, event->way };

  if (!tg_setup_find_part (tg_session_review (self->session)->setup, event->part, &slot.part))
    return;
  tg_session_set_part (self->session, slot.part);
  if (event->kind == TG_EVENT_WEIGHING)
    tg_weigh_page_set_slot (TG_WEIGH_PAGE (tg_later_get (TG_LATER (self->weigh))), slot);
}

/* What a person did when @last was the last event of it: of a pairing that freed targets, the pairing. */
static const TgEvent *
what_was_struck (TgWindow *self, const TgEvent *last)
{
  const TgJob *job = tg_session_job (self->session);

  for (guint i = self->first_strike; i < self->end_strike; i++)
    {
      int index = tg_job_find_event (job, tg_job_event (job, i)->refers);

      if (tg_job_event (job, (guint) index)->kind == TG_EVENT_PAIR)
        return tg_job_event (job, (guint) index);
    }
  return last;
}

static void
act_undo (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);
  g_autofree char *sentence = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  const char *stays_off = "";
  const TgJob *job;
  TgEvent event;
  int last;
  guint before, more;

  if (!self->session || undo_text (self))
    return;
  job = tg_session_job (self->session);
  last = tg_session_last_done (self->session);
  if (last < 0)
    {
      tg_window_show_toast (self, "There is nothing left to strike out.", FALSE);
      return;
    }
  event = *tg_job_event (job, (guint) last);
  before = tg_job_n_events (job);
  if (!tg_session_undo (self->session, &error))
    {
      tg_window_report_failure (self, error->message);
      return;
    }
  self->first_strike = before;
  self->end_strike = tg_job_n_events (tg_session_job (self->session));
  go_back_to (self, &event);
  sentence = tg_report_event (tg_session_review (self->session), what_was_struck (self, &event));
  more = self->end_strike - before - 1;
  if (tg_session_desk (self->session) && event.kind == TG_EVENT_PASS)
    stays_off = ". The metal stays off";
  if (more > 0)
    text = g_strdup_printf ("Struck out: %s, and %u more that came with it%s", sentence, more,
                            stays_off);
  else
    text = g_strdup_printf ("Struck out: %s%s", sentence, stays_off);
  tg_window_show_toast (self, text, TRUE);
}

void
tg_window_put_back (TgWindow *window)
{
  g_autoptr (GArray) strikes = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  g_autoptr (GError) error = NULL;

  for (guint i = window->first_strike; i < window->end_strike; i++)
    {
      TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

      strike.refers = tg_job_event (tg_session_job (window->session), i)->id;
      g_array_append_val (strikes, strike);
    }
  gtk_widget_set_visible (window->toast, FALSE);
  if (strikes->len > 0 &&
      !tg_session_append (window->session, (const TgEvent *) strikes->data, strikes->len, &error))
    tg_window_report_failure (window, error->message);
}

/* --- moving about ---------------------------------------------------------------------------- */

static void
act_stage (GtkWidget *widget, G_GNUC_UNUSED const char *name, GVariant *parameter)
{
  if (TG_WINDOW (widget)->session)
    tg_window_show_page (TG_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

/* To one of the views of Prove. */
static void
act_prove (GtkWidget *widget, G_GNUC_UNUSED const char *name, GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);

  if (!self->session)
    return;
  tg_prove_page_show (TG_PROVE_PAGE (tg_later_get (TG_LATER (self->prove))),
                      g_variant_get_string (parameter, NULL));
  tg_window_show_page (self, "prove");
}

static TgWeighPage *
go_to_weigh (TgWindow *self)
{
  tg_window_show_page (self, "weigh");
  return TG_WEIGH_PAGE (tg_later_get (TG_LATER (self->weigh)));
}

/* To the first reading that is missing. */
static void
act_weigh_on (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  tg_weigh_page_lead (go_to_weigh (TG_WINDOW (widget)));
}

static void
act_check_zero (GtkWidget *widget,
                G_GNUC_UNUSED const char *name,
                G_GNUC_UNUSED GVariant *parameter)
{
  tg_weigh_page_check (go_to_weigh (TG_WINDOW (widget)), TG_READING_OF_NOTHING);
}

/* Without one, to where it is said which one there is. */
static void
act_check_weight (GtkWidget *widget,
                  G_GNUC_UNUSED const char *name,
                  G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);

  if (tg_session_review (self->session)->setup->check_weight > 0)
    tg_weigh_page_check (go_to_weigh (self), TG_READING_OF_WEIGHT);
  else
    {
      tg_window_show_page (self, "scale");
      tg_scale_page_want_field (TG_SCALE_PAGE (tg_later_get (TG_LATER (self->scale))),
                                "check-weight");
      tg_window_focus_field (self);
    }
}

static void
act_cautions (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);

  gtk_widget_set_visible (self->cautions_box,
                          self->session && !gtk_widget_get_visible (self->cautions_box));
  tg_window_refresh_cautions (self);
}

/* Where parts are ground, those that are only weighed are passed over. */
static void
step_part (TgWindow *self, int by)
{
  const TgReview *review = tg_session_review (self->session);
  gboolean grind = g_strcmp0 (tg_window_page (self), "grind") == 0;
  guint n = review->parts->len, part = tg_session_part (self->session);

  for (guint i = 0; i < n; i++)
    {
      part = (part + n + (guint) by) % n;
      if (!grind || tg_review_part (review, part)->in_work)
        break;
    }
  tg_session_set_part (self->session, part);
  tg_window_focus_field (self);
}

static void
act_next_part (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  step_part (TG_WINDOW (widget), 1);
}

static void
act_last_part (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  step_part (TG_WINDOW (widget), -1);
}

static void
act_report_failure (GtkWidget *widget, G_GNUC_UNUSED const char *name, GVariant *parameter)
{
  g_autofree char *text = g_strdup_printf ("Not saved: %s", g_variant_get_string (parameter, NULL));

  tg_window_report_failure (TG_WINDOW (widget), text);
}

static void
act_about (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  gtk_show_about_dialog (GTK_WINDOW (widget), "program-name", "Tenthgram", "version", TG_VERSION,
                         "logo-icon-name", "io.github.tenthgram.Tenthgram", "comments",
                         "Rods and pistons of one engine, even to a tenth of a gram.\n"
                         "The engine maker’s manual, local rules and licensed practice come first.",
                         "license-type", GTK_LICENSE_GPL_3_0, NULL);
}

void
tg_window_refresh_actions (TgWindow *window)
{
  static const char *const need_job[] = {
    "win.save-sheet",   "win.import",    "win.export",    "win.undo",     "win.stage",
    "win.cautions",     "win.next-part", "win.last-part", "win.weigh-on", "win.check-zero",
    "win.check-weight", "win.prove",     "win.print",     "win.replay",
  };

  for (guint i = 0; i < G_N_ELEMENTS (need_job); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (window), need_job[i], window->session != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.debrief",
                                 window->session &&
                                     tg_job_setup (tg_session_job (window->session))->practice.on);
}

void
tg_window_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.new-job", NULL, act_new_job);
  gtk_widget_class_install_action (widget_class, "win.practise", NULL, act_practise);
  gtk_widget_class_install_action (widget_class, "win.open", NULL, act_open);
  gtk_widget_class_install_action (widget_class, "win.open-path", "s", act_open_path);
  gtk_widget_class_install_action (widget_class, "win.open-demo", NULL, act_open_demo);
  gtk_widget_class_install_action (widget_class, "win.lessons", NULL, act_lessons);
  gtk_widget_class_install_action (widget_class, "win.lesson-step", NULL, act_lesson_step);
  gtk_widget_class_install_action (widget_class, "win.save-sheet", NULL, tg_window_act_save_sheet);
  gtk_widget_class_install_action (widget_class, "win.print", NULL, tg_window_act_print);
  gtk_widget_class_install_action (widget_class, "win.import", NULL, tg_window_act_import);
  gtk_widget_class_install_action (widget_class, "win.export", "s", tg_window_act_export);
  gtk_widget_class_install_action (widget_class, "win.debrief", NULL, tg_window_act_debrief);
  gtk_widget_class_install_action (widget_class, "win.replay", "i", tg_window_act_replay);
  gtk_widget_class_install_action (widget_class, "win.class", NULL, tg_window_act_class);
  gtk_widget_class_install_action (widget_class, "win.open-debrief", "s",
                                   tg_window_act_open_debrief);
  gtk_widget_class_install_action (widget_class, "win.undo", NULL, act_undo);
  gtk_widget_class_install_action (widget_class, "win.stage", "s", act_stage);
  gtk_widget_class_install_action (widget_class, "win.prove", "s", act_prove);
  gtk_widget_class_install_action (widget_class, "win.cautions", NULL, act_cautions);
  gtk_widget_class_install_action (widget_class, "win.glossary", NULL, tg_window_act_glossary);
  gtk_widget_class_install_action (widget_class, "win.glossary-here", NULL,
                                   tg_window_act_glossary_here);
  gtk_widget_class_install_action (widget_class, "win.weigh-on", NULL, act_weigh_on);
  gtk_widget_class_install_action (widget_class, "win.check-zero", NULL, act_check_zero);
  gtk_widget_class_install_action (widget_class, "win.check-weight", NULL, act_check_weight);
  gtk_widget_class_install_action (widget_class, "win.next-part", NULL, act_next_part);
  gtk_widget_class_install_action (widget_class, "win.last-part", NULL, act_last_part);
  gtk_widget_class_install_action (widget_class, "win.report-failure", "s", act_report_failure);
  gtk_widget_class_install_action (widget_class, "win.about", NULL, act_about);
}
