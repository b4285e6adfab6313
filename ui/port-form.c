/* port-form.c: which port the scale is on, how it is set, and connecting to it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ports that are plugged in are looked up again every LOOK_S seconds while the form is seen.  The
 * last entry of the list opens a field for any other path; there the one that was connected last
 * stands while it is not plugged in.  Nothing that is changed here works before Connect is pressed.
 */
#include "port-form.h"

#include <string.h>

#include "columns.h"
#include "words.h"

#define LOOK_S 2

struct _TgPortForm
{
  GtkBox parent_instance;
  GtkDropDown *choice;
  GtkWidget *none;
  GtkWidget *path_box;
  GtkEditable *path;
  GtkWidget *expander;
  GtkWidget *manual;
  GtkDropDown *speed;
  GtkDropDown *bits;
  GtkDropDown *parity;
  GtkDropDown *stop_bits;
  GtkDropDown *handshake;
  GtkEditable *request;
  GtkLabel *problem;
  GtkButton *connect;
  GtkWidget *disconnect;
  TgScaleLink *link;
  GStrv ports; /* in the list, without the last entry */
  guint look_source;
};

G_DEFINE_FINAL_TYPE (TgPortForm, tg_port_form, GTK_TYPE_BOX)

static const guint speeds[] = { 300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200 };

/* --- ports ----------------------------------------------------------------------------------- */

/* (lends): the path that is chosen; what was typed if it is none of the list */
static const char *
chosen_path (TgPortForm *self)
{
  guint selected = gtk_drop_down_get_selected (self->choice);

  if (self->ports && selected < g_strv_length (self->ports))
    return self->ports[selected];
  return gtk_editable_get_text (self->path);
}

static void
on_choice (TgPortForm *self)
{
  guint n = self->ports ? g_strv_length (self->ports) : 0;

  gtk_widget_set_visible (self->path_box, gtk_drop_down_get_selected (self->choice) >= n);
}

/* (transfer full): what is plugged in */
static GStrv
list_ports (TgPortForm *self)
{
  g_autoptr (GPtrArray) found = tg_scale_link_ports (self->link);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  for (guint i = 0; i < found->len; i++)
    g_strv_builder_add (builder, g_ptr_array_index (found, i));
  gtk_widget_set_visible (self->none, found->len == 0);
  return g_strv_builder_end (builder);
}

/* Shows the ports; @wanted stays chosen or typed. */
static void
refresh_ports (TgPortForm *self, const char *wanted)
{
  GStrv ports = list_ports (self);
  g_autoptr (GtkStringList) list = NULL;
  g_autofree char *path = g_strdup (wanted);
  guint selected = 0;

  if (self->ports &&
      g_strv_equal ((const char *const *) ports, (const char *const *) self->ports) &&
      strcmp (path, chosen_path (self)) == 0)
    {
      g_strfreev (ports);
      return;
    }
  g_strfreev (self->ports);
  self->ports = ports;
  list = gtk_string_list_new ((const char *const *) ports);
  gtk_string_list_append (list, "Another port…");
  if (path[0])
    while (ports[selected] && strcmp (ports[selected], path) != 0)
      selected++;
  if (!ports[selected] && strcmp (gtk_editable_get_text (self->path), path) != 0)
    gtk_editable_set_text (self->path, path);
  gtk_drop_down_set_model (self->choice, G_LIST_MODEL (list));
  gtk_drop_down_set_selected (self->choice, selected);
  on_choice (self);
}

static gboolean
on_look (gpointer data)
{
  TgPortForm *self = data;

  refresh_ports (self, chosen_path (self));
  return G_SOURCE_CONTINUE;
}

/* --- settings -------------------------------------------------------------------------------- */

static void
show_settings (TgPortForm *self)
{
  TgScaleLinkSetup setup = tg_scale_link_setup (self->link);
  guint speed = 0;

  while (speed + 1 < G_N_ELEMENTS (speeds) && speeds[speed] != setup.settings.speed)
    speed++;
  gtk_drop_down_set_selected (self->speed, speed);
  gtk_drop_down_set_selected (self->bits, setup.settings.bits - 7);
  gtk_drop_down_set_selected (self->parity, setup.settings.parity);
  gtk_drop_down_set_selected (self->stop_bits, setup.settings.stop_bits - 1);
  gtk_drop_down_set_selected (self->handshake, setup.settings.handshake);
  gtk_editable_set_text (self->request, setup.request);
}

static TgScaleSettings
chosen_settings (TgPortForm *self)
{
  return (TgScaleSettings){
    .speed = speeds[gtk_drop_down_get_selected (self->speed)],
    .bits = gtk_drop_down_get_selected (self->bits) + 7,
    .parity = (TgScaleParity) gtk_drop_down_get_selected (self->parity),
    .stop_bits = gtk_drop_down_get_selected (self->stop_bits) + 1,
    .handshake = (TgScaleHandshake) gtk_drop_down_get_selected (self->handshake),
  };
}

/* --- connecting ------------------------------------------------------------------------------ */

