/* readings-table.c: every reading of the set in one table
 *
 * One row for each part, family by family, those at bores first and spares after them: the mean of each
 * figure and, small, how well it is known; below it what mark up and mark down showed.  Rods end with
 * what their two ends differ from the whole; all others have one weight.  A last row gives the targets,
 * as soon as there are some.  Where a band is that of a sum, the part's own target stands below its weight
 * and what counts with it beside it.  Cells are buttons: they choose what is read next.
 *
 * The cells are made once; a change renews their texts, unless it moved parts or changed what counts in
 * a sum.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "readings-table.h"

#include <math.h>
#include <string.h>

#include "words.h"

#define NAME_CHARS 16
#define N_COLUMNS 5
#define WIDE_CHARS 18
#define AROUND_SCALE 0.78

typedef struct
{
  GtkWidget *button;
  GtkWidget *mean;
  GtkWidget *ways;
  GtkWidget *own;     /* target, where the band is that of a sum */
  GtkWidget *company; /* what counts with it; NULL where there is no room */
  guint part;
  TgFigure figure;
} Cell;

struct _TgReadingsTable
{
  GtkBox parent_instance;
  TgSession *session;
  gulong changed;
  TgSlot slot;
  gboolean wrap;
  GtkWidget *grid;
  GArray *cells;                  /* Cell */
  GPtrArray *closures;            /* by part: GtkLabel, or NULL */
  GtkWidget *targets[TG_N_BANDS]; /* or NULL */
  char *made_for;                 /* what the rows were made for, see rows_wanted() */
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

enum
{
  SIGNAL_CHOSEN,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgReadingsTable, tg_readings_table, GTK_TYPE_BOX)

/* --- texts ----------------------------------------------------------------------------------- */

static char *
mean_text (const TgReview *review, const TgWeight *weight)
{
  g_autofree char *grams = NULL;

  if (weight->basis == TG_WEIGHT_NONE)
    return g_strdup ("–");
  grams = tg_review_grams (review, weight->mean_g);
  return g_strconcat (weight->basis == TG_WEIGHT_ESTIMATED ? "≈\302\240" : "", grams, NULL);
}

/* "± 0.12", or "" */
static char *
around_text (const TgReview *review, const TgWeight *weight)
{
  return weight->basis == TG_WEIGHT_NONE ? g_strdup ("")
                                         : tg_review_plus_minus (review, weight->expanded_g);
}

/* (transfer full): @text, to stay on one line */
static char *
tie (const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);

  return g_strjoinv ("\302\240", words); /* no-break space */
}

/* The figure, and small behind it, or below where there is no room, how well it is known. */
static void
show_mean (GtkLabel *label, const char *mean, const char *around)
{
  g_autofree char *tied = tie (around);
  g_autofree char *text = NULL;
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();
  PangoAttribute *small = pango_attr_scale_new (AROUND_SCALE);

  text = g_strconcat (mean, tied[0] ? " " : "", tied, NULL);
  small->start_index = (guint) strlen (mean);
  pango_attr_list_insert (attributes, small);
  gtk_label_set_attributes (label, attributes);
  gtk_label_set_text (label, text);
}

static char *
ways_text (const TgReview *review, const TgWeight *weight)
{
  g_autofree char *up = NULL;
  g_autofree char *down = NULL;

  if (weight->n[TG_WAY_MARK_UP] == 0 && weight->n[TG_WAY_MARK_DOWN] == 0)
    return g_strdup ("");
  up = weight->n[TG_WAY_MARK_UP] > 0 ? tg_review_grams (review, weight->way_g[TG_WAY_MARK_UP])
                                     : g_strdup ("–");
  down = weight->n[TG_WAY_MARK_DOWN] > 0 ? tg_review_grams (review, weight->way_g[TG_WAY_MARK_DOWN])
                                         : g_strdup ("–");
  return g_strdup_printf ("%s / %s", up, down);
}

