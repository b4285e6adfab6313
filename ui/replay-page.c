/* replay-page.c: the journal of a job, entry by entry
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each entry is shown in the review of the job as it stood with it; of a practice job that is open
 * (tg_debrief_is_open()) with what was true then, and what the debrief says of that moment.
 */
#include "replay-page.h"

#include "clamp.h"
#include "debrief-line-view.h"
#include "fold.h"
#include "part-drawing.h"
#include "plain-part.h"
#include "practice-replay.h"
#include "report.h"
#include "theme.h"
#include "words.h"

/* px: with less room there are no words in the drawing */
#define LABELS_WIDTH 380

struct _TgReplayPage
{
  GtkBox parent_instance;
  GtkWidget *scroller;
  GtkAdjustment *position;
  GtkWidget *box;
  GtkWidget *when;
  GtkWidget *sentence;
  GtkWidget *controls;
  GtkWidget *first;
  GtkWidget *back;
  GtkWidget *slider;
  GtkWidget *on;
  GtkWidget *last;
  GtkWidget *lines;
  GtkWidget *fold;
  GtkWidget *drawing;
  GtkWidget *part;
  GtkWidget *figures;
  GtkWidget *hidden;
  GtkWidget *next;
  TgSession *session;
  TgJob *then;        /* the job with the entries up to the one that is shown */
  TgReview *review;   /* of it */
  TgDebrief *debrief; /* (nullable): of the whole job, where it may be seen */
  guint shown_part;   /* the one that is drawn */
  guint n_debriefed;  /* entries when the debrief was made */
};

enum
{
  PROP_0,
  PROP_SESSION,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgReplayPage, tg_replay_page, GTK_TYPE_BOX)

GtkWidget *
tg_replay_page_new (void)
{
  return g_object_new (TG_TYPE_REPLAY_PAGE, NULL);
}

guint
tg_replay_page_index (TgReplayPage *page)
{
  g_return_val_if_fail (TG_IS_REPLAY_PAGE (page), 0);

  return (guint) MAX (0, gtk_adjustment_get_value (page->position) - 1);
}

static guint
n_entries (TgReplayPage *self)
{
  return self->session ? tg_job_n_events (tg_session_job (self->session)) : 0;
}

/* -- the drawing --------------------------------------------------------------------------------------- */

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  TgReplayPage *self = data;
  const TgRect all = { 0, 0, width, height };
  TgStyle style = tg_theme_style (GTK_WIDGET (area));
  const TgPartReview *part;
  TgPartDrawing how = { .labels = width >= LABELS_WIDTH, .selected = -1 };

  if (!self->review || self->review->parts->len == 0)
    return;
  part = tg_review_part (self->review, self->shown_part);
  how.full_g = tg_part_drawing_full_g (self->review);
  if (tg_part_kind_has_outline (part->design->kind))
    tg_part_drawing_draw (cr, all, part, &how, &style);
  else
    tg_plain_part_draw_in (cr, all, part->design->kind, &style);
}

/* The part of the entry, else the one of the last entry before it that had one. */
static guint
part_of_moment (TgReplayPage *self)
{
  guint part = 0;

  for (guint i = tg_job_n_events (self->then); i-- > 0;)
    if (tg_setup_find_part (self->review->setup, tg_job_event (self->then, i)->part, &part))
      return part;
  return 0;
}

/* -- figures -------------------------------------------------------------------------------------------- */

/* Takes @text. */
static void
put (TgReplayPage *self, int column, int row, char *text, gboolean head)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column == 0 ? 0 : 1);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, head ? "quiet" : "figures");
  gtk_grid_attach (GTK_GRID (self->figures), label, column, row, 1, 1);
  g_free (text);
}

/* (transfer full) */
static char *
known_words (const TgReplayPage *self, const TgWeight *weight)
{
  g_autofree char *grams = NULL;

  if (weight->basis == TG_WEIGHT_NONE)
    return g_strdup ("–");
  grams = tg_review_grams (self->review, weight->mean_g);
  return g_strdup_printf ("%s%s g", weight->basis == TG_WEIGHT_ESTIMATED ? "≈ " : "", grams);
}

