/* debrief-zones.c: places that were ground and should not have been
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-private.h"
#include "number.h"

gboolean
tg_debrief_is_forbidden (const TgZone *zone)
{
  return !tg_zone_usable (zone);
}

static const char *
reason_words (const TgZone *zone)
{
  if (zone->standing == TG_STANDING_NEVER)
    return "nothing may ever come off there";
  if (zone->use == TG_USE_NO)
    return "that place was to be left alone";
  return "that place needs care, and nobody had chosen to use it";
}

static void
watch_standing (TgDebriefWalk *walk, const TgPart *part, const TgZone *zone, double grams)
{
  GPtrArray *why;
  g_autofree char *shown = NULL;

  if (!tg_debrief_is_forbidden (zone))
    return;
  why = tg_terms_new ();
  shown = tg_debrief_grams (walk->setup, grams);
  tg_debrief_term (why, walk->setup, "came off", grams, "truly, in this pass");
  if (zone->reason[0])
    tg_terms_add (why, zone->name, g_strdup (""), zone->reason);
  walk->debrief->forbidden++;
  tg_debrief_add (
      walk->debrief, TG_DEBRIEF_ZONES, TG_DEBRIEF_POOR, (int) walk->index,
      g_strdup_printf ("%s, %s: %s g came off, and %s.", part->name, zone->name, shown,
                       reason_words (zone)),
      "Grinds where the plan says, after the maker’s manual; a part ground elsewhere is "
      "judged by someone who may before it is used.",
      why);
}

/* Said once, where the pass goes past what the place may give. */
static void
watch_depth (TgDebriefWalk *walk, const TgPart *part, const TgZone *zone, double before_g)
{
  double after_g = tg_practice_bench_taken (walk->bench_after, (guint) walk->part,
                                            (guint) walk->zone);
  double most_g = tg_design_zone_capacity_g (part->design, zone);
  g_autofree char *taken = tg_debrief_grams (walk->setup, after_g);
  g_autofree char *most = tg_debrief_grams (walk->setup, most_g);
  GPtrArray *why;

  if (most_g <= 0 || before_g > most_g + TG_REVIEW_TINY_G || after_g <= most_g + TG_REVIEW_TINY_G)
    return;
  why = tg_terms_new ();
  tg_debrief_term (why, walk->setup, "off it before", before_g, "truly");
  tg_debrief_term (why, walk->setup, "came off", after_g - before_g, "truly, in this pass");
  tg_debrief_term (why, walk->setup, "it may give", most_g, "from its permitted depth");
  tg_debrief_add (walk->debrief, TG_DEBRIEF_ZONES, TG_DEBRIEF_POOR, (int) walk->index,
                  g_strdup_printf ("%s, %s: past its depth: %s g are off it, and it may give %s g.",
                                   part->name, zone->name, taken, most),
                  "Stops at the permitted depth and takes the rest elsewhere.", why);
}

void
tg_debrief_watch_zones (TgDebriefWalk *walk)
{
  const TgPart *part;
  const TgZone *zone;
  double before_g;

  if (walk->event->kind != TG_EVENT_PASS)
    return;
  part = tg_setup_part (walk->before->setup, (guint) walk->part);
  zone = tg_design_zone (part->design, (guint) walk->zone);
  before_g = tg_practice_bench_taken (walk->bench, (guint) walk->part, (guint) walk->zone);
  watch_standing (
      walk, part, zone,
      tg_practice_bench_taken (walk->bench_after, (guint) walk->part, (guint) walk->zone) -
          before_g);
  watch_depth (walk, part, zone, before_g);
}

void
tg_debrief_judge_zones (TgDebriefWalk *walk)
{
  if (walk->debrief->passes > 0 && tg_debrief_is_clean (walk->debrief, TG_DEBRIEF_ZONES))
    tg_debrief_add (walk->debrief, TG_DEBRIEF_ZONES, TG_DEBRIEF_GOOD, -1,
                    walk->debrief->passes == 1
                        ? g_strdup ("The one pass was where metal may come off.")
                        : g_strdup_printf ("All %u passes were where metal may come off, and none "
                                           "went past its depth.",
                                           walk->debrief->passes),
                    "",
                    tg_debrief_why_well ("passes", walk->debrief->passes,
                                         "where none may be, or too deep",
                                         walk->debrief->forbidden));
}