/* The band is that of a sum: no two parts have the same target. */
static gboolean
is_sum (const TgSetup *setup, TgBand band)
{
  return (band == TG_BAND_PISTON && tg_setup_in_sum (setup, TG_PART_PISTON)) ||
         (band == TG_BAND_ROD_BIG && tg_setup_in_sum (setup, TG_PART_BEARINGS));
}

/* "target 503.1", or "" */
static char *
own_text (const TgReview *review, const Cell *cell)
{
  double low_g = tg_review_own_target_g (review, cell->part, cell->figure);
  g_autofree char *low = NULL;
  TgBand band;

  if (isnan (low_g) ||
      !tg_band_of (tg_review_part (review, cell->part)->design->kind, cell->figure, &band) ||
      !is_sum (review->setup, band))
    return g_strdup ("");
  low = tg_review_grams (review, low_g);
  return g_strdup_printf ("target %s", low);
}

static void
show_or_hide (GtkWidget *label, const char *text)
{
  tg_words_show (GTK_LABEL (label), text);
  gtk_widget_set_visible (label, text[0] != '\0');
}

/* What a sum adds to a cell. */
static void
refresh_sum (const Cell *cell, const char *own, const char *company)
{
  g_autofree char *tied = tie (own);

  show_or_hide (cell->own, tied);
  gtk_widget_set_tooltip_text (cell->button, cell->company || !company[0] ? NULL : company);
  if (cell->company)
    tg_words_show (GTK_LABEL (cell->company), company);
}

static void
refresh_current (TgReadingsTable *self, const Cell *cell)
{
  if (self->slot.part == cell->part && self->slot.figure == cell->figure)
    gtk_widget_add_css_class (cell->button, "current");
  else
    gtk_widget_remove_css_class (cell->button, "current");
}

static void
refresh_cell (TgReadingsTable *self, const Cell *cell)
{
  const TgReview *review = tg_session_review (self->session);
  const TgPartReview *part = tg_review_part (review, cell->part);
  const TgWeight *weight = &part->weight[cell->figure];
  gboolean rod_end = cell->figure != TG_FIGURE_WHOLE;
  g_autofree char *mean = mean_text (review, weight);
  g_autofree char *ways = rod_end ? ways_text (review, weight) : g_strdup ("");
  g_autofree char *around = around_text (review, weight);
  g_autofree char *own = own_text (review, cell);
  g_autofree char *company = tg_words_company (review, cell->part, cell->figure);
  g_autofree char *place = tg_words_place (review, cell->part);
  g_autofree char *name = g_strdup_printf (
      "%s%s%s, %s: %s%s%s%s%s%s%s%s%s", part->part->name, place[0] ? ", " : "", place,
      tg_figure_label (part->design->kind, cell->figure),
      weight->basis == TG_WEIGHT_NONE ? "not read" : mean, around[0] ? " " : "", around,
      ways[0] ? ", mark up and mark down " : "", ways, own[0] ? ", " : "", own,
      company[0] ? ", " : "", company);

  show_mean (GTK_LABEL (cell->mean), mean, around);
  show_or_hide (cell->ways, ways);
  refresh_sum (cell, own, company);
  tg_words_name (cell->button, name);
  refresh_current (self, cell);
}

static void
refresh_closure (TgReadingsTable *self, const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  GtkWidget *label = g_ptr_array_index (self->closures, index);
  g_autofree char *grams = NULL;
  g_autofree char *text = NULL;

  if (!label)
    return;
  grams = tg_review_grams (review, part->closure_g);
  text = g_strconcat (part->closure_g > 0 && part->has_closure ? "+" : "", grams, NULL);
  tg_words_show (GTK_LABEL (label), part->has_closure ? text : "");
}

