/* practice-desk.c: the bench of a practice job in the window, see practice-desk.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice-desk.h"

#include "practice-replay.h"

struct _TgPracticeDesk
{
  GObject parent_instance;
  const TgJob *job;
  TgPracticeBench *bench;
  gint64 moved_us; /* when it was touched last */
};

enum
{
  SIGNAL_MOVED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgPracticeDesk, tg_practice_desk, G_TYPE_OBJECT)

static void
tg_practice_desk_finalize (GObject *object)
{
  g_clear_pointer (&TG_PRACTICE_DESK (object)->bench, tg_practice_bench_free);
  G_OBJECT_CLASS (tg_practice_desk_parent_class)->finalize (object);
}

static void
tg_practice_desk_class_init (TgPracticeDeskClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tg_practice_desk_finalize;
  signals[SIGNAL_MOVED] = g_signal_new ("moved", TG_TYPE_PRACTICE_DESK, G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 0);
}

static void
tg_practice_desk_init (G_GNUC_UNUSED TgPracticeDesk *self)
{
}

static void
moved (TgPracticeDesk *self)
{
  self->moved_us = g_get_monotonic_time ();
  g_signal_emit (self, signals[SIGNAL_MOVED], 0);
}

TgPracticeDesk *
tg_practice_desk_new (const TgJob *job)
{
  TgPracticeDesk *desk = g_object_new (TG_TYPE_PRACTICE_DESK, NULL);

  tg_practice_desk_set_job (desk, job);
  return desk;
}

void
tg_practice_desk_set_job (TgPracticeDesk *desk, const TgJob *job)
{
  g_return_if_fail (TG_IS_PRACTICE_DESK (desk) && job);

  desk->job = job;
  g_clear_pointer (&desk->bench, tg_practice_bench_free);
  desk->bench = tg_practice_replay (job, tg_job_n_events (job));
  moved (desk);
  desk->moved_us = 0; /* nobody has touched it */
}

TgPracticeBench *
tg_practice_desk_bench (TgPracticeDesk *desk)
{
  g_return_val_if_fail (TG_IS_PRACTICE_DESK (desk), NULL);

  return desk->bench;
}

/* Another piece may be gone again, or back. */
static gboolean
strikes_a_piece (const TgJob *job, const TgEvent *strike)
{
  const TgEvent *struck = tg_job_event (job, (guint) tg_job_find_event (job, strike->refers));

  return struck->kind == TG_EVENT_STRIKE ? strikes_a_piece (job, struck)
                                         : struck->kind == TG_EVENT_REPLACE;
}

static void
set_zero (TgPracticeDesk *self)
{
  tg_practice_bench_lay (self->bench, NULL);
  tg_practice_bench_set_zero (self->bench);
}

void
tg_practice_desk_follow (TgPracticeDesk *desk, guint first)
{
  gboolean changed = FALSE;

  g_return_if_fail (TG_IS_PRACTICE_DESK (desk));

  for (guint i = first; i < tg_job_n_events (desk->job); i++)
    {
      const TgEvent *event = tg_job_event (desk->job, i);

      if (event->kind == TG_EVENT_STRIKE && strikes_a_piece (desk->job, event))
        {
          tg_practice_desk_set_job (desk, desk->job);
          return;
        }
      if (event->kind == TG_EVENT_PASS || event->kind == TG_EVENT_REPLACE)
        tg_practice_replay_event (desk->bench, desk->job, event);
      else if (event->kind == TG_EVENT_ZERO && event->set_back)
        set_zero (desk);
      else
        continue;
      changed = TRUE;
    }
  if (changed)
    moved (desk);
}

void
tg_practice_desk_lay (TgPracticeDesk *desk, const TgSlot *slot)
{
  g_return_if_fail (TG_IS_PRACTICE_DESK (desk));

  tg_practice_bench_lay (desk->bench, slot);
  moved (desk);
}

void
tg_practice_desk_lay_weight (TgPracticeDesk *desk, TgMass nominal)
{
  g_return_if_fail (TG_IS_PRACTICE_DESK (desk));

  tg_practice_bench_lay_weight (desk->bench, nominal);
  moved (desk);
}

void
tg_practice_desk_rock (TgPracticeDesk *desk)
{
  g_return_if_fail (TG_IS_PRACTICE_DESK (desk));

  tg_practice_bench_rock (desk->bench);
  moved (desk);
}

void
tg_practice_desk_set_zero (TgPracticeDesk *desk)
{
  g_return_if_fail (TG_IS_PRACTICE_DESK (desk));

  set_zero (desk);
  moved (desk);
}

static guint
since_ms (TgPracticeDesk *self)
{
  gint64 ms = (g_get_monotonic_time () - self->moved_us) / 1000;

  return (guint) CLAMP (ms, 0, G_MAXINT);
}

TgMass
tg_practice_desk_display (TgPracticeDesk *desk)
{
  g_return_val_if_fail (TG_IS_PRACTICE_DESK (desk), 0);

  return tg_practice_bench_display (desk->bench, since_ms (desk));
}

gboolean
tg_practice_desk_is_settling (TgPracticeDesk *desk)
{
  g_return_val_if_fail (TG_IS_PRACTICE_DESK (desk), FALSE);

  return since_ms (desk) < TG_PRACTICE_SETTLED_MS;
}

void
tg_practice_desk_pass_time (TgPracticeDesk *desk, guint ms)
{
  g_return_if_fail (TG_IS_PRACTICE_DESK (desk));

  desk->moved_us -= (gint64) ms * 1000;
}
