/* padlock.c: a toggle that holds something where it is
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The padlock is shut while the toggle is on, so the state does not hang on a colour.
 */
#include "padlock.h"
#include "words.h"

struct _TgPadlock
{
  GtkToggleButton parent_instance;
  GtkWidget *icon;
  GtkWidget *text;
};

G_DEFINE_FINAL_TYPE (TgPadlock, tg_padlock, GTK_TYPE_TOGGLE_BUTTON)

static void
on_toggled (TgPadlock *self)
{
  gboolean locked = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self));

  gtk_image_set_from_icon_name (GTK_IMAGE (self->icon),
                                locked ? "changes-prevent-symbolic" : "changes-allow-symbolic");
}

static void
tg_padlock_class_init (G_GNUC_UNUSED TgPadlockClass *klass)
{
}

static void
tg_padlock_init (TgPadlock *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  self->icon = g_object_new (GTK_TYPE_IMAGE, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION,
                             NULL);
  self->text = gtk_label_new (NULL);
  gtk_label_set_ellipsize (GTK_LABEL (self->text), PANGO_ELLIPSIZE_END);
  gtk_box_append (GTK_BOX (box), self->icon);
  gtk_box_append (GTK_BOX (box), self->text);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_button_set_child (GTK_BUTTON (self), box);
  gtk_widget_add_css_class (GTK_WIDGET (self), "padlock");
  g_signal_connect (self, "toggled", G_CALLBACK (on_toggled), NULL);
  on_toggled (self);
  tg_padlock_show (self, "", "Lock", FALSE);
}

void
tg_padlock_show (TgPadlock *padlock, const char *text, const char *name, gboolean locked)
{
  g_return_if_fail (TG_IS_PADLOCK (padlock));

  gtk_label_set_text (GTK_LABEL (padlock->text), text);
  tg_words_name (GTK_WIDGET (padlock), name);
  gtk_widget_set_tooltip_text (GTK_WIDGET (padlock), name);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (padlock), locked);
}
