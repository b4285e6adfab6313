/* lesson-condition.c: when a practical step of a lesson is done, see lesson-condition.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-condition.h"

#include <string.h>

#include "build.h"
#include "error.h"
#include "word.h"

TG_DEFINE_WORDS (TgLessonConditionKind,
                 lesson_condition_kind,
                 "readings",
                 "all-read",
                 "zero",
                 "check-weight",
                 "repeatability",
                 "passes",
                 "never-kept",
                 "target",
                 "paired",
                 "decided",
                 "no-doubt",
                 "even",
                 "proven",
                 "done",
                 "ticks",
                 "struck")

typedef struct
{
  const TgLessonSubject *about;
  const TgJob *job;
  const TgReview *review;
} Look;

/* -- readings and the scale ------------------------------------------------------------------------ */

static guint
n_read (const TgWeight *weight, TgLessonWays ways)
{
  guint up = weight->n[TG_WAY_MARK_UP], down = weight->n[TG_WAY_MARK_DOWN];

  switch (ways)
    {
    case TG_LESSON_WAYS_UP:
      return up;
    case TG_LESSON_WAYS_DOWN:
      return down;
    case TG_LESSON_WAYS_BOTH:
      return MIN (up, down);
    case TG_LESSON_WAYS_ALL:
    default:
      return weight->n[TG_WAY_ANY] + up + down;
    }
}

/* Without a figure it is what the part is made even by. */
static gboolean
is_meant (const TgLessonSubject *about, const TgPartReview *part, TgFigure figure)
{
  gboolean rod = part->design->kind == TG_PART_ROD;

  if (about->has & TG_LESSON_HAS_PART && strcmp (about->part, part->part->id) != 0)
    return FALSE;
  if (about->has & TG_LESSON_HAS_KIND && about->kind != part->design->kind)
    return FALSE;
  if (!rod && figure != TG_FIGURE_WHOLE)
    return FALSE;
  return about->has & TG_LESSON_HAS_FIGURE ? figure == about->figure
                                           : rod == (figure != TG_FIGURE_WHOLE);
}

static const char *
ways_words (TgLessonWays ways)
{
  static const char *const words[TG_N_LESSON_WAYS] = { "", ", mark up", ", mark down",
                                                       ", both ways up" };

  return words[ways];
}

static char *
readings_missing (const Look *look)
{
  const TgLessonSubject *about = look->about;

  for (guint i = 0; i < look->review->parts->len; i++)
    for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
      {
        const TgPartReview *part = tg_review_part (look->review, i);
        guint n = n_read (&part->weight[figure], about->ways);

        if (is_meant (about, part, figure) && n < about->at_least)
          return g_strdup_printf ("%s, %s%s: %u of %u reading%s", part->part->name,
                                  tg_figure_label (part->design->kind, figure),
                                  ways_words (about->ways), n, about->at_least,
                                  about->at_least == 1 ? "" : "s");
      }
  return NULL;
}

static char *
all_read_missing (const Look *look)
{
  const TgPartReview *part;
  TgSlot slot;

  if (!tg_review_next_slot (look->review, NULL, FALSE, &slot))
    return NULL;
  part = tg_review_part (look->review, slot.part);
  return g_strdup_printf ("%s, %s%s%s is still to be read", part->part->name,
                          tg_figure_label (part->design->kind, slot.figure),
                          slot.way == TG_WAY_ANY ? "" : ", ", tg_way_label (slot.way));
}

static guint
n_checks (const TgReview *review, gboolean zero)
{
  guint n = 0;

  for (guint i = 0; i < review->scale.checks->len; i++)
    {
      const TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, i);

      n += check->zero == zero && (!zero || check->set_back);
    }
  return n;
}

static char *
zero_missing (const Look *look)
{
  guint n = n_checks (look->review, TRUE);

  if (n >= look->about->at_least)
    return NULL;
  return g_strdup_printf ("The empty scale was looked at and set to zero %u of %u times", n,
                          look->about->at_least);
}

static char *
check_weight_missing (const Look *look)
{
  guint n = n_checks (look->review, FALSE);

  if (n >= look->about->at_least)
    return NULL;
  return g_strdup_printf ("The check weight was laid on %u of %u times", n, look->about->at_least);
}

static char *
repeatability_missing (const Look *look)
{
  if (!look->review->scale.repeatability[TG_SUPPORT_STAND].assumed)
    return NULL;
  return g_strdup ("Too few readings were repeated to say how well the scale repeats");
}

/* -- grinding -------------------------------------------------------------------------------------- */

static char *
passes_missing (const Look *look)
{
  const TgLessonSubject *about = look->about;
  guint n = 0;

  for (guint i = 0; i < tg_job_n_events (look->job); i++)
    {
      const TgEvent *event = tg_job_event (look->job, i);

      n += event->kind == TG_EVENT_PASS && !look->review->struck[i] &&
           (!about->part || strcmp (about->part, event->part) == 0) &&
           (!about->zone || strcmp (about->zone, event->zone) == 0);
    }
  if (n >= about->at_least)
    return NULL;
  return g_strdup_printf ("%u of %u pass%s made", n, about->at_least,
                          about->at_least == 1 ? "" : "es");
}

