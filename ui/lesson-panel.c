/* lesson-panel.c: the lesson that a practice job is for, see lesson-panel.h
 *
 * What was answered right stays on show until the person goes on, although the lesson is one step
 * further by then; @held is that step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-panel.h"

#include "effect-view.h"
#include "fold.h"
#include "lesson-ask.h"
#include "lesson-progress.h"
#include "lesson-shelf.h"
#include "scroll.h"
#include "why-view.h"
#include "words.h"

struct _TgLessonPanel
{
  GtkBox parent_instance;
  TgSession *session;
  gulong changed;
  guint due_source;
  char *page;
  GPtrArray *lessons;
  const TgLesson *lesson; /* of the job, NULL if none */
  TgLessonProgress *progress;
  int held;              /* step that is kept on show, or -1 */
  guint shown;           /* step that was on show last */
  TgLessonAnswer *given; /* what is right at the step on show, as it was when it was answered */
  char *answer;          /* what was answered at it, or NULL */
  GtkWidget *head;
  GtkWidget *unfolded;
  GtkWidget *arrow;
  GtkWidget *count;
  GtkWidget *title;
  GtkWidget *lesson_title;
  GtkWidget *bar;
  GtkWidget *fit;
  GtkWidget *body;
  GtkWidget *absent;
  GtkWidget *before;
  GtkWidget *text;
  GtkWidget *missing;
  GtkWidget *ask;
  GtkWidget *go_on;
  GtkWidget *go_there;
  GtkWidget *debrief;
  GtkWidget *more;
  GtkWidget *sum;
  GtkWidget *drawing;
};

enum
{
  PROP_SESSION = 1,
  PROP_PAGE,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgLessonPanel, tg_lesson_panel, GTK_TYPE_BOX)

static void refresh (TgLessonPanel *self);

/* The step on show; NULL after the last. */
static const TgLessonStep *
step_on_show (TgLessonPanel *self)
{
  guint index = self->held >= 0 ? (guint) self->held : self->progress->current;

  return index < self->lesson->steps->len ? tg_lesson_step (self->lesson, index) : NULL;
}

/* What is right at the step on show, if it asks. */
static const TgLessonAnswer *
right_answer (TgLessonPanel *self)
{
  return self->held >= 0 ? self->given : self->progress->answer;
}

/* -- recording ------------------------------------------------------------------------------------- */

