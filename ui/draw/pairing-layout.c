/* pairing-layout.c: where the rows, bars and words of one picture of a pairing lie
 *
 * From above: the legend, a line for the name of the band, a line for the figures of the scale, the
 * rows.  A row has today's thin line, the bar under it, and a second line with a chip for each part,
 * which also names parts that weigh as much as the lightest and so have no width in the bar.  All
 * rows are equally high.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "pairing-layout.h"

#include <math.h>

#include "number.h"

/* A finger finds what is this high; type below 10 is for paper. */
#define FINGER 44
#define FINGER_TEXT 10
/* In heights of a line of text. */
#define PAD 0.25
#define BEFORE 0.7
#define BAR 1.3
#define CHIP_GAP 0.2
#define CHIP_LINE 1.12
#define KEY_LINE 1.3
#define HEAD_LINE 1.1
/* In sizes of text, between a swatch of the legend and its words. */
#define KEY_GAP 0.4
/* Rows do not grow beyond this share of their natural height. */
#define STRETCH 1.5

static void
key_clear (gpointer data)
{
  g_free (((TgPairingKey *) data)->text);
}

/* --- sizes beside texts ----------------------------------------------------------------------- */

double
tg_pairing_layout_swatch (const TgPairingLayout *layout)
{
  return 0.7 * layout->plot->size;
}

double
tg_pairing_layout_key_swatch (const TgPairingLayout *layout)
{
  return 1.5 * layout->plot->size;
}

double
tg_pairing_layout_dot (const TgPairingLayout *layout)
{
  return 0.75 * layout->plot->size;
}

double
tg_pairing_layout_lock (const TgPairingLayout *layout)
{
  return 1.0 * layout->plot->size;
}

gboolean
tg_pairing_layout_all_locked (const TgPairingPicture *picture, guint i)
{
  guint n = 0, n_locked = 0;

  for (guint f = 0; f < picture->n_families; f++)
    if (picture->bars[i].parts[f].number)
      {
        n++;
        n_locked += picture->bars[i].parts[f].locked;
      }
  return n > 0 && n == n_locked;
}

/* --- lines of things -------------------------------------------------------------------------- */

/* The next of a flow of things as wide as @width: @x and @line are moved on. */
static double
flow (double width, double gap, double room, double *x, guint *line)
{
  double at = *x;

  if (at > 0 && at + width > room)
    {
      at = 0;
      (*line)++;
    }
  *x = at + width + gap;
  return at;
}

static double
chip_width (const TgPairingLayout *layout,
            const TgPairingSegment *part,
            const char *text,
            gboolean all)
{
  return tg_pairing_layout_swatch (layout) + 0.3 * layout->plot->size +
         tg_plot_text_width (layout->plot, text, FALSE) +
         (part->moved ? tg_pairing_layout_dot (layout) : 0) +
         (part->locked && !all ? tg_pairing_layout_lock (layout) : 0);
}

void
tg_pairing_layout_chips (const TgPairingLayout *layout, guint i, TgPairingChip *chips)
{
  const TgPairingPicture *picture = layout->picture;
  gboolean all = tg_pairing_layout_all_locked (picture, i);
  double left = layout->plot->left, x = 0;
  double room = layout->inner.x + layout->inner.width - left;
  guint line = 0;

  for (guint f = 0; f < TG_PAIRING_DRAWING_MAX_FAMILIES; f++)
    {
      const TgPairingSegment *part = &picture->bars[i].parts[f];

      chips[f] = (TgPairingChip){ 0 };
      if (f >= picture->n_families || !part->number)
        continue;
      chips[f].text = layout->named
                          ? g_strconcat (picture->family_label[f], " ", part->number, NULL)
                          : g_strdup (part->number);
      chips[f].x = left + flow (chip_width (layout, part, chips[f].text, all),
                                0.8 * layout->plot->size, room, &x, &line);
      chips[f].line = line;
    }
}

void
tg_pairing_layout_chips_clear (TgPairingChip *chips)
{
  for (guint f = 0; f < TG_PAIRING_DRAWING_MAX_FAMILIES; f++)
    g_clear_pointer (&chips[f].text, g_free);
}

static guint
count_chip_lines (const TgPairingLayout *layout)
{
  guint n = 1;

  for (guint i = 0; i < layout->picture->n_bars; i++)
    {
      TgPairingChip chips[TG_PAIRING_DRAWING_MAX_FAMILIES];

      tg_pairing_layout_chips (layout, i, chips);
      for (guint f = 0; f < TG_PAIRING_DRAWING_MAX_FAMILIES; f++)
        n = MAX (n, chips[f].line + 1);
      tg_pairing_layout_chips_clear (chips);
    }
  return n;
}

/* With the families' names if each row then still has one line. */
static void
place_chips (TgPairingLayout *layout)
{
  layout->named = TRUE;
  layout->chip_lines = count_chip_lines (layout);
  if (layout->chip_lines == 1)
    return;
  layout->named = FALSE;
  layout->chip_lines = count_chip_lines (layout);
}