static void
refresh_target (TgReadingsTable *self, const TgReview *review, TgBand b)
{
  const TgBandReview *band = &review->bands[b];
  g_autofree char *low = tg_review_grams (review, band->target_g);
  g_autofree char *high = tg_review_grams (review, band->target_g + band->tolerance_g);
  g_autofree char *text = is_sum (review->setup, b)
                              ? g_strdup_printf ("%s to %s g together", low, high)
                              : g_strdup (low);

  if (self->targets[b])
    tg_words_show (GTK_LABEL (self->targets[b]), band->known ? text : "–");
}

/* --- making ---------------------------------------------------------------------------------- */

static GtkWidget *
attach_label (TgReadingsTable *self, const char *text, int column, int row, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column == 0 ? 0 : 1);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), column == 0 ? GTK_JUSTIFY_LEFT : GTK_JUSTIFY_RIGHT);
  gtk_widget_add_css_class (label, css);
  gtk_grid_attach (GTK_GRID (self->grid), label, column, row, 1, 1);
  return label;
}

/* Over the columns from @column on, without making them wider. */
static GtkWidget *
attach_wide (TgReadingsTable *self, const char *text, int column, int row, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), WIDE_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), WIDE_CHARS);
  gtk_widget_add_css_class (label, css);
  gtk_widget_add_css_class (label, "small");
  gtk_grid_attach (GTK_GRID (self->grid), label, column, row, N_COLUMNS - column, 1);
  return label;
}

static GtkWidget *
add_name (GtkWidget *box, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

/* A long name goes over lines rather than taking the room of the figures.  Where the part sits stands
 * below, as far as the name does not tell. */
static void
attach_name (TgReadingsTable *self, guint part, int row)
{
  const TgReview *review = tg_session_review (self->session);
  const char *name = tg_review_part (review, part)->part->name;
  g_autofree char *place = tg_words_place (review, part);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *label = add_name (box, name, "strong");

  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label),
                             (int) MIN (g_utf8_strlen (name, -1), NAME_CHARS / 2));
  gtk_label_set_max_width_chars (GTK_LABEL (label), NAME_CHARS);
  if (place[0])
    gtk_widget_add_css_class (add_name (box, place, "tiny"), "place");
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_grid_attach (GTK_GRID (self->grid), box, 0, row, 1, 1);
}

static void
on_clicked (GtkButton *button, TgReadingsTable *self)
{
  for (guint i = 0; i < self->cells->len; i++)
    {
      const Cell *cell = &g_array_index (self->cells, Cell, i);

      if (cell->button == GTK_WIDGET (button))
        g_signal_emit (self, signals[SIGNAL_CHOSEN], 0, cell->part, (guint) cell->figure);
    }
}

static void
add_figures (TgReadingsTable *self, GtkWidget *box, GtkWidget *label, const char *css)
{
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_label_set_wrap (GTK_LABEL (label), self->wrap);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_RIGHT);
  gtk_widget_add_css_class (label, "figures");
  if (css)
    gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
}

static void
attach_cell (TgReadingsTable *self, guint part, TgFigure figure, int column, int row)
{
  Cell cell = { .button = gtk_button_new (),
                .mean = gtk_label_new (NULL),
                .ways = gtk_label_new (NULL),
                .own = gtk_label_new (NULL),
                .part = part,
                .figure = figure };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  add_figures (self, box, cell.mean, NULL);
  add_figures (self, box, cell.ways, "tiny");
  add_figures (self, box, cell.own, "tiny");
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_button_set_child (GTK_BUTTON (cell.button), box);
  gtk_widget_add_css_class (cell.button, "flat");
  gtk_widget_add_css_class (cell.button, "cell");
  gtk_widget_set_hexpand (cell.button, TRUE);
  g_signal_connect (cell.button, "clicked", G_CALLBACK (on_clicked), self);
  gtk_grid_attach (GTK_GRID (self->grid), cell.button, column, row, 1, 1);
  if (tg_review_part (tg_session_review (self->session), part)->design->kind == TG_PART_PISTON)
    cell.company = attach_wide (self, NULL, column + 1, row, "quiet");
  g_array_append_val (self->cells, cell);
}

