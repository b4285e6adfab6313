/* review-next.c: the one next instruction, its reason, and where the job stands
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Order: readings that were never taken; which part goes with which, as long as nothing was ground;
 * what a pass took (the ground end of the part in hand); decisions; grinding, first on the part in hand; readings that are only reckoned or lack the other
 * way up; done.  The weighing order is that of a bench whose supports are set up once per end: all
 * small ends, each both ways up, then all big ends, then pistons, then whole rods.
 */
#include <math.h>
#include <string.h>

#include "number.h"
#include "reason.h"
#include "review-private.h"

static TgNext *
next_new (TgNextKind kind)
{
  TgNext *next = g_new0 (TgNext, 1);

  next->kind = kind;
  next->why = tg_terms_new ();
  return next;
}

void
tg_next_free (TgNext *next)
{
  g_free (next->title);
  g_free (next->large);
  g_free (next->detail);
  g_ptr_array_unref (next->why);
  g_free (next);
}

/* -- the weighing order ------------------------------------------------------------------------ */

/* Slots per part of a kind: rods 2 + 2 + 1, others 1; the order runs figure by figure. */
typedef struct
{
  TgPartKind kind;
  TgFigure figure;
  guint n_ways;
} Round;

static const Round rounds[] = {
  { TG_PART_ROD, TG_FIGURE_SMALL_END, 2 },  { TG_PART_ROD, TG_FIGURE_BIG_END, 2 },
  { TG_PART_PISTON, TG_FIGURE_WHOLE, 1 },   { TG_PART_PIN, TG_FIGURE_WHOLE, 1 },
  { TG_PART_RINGS, TG_FIGURE_WHOLE, 1 },    { TG_PART_CLIPS, TG_FIGURE_WHOLE, 1 },
  { TG_PART_BEARINGS, TG_FIGURE_WHOLE, 1 }, { TG_PART_ROD, TG_FIGURE_WHOLE, 1 },
};

static guint
n_slots (const TgReview *review)
{
  guint n = 0;

  for (guint r = 0; r < G_N_ELEMENTS (rounds); r++)
    for (guint i = 0; i < review->parts->len; i++)
      if (tg_review_part (review, i)->design->kind == rounds[r].kind)
        n += rounds[r].n_ways;
  return n;
}

static TgSlot
slot_at (const TgReview *review, guint position)
{
  for (guint r = 0; r < G_N_ELEMENTS (rounds); r++)
    for (guint i = 0; i < review->parts->len; i++)
      {
        if (tg_review_part (review, i)->design->kind != rounds[r].kind)
          continue;
        if (position < rounds[r].n_ways)
          return (TgSlot){ i, rounds[r].figure,
                           rounds[r].n_ways == 1 ? TG_WAY_ANY : TG_WAY_MARK_UP + position };
        position -= rounds[r].n_ways;
      }
  return (TgSlot){ 0 };
}

static guint
slot_position (const TgReview *review, TgSlot slot)
{
  guint n = n_slots (review);

  for (guint position = 0; position < n; position++)
    {
      TgSlot other = slot_at (review, position);

      if (other.part == slot.part && other.figure == slot.figure && other.way == slot.way)
        return position;
    }
  return 0;
}

static gboolean
slot_is_whole_rod (const TgReview *review, TgSlot slot)
{
  return slot.figure == TG_FIGURE_WHOLE &&
         tg_review_part (review, slot.part)->design->kind == TG_PART_ROD;
}

static guint
slot_readings (const TgReview *review, TgSlot slot)
{
  return tg_review_part (review, slot.part)->weight[slot.figure].n[slot.way];
}

gboolean
tg_review_slot_is_idle (const TgReview *review, TgSlot slot)
{
  const TgPartReview *part = tg_review_part (review, slot.part);
  gboolean settled = review->paired >= 0;

  if (!tg_part_kind_has_outline (part->design->kind) &&
      !tg_setup_in_sum (review->setup, part->design->kind))
    return TRUE;
  for (guint i = 0; i < review->parts->len && !settled; i++)
    settled = tg_review_part (review, i)->passes > 0;
  return part->part->bore == 0 && settled;
}

static gboolean
slot_missing (const TgReview *review, TgSlot slot)
{
  return slot_readings (review, slot) < review->setup->repeats;
}

