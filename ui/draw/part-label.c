/* part-label.c: what is said about a zone, and what gives way first, see part-label.h
 *
 * An amount is said once for a single zone and in halves for a pair.  Everything else is said once;
 * pairs take turns on which side.  Numbers have a decimal point whatever the locale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "part-label.h"

#include <math.h>

TgText
tg_part_label_head_text (const TgStyle *style)
{
  return (TgText){ .font = style->font, .size = 1.15 * style->text_size, .bold = TRUE };
}

TgText
tg_part_label_line_text (const TgStyle *style, double width, TgAlign align)
{
  return (TgText){
    .font = style->font, .size = 0.9 * style->text_size, .width = width, .align = align
  };
}

char *
tg_part_label_grams (double grams)
{
  TgMass mass = tg_mass_from_g (grams);
  g_autofree char *number = NULL;

  /* amounts come in steps of the scale or halves of them; others are not known to 3 decimals */
  if (fabs (grams * 1000 - (double) mass) > 1e-6 * MAX (1, fabs (grams)))
    mass = (TgMass) (round (grams * 100) * 10);
  number = tg_mass_format (mass, mass % 100 == 0 ? 1 : mass % 10 == 0 ? 2 : 3);
  return g_strconcat (number, " g", NULL);
}

char *
tg_part_label_millimetres (double mm)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (mm < 0.005)
    return g_strdup ("under 0.01 mm");
  g_ascii_formatd (number, sizeof number, mm < 10 ? "%.2f" : "%.1f", mm);
  return g_strconcat (number, " mm", NULL);
}

void
tg_part_label_clear (gpointer data)
{
  TgLabel *label = data;

  g_free (label->head);
  g_free (label->line);
  g_free (label->reason);
  g_free (label->brief);
}

TgZoneLook
tg_part_label_look (const TgZone *zone, const TgZoneReview *review)
{
  if (zone->standing == TG_STANDING_NEVER)
    return TG_ZONE_LOOK_NEVER;
  if (review && review->amount_g > 0)
    return TG_ZONE_LOOK_WORK;
  if (!tg_zone_usable (zone))
    return TG_ZONE_LOOK_CARE;
  return review && review->passes > 0 ? TG_ZONE_LOOK_DONE : TG_ZONE_LOOK_READY;
}

static char *
depth_words (const TgZoneReview *review, gboolean pair, guint side)
{
  g_autofree char *depth = NULL;
  const char *half = side == 0 ? "one half" : "other half";

  if (review->depth_mm <= 0)
    return pair ? g_strdup (half) : NULL;
  depth = tg_part_label_millimetres (review->depth_mm);
  return pair ? g_strdup_printf ("%s, %s deep", half, depth) : g_strdup_printf ("%s deep", depth);
}

void
tg_part_label_add (
    GArray *labels, guint index, const TgZone *zone, const TgZoneReview *review, guint *turn)
{
  gboolean pair = tg_place_is_pair (zone->place);
  TgLabel label = { .zone = index, .look = tg_part_label_look (zone, review) };

  switch (label.look)
    {
    case TG_ZONE_LOOK_WORK:
      for (guint side = 0; side < (pair ? 2 : 1); side++)
        {
          label.side = side;
          label.head = tg_part_label_grams (review->amount_g / (pair ? 2 : 1));
          label.line = depth_words (review, pair, side);
          if (review->depth_mm > 0)
            label.brief = tg_part_label_millimetres (review->depth_mm);
          g_array_append_val (labels, label);
        }
      return;
    case TG_ZONE_LOOK_NEVER:
      label.line = g_strdup_printf ("not the %s", zone->name);
      label.reason = g_strdup (zone->reason);
      break;
    case TG_ZONE_LOOK_CARE:
      label.line = g_strdup_printf (
          zone->standing == TG_STANDING_FREE ? "%s: left alone" : "%s: only with care", zone->name);
      break;
    case TG_ZONE_LOOK_DONE:
      {
        g_autofree char *grams = tg_part_label_grams (review->taken_g);

        label.line = review->taken_g > 0 ? g_strdup_printf ("done, %s off", grams)
                                         : g_strdup ("done");
        break;
      }
    case TG_ZONE_LOOK_READY:
    default:
      if (review)
        return;
      label.line = g_strdup (zone->name);
      break;
    }
  /* one label is enough for a pair; they take turns on which side */
  if (pair)
    label.side = (*turn)++ % 2;
  if (label.line[0] != '\0')
    g_array_append_val (labels, label);
  else
    tg_part_label_clear (&label);
}