/* --- legend ----------------------------------------------------------------------------------- */

/* What a line of the legend has for words. */
static double
key_room (const TgPairingLayout *layout)
{
  return layout->inner.width - tg_pairing_layout_key_swatch (layout) - KEY_GAP * layout->plot->size;
}

/* Shortened where it is wider than a line. */
static void
add_key (TgPairingLayout *layout, TgPairingKeyKind kind, guint family, const char *text)
{
  TgPairingKey key = { .kind = kind,
                       .family = family,
                       .text = tg_plot_shorten (layout->plot, text, key_room (layout)) };

  if (key.text)
    g_array_append_val (layout->keys, key);
}

static void
add_keys (TgPairingLayout *layout)
{
  const TgPairingPicture *picture = layout->picture;
  gboolean off = FALSE, moved = FALSE, locked = FALSE;
  g_autofree char *base = tg_pairing_layout_grams (picture, 0);
  g_autofree char *edge = g_strdup_printf ("left edge: lightest of each, %s", base);
  g_autofree char *brief = g_strdup_printf ("left edge: %s", base);

  for (guint i = 0; i < picture->n_bars; i++)
    {
      off = off || picture->bars[i].touched;
      for (guint f = 0; f < picture->n_families; f++)
        {
          moved = moved || picture->bars[i].parts[f].moved;
          locked = locked || picture->bars[i].parts[f].locked;
        }
    }
  for (guint f = 0; f < picture->n_families; f++)
    add_key (layout, TG_PAIRING_KEY_FAMILY, f, picture->family_label[f]);
  if (off)
    add_key (layout, TG_PAIRING_KEY_OFF, 0, "to come off");
  if (picture->has_before)
    add_key (layout, TG_PAIRING_KEY_TODAY, 0, "today");
  if (moved)
    add_key (layout, TG_PAIRING_KEY_MOVED, 0, "from another bore");
  if (locked)
    add_key (layout, TG_PAIRING_KEY_LOCKED, 0, "locked");
  add_key (layout, TG_PAIRING_KEY_BASE, 0,
           tg_plot_text_width (layout->plot, edge, FALSE) <= key_room (layout) ? edge : brief);
}

/* Families first, the marks on a line of their own. */
static void
place_keys (TgPairingLayout *layout)
{
  const TgPlot *plot = layout->plot;
  double x = 0;
  guint line = 0;

  for (guint k = 0; k < layout->keys->len; k++)
    {
      TgPairingKey *key = &g_array_index (layout->keys, TgPairingKey, k);
      double width = tg_pairing_layout_key_swatch (layout) + KEY_GAP * plot->size +
                     tg_plot_text_width (plot, key->text, FALSE);

      if (k > 0 && key->kind != TG_PAIRING_KEY_FAMILY && key[-1].kind == TG_PAIRING_KEY_FAMILY)
        {
          x = 0;
          line++;
        }
      key->x = layout->inner.x + flow (width, 1.2 * plot->size, layout->inner.width, &x, &line);
      key->y = plot->area.y + (PAD + line * KEY_LINE) * plot->row;
    }
  layout->key_lines = line + 1;
}

/* --- columns and rows ------------------------------------------------------------------------- */

static void
measure_columns (TgPairingLayout *layout)
{
  const TgPairingPicture *picture = layout->picture;
  const TgPlot *plot = layout->plot;

  layout->label_width = tg_plot_text_width (plot, "bore", FALSE);
  for (guint i = 0; i < picture->n_bars; i++)
    {
      g_autofree char *after = tg_pairing_layout_amount (picture, i);
      g_autofree char *before = tg_pairing_layout_before_amount (picture, i);
      double label = tg_plot_text_width (plot, picture->bars[i].label, TRUE);

      layout->label_width = MAX (layout->label_width, label);
      layout->amount_width = MAX (layout->amount_width, tg_plot_text_width (plot, after, TRUE));
      if (picture->has_before)
        layout->amount_width = MAX (layout->amount_width, tg_plot_text_width (plot, before, FALSE));
    }
  layout->label_width = MIN (layout->label_width, 0.25 * layout->inner.width);
}

/* The ticks of a plot that is as high as so many figures side by side are wide. */
static void
place_scale (TgPairingLayout *layout)
{
  const TgPairingPicture *picture = layout->picture;
  TgPlot *plot = layout->plot;
  double most = picture->band_upper_g, width = plot->right - plot->left;
  g_autofree char *figure = NULL;
  TgPlotScale ticks;

  for (guint i = 0; i < picture->n_bars; i++)
    {
      most = MAX (most, picture->bars[i].after_g);
      if (picture->has_before)
        most = MAX (most, picture->bars[i].before_g);
    }
  if (most <= 0)
    most = 1;
  figure = tg_number_format (picture->base_g + most, picture->decimals);
  ticks = tg_plot_scale_new (plot,
                             (TgRect){ .height = 1.2 * plot->row * width /
                                                 (2 * tg_plot_text_width (plot, figure, FALSE)) },
                             picture->base_g, picture->base_g + most);
  layout->tick = ticks.tick;
  layout->tick_decimals = ticks.decimals;
  layout->scale = width / most;
}

