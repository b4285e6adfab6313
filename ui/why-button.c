/* why-button.c: a small quiet button that opens a reason, see why-button.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "why-button.h"

#include "why-view.h"
#include "words.h"

struct _TgWhyButton
{
  GtkWidget parent_instance;
  GtkWidget *menu;
  char *explains;
  GPtrArray *terms;
};

G_DEFINE_FINAL_TYPE (TgWhyButton, tg_why_button, GTK_TYPE_WIDGET)

static void
make_popover (GtkMenuButton *menu, gpointer data)
{
  TgWhyButton *self = data;
  g_autofree char *title = g_strdup (self->explains);

  title[0] = g_ascii_toupper (title[0]);
  tg_why_view_pop_up (menu, g_ptr_array_ref (self->terms), title);
}

void
tg_why_button_give (TgWhyButton *button, const char *explains, GPtrArray *terms)
{
  g_autofree char *name = g_strdup_printf ("Why: %s", explains);

  g_return_if_fail (TG_IS_WHY_BUTTON (button) && explains != NULL);

  g_free (button->explains);
  button->explains = g_strdup (explains);
  g_clear_pointer (&button->terms, g_ptr_array_unref);
  button->terms = terms;
  tg_words_name_menu (GTK_MENU_BUTTON (button->menu), name);
  gtk_widget_set_visible (GTK_WIDGET (button), terms != NULL);
}

GtkWidget *
tg_why_button_row (GtkWidget *label, TgWhyButton *button)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), GTK_WIDGET (button));
  return row;
}

static void
tg_why_button_dispose (GObject *object)
{
  TgWhyButton *self = TG_WHY_BUTTON (object);

  g_clear_pointer (&self->terms, g_ptr_array_unref);
  g_clear_pointer (&self->explains, g_free);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_WHY_BUTTON);
  G_OBJECT_CLASS (tg_why_button_parent_class)->dispose (object);
}

static void
tg_why_button_class_init (TgWhyButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_why_button_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/why-button.ui");
  gtk_widget_class_bind_template_child (widget_class, TgWhyButton, menu);
}

static void
tg_why_button_init (TgWhyButton *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (self->menu), make_popover, self, NULL);
}

GtkWidget *
tg_why_button_new (void)
{
  return g_object_new (TG_TYPE_WHY_BUTTON, NULL);
}
