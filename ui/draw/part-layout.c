/* part-layout.c: where everything of one drawing lies, see part-layout.h
 *
 * Labels stand in two rows (above and below the part) or two columns (left and right of it); a
 * leader runs from each to its zone.  Of rows and columns the one that leaves the part larger is
 * taken; a rod stands upright where that makes it clearly larger.  If the part would become too small
 * for its rectangle, words give way in this order: reasons, states and names, never and with care,
 * depths, the smallest amounts.  In a row or column labels keep the order of their zones and are
 * pushed apart, so that they cannot overlap.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "part-layout.h"

#include <math.h>

#define SIDES 2 /* above and below, or left and right */

/* One way to arrange the part and its labels. */
typedef struct
{
  gboolean upright;
  gboolean columns;
  gboolean dimension;
  double scale;
  double deep[SIDES]; /* height of a row, width of a column */
} Plan;

typedef struct
{
  TgRect area;
  TgRect mm; /* bounds of the part */
  double fixed;
  double text;
  double pad;
  double dimension; /* room for the dimension line across it */
} Frame;

TgText
tg_part_layout_head_text (const TgStyle *style)
{
  return (TgText){ .font = style->font, .size = 1.15 * style->text_size, .bold = TRUE };
}

TgText
tg_part_layout_line_text (const TgStyle *style, double width, TgAlign align)
{
  return (TgText){
    .font = style->font, .size = 0.9 * style->text_size, .width = width, .align = align
  };
}

char *
tg_part_layout_grams (double grams)
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
tg_part_layout_millimetres (double mm)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (mm < 0.005)
    return g_strdup ("under 0.01 mm");
  g_ascii_formatd (number, sizeof number, mm < 10 ? "%.2f" : "%.1f", mm);
  return g_strconcat (number, " mm", NULL);
}

static void
clear_zone (gpointer data)
{
  g_free (((TgZoneLayout *) data)->inside);
}

static void
clear_label (gpointer data)
{
  TgLabel *label = data;

  g_free (label->head);
  g_free (label->line);
  g_free (label->reason);
  g_free (label->brief);
}

void
tg_part_layout_free (TgPartLayout *layout)
{
  g_array_unref (layout->zones);
  g_array_unref (layout->labels);
  g_free (layout->dimension.text);
  g_free (layout);
}

static TgZoneLook
look_of (const TgZone *zone, const TgZoneReview *review)
{
  if (zone->standing == TG_STANDING_NEVER)
    return TG_ZONE_LOOK_NEVER;
  if (review && review->amount_g > 0)
    return TG_ZONE_LOOK_WORK;
  if (!tg_zone_usable (zone))
    return TG_ZONE_LOOK_CARE;
  return review && review->passes > 0 ? TG_ZONE_LOOK_DONE : TG_ZONE_LOOK_READY;
}

/* ── words ─────────────────────────────────────────────────────────────────────────────────── */

static char *
depth_words (const TgZoneReview *review, gboolean pair, guint side)
{
  g_autofree char *depth = NULL;
  const char *half = side == 0 ? "one half" : "other half";

  if (review->depth_mm <= 0)
    return pair ? g_strdup (half) : NULL;
  depth = tg_part_layout_millimetres (review->depth_mm);
  return pair ? g_strdup_printf ("%s, %s deep", half, depth) : g_strdup_printf ("%s deep", depth);
}