/* Lower gives way first. */
static int
rank (const TgLabel *label)
{
  switch (label->look)
    {
    case TG_ZONE_LOOK_WORK:
      return 3;
    case TG_ZONE_LOOK_NEVER:
    case TG_ZONE_LOOK_CARE:
      return 2;
    default:
      return 1;
    }
}

/* What the least important words on show need: share of the size the part has without labels. */
double
tg_part_label_needed_share (const GArray *labels)
{
  static const double share[] = { 0.72, 0.62, 0.55, 0.5, 0.33 };
  int least = 4;

  for (guint i = 0; i < labels->len; i++)
    {
      const TgLabel *label = &g_array_index (labels, TgLabel, i);
      int r = rank (label);

      least = MIN (least, label->reason ? 0 : r < 3 ? r : label->line ? 3 : 4);
    }
  return share[least];
}

static double
amount (const TgLabel *label, const TgPartReview *part)
{
  return part && label->look == TG_ZONE_LOOK_WORK
             ? tg_part_review_zone (part, label->zone)->amount_g
             : 0;
}

/* Takes away the least important words. FALSE when nothing is left. */
gboolean
tg_part_label_drop (GArray *labels, const TgPartReview *part)
{
  guint worst = 0;
  gboolean dropped = FALSE;

  if (labels->len == 0)
    return FALSE;
  for (guint i = 0; i < labels->len; i++)
    {
      TgLabel *label = &g_array_index (labels, TgLabel, i);

      dropped = dropped || label->reason;
      g_clear_pointer (&label->reason, g_free);
    }
  if (dropped)
    return TRUE;
  for (guint i = 1; i < labels->len; i++)
    {
      const TgLabel *a = &g_array_index (labels, TgLabel, i);
      const TgLabel *b = &g_array_index (labels, TgLabel, worst);

      if (rank (a) < rank (b) || (rank (a) == rank (b) && amount (a, part) <= amount (b, part)))
        worst = i;
    }
  if (rank (&g_array_index (labels, TgLabel, worst)) == 3)
    {
      for (guint i = 0; i < labels->len; i++)
        {
          TgLabel *label = &g_array_index (labels, TgLabel, i);

          dropped = dropped || label->line;
          g_free (label->line);
          label->line = g_steal_pointer (&label->brief);
        }
      if (dropped)
        return TRUE;
    }
  g_array_remove_index (labels, worst);
  return TRUE;
}

/* Breaks a text into as few lines of at most @most as it takes, all about equally long. */
static void
wrap_evenly (TgText *text, const char *words, double most, double *w, double *h)
{
  double whole = *w, full_w, full_h;

  text->width = most;
  tg_text_measure (text, words, &full_w, &full_h);
  for (double lines = ceil (whole / most); lines >= 2; lines--)
    for (double slack = 1.02; slack < 1.5; slack += 0.06)
      {
        text->width = MIN (most, whole / lines * slack);
        tg_text_measure (text, words, w, h);
        if (*h <= full_h * 1.01)
          return;
      }
  *w = full_w;
  *h = full_h;
}

void
tg_part_label_measure (TgLabel *label, const TgStyle *style)
{
  TgText head = tg_part_label_head_text (style);
  double width = 0, w, h;

  label->head_height = label->line_height = 0;
  if (label->head)
    {
      tg_text_measure (&head, label->head, &width, &label->head_height);
    }
  if (label->line)
    {
      g_autofree char *words = label->reason
                                   ? g_strdup_printf ("%s: %s", label->line, label->reason)
                                   : g_strdup (label->line);
      TgText line = tg_part_label_line_text (style, 0, TG_ALIGN_LEFT);
      double most = (label->reason ? 17 : 14) * style->text_size;

      tg_text_measure (&line, words, &w, &h);
      if (w > most)
        wrap_evenly (&line, words, most, &w, &h);
      width = MAX (width, w + 1);
      label->line_height = h;
    }
  label->rect.width = ceil (width) + 1;
  label->rect.height = label->head_height + label->line_height;
}
