/* match-page.c: which part goes with which
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Left what the pairing on show takes and its bars, right the bore that is picked, the rules and the odd
 * one out; below one another where the window is narrow.  The desk holds what they all show.
 */
#include "match-page.h"

#include "bore-card.h"
#include "clamp.h"
#include "fold.h"
#include "match-head.h"
#include "odd-card.h"
#include "pairing-view.h"
#include "placing-card.h"
#include "rules-list.h"
#include "scroll.h"
#include "words.h"

/* px that stay free above the bore that was picked */
#define ABOVE_BORE 12

struct _TgMatchPage
{
  GtkWidget parent_instance;
  TgMatchDesk *desk;
  GtkWidget *stack;
  GtkWidget *why_not;
  GtkWidget *weigh;
  GtkWidget *grind;
  GtkWidget *scroller;
  GtkWidget *fold;
  GtkWidget *main_scroller;
  GtkWidget *main;
  GtkWidget *side_scroller;
  GtkWidget *side;
  GtkWidget *head;
  GtkWidget *joint;
  GtkWidget *view;
  GtkWidget *bore;
  GtkWidget *rules;
  GtkWidget *odd;
  GtkWidget *placing;
  GtkWidget *odd_alone;
  GtkWidget *placing_alone;
  guint offered; /* events that the offers were reckoned for */
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgMatchPage, tg_match_page, GTK_TYPE_WIDGET)

TgMatchDesk *
tg_match_page_desk (TgMatchPage *page)
{
  g_return_val_if_fail (TG_IS_MATCH_PAGE (page), NULL);

  return page->desk;
}

/* --- what is shown --------------------------------------------------------------------------- */

/* A part that a pairing would need is not weighed yet. */
static gboolean
wants_weighing (TgMatchPage *self)
{
  const TgReview *review = tg_match_desk_review (self->desk);

  if (!tg_match_desk_has_sum (self->desk, tg_match_desk_sum (self->desk)))
    return FALSE;
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      if (part->state == TG_STATE_UNWEIGHED && tg_setup_in_sum (review->setup, part->design->kind))
        return TRUE;
    }
  return FALSE;
}

static void
show_nothing (TgMatchPage *self)
{
  gboolean weigh = wants_weighing (self);

  tg_words_show (GTK_LABEL (self->why_not), tg_match_desk_why_not (self->desk));
  gtk_widget_set_visible (self->weigh, weigh);
  gtk_widget_set_visible (self->grind, !weigh);
}

static void
show_bore (TgMatchPage *self)
{
  if (tg_match_desk_plan (self->desk))
    tg_bore_card_show (TG_BORE_CARD (self->bore), self->desk,
                       tg_pairing_view_row (TG_PAIRING_VIEW (self->view)) + 1);
}

/* Where they leave no pairing they are what has to be looked at; else they come after the bore. */
static void
place_rules (TgMatchPage *self)
{
  const TgPairingResult *result = tg_match_desk_result (self->desk);
  gboolean first = result && result->sums.status == TG_MATCHING_NONE_EXISTS;
  GtkWidget *there = gtk_widget_get_parent (self->rules);
  GtkWidget *wanted = first ? self->main : self->side;

  if (there == wanted)
    return;
  g_object_ref (self->rules);
  gtk_box_remove (GTK_BOX (there), self->rules);
  gtk_box_insert_child_after (GTK_BOX (wanted), self->rules, first ? self->head : self->bore);
  g_object_unref (self->rules);
}

static void
show_pairing (TgMatchPage *self)
{
  const TgMatchingPlan *plan = tg_match_desk_plan (self->desk);
  TgPairingBars *bars = NULL;

  if (plan)
    bars = tg_pairing_bars_new (
        tg_match_desk_review (self->desk), tg_match_desk_pairing (self->desk), plan,
        tg_match_desk_plan_is_today (self->desk) ? NULL : tg_match_desk_today (self->desk));
  tg_match_head_show (TG_MATCH_HEAD (self->head), self->desk);
  tg_pairing_view_show (TG_PAIRING_VIEW (self->view), bars);
  place_rules (self);
  tg_rules_list_show (TG_RULES_LIST (self->rules), self->desk);
  gtk_widget_set_visible (self->joint, plan && tg_match_desk_pairing (self->desk)->joint != NULL);
  gtk_widget_set_visible (self->view, plan != NULL);
  gtk_widget_set_visible (self->bore, plan != NULL);
  show_bore (self);
}

/* What other parts and other places would do is reckoned when the page is shown and when something
 * was done on it.  It is shown beside the pairing, or by itself if there is none. */