/* Metal that is gone is gone: a pass that was struck out counts, too. */
static char *
never_missing (const Look *look)
{
  for (guint i = 0; i < tg_job_n_events (look->job); i++)
    {
      const TgEvent *event = tg_job_event (look->job, i);
      const TgPart *part;
      const TgZone *zone;

      if (event->kind != TG_EVENT_PASS)
        continue;
      part = tg_setup_find_part (look->review->setup, event->part, NULL);
      zone = tg_design_find_zone (part->design, event->zone, NULL);
      if (zone->standing == TG_STANDING_NEVER)
        return g_strdup_printf ("%s was ground at a place where none ever is, %s. That cannot be "
                                "undone: begin the lesson anew",
                                part->name, zone->name);
    }
  return NULL;
}

static char *
target_missing (const Look *look)
{
  if (look->review->bands[look->about->band].decided)
    return NULL;
  return g_strdup_printf ("No target is decided for the %s",
                          tg_setup_band_label (look->review->setup, look->about->band));
}

/* -- deciding, proving, building ------------------------------------------------------------------- */

static char *
paired_missing (const Look *look)
{
  return look->review->paired >= 0 ? NULL : g_strdup ("No pairing was accepted yet");
}

static char *
decided_missing (const Look *look)
{
  const TgDecision *decision;

  if (look->review->decisions->len == 0)
    return NULL;
  decision = g_ptr_array_index (look->review->decisions, 0);
  return g_strdup_printf ("To be decided: %s", decision->title);
}

static char *
doubt_missing (const Look *look)
{
  const GPtrArray *findings = look->review->findings;

  for (guint i = 0; i < findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (findings, i);

      if (finding->severity == TG_FINDING_DOUBT &&
          (!look->about->part || finding->part == (int) look->about->index))
        return g_strdup_printf ("Still in doubt: %s", finding->text);
    }
  return NULL;
}

static char *
band_missing (const Look *look, gboolean proven)
{
  const TgBandReview *band = &look->review->bands[look->about->band];

  if (proven ? band->proven : band->even)
    return NULL;
  return g_strdup_printf ("The %s are not %s yet: %u of %u",
                          tg_setup_band_label (look->review->setup, look->about->band),
                          proven ? "proven even" : "even", proven ? band->n_proven : band->n_in,
                          band->n_parts);
}

static char *
even_missing (const Look *look)
{
  return band_missing (look, FALSE);
}

static char *
proven_missing (const Look *look)
{
  return band_missing (look, TRUE);
}

static char *
done_missing (const Look *look)
{
  if (look->review->done)
    return NULL;
  return g_strdup_printf ("The set is not done: %s", look->review->standing);
}

static char *
ticks_missing (const Look *look)
{
  g_autoptr (TgBuild) build = tg_build_new (look->job, look->review);

  for (guint bore = 1; bore <= build->cards->len; bore++)
    {
      const TgBuildCard *card = tg_build_card (build, bore);

      if ((look->about->bore == 0 || look->about->bore == bore) &&
          (card->n_ticked < card->ticks->len || card->n_wrong > 0))
        return g_strdup_printf ("Bore %u: %u of %u ticked", bore, card->n_ticked, card->ticks->len);
    }
  return NULL;
}

/* A step of the lesson is no entry of the person's. */
static char *
struck_missing (const Look *look)
{
  guint n = 0;

  for (guint i = 0; i < tg_job_n_events (look->job); i++)
    n += look->review->struck[i] && tg_job_event (look->job, i)->kind != TG_EVENT_STRIKE &&
         tg_job_event (look->job, i)->kind != TG_EVENT_STEP;
  if (n >= look->about->at_least)
    return NULL;
  return g_strdup_printf ("%u of %u entr%s struck out", n, look->about->at_least,
                          look->about->at_least == 1 ? "y" : "ies");
}

/* -- what may be said of each ---------------------------------------------------------------------- */

#define WHICH (TG_LESSON_HAS_PART | TG_LESSON_HAS_KIND | TG_LESSON_HAS_FIGURE | TG_LESSON_HAS_WAYS)

