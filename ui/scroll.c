/* scroll.c: brings a widget into sight, see scroll.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GtkViewport scrolls to what gets the focus, and to nothing else; an answer that appears below the
 * button that was pressed does not get it.
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
