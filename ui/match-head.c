/* match-head.c: what the pairing on show takes, how sure that is, and what can be done with it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The proof speaks of what the search found; with another pairing on show, made by hand, it is said
 * what was found.  What was not found in the time given is never called impossible.
 */
#include "match-head.h"

#include "fold.h"
#include "why-view.h"
#include "words.h"

struct _TgMatchHead
{
  GtkBox parent_instance;
  TgMatchDesk *desk;
  GtkWidget *sums;
  GtkWidget *pistons;
  GtkWidget *bearings;
  GtkWidget *large;
  GtkWidget *today;
  GtkWidget *hand;
  GtkWidget *hand_text;
  GtkWidget *proof;
  GtkWidget *row;
  GtkWidget *why;
  GtkWidget *on;
  GtkWidget *searching;
  GtkWidget *progress;
  GtkWidget *accept;
  GtkWidget *said;
};

enum
{
  SIGNAL_LEAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgMatchHead, tg_match_head, GTK_TYPE_BOX)

static void
show (GtkWidget *label, const char *text)
{
  tg_words_show (GTK_LABEL (label), text);
  gtk_widget_set_visible (label, text && text[0]);
}

/* Words that begin a line. */
static char *
begin (const char *words)
{
  g_autofree char *first = g_utf8_strup (words, g_utf8_next_char (words) - words);

  return g_strconcat (first, g_utf8_next_char (words), NULL);
}

/* --- what is shown --------------------------------------------------------------------------- */

static gboolean
has_plan (const TgPairingResult *result)
{
  return result && tg_pairing_search_found (result);
}

static gboolean
is_impossible (const TgPairingResult *result)
{
  return result && result->sums.status == TG_MATCHING_NONE_EXISTS;
}

static void
show_figures (TgMatchHead *self)
{
  const TgPairing *pairing = tg_match_desk_pairing (self->desk);
  const TgMatchingPlan *plan = tg_match_desk_plan (self->desk);
  const TgMatchingPlan *today = tg_match_desk_today (self->desk);
  const TgPairingResult *result = tg_match_desk_result (self->desk);
  gboolean none = is_impossible (result);
  g_autofree char *takes = plan && !none ? tg_pairing_plan_words (pairing, plan) : NULL;
  g_autofree char *large = takes ? begin (takes) : NULL;
  g_autofree char *words = today ? tg_pairing_plan_words (pairing, today) : NULL;
  g_autofree char *line = NULL;

  if (tg_match_desk_plan_is_today (self->desk) && !none)
    line = g_strdup ("As the parts sit today.");
  else if (words)
    line = g_strdup_printf ("Today: %s.", words);
  show (self->large, none ? "None is possible" : large);
  show (self->today, line);
}

static char *
proof_words (TgMatchHead *self)
{
  const TgPairingResult *result = tg_match_desk_result (self->desk);
  g_autofree char *words = NULL;

  if (tg_pairing_search_is_running (tg_match_desk_search (self->desk)))
    return g_strdup ("Looking for the best pairing…");
  if (!result)
    return g_strdup ("The search was cancelled; there may be a better pairing.");
  words = tg_pairing_proof_words (tg_match_desk_pairing (self->desk), result);
  if (!is_impossible (result))
    return g_steal_pointer (&words);
  return g_strdup_printf ("%s %s", words,
                          tg_match_desk_review (self->desk)->rules->len > 0
                              ? "Lift one of the rules."
                              : "Let another zone be ground, or widen the tolerance, in Set up.");
}

/* A longer search might find or prove more. */
static gboolean
is_wanting (TgMatchHead *self)
{
  const TgPairingResult *result = tg_match_desk_result (self->desk);

  if (is_impossible (result))
    return FALSE;
  if (has_plan (result) && result->joint)
    return result->metal_g - result->bound_g >= tg_match_desk_pairing (self->desk)->step_g;
  return !result || result->sums.proved < TG_MATCHING_STAGES;
}

static void
show_proof (TgMatchHead *self)
{
  const TgPairingResult *result = tg_match_desk_result (self->desk);
  gboolean running = tg_pairing_search_is_running (tg_match_desk_search (self->desk));
  g_autofree char *words = proof_words (self);

  show (self->proof, words);
  gtk_widget_set_visible (self->row, running || has_plan (result) || is_wanting (self));
  gtk_widget_set_visible (self->why, !running && has_plan (result));
  gtk_widget_set_visible (self->on, !running && is_wanting (self));
}

static void
show_hand (TgMatchHead *self)
{
  const TgPairingResult *result = tg_match_desk_result (self->desk);
  g_autofree char *best = NULL;
  g_autofree char *text = NULL;

  if (has_plan (result))
    best = tg_pairing_plan_words (tg_match_desk_pairing (self->desk), &result->sums.plan);
  text = best ? g_strdup_printf ("Changed by hand. The best found: %s.", best)
              : g_strdup ("Changed by hand.");
  tg_words_show (GTK_LABEL (self->hand_text), text);
  gtk_widget_set_visible (self->hand, tg_match_desk_by_hand (self->desk));
}

