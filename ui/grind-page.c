/* grind-page.c: the set, the part in work and the next instruction
 *
 * Left the set, in the middle the part with its weights, their history and what was done on it, right
 * the instruction; below one another where the window is narrow.  The page follows the session's part
 * as long as it is in work; the pieces refresh themselves.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "grind-page.h"

#include "done-list.h"
#include "figures-row.h"
#include "finding-view.h"
#include "fold.h"
#include "history-view.h"
#include "next-panel.h"
#include "part-view.h"
#include "scale-link.h"
#include "scroll.h"
#include "set-list.h"
#include "why-button.h"
#include "words.h"

struct _TgGrindPage
{
  GtkWidget parent_instance;
  TgSession *session;
  gulong changed;
  gulong part_changed;
  GtkWidget *scroller;
  GtkWidget *fold;
  GtkWidget *set;
  GtkWidget *title;
  GtkWidget *state;
  GtkWidget *why;
  GtkWidget *menu;
  GtkWidget *view;
  GtkWidget *zone;
  GtkWidget *next_scroller;
  GtkWidget *next;
  GtkWidget *figures;
  GtkWidget *findings;
  GtkWidget *history;
  GtkWidget *past_scroller;
  GtkWidget *done;
};

enum
{
  PROP_SESSION = 1,
  PROP_LINK,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgGrindPage, tg_grind_page, GTK_TYPE_WIDGET)

static const TgPartReview *
chosen_part (TgGrindPage *self)
{
  return tg_review_part (tg_session_review (self->session), tg_session_part (self->session));
}

static void
on_zone (TgGrindPage *self)
{
  int zone = tg_part_view_zone (TG_PART_VIEW (self->view));
  g_autofree char *text = NULL;

  if (zone >= 0 && self->session)
    text = tg_part_view_describe_zone (tg_session_review (self->session),
                                       tg_session_part (self->session), (guint) zone);
  tg_words_show (GTK_LABEL (self->zone), text);
  gtk_widget_set_visible (self->zone, text != NULL);
}

static void
refresh_menu (TgGrindPage *self, const TgPartReview *part)
{
  g_autoptr (GMenu) menu = g_menu_new ();

  g_menu_append (menu,
                 part->frozen ? "Unfreeze: it may be ground again" : "Freeze: do not grind it",
                 "grind.freeze");
  g_menu_append (menu, "Another piece takes its place", "grind.replace");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (self->menu), G_MENU_MODEL (menu));
}

static void
refresh (TgGrindPage *self)
{
  const TgReview *review = tg_session_review (self->session);
  guint index = tg_session_part (self->session);
  const TgPartReview *part = tg_review_part (review, index);
  g_autofree char *place = tg_words_place (review, index);
  g_autofree char *state = g_strconcat (tg_part_review_label (part), place[0] ? " · " : "", place,
                                        part->frozen ? " · frozen" : "",
                                        part->pieces > 1 ? " · replaced" : "", NULL);
  g_autofree char *explains = g_strdup_printf ("%s: %s", part->part->name,
                                               tg_part_review_label (part));

  tg_words_show (GTK_LABEL (self->title), part->part->name);
  tg_words_show (GTK_LABEL (self->state), state);
  tg_why_button_give (TG_WHY_BUTTON (self->why), explains, tg_review_why_part (review, index));
  tg_part_view_set_part (TG_PART_VIEW (self->view), index);
  tg_history_view_set_part (TG_HISTORY_VIEW (self->history), index);
  tg_figures_row_show (TG_FIGURES_ROW (self->figures), review, index);
  tg_finding_view_fill (GTK_BOX (self->findings), review, (int) index);
  refresh_menu (self, part);
  on_zone (self);
}

/* What is only weighed has no place here: the work goes on where the instruction says. */
static void
choose_in_work (TgGrindPage *self)
{
  const TgReview *review = tg_session_review (self->session);
  guint part = review->next->slot.part;

  if (chosen_part (self)->in_work || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  for (guint i = 0; i < review->parts->len && !tg_review_part (review, part)->in_work; i++)
    part = i;
  if (tg_review_part (review, part)->in_work)
    tg_session_set_part (self->session, part);
}

static void
on_map (TgGrindPage *self)
{
  if (self->session)
    choose_in_work (self);
}

static void
on_part (TgGrindPage *self)
{
  choose_in_work (self);
  tg_done_list_set_part (TG_DONE_LIST (self->done), (int) tg_session_part (self->session));
  refresh (self);
}

/* Striking out a pairing may take the part out of work. */
static void
on_changed (TgGrindPage *self)
{
  choose_in_work (self);
  refresh (self);
}

static void
on_chosen (TgGrindPage *self)
{
  tg_grind_page_focus (self);
}

/* Side by side the columns scroll on their own, below one another the page does. */
static void
on_shape (TgGrindPage *self)
{
  gboolean wide = tg_fold_shape (TG_FOLD (self->fold)) == TG_FOLD_WIDE;

  tg_set_list_set_strip (TG_SET_LIST (self->set), !wide);
  tg_scroll_column (self->next_scroller, wide);
  tg_scroll_column (self->past_scroller, wide);
}

static void
decide (TgGrindPage *self, TgEvent event)
{
  g_autoptr (GError) error = NULL;

  event.part = chosen_part (self)->part->id;
  if (!tg_session_append (self->session, &event, 1, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
  tg_grind_page_focus (self);
}

static void
freeze (GtkWidget *widget, G_GNUC_UNUSED const char *action, G_GNUC_UNUSED GVariant *parameter)
{
  TgGrindPage *self = TG_GRIND_PAGE (widget);
  TgEvent event = tg_event_blank (TG_EVENT_FREEZE);

  event.on = !chosen_part (self)->frozen;
  decide (self, event);
}

static void
replace (GtkWidget *widget, G_GNUC_UNUSED const char *action, G_GNUC_UNUSED GVariant *parameter)
{
  decide (TG_GRIND_PAGE (widget), tg_event_blank (TG_EVENT_REPLACE));
}

static void
act_focus (GtkWidget *widget, G_GNUC_UNUSED const char *action, G_GNUC_UNUSED GVariant *parameter)
{
  tg_grind_page_focus (TG_GRIND_PAGE (widget));
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_grind_page_dispose (GObject *object)
{
  tg_grind_page_set_session (TG_GRIND_PAGE (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_GRIND_PAGE);
  G_OBJECT_CLASS (tg_grind_page_parent_class)->dispose (object);
}

static void
tg_grind_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_GRIND_PAGE (object)->session);
  else if (id == PROP_LINK)
    g_object_get_property (G_OBJECT (TG_GRIND_PAGE (object)->next), "link", value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_grind_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_grind_page_set_session (TG_GRIND_PAGE (object), g_value_get_object (value));
  else if (id == PROP_LINK)
    g_object_set_property (G_OBJECT (TG_GRIND_PAGE (object)->next), "link", value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, fold);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, set);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, title);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, state);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, why);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, menu);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, view);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, zone);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, next_scroller);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, next);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, figures);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, findings);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, history);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, past_scroller);
  gtk_widget_class_bind_template_child (widget_class, TgGrindPage, done);
  gtk_widget_class_bind_template_callback (widget_class, on_zone);
  gtk_widget_class_bind_template_callback (widget_class, on_chosen);
  gtk_widget_class_bind_template_callback (widget_class, on_shape);
}

