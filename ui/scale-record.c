/* scale-record.c: what is known of the scale: itself, its checks, what it can prove
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Only what the review says.  What the scale can prove takes some milliseconds to reckon, so it is
 * asked for only while the record is on the screen.
 */
#include "scale-record.h"

#include <string.h>

#include "check-class-field.h"
#include "columns.h"
#include "finding-view.h"
#include "number.h"
#include "scale-history.h"
#include "setup-field.h"
#include "why-button.h"
#include "words.h"

#define N_FIELDS 6

struct _TgScaleRecord
{
  GtkBox parent_instance;
  TgColumns *fields;
  GtkLabel *zero;
  GtkLabel *weight;
  TgWhyButton *why_zero;
  TgWhyButton *why_weight;
  GtkWidget *history;
  GtkBox *findings;
  GtkWidget *proof_section;
  GtkBox *proof;
  GtkWidget *field[N_FIELDS];
  GtkWidget *class_field;
  guint wanted; /* field that the keyboard goes to next */
  TgSession *session;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgScaleRecord, tg_scale_record, GTK_TYPE_BOX)

/* --- checks ---------------------------------------------------------------------------------- */

/* (transfer full): "Sat 7 Mar 2026, 19:42" */
static char *
moment (TgStamp stamp)
{
  g_autofree char *day = tg_stamp_format_day (stamp);
  g_autofree char *time = tg_stamp_format_time (stamp);

  return g_strdup_printf ("%s, %s", day, time);
}

/* (transfer full): "+0.1 g, which fits" */
static char *
outcome (const TgReview *review, const TgScaleCheck *check)
{
  static const char *const verdicts[] = { "which fits", "which is doubtful", "which is off" };
  g_autofree char *error = tg_number_format_signed (check->error_g,
                                                    tg_mass_decimals (review->setup->resolution));

  return g_strdup_printf ("%s g, %s", error, verdicts[check->verdict]);
}

static char *
zero_words (const TgReview *review)
{
  const TgScaleReview *scale = &review->scale;
  const TgScaleCheck *check;
  g_autofree char *when = NULL;
  g_autofree char *what = NULL;

  if (scale->last_zero < 0)
    return g_strdup ("The empty scale was not looked at yet.");
  check = &g_array_index (scale->checks, TgScaleCheck, scale->last_zero);
  when = moment (check->stamp);
  what = outcome (review, check);
  return g_strdup_printf (
      "Empty scale: %s%s; %s. %u %s since.", what, check->set_back ? ", then set to zero" : "",
      when, scale->readings_since_zero, scale->readings_since_zero == 1 ? "reading" : "readings");
}

static char *
weight_words (const TgReview *review)
{
  const TgScaleReview *scale = &review->scale;
  const TgScaleCheck *check;
  g_autofree char *nominal = NULL;
  g_autofree char *when = NULL;
  g_autofree char *what = NULL;

  if (scale->last_weight < 0 && review->setup->check_weight == 0)
    return g_strdup ("A weight that always stays the same shows whether the scale does: enter "
                     "what is stamped on it.");
  if (scale->last_weight < 0)
    return g_strdup ("The check weight was not put on yet.");
  check = &g_array_index (scale->checks, TgScaleCheck, scale->last_weight);
  nominal = tg_mass_format_exact (check->nominal);
  when = moment (check->stamp);
  what = outcome (review, check);
  return g_strdup_printf ("Check weight of %s g: %s; %s.", nominal, what, when);
}

static void
refresh_findings (TgScaleRecord *self, const TgReview *review)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->findings))))
    gtk_box_remove (self->findings, child);
  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      if (finding->code == TG_FINDING_ZERO || finding->code == TG_FINDING_CHECK_WEIGHT)
        gtk_box_append (self->findings, tg_finding_view_new (review, finding));
    }
  gtk_widget_set_visible (GTK_WIDGET (self->findings),
                          gtk_widget_get_first_child (GTK_WIDGET (self->findings)) != NULL);
}

/* --- proof ----------------------------------------------------------------------------------- */

static GtkWidget *
new_proof (const TgReview *review, TgBand band, const TgProof *proof)
{
  GtkWidget *label = gtk_label_new (NULL), *why = tg_why_button_new ();
  g_autofree char *explains = g_strdup_printf ("what readings prove of the %s",
                                               tg_setup_band_label (review->setup, band));

  tg_words_show (GTK_LABEL (label), proof->text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  tg_why_button_give (TG_WHY_BUTTON (why), explains, tg_review_why_proof (review, band, proof));
  return tg_why_button_row (label, TG_WHY_BUTTON (why));
}

/* The reason of a look that was made, @last in the scale's checks. */
static void
show_why (TgWhyButton *why, const char *explains, const TgReview *review, int last)
{
  tg_why_button_give (why, explains, last < 0 ? NULL : tg_review_why_check (review, (guint) last));
}

static void
refresh_proof (TgScaleRecord *self, const TgReview *review)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->proof))))
    gtk_box_remove (self->proof, child);
  for (guint band = 0; band < TG_N_BANDS; band++)
    {
      g_autoptr (TgProof) proof = NULL;

      if (!review->bands[band].present)
        continue;
      proof = tg_review_proof (review, (TgBand) band);
      if (proof->n_parts >= 2)
        gtk_box_append (self->proof, new_proof (review, (TgBand) band, proof));
    }
  gtk_widget_set_visible (self->proof_section,
                          gtk_widget_get_first_child (GTK_WIDGET (self->proof)) != NULL);
}