/* Of the places from @start on, round to it again, the first that was read least often. */
static gboolean
least_read (const TgReview *review, guint start, gboolean whole, TgSlot *slot)
{
  guint n = n_slots (review), least = review->setup->repeats;

  for (guint i = 0; i < n; i++)
    {
      TgSlot candidate = slot_at (review, (start + i) % n);

      if (slot_is_whole_rod (review, candidate) != whole ||
          slot_readings (review, candidate) >= least || tg_review_slot_is_idle (review, candidate))
        continue;
      least = slot_readings (review, candidate);
      *slot = candidate;
    }
  return least < review->setup->repeats;
}

gboolean
tg_review_next_slot (const TgReview *review, const TgSlot *after, gboolean whole, TgSlot *slot)
{
  guint start = after ? slot_position (review, *after) + 1 : 0;

  return least_read (review, start, FALSE, slot) ||
         (whole && least_read (review, start, TRUE, slot));
}

TgSlot
tg_review_step_slot (const TgReview *review, TgSlot from, int step)
{
  int n = (int) n_slots (review), position = (int) slot_position (review, from) + step;

  return slot_at (review, (guint) (((position % n) + n) % n));
}

/* -- instructions ------------------------------------------------------------------------------ */

static char *
slot_title (const TgReview *review, TgSlot slot)
{
  const TgPartReview *part = tg_review_part (review, slot.part);

  if (part->design->kind != TG_PART_ROD)
    return g_strdup (part->part->name);
  return g_strdup_printf ("%s, %s", part->part->name,
                          tg_figure_label (part->design->kind, slot.figure));
}

/* What is missing there. */
static void
why_readings (const TgReview *review, GPtrArray *why, TgSlot slot)
{
  guint n = slot_readings (review, slot), wanted = review->setup->repeats;
  g_autofree char *label = slot.way == TG_WAY_ANY
                               ? g_strdup ("readings")
                               : g_strdup_printf ("readings, %s", tg_way_label (slot.way));

  tg_terms_add (why, label, g_strdup_printf ("%u of %u", n, wanted),
                "since the last pass, of those that the set-up asks for");
}

static TgNext *
next_weigh (const TgReview *review, TgSlot slot, const char *detail)
{
  TgNext *next = next_new (TG_NEXT_WEIGH);
  const TgPartReview *part = tg_review_part (review, slot.part);

  next->slot = slot;
  next->title = slot_title (review, slot);
  next->large = g_strdup (slot.way == TG_WAY_ANY ? "weigh" : tg_way_label (slot.way));
  next->detail = g_strdup (detail);
  if (part->weight[slot.figure].basis != TG_WEIGHT_NONE)
    tg_review_why_weight (review, next->why, part, slot.figure);
  why_readings (review, next->why, slot);
  tg_reason_close (next->why, TG_REASON_WEIGH);
  return next;
}

/* The end that shows best what came off a zone. */
static TgFigure
showing_end (const TgPartReview *part, guint zone)
{
  return fabs (tg_review_effect (part, TG_FIGURE_SMALL_END, zone)) >
                 fabs (tg_review_effect (part, TG_FIGURE_BIG_END, zone))
             ? TG_FIGURE_SMALL_END
             : TG_FIGURE_BIG_END;
}

char *
tg_effort_words (TgEffort effort, guint count)
{
  if (effort == TG_EFFORT_STROKES)
    return g_strdup_printf ("%u stroke%s", count, count == 1 ? "" : "s");
  if (effort == TG_EFFORT_SECONDS && count >= 60 && count % 60 == 0)
    return g_strdup_printf ("%u min", count / 60);
  if (effort == TG_EFFORT_SECONDS && count >= 60)
    return g_strdup_printf ("%u min %u s", count / 60, count % 60);
  return effort == TG_EFFORT_SECONDS ? g_strdup_printf ("%u s", count) : g_strdup ("");
}

static char *
grind_detail (const TgReview *review, const TgNext *next, const TgZoneReview *zone)
{
  GString *detail = g_string_new (NULL);
  g_autofree char *most = tg_review_grams (review, floor (next->at_most_g * 1000) / 1000);
  g_autofree char *pass = tg_review_grams (review, next->pass_g);
  g_autofree char *depth = tg_number_format (next->depth_mm, 2);
  g_autofree char *effort = tg_effort_words (next->effort, next->count);
  TgTool tool = review->tool[tg_review_part (review, next->slot.part)->design->metal];
  g_autofree char *with = effort[0]
                              ? g_strdup_printf ("%s with the %s", effort, tg_tool_label (tool))
                              : g_strdup ("");
  gboolean whole = next->pass_g >= next->amount_g - TG_REVIEW_TINY_G;

  g_string_append_printf (detail, "off the %s%s", zone->zone->name,
                          tg_place_is_pair (zone->zone->place) ? ", half on each side" : "");
  if (next->depth_mm > 0)
    g_string_append_printf (detail, ", %s mm deep", depth);
  g_string_append_printf (detail, ". Not more than %s g. %s about %s g%s%s%s. Let it cool, weigh.",
                          most, whole ? "Aim at" : "Take", pass, whole ? "" : " in this pass",
                          effort[0] ? ", about " : "", with);
  return g_string_free (detail, FALSE);
}

