/* line-samples.c: what the lines of a scale mean is learned from a few of them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scale may send many lines in a second, so a line becomes a sample only when a button is pressed:
 * the last one that came in and has a digit in it.  The button also says whether the load was at rest or moving.  What the
 * display showed is typed for samples at rest; the learner wants it for one of them at least.
 */
#include "line-samples.h"

#include "columns.h"
#include "scale-words.h"
#include "scroll.h"
#include "words.h"

typedef struct
{
  TgScaleLinkLine line;
  TgScaleRest rest;
  GtkWidget *row;
  GtkWidget *shown; /* the entry, NULL for a moving load */
} Sample;

struct _TgLineSamples
{
  GtkBox parent_instance;
  GtkWidget *standing;
  GtkWidget *moving;
  GtkBox *rows;
  GtkWidget *learn;
  GtkWidget *result;
  GtkLabel *problem;
  GtkLabel *learned;
  GtkBox *questions;
  TgScaleLink *link;
  GPtrArray *samples; /* Sample */
};

G_DEFINE_FINAL_TYPE (TgLineSamples, tg_line_samples, GTK_TYPE_BOX)

static void
refresh (TgLineSamples *self)
{
  gboolean can_take = self->link && tg_scale_link_n_lines (self->link) > 0 &&
                      self->samples->len < TG_SCALE_MAX_SAMPLES;

  gtk_widget_set_sensitive (self->standing, can_take);
  gtk_widget_set_sensitive (self->moving, can_take);
  gtk_widget_set_visible (GTK_WIDGET (self->rows), self->samples->len > 0);
  gtk_widget_set_visible (self->learn, self->samples->len > 0);
}

/* --- learning -------------------------------------------------------------------------------- */

static void
show_questions (TgLineSamples *self, GPtrArray *questions)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->questions))))
    gtk_box_remove (self->questions, child);
  for (guint i = 0; questions && i < questions->len; i++)
    {
      GtkWidget *label = gtk_label_new (NULL);

      tg_words_show (GTK_LABEL (label), g_ptr_array_index (questions, i));
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_box_append (self->questions, label);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->questions), questions && questions->len > 0);
}

static void
show_result (TgLineSamples *self, const char *problem, GPtrArray *questions)
{
  const char *learned = questions && questions->len > 0
                            ? "Learned. What the samples leave open stands below; more samples "
                              "decide it."
                            : "Learned. Nothing is left open.";

  tg_words_show_problem (NULL, self->problem, problem);
  gtk_widget_set_visible (GTK_WIDGET (self->learned), questions != NULL);
  gtk_label_set_text (self->learned, questions ? learned : "");
  show_questions (self, questions);
  tg_scroll_show (GTK_WIDGET (self->result));
}

static void
on_learn (TgLineSamples *self)
{
  TgScaleSample samples[TG_SCALE_MAX_SAMPLES];
  g_autoptr (GPtrArray) questions = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  TgScalePattern pattern;

  if (!self->link || self->samples->len == 0)
    return;
  for (guint i = 0; i < self->samples->len; i++)
    {
      const Sample *sample = g_ptr_array_index (self->samples, i);

      samples[i] = (TgScaleSample){
        .line = sample->line.text,
        .length = sample->line.length,
        .shown = sample->shown ? gtk_editable_get_text (GTK_EDITABLE (sample->shown)) : NULL,
        .rest = sample->rest,
      };
    }
  if (!tg_scale_pattern_learn (samples, self->samples->len, &pattern, questions, &error))
    {
      show_result (self, error->message, NULL);
      return;
    }
  show_result (self, NULL, questions);
  tg_scale_link_set_pattern (self->link, &pattern);
}

/* --- samples --------------------------------------------------------------------------------- */

static void
number_rows (TgLineSamples *self)
{
  for (guint i = 0; i < self->samples->len; i++)
    {
      Sample *sample = g_ptr_array_index (self->samples, i);
      GtkWidget *head = gtk_widget_get_first_child (gtk_widget_get_first_child (sample->row));
      g_autofree char *text = g_strdup_printf (
          "Sample %u, %s", i + 1, sample->rest == TG_SCALE_REST_STANDING ? "at rest" : "moving");
      g_autofree char *shown = g_strdup_printf ("What the display showed for sample %u", i + 1);

      gtk_label_set_text (GTK_LABEL (head), text);
      if (sample->shown)
        tg_words_name (sample->shown, shown);
    }
}

static void
on_drop (TgLineSamples *self, GtkWidget *button)
{
  GtkWidget *row = g_object_get_data (G_OBJECT (button), "row");

  gtk_widget_grab_focus (self->standing);
  for (guint i = 0; i < self->samples->len; i++)
    if (((Sample *) g_ptr_array_index (self->samples, i))->row == row)
      {
        gtk_box_remove (self->rows, row);
        g_ptr_array_remove_index (self->samples, i);
        break;
      }
  number_rows (self);
  refresh (self);
}