static void
refresh (TgScaleRecord *self)
{
  const TgReview *review = tg_session_review (self->session);
  g_autofree char *zero = zero_words (review);
  g_autofree char *weight = weight_words (review);

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  tg_words_show (self->zero, zero);
  tg_words_show (self->weight, weight);
  show_why (self->why_zero, "the last look at the empty scale", review, review->scale.last_zero);
  show_why (self->why_weight, "the last look at the check weight", review,
            review->scale.last_weight);
  gtk_widget_set_visible (self->history, review->scale.checks->len > 0);
  refresh_findings (self, review);
  refresh_proof (self, review);
}

static void
on_map (TgScaleRecord *self)
{
  if (self->session)
    refresh (self);
}

void
tg_scale_record_set_session (TgScaleRecord *record, TgSession *session)
{
  g_return_if_fail (TG_IS_SCALE_RECORD (record));

  if (record->session == session)
    return;
  if (record->session)
    g_signal_handlers_disconnect_by_data (record->session, record);
  g_set_object (&record->session, session);
  for (guint i = 0; i < N_FIELDS; i++)
    tg_setup_field_set_session (TG_SETUP_FIELD (record->field[i]), session);
  tg_check_class_field_set_session (TG_CHECK_CLASS_FIELD (record->class_field), session);
  tg_scale_history_set_session (TG_SCALE_HISTORY (record->history), session);
  if (!session)
    return;
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), record, G_CONNECT_SWAPPED);
  refresh (record);
}

gboolean
tg_scale_record_focus (TgScaleRecord *record)
{
  GtkWidget *field;

  g_return_val_if_fail (TG_IS_SCALE_RECORD (record), FALSE);

  field = record->field[record->wanted];
  record->wanted = 0;
  return gtk_widget_grab_focus (GTK_WIDGET (tg_setup_field_get_editable (TG_SETUP_FIELD (field))));
}

void
tg_scale_record_want_field (TgScaleRecord *record, const char *path)
{
  g_return_if_fail (TG_IS_SCALE_RECORD (record));

  for (guint i = 0; i < N_FIELDS; i++)
    if (strcmp (tg_setup_field_get_path (TG_SETUP_FIELD (record->field[i])), path) == 0)
      record->wanted = i;
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_scale_record_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_SCALE_RECORD (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_scale_record_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_scale_record_set_session (TG_SCALE_RECORD (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_scale_record_dispose (GObject *object)
{
  TgScaleRecord *self = TG_SCALE_RECORD (object);

  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_SCALE_RECORD);
  G_OBJECT_CLASS (tg_scale_record_parent_class)->dispose (object);
}

static void
tg_scale_record_class_init (TgScaleRecordClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = tg_scale_record_get_property;
  object_class->set_property = tg_scale_record_set_property;
  object_class->dispose = tg_scale_record_dispose;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_SCALE_HISTORY);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/scale-record.ui");
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, fields);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, zero);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, weight);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, why_zero);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, why_weight);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, history);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, findings);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, proof_section);
  gtk_widget_class_bind_template_child (widget_class, TgScaleRecord, proof);
}

static void
tg_scale_record_init (TgScaleRecord *self)
{
  static const struct
  {
    const char *path, *label, *unit;
  } fields[N_FIELDS] = {
    { "scale", "Name of the scale", "" },
    { "resolution", "Step of the scale", "g" },
    { "capacity", "Capacity, 0 if not known", "g" },
    { "check-weight", "Check weight, 0 for none", "g" },
    { "repeats", "Readings of each way up", "" },
    { "overshoot", "Chance of an overshoot", "%" },
  };

  gtk_widget_init_template (GTK_WIDGET (self));
  self->class_field = tg_check_class_field_new ();
  for (guint i = 0; i < N_FIELDS; i++)
    {
      self->field[i] = tg_setup_field_new (fields[i].path, fields[i].label, fields[i].unit);
      tg_columns_append (self->fields, self->field[i]);
      if (strcmp (fields[i].path, "check-weight") == 0)
        tg_columns_append (self->fields, self->class_field);
    }
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
}

GtkWidget *
tg_scale_record_new (void)
{
  return g_object_new (TG_TYPE_SCALE_RECORD, NULL);
}