static void
tg_grind_page_class_init (TgGrindPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_grind_page_dispose;
  object_class->get_property = tg_grind_page_get_property;
  object_class->set_property = tg_grind_page_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_LINK] = g_param_spec_object ("link", NULL, NULL, TG_TYPE_SCALE_LINK,
                                               G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  g_type_ensure (TG_TYPE_DONE_LIST);
  g_type_ensure (TG_TYPE_FIGURES_ROW);
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_HISTORY_VIEW);
  g_type_ensure (TG_TYPE_NEXT_PANEL);
  g_type_ensure (TG_TYPE_PART_VIEW);
  g_type_ensure (TG_TYPE_SET_LIST);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/grind-page.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "grind.freeze", NULL, freeze);
  gtk_widget_class_install_action (widget_class, "grind.replace", NULL, replace);
  gtk_widget_class_install_action (widget_class, "grind.focus", NULL, act_focus);
}

static void
tg_grind_page_init (TgGrindPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  tg_words_name_menu (GTK_MENU_BUTTON (self->menu), "This part");
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
}

GtkWidget *
tg_grind_page_new (void)
{
  return g_object_new (TG_TYPE_GRIND_PAGE, NULL);
}

void
tg_grind_page_set_session (TgGrindPage *page, TgSession *session)
{
  g_return_if_fail (TG_IS_GRIND_PAGE (page));

  if (page->session == session)
    return;
  if (page->session)
    {
      g_clear_signal_handler (&page->changed, page->session);
      g_clear_signal_handler (&page->part_changed, page->session);
    }
  g_set_object (&page->session, session);
  if (!session)
    return;
  tg_set_list_set_session (TG_SET_LIST (page->set), session);
  tg_part_view_set_session (TG_PART_VIEW (page->view), session);
  tg_next_panel_set_session (TG_NEXT_PANEL (page->next), session);
  tg_history_view_set_session (TG_HISTORY_VIEW (page->history), session);
  tg_done_list_set_session (TG_DONE_LIST (page->done), session);
  page->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (on_changed), page);
  page->part_changed = g_signal_connect_swapped (session, "notify::part", G_CALLBACK (on_part),
                                                 page);
  on_part (page);
}

/* What is next begins there; the field scrolls itself into sight where it is out of it. */
static void
to_top (GtkWidget *scroller)
{
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)),
                            0);
}

void
tg_grind_page_focus (TgGrindPage *page)
{
  g_return_if_fail (TG_IS_GRIND_PAGE (page));

  to_top (page->next_scroller);
  if (tg_fold_shape (TG_FOLD (page->fold)) == TG_FOLD_NARROW)
    to_top (page->scroller);
  if (!tg_next_panel_focus (TG_NEXT_PANEL (page->next)))
    tg_set_list_focus (TG_SET_LIST (page->set));
}
