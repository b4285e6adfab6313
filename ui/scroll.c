/* scroll.c: brings a widget into sight; which of two scrolls; how high one is, see scroll.h
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

static GtkSizeRequestMode
fit_mode (GtkWidget *box G_GNUC_UNUSED)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
fit_measure (GtkWidget *box,
             GtkOrientation orientation,
             int for_size,
             int *minimum,
             int *natural,
             int *minimum_baseline,
             int *natural_baseline)
{
  GtkWidget *scroller = gtk_widget_get_first_child (box);
  int most = gtk_scrolled_window_get_max_content_height (GTK_SCROLLED_WINDOW (scroller));

  *minimum = *natural = 0;
  *minimum_baseline = *natural_baseline = -1;
  if (!gtk_widget_should_layout (scroller))
    return;
  gtk_widget_measure (scroller, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    return;
  gtk_widget_measure (gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller)), orientation,
                      for_size, NULL, natural, NULL, NULL);
  *natural = MAX (*minimum, MIN (*natural, most));
}

static void
fit_allocate (GtkWidget *box, int width, int height, int baseline)
{
  GtkWidget *scroller = gtk_widget_get_first_child (box);

  if (gtk_widget_should_layout (scroller))
    gtk_widget_allocate (scroller, width, height, baseline, NULL);
}

void
tg_scroll_fit (GtkBox *box)
{
  g_return_if_fail (GTK_IS_BOX (box));

  gtk_widget_set_layout_manager (GTK_WIDGET (box),
                                 gtk_custom_layout_new (fit_mode, fit_measure, fit_allocate));
}