static GtkWidget *
make_entry (TgLineSamples *self)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), "what the display showed");
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (on_learn), self);
  return entry;
}

static GtkWidget *
make_row (TgLineSamples *self, Sample *sample)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *head = gtk_label_new (NULL);
  GtkWidget *drop = gtk_button_new_from_icon_name ("window-close-symbolic");
  g_autofree char *text = tg_scale_words_line (sample->line.text, sample->line.length);
  GtkWidget *line = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (head), 0);
  gtk_widget_set_hexpand (head, TRUE);
  gtk_widget_add_css_class (head, "quiet");
  gtk_widget_add_css_class (drop, "flat");
  gtk_widget_set_tooltip_text (drop, "Leave this sample out");
  tg_words_name (drop, "Leave this sample out");
  g_object_set_data (G_OBJECT (drop), "row", row);
  g_signal_connect_swapped (drop, "clicked", G_CALLBACK (on_drop), self);
  gtk_box_append (GTK_BOX (top), head);
  gtk_box_append (GTK_BOX (top), drop);
  gtk_label_set_xalign (GTK_LABEL (line), 0);
  gtk_label_set_wrap (GTK_LABEL (line), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (line), PANGO_WRAP_CHAR);
  gtk_widget_add_css_class (line, "raw-line");
  gtk_box_append (GTK_BOX (row), top);
  gtk_box_append (GTK_BOX (row), line);
  if (sample->shown)
    gtk_box_append (GTK_BOX (row), sample->shown);
  gtk_widget_add_css_class (row, "card");
  return row;
}

/* (lends): the newest line that may be a reading; the newest of all if none has a digit */
static const TgScaleLinkLine *
last_line (TgScaleLink *link)
{
  for (guint i = 0; i < tg_scale_link_n_lines (link); i++)
    {
      const TgScaleLinkLine *line = tg_scale_link_line (link, i);

      for (gsize c = 0; c < line->length; c++)
        if (g_ascii_isdigit (line->text[c]))
          return line;
    }
  return tg_scale_link_line (link, 0);
}

static void
take (TgLineSamples *self, TgScaleRest rest)
{
  Sample *sample;

  if (!self->link || tg_scale_link_n_lines (self->link) == 0 ||
      self->samples->len == TG_SCALE_MAX_SAMPLES)
    return;
  sample = g_new0 (Sample, 1);
  sample->line = *last_line (self->link);
  sample->rest = rest;
  if (rest == TG_SCALE_REST_STANDING)
    sample->shown = make_entry (self);
  sample->row = make_row (self, sample);
  g_ptr_array_add (self->samples, sample);
  gtk_box_append (self->rows, sample->row);
  number_rows (self);
  refresh (self);
  if (sample->shown)
    gtk_widget_grab_focus (sample->shown);
}

static void
on_standing (TgLineSamples *self)
{
  take (self, TG_SCALE_REST_STANDING);
}

static void
on_moving (TgLineSamples *self)
{
  take (self, TG_SCALE_REST_MOVING);
}

/* --- the type -------------------------------------------------------------------------------- */

void
tg_line_samples_set_link (TgLineSamples *self, TgScaleLink *link)
{
  g_return_if_fail (TG_IS_LINE_SAMPLES (self));

  if (self->link == link)
    return;
  if (self->link)
    g_signal_handlers_disconnect_by_data (self->link, self);
  g_set_object (&self->link, link);
  if (!link)
    return;
  g_signal_connect_swapped (link, "changed", G_CALLBACK (refresh), self);
  refresh (self);
}

static void
tg_line_samples_dispose (GObject *object)
{
  tg_line_samples_set_link (TG_LINE_SAMPLES (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_LINE_SAMPLES);
  G_OBJECT_CLASS (tg_line_samples_parent_class)->dispose (object);
}

static void
tg_line_samples_finalize (GObject *object)
{
  g_ptr_array_unref (TG_LINE_SAMPLES (object)->samples);
  G_OBJECT_CLASS (tg_line_samples_parent_class)->finalize (object);
}

static void
tg_line_samples_class_init (TgLineSamplesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_line_samples_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_line_samples_finalize;
  g_type_ensure (TG_TYPE_COLUMNS);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/line-samples.ui");
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, standing);
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, moving);
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, rows);
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, learn);
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, result);
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, problem);
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, learned);
  gtk_widget_class_bind_template_child (widget_class, TgLineSamples, questions);
  gtk_widget_class_bind_template_callback (widget_class, on_standing);
  gtk_widget_class_bind_template_callback (widget_class, on_moving);
  gtk_widget_class_bind_template_callback (widget_class, on_learn);
}

static void
tg_line_samples_init (TgLineSamples *self)
{
  self->samples = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  refresh (self);
}