static TgNext *
next_grind (const TgReview *review, guint index)
{
  TgNext *next = next_new (TG_NEXT_GRIND);
  const TgPartReview *part = tg_review_part (review, index);
  const TgZoneReview *zone;
  g_autofree char *grams = NULL;

  for (guint z = 0; z < part->zones->len; z++)
    if (tg_part_review_zone (part, z)->amount_g > next->amount_g + TG_REVIEW_TINY_G)
      {
        next->zone = z;
        next->amount_g = tg_part_review_zone (part, z)->amount_g;
      }
  zone = tg_part_review_zone (part, next->zone);
  next->slot.part = index;
  next->slot.figure = TG_FIGURE_WHOLE;
  if (part->design->kind == TG_PART_ROD)
    {
      next->slot.way = TG_WAY_MARK_UP;
      next->slot.figure = showing_end (part, next->zone);
    }
  next->at_most_g = zone->at_most_g;
  next->depth_mm = zone->depth_mm;
  tg_review_plan_pass (review, next, review->tool[part->design->metal]);
  next->title = slot_title (review, next->slot);
  grams = tg_review_grams (review, next->amount_g);
  next->large = g_strdup_printf ("%s g", grams);
  next->detail = grind_detail (review, next, zone);
  tg_review_why_amounts (review, next->why, index, next->zone);
  tg_review_why_pass (review, next);
  tg_reason_close (next->why, TG_REASON_GRIND);
  return next;
}

static TgNext *
next_decide (const TgReview *review, guint index)
{
  const TgDecision *decision = g_ptr_array_index (review->decisions, index);
  TgNext *next = next_new (TG_NEXT_DECIDE);

  next->decision = index;
  next->slot.part = (guint) MAX (0, decision->part);
  next->slot.figure = tg_band_figure (decision->band);
  next->title = g_strdup (decision->title);
  next->large = g_strdup ("decide");
  next->detail = g_strdup (decision->text);
  for (guint row = 0; decision->part >= 0; row++)
    {
      const TgPartReview *part = tg_review_part (review, (guint) decision->part);

      if (row >= tg_review_n_rows (review, part->design->kind))
        break;
      tg_review_why_row (review, next->why, part, row);
    }
  tg_reason_close (next->why, decision->code == TG_FINDING_TOO_LIGHT ? TG_REASON_TOO_LIGHT
                                                                     : TG_REASON_OUT_OF_REACH);
  return next;
}

/* What a band has come to, and whether the readings prove it. */
static char *
band_remark (const TgReview *review, const TgBandReview *band)
{
  g_autofree char *tolerance = tg_review_grams (review, band->tolerance_g);
  g_autofree char *chance = tg_review_percent (band->probability);

  if (!band->even)
    return g_strdup_printf ("tolerance %s g", tolerance);
  return g_strdup_printf ("tolerance %s g, %s (%s %%)", tolerance,
                          band->proven ? "proven" : "not proven yet", chance);
}

static TgNext *
next_done (const TgReview *review, const char *title, const char *large)
{
  TgNext *next = next_new (TG_NEXT_DONE);

  next->title = g_strdup (title);
  next->large = g_strdup (large);
  next->detail = g_strdup ("Clean and deburr, weigh once more cold, and keep each cap, bolt and "
                           "bearing with its own rod.");
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].present)
      {
        g_autofree char *spread = tg_review_grams (review, review->bands[b].spread_g);
        g_autofree char *remark = band_remark (review, &review->bands[b]);

        tg_terms_add (next->why, tg_setup_band_label (review->setup, b),
                      g_strdup_printf ("differ by %s g", spread), remark);
      }
  tg_reason_close (next->why, TG_REASON_DONE);
  return next;
}

/* The whole set: as the readings say, and as far as they prove it. */
static TgNext *
next_even (const TgReview *review)
{
  gboolean proven = TRUE;

  for (guint b = 0; b < TG_N_BANDS; b++)
    proven &= !review->bands[b].present || review->bands[b].proven;
  return next_done (review, "The set is even", proven ? "even, proven" : "even, not proven yet");
}

