/* scale-checks.c: when the scale was looked at last, and the buttons to do it again
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One quiet line.  At the first reading of a day, and after so many readings without a look at the
 * empty scale, it asks for one; nothing is held up by it.
 */
#include "scale-checks.h"

#include "fold.h"
#include "number.h"
#include "why-button.h"
#include "words.h"

/* A scale is set to zero before each reading, or every few minutes: common practice, no published
 * source. */
#define MANY_READINGS 20

struct _TgScaleChecks
{
  GtkBox parent_instance;
  GtkWidget *line;
  GtkWidget *why;
};

G_DEFINE_FINAL_TYPE (TgScaleChecks, tg_scale_checks, GTK_TYPE_BOX)

/* "19:42", on another day "Sat 7 Mar 2026". */
static char *
when_words (const TgScaleCheck *check)
{
  return tg_session_is_today (check->stamp) ? tg_stamp_format_time (check->stamp)
                                            : tg_stamp_format_day (check->stamp);
}

static char *
zero_words (const TgReview *review)
{
  const TgScaleReview *scale = &review->scale;
  guint n = scale->readings_since_zero;
  const TgScaleCheck *check;
  g_autofree char *when = NULL;
  g_autofree char *ago = NULL;
  g_autofree char *shown = NULL;

  if (scale->last_zero < 0)
    return g_strdup ("Zero not checked yet");
  check = &g_array_index (scale->checks, TgScaleCheck, scale->last_zero);
  when = when_words (check);
  ago = n == 0   ? g_strdup ("no reading since")
        : n == 1 ? g_strdup ("1 reading ago")
                 : g_strdup_printf ("%u readings ago", n);
  shown = tg_number_format_signed (check->error_g, tg_mass_decimals (review->setup->resolution));
  if (check->verdict == TG_CHECK_WEIGHT_FITS)
    return g_strdup_printf ("Zero checked: %s, %s", when, ago);
  return g_strdup_printf ("Zero was %s g: %s, %s", shown, when, ago);
}

/* What the empty scale is asked for; NULL if it is not. */
static char *
zero_question (TgSession *session)
{
  guint n = tg_session_review (session)->scale.readings_since_zero;

  if (tg_session_first_weighing_today (session))
    return g_strdup ("The first reading of the day: does the empty scale show zero?");
  if (n >= MANY_READINGS)
    return g_strdup_printf ("%u readings since the last look: does the empty scale show zero?", n);
  return NULL;
}

static char *
weight_words (const TgReview *review)
{
  static const char *const verdicts[] = { "fits", "is in doubt", "is off" };
  const TgScaleReview *scale = &review->scale;
  const TgScaleCheck *check;
  g_autofree char *when = NULL;

  if (review->setup->check_weight == 0 && scale->last_weight < 0)
    return g_strdup ("");
  if (scale->last_weight < 0)
    return g_strdup (" · check weight not tried yet");
  check = &g_array_index (scale->checks, TgScaleCheck, scale->last_weight);
  when = when_words (check);
  return g_strdup_printf (" · check weight %s: %s", verdicts[check->verdict], when);
}

/* Of the look that is in doubt, else of the one at the empty scale. */
static void
show_why (TgScaleChecks *self, const TgReview *review)
{
  const TgScaleReview *scale = &review->scale;
  int shown = scale->last_zero >= 0 ? scale->last_zero : scale->last_weight;

  if (scale->last_weight >= 0 &&
      g_array_index (scale->checks, TgScaleCheck, scale->last_weight).verdict !=
          TG_CHECK_WEIGHT_FITS)
    shown = scale->last_weight;
  tg_why_button_give (TG_WHY_BUTTON (self->why),
                      shown >= 0 && shown == scale->last_weight ? "the check weight"
                                                                : "the zero of the scale",
                      shown >= 0 ? tg_review_why_check (review, (guint) shown) : NULL);
}

void
tg_scale_checks_show (TgScaleChecks *checks, TgSession *session)
{
  g_autofree char *zero = NULL;
  g_autofree char *weight = NULL;
  g_autofree char *text = NULL;

  g_return_if_fail (TG_IS_SCALE_CHECKS (checks) && TG_IS_SESSION (session));

  zero = zero_question (session);
  if (zero)
    gtk_widget_remove_css_class (checks->line, "quiet");
  else
    {
      gtk_widget_add_css_class (checks->line, "quiet");
      zero = zero_words (tg_session_review (session));
    }
  weight = weight_words (tg_session_review (session));
  text = g_strconcat (zero, weight, NULL);
  tg_words_show (GTK_LABEL (checks->line), text);
  show_why (checks, tg_session_review (session));
}

static void
tg_scale_checks_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_SCALE_CHECKS);
  G_OBJECT_CLASS (tg_scale_checks_parent_class)->dispose (object);
}

static void
tg_scale_checks_class_init (TgScaleChecksClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_scale_checks_dispose;
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/scale-checks.ui");
  gtk_widget_class_bind_template_child (widget_class, TgScaleChecks, line);
  gtk_widget_class_bind_template_child (widget_class, TgScaleChecks, why);
}

static void
tg_scale_checks_init (TgScaleChecks *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
