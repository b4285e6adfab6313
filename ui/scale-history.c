/* scale-history.c: the drift of the scale over the days
 *
 * The picture comes from ui/draw; here are its height and the words for a screen reader.  Nothing is
 * computed: errors, limits and verdicts are the review's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scale-history.h"

#include "number.h"
#include "scale-drawing.h"

/* In text sizes. */
#define BOTH_HEIGHT 15
#define ONE_HEIGHT 9
#define EMPTY_HEIGHT 3.5

struct _TgScaleHistory
{
  TgReviewPicture parent_instance;
};

G_DEFINE_FINAL_TYPE (TgScaleHistory, tg_scale_history, TG_TYPE_REVIEW_PICTURE)

/* --- words ----------------------------------------------------------------------------------- */

/* What was looked at, how often, and what the last look said; nothing if there was none. */
static void
append_checks (GString *text, const TgReview *review, gboolean zero)
{
  static const char *const verdicts[] = { "fits", "doubtful", "off" };
  const TgScaleCheck *last = NULL;
  g_autofree char *nominal = NULL;
  g_autofree char *error = NULL;
  guint n = 0;

  for (guint i = 0; i < review->scale.checks->len; i++)
    {
      const TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, i);

      if (check->zero != zero)
        continue;
      last = check;
      n++;
    }
  if (!last)
    return;
  nominal = tg_mass_format_exact (last->nominal);
  error = tg_number_format_signed (last->error_g, tg_mass_decimals (review->setup->resolution));
  g_string_append (text, text->len > 0 ? "; " : "");
  if (zero)
    g_string_append (text, "zero");
  else
    g_string_append_printf (text, "check weight %s g", nominal);
  g_string_append_printf (text, ": %u %s%s %s g, %s", n, n == 1 ? "check" : "checks",
                          n == 1 ? "," : ", the last one", error, verdicts[last->verdict]);
  if (last->set_back)
    g_string_append (text, ", set to zero");
}

char *
tg_scale_history_words (const TgReview *review)
{
  GString *text = g_string_new (NULL);

  append_checks (text, review, TRUE);
  append_checks (text, review, FALSE);
  if (text->len == 0)
    g_string_append (text, "the scale was not checked yet");
  return g_string_free (text, FALSE);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
draw (G_GNUC_UNUSED TgReviewPicture *picture,
      cairo_t *cr,
      TgRect area,
      const TgReview *review,
      const TgStyle *style)
{
  tg_scale_drawing_draw (cr, area, review, style);
}

static double
wanted_height (G_GNUC_UNUSED TgReviewPicture *picture, const TgReview *review)
{
  const TgScaleReview *scale = &review->scale;

  if (scale->last_zero >= 0 && scale->last_weight >= 0)
    return BOTH_HEIGHT;
  return scale->checks->len > 0 ? ONE_HEIGHT : EMPTY_HEIGHT;
}

static char *
words (G_GNUC_UNUSED TgReviewPicture *picture, const TgReview *review)
{
  return tg_scale_history_words (review);
}

static void
tg_scale_history_class_init (TgScaleHistoryClass *klass)
{
  TgReviewPictureClass *picture_class = TG_REVIEW_PICTURE_CLASS (klass);

  picture_class->draw = draw;
  picture_class->height = wanted_height;
  picture_class->words = words;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "scalehistory");
}

static void
tg_scale_history_init (G_GNUC_UNUSED TgScaleHistory *self)
{
}

GtkWidget *
tg_scale_history_new (void)
{
  return g_object_new (TG_TYPE_SCALE_HISTORY, NULL);
}

void
tg_scale_history_set_session (TgScaleHistory *history, TgSession *session)
{
  g_return_if_fail (TG_IS_SCALE_HISTORY (history));

  tg_review_picture_set_session (TG_REVIEW_PICTURE (history), session);
}
