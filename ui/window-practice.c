/* window-practice.c: debrief, replay and class table in the window
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "window-private.h"

#include "class-page.h"
#include "debrief-page.h"
#include "replay-page.h"

/* To how the practice was done. */
void
tg_window_act_debrief (GtkWidget *widget,
                       G_GNUC_UNUSED const char *name,
                       G_GNUC_UNUSED GVariant *parameter)
{
  if (TG_WINDOW (widget)->session)
    tg_window_show_page (TG_WINDOW (widget), "debrief");
}

/* To the replay: at the entry with this index, or with -1 where it was. */
void
tg_window_act_replay (GtkWidget *widget, G_GNUC_UNUSED const char *name, GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);
  int index = g_variant_get_int32 (parameter);

  if (!self->session)
    return;
  if (index >= 0)
    tg_replay_page_show (TG_REPLAY_PAGE (tg_later_get (TG_LATER (self->replay))), (guint) index);
  tg_window_show_page (self, "replay");
}

static void
on_left (TgWindow *self)
{
  tg_window_show_page (self, self->before_class ? self->before_class : "welcome");
}

void
tg_window_act_class (GtkWidget *widget,
                     G_GNUC_UNUSED const char *name,
                     G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);

  if (!tg_later_peek (TG_LATER (self->class_table)))
    g_signal_connect_object (tg_later_get (TG_LATER (self->class_table)), "left",
                             G_CALLBACK (on_left), self, G_CONNECT_SWAPPED);
  if (g_strcmp0 (tg_window_page (self), "class") != 0)
    self->before_class = g_intern_string (tg_window_page (self));
  tg_window_show_page (self, "class");
}

/* A job of the class, in a window of its own where this one has a job. */
void
tg_window_act_open_debrief (GtkWidget *widget, G_GNUC_UNUSED const char *name, GVariant *parameter)
{
  TgWindow *window = tg_window_open_path (TG_WINDOW (widget),
                                          g_variant_get_string (parameter, NULL));

  if (window)
    tg_window_show_page (window, "debrief");
}