/* The first missing reading of one part; for a part that was ground, the ground end first. */
static gboolean
part_slot (const TgReview *review, guint index, TgSlot *slot)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgSlot from = { index, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  guint n = n_slots (review), least = review->setup->repeats;

  if (part->design->kind == TG_PART_ROD && part->pass_open)
    {
      from.figure = showing_end (part, part->last_zone);
      if (slot_missing (review, from))
        {
          *slot = from;
          return TRUE;
        }
    }
  for (guint position = 0; position < n; position++)
    {
      TgSlot candidate = slot_at (review, position);

      if (candidate.part == index && !slot_is_whole_rod (review, candidate) &&
          slot_readings (review, candidate) < least)
        {
          least = slot_readings (review, candidate);
          *slot = candidate;
        }
    }
  return least < review->setup->repeats;
}

/* Everything is weighed, nothing was ground, and parts that could change hands were never paired. */
static gboolean
can_be_paired (const TgReview *review)
{
  if (review->paired >= 0 || !review->bands[TG_BAND_PISTON].known ||
      !tg_setup_in_sum (review->setup, TG_PART_PISTON))
    return FALSE;
  for (guint i = 0; i < review->parts->len; i++)
    if (tg_review_part (review, i)->passes > 0)
      return FALSE;
  return review->setup->cylinders > 1;
}

static TgNext *
next_pair (const TgReview *review, guint part)
{
  const TgBandReview *band = &review->bands[TG_BAND_PISTON];
  TgNext *next = next_new (TG_NEXT_PAIR);

  next->slot = (TgSlot){ part, TG_FIGURE_WHOLE, TG_WAY_ANY };
  next->title = g_strdup ("Which part goes with which");
  next->large = g_strdup ("pair");
  next->detail = g_strdup ("Parts that go well together need less grinding. See under Match which "
                           "pairing takes the least, and accept one.");
  tg_terms_add (next->why, "weighed", g_strdup_printf ("%u of %u", band->n_weighed, band->n_parts),
                "of the sets; no pass was logged yet");
  tg_reason_close (next->why, TG_REASON_PAIR);
  return next;
}

static TgNext *
part_next (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgSlot slot;

  if (part->design->kind == TG_PART_PISTON && can_be_paired (review) &&
      (part->state == TG_STATE_TOO_LIGHT || part->state == TG_STATE_OUT_OF_REACH))
    return next_pair (review, index);
  for (guint i = 0; i < review->decisions->len; i++)
    if (((const TgDecision *) g_ptr_array_index (review->decisions, i))->part == (int) index)
      return next_decide (review, i);
  if (part->state == TG_STATE_TO_GRIND)
    return next_grind (review, index);
  if (part_slot (review, index, &slot))
    return next_weigh (
        review, slot,
        part->state == TG_STATE_UNWEIGHED ? "Let the scale settle, then type what it shows."
        : part->pass_open                 ? "Metal came off: see what the pass took."
                          : "Read it again, so that the last figure is one that was read.");
  return NULL;
}

TgNext *
tg_review_next_for (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgNext *next = part_next (review, index);
  TgSlot slot;

  if (next)
    return next;
  if (part->state == TG_STATE_WAITING && tg_review_next_slot (review, NULL, FALSE, &slot))
    {
      next = next_weigh (review, slot, "The targets follow when every part has been weighed.");
      return next;
    }
  next = next_done (review, part->part->name, tg_part_review_label (part));
  if (!review->done)
    {
      g_ptr_array_unref (next->why);
      next->why = tg_review_why_part (review, index);
      g_free (next->detail);
      next->detail = g_strdup ("Nothing more comes off this part.");
    }
  return next;
}

/* The first reading that was never taken: both ways up of every end before the first pass on it. */
static gboolean
first_weighing (const TgReview *review, TgSlot *slot)
{
  guint n = n_slots (review), least = review->setup->repeats;

  for (guint position = 0; position < n; position++)
    {
      TgSlot candidate = slot_at (review, position);
      const TgPartReview *part = tg_review_part (review, candidate.part);

      if (slot_is_whole_rod (review, candidate) || slot_readings (review, candidate) >= least ||
          tg_review_slot_is_idle (review, candidate))
        continue;
      if (part->passes == 0 || part->weight[candidate.figure].basis == TG_WEIGHT_NONE)
        {
          least = slot_readings (review, candidate);
          *slot = candidate;
        }
    }
  return least < review->setup->repeats;
}

