/* decision-view.c: a problem that only the person can decide, with its ways out
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The review found the ways out and what each costs; pressing one appends its events.  No second
 * question is asked: like everything in the journal a choice can be struck out.
 */
#include "decision-view.h"

#include <math.h>

#include "choice-button.h"
#include "columns.h"
#include "why-button.h"
#include "words.h"

/* Below half a milligram a cost is none: masses are whole milligrams. */
#define NOTHING_G 0.0005

struct _TgDecisionView
{
  GtkBox parent_instance;
  GtkLabel *title;
  TgWhyButton *why;
  GtkLabel *text;
  TgColumns *choices;
  GtkWidget *setup;
  GtkLabel *problem;
  GtkLabel *closing;
  TgSession *session;
};

enum
{
  PROP_0,
  PROP_SESSION,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgDecisionView, tg_decision_view, GTK_TYPE_BOX)

GtkWidget *
tg_decision_view_new (void)
{
  return g_object_new (TG_TYPE_DECISION_VIEW, NULL);
}

char *
tg_decision_view_cost (const TgChoice *choice, TgMass resolution)
{
  g_autofree char *grams = NULL;
  guint decimals;

  if (!choice->extra)
    return g_strdup ("depends on the piece");
  if (fabs (choice->cost_g) < NOTHING_G)
    return g_strdup ("costs nothing");
  decimals = tg_mass_decimals (resolution);
  grams = tg_mass_format (tg_mass_from_g (fabs (choice->cost_g)), decimals);
  if (g_ascii_strtod (grams, NULL) <= 0)
    return g_strdup_printf ("less than %s g over the set", decimals == 0   ? "1"
                                                           : decimals == 1 ? "0.1"
                                                           : decimals == 2 ? "0.01"
                                                                           : "0.001");
  return g_strdup_printf ("%s g %s over the set", grams, choice->cost_g > 0 ? "more" : "less");
}

static const TgDecision *
decision_of (TgDecisionView *self)
{
  const GPtrArray *decisions;
  guint part;

  if (!self->session)
    return NULL;
  decisions = tg_session_review (self->session)->decisions;
  part = tg_session_part (self->session);
  for (guint i = 0; i < decisions->len; i++)
    {
      const TgDecision *decision = g_ptr_array_index (decisions, i);

      if (decision->part == (int) part)
        return decision;
    }
  return decisions->len > 0 ? g_ptr_array_index (decisions, 0) : NULL;
}

static void
show_problem (TgDecisionView *self, const char *text)
{
  tg_words_show (self->problem, text);
  gtk_widget_set_visible (GTK_WIDGET (self->problem), text != NULL);
}

static void
on_clicked (GtkButton *button, TgDecisionView *self)
{
  tg_decision_view_choose (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "index")));
}

static GtkWidget *
new_card (TgDecisionView *self, const TgChoice *choice, guint index)
{
  g_autofree char *cost = tg_decision_view_cost (
      choice, tg_session_review (self->session)->setup->resolution);
  g_autofree char *explains = g_strdup_printf ("what it costs: %s", choice->title);
  GtkWidget *card = tg_choice_button_new (choice, cost);

  g_object_set_data (G_OBJECT (card), "index", GUINT_TO_POINTER (index));
  g_signal_connect_object (card, "clicked", G_CALLBACK (on_clicked), self, 0);
  return tg_choice_button_explain (
      card, explains, tg_review_why_choice (tg_session_review (self->session), choice));
}

/* Where no single step is enough the way out is in the set-up. */
static char *
closing_words (const TgDecision *decision, guint n)
{
  const char *text = decision && decision->choices->len == 0
                         ? "No single step is enough here. A wider tolerance, another zone or "
                           "another part may be."
                         : "A choice is written to the journal and can be struck out again.";

  return n > 1 ? g_strdup_printf ("%s %u more to decide.", text, n - 1) : g_strdup (text);
}

static void
refresh (TgDecisionView *self)
{
  const TgDecision *decision = decision_of (self);
  guint n = self->session ? tg_session_review (self->session)->decisions->len : 0;
  g_autofree char *closing = NULL;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->choices))))
    gtk_widget_unparent (child);
  show_problem (self, NULL);
  tg_words_show (self->title, decision ? decision->title : "Nothing to decide");
  tg_why_button_give (
      self->why, decision ? decision->title : "",
      decision ? tg_review_why_decision (tg_session_review (self->session), decision) : NULL);
  tg_words_show (self->text, decision ? decision->text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->text), decision && decision->text[0]);
  for (guint i = 0; decision && i < decision->choices->len; i++)
    tg_columns_append (self->choices, new_card (self, g_ptr_array_index (decision->choices, i), i));
  closing = closing_words (decision, n);
  tg_words_show (self->closing, closing);
  gtk_widget_set_visible (GTK_WIDGET (self->closing), decision != NULL);
  gtk_widget_set_visible (self->setup, decision && decision->choices->len == 0);
}

gboolean
tg_decision_view_choose (TgDecisionView *self, guint index)
{
  const TgDecision *decision;
  const TgChoice *choice;
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (TG_IS_DECISION_VIEW (self), FALSE);

  decision = decision_of (self);
  g_return_val_if_fail (decision && index < decision->choices->len, FALSE);

  choice = g_ptr_array_index (decision->choices, index);
  if (tg_session_append (self->session, (const TgEvent *) (gpointer) choice->events->data,
                         choice->events->len, &error))
    return TRUE;
  show_problem (self, error->message);
  return FALSE;
}

static void
set_session (TgDecisionView *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    {
      g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (session, "notify::part", G_CALLBACK (refresh), self,
                               G_CONNECT_SWAPPED);
    }
  refresh (self);
}

static void
tg_decision_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_DECISION_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_decision_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_DECISION_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_decision_view_dispose (GObject *object)
{
  TgDecisionView *self = TG_DECISION_VIEW (object);

  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_DECISION_VIEW);
  G_OBJECT_CLASS (tg_decision_view_parent_class)->dispose (object);
}

static void
tg_decision_view_class_init (TgDecisionViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  object_class->get_property = tg_decision_view_get_property;
  object_class->set_property = tg_decision_view_set_property;
  object_class->dispose = tg_decision_view_dispose;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/decision-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TgDecisionView, title);
  gtk_widget_class_bind_template_child (widget_class, TgDecisionView, why);
  gtk_widget_class_bind_template_child (widget_class, TgDecisionView, text);
  gtk_widget_class_bind_template_child (widget_class, TgDecisionView, choices);
  gtk_widget_class_bind_template_child (widget_class, TgDecisionView, problem);
  gtk_widget_class_bind_template_child (widget_class, TgDecisionView, setup);
  gtk_widget_class_bind_template_child (widget_class, TgDecisionView, closing);
}

static void
tg_decision_view_init (TgDecisionView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  refresh (self);
}