static void
record (TgLessonPanel *self, const char *step, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_STEP);
  g_autoptr (GError) error = NULL;

  event.path = step;
  event.value = value;
  if (!tg_session_append (self->session, &event, 1, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
}

/* After everybody has heard of the change that made a practical step done. */
static gboolean
record_due (gpointer data)
{
  TgLessonPanel *self = data;
  g_autoptr (GArray) due = NULL;
  g_autoptr (GError) error = NULL;

  self->due_source = 0;
  if (!self->progress)
    return G_SOURCE_REMOVE;
  due = tg_lesson_progress_due (self->progress, self->lesson);
  if (due->len > 0 &&
      !tg_session_append (self->session, (const TgEvent *) due->data, due->len, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
  return G_SOURCE_REMOVE;
}

static void
go_to_page (TgLessonPanel *self)
{
  const char *page = tg_lesson_panel_wants_page (self);

  if (page && page[0] != '\0' && g_strcmp0 (page, self->page) != 0)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.stage", "s", page);
}

/* Where Enter goes on. */
static void
focus_control (TgLessonPanel *self)
{
  if (tg_lesson_ask_focus (TG_LESSON_ASK (self->ask)))
    return;
  if (gtk_widget_get_visible (self->go_on))
    gtk_widget_grab_focus (self->go_on);
  else if (gtk_widget_get_visible (self->debrief))
    gtk_widget_grab_focus (self->debrief);
  else
    gtk_widget_grab_focus (self->unfolded);
}

static void
forget_answer (TgLessonPanel *self)
{
  g_clear_pointer (&self->answer, g_free);
  g_clear_pointer (&self->given, tg_lesson_answer_free);
  self->held = -1;
}

static void
on_go_on (TgLessonPanel *self)
{
  const TgLessonStep *step = self->progress ? step_on_show (self) : NULL;

  if (!step)
    return;
  if (self->held >= 0)
    {
      forget_answer (self);
      refresh (self);
    }
  else
    record (self, step->id, "");
  go_to_page (self);
  step = step_on_show (self);
  if (!step || step->kind != TG_LESSON_STEP_DO)
    focus_control (self);
}

/* What is asked is kept on show with its verdict, since the next review may give other figures. */
static void
on_answered (TgLessonPanel *self, const char *value)
{
  guint current = self->progress->current;
  const TgLessonStep *step = tg_lesson_step (self->lesson, current);
  TgLessonAnswer *given = tg_lesson_answer_new (step->question, tg_session_review (self->session));

  forget_answer (self);
  self->given = given;
  self->answer = g_strdup (value);
  self->held = tg_lesson_answer_judge (given, value) ? (int) current : -1;
  record (self, step->id, value);
  focus_control (self);
  /* with its verdict and what comes next, where the window is narrow */
  tg_scroll_show (self->held >= 0 ? self->go_on : self->ask);
}

/* -- showing --------------------------------------------------------------------------------------- */

static void
show_ask (TgLessonPanel *self, const TgLessonStep *step, gboolean anew)
{
  gboolean asks = step && step->question;

  tg_lesson_ask_show (TG_LESSON_ASK (self->ask), asks ? step->question->kind : TG_LESSON_ASK_CHOICE,
                      asks ? right_answer (self) : NULL, self->answer, self->held >= 0, anew);
  gtk_widget_set_visible (self->sum, self->answer && self->given->sum->len > 0);
}

static void
make_sum (GtkMenuButton *button, gpointer data)
{
  TgLessonPanel *self = data;

  if (self->given)
    tg_why_view_pop_up (button, g_ptr_array_ref (self->given->sum), "How it comes about");
}

/* Arrows come with the verdict, so that they do not give the answer away. */
static void
show_drawing (TgLessonPanel *self, const TgLessonStep *step)
{
  TgEffectDrawing how = { .zone = -1, .end = TG_FIGURE_WHOLE };
  const TgDesign *design = NULL;

  if (step && step->light.part)
    {
      const TgLessonAnswer *given = self->given;

      design = tg_review_part (tg_session_review (self->session), step->light.index)->design;
      if (step->light.zone)
        how.zone = (int) step->light.zone_index;
      if (step->light.has & TG_LESSON_HAS_FIGURE)
        how.end = step->light.figure;
      how.moves = given && given->moves;
      if (how.moves)
        how.effect = given->effect;
    }
  if (design && !tg_part_kind_has_outline (design->kind))
    design = NULL;
  gtk_widget_set_visible (self->drawing, design != NULL);
  tg_effect_view_show (TG_EFFECT_VIEW (self->drawing), design, &how);
}

static void
show_missing (TgLessonPanel *self, const TgLessonStep *step)
{
  g_autoptr (GString) text = g_string_new (NULL);
  const TgLessonAnswer *right = right_answer (self);

  if (step && step->kind == TG_LESSON_STEP_DO)
    for (guint i = 0; i < self->progress->missing->len; i++)
      g_string_append_printf (text, "%s○ %s", i > 0 ? "\n" : "",
                              (const char *) g_ptr_array_index (self->progress->missing, i));
  else if (right && right->missing[0] != '\0')
    g_string_append (text, right->missing);
  gtk_widget_set_visible (self->missing, text->len > 0);
  tg_words_show (GTK_LABEL (self->missing), text->str);
}

static const char *
page_label (const char *page)
{
  static const char *const labels[] = { "Set up", "Scale", "Weigh", "Match",
                                        "Grind",  "Prove", "Build", "Journal" };
  const char *const *pages = tg_lesson_pages ();

  for (guint i = 0; pages[i]; i++)
    if (g_strcmp0 (pages[i], page) == 0)
      return labels[i];
  return "";
}

static void
show_go_there (TgLessonPanel *self)
{
  const char *page = self->progress ? tg_lesson_panel_wants_page (self) : NULL;
  gboolean elsewhere = page && page[0] != '\0' && g_strcmp0 (page, self->page) != 0;
  g_autofree char *label = elsewhere ? g_strdup_printf ("Go to %s", page_label (page)) : NULL;

  gtk_widget_set_visible (self->go_there, elsewhere);
  if (!elsewhere)
    return;
  gtk_button_set_label (GTK_BUTTON (self->go_there), label);
  tg_words_name (self->go_there, label);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->go_there), "s", page);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->go_there), "win.stage");
}

static void
show_buttons (TgLessonPanel *self, const TgLessonStep *step)
{
  gtk_widget_set_visible (self->go_on,
                          step && (self->held >= 0 || step->kind == TG_LESSON_STEP_SHOW));
  gtk_widget_set_visible (self->debrief, !step);
  gtk_widget_set_visible (self->more, !step);
  show_go_there (self);
}