static void
show_accept (TgMatchHead *self)
{
  gboolean today = tg_match_desk_plan_is_today (self->desk);
  gboolean kept = tg_match_desk_plan_keeps_rules (self->desk);
  gboolean done = today && tg_match_desk_review (self->desk)->paired >= 0;
  const char *label = "_Accept this pairing";

  if (today)
    label = done ? "Paired like this already" : "_Keep it like this";
  else if (!kept && tg_match_desk_plan (self->desk))
    label = "Not possible like this";
  gtk_button_set_label (GTK_BUTTON (self->accept), label);
  gtk_widget_set_sensitive (self->accept, kept && !done);
  gtk_widget_set_visible (self->said, tg_match_desk_accepted (self->desk));
}

static gboolean
has_focus_inside (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root ? gtk_root_get_focus (root) : NULL;

  return focus && gtk_widget_is_ancestor (focus, widget);
}

static void
on_progress (TgMatchHead *self)
{
  double progress = tg_pairing_search_progress (tg_match_desk_search (self->desk));
  gboolean shown = progress > 0;

  if (!shown && has_focus_inside (self->searching))
    g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (self->progress), progress);
  gtk_widget_set_visible (self->searching, shown);
}

void
tg_match_head_show (TgMatchHead *head, TgMatchDesk *desk)
{
  g_return_if_fail (TG_IS_MATCH_HEAD (head) && TG_IS_MATCH_DESK (desk));

  if (g_set_object (&head->desk, desk))
    g_signal_connect_object (tg_match_desk_search (desk), "notify::progress",
                             G_CALLBACK (on_progress), head, G_CONNECT_SWAPPED);
  gtk_widget_set_visible (head->sums, tg_match_desk_has_sum (desk, TG_PAIRING_PISTONS) &&
                                          tg_match_desk_has_sum (desk, TG_PAIRING_BEARINGS));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (tg_match_desk_sum (desk) == TG_PAIRING_PISTONS
                                                       ? head->pistons
                                                       : head->bearings),
                                TRUE);
  show_figures (head);
  show_hand (head);
  show_proof (head);
  show_accept (head);
}

static void
make_why (GtkMenuButton *button, gpointer data)
{
  TgMatchHead *self = data;
  const TgPairingResult *result = tg_match_desk_result (self->desk);

  if (result)
    tg_why_view_pop_up (button, tg_pairing_why (tg_match_desk_pairing (self->desk), result),
                        "Why no pairing takes less");
}

/* --- what the person does -------------------------------------------------------------------- */

static void
on_sum (TgMatchHead *self)
{
  tg_match_desk_set_sum (self->desk,
                         gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->bearings))
                             ? TG_PAIRING_BEARINGS
                             : TG_PAIRING_PISTONS);
}

static void
on_best (TgMatchHead *self)
{
  g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
  tg_match_desk_best_again (self->desk);
}

static void
on_search_on (TgMatchHead *self)
{
  g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
  tg_match_desk_search_on (self->desk, TG_MATCH_DESK_LONG_MS);
}

static void
on_cancel (TgMatchHead *self)
{
  tg_match_desk_cancel (self->desk);
}

static void
on_accept (TgMatchHead *self)
{
  g_autoptr (GError) error = NULL;

  g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
  if (!tg_match_desk_accept (self->desk, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_match_head_dispose (GObject *object)
{
  g_clear_object (&TG_MATCH_HEAD (object)->desk);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_MATCH_HEAD);
  G_OBJECT_CLASS (tg_match_head_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, sums);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, pistons);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, bearings);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, large);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, today);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, hand);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, hand_text);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, proof);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, row);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, why);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, on);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, searching);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, progress);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, accept);
  gtk_widget_class_bind_template_child (widget_class, TgMatchHead, said);
  gtk_widget_class_bind_template_callback (widget_class, on_accept);
  gtk_widget_class_bind_template_callback (widget_class, on_best);
  gtk_widget_class_bind_template_callback (widget_class, on_cancel);
  gtk_widget_class_bind_template_callback (widget_class, on_search_on);
  gtk_widget_class_bind_template_callback (widget_class, on_sum);
}

static void
tg_match_head_class_init (TgMatchHeadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_match_head_dispose;
  g_type_ensure (TG_TYPE_FOLD);
  signals[SIGNAL_LEAVE] = g_signal_new ("leave", TG_TYPE_MATCH_HEAD, G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/match-head.ui");
  bind_children (widget_class);
}

static void
tg_match_head_init (TgMatchHead *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  tg_words_name_menu (GTK_MENU_BUTTON (self->why), "Why no pairing takes less");
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (self->why), make_why, self, NULL);
}