static void
show_figures (TgReplayPage *self, const TgPracticeBench *bench)
{
  const TgPartReview *part = tg_review_part (self->review, self->shown_part);
  gboolean rod = part->design->kind == TG_PART_ROD;
  GtkWidget *child;
  int row = 1;

  while ((child = gtk_widget_get_first_child (self->figures)))
    gtk_grid_remove (GTK_GRID (self->figures), child);
  put (self, 0, 0, g_strdup ("Figure"), TRUE);
  put (self, 1, 0, g_strdup ("known then"), TRUE);
  if (bench)
    put (self, 2, 0, g_strdup ("true then"), TRUE);
  for (TgFigure figure = rod ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE; figure < TG_N_FIGURES;
       figure++, row++)
    {
      g_autofree char *grams = NULL;

      put (self, 0, row, g_strdup (tg_figure_label (part->design->kind, figure)), FALSE);
      put (self, 1, row, known_words (self, &part->weight[figure]), FALSE);
      if (!bench)
        continue;
      grams = tg_debrief_grams (self->review->setup,
                                tg_practice_bench_truth (bench, self->shown_part, figure));
      put (self, 2, row, g_strdup_printf ("%s g", grams), FALSE);
    }
}

/* -- the moment -------------------------------------------------------------------------------------------- */

static void
show_entry (TgReplayPage *self)
{
  const TgJob *job = tg_session_job (self->session);
  guint index = tg_replay_page_index (self);
  const TgEvent *event = tg_job_event (job, index);
  g_autofree char *day = tg_stamp_format_day (event->stamp);
  g_autofree char *time = tg_stamp_format_time (event->stamp);
  g_autofree char *entry = tg_report_entry (self->review, self->then, index);
  g_autofree char *when = NULL;
  int refers = event->kind == TG_EVENT_STRIKE ? tg_job_find_event (job, event->refers) : -1;

  when = g_strdup_printf ("Entry %u of %u · %s, %s%s%s%s", index + 1, n_entries (self), day, time,
                          event->who[0] ? " · " : "", event->who,
                          tg_session_review (self->session)->struck[index] ? " · struck out later"
                                                                           : "");
  gtk_label_set_text (GTK_LABEL (self->when), when);
  if (refers >= 0)
    {
      g_autofree char *inner = tg_report_event (self->review, tg_job_event (job, (guint) refers));
      g_autofree char *whole = g_strdup_printf ("Struck out: %s", inner);

      tg_words_show (GTK_LABEL (self->sentence), whole);
    }
  else
    tg_words_show (GTK_LABEL (self->sentence), entry);
}

static void
show_lines (TgReplayPage *self)
{
  GtkWidget *child;
  int index = (int) tg_replay_page_index (self);

  while ((child = gtk_widget_get_first_child (self->lines)))
    gtk_box_remove (GTK_BOX (self->lines), child);
  for (guint i = 0; self->debrief && i < self->debrief->lines->len; i++)
    {
      const TgDebriefLine *line = g_ptr_array_index (self->debrief->lines, i);

      if (line->event == index)
        gtk_box_append (GTK_BOX (self->lines), tg_debrief_line_view_new (line, FALSE));
    }
  gtk_widget_set_visible (self->lines, gtk_widget_get_first_child (self->lines) != NULL);
}

static void
show_part (TgReplayPage *self)
{
  const TgPartReview *part;
  g_autoptr (TgPracticeBench) bench = NULL;
  g_autofree char *head = NULL;
  g_autofree char *next = NULL;

  self->shown_part = part_of_moment (self);
  part = tg_review_part (self->review, self->shown_part);
  if (self->debrief)
    bench = tg_practice_replay (self->then, tg_job_n_events (self->then));
  head = g_strdup_printf ("%s: %s", part->part->name, tg_part_review_label (part));
  gtk_label_set_text (GTK_LABEL (self->part), head);
  show_figures (self, bench);
  next = g_strdup_printf ("Then next: %s, %s", self->review->next->title,
                          self->review->next->large);
  tg_words_show (GTK_LABEL (self->next), next);
  tg_words_name (self->drawing, head);
  gtk_widget_queue_draw (self->drawing);
}

static void
forget_moment (TgReplayPage *self)
{
  g_clear_pointer (&self->review, tg_review_free);
  g_clear_pointer (&self->then, tg_job_free);
}

static void
refresh_debrief (TgReplayPage *self)
{
  const TgJob *job = tg_session_job (self->session);
  gboolean practice = tg_job_setup (job)->practice.on;
  gboolean open = practice && tg_debrief_is_open (job, tg_session_review (self->session));

  gtk_widget_set_visible (self->hidden, practice && !open);
  if (self->debrief && open && self->n_debriefed == n_entries (self))
    return;
  g_clear_pointer (&self->debrief, tg_debrief_free);
  if (open)
    self->debrief = tg_debrief_new (job);
  self->n_debriefed = n_entries (self);
}

