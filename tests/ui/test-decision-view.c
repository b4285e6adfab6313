/* test-decision-view.c: choosing a way out, and the view of reasons
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "decision-view.h"
#include "page-fixture.h"
#include "why-view.h"

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *view;
  GtkWindow *window;
} Fixture;

/* Piston 1 is far too light for the others. */
static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->folder = page_folder_new ();
  fixture->session = page_session_new (fixture->folder, 3);
  page_weigh (fixture->session, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 300);
  page_weigh (fixture->session, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 400);
  page_weigh (fixture->session, "piston-3", TG_FIGURE_WHOLE, TG_WAY_ANY, 400.2);
  fixture->view = g_object_new (TG_TYPE_DECISION_VIEW, "session", fixture->session, NULL);
  fixture->window = page_show (fixture->view, 360, 600);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static const TgDecision *
decision_of (Fixture *fixture)
{
  const GPtrArray *decisions = tg_session_review (fixture->session)->decisions;

  g_assert_cmpuint (decisions->len, >, 0);
  return g_ptr_array_index (decisions, 0);
}

static GtkWidget *
button_of (Fixture *fixture, guint index)
{
  const TgChoice *choice = g_ptr_array_index (decision_of (fixture)->choices, index);

  return page_find_named (fixture->view, GTK_TYPE_BUTTON, choice->title);
}

/* Every choice in turn: what is appended is what the choice says, and it can be struck out. */
static void
test_choices (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  guint n_choices = decision_of (fixture)->choices->len;

  g_assert_cmpuint (n_choices, >, 0);
  for (guint c = 0; c < n_choices; c++)
    {
      const TgChoice *choice = g_ptr_array_index (decision_of (fixture)->choices, c);
      guint n = choice->events->len;
      guint before = tg_job_n_events (tg_session_job (fixture->session));
      g_autofree TgEvent *wanted = g_memdup2 (choice->events->data, n * sizeof (TgEvent));
      g_autoptr (GError) error = NULL;

      g_assert_cmpuint (n, >, 0);
      for (guint i = 0; i < n; i++)
        {
          wanted[i].part = g_intern_string (wanted[i].part);
          wanted[i].path = g_intern_string (wanted[i].path);
          wanted[i].value = g_intern_string (wanted[i].value);
        }
      g_signal_emit_by_name (button_of (fixture, c), "clicked");
      g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, before + n);
      for (guint i = 0; i < n; i++)
        {
          const TgEvent *got = tg_job_event (tg_session_job (fixture->session), before + i);

          g_assert_cmpint (got->kind, ==, wanted[i].kind);
          g_assert_cmpint (got->band, ==, wanted[i].band);
          g_assert_cmpint (got->mass, ==, wanted[i].mass);
          g_assert_cmpint (got->on, ==, wanted[i].on);
          g_assert_cmpstr (got->part, ==, wanted[i].part);
          g_assert_cmpstr (got->path, ==, wanted[i].path);
          g_assert_cmpstr (got->value, ==, wanted[i].value);
        }
      for (guint i = 0; i < n; i++)
        {
          tg_session_toggle_strike (fixture->session, before + i, &error);
          g_assert_no_error (error);
        }
      page_settle ();
      g_assert_cmpuint (decision_of (fixture)->choices->len, ==, n_choices);
    }
}

static void
test_nothing_to_decide (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (GError) error = NULL;

  tg_session_toggle_strike (fixture->session, 0, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (tg_session_review (fixture->session)->decisions->len, ==, 0);
  g_assert_null (page_find (fixture->view, GTK_TYPE_BUTTON, "choice"));
  g_object_set (fixture->view, "session", NULL, NULL);
  g_assert_null (page_find (fixture->view, GTK_TYPE_BUTTON, "choice"));
}

static void
test_cost (void)
{
  static const struct
  {
    gboolean extra;
    double cost_g;
    TgMass step;
    const char *words;
  } cases[] = { { TRUE, 0.8, 100, "0.8 g more over the set" },
                { TRUE, 0.84, 10, "0.84 g more over the set" },
                { TRUE, -0.3, 100, "0.3 g less over the set" },
                { TRUE, 0, 100, "costs nothing" },
                { TRUE, 0.0004, 100, "costs nothing" },
                { TRUE, 0.02, 100, "less than 0.1 g over the set" },
                { TRUE, 0.3, 1000, "less than 1 g over the set" },
                { FALSE, 5, 100, "depends on the piece" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgChoice choice = { .extra = cases[i].extra, .cost_g = cases[i].cost_g };
      g_autofree char *words = tg_decision_view_cost (&choice, cases[i].step);

      g_assert_cmpstr (words, ==, cases[i].words);
    }
}

static void
test_names_and_width (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  int least;

  /* one for each choice and one for its reason, the reason of it all, and the way to the set-up */
  g_assert_cmpuint (page_check_names (fixture->view), ==,
                    2 * decision_of (fixture)->choices->len + 2);
  gtk_widget_measure (fixture->view, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 330);
}

static guint freed;

static void
term_free (gpointer data G_GNUC_UNUSED)
{
  freed++;
}

/* Takes the terms, shows all of them and stays narrow enough for a popover. */
static void
test_why (void)
{
  static TgTerm terms[] = { { (char *) "small end now", (char *) "171.6 g", (char *) "" },
                            { (char *) "lever arm", (char *) "168 mm / 152 mm = 1.105",
                              (char *) "the pad lies above the small end, so that one gram there "
                                       "lowers the small end by more than one gram" } };
  GPtrArray *array = g_ptr_array_new_with_free_func (term_free);
  GtkWidget *view;
  int natural;
  guint rows = 0;

  for (guint i = 0; i < G_N_ELEMENTS (terms); i++)
    g_ptr_array_add (array, &terms[i]);
  view = g_object_ref_sink (tg_why_view_new (array, "Why 0.25 g here"));
  g_assert_cmpuint (freed, ==, G_N_ELEMENTS (terms));
  for (GtkWidget *child = gtk_widget_get_first_child (view); child;
       child = gtk_widget_get_next_sibling (child))
    rows += GTK_IS_LABEL (child) && gtk_label_get_text (GTK_LABEL (child))[0];
  g_assert_cmpuint (rows, ==, 6);
  gtk_widget_measure (view, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &natural, NULL, NULL);
  g_assert_cmpint (natural, <=, 440);
  g_object_unref (view);
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/decision-view/choices", test_choices);
  ADD ("/decision-view/nothing-to-decide", test_nothing_to_decide);
  ADD ("/decision-view/names-and-width", test_names_and_width);
  g_test_add_func ("/decision-view/cost", test_cost);
  g_test_add_func ("/why-view/terms", test_why);
  return g_test_run ();
}