static void
refresh (TgPortForm *self)
{
  gboolean off = tg_scale_link_state (self->link) == TG_SCALE_LINK_OFF;
  const char *problem = tg_scale_link_problem (self->link);
  const char *unsaved = tg_scale_link_unsaved (self->link);

  gtk_button_set_label (self->connect, off ? "_Connect" : "_Connect anew");
  gtk_widget_set_css_classes (GTK_WIDGET (self->connect),
                              (const char *[]){ off ? "suggested-action" : NULL, NULL });
  gtk_widget_set_visible (self->disconnect, !off);
  if (problem)
    tg_words_show_problem (NULL, self->problem, problem);
  else if (!off || unsaved)
    tg_words_show_problem (NULL, self->problem, unsaved);
}

static void
on_connect (TgPortForm *self)
{
  g_autofree char *port = g_strstrip (g_strdup (chosen_path (self)));
  g_autofree char *request = g_strdup (gtk_editable_get_text (self->request));
  TgScaleLinkSetup setup = { port, chosen_settings (self), request };
  g_autoptr (GError) error = NULL;

  if (!self->link)
    return;
  if (port[0] == '\0')
    {
      tg_words_show_problem (NULL, self->problem, "Type the path of the port first.");
      gtk_widget_grab_focus (GTK_WIDGET (self->path));
      return;
    }
  tg_words_show_problem (NULL, self->problem, NULL);
  if (!tg_scale_link_connect (self->link, &setup, &error))
    tg_words_show_problem (NULL, self->problem, error->message);
}

static void
on_disconnect (TgPortForm *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->connect));
  tg_scale_link_disconnect (self->link);
}

static void
on_map (TgPortForm *self)
{
  if (!self->link || self->look_source)
    return;
  on_look (self);
  self->look_source = g_timeout_add_seconds (LOOK_S, on_look, self);
}

static void
on_unmap (TgPortForm *self)
{
  g_clear_handle_id (&self->look_source, g_source_remove);
}

void
tg_port_form_set_link (TgPortForm *self, TgScaleLink *link)
{
  g_return_if_fail (TG_IS_PORT_FORM (self));

  if (self->link == link)
    return;
  on_unmap (self);
  if (self->link)
    g_signal_handlers_disconnect_by_data (self->link, self);
  g_set_object (&self->link, link);
  gtk_widget_set_sensitive (GTK_WIDGET (self), link != NULL);
  if (!link)
    return;
  g_signal_connect_swapped (link, "changed", G_CALLBACK (refresh), self);
  show_settings (self);
  refresh_ports (self, tg_scale_link_setup (link).port);
  refresh (self);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    on_map (self);
}

gboolean
tg_port_form_focus (TgPortForm *self)
{
  g_return_val_if_fail (TG_IS_PORT_FORM (self), FALSE);

  return gtk_widget_grab_focus (GTK_WIDGET (self->choice));
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_port_form_dispose (GObject *object)
{
  tg_port_form_set_link (TG_PORT_FORM (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_PORT_FORM);
  G_OBJECT_CLASS (tg_port_form_parent_class)->dispose (object);
}

static void
tg_port_form_finalize (GObject *object)
{
  g_strfreev (TG_PORT_FORM (object)->ports);
  G_OBJECT_CLASS (tg_port_form_parent_class)->finalize (object);
}

static void
tg_port_form_class_init (TgPortFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_port_form_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_port_form_finalize;
  g_type_ensure (TG_TYPE_COLUMNS);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/port-form.ui");
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, choice);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, none);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, path_box);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, path);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, expander);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, manual);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, speed);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, bits);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, parity);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, stop_bits);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, handshake);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, request);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, problem);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, connect);
  gtk_widget_class_bind_template_child (widget_class, TgPortForm, disconnect);
  gtk_widget_class_bind_template_callback (widget_class, on_choice);
  gtk_widget_class_bind_template_callback (widget_class, on_connect);
  gtk_widget_class_bind_template_callback (widget_class, on_disconnect);
}

static void
set_words (GtkDropDown *choice, const char *name, const char *const *words)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (words);

  gtk_drop_down_set_model (choice, G_LIST_MODEL (list));
  tg_words_name_choice (choice, name);
}

static void
fill_choices (TgPortForm *self)
{
  static const char *const bits[] = { "7", "8", NULL };
  static const char *const stop_bits[] = { "1", "2", NULL };
  static const char *const parities[] = { "none", "even", "odd", NULL };
  static const char *const handshakes[] = { "none", "RTS and CTS", "XON and XOFF", NULL };
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) texts = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (speeds); i++)
    {
      g_autofree char *text = g_strdup_printf ("%u", speeds[i]);

      g_strv_builder_add (builder, text);
    }
  texts = g_strv_builder_end (builder);
  set_words (self->speed, "Speed in bit/s", (const char *const *) texts);
  set_words (self->bits, "Data bits", bits);
  set_words (self->parity, "Parity", parities);
  set_words (self->stop_bits, "Stop bits", stop_bits);
  set_words (self->handshake, "Handshake", handshakes);
}

static void
tg_port_form_init (TgPortForm *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_choices (self);
  tg_words_name_choice (self->choice, "Port");
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self->expander), GTK_ACCESSIBLE_RELATION_CONTROLS,
                                  self->manual, NULL, -1);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
  g_signal_connect (self, "unmap", G_CALLBACK (on_unmap), NULL);
}