static const struct
{
  guint need;
  guint may;
  char *(*missing) (const Look *look);
} kinds[TG_N_LESSON_CONDITIONS] = {
  [TG_LESSON_READINGS] = { 0, WHICH | TG_LESSON_HAS_AT_LEAST, readings_missing },
  [TG_LESSON_ALL_READ] = { 0, 0, all_read_missing },
  [TG_LESSON_ZERO] = { 0, TG_LESSON_HAS_AT_LEAST, zero_missing },
  [TG_LESSON_CHECK_WEIGHT] = { 0, TG_LESSON_HAS_AT_LEAST, check_weight_missing },
  [TG_LESSON_REPEATABILITY] = { 0, 0, repeatability_missing },
  [TG_LESSON_PASSES] = { 0, TG_LESSON_HAS_PART | TG_LESSON_HAS_ZONE | TG_LESSON_HAS_AT_LEAST,
                         passes_missing },
  [TG_LESSON_NEVER_KEPT] = { 0, 0, never_missing },
  [TG_LESSON_TARGET] = { TG_LESSON_HAS_BAND, 0, target_missing },
  [TG_LESSON_PAIRED] = { 0, 0, paired_missing },
  [TG_LESSON_DECIDED] = { 0, 0, decided_missing },
  [TG_LESSON_NO_DOUBT] = { 0, TG_LESSON_HAS_PART, doubt_missing },
  [TG_LESSON_EVEN] = { TG_LESSON_HAS_BAND, 0, even_missing },
  [TG_LESSON_PROVEN] = { TG_LESSON_HAS_BAND, 0, proven_missing },
  [TG_LESSON_DONE] = { 0, 0, done_missing },
  [TG_LESSON_TICKS] = { 0, TG_LESSON_HAS_BORE, ticks_missing },
  [TG_LESSON_STRUCK] = { 0, TG_LESSON_HAS_AT_LEAST, struck_missing },
};

char *
tg_lesson_condition_missing (const TgLessonCondition *condition,
                             const TgJob *job,
                             const TgReview *review)
{
  const Look look = { &condition->about, job, review };

  return kinds[condition->kind].missing (&look);
}

/* -- reading --------------------------------------------------------------------------------------- */

static gboolean
names_never_zone (const TgSetup *setup, const TgLessonSubject *about)
{
  for (guint i = 0; i < setup->designs->len; i++)
    {
      const TgDesign *design = g_ptr_array_index (setup->designs, i);
      const TgZone *zone = about->zone ? tg_design_find_zone (design, about->zone, NULL) : NULL;

      if (zone && zone->standing == TG_STANDING_NEVER &&
          (!about->part || tg_setup_part (setup, about->index)->design == design))
        return TRUE;
    }
  return FALSE;
}

static gboolean
can_be_proven (const TgSetup *setup, TgBand band)
{
  g_autoptr (TgProof) proof = tg_proof_of_setup (setup, band);

  return proof->n_parts >= 2 && proof->needed > 0;
}

/* What keeps @condition from ever holding; NULL if nothing that is quickly seen does. */
static const char *
why_never (const TgLessonCondition *condition, const TgSetup *setup)
{
  const TgLessonSubject *about = &condition->about;
  gboolean ends = about->has & TG_LESSON_HAS_FIGURE
                      ? about->figure != TG_FIGURE_WHOLE
                      : about->has & (TG_LESSON_HAS_PART | TG_LESSON_HAS_KIND) &&
                            about->kind == TG_PART_ROD;

  switch (condition->kind)
    {
    case TG_LESSON_READINGS:
      if (about->ways != TG_LESSON_WAYS_ALL && !ends)
        return "only the ends of rods are read with the mark up or down";
      if (ends && !tg_setup_has_kind (setup, TG_PART_ROD))
        return "the job has no rods";
      return NULL;
    case TG_LESSON_CHECK_WEIGHT:
      return setup->check_weight > 0 ? NULL : "the job has no check weight";
    case TG_LESSON_REPEATABILITY:
      return tg_setup_has_kind (setup, TG_PART_ROD) ? NULL : "the job has no rods";
    case TG_LESSON_PASSES:
      return names_never_zone (setup, about) ? "nobody may be asked to grind there" : NULL;
    case TG_LESSON_PAIRED:
      return tg_setup_in_sum (setup, TG_PART_PISTON) && setup->cylinders > 1
                 ? NULL
                 : "the job has nothing to pair";
    case TG_LESSON_PROVEN:
      return can_be_proven (setup, about->band) ? NULL
                                                : "the scale is too coarse for the tolerance";
    default:
      return NULL;
    }
}

TgLessonCondition *
tg_lesson_condition_read (xmlNode *node, const char *file, const TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  g_autoptr (TgLessonCondition) condition = g_new0 (TgLessonCondition, 1);
  const char *never;

  if (!tg_xml_is (node, (const char *) node->name) ||
      !tg_lesson_condition_kind_from_word ((const char *) node->name, &condition->kind))
    {
      tg_xml_refuse_element (error, file, node);
      return NULL;
    }
  if (!tg_lesson_subject_read (&taker, kinds[condition->kind].need, kinds[condition->kind].may,
                               setup, &condition->about, error) ||
      !tg_xml_finish (&taker, error))
    return NULL;
  never = why_never (condition, setup);
  if (never)
    {
      tg_xml_refuse (error, file, node, TG_ERROR_RANGE, "“%s” can never hold here: %s",
                     (const char *) node->name, never);
      return NULL;
    }
  return g_steal_pointer (&condition);
}

void
tg_lesson_condition_free (TgLessonCondition *condition)
{
  tg_lesson_subject_clear (&condition->about);
  g_free (condition);
}
