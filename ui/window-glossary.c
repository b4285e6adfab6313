/* window-glossary.c: the glossary at the side of the window, and the ways to it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * F3 and the menu open it on the terms of the page.  Shift+F1 on what has the keyboard, a click with the
 * second button and a long press on anything that shows a term open it there; where no term stands, the
 * click goes its usual way.  Only one panel is open at the side.
 */
#include "window-private.h"

#include "glossary-panel.h"
#include "shown-terms.h"

/* Made when it is first wanted. */
static TgGlossaryPanel *
panel_of (TgWindow *self)
{
  if (!self->glossary)
    {
      self->glossary = tg_glossary_panel_new ();
      gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->glossary_scroll), self->glossary);
    }
  return TG_GLOSSARY_PANEL (self->glossary);
}

static void
scroll_to_top (TgWindow *self)
{
  gtk_adjustment_set_value (
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->glossary_scroll)), 0);
}

void
tg_window_refresh_glossary (TgWindow *window)
{
  if (gtk_widget_get_visible (window->glossary_box) && !tg_glossary_panel_term (panel_of (window)))
    tg_glossary_panel_show_page (panel_of (window),
                                 gtk_stack_get_visible_child (GTK_STACK (window->pages)));
}

static void
open_panel (TgWindow *self)
{
  gtk_widget_set_visible (self->glossary_box, TRUE);
  scroll_to_top (self);
  tg_glossary_panel_focus (panel_of (self));
}

void
tg_window_act_glossary (GtkWidget *widget,
                        G_GNUC_UNUSED const char *name,
                        G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);

  if (gtk_widget_get_visible (self->glossary_box))
    {
      gtk_widget_set_visible (self->glossary_box, FALSE);
      tg_window_focus_field (self);
      return;
    }
  tg_glossary_panel_show_page (panel_of (self),
                               gtk_stack_get_visible_child (GTK_STACK (self->pages)));
  open_panel (self);
}

/* FALSE where no term stands. */
static gboolean
open_at (TgWindow *self, GtkWidget *widget)
{
  g_autoptr (GPtrArray) terms = NULL;

  if (!widget)
    return FALSE;
  terms = tg_shown_terms_at (tg_glossary_panel_glossary (panel_of (self)), widget,
                             GTK_WIDGET (self));
  if (terms->len == 0)
    return FALSE;
  tg_glossary_panel_show_terms (panel_of (self), terms);
  open_panel (self);
  return TRUE;
}

void
tg_window_act_glossary_here (GtkWidget *widget,
                             G_GNUC_UNUSED const char *name,
                             G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);

  if (!open_at (self, gtk_window_get_focus (GTK_WINDOW (self))) &&
      !gtk_widget_get_visible (self->glossary_box))
    tg_window_act_glossary (widget, NULL, NULL);
}

/* Fields have a menu of their own. */
static gboolean
has_own_menu (GtkWidget *widget)
{
  return gtk_widget_get_ancestor (widget, GTK_TYPE_TEXT) ||
         gtk_widget_get_ancestor (widget, GTK_TYPE_TEXT_VIEW) ||
         gtk_widget_get_ancestor (widget, TG_TYPE_GLOSSARY_PANEL);
}

static void
open_under_pointer (GtkGesture *gesture, double x, double y, TgWindow *self)
{
  GtkWidget *picked = gtk_widget_pick (GTK_WIDGET (self), x, y, GTK_PICK_DEFAULT);

  if (picked && !has_own_menu (picked) && open_at (self, picked))
    gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
  else
    gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_DENIED);
}

static void
on_second_button (
    GtkGesture *gesture, G_GNUC_UNUSED int n_press, double x, double y, TgWindow *self)
{
  open_under_pointer (gesture, x, y, self);
}

/* Of the cautions and the glossary the one opened last stays. */
static void
on_side_shown (GtkWidget *box, G_GNUC_UNUSED GParamSpec *pspec, TgWindow *self)
{
  GtkWidget *other = box == self->glossary_box ? self->cautions_box : self->glossary_box;

  if (gtk_widget_get_visible (box))
    gtk_widget_set_visible (other, FALSE);
}

void
tg_window_take_terms (TgWindow *window)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkGesture *press = gtk_gesture_long_press_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  gtk_gesture_single_set_touch_only (GTK_GESTURE_SINGLE (press), TRUE);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (press), GTK_PHASE_CAPTURE);
  g_signal_connect (click, "pressed", G_CALLBACK (on_second_button), window);
  g_signal_connect (press, "pressed", G_CALLBACK (open_under_pointer), window);
  gtk_widget_add_controller (GTK_WIDGET (window), GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (GTK_WIDGET (window), GTK_EVENT_CONTROLLER (press));
  g_signal_connect (window->cautions_box, "notify::visible", G_CALLBACK (on_side_shown), window);
  g_signal_connect (window->glossary_box, "notify::visible", G_CALLBACK (on_side_shown), window);
}