/* What every part has to weigh, or, of a sum, all that counts together. */
static int
add_targets (TgReadingsTable *self, const TgSetup *setup, TgPartKind kind, int row)
{
  gboolean plain = FALSE;

  for (TgBand b = 0; b < TG_N_BANDS; b++)
    if (tg_band_kind (b) == kind && tg_setup_has_band (setup, b) && !is_sum (setup, b))
      {
        self->targets[b] = attach_label (self, NULL, b == TG_BAND_ROD_BIG ? 2 : 1, row, "target");
        plain = TRUE;
      }
  if (plain)
    attach_label (self, "target", 0, row++, "quiet");
  for (TgBand b = 0; b < TG_N_BANDS; b++)
    if (tg_band_kind (b) == kind && tg_setup_has_band (setup, b) && is_sum (setup, b))
      {
        GtkWidget *label = attach_label (self, tg_setup_band_label (setup, b), 0, row, "quiet");

        gtk_label_set_max_width_chars (GTK_LABEL (label), NAME_CHARS / 2);
        self->targets[b] = attach_wide (self, NULL, 1, row++, "target");
      }
  return row;
}

static int
add_heads (TgReadingsTable *self, TgPartKind kind, int row)
{
  g_autofree char *family = g_strdup (tg_part_kind_label (kind));

  family[0] = g_ascii_toupper (family[0]);
  attach_label (self, family, 0, row, "head");
  if (kind == TG_PART_ROD)
    {
      attach_label (self, "small end", 1, row, "head");
      attach_label (self, "big end", 2, row, "head");
      attach_label (self, "whole", 3, row, "head");
      attach_label (self, "ends − whole", 4, row, "head");
    }
  else
    attach_label (self, "weight", 1, row, "head");
  return row + 1;
}

static void
add_part (TgReadingsTable *self, guint part, TgPartKind kind, int row)
{
  attach_name (self, part, row);
  if (kind != TG_PART_ROD)
    {
      attach_cell (self, part, TG_FIGURE_WHOLE, 1, row);
      return;
    }
  attach_cell (self, part, TG_FIGURE_SMALL_END, 1, row);
  attach_cell (self, part, TG_FIGURE_BIG_END, 2, row);
  attach_cell (self, part, TG_FIGURE_WHOLE, 3, row);
  g_ptr_array_index (self->closures, part) = attach_label (self, NULL, 4, row, "figures");
}

/* By bore; spares, at none, at the end. */
static int
add_family (TgReadingsTable *self, const TgSetup *setup, TgPartKind kind, int row)
{
  row = add_heads (self, kind, row);
  for (guint bore = 1; bore <= setup->cylinders + 1; bore++)
    for (guint i = 0; i < setup->parts->len; i++)
      {
        const TgPart *part = tg_setup_part (setup, i);

        if (part->design->kind == kind && part->bore == (bore <= setup->cylinders ? bore : 0))
          add_part (self, i, kind, row++);
      }
  return add_targets (self, setup, kind, row);
}

/* (transfer full): all that the rows, and not only their texts, hang on. */
static char *
rows_wanted (const TgReview *review)
{
  GString *wanted = g_string_new (review->paired >= 0 ? "paired" : "");

  for (guint i = 0; i < review->setup->parts->len; i++)
    g_string_append_printf (wanted, " %u", tg_setup_part (review->setup, i)->bore);
  for (TgBand b = 0; b < TG_N_BANDS; b++)
    g_string_append_printf (wanted, " %d%d", tg_setup_has_band (review->setup, b),
                            is_sum (review->setup, b));
  return g_string_free (wanted, FALSE);
}

static void
clear (TgReadingsTable *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->grid)))
    gtk_grid_remove (GTK_GRID (self->grid), child);
  g_array_set_size (self->cells, 0);
  g_ptr_array_set_size (self->closures, 0);
  for (TgBand b = 0; b < TG_N_BANDS; b++)
    self->targets[b] = NULL;
  g_clear_pointer (&self->made_for, g_free);
}

