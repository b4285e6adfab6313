/* test-pairing-search.c: looking for the best pairing while the window goes on
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>

#include "page-fixture.h"
#include "pairing-job.h"
#include "pairing-search.h"

typedef struct
{
  TgPairingSearch *search;
  TgPairing *easy, *hard;
  guint n_finished;
  TgPairing *pairing; /* of the last answer, and the answer */
  TgPairingResult result;
} Rig;

static TgPairing *
pairing_of (TgJob *job)
{
  TgReview *review = tg_review_new (job);
  g_autofree char *why_not = NULL;
  TgPairing *pairing = tg_pairing_new (review, TG_PAIRING_PISTONS, &why_not);

  g_assert_cmpstr (why_not, ==, NULL);
  /* it needs neither of them any more */
  tg_review_free (review);
  tg_job_free (job);
  return pairing;
}

static void
on_finished (Rig *rig, TgPairing *pairing, const TgPairingResult *result)
{
  rig->n_finished++;
  rig->pairing = pairing;
  rig->result = *result;
}

static Rig *
rig_new (void)
{
  Rig *rig = g_new0 (Rig, 1);

  rig->search = tg_pairing_search_new ();
  rig->easy = pairing_of (pairing_job (4, 0));
  rig->hard = pairing_of (pairing_hard_job ());
  g_signal_connect_swapped (rig->search, "finished", G_CALLBACK (on_finished), rig);
  return rig;
}

static void
rig_free (Rig *rig)
{
  g_clear_object (&rig->search);
  tg_pairing_unref (rig->easy);
  tg_pairing_unref (rig->hard);
  g_free (rig);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rig, rig_free)

static void
test_answer (void)
{
  g_autoptr (Rig) rig = rig_new ();
  TgMatchingPlan judged;

  g_assert_false (tg_pairing_search_is_running (rig->search));
  tg_pairing_search_start (rig->search, rig->easy, 20000);
  g_assert_true (tg_pairing_search_is_running (rig->search));
  g_assert_cmpuint (rig->n_finished, ==, 0); /* not before the main loop */
  page_wait_for (rig->n_finished > 0);
  g_assert_false (tg_pairing_search_is_running (rig->search));
  g_assert_true (rig->pairing == rig->easy);
  g_assert_cmpint (rig->result.sums.status, ==, TG_MATCHING_OPTIMAL);
  judged = rig->result.sums.plan;
  g_assert_true (tg_matching_evaluate (&rig->easy->problem, &judged));
  g_assert_cmpint (judged.total, ==, rig->result.sums.plan.total);
  page_settle ();
  g_assert_cmpuint (rig->n_finished, ==, 1);
}

/* The answer comes soon after the time is over, with a bound and no claim beyond it. */
static void
test_deadline (void)
{
  g_autoptr (Rig) rig = rig_new ();
  gint64 began = g_get_monotonic_time ();
  double used_ms;

  tg_pairing_search_start (rig->search, rig->hard, 400);
  page_wait_for (rig->n_finished > 0);
  used_ms = (double) (g_get_monotonic_time () - began) / 1000;
  g_test_message ("answered after %.0f ms", used_ms);
  g_assert_cmpfloat (used_ms, >=, 400);
  g_assert_cmpfloat (used_ms, <, 1400);
  g_assert_cmpint (rig->result.sums.status, ==, TG_MATCHING_FEASIBLE);
  g_assert_cmpint (rig->result.sums.lower_bound, <, rig->result.sums.plan.total);
}

static void
on_progress (TgPairingSearch *search, G_GNUC_UNUSED GParamSpec *pspec, GArray *seen)
{
  double progress = tg_pairing_search_progress (search);

  g_array_append_val (seen, progress);
}

/* Nothing at first, then more and more, and nothing when it is over. */
static void
test_progress (void)
{
  g_autoptr (Rig) rig = rig_new ();
  g_autoptr (GArray) seen = g_array_new (FALSE, FALSE, sizeof (double));

  g_signal_connect (rig->search, "notify::progress", G_CALLBACK (on_progress), seen);
  tg_pairing_search_start (rig->search, rig->hard, 800);
  page_settle ();
  g_assert_cmpuint (seen->len, ==, 0); /* an eighth of a second: nobody has noticed */
  page_wait_for (rig->n_finished > 0);
  g_assert_cmpuint (seen->len, >=, 3);
  g_assert_cmpfloat (g_array_index (seen, double, 0), >=, 0.25);
  for (guint i = 1; i + 1 < seen->len; i++)
    g_assert_cmpfloat (g_array_index (seen, double, i), >, g_array_index (seen, double, i - 1));
  g_assert_cmpfloat (g_array_index (seen, double, seen->len - 1), ==, 0);
}

/* After a cancel nothing is said, however long one waits, and the next search is as good as new. */
static void
test_cancel (void)
{
  g_autoptr (Rig) rig = rig_new ();
  gint64 began;

  tg_pairing_search_start (rig->search, rig->hard, 300);
  page_settle ();
  began = g_get_monotonic_time ();
  tg_pairing_search_cancel (rig->search);
  g_assert_cmpint (g_get_monotonic_time () - began, <, 50000); /* nobody is waited for */
  g_assert_false (tg_pairing_search_is_running (rig->search));
  g_assert_cmpfloat (tg_pairing_search_progress (rig->search), ==, 0);
  for (guint i = 0; i < 5; i++)
    page_settle ();
  g_assert_cmpuint (rig->n_finished, ==, 0);
  tg_pairing_search_start (rig->search, rig->easy, 20000);
  page_wait_for (rig->n_finished > 0);
  g_assert_true (rig->pairing == rig->easy);
  tg_pairing_search_cancel (rig->search); /* of nothing */
}

/* A new question drops the answer to the old one, also one that is there but not yet told. */
static void
test_stale (void)
{
  g_autoptr (Rig) rig = rig_new ();

  tg_pairing_search_start (rig->search, rig->hard, 100);
  tg_pairing_search_start (rig->search, rig->easy, 20000);
  page_wait_for (rig->n_finished > 0);
  for (guint i = 0; i < 3; i++)
    page_settle ();
  g_assert_cmpuint (rig->n_finished, ==, 1);
  g_assert_true (rig->pairing == rig->easy);
  tg_pairing_search_start (rig->search, rig->easy, 20000);
  g_usleep (300000); /* the thread is done, the main loop has not run */
  tg_pairing_search_start (rig->search, rig->hard, 100);
  page_wait_for (rig->n_finished > 1);
  g_assert_true (rig->pairing == rig->hard);
  page_settle ();
  g_assert_cmpuint (rig->n_finished, ==, 2);
}

/* The window may go while the thread is at work; the thread ends by itself. */
static void
test_gone (void)
{
  g_autoptr (Rig) rig = rig_new ();
  gpointer gone = rig->search;

  tg_pairing_search_start (rig->search, rig->hard, 20000);
  page_settle ();
  g_object_add_weak_pointer (G_OBJECT (rig->search), &gone);
  g_clear_object (&rig->search);
  g_assert_null (gone);
  page_settle ();
  g_assert_cmpuint (rig->n_finished, ==, 0);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pairing-search/answer", test_answer);
  g_test_add_func ("/pairing-search/deadline", test_deadline);
  g_test_add_func ("/pairing-search/progress", test_progress);
  g_test_add_func ("/pairing-search/cancel", test_cancel);
  g_test_add_func ("/pairing-search/stale", test_stale);
  g_test_add_func ("/pairing-search/gone", test_gone);
  return g_test_run ();
}
