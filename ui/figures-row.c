/* figures-row.c: the weights of one part with their targets
 *
 * A rod has big end, whole and small end, in the order in which they lie in the drawing; every other
 * part has its weight.  Below each, how well it is known.  Green and a tick: proven to be inside the band; a
 * sign in words otherwise, so that colour is never alone.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "figures-row.h"

#include <math.h>

#include "words.h"

typedef struct
{
  GtkWidget *box;
  GtkWidget *name;
  GtkWidget *value;
  GtkWidget *around;
  GtkWidget *remark;
  GtkWidget *company;
} Column;

struct _TgFiguresRow
{
  GtkBox parent_instance;
  Column columns[TG_N_FIGURES];
};

G_DEFINE_FINAL_TYPE (TgFiguresRow, tg_figures_row, GTK_TYPE_BOX)

/* A whole rod is a cross-check. */
static void
show_whole (const Column *column, const TgReview *review, const TgPartReview *part)
{
  g_autofree char *off = NULL;
  g_autofree char *text = NULL;

  if (!part->has_closure)
    {
      tg_words_show (GTK_LABEL (column->remark), "cross-check");
      return;
    }
  off = tg_review_grams (review, part->closure_g);
  text = g_strdup_printf ("ends differ by %s g", off);
  tg_words_show (GTK_LABEL (column->remark), text);
}

/* It has no band: it is only weighed, or only counts in that of a sum. */
static void
show_plain (const Column *column, const TgReview *review, guint index, TgFigure figure)
{
  const TgPartReview *part = tg_review_part (review, index);
  g_autofree char *place = tg_words_place (review, index);

  tg_words_show (GTK_LABEL (column->remark),
                 part->in_work && figure == TG_FIGURE_SMALL_END ? "counts with the piston" : place);
}

/* How the weight lies to the band, with others in the sum to what they leave of it. */
static void
show_band (const Column *column,
           const TgReview *review,
           const TgPartReview *part,
           const TgWeight *weight,
           double low_g,
           double tolerance_g)
{
  g_autofree char *target = NULL;
  g_autofree char *text = NULL;
  const double tiny = 1e-6;

  if (isnan (low_g))
    {
      tg_words_show (GTK_LABEL (column->remark), "no target yet");
      return;
    }
  target = tg_review_grams (review, low_g);
  if (weight->basis == TG_WEIGHT_NONE)
    text = g_strdup_printf ("target %s", target);
  else if (weight->mean_g < low_g - tiny && part->state != TG_STATE_TOO_LIGHT)
    /* taking from the other end brings it back into its band */
    text = g_strdup_printf ("just below · target %s", target);
  else if (weight->mean_g < low_g - tiny)
    {
      text = g_strdup_printf ("too light · target %s", target);
      gtk_widget_add_css_class (column->value, "alert");
    }
  else if (weight->mean_g > low_g + tolerance_g + tiny)
    {
      text = g_strdup_printf ("heavy · target %s", target);
      gtk_widget_add_css_class (column->value, "accent");
    }
  else if (!weight->judged)
    text = g_strdup_printf ("even as reckoned · target %s", target);
  else if (!weight->proven)
    text = g_strdup_printf ("even, not proven · target %s", target);
  else
    {
      text = g_strdup_printf ("✓ even, proven · target %s", target);
      gtk_widget_add_css_class (column->value, "good");
    }
  tg_words_show (GTK_LABEL (column->remark), text);
}

/* How well it is known. */
static void
show_around (const TgReview *review, const Column *column, const TgWeight *weight)
{
  g_autofree char *around = tg_review_plus_minus (review, weight->expanded_g);
  g_autofree char *text = g_strdup_printf ("%s g", around);
  gboolean known = weight->basis != TG_WEIGHT_NONE;

  gtk_widget_set_visible (column->around, known);
  tg_words_show (GTK_LABEL (column->around), known ? text : NULL);
}

