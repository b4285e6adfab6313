/* debrief-passes.c: how many passes, which were larger than said, which went under the band
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-private.h"
#include "number.h"
#include "practice-replay.h"

static const TgZoneReview *
zone_before (const TgDebriefWalk *walk)
{
  return tg_part_review_zone (tg_review_part (walk->before, (guint) walk->part),
                              (guint) walk->zone);
}

static const char *
part_name (const TgDebriefWalk *walk)
{
  return tg_setup_part (walk->setup, (guint) walk->part)->name;
}

/* More was wanted than the instruction gave as the most. */
static void
watch_amount (TgDebriefWalk *walk)
{
  const TgZoneReview *zone = zone_before (walk);
  double wanted_g = tg_mass_to_g (walk->event->mass);
  double step_g = tg_mass_to_g (walk->setup->resolution);
  const TgPartReview *part = tg_review_part (walk->before, (guint) walk->part);
  g_autofree char *wanted = tg_review_grams (walk->before, wanted_g);
  g_autofree char *most = tg_review_grams (walk->before, zone->at_most_g);
  GPtrArray *why;

  if (wanted_g <= zone->at_most_g + step_g / 2 || tg_debrief_is_forbidden (zone->zone) ||
      !walk->before->bands[tg_review_row_band (walk->before, part->design->kind, 0)].known)
    return;
  why = tg_terms_new ();
  tg_debrief_term (why, walk->setup, "wanted", wanted_g, "as the entry says");
  tg_debrief_term (why, walk->setup, "still to come off", zone->amount_g,
                   "the plan before the pass");
  tg_debrief_term (why, walk->setup, "at most", zone->at_most_g,
                   "more would take a weight under its band");
  walk->debrief->ignored++;
  tg_debrief_add (walk->debrief, TG_DEBRIEF_PASSES, TG_DEBRIEF_POOR, (int) walk->index,
                  g_strdup_printf ("%s, %s: a pass of %s g was wanted where at most %s g may come "
                                   "off.",
                                   part_name (walk), zone->zone->name, wanted, most),
                  "Never aims at more than the instruction gives, and reads after each pass.", why);
}

/* -- overshoots ------------------------------------------------------------------------------------- */

/* What belongs to the band and lies at the bore of the part that was ground. */
static int
judged_part (const TgDebriefWalk *walk, TgBand band)
{
  const TgSetup *setup = walk->before->setup;
  const TgPart *ground = tg_setup_part (setup, (guint) walk->part), *part = ground;
  guint index;

  if (band == TG_BAND_PISTON && ground->design->kind == TG_PART_ROD &&
      tg_setup_in_sum (setup, TG_PART_ROD))
    part = tg_setup_at_bore (setup, TG_PART_PISTON, ground->bore);
  else if (tg_band_kind (band) != ground->design->kind)
    return -1;
  if (!part || part->bore == 0)
    return -1;
  tg_setup_find_part (setup, part->id, &index);
  return (int) index;
}

static GPtrArray *
why_under (const TgDebriefWalk *walk, double before_g, double after_g, double edge_g)
{
  GPtrArray *why = tg_terms_new ();

  tg_debrief_term (why, walk->setup, "true before", before_g, "as the scale ought to show it");
  tg_debrief_term (why, walk->setup, "came off", before_g - after_g, "at this figure");
  tg_debrief_term (why, walk->setup, "true after", after_g, "");
  tg_debrief_term (why, walk->setup, "lower edge of the band", edge_g,
                   "the target that held before the pass");
  tg_debrief_term (why, walk->setup, "counts from", tg_mass_to_g (walk->setup->resolution) / 2,
                   "half a step of the scale: less no reading can tell");
  return why;
}

