/* history-view.c: the weights of one part over the days
 *
 * The picture comes from ui/draw; here are its size and the words for a screen reader.  Nothing is
 * computed: points, passes and bands are the review's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "history-view.h"

#include <math.h>

#include "history-drawing.h"
#include "theme.h"

#define MIN_WIDTH 240
#define NAT_WIDTH 360
/* In text sizes. */
#define ROD_HEIGHT 14.5
#define PISTON_HEIGHT 9
#define EMPTY_HEIGHT 3.5

struct _TgHistoryView
{
  GtkWidget parent_instance;
  TgSession *session;
  gulong changed;
  guint part;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgHistoryView, tg_history_view, GTK_TYPE_WIDGET)

/* --- words ----------------------------------------------------------------------------------- */

static void
append_points (GString *text, const TgReview *review, const TgPartReview *part, TgFigure figure)
{
  const TgHistoryPoint *first = NULL, *last = NULL;
  g_autofree char *from = NULL;
  g_autofree char *to = NULL;
  g_autofree char *sure = NULL;
  guint n = 0;

  for (guint i = 0; i < part->history->len; i++)
    {
      const TgHistoryPoint *point = &g_array_index (part->history, TgHistoryPoint, i);

      if (point->figure != figure || point->piece + 1 != part->pieces)
        continue;
      first = first ? first : point;
      last = point;
      n++;
    }
  if (!last)
    {
      g_string_append (text, "not weighed yet");
      return;
    }
  from = tg_review_grams (review, first->mean_g);
  to = tg_review_grams (review, last->mean_g);
  sure = tg_review_plus_minus (review, last->expanded_g);
  if (n == 1)
    g_string_append_printf (text, "1 group of readings, %s %s g", to, sure);
  else
    g_string_append_printf (text, "%u groups of readings from %s to %s %s g", n, from, to, sure);
}

static void
append_band (GString *text, const TgReview *review, TgBand b)
{
  const TgBandReview *band = &review->bands[b];
  g_autofree char *low = tg_review_grams (review, band->target_g);
  g_autofree char *high = tg_review_grams (review, band->target_g + band->tolerance_g);

  if (band->known)
    g_string_append_printf (text, ", target %s to %s g", low, high);
}

char *
tg_history_view_words (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  GString *text = g_string_new (part->part->name);
  const char *between = ", ";

  if (part->pieces > 1)
    g_string_append (text, ", the new piece");
  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    {
      TgBand band;

      if (!tg_band_of (part->design->kind, figure, &band))
        continue;
      g_string_append_printf (text, "%s%s: ", between,
                              tg_figure_label (part->design->kind, figure));
      append_points (text, review, part, figure);
      append_band (text, review, band);
      between = "; ";
    }
  return g_string_free (text, FALSE);
}

char *
tg_history_view_pass_words (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  guint n = part->pass_history->len;
  const TgHistoryPass *last;
  const char *zone;
  g_autofree char *grams = NULL;

  if (n == 0)
    return g_strdup ("No passes yet.");
  last = &g_array_index (part->pass_history, TgHistoryPass, n - 1);
  zone = tg_design_zone (part->design, last->zone)->name;
  grams = tg_review_grams (review, fabs (last->taken_g));
  if (!last->shown)
    return g_strdup_printf ("%u %s, the last one on the %s, not weighed yet.", n,
                            n == 1 ? "pass" : "passes", zone);
  return g_strdup_printf ("%u %s, the last one on the %s: %s g %s.", n, n == 1 ? "pass" : "passes",
                          zone, grams, last->taken_g < 0 ? "more than before" : "taken");
}

/* --- the type -------------------------------------------------------------------------------- */

static void
refresh (TgHistoryView *self)
{
  const TgReview *review = tg_session_review (self->session);
  g_autofree char *words = tg_history_view_words (review, self->part);
  g_autofree char *passes = tg_history_view_pass_words (review, self->part);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, passes, -1);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
tg_history_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TgHistoryView *self = TG_HISTORY_VIEW (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  TgStyle style;
  cairo_t *cr;

  if (!self->session || width < 4 || height < 4)
    return;
  style = tg_theme_style (widget);
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  tg_history_drawing_draw (cr, (TgRect){ 0, 0, width, height }, tg_session_review (self->session),
                           self->part, &style);
  cairo_destroy (cr);
}

static double
wanted_height (TgHistoryView *self)
{
  const TgPartReview *part;

  if (!self->session)
    return EMPTY_HEIGHT;
  part = tg_review_part (tg_session_review (self->session), self->part);
  if (part->history->len == 0 && part->pass_history->len == 0)
    return EMPTY_HEIGHT;
  return part->design->kind == TG_PART_ROD ? ROD_HEIGHT : PISTON_HEIGHT;
}

static void
tg_history_view_measure (GtkWidget *widget,
                         GtkOrientation orientation,
                         G_GNUC_UNUSED int for_size,
                         int *minimum,
                         int *natural,
                         G_GNUC_UNUSED int *minimum_baseline,
                         G_GNUC_UNUSED int *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = MIN_WIDTH;
      *natural = NAT_WIDTH;
    }
  else
    *minimum = *natural = (int) ceil (wanted_height (TG_HISTORY_VIEW (widget)) *
                                      tg_theme_style (widget).text_size);
}

static void
tg_history_view_dispose (GObject *object)
{
  tg_history_view_set_session (TG_HISTORY_VIEW (object), NULL);
  G_OBJECT_CLASS (tg_history_view_parent_class)->dispose (object);
}

static void
tg_history_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_HISTORY_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_history_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_history_view_set_session (TG_HISTORY_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_history_view_class_init (TgHistoryViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_history_view_dispose;
  object_class->get_property = tg_history_view_get_property;
  object_class->set_property = tg_history_view_set_property;
  widget_class->snapshot = tg_history_view_snapshot;
  widget_class->measure = tg_history_view_measure;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "historyview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_history_view_init (G_GNUC_UNUSED TgHistoryView *self)
{
}

GtkWidget *
tg_history_view_new (void)
{
  return g_object_new (TG_TYPE_HISTORY_VIEW, NULL);
}

void
tg_history_view_set_session (TgHistoryView *view, TgSession *session)
{
  g_return_if_fail (TG_IS_HISTORY_VIEW (view));

  if (view->session == session)
    return;
  if (view->session)
    g_clear_signal_handler (&view->changed, view->session);
  g_set_object (&view->session, session);
  view->part = 0;
  if (!session)
    return;
  view->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), view);
  refresh (view);
}

void
tg_history_view_set_part (TgHistoryView *view, guint part)
{
  g_return_if_fail (TG_IS_HISTORY_VIEW (view));

  view->part = part;
  if (view->session)
    refresh (view);
}