/* (transfer full) (nullable) */
static char *
tooltip_of (const TgWeight *weight)
{
  const char *reckoned = "Reckoned: metal came off since it was read.";

  if (weight->basis == TG_WEIGHT_NONE)
    return NULL;
  if (weight->basis == TG_WEIGHT_ESTIMATED)
    return g_strdup_printf ("%s %s", reckoned, TG_WORDS_PLUS_MINUS);
  if (weight->judged && !weight->proven && weight->verdict != TG_UNCERTAINTY_OUT)
    return g_strdup_printf ("Read inside its band, but so close to an edge, or so roughly, that it "
                            "may lie outside. %s",
                            TG_WORDS_PLUS_MINUS);
  return g_strdup (TG_WORDS_PLUS_MINUS);
}

static void
show_column (const Column *column, const TgReview *review, guint index, TgFigure figure)
{
  const TgPartReview *part = tg_review_part (review, index);
  const TgWeight *weight = &part->weight[figure];
  g_autofree char *grams = tg_review_grams (review, weight->mean_g);
  g_autofree char *value = g_strdup_printf (
      "%s%s g", weight->basis == TG_WEIGHT_ESTIMATED ? "≈ " : "", grams);
  g_autofree char *tooltip = tooltip_of (weight);
  g_autofree char *company = tg_words_company (review, index, figure);
  TgBand band;

  gtk_widget_remove_css_class (column->value, "good");
  gtk_widget_remove_css_class (column->value, "accent");
  gtk_widget_remove_css_class (column->value, "alert");
  tg_words_show (GTK_LABEL (column->name), tg_figure_label (part->design->kind, figure));
  tg_words_show (GTK_LABEL (column->value), weight->basis == TG_WEIGHT_NONE ? "–" : value);
  gtk_widget_set_tooltip_text (column->box, tooltip);
  show_around (review, column, weight);
  tg_words_show (GTK_LABEL (column->company), company);
  gtk_widget_set_visible (column->company, company[0] != '\0');
  if (part->in_work && tg_band_of (part->design->kind, figure, &band) &&
      tg_setup_has_band (review->setup, band))
    show_band (column, review, part, weight, tg_review_own_target_g (review, index, figure),
               review->bands[band].tolerance_g);
  else if (part->design->kind == TG_PART_ROD && figure == TG_FIGURE_WHOLE)
    show_whole (column, review, part);
  else
    show_plain (column, review, index, figure);
}

void
tg_figures_row_show (TgFiguresRow *row, const TgReview *review, guint index)
{
  const TgPartReview *part;

  g_return_if_fail (TG_IS_FIGURES_ROW (row));

  part = tg_review_part (review, index);
  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    {
      gboolean shown = figure == TG_FIGURE_WHOLE || part->design->kind == TG_PART_ROD;

      gtk_widget_set_visible (row->columns[figure].box, shown);
      if (shown)
        show_column (&row->columns[figure], review, index, figure);
    }
}

static GtkWidget *
add_label (GtkWidget *box, const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
tg_figures_row_class_init (G_GNUC_UNUSED TgFiguresRowClass *klass)
{
}

static void
tg_figures_row_init (TgFiguresRow *self)
{
  static const TgFigure order[TG_N_FIGURES] = { TG_FIGURE_BIG_END, TG_FIGURE_WHOLE,
                                                TG_FIGURE_SMALL_END };

  gtk_box_set_homogeneous (GTK_BOX (self), TRUE);
  gtk_box_set_spacing (GTK_BOX (self), 8);
  gtk_widget_add_css_class (GTK_WIDGET (self), "figures-row");
  for (guint i = 0; i < TG_N_FIGURES; i++)
    {
      Column *column = &self->columns[order[i]];

      column->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
      column->name = add_label (column->box, "quiet");
      column->value = add_label (column->box, "figure");
      column->around = add_label (column->box, "figures");
      column->remark = add_label (column->box, "quiet");
      column->company = add_label (column->box, "quiet");
      gtk_widget_add_css_class (column->around, "quiet");
      gtk_widget_add_css_class (column->around, "small");
      gtk_widget_add_css_class (column->remark, "small");
      gtk_widget_add_css_class (column->company, "small");
      gtk_box_append (GTK_BOX (self), column->box);
    }
}

GtkWidget *
tg_figures_row_new (void)
{
  return g_object_new (TG_TYPE_FIGURES_ROW, NULL);
}