static void
watch_band (TgDebriefWalk *walk, TgBand band)
{
  const TgBandReview *review = &walk->before->bands[band];
  int index = judged_part (walk, band);
  double before_g, after_g, edge_g = review->target_g;
  double margin_g = tg_mass_to_g (walk->setup->resolution) / 2;
  g_autofree char *under = NULL;
  gboolean already;

  if (index < 0 || !review->present || !review->known)
    return;
  before_g = tg_debrief_shown_g (
      walk->setup, tg_debrief_sum_g (walk->before->setup, walk->bench, (guint) index, band));
  after_g = tg_debrief_shown_g (
      walk->setup, tg_debrief_sum_g (walk->before->setup, walk->bench_after, (guint) index, band));
  if (after_g >= edge_g - margin_g || before_g - after_g < TG_REVIEW_TINY_G)
    return;
  already = before_g < edge_g - margin_g;
  under = tg_debrief_grams (walk->setup, edge_g - (already ? before_g : after_g));
  tg_debrief_add (
      walk->debrief, TG_DEBRIEF_PASSES, TG_DEBRIEF_POOR, (int) walk->index,
      already ? g_strdup_printf ("%s: among the %s it was truly %s g under the band before this "
                                 "pass.",
                                 part_name (walk), tg_setup_band_label (walk->setup, band), under)
              : g_strdup_printf ("%s: this pass took it truly %s g under the band of the %s.",
                                 part_name (walk), under, tg_setup_band_label (walk->setup, band)),
      already ? "Reads both ways up until they agree before anything comes off."
              : "Takes a part of what is left, reads, and takes the rest.",
      why_under (walk, before_g, after_g, edge_g));
}

void
tg_debrief_watch_passes (TgDebriefWalk *walk)
{
  if (walk->event->kind != TG_EVENT_PASS)
    return;
  walk->debrief->passes++;
  walk->debrief->seconds += tg_practice_pass_seconds (walk->bench, walk->job, walk->event);
  watch_amount (walk);
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    watch_band (walk, band);
}

/* -- how many --------------------------------------------------------------------------------------- */

/* Careful workers on benches that lie as usual need up to four times what the truth would ask for, and two
 * more (tests/core/test-debrief.c measures it): what readings cannot tell is taken in small steps. */
#define CAREFUL_TIMES 4
#define CAREFUL_MORE 2

static GPtrArray *
why_passes (const TgDebriefWalk *walk)
{
  const TgDebrief *debrief = walk->debrief;
  g_autofree char *percent = tg_number_format_short (walk->end->setup->overshoot_percent);
  g_autofree char *hand = tg_number_format_short (100 * walk->setup->practice.faults.hand);
  g_autofree char *rule = g_strdup_printf (
      "each place of the plan for the true parts, in as many passes as it takes when none may "
      "overshoot in more than %s of 100 cases, the hand scatters by %s %%, and the first pass on a "
      "metal has yet to show what the tool takes",
      percent, hand);
  GPtrArray *why = tg_terms_new ();

  tg_terms_add (why, "passes", g_strdup_printf ("%u", debrief->passes), "in the journal");
  tg_terms_add (why, "with the truth known", g_strdup_printf ("%u", debrief->passes_least), rule);
  tg_terms_add (why, "a careful worker",
                g_strdup_printf ("%d × %u + %d = %u", CAREFUL_TIMES, debrief->passes_least,
                                 CAREFUL_MORE, debrief->passes_careful),
                "who has only readings; measured, on benches that lie as usual");
  tg_terms_add (why, "grinding", tg_effort_words (TG_EFFORT_SECONDS, (guint) debrief->seconds),
                "strokes count as a second each");
  return why;
}

/* (transfer full) */
static char *
passes_words (const TgDebrief *debrief)
{
  g_autofree char *seconds = tg_effort_words (TG_EFFORT_SECONDS, (guint) debrief->seconds);

  if (debrief->passes == 0)
    return g_strdup_printf ("No passes; with the truth known %u would do.", debrief->passes_least);
  return g_strdup_printf ("%u %s, %s of grinding; a careful worker needs up to %u, and with the "
                          "truth known %u would do.",
                          debrief->passes, debrief->passes == 1 ? "pass" : "passes", seconds,
                          debrief->passes_careful, debrief->passes_least);
}

void
tg_debrief_judge_passes (TgDebriefWalk *walk)
{
  TgDebrief *debrief = walk->debrief;
  TgDebriefVerdict verdict;

  debrief->passes_careful = CAREFUL_TIMES * debrief->passes_least + CAREFUL_MORE;
  verdict = debrief->passes <= debrief->passes_careful       ? TG_DEBRIEF_GOOD
            : debrief->passes <= 2 * debrief->passes_careful ? TG_DEBRIEF_FAIR
                                                             : TG_DEBRIEF_POOR;
  if (debrief->metal.known)
    tg_debrief_add (debrief, TG_DEBRIEF_PASSES, verdict, -1, passes_words (debrief),
                    verdict == TG_DEBRIEF_GOOD ? ""
                                               : "Takes as much in a pass as the instruction says.",
                    why_passes (walk));
}