static void
show_offers (TgMatchPage *self)
{
  gboolean any = tg_match_desk_pairing (self->desk) != NULL;
  TgSession *session = tg_match_desk_session (self->desk);

  if (!session)
    return;
  tg_odd_card_show (TG_ODD_CARD (any ? self->odd : self->odd_alone), tg_session_review (session));
  tg_placing_card_show (TG_PLACING_CARD (any ? self->placing : self->placing_alone), session);
  self->offered = tg_session_review (session)->n_events;
}

static void
refresh (TgMatchPage *self)
{
  gboolean any = tg_match_desk_pairing (self->desk) != NULL;

  if (any)
    show_pairing (self);
  else
    show_nothing (self);
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), any ? "pairing" : "nothing");
  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && tg_match_desk_session (self->desk) &&
      tg_session_review (tg_match_desk_session (self->desk))->n_events != self->offered)
    show_offers (self);
}

/* Side by side the columns scroll on their own, below one another the page does. */
static void
on_shape (TgMatchPage *self)
{
  gboolean wide = tg_fold_shape (TG_FOLD (self->fold)) == TG_FOLD_WIDE;

  tg_scroll_column (self->main_scroller, wide);
  tg_scroll_column (self->side_scroller, wide);
}

static void
on_row (TgMatchPage *self)
{
  if (tg_match_desk_pairing (self->desk))
    show_bore (self);
}

/* Below one another the parts of the bore are out of sight. */
static void
on_picked (TgMatchPage *self)
{
  graphene_rect_t bounds;

  if (tg_fold_shape (TG_FOLD (self->fold)) != TG_FOLD_WIDE &&
      gtk_widget_compute_bounds (self->bore, self->fold, &bounds))
    gtk_adjustment_set_value (
        gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller)),
        (double) bounds.origin.y - ABOVE_BORE);
}

static void
on_entered (TgMatchPage *self)
{
  gtk_widget_child_focus (self->bore, GTK_DIR_TAB_FORWARD);
}

static void
on_map (TgMatchPage *self)
{
  tg_match_desk_set_awake (self->desk, TRUE);
  show_offers (self);
}

static void
on_unmap (TgMatchPage *self)
{
  tg_match_desk_set_awake (self->desk, FALSE);
}

void
tg_match_page_focus (TgMatchPage *page)
{
  g_return_if_fail (TG_IS_MATCH_PAGE (page));

  if (tg_match_desk_pairing (page->desk))
    gtk_widget_grab_focus (page->view);
  else
    gtk_widget_grab_focus (gtk_widget_get_visible (page->weigh) ? page->weigh : page->grind);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_match_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, tg_match_desk_session (TG_MATCH_PAGE (object)->desk));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_match_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_match_desk_set_session (TG_MATCH_PAGE (object)->desk, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_match_page_dispose (GObject *object)
{
  TgMatchPage *self = TG_MATCH_PAGE (object);

  if (self->desk)
    {
      g_signal_handlers_disconnect_by_data (self->desk, self);
      tg_match_desk_set_session (self->desk, NULL);
    }
  g_clear_object (&self->desk);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_MATCH_PAGE);
  G_OBJECT_CLASS (tg_match_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, stack);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, why_not);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, weigh);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, grind);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, fold);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, main_scroller);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, main);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, side_scroller);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, side);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, head);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, joint);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, view);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, bore);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, rules);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, odd);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, placing);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, odd_alone);
  gtk_widget_class_bind_template_child (widget_class, TgMatchPage, placing_alone);
  gtk_widget_class_bind_template_callback (widget_class, on_entered);
  gtk_widget_class_bind_template_callback (widget_class, on_picked);
  gtk_widget_class_bind_template_callback (widget_class, on_row);
  gtk_widget_class_bind_template_callback (widget_class, on_shape);
  gtk_widget_class_bind_template_callback (widget_class, tg_match_page_focus);
}

static void
tg_match_page_class_init (TgMatchPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_match_page_dispose;
  object_class->get_property = tg_match_page_get_property;
  object_class->set_property = tg_match_page_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_BORE_CARD);
  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_MATCH_HEAD);
  g_type_ensure (TG_TYPE_ODD_CARD);
  g_type_ensure (TG_TYPE_PAIRING_VIEW);
  g_type_ensure (TG_TYPE_PLACING_CARD);
  g_type_ensure (TG_TYPE_RULES_LIST);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/match-page.ui");
  bind_children (widget_class);
}

static void
tg_match_page_init (TgMatchPage *self)
{
  self->desk = tg_match_desk_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->desk, "changed", G_CALLBACK (refresh), self);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
  g_signal_connect (self, "unmap", G_CALLBACK (on_unmap), NULL);
}

GtkWidget *
tg_match_page_new (void)
{
  return g_object_new (TG_TYPE_MATCH_PAGE, NULL);
}
