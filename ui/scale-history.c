/* scale-history.c: the drift of the scale over the days
 *
 * The picture comes from ui/draw; here are its size and the words for a screen reader.  Nothing is
 * computed: errors, limits and verdicts are the review's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scale-history.h"

#include <math.h>

#include "number.h"
#include "scale-drawing.h"
#include "theme.h"

#define MIN_WIDTH 240
#define NAT_WIDTH 360
/* In text sizes. */
#define BOTH_HEIGHT 15
#define ONE_HEIGHT 9
#define EMPTY_HEIGHT 3.5

struct _TgScaleHistory
{
  GtkWidget parent_instance;
  TgSession *session;
  gulong changed;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgScaleHistory, tg_scale_history, GTK_TYPE_WIDGET)

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
refresh (TgScaleHistory *self)
{
  g_autofree char *words = tg_scale_history_words (tg_session_review (self->session));

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
tg_scale_history_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TgScaleHistory *self = TG_SCALE_HISTORY (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  TgStyle style;
  cairo_t *cr;

  if (!self->session || width < 4 || height < 4)
    return;
  style = tg_theme_style (widget);
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  tg_scale_drawing_draw (cr, (TgRect){ 0, 0, width, height }, tg_session_review (self->session),
                         &style);
  cairo_destroy (cr);
}

static double
wanted_height (TgScaleHistory *self)
{
  const TgScaleReview *scale;

  if (!self->session)
    return EMPTY_HEIGHT;
  scale = &tg_session_review (self->session)->scale;
  if (scale->last_zero >= 0 && scale->last_weight >= 0)
    return BOTH_HEIGHT;
  return scale->checks->len > 0 ? ONE_HEIGHT : EMPTY_HEIGHT;
}

static void
tg_scale_history_measure (GtkWidget *widget,
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
    *minimum = *natural = (int) ceil (wanted_height (TG_SCALE_HISTORY (widget)) *
                                      tg_theme_style (widget).text_size);
}

static void
tg_scale_history_dispose (GObject *object)
{
  tg_scale_history_set_session (TG_SCALE_HISTORY (object), NULL);
  G_OBJECT_CLASS (tg_scale_history_parent_class)->dispose (object);
}

static void
tg_scale_history_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_SCALE_HISTORY (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_scale_history_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_scale_history_set_session (TG_SCALE_HISTORY (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_scale_history_class_init (TgScaleHistoryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_scale_history_dispose;
  object_class->get_property = tg_scale_history_get_property;
  object_class->set_property = tg_scale_history_set_property;
  widget_class->snapshot = tg_scale_history_snapshot;
  widget_class->measure = tg_scale_history_measure;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "scalehistory");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
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

  if (history->session == session)
    return;
  if (history->session)
    g_clear_signal_handler (&history->changed, history->session);
  g_set_object (&history->session, session);
  if (!session)
    return;
  history->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), history);
  refresh (history);
}
