/* debrief-warnings.c: warnings that nobody heeded
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>
#include <string.h>

#include "debrief-private.h"
#include "number.h"
#include "report.h"

static void
ignore (TgDebriefWalk *walk, int event, char *text, const char *careful, GPtrArray *why)
{
  walk->debrief->ignored++;
  tg_debrief_add (walk->debrief, TG_DEBRIEF_WARNINGS, TG_DEBRIEF_POOR, event, text, careful, why);
}

/* A question that was answered with “keep”: what counts is whether the reading was right. */
static void
watch_kept (TgDebriefWalk *walk)
{
  double off_g = tg_debrief_off_g (walk);
  double explained_g = tg_debrief_explained_g (walk->setup, walk->event->figure,
                                               &walk->zeros[walk->index]);
  GPtrArray *why = tg_terms_new ();
  g_autofree char *entry = tg_report_event (walk->after, walk->event);

  tg_debrief_term (why, walk->setup, "off by", off_g, "read less what ought to be shown");
  tg_debrief_term (why, walk->setup, "explained", explained_g, "by step, scatter, flicker, drift");
  if (fabs (off_g) > explained_g)
    ignore (walk, (int) walk->index,
            g_strdup_printf ("%s: the program asked, and the reading was wrong.", entry),
            "Reads again when asked, and keeps only what comes back.", why);
  else
    tg_debrief_add (walk->debrief, TG_DEBRIEF_WARNINGS, TG_DEBRIEF_GOOD, (int) walk->index,
                    g_strdup_printf ("%s: kept when asked, and it was right.", entry), "", why);
}

/* -- passes ---------------------------------------------------------------------------------------- */

static gboolean
is_doubt (const TgFinding *finding, int part)
{
  static const TgFindingCode doubts[] = { TG_FINDING_TURN, TG_FINDING_CLOSURE, TG_FINDING_OUTLIER };

  for (guint i = 0; i < G_N_ELEMENTS (doubts); i++)
    if (finding->part == part && finding->code == doubts[i])
      return TRUE;
  return FALSE;
}

static void
watch_doubt (TgDebriefWalk *walk)
{
  for (guint i = 0; i < walk->before->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (walk->before->findings, i);
      GPtrArray *why;

      if (!is_doubt (finding, walk->part))
        continue;
      why = tg_terms_new ();
      tg_terms_add (why, "the doubt", g_strdup (""), finding->text);
      tg_terms_add (why, "the advice", g_strdup (""), finding->advice);
      ignore (walk, (int) walk->index,
              g_strdup_printf ("%s was ground while its readings were in doubt: %s",
                               tg_setup_part (walk->setup, (guint) walk->part)->name,
                               finding->text),
              "Clears the doubt before anything comes off: metal does not come back.", why);
      return;
    }
}

/* Index of the first entry of the day of entry @i. */
static guint
day_begins (const TgJob *job, guint i)
{
  gint64 day = tg_stamp_day (tg_job_event (job, i)->stamp);

  while (i > 0 && tg_stamp_day (tg_job_event (job, i - 1)->stamp) == day)
    i--;
  return i;
}

/* Said with the first pass of a day. */
static void
watch_zero (TgDebriefWalk *walk)
{
  guint first = day_begins (walk->job, walk->index);
  g_autofree char *day = tg_stamp_format_day (walk->event->stamp);
  GPtrArray *why;

  for (guint i = first; i < walk->index; i++)
    {
      const TgEvent *event = tg_job_event (walk->job, i);

      if (!walk->struck[i] && (event->kind == TG_EVENT_ZERO || event->kind == TG_EVENT_PASS))
        return;
    }
  why = tg_terms_new ();
  tg_terms_add (why, "entries before it", g_strdup_printf ("%u", walk->index - first),
                "of that day, no look at the empty scale among them");
  ignore (walk, (int) walk->index,
          g_strdup_printf ("Ground on %s without one look at the empty scale.", day),
          "Looks at the empty scale before the first reading of a day, and every twenty readings.",
          why);
}

/* -- the scale -------------------------------------------------------------------------------------- */

/* (nullable): the check that entry @index was, as the review of that moment judged it */
static const TgScaleCheck *
check_of (const TgReview *review, guint index)
{
  for (guint i = review->scale.checks->len; i-- > 0;)
    {
      const TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, i);

      if (check->event == index)
        return check;
    }
  return NULL;
}

/* What came next that hangs on the scale; a second look, or a scale that was set to zero, is a remedy. */
static int
gone_on_with (const TgDebriefWalk *walk, TgEventKind look)
{
  for (guint i = walk->index + 1; i < tg_job_n_events (walk->job); i++)
    {
      const TgEvent *event = tg_job_event (walk->job, i);

      if (walk->struck[i])
        continue;
      if (event->kind == TG_EVENT_WEIGHING || event->kind == TG_EVENT_PASS)
        return (int) i;
      if (event->kind == look || (event->kind == TG_EVENT_ZERO && event->set_back))
        return -1;
    }
  return -1;
}

static void
watch_check (TgDebriefWalk *walk)
{
  const TgScaleCheck *check = check_of (walk->after, walk->index);
  gboolean zero = walk->event->kind == TG_EVENT_ZERO;
  int next = gone_on_with (walk, walk->event->kind);
  g_autofree char *entry = NULL;
  GPtrArray *why;

  if (!check || check->verdict != TG_CHECK_WEIGHT_OFF || next < 0 || walk->event->set_back)
    return;
  entry = tg_report_event (walk->after, walk->event);
  why = tg_terms_new ();
  tg_debrief_term (why, walk->setup, "off by", check->error_g, "as the check was judged then");
  tg_debrief_term (why, walk->setup, "limit", check->off_g, "beyond it a scale is off");
  ignore (walk, next, g_strdup_printf ("%s, which is off, and work went on.", entry),
          zero ? "Sets the scale to zero and reads again what matters."
               : "Levels the scale, frees its pan, checks again, and reads again what came after "
                 "the last good check.",
          why);
}

void
tg_debrief_watch_warnings (TgDebriefWalk *walk)
{
  if (walk->event->kind == TG_EVENT_PASS && !walk->struck[walk->index])
    {
      watch_doubt (walk);
      watch_zero (walk);
    }
  if (walk->struck[walk->index])
    return;
  if (walk->event->kind == TG_EVENT_WEIGHING && walk->event->kept)
    watch_kept (walk);
  if (walk->event->kind == TG_EVENT_ZERO || walk->event->kind == TG_EVENT_CHECK_WEIGHT)
    watch_check (walk);
}

void
tg_debrief_judge_warnings (TgDebriefWalk *walk)
{
  for (guint i = 0; i < walk->end->decisions->len; i++)
    {
      const TgDecision *decision = g_ptr_array_index (walk->end->decisions, i);
      GPtrArray *why = tg_terms_new ();

      tg_terms_add (why, decision->title, g_strdup (""), decision->text);
      ignore (walk, -1, g_strdup_printf ("Left open: %s.", decision->title),
              "Decides, and says why in the journal.", why);
    }
  if (walk->debrief->ignored == 0)
    tg_debrief_add (walk->debrief, TG_DEBRIEF_WARNINGS, TG_DEBRIEF_GOOD, -1,
                    g_strdup ("No warning went unheeded."), "",
                    tg_debrief_why_well ("entries", tg_job_n_events (walk->job), "warnings ignored",
                                         walk->debrief->ignored));
}
