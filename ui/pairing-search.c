/* pairing-search.c: looks for the best pairing while the window goes on
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The solver runs in a thread of its own with a pairing that never changes.  A run that nobody waits
 * for any more has no search to report to, so a late answer to an old question is dropped.
 */
#include "pairing-search.h"

#include "pairing-rules.h"

/* Shorter searches show no progress. */
#define NOTICED_MS 200
#define TICK_MS 100

/* Only @pairing, @stop, @deadline and @result are the thread's business. */
typedef struct
{
  TgPairing *pairing;
  GCancellable *stop;
  gint64 deadline;
  TgPairingResult result;
  TgPairingSearch *search; /* not owned; NULL: nobody waits */
} Run;

struct _TgPairingSearch
{
  GObject parent_instance;
  Run *run; /* the task's, valid while it runs for this search */
  gint64 began;
  guint tick;
  double progress;
};

enum
{
  PROP_RUNNING = 1,
  PROP_PROGRESS,
  N_PROPS
};

enum
{
  SIGNAL_FINISHED,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgPairingSearch, tg_pairing_search, G_TYPE_OBJECT)

static void
run_free (gpointer data)
{
  Run *run = data;

  tg_pairing_unref (run->pairing);
  g_object_unref (run->stop);
  g_free (run);
}

/* --- in the thread --------------------------------------------------------------------------- */

static gboolean
should_stop (gpointer data)
{
  const Run *run = data;

  return g_cancellable_is_cancelled (run->stop) || g_get_monotonic_time () >= run->deadline;
}

static void
solve (GTask *task,
       G_GNUC_UNUSED gpointer source,
       gpointer data,
       G_GNUC_UNUSED GCancellable *cancellable)
{
  Run *run = data;
  const TgMatchingLimits limits = { .should_stop = should_stop, .data = run };
  TgPairingResult *result = &run->result;

  tg_pairing_solve (run->pairing, &limits, result);
  if (tg_pairing_search_found (result) && !tg_pairing_rules_kept (run->pairing, &result->sums.plan))
    {
      g_critical ("a pairing was found that breaks a rule");
      result->sums.status = TG_MATCHING_UNKNOWN;
    }
  g_task_return_boolean (task, TRUE);
}

/* --- in the main loop ------------------------------------------------------------------------ */

static void
set_progress (TgPairingSearch *self, double progress)
{
  if (self->progress == progress)
    return;
  self->progress = progress;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PROGRESS]);
}

static gboolean
on_tick (gpointer data)
{
  TgPairingSearch *self = data;
  gint64 used = g_get_monotonic_time () - self->began;
  gint64 allowed = MAX (1, self->run->deadline - self->began);

  if (used >= NOTICED_MS * 1000)
    set_progress (self, CLAMP ((double) used / (double) allowed, 0.001, 1));
  return G_SOURCE_CONTINUE;
}

/* The run is the task's again. */
static void
let_go (TgPairingSearch *self)
{
  g_clear_handle_id (&self->tick, g_source_remove);
  if (!self->run)
    return;
  self->run->search = NULL;
  self->run = NULL;
  set_progress (self, 0);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_RUNNING]);
}

static void
on_solved (G_GNUC_UNUSED GObject *source, GAsyncResult *result, G_GNUC_UNUSED gpointer data)
{
  Run *run = g_task_get_task_data (G_TASK (result));
  g_autoptr (TgPairingSearch) search = run->search ? g_object_ref (run->search) : NULL;

  if (!search)
    return;
  let_go (search);
  g_signal_emit (search, signals[SIGNAL_FINISHED], 0, run->pairing, &run->result);
}

gboolean
tg_pairing_search_found (const TgPairingResult *result)
{
  return result->sums.status == TG_MATCHING_OPTIMAL || result->sums.status == TG_MATCHING_FEASIBLE;
}

TgPairingSearch *
tg_pairing_search_new (void)
{
  return g_object_new (TG_TYPE_PAIRING_SEARCH, NULL);
}

void
tg_pairing_search_start (TgPairingSearch *search, TgPairing *pairing, guint allowed_ms)
{
  g_autoptr (GTask) task = NULL;
  Run *run;

  g_return_if_fail (TG_IS_PAIRING_SEARCH (search) && pairing != NULL);

  tg_pairing_search_cancel (search);
  run = g_new0 (Run, 1);
  run->pairing = tg_pairing_ref (pairing);
  run->stop = g_cancellable_new ();
  run->search = search;
  search->run = run;
  search->began = g_get_monotonic_time ();
  run->deadline = search->began + (gint64) allowed_ms * 1000;
  search->tick = g_timeout_add (TICK_MS, on_tick, search);
  task = g_task_new (NULL, NULL, on_solved, NULL);
  g_task_set_task_data (task, run, run_free);
  g_task_run_in_thread (task, solve);
  g_object_notify_by_pspec (G_OBJECT (search), properties[PROP_RUNNING]);
}

void
tg_pairing_search_cancel (TgPairingSearch *search)
{
  g_return_if_fail (TG_IS_PAIRING_SEARCH (search));

  if (search->run)
    g_cancellable_cancel (search->run->stop);
  let_go (search);
}

gboolean
tg_pairing_search_is_running (TgPairingSearch *search)
{
  g_return_val_if_fail (TG_IS_PAIRING_SEARCH (search), FALSE);

  return search->run != NULL;
}

double
tg_pairing_search_progress (TgPairingSearch *search)
{
  g_return_val_if_fail (TG_IS_PAIRING_SEARCH (search), 0);

  return search->progress;
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_pairing_search_dispose (GObject *object)
{
  tg_pairing_search_cancel (TG_PAIRING_SEARCH (object));
  G_OBJECT_CLASS (tg_pairing_search_parent_class)->dispose (object);
}

static void
tg_pairing_search_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgPairingSearch *self = TG_PAIRING_SEARCH (object);

  if (id == PROP_RUNNING)
    g_value_set_boolean (value, self->run != NULL);
  else if (id == PROP_PROGRESS)
    g_value_set_double (value, self->progress);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_pairing_search_class_init (TgPairingSearchClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = tg_pairing_search_dispose;
  object_class->get_property = tg_pairing_search_get_property;
  properties[PROP_RUNNING] = g_param_spec_boolean ("running", NULL, NULL, FALSE,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_PROGRESS] = g_param_spec_double ("progress", NULL, NULL, 0, 1, 0,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[SIGNAL_FINISHED] = g_signal_new ("finished", TG_TYPE_PAIRING_SEARCH, G_SIGNAL_RUN_LAST, 0,
                                           NULL, NULL, NULL, G_TYPE_NONE, 2, G_TYPE_POINTER,
                                           G_TYPE_POINTER);
}

static void
tg_pairing_search_init (G_GNUC_UNUSED TgPairingSearch *self)
{
}