static TgNext *
job_next (const TgReview *review, int in_hand)
{
  TgSlot slot;

  if (first_weighing (review, &slot))
    return next_weigh (review, slot, "Let the scale settle, then type what it shows.");
  if (can_be_paired (review))
    return next_pair (review, (guint) MAX (0, in_hand));
  if (in_hand >= 0 && tg_review_part (review, (guint) in_hand)->pass_open)
    return part_next (review, (guint) in_hand);
  if (review->decisions->len > 0)
    return next_decide (review, 0);
  if (in_hand >= 0 && tg_review_part (review, (guint) in_hand)->state == TG_STATE_WEIGH_AGAIN &&
      tg_review_part (review, (guint) in_hand)->plan.status == TG_PLAN_UNREACHABLE)
    return part_next (review, (guint) in_hand);
  if (in_hand >= 0 && tg_review_part (review, (guint) in_hand)->passes > 0 &&
      tg_review_part (review, (guint) in_hand)->state == TG_STATE_TO_GRIND)
    return next_grind (review, (guint) in_hand);
  for (guint i = 0; i < review->parts->len; i++)
    if (tg_review_part (review, i)->state == TG_STATE_TO_GRIND)
      return next_grind (review, i);
  if (tg_review_next_slot (review, NULL, FALSE, &slot))
    return next_weigh (review, slot,
                       "Read it again, so that the last figure is one that was read.");
  return NULL;
}

/* -- where the job stands ---------------------------------------------------------------------- */

static const char *
ordinal (guint n)
{
  static const char *const words[] = { "",      "first",   "second", "third", "fourth", "fifth",
                                       "sixth", "seventh", "eighth", "ninth", "tenth" };

  return n < G_N_ELEMENTS (words) ? words[n] : NULL;
}

/* A date that comes back, as when a clock was set back, is one day. */
static guint
count_days (const TgReview *review)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < review->days->len; i++)
    g_hash_table_add (seen, &((TgDay *) g_ptr_array_index (review->days, i))->day);
  return g_hash_table_size (seen);
}

/* How far bands of one kind of thing are: " · 3 of 8 rod ends even". */
static void
append_standing (GString *line, const TgBandReview *a, const TgBandReview *b, const char *what)
{
  const TgBandReview *any = a->present ? a : b;
  guint n_parts = (a->present ? a->n_parts : 0) + (b->present ? b->n_parts : 0);

  if (!any->present)
    return;
  g_string_append_printf (line, " · %u of %u %s %s",
                          any->known ? a->n_in + b->n_in : a->n_weighed + b->n_weighed, n_parts,
                          what, any->known ? "even" : "weighed");
}

static char *
standing_of (const TgReview *review)
{
  static const TgBandReview none = { 0 };
  GString *line = g_string_new (NULL);
  guint n_days = count_days (review);
  const char *word = ordinal (n_days);

  if (n_days == 0)
    g_string_append (line, "not begun");
  else if (word)
    g_string_append_printf (line, "%s day", word);
  else
    g_string_append_printf (line, "day %u", n_days);
  if (review->done)
    g_string_append_printf (line, " · the set is %s", review->next->large);
  else
    {
      append_standing (line, &review->bands[TG_BAND_ROD_SMALL], &review->bands[TG_BAND_ROD_BIG],
                       review->bands[TG_BAND_ROD_SMALL].present ? "rod ends" : "big ends");
      append_standing (line, &review->bands[TG_BAND_PISTON], &none,
                       tg_setup_band_label (review->setup, TG_BAND_PISTON));
    }
  return g_string_free (line, FALSE);
}

/* The part that the person last weighed or ground. */
static int
part_in_hand (const TgReview *review, const TgJob *job)
{
  for (guint i = review->n_events; i-- > 0;)
    {
      const TgEvent *event = tg_job_event (job, i);
      guint part;

      if (review->struck[i])
        continue;
      if ((event->kind == TG_EVENT_PASS || event->kind == TG_EVENT_WEIGHING) &&
          tg_setup_find_part (review->setup, event->part, &part))
        return (int) part;
    }
  return -1;
}

void
tg_review_look_ahead (TgReview *review, const TgJob *job)
{
  tg_review_prove (review);
  review->next = job_next (review, part_in_hand (review, job));
  review->done = review->next == NULL;
  for (guint b = 0; b < TG_N_BANDS; b++)
    review->done &= !review->bands[b].present || review->bands[b].even;
  if (!review->next)
    review->next = next_even (review);
  review->standing = standing_of (review);
}