static void
add_label (GArray *labels, guint index, const TgZone *zone, const TgZoneReview *review, guint *turn)
{
  gboolean pair = tg_place_is_pair (zone->place);
  TgLabel label = { .zone = index, .look = look_of (zone, review) };

  switch (label.look)
    {
    case TG_ZONE_LOOK_WORK:
      for (guint side = 0; side < (pair ? 2 : 1); side++)
        {
          label.side = side;
          label.head = tg_part_layout_grams (review->amount_g / (pair ? 2 : 1));
          label.line = depth_words (review, pair, side);
          if (review->depth_mm > 0)
            label.brief = tg_part_layout_millimetres (review->depth_mm);
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
        g_autofree char *grams = tg_part_layout_grams (review->taken_g);

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
    clear_label (&label);
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
static double
needed_share (const GArray *labels)
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
static gboolean
drop_words (GArray *labels, const TgPartReview *part)
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

/* ── sizes ─────────────────────────────────────────────────────────────────────────────────── */

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

static void
measure_label (TgLabel *label, const TgStyle *style)
{
  TgText head = tg_part_layout_head_text (style);
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
      TgText line = tg_part_layout_line_text (style, 0, TG_ALIGN_LEFT);
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

static TgPoint
label_center (const TgDesign *design, const TgLabel *label, gboolean upright)
{
  TgView view = { .scale = 1, .upright = upright };
  TgShape sides[2];

  tg_outline_zone (design, tg_design_zone (design, label->zone), sides);
  return tg_view_point (&view, sides[label->side].center);
}

/* Which row or column each label goes to: its own side of the part, else the emptier one. */
static void
choose_sides (
    const TgDesign *design, const Frame *frame, const Plan *plan, const GArray *labels, guint *side)
{
  TgView view = { .scale = 1, .upright = plan->upright };
  TgPoint middle = tg_view_point (
      &view, (TgPoint){ frame->mm.x + frame->mm.width / 2, frame->mm.y + frame->mm.height / 2 });
  double across = plan->columns != plan->upright ? frame->mm.width : frame->mm.height;
  double filled[SIDES] = { 0, 0 };

  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < labels->len; i++)
      {
        const TgLabel *label = &g_array_index (labels, TgLabel, i);
        TgPoint at = label_center (design, label, plan->upright);
        double off = plan->columns ? at.x - middle.x : at.y - middle.y;
        gboolean clear = fabs (off) > 0.04 * across;

        if (clear == (pass == 0))
          {
            side[i] = clear ? (off > 0 ? 1 : 0) : (filled[1] < filled[0] ? 1 : 0);
            filled[side[i]] += plan->columns ? label->rect.height : label->rect.width;
          }
      }
}

/* Fills in scale and depths of @plan; FALSE if the labels do not fit beside each other. */
static gboolean
solve (const TgDesign *design, const Frame *frame, Plan *plan, const GArray *labels)
{
  g_autofree guint *side = g_new0 (guint, labels->len + 1);
  double length[SIDES] = { 0, 0 }, room_w, room_h;
  double w = plan->upright ? frame->mm.height : frame->mm.width;
  double h = plan->upright ? frame->mm.width : frame->mm.height;
  double between = plan->columns ? 0.7 * frame->text : 1.3 * frame->text;

  choose_sides (design, frame, plan, labels, side);
  plan->deep[0] = plan->deep[1] = 0;
  for (guint i = 0; i < labels->len; i++)
    {
      const TgLabel *label = &g_array_index (labels, TgLabel, i);
      double along = plan->columns ? label->rect.height : label->rect.width;
      double deep = plan->columns ? label->rect.width : label->rect.height;

      length[side[i]] += along + (length[side[i]] > 0 ? between : 0);
      plan->deep[side[i]] = MAX (plan->deep[side[i]], deep + 1.1 * frame->text);
    }
  room_w = frame->area.width - 2 * frame->pad;
  room_h = frame->area.height - 2 * frame->pad;
  if (plan->dimension)
    *(plan->upright ? &room_w : &room_h) -= frame->dimension;
  *(plan->columns ? &room_w : &room_h) -= plan->deep[0] + plan->deep[1];
  if (MAX (length[0], length[1]) > (plan->columns ? room_h : room_w))
    return FALSE;
  plan->scale = MIN (room_w / w, room_h / h);
  if (frame->fixed > 0)
    plan->scale = MIN (plan->scale, frame->fixed);
  return plan->scale > 0;
}

/* A lying rod is the usual picture: standing has to gain something. */
static gboolean
stands (const TgDesign *design, const Frame *frame)
{
  double lying = MIN (frame->area.width / frame->mm.width, frame->area.height / frame->mm.height);
  double standing = MIN (frame->area.width / frame->mm.height,
                         frame->area.height / frame->mm.width);

  return design->kind == TG_PART_ROD && standing > 1.15 * lying;
}

/* Rows or columns, whichever leaves the part larger. FALSE if the labels fit in neither. */
static gboolean
best_plan (const TgDesign *design,
           const Frame *frame,
           const GArray *labels,
           gboolean dimension,
           Plan *best)
{
  gboolean found = FALSE;
  double bonus, best_bonus = 1;

  for (guint columns = 0; columns < 2; columns++)
    {
      Plan plan = { .upright = stands (design, frame),
                    .columns = columns != 0,
                    .dimension = dimension };

      if (!solve (design, frame, &plan, labels))
        continue;
      /* beside a wide part there is little room, beside a square or tall one there is */
      bonus = plan.columns == (plan.upright || design->kind == TG_PART_PISTON) ? 1.12 : 1;
      if (!found || plan.scale * bonus > best->scale * best_bonus)
        {
          *best = plan;
          best_bonus = bonus;
        }
      found = TRUE;
    }
  return found;
}

/* ── places ────────────────────────────────────────────────────────────────────────────────── */

typedef struct
{
  guint label;
  double anchor; /* along the row */
  double length;
  double at; /* start */
} Slot;

static int
compare_slots (gconstpointer a, gconstpointer b)
{
  const Slot *x = a, *y = b;

  if (x->anchor != y->anchor)
    return x->anchor < y->anchor ? -1 : 1;
  return (x->label > y->label) - (x->label < y->label);
}

/* Each slot as near to its anchor as its neighbours allow, inside [from, to], in order. */
static void
spread (Slot *slots, guint n, double between, double from, double to)
{
  for (guint i = 0; i < n; i++)
    slots[i].at = CLAMP (slots[i].anchor - slots[i].length / 2, from, to - slots[i].length);
  for (guint round = 0; round < 60; round++)
    for (guint i = 0; i + 1 < n; i++)
      {
        double over = slots[i].at + slots[i].length + between - slots[i + 1].at;

        if (over > 0)
          {
            slots[i].at = MAX (from, slots[i].at - over / 2);
            slots[i + 1].at = MIN (to - slots[i + 1].length, slots[i + 1].at + over / 2);
          }
      }
  for (guint i = 1; i < n; i++)
    slots[i].at = MAX (slots[i].at, slots[i - 1].at + slots[i - 1].length + between);
  for (guint i = n; i-- > 0;)
    {
      double end = i + 1 < n ? slots[i + 1].at - between : to;

      slots[i].at = MIN (slots[i].at, end - slots[i].length);
    }
}

static void
place_in_row (TgLabel *label, double at, double edge, guint side, double text)
{
  label->rect.x = at;
  label->rect.y = side == 0 ? edge - label->rect.height : edge;
  label->align = TG_ALIGN_CENTER;
  label->end.x = CLAMP (label->anchor.x, at + MIN (text, label->rect.width / 2),
                        at + label->rect.width - MIN (text, label->rect.width / 2));
  label->end.y = side == 0 ? edge + 0.15 * text : edge - 0.15 * text;
}

static void
place_in_column (TgLabel *label, double at, double edge, guint side, double text)
{
  double first = label->head ? label->head_height : MIN (label->line_height, 1.2 * text);

  label->rect.y = at;
  label->rect.x = side == 0 ? edge - label->rect.width : edge;
  label->align = side == 0 ? TG_ALIGN_RIGHT : TG_ALIGN_LEFT;
  label->end.x = side == 0 ? edge + 0.3 * text : edge - 0.3 * text;
  label->end.y = at + first / 2;
}

static void
place_labels (TgPartLayout *layout, const Frame *frame, const Plan *plan, double *edge)
{
  GArray *labels = layout->labels;
  g_autofree guint *side = g_new0 (guint, labels->len + 1);
  g_autofree Slot *slots = g_new0 (Slot, labels->len + 1);
  double between = plan->columns ? 0.7 * frame->text : 1.3 * frame->text;
  double from = (plan->columns ? frame->area.y : frame->area.x) + frame->pad;
  double to = from + (plan->columns ? frame->area.height : frame->area.width) - 2 * frame->pad;

  if (plan->dimension && plan->columns != plan->upright)
    to -= frame->dimension;
  choose_sides (layout->design, frame, plan, labels, side);
  for (guint s = 0; s < SIDES; s++)
    {
      guint n = 0;

      for (guint i = 0; i < labels->len; i++)
        {
          TgLabel *label = &g_array_index (labels, TgLabel, i);

          if (side[i] != s)
            continue;
          label->anchor = tg_part_layout_zone (layout, label->zone)->side[label->side].center;
          slots[n++] = (Slot){ .label = i,
                               .anchor = plan->columns ? label->anchor.y : label->anchor.x,
                               .length = plan->columns ? label->rect.height : label->rect.width };
        }
      qsort (slots, n, sizeof *slots, compare_slots);
      spread (slots, n, between, from, to);
      for (guint i = 0; i < n; i++)
        {
          TgLabel *label = &g_array_index (labels, TgLabel, slots[i].label);

          if (plan->columns)
            place_in_column (label, slots[i].at, edge[s], s, frame->text);
          else
            place_in_row (label, slots[i].at, edge[s], s, frame->text);
        }
    }
}

/* Length, two ends on the part and words of the dimension. */
static char *
dimension_of (const TgDesign *design, TgPoint ends[2])
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (design->kind == TG_PART_ROD)
    {
      ends[0] = (TgPoint){ 0, 0 };
      ends[1] = (TgPoint){ design->rod.centres, 0 };
      g_ascii_formatd (number, sizeof number, "%.1f", design->rod.centres);
    }
  else
    {
      ends[0] = (TgPoint){ -design->piston.bore / 2, design->piston.height };
      ends[1] = (TgPoint){ design->piston.bore / 2, design->piston.height };
      g_ascii_formatd (number, sizeof number, "%.1f", design->piston.bore);
    }
  return g_strconcat (number, " mm", NULL);
}

static void
place_dimension (TgPartLayout *layout,
                 const Frame *frame,
                 const Plan *plan,
                 const TgStyle *style,
                 double line_at)
{
  TgDimension *d = &layout->dimension;
  TgText text = tg_part_layout_line_text (style, 0, TG_ALIGN_LEFT);
  TgPoint ends[2];
  double w, h, span;

  d->text = dimension_of (layout->design, ends);
  d->upright = plan->upright;
  tg_text_measure (&text, d->text, &w, &h);
  for (guint i = 0; i < 2; i++)
    {
      d->from[i] = d->to[i] = tg_view_point (&layout->view, ends[i]);
      *(plan->upright ? &d->to[i].x : &d->to[i].y) = line_at;
    }
  span = fabs (plan->upright ? d->to[1].y - d->to[0].y : d->to[1].x - d->to[0].x);
  d->shown = span > w + 2.5 * frame->text;
  if (plan->upright)
    d->rect = (TgRect){ line_at - h - 0.1 * frame->text, (d->to[0].y + d->to[1].y - w) / 2, h, w };
  else
    d->rect = (TgRect){ (d->to[0].x + d->to[1].x - w) / 2, line_at - h - 0.1 * frame->text, w, h };
}

static void
place_zones (TgPartLayout *layout, const TgPartReview *part, const TgPartDrawing *how)
{
  g_array_set_size (layout->zones, 0);
  for (guint i = 0; i < layout->design->zones->len; i++)
    {
      const TgZone *zone = tg_design_zone (layout->design, i);
      const TgZoneReview *review = part ? tg_part_review_zone (part, i) : NULL;
      TgZoneLayout laid = { .look = look_of (zone, review) };
      TgShape mm[2];

      if (laid.look == TG_ZONE_LOOK_WORK)
        laid.share = review->amount_g / MAX (how->full_g, 1e-9);
      laid.n = tg_outline_zone (layout->design, zone, mm);
      for (guint s = 0; s < laid.n; s++)
        laid.side[s] = tg_view_shape (&layout->view, &mm[s]);
      g_array_append_val (layout->zones, laid);
    }
}

/* Puts the view so that the whole block stands in the middle of the area. */
static void
place_view (
    TgPartLayout *layout, const Frame *frame, const Plan *plan, double edge[SIDES], double *line_at)
{
  TgRect mm = frame->mm;
  double w = plan->scale * (plan->upright ? mm.height : mm.width);
  double h = plan->scale * (plan->upright ? mm.width : mm.height);
  double more_w = plan->upright && plan->dimension ? frame->dimension : 0;
  double more_h = !plan->upright && plan->dimension ? frame->dimension : 0;
  double spare = plan->columns ? frame->area.width - 2 * frame->pad - w - plan->deep[0] -
                                     plan->deep[1] - more_w
                               : frame->area.height - 2 * frame->pad - h - plan->deep[0] -
                                     plan->deep[1] - more_h;
  double air = CLAMP (spare / 4, 0, 2 * frame->text);
  double deep[SIDES] = { plan->deep[0] > 0 ? plan->deep[0] + air : 0,
                         plan->deep[1] > 0 ? plan->deep[1] + air : 0 };
  double left = plan->columns ? deep[0] : 0, right = plan->columns ? deep[1] : 0;
  double top = plan->columns ? 0 : deep[0], bottom = plan->columns ? 0 : deep[1];
  double x = frame->area.x + left + (frame->area.width - w - left - right - more_w) / 2;
  double y = frame->area.y + top + (frame->area.height - h - top - bottom - more_h) / 2;
  double gap = 1.1 * frame->text + air;

  layout->outline = (TgRect){ x, y, w, h };
  layout->view.scale = plan->scale;
  layout->view.upright = plan->upright;
  layout->view.x = x - plan->scale * (plan->upright ? mm.y : mm.x);
  layout->view.y = plan->upright ? y + h + plan->scale * mm.x : y - plan->scale * mm.y;
  edge[0] = (plan->columns ? x : y) - gap;
  edge[1] = (plan->columns ? x + w : y + h) + gap;
  if (plan->upright)
    *line_at = x + w + right + frame->dimension - 0.4 * frame->text;
  else
    *line_at = y + h + bottom + frame->dimension - 0.4 * frame->text;
}

/* Where the line from @shape's center to @to leaves the shape. */
static TgPoint
leave (const TgShape *shape, TgPoint to)
{
  TgPoint c = shape->center;
  double dx = to.x - c.x, dy = to.y - c.y, last = 0;

  for (guint i = 0, j = shape->n - 1; i < shape->n; j = i++)
    {
      double ex = shape->p[i].x - shape->p[j].x, ey = shape->p[i].y - shape->p[j].y;
      double det = dx * ey - dy * ex;
      double qx = shape->p[j].x - c.x, qy = shape->p[j].y - c.y;
      double t, u;

      if (fabs (det) < 1e-9)
        continue;
      t = (qx * ey - qy * ex) / det;
      u = (qx * dy - qy * dx) / det;
      if (u >= 0 && u <= 1 && t > last && t <= 1)
        last = t;
    }
  return (TgPoint){ c.x + last * dx, c.y + last * dy };
}

/* A zone that is large enough carries its amount itself. */
static void
write_inside (TgPartLayout *layout, const Plan *plan, const TgStyle *style)
{
  TgText head = tg_part_layout_head_text (style);

  for (guint i = layout->labels->len; i-- > 0;)
    {
      TgLabel *label = &g_array_index (layout->labels, TgLabel, i);
      TgZoneLayout *zone = &g_array_index (layout->zones, TgZoneLayout, label->zone);
      TgShape *shape = &zone->side[label->side];
      TgRect box = tg_shape_bounds (shape);
      double w, h;

      if (!label->head || shape->n != 4)
        continue;
      tg_text_measure (&head, label->head, &w, &h);
      if (w + 0.6 * style->text_size > box.width || h > box.height)
        continue;
      g_free (zone->inside);
      zone->inside = g_steal_pointer (&label->head);
      if (plan->columns || label->end.y > label->rect.y)
        label->rect.y += label->head_height;
      if (plan->columns)
        label->end.y = label->rect.y + label->line_height / 2;
      label->rect.height = label->line_height;
      label->head_height = 0;
      if (!label->line)
        g_array_remove_index (layout->labels, i);
    }
}

/* Leaders of ticked and written zones stop at their edge, so as not to run over tick or figure. */
static void
trim_leaders (TgPartLayout *layout)
{
  for (guint i = 0; i < layout->labels->len; i++)
    {
      TgLabel *label = &g_array_index (layout->labels, TgLabel, i);
      const TgZoneLayout *zone = tg_part_layout_zone (layout, label->zone);

      label->dot = label->look != TG_ZONE_LOOK_DONE && !zone->inside;
      if (!label->dot)
        label->anchor = leave (&zone->side[label->side], label->end);
    }
}

/* TRUE if an amount had to be pushed far from its zone while lesser words stand near. */
static gboolean
strained (const TgPartLayout *layout, const Plan *plan, double text)
{
  gboolean lesser = FALSE, far = FALSE;

  for (guint i = 0; i < layout->labels->len; i++)
    {
      const TgLabel *label = tg_part_layout_label (layout, i);
      double off = plan->columns ? fabs (label->end.y - label->anchor.y)
                                 : fabs (label->end.x - label->anchor.x);

      if (label->look == TG_ZONE_LOOK_WORK)
        far = far || off > 4.5 * text;
      else
        lesser = TRUE;
    }
  return far && lesser;
}

/* Puts part, zones and labels where @plan wants them; returns where the dimension line goes. */
static double
settle (TgPartLayout *layout,
        const Frame *frame,
        const Plan *plan,
        const TgPartReview *part,
        const TgPartDrawing *how)
{
  double edge[SIDES], line_at;

  place_view (layout, frame, plan, edge, &line_at);
  place_zones (layout, part, how);
  place_labels (layout, frame, plan, edge);
  return line_at;
}

/* Takes words away until the rest fits and leaves the part large enough. */
static double
fit_words (TgPartLayout *layout,
           const Frame *frame,
           Plan *plan,
           const TgPartReview *part,
           const TgPartDrawing *how,
           const TgStyle *style)
{
  const Plan bare = *plan;
  gboolean dimension = TRUE;

  for (;;)
    {
      double needed = needed_share (layout->labels) * bare.scale;

      for (guint i = 0; i < layout->labels->len; i++)
        measure_label (&g_array_index (layout->labels, TgLabel, i), style);
      if (best_plan (layout->design, frame, layout->labels, dimension, plan) &&
          plan->scale >= needed)
        {
          double line_at = settle (layout, frame, plan, part, how);

          if (!strained (layout, plan, frame->text))
            return line_at;
        }
      if (dimension && layout->labels->len > 0 && needed <= 0.5 * bare.scale)
        dimension = FALSE;
      else if (!drop_words (layout->labels, part))
        break;
    }
  *plan = bare;
  return settle (layout, frame, plan, part, how);
}

TgPartLayout *
tg_part_layout_new (TgRect area,
                    const TgPartReview *part,
                    const TgDesign *design,
                    const TgPartDrawing *how,
                    const TgStyle *style)
{
  TgPartLayout *layout = g_new0 (TgPartLayout, 1);
  double side = MIN (area.width, area.height), line_at;
  Frame frame = { .area = area, .fixed = how->mm_scale, .text = style->text_size };
  Plan plan = { 0 };
  guint turn = 0;

  layout->design = part ? part->design : design;
  layout->line = style->line * CLAMP (side / (9 * style->text_size), 0.45, 1);
  layout->small = !how->labels && side < 5 * style->text_size;
  layout->zones = g_array_new (FALSE, TRUE, sizeof (TgZoneLayout));
  layout->labels = g_array_new (FALSE, TRUE, sizeof (TgLabel));
  g_array_set_clear_func (layout->zones, clear_zone);
  g_array_set_clear_func (layout->labels, clear_label);
  frame.mm = tg_outline_bounds (layout->design);
  frame.pad = MIN (2 * layout->line + (how->labels ? 0.5 * style->text_size : 1), 0.2 * side);
  frame.dimension = 2.1 * style->text_size;

  best_plan (layout->design, &frame, layout->labels, FALSE, &plan);
  if (!how->labels)
    {
      settle (layout, &frame, &plan, part, how);
      return layout;
    }
  for (guint i = 0; i < layout->design->zones->len; i++)
    add_label (layout->labels, i, tg_design_zone (layout->design, i),
               part ? tg_part_review_zone (part, i) : NULL, &turn);
  line_at = fit_words (layout, &frame, &plan, part, how, style);
  if (plan.dimension)
    place_dimension (layout, &frame, &plan, style, line_at);
  write_inside (layout, &plan, style);
  trim_leaders (layout);
  return layout;
}

int
tg_part_layout_zone_at (const TgPartLayout *layout, double x, double y)
{
  double best = G_MAXDOUBLE, near = 8;
  int found = -1;

  for (guint i = 0; i < layout->zones->len; i++)
    for (guint s = 0; s < tg_part_layout_zone (layout, i)->n; s++)
      {
        const TgShape *shape = &tg_part_layout_zone (layout, i)->side[s];

        if (tg_shape_contains (shape, x, y) && tg_shape_area (shape) < best)
          {
            best = tg_shape_area (shape);
            found = (int) i;
          }
      }
  for (guint i = 0; found < 0 && i < layout->labels->len; i++)
    {
      const TgLabel *label = tg_part_layout_label (layout, i);

      if (x >= label->rect.x && x < label->rect.x + label->rect.width && y >= label->rect.y &&
          y < label->rect.y + label->rect.height)
        found = (int) label->zone;
    }
  if (found >= 0)
    return found;
  for (guint i = 0; i < layout->zones->len; i++)
    for (guint s = 0; s < tg_part_layout_zone (layout, i)->n; s++)
      {
        double distance = tg_shape_distance (&tg_part_layout_zone (layout, i)->side[s], x, y);

        if (distance < near)
          {
            near = distance;
            found = (int) i;
          }
      }
  return found;
}