static void
refresh (TgReadingsTable *self)
{
  const TgReview *review = tg_session_review (self->session);
  g_autofree char *wanted = rows_wanted (review);
  int row = 0;

  if (g_strcmp0 (wanted, self->made_for) != 0)
    {
      clear (self);
      g_ptr_array_set_size (self->closures, (int) review->setup->parts->len);
      for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
        if (tg_setup_has_kind (review->setup, kind))
          row = add_family (self, review->setup, kind, row);
      self->made_for = g_steal_pointer (&wanted);
    }
  for (guint i = 0; i < self->cells->len; i++)
    refresh_cell (self, &g_array_index (self->cells, Cell, i));
  for (guint i = 0; i < self->closures->len; i++)
    refresh_closure (self, review, i);
  for (TgBand b = 0; b < TG_N_BANDS; b++)
    refresh_target (self, review, b);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_readings_table_dispose (GObject *object)
{
  tg_readings_table_set_session (TG_READINGS_TABLE (object), NULL);
  G_OBJECT_CLASS (tg_readings_table_parent_class)->dispose (object);
}

static void
tg_readings_table_finalize (GObject *object)
{
  TgReadingsTable *self = TG_READINGS_TABLE (object);

  g_array_unref (self->cells);
  g_ptr_array_unref (self->closures);
  G_OBJECT_CLASS (tg_readings_table_parent_class)->finalize (object);
}

static void
tg_readings_table_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_READINGS_TABLE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_readings_table_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_readings_table_set_session (TG_READINGS_TABLE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_readings_table_class_init (TgReadingsTableClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = tg_readings_table_dispose;
  object_class->finalize = tg_readings_table_finalize;
  object_class->get_property = tg_readings_table_get_property;
  object_class->set_property = tg_readings_table_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[SIGNAL_CHOSEN] = g_signal_new ("chosen", TG_TYPE_READINGS_TABLE, G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 2, G_TYPE_UINT,
                                         G_TYPE_UINT);
}

static void
tg_readings_table_init (TgReadingsTable *self)
{
  self->cells = g_array_new (FALSE, TRUE, sizeof (Cell));
  self->closures = g_ptr_array_new ();
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 4);
  gtk_widget_set_hexpand (self->grid, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "readings-table");
  gtk_box_append (GTK_BOX (self), self->grid);
}

GtkWidget *
tg_readings_table_new (void)
{
  return g_object_new (TG_TYPE_READINGS_TABLE, NULL);
}

void
tg_readings_table_set_session (TgReadingsTable *table, TgSession *session)
{
  g_return_if_fail (TG_IS_READINGS_TABLE (table));

  if (table->session == session)
    return;
  if (table->session)
    {
      g_clear_signal_handler (&table->changed, table->session);
      clear (table);
    }
  g_set_object (&table->session, session);
  if (!session)
    return;
  table->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), table);
  refresh (table);
}

void
tg_readings_table_set_slot (TgReadingsTable *table, TgSlot slot)
{
  g_return_if_fail (TG_IS_READINGS_TABLE (table));

  table->slot = slot;
  for (guint i = 0; i < table->cells->len; i++)
    refresh_current (table, &g_array_index (table->cells, Cell, i));
}

void
tg_readings_table_set_wrap (TgReadingsTable *table, gboolean wrap)
{
  g_return_if_fail (TG_IS_READINGS_TABLE (table));

  table->wrap = wrap;
  for (guint i = 0; i < table->cells->len; i++)
    {
      const Cell *cell = &g_array_index (table->cells, Cell, i);

      gtk_label_set_wrap (GTK_LABEL (cell->mean), wrap);
      gtk_label_set_wrap (GTK_LABEL (cell->ways), wrap);
      gtk_label_set_wrap (GTK_LABEL (cell->own), wrap);
    }
}