static void
show_head (TgLessonPanel *self, const TgLessonStep *step)
{
  guint n = self->lesson->steps->len;
  guint at = self->held >= 0 ? (guint) self->held : self->progress->current;
  g_autofree char *count = step ? g_strdup_printf ("Step %u of %u", at + 1, n)
                                : g_strdup ("All steps done");
  g_autofree char *name = g_strdup_printf ("%s: %s", count,
                                           step ? step->title : self->lesson->title);

  gtk_label_set_text (GTK_LABEL (self->count), count);
  gtk_label_set_text (GTK_LABEL (self->title), step ? step->title : "What you have learned");
  gtk_label_set_text (GTK_LABEL (self->lesson_title), self->lesson->title);
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (self->bar), (double) at / n);
  tg_words_name (self->unfolded, name);
}

/* A practical step that has just been done is said to be. */
static void
show_before (TgLessonPanel *self)
{
  guint at = self->held >= 0 ? (guint) self->held : self->progress->current;
  const TgLessonStep *last = at > 0 ? tg_lesson_step (self->lesson, at - 1) : NULL;
  gboolean just = last && last->kind == TG_LESSON_STEP_DO;
  g_autofree char *text = just ? g_strdup_printf ("✓ Done: %s", last->title) : NULL;

  gtk_widget_set_visible (self->before, just);
  gtk_label_set_text (GTK_LABEL (self->before), text ? text : "");
}

/* Beside the list of lessons there is none.  A job whose lesson is on another computer says so. */
static void
show_panel (TgLessonPanel *self)
{
  gboolean absent = gtk_label_get_text (GTK_LABEL (self->absent))[0] != '\0';

  gtk_widget_set_visible (self->absent, absent);
  gtk_widget_set_visible (self->head, !absent);
  gtk_widget_set_visible (
      self->body, !absent && gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->unfolded)));
  gtk_widget_set_visible (GTK_WIDGET (self),
                          (absent || self->progress) && g_strcmp0 (self->page, "lessons") != 0);
}

static void
refresh (TgLessonPanel *self)
{
  const TgLessonStep *step;
  gboolean anew;
  guint at;

  show_panel (self);
  if (!self->progress)
    return;
  step = step_on_show (self);
  at = self->held >= 0 ? (guint) self->held : self->progress->current;
  anew = at != self->shown;
  if (anew)
    {
      if (self->held < 0)
        forget_answer (self);
      gtk_adjustment_set_value (
          gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->body)), 0);
    }
  self->shown = at;
  show_head (self, step);
  show_before (self);
  tg_words_show (GTK_LABEL (self->text), step ? step->text : self->lesson->learned);
  show_missing (self, step);
  show_ask (self, step, anew);
  show_drawing (self, step);
  show_buttons (self, step);
}

static void
on_changed (TgLessonPanel *self)
{
  g_autoptr (GArray) due = NULL;

  g_clear_pointer (&self->progress, tg_lesson_progress_free);
  if (self->lesson)
    {
      self->progress = tg_lesson_progress_new (self->lesson, tg_session_job (self->session),
                                               tg_session_review (self->session));
      due = tg_lesson_progress_due (self->progress, self->lesson);
    }
  if (due && due->len > 0 && self->due_source == 0)
    self->due_source = g_idle_add (record_due, self);
  refresh (self);
}

/* -- folding --------------------------------------------------------------------------------------- */

static void
on_toggled (TgLessonPanel *self)
{
  gboolean unfolded = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->unfolded));

  gtk_widget_set_visible (self->body, unfolded);
  gtk_image_set_from_icon_name (GTK_IMAGE (self->arrow),
                                unfolded ? "pan-down-symbolic" : "pan-end-symbolic");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->unfolded), GTK_ACCESSIBLE_STATE_EXPANDED,
                               unfolded, -1);
}

/* A narrow window has no room for it beside the work: it begins as one line there. */
static void
on_shape (TgLessonPanel *self)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->unfolded),
                                tg_fold_shape (TG_FOLD (self->head)) == TG_FOLD_WIDE);
}

void
tg_lesson_panel_focus (TgLessonPanel *panel)
{
  g_return_if_fail (TG_IS_LESSON_PANEL (panel));

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (panel->unfolded), TRUE);
  focus_control (panel);
}

/* -- the type -------------------------------------------------------------------------------------- */

gboolean
tg_lesson_panel_has_lesson (TgLessonPanel *panel)
{
  g_return_val_if_fail (TG_IS_LESSON_PANEL (panel), FALSE);

  return panel->lesson != NULL;
}

const char *
tg_lesson_panel_wants_page (TgLessonPanel *panel)
{
  const TgLessonStep *step;

  g_return_val_if_fail (TG_IS_LESSON_PANEL (panel), NULL);

  step = panel->progress ? step_on_show (panel) : NULL;
  return step ? step->page : NULL;
}

