/* build-ticks.c: what was ticked off, and whether it still holds, see build.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A tick says something of the parts that were at its bore.  A tick for a part in hand hangs on that
 * part alone.  The others hang on all parts of the bore, since a piston only comes out when the big end
 * is opened; but bearings come out without the piston.  Which way a part faces hangs on what the card
 * said of it, too.
 */
#include <string.h>

#include "build-private.h"

gboolean
tg_build_hangs_on (TgBuildCheck check, TgPartKind kind)
{
  TgPartKind in_hand;

  if (tg_build_check_kind (check, &in_hand))
    return in_hand == kind;
  return kind != TG_PART_BEARINGS || check == TG_CHECK_SHELLS || check == TG_CHECK_CAP ||
         check == TG_CHECK_BOLTS || check == TG_CHECK_TURNS;
}

/* In force: the last tick of @check at @bore, or -1. */
static int
last_tick (const TgBuildHistory *history, guint bore, TgBuildCheck check)
{
  for (guint i = history->review->n_events; i-- > 0;)
    {
      const TgEvent *event = tg_job_event (history->job, i);

      if (event->kind == TG_EVENT_TICK && !history->review->struck[i] && event->bore == bore &&
          event->check == check)
        return (int) i;
    }
  return -1;
}

static const char *
name_of (const TgBuildHistory *history, guint part)
{
  return tg_setup_part (history->review->setup, part)->name;
}

static gboolean
weighed_out_since (const TgBuildHistory *history, guint part, int tick)
{
  g_autofree char *out = NULL;

  if (tg_build_proven (history->review, part) ||
      tg_build_last_of (history, TG_EVENT_WEIGHING, part) < tick)
    return FALSE;
  out = tg_build_out_words (history->review, part);
  return out != NULL;
}

/* What became of the parts of a card after @tick; NULL: nothing that matters to it. */
static char *
spoilt_words (const TgBuildHistory *history, const TgBuildCard *card, TgBuildCheck check, int tick)
{
  TgPartKind in_hand;
  gboolean named = tg_build_check_kind (check, &in_hand);

  for (guint i = 0; i < card->parts->len; i++)
    {
      const TgBuildPart *part = &g_array_index (card->parts, TgBuildPart, i);
      int before = -1;

      if (!tg_build_hangs_on (check, part->kind))
        continue;
      /* a tick that names the part that sits here now is as good as before */
      if (!named && tg_build_moved (history, part->kind, card->bore, tick, &before) >= 0)
        return before >= 0
                   ? g_strdup_printf ("%s was here then", name_of (history, (guint) before))
                   : g_strdup_printf ("no %s was here then", tg_part_kind_label (part->kind));
      if (part->part < 0)
        continue;
      if (tg_build_last_of (history, TG_EVENT_REPLACE, (guint) part->part) > tick)
        return g_strdup_printf ("another piece is %s since then",
                                name_of (history, (guint) part->part));
      if (tg_build_last_of (history, TG_EVENT_PASS, (guint) part->part) > tick)
        return g_strdup_printf ("%s was ground since then", name_of (history, (guint) part->part));
      if (weighed_out_since (history, (guint) part->part, tick))
        return g_strdup_printf ("%s was weighed out of its band since then",
                                name_of (history, (guint) part->part));
    }
  return NULL;
}

static const char *
path_of (TgBuildCheck check)
{
  return check == TG_CHECK_PISTON_FACING ? "engine.piston-facing"
         : check == TG_CHECK_ROD_FACING  ? "engine.rod-facing"
         : check == TG_CHECK_CLIPS_GAP   ? "engine.clips-facing"
                                         : NULL;
}

/* What the card said when @tick was made is not what it says now. */
static gboolean
facing_changed (const TgBuildHistory *history, TgBuildCheck check, int tick)
{
  const char *path = path_of (check);
  g_autofree char *now = NULL, *then = NULL;

  if (!path)
    return FALSE;
  now = tg_setup_get (history->review->setup, path);
  then = tg_setup_get (tg_job_setup (history->job), path);
  for (int i = 0; i < tick; i++)
    {
      const TgEvent *event = tg_job_event (history->job, (guint) i);

      if (event->kind != TG_EVENT_SET || history->review->struck[i] ||
          strcmp (event->path, path) != 0)
        continue;
      g_free (then);
      then = g_strdup (event->value);
    }
  return strcmp (now, then) != 0;
}

/* A part is in hand: is it the one of the card? */
static void
compare_in_hand (const TgBuildHistory *history,
                 const TgBuildCard *card,
                 TgPartKind kind,
                 TgBuildTick *tick)
{
  int here = g_array_index (history->review->sets, TgSetReview, card->bore - 1).part[kind];
  int before = -1;
  guint in_hand = 0;

  tg_setup_find_part (history->review->setup,
                      tg_job_event (history->job, (guint) tick->event)->part, &in_hand);
  tick->in_hand = (int) in_hand;
  if (here == tick->in_hand)
    return;
  tick->stale = tg_build_moved (history, kind, card->bore, tick->event, &before) >= 0 &&
                before == tick->in_hand;
  tick->wrong = !tick->stale;
  if (here < 0)
    tick->remark = g_strdup_printf ("%s: no %s belongs here", name_of (history, in_hand),
                                    tg_part_kind_label (kind));
  else
    tick->remark = g_strdup_printf (tick->stale ? "%s was here then; %s belongs here now"
                                                : "%s is in hand; %s belongs here",
                                    name_of (history, in_hand), name_of (history, (guint) here));
}

void
tg_build_tick (const TgBuildHistory *history, const TgBuildCard *card, TgBuildTick *tick)
{
  TgPartKind kind;

  tick->in_hand = -1;
  tick->event = last_tick (history, card->bore, tick->check);
  if (tick->event >= 0)
    {
      if (tg_build_check_kind (tick->check, &kind))
        compare_in_hand (history, card, kind, tick);
      if (!tick->remark)
        tick->remark = spoilt_words (history, card, tick->check, tick->event);
      if (!tick->remark && facing_changed (history, tick->check, tick->event))
        tick->remark = g_strdup ("the card said something else then");
      tick->stale = tick->remark && !tick->wrong;
      tick->ticked = !tick->remark;
    }
  if (!tick->remark)
    tick->remark = g_strdup ("");
}

/* -- what a person does ------------------------------------------------------------------------- */

GArray *
tg_build_strikes (const TgJob *job, const TgReview *review, guint bore, TgBuildCheck check)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (TgEvent));

  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

      if (event->kind != TG_EVENT_TICK || review->struck[i] || event->bore != bore ||
          event->check != check)
        continue;
      strike.refers = event->id;
      g_array_append_val (events, strike);
    }
  return events;
}
