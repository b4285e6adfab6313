/* debrief-readings.c: too few readings, too many
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-private.h"
#include "number.h"

static guint
n_of (const TgReview *review, TgSlot slot)
{
  return tg_review_part (review, slot.part)->weight[slot.figure].n[slot.way];
}

/* Every figure and way up that is asked of a part, one after the other; whole rods are a cross-check. */
static gboolean
next_asked (const TgReview *review, TgSlot *slot)
{
  gboolean rod = tg_review_part (review, slot->part)->design->kind == TG_PART_ROD;

  if (!rod || (slot->figure == TG_FIGURE_BIG_END && slot->way == TG_WAY_MARK_DOWN))
    return FALSE;
  if (slot->way == TG_WAY_MARK_UP)
    slot->way = TG_WAY_MARK_DOWN;
  else
    *slot = (TgSlot){ slot->part, TG_FIGURE_BIG_END, TG_WAY_MARK_UP };
  return TRUE;
}

static TgSlot
first_asked (const TgReview *review, guint part)
{
  gboolean rod = tg_review_part (review, part)->design->kind == TG_PART_ROD;

  return rod ? (TgSlot){ part, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP }
             : (TgSlot){ part, TG_FIGURE_WHOLE, TG_WAY_ANY };
}

/* "small end, mark up"; "weight" */
static char *
slot_words (const TgReview *review, TgSlot slot)
{
  const char *label = tg_figure_label (tg_review_part (review, slot.part)->design->kind,
                                       slot.figure);

  return slot.way == TG_WAY_ANY ? g_strdup (label)
                                : g_strdup_printf ("%s, %s", label, tg_way_label (slot.way));
}

/* The terms say each figure that lacks readings; (nullable) for none. */
static GPtrArray *
why_few (const TgReview *review, guint part, guint *missing)
{
  TgSlot slot = first_asked (review, part);
  GPtrArray *why = tg_terms_new ();

  *missing = 0;
  do
    {
      guint n = n_of (review, slot);
      g_autofree char *words = slot_words (review, slot);

      if (n >= review->setup->repeats || tg_review_slot_is_idle (review, slot))
        continue;
      *missing += review->setup->repeats - n;
      tg_terms_add (why, words, g_strdup_printf ("%u of %u", n, review->setup->repeats), "");
    }
  while (next_asked (review, &slot));
  tg_terms_add (why, "asked for", g_strdup_printf ("%u each way up", review->setup->repeats),
                "by the set-up");
  if (*missing > 0)
    return why;
  g_ptr_array_unref (why);
  return NULL;
}

/* -- too few -------------------------------------------------------------------------------------- */

static void
watch_first_pass (TgDebriefWalk *walk)
{
  const TgPartReview *part = tg_review_part (walk->before, (guint) walk->part);
  guint missing;
  GPtrArray *why;

  if (part->passes > 0)
    return;
  why = why_few (walk->before, (guint) walk->part, &missing);
  if (why)
    tg_debrief_add (walk->debrief, TG_DEBRIEF_READINGS, TG_DEBRIEF_POOR, (int) walk->index,
                    g_strdup_printf ("%s was ground with %u %s missing.", part->part->name, missing,
                                     missing == 1 ? "reading" : "readings"),
                    "Takes every reading that the setup asks for before the first pass.", why);
}

static int
last_pass (const TgDebriefWalk *walk, guint part)
{
  for (guint i = tg_job_n_events (walk->job); i-- > 0;)
    if (tg_job_event (walk->job, i)->kind == TG_EVENT_PASS && !walk->struck[i] &&
        g_str_equal (tg_job_event (walk->job, i)->part, tg_setup_part (walk->setup, part)->id))
      return (int) i;
  return -1;
}

static void
judge_end (TgDebriefWalk *walk, guint part)
{
  guint missing;
  GPtrArray *why = why_few (walk->end, part, &missing);
  int pass = last_pass (walk, part);

  if (why)
    tg_debrief_add (
        walk->debrief, TG_DEBRIEF_READINGS, TG_DEBRIEF_FAIR, pass,
        g_strdup_printf ("%s ends with %u %s missing%s.", tg_setup_part (walk->setup, part)->name,
                         missing, missing == 1 ? "reading" : "readings",
                         pass >= 0 ? " since its last pass" : ""),
        "Reads everything again after the last pass: what is reckoned is not known.", why);
}

/* -- too many --------------------------------------------------------------------------------------- */

/* Doubt about the part or the scale, or a band that more readings may prove. */
static gboolean
is_called_for (const TgReview *review, guint part)
{
  TgPartKind kind = tg_review_part (review, part)->design->kind;

  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      if (finding->severity >= TG_FINDING_DOUBT &&
          (finding->part == (int) part || finding->part < 0))
        return TRUE;
    }
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    {
      gboolean counts = tg_band_kind (band) == kind || tg_setup_in_sum (review->setup, kind);

      if (counts && review->bands[band].even && !review->bands[band].proven)
        return TRUE;
    }
  return FALSE;
}

static void
watch_reading (TgDebriefWalk *walk)
{
  const TgSlot slot = { (guint) walk->part, walk->event->figure, walk->event->way };
  const TgPart *part = tg_setup_part (walk->setup, slot.part);
  guint n = n_of (walk->before, slot), asked = walk->before->setup->repeats;
  g_autofree char *words = slot_words (walk->before, slot);
  GPtrArray *why;

  if (n < asked || (part->design->kind == TG_PART_ROD && slot.figure == TG_FIGURE_WHOLE) ||
      walk->event->kept || is_called_for (walk->before, slot.part))
    return;
  why = tg_terms_new ();
  tg_terms_add (why, "readings before this one", g_strdup_printf ("%u", n), "since the last pass");
  tg_terms_add (why, "asked for", g_strdup_printf ("%u", asked), "each figure and way up");
  tg_terms_add (why, "doubts", g_strdup ("0"), "no finding, and no band that readings might prove");
  tg_debrief_add (walk->debrief, TG_DEBRIEF_READINGS, TG_DEBRIEF_FAIR, (int) walk->index,
                  g_strdup_printf ("%s, %s: read once more than the %u asked for, and nothing "
                                   "called for it.",
                                   part->name, words, n),
                  "Reads on where there is doubt, and works on where there is none.", why);
}

void
tg_debrief_watch_readings (TgDebriefWalk *walk)
{
  if (walk->struck[walk->index])
    return;
  if (walk->event->kind == TG_EVENT_PASS)
    watch_first_pass (walk);
  if (walk->event->kind != TG_EVENT_WEIGHING)
    return;
  walk->debrief->readings++;
  watch_reading (walk);
}

void
tg_debrief_judge_readings (TgDebriefWalk *walk)
{
  for (guint i = 0; i < walk->end->parts->len; i++)
    judge_end (walk, i);
  if (tg_debrief_is_clean (walk->debrief, TG_DEBRIEF_READINGS))
    tg_debrief_add (
        walk->debrief, TG_DEBRIEF_READINGS, TG_DEBRIEF_GOOD, -1,
        g_strdup_printf ("%u readings: as many as were asked for, none without need.",
                         walk->debrief->readings),
        "",
        tg_debrief_why_well ("readings", walk->debrief->readings, "missing, or without need", 0));
}