/* Lessons are read for practice jobs only, and anew for each, since a teacher may have bettered one. */
static void
find_lesson (TgLessonPanel *self)
{
  const TgSetup *setup = self->session ? tg_job_setup (tg_session_job (self->session)) : NULL;
  g_autofree char *folder = NULL;
  g_autoptr (GPtrArray) faults = NULL;

  self->lesson = NULL;
  gtk_label_set_text (GTK_LABEL (self->absent), "");
  g_clear_pointer (&self->lessons, g_ptr_array_unref);
  if (!setup || !setup->practice.on || setup->practice.lesson[0] == '\0')
    return;
  folder = tg_lesson_shelf_own_folder ();
  self->lessons = tg_lessons_load (folder, tg_session_library (self->session), &faults);
  self->lesson = tg_lessons_find (self->lessons, setup->practice.lesson);
  if (!self->lesson)
    {
      g_autofree char *text = g_strdup_printf (
          "This job belongs to the lesson “%s”, which is not on "
          "this computer. Its file can be added under Lessons.",
          setup->practice.lesson);

      gtk_label_set_text (GTK_LABEL (self->absent), text);
    }
}

static void
set_session (TgLessonPanel *self, TgSession *session)
{
  if (self->session)
    g_clear_signal_handler (&self->changed, self->session);
  g_clear_handle_id (&self->due_source, g_source_remove);
  g_set_object (&self->session, session);
  forget_answer (self);
  self->shown = G_MAXUINT;
  g_clear_pointer (&self->progress, tg_lesson_progress_free);
  find_lesson (self);
  if (session)
    self->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (on_changed), self);
  on_changed (self);
}

static void
tg_lesson_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_LESSON_PANEL (object)->session);
  else if (id == PROP_PAGE)
    g_value_set_string (value, TG_LESSON_PANEL (object)->page);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_lesson_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgLessonPanel *self = TG_LESSON_PANEL (object);

  if (id == PROP_SESSION)
    set_session (self, g_value_get_object (value));
  else if (id == PROP_PAGE)
    {
      g_free (self->page);
      self->page = g_value_dup_string (value);
      show_panel (self);
      show_go_there (self);
    }
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_lesson_panel_dispose (GObject *object)
{
  TgLessonPanel *self = TG_LESSON_PANEL (object);

  if (self->session)
    g_clear_signal_handler (&self->changed, self->session);
  g_clear_handle_id (&self->due_source, g_source_remove);
  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_LESSON_PANEL);
  G_OBJECT_CLASS (tg_lesson_panel_parent_class)->dispose (object);
}

static void
tg_lesson_panel_finalize (GObject *object)
{
  TgLessonPanel *self = TG_LESSON_PANEL (object);

  forget_answer (self);
  g_clear_pointer (&self->progress, tg_lesson_progress_free);
  g_clear_pointer (&self->lessons, g_ptr_array_unref);
  g_free (self->page);
  G_OBJECT_CLASS (tg_lesson_panel_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, head);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, unfolded);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, arrow);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, count);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, title);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, lesson_title);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, bar);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, fit);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, body);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, absent);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, before);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, text);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, missing);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, ask);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, go_on);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, go_there);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, debrief);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, more);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, sum);
  gtk_widget_class_bind_template_child (widget_class, TgLessonPanel, drawing);
  gtk_widget_class_bind_template_callback (widget_class, on_answered);
  gtk_widget_class_bind_template_callback (widget_class, on_go_on);
  gtk_widget_class_bind_template_callback (widget_class, on_shape);
  gtk_widget_class_bind_template_callback (widget_class, on_toggled);
}

static void
tg_lesson_panel_class_init (TgLessonPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = tg_lesson_panel_get_property;
  object_class->set_property = tg_lesson_panel_set_property;
  object_class->dispose = tg_lesson_panel_dispose;
  object_class->finalize = tg_lesson_panel_finalize;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_PAGE] = g_param_spec_string ("page", NULL, NULL, NULL,
                                          G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_EFFECT_VIEW);
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_LESSON_ASK);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/lesson-panel.ui");
  bind_children (widget_class);
}

static void
tg_lesson_panel_init (TgLessonPanel *self)
{
  self->held = -1;
  self->shown = G_MAXUINT;
  gtk_widget_init_template (GTK_WIDGET (self));
  tg_scroll_fit (GTK_BOX (self->fit));
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (self->sum), make_sum, self, NULL);
  tg_words_name_menu (GTK_MENU_BUTTON (self->sum), "How it comes about");
}

GtkWidget *
tg_lesson_panel_new (void)
{
  return g_object_new (TG_TYPE_LESSON_PANEL, NULL);
}