static void
refresh (TgReplayPage *self)
{
  guint n = n_entries (self), index = tg_replay_page_index (self);

  forget_moment (self);
  gtk_widget_set_visible (self->fold, n > 0);
  gtk_widget_set_visible (self->controls, n > 0);
  gtk_widget_set_visible (self->when, n > 0);
  gtk_widget_set_sensitive (self->first, index > 0);
  gtk_widget_set_sensitive (self->back, index > 0);
  gtk_widget_set_sensitive (self->on, index + 1 < n);
  gtk_widget_set_sensitive (self->last, index + 1 < n);
  if (n == 0)
    {
      gtk_label_set_text (GTK_LABEL (self->sentence), "The journal is empty so far.");
      return;
    }
  refresh_debrief (self);
  self->then = tg_job_first (tg_session_job (self->session), MIN (n, index + 1));
  self->review = tg_review_new (self->then);
  show_entry (self);
  show_lines (self);
  show_part (self);
}

static void
refresh_if_seen (TgReplayPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    refresh (self);
}

static void
on_changed (TgReplayPage *self)
{
  gtk_adjustment_set_upper (self->position, MAX (1, n_entries (self)));
  refresh_if_seen (self);
}

static void
tg_replay_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (tg_replay_page_parent_class)->map (widget);
  refresh (TG_REPLAY_PAGE (widget));
}

/* -- what the person does ------------------------------------------------------------------------------------ */

void
tg_replay_page_show (TgReplayPage *page, guint index)
{
  g_return_if_fail (TG_IS_REPLAY_PAGE (page));

  gtk_adjustment_set_value (page->position, (double) index + 1);
}

void
tg_replay_page_focus (TgReplayPage *page)
{
  g_return_if_fail (TG_IS_REPLAY_PAGE (page));

  gtk_widget_grab_focus (page->slider);
}

static void
on_position (TgReplayPage *self)
{
  refresh_if_seen (self);
}

static void
step (TgReplayPage *self, double by)
{
  gtk_adjustment_set_value (self->position, gtk_adjustment_get_value (self->position) + by);
}

static void
on_first (TgReplayPage *self)
{
  tg_replay_page_show (self, 0);
}

static void
on_back (TgReplayPage *self)
{
  step (self, -1);
}

static void
on_on (TgReplayPage *self)
{
  step (self, 1);
}

static void
on_last (TgReplayPage *self)
{
  step (self, n_entries (self));
}

/* From anywhere on the page: the slider takes these keys by itself. */
static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, gpointer data)
{
  TgReplayPage *self = TG_REPLAY_PAGE (
      gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys)));

  (void) code;
  (void) data;
  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK))
    return GDK_EVENT_PROPAGATE;
  if (key == GDK_KEY_Left)
    on_back (self);
  else if (key == GDK_KEY_Right)
    on_on (self);
  else if (key == GDK_KEY_Home)
    on_first (self);
  else if (key == GDK_KEY_End)
    on_last (self);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

/* -- the object ---------------------------------------------------------------------------------------------- */

static void
set_session (TgReplayPage *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  forget_moment (self);
  g_clear_pointer (&self->debrief, tg_debrief_free);
  g_set_object (&self->session, session);
  if (!session)
    return;
  g_signal_connect_object (session, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  gtk_adjustment_set_upper (self->position, MAX (1, n_entries (self)));
  gtk_adjustment_set_value (self->position, 1);
  refresh_if_seen (self);
}

static void
tg_replay_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_REPLAY_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_replay_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_REPLAY_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_replay_page_dispose (GObject *object)
{
  TgReplayPage *self = TG_REPLAY_PAGE (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_REPLAY_PAGE);
  forget_moment (self);
  g_clear_pointer (&self->debrief, tg_debrief_free);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tg_replay_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, position);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, box);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, when);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, sentence);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, controls);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, first);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, back);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, slider);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, on);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, last);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, lines);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, fold);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, drawing);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, part);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, figures);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, hidden);
  gtk_widget_class_bind_template_child (widget_class, TgReplayPage, next);
  gtk_widget_class_bind_template_callback (widget_class, on_position);
  gtk_widget_class_bind_template_callback (widget_class, on_first);
  gtk_widget_class_bind_template_callback (widget_class, on_back);
  gtk_widget_class_bind_template_callback (widget_class, on_on);
  gtk_widget_class_bind_template_callback (widget_class, on_last);
}

static void
tg_replay_page_class_init (TgReplayPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_FOLD);
  object_class->get_property = tg_replay_page_get_property;
  object_class->set_property = tg_replay_page_set_property;
  object_class->dispose = tg_replay_page_dispose;
  widget_class->map = tg_replay_page_map;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/replay-page.ui");
  bind_children (widget_class);
}

static void
tg_replay_page_init (TgReplayPage *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self->drawing), draw, self, NULL);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), NULL);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