static double
head_height (const TgPairingLayout *layout)
{
  double row = layout->plot->row;

  return (layout->legend ? (2 * PAD + layout->key_lines * KEY_LINE) * row : 0) +
         (layout->axis ? (2 * HEAD_LINE + PAD) * row : 0);
}

static double
content_height (const TgPairingLayout *layout)
{
  return layout->plot->row * (2 * PAD + BAR + (layout->before ? BEFORE : 0) +
                              (layout->chips ? CHIP_GAP + CHIP_LINE * layout->chip_lines : 0));
}

static double
natural_row (const TgPairingLayout *layout)
{
  double finger = FINGER * MIN (1, layout->plot->style.text_size / FINGER_TEXT);

  return MAX (finger, content_height (layout));
}

/* Leaves out what there is no height for. */
static void
place_rows (TgPairingLayout *layout)
{
  TgPlot *plot = layout->plot;
  gboolean *const least_first[] = { NULL, &layout->chips, &layout->legend, &layout->before,
                                    &layout->axis };
  double natural = natural_row (layout);

  for (guint k = 0; k < G_N_ELEMENTS (least_first); k++)
    {
      double room;

      if (least_first[k])
        *least_first[k] = FALSE;
      layout->content = content_height (layout);
      room = (plot->area.height - head_height (layout)) / layout->picture->n_bars;
      if (room < layout->content - 1e-6)
        continue;
      layout->row = MIN (room, STRETCH * natural);
      layout->top = plot->area.y + head_height (layout);
      layout->tick_y = layout->top - (HEAD_LINE + PAD) * plot->row;
      layout->band_y = layout->tick_y - HEAD_LINE * plot->row;
      return;
    }
}

TgPairingLayout *
tg_pairing_layout_new (TgRect area, const TgPairingPicture *picture, const TgStyle *style)
{
  TgPairingLayout *layout = g_new0 (TgPairingLayout, 1);
  TgPlot *plot = tg_plot_new (area, style);
  double pad = MIN (0.4 * plot->size, plot->area.width / 8);

  layout->plot = plot;
  layout->picture = picture;
  layout->inner = plot->area;
  layout->inner.x += pad;
  layout->inner.width -= 2 * pad;
  layout->keys = g_array_new (FALSE, FALSE, sizeof (TgPairingKey));
  g_array_set_clear_func (layout->keys, key_clear);
  layout->legend = layout->axis = layout->chips = TRUE;
  layout->before = picture->has_before;
  measure_columns (layout);
  plot->left = layout->inner.x + layout->label_width + 0.7 * plot->size;
  plot->right = layout->inner.x + layout->inner.width - layout->amount_width - 0.7 * plot->size;
  if (plot->right - plot->left < 2 * plot->size)
    return layout;
  place_scale (layout);
  add_keys (layout);
  place_keys (layout);
  place_chips (layout);
  place_rows (layout);
  return layout;
}

TgPlot *
tg_pairing_layout_free_to_plot (TgPairingLayout *layout)
{
  TgPlot *plot = layout->plot;

  g_array_unref (layout->keys);
  g_free (layout);
  return plot;
}

void
tg_pairing_layout_free (TgPairingLayout *layout)
{
  tg_plot_free (tg_pairing_layout_free_to_plot (layout));
}

double
tg_pairing_layout_height (const TgPairingLayout *layout)
{
  double frame = 2 * 1.5 * layout->plot->style.line;

  return ceil (frame + head_height (layout) + layout->picture->n_bars * natural_row (layout));
}

double
tg_pairing_layout_x (const TgPairingLayout *layout, double over_g)
{
  return layout->plot->left + layout->scale * over_g;
}

/* Where the content of row @i begins, which is in the middle of it. */
static double
content_top (const TgPairingLayout *layout, guint i)
{
  return layout->top + i * layout->row + (layout->row - layout->content) / 2 +
         PAD * layout->plot->row;
}

double
tg_pairing_layout_before (const TgPairingLayout *layout, guint i)
{
  return content_top (layout, i) + BEFORE / 2 * layout->plot->row;
}

TgRect
tg_pairing_layout_bar (const TgPairingLayout *layout, guint i)
{
  const TgPlot *plot = layout->plot;

  return (TgRect){ plot->left, content_top (layout, i) + (layout->before ? BEFORE * plot->row : 0),
                   plot->right - plot->left, BAR * plot->row };
}

double
tg_pairing_layout_chip_y (const TgPairingLayout *layout, guint i, guint line)
{
  TgRect bar = tg_pairing_layout_bar (layout, i);

  return bar.y + bar.height + (CHIP_GAP + line * CHIP_LINE) * layout->plot->row;
}
