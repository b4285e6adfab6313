/* history-view.c: the weights of one part over the days
 *
 * The picture comes from ui/draw; here are its height and the words for a screen reader.  Nothing is
 * computed: points, passes and bands are the review's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "history-view.h"

#include "history-drawing.h"

/* In text sizes. */
#define ROD_HEIGHT 14.5
#define ONE_HEIGHT 9
#define EMPTY_HEIGHT 3.5

struct _TgHistoryView
{
  TgReviewPicture parent_instance;
  guint part;
};

G_DEFINE_FINAL_TYPE (TgHistoryView, tg_history_view, TG_TYPE_REVIEW_PICTURE)

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
append_band (GString *text, const TgReview *review, guint index, TgFigure figure)
{
  double low_g = tg_review_own_target_g (review, index, figure);
  g_autofree char *low = NULL;
  g_autofree char *high = NULL;
  TgBand band;

  if (isnan (low_g) || !tg_band_of (tg_review_part (review, index)->design->kind, figure, &band))
    return;
  low = tg_review_grams (review, low_g);
  high = tg_review_grams (review, low_g + review->bands[band].tolerance_g);
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
      /* the ends of a rod, the weight of every other part */
      if ((figure == TG_FIGURE_WHOLE) == (part->design->kind == TG_PART_ROD))
        continue;
      g_string_append_printf (text, "%s%s: ", between,
                              tg_figure_label (part->design->kind, figure));
      append_points (text, review, part, figure);
      append_band (text, review, index, figure);
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
begin (TgReviewPicture *picture)
{
  TG_HISTORY_VIEW (picture)->part = 0;
}

static void
draw (TgReviewPicture *picture,
      cairo_t *cr,
      TgRect area,
      const TgReview *review,
      const TgStyle *style)
{
  tg_history_drawing_draw (cr, area, review, TG_HISTORY_VIEW (picture)->part, style);
}

static double
wanted_height (TgReviewPicture *picture, const TgReview *review)
{
  const TgPartReview *part = tg_review_part (review, TG_HISTORY_VIEW (picture)->part);

  if (part->history->len == 0 && part->pass_history->len == 0)
    return EMPTY_HEIGHT;
  return part->design->kind == TG_PART_ROD ? ROD_HEIGHT : ONE_HEIGHT;
}

static char *
words (TgReviewPicture *picture, const TgReview *review)
{
  return tg_history_view_words (review, TG_HISTORY_VIEW (picture)->part);
}

static char *
pass_words (TgReviewPicture *picture, const TgReview *review)
{
  return tg_history_view_pass_words (review, TG_HISTORY_VIEW (picture)->part);
}

static void
tg_history_view_class_init (TgHistoryViewClass *klass)
{
  TgReviewPictureClass *picture_class = TG_REVIEW_PICTURE_CLASS (klass);

  picture_class->begin = begin;
  picture_class->draw = draw;
  picture_class->height = wanted_height;
  picture_class->words = words;
  picture_class->more = pass_words;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "historyview");
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

  tg_review_picture_set_session (TG_REVIEW_PICTURE (view), session);
}

void
tg_history_view_set_part (TgHistoryView *view, guint part)
{
  g_return_if_fail (TG_IS_HISTORY_VIEW (view));

  view->part = part;
  tg_review_picture_refresh (TG_REVIEW_PICTURE (view));
}
