/* debrief-time.c: how long it took, and who did it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "debrief-private.h"

/* A clock that was set back makes no time. */
static void
add_up (TgDebriefWalk *walk, guint *pauses)
{
  TgDebrief *debrief = walk->debrief;

  for (guint i = 0; i < tg_job_n_events (walk->job); i++)
    {
      const TgEvent *event = tg_job_event (walk->job, i);
      gint64 gap = debrief->begun ? MAX (0, event->stamp.seconds - debrief->last.seconds) : 0;
      gboolean pause = gap > TG_DEBRIEF_PAUSE_S;

      *(pause ? &debrief->pauses_s : &debrief->work_s) += gap;
      *pauses += pause;
      if (!debrief->begun)
        debrief->first = event->stamp;
      debrief->begun = TRUE;
      debrief->last = event->stamp;
      if (event->who[0] && (!debrief->who || event->practice))
        {
          g_free (debrief->who);
          debrief->who = g_strdup (event->who);
        }
    }
}

static guint
minutes_of (gint64 seconds)
{
  return (guint) ((seconds + 30) / 60);
}

char *
tg_debrief_time_words (gint64 seconds)
{
  guint minutes = minutes_of (seconds);

  if (minutes <= 120)
    return g_strdup_printf ("%u min", minutes);
  if (minutes <= 2 * 24 * 60)
    return g_strdup_printf ("%u h", (minutes + 30) / 60);
  return g_strdup_printf ("%u days", (minutes + 12 * 60) / (24 * 60));
}

void
tg_debrief_judge_time (TgDebriefWalk *walk)
{
  TgDebrief *debrief = walk->debrief;
  guint pauses = 0;
  g_autofree char *left_out = NULL;
  g_autofree char *together = NULL;
  GPtrArray *why;

  add_up (walk, &pauses);
  if (!debrief->begun)
    return;
  together = tg_debrief_time_words (debrief->pauses_s);
  why = tg_terms_new ();
  tg_terms_add (why, "work", g_strdup_printf ("%u min", minutes_of (debrief->work_s)),
                "from the first entry to the last");
  tg_terms_add (why, "pauses", tg_debrief_time_words (debrief->pauses_s),
                "more than 15 minutes between two entries, left out");
  left_out = pauses == 0 ? g_strdup ("")
                         : g_strdup_printf (", %u %s of over 15 minutes (%s) left out", pauses,
                                            pauses == 1 ? "pause" : "pauses", together);
  tg_debrief_add (debrief, TG_DEBRIEF_TIME, TG_DEBRIEF_GOOD, -1,
                  g_strdup_printf ("%u minutes from the first entry to the last%s.",
                                   minutes_of (debrief->work_s), left_out),
                  "", why);
}
