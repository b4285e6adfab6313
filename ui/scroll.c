/* scroll.c: brings a widget into sight; which of two scrolls, see scroll.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GtkViewport scrolls to what gets the focus, and to nothing else; an answer that appears below the
 * button that was pressed does not get it.
 *
 * GtkScrolledWindow keeps the wheel for itself also where it cannot scroll; its controllers are then
 * taken out of the way.
 */
#include "scroll.h"

static void
on_painted (GdkFrameClock *clock, GtkWidget *widget)
{
  GtkWidget *viewport = gtk_widget_get_ancestor (widget, GTK_TYPE_VIEWPORT);
  GtkAdjustment *adjustment;
  graphene_rect_t bounds;
  double top;

  g_signal_handlers_disconnect_by_func (clock, on_painted, widget);
  if (!viewport || !gtk_widget_compute_bounds (widget, viewport, &bounds))
    return;
  adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (viewport));
  top = gtk_adjustment_get_value (adjustment) + (double) bounds.origin.y;
  gtk_adjustment_clamp_page (adjustment, top, top + (double) bounds.size.height);
}

void
tg_scroll_show (GtkWidget *widget)
{
  GdkFrameClock *clock;

  g_return_if_fail (GTK_IS_WIDGET (widget));

  clock = gtk_widget_get_frame_clock (widget);
  if (!clock)
    return;
  g_signal_connect_object (clock, "after-paint", G_CALLBACK (on_painted), widget, 0);
  gtk_widget_queue_resize (widget);
}

/* The phase it had comes back with @on. */
static void
switch_controller (GtkEventController *controller, gboolean on)
{
  static const char key[] = "tg-phase";
  gpointer phase = g_object_get_data (G_OBJECT (controller), key);

  if (!phase)
    {
      phase = GINT_TO_POINTER (gtk_event_controller_get_propagation_phase (controller));
      g_object_set_data (G_OBJECT (controller), key, phase);
    }
  gtk_event_controller_set_propagation_phase (
      controller, on ? (GtkPropagationPhase) GPOINTER_TO_INT (phase) : GTK_PHASE_NONE);
}

void
tg_scroll_column (GtkWidget *column, gboolean on_its_own)
{
  g_autoptr (GListModel) controllers = NULL;

  g_return_if_fail (GTK_IS_SCROLLED_WINDOW (column));

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (column), GTK_POLICY_NEVER,
                                  on_its_own ? GTK_POLICY_AUTOMATIC : GTK_POLICY_NEVER);
  controllers = gtk_widget_observe_controllers (column);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
        switch_controller (controller, on_its_own);
    }
}
