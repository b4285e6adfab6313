/* cable-panel.c: a scale on a cable is connected, learned and watched
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From top to bottom: the port; once it is connected what the scale shows; learning its lines, open
 * while they are not known; and the last lines with the reason why each is a reading or none.
 */
#include "cable-panel.h"

#include "line-samples.h"
#include "port-form.h"
#include "scale-words.h"
#include "words.h"

struct _TgCablePanel
{
  GtkBox parent_instance;
  GtkLabel *standing;
  TgPortForm *form;
  GtkWidget *watch;
  GtkLabel *shown;
  GtkDropDown *rows;
  GtkWidget *marked;
  GtkWidget *learn_section;
  TgLineSamples *samples;
  GtkWidget *lines_section;
  GtkBox *lines;
  TgScaleLink *link;
  gboolean filling; /* what is chosen is set from the link and not by the person */
};

enum
{
  PROP_LINK = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgCablePanel, tg_cable_panel, GTK_TYPE_BOX)

/* 0 is last: each line is a reading. */
static const guint rows[] = { 2, 3, 4, 6, 10, 20, 0 };

/* --- the last lines -------------------------------------------------------------------------- */

static void
fill_line (TgScaleLink *link, guint index, GtkWidget *row)
{
  const TgScaleLinkLine *line = tg_scale_link_line (link, index);
  GtkWidget *text = gtk_widget_get_first_child (row);
  g_autofree char *shown = tg_scale_words_line (line->text, line->length);
  g_autofree char *times = line->count > 1 ? g_strdup_printf ("%u times, ", line->count)
                                           : g_strdup ("");
  g_autofree char *figure = NULL;
  g_autofree char *meaning = NULL;

  if (!tg_scale_link_pattern (link))
    meaning = g_strdup_printf ("%snot learned yet", times);
  else if (line->reading.kind == TG_SCALE_LINE_READING)
    {
      figure = tg_scale_words_figure (line->reading.mass, tg_scale_link_step (link));
      meaning = g_strdup_printf ("%sa reading: %s g%s", times, figure,
                                 line->reading.rest == TG_SCALE_REST_MOVING     ? ", moving"
                                 : line->reading.rest == TG_SCALE_REST_STANDING ? ", at rest"
                                                                                : "");
    }
  else
    meaning = g_strdup_printf ("%sno reading: %s", times, tg_scale_line_label (line->reading.kind));
  gtk_label_set_text (GTK_LABEL (text), shown);
  tg_words_show (GTK_LABEL (gtk_widget_get_next_sibling (text)), meaning);
}

static void
refresh_lines (TgCablePanel *self)
{
  GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->lines));
  guint n = tg_scale_link_n_lines (self->link);

  gtk_widget_set_visible (self->lines_section, n > 0);
  for (guint i = 0; row; i++, row = gtk_widget_get_next_sibling (row))
    {
      gtk_widget_set_visible (row, i < n);
      if (i < n)
        fill_line (self->link, i, row);
    }
}

static void
make_line_rows (TgCablePanel *self)
{
  for (guint i = 0; i < TG_SCALE_LINK_LINES; i++)
    {
      GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
      GtkWidget *text = gtk_label_new (NULL);
      GtkWidget *meaning = gtk_label_new (NULL);

      gtk_label_set_xalign (GTK_LABEL (text), 0);
      gtk_label_set_wrap (GTK_LABEL (text), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (text), PANGO_WRAP_CHAR);
      gtk_widget_add_css_class (text, "raw-line");
      gtk_label_set_xalign (GTK_LABEL (meaning), 0);
      gtk_label_set_wrap (GTK_LABEL (meaning), TRUE);
      gtk_widget_add_css_class (meaning, "quiet");
      gtk_widget_add_css_class (meaning, "small");
      gtk_box_append (GTK_BOX (row), text);
      gtk_box_append (GTK_BOX (row), meaning);
      gtk_box_append (self->lines, row);
    }
}

/* --- what is shown --------------------------------------------------------------------------- */

/* (transfer full): nothing is read on this page, so what lies there matters less than elsewhere */
static char *
standing_here (TgScaleLink *link)
{
  TgMass mass;

  switch (tg_scale_link_load (link, &mass))
    {
    case TG_SCALE_LOAD_MOVING:
      return g_strdup ("moving");
    case TG_SCALE_LOAD_EMPTY:
    case TG_SCALE_LOAD_READ:
    case TG_SCALE_LOAD_OLD:
      return g_strdup ("at rest");
    case TG_SCALE_LOAD_HASTY:
      return g_strdup ("It sends by itself and not by a key: choose below how many equal readings "
                       "are waited for.");
    case TG_SCALE_LOAD_UNKNOWN:
    default:
      return tg_scale_words_standing (link);
    }
}

static void
refresh_rows (TgCablePanel *self)
{
  const TgScalePattern *pattern = tg_scale_link_pattern (self->link);
  guint in_a_row = tg_scale_link_in_a_row (self->link);
  guint chosen = 0;

  while (chosen + 1 < G_N_ELEMENTS (rows) && rows[chosen] != in_a_row)
    chosen++;
  self->filling = TRUE;
  gtk_drop_down_set_selected (self->rows,
                              rows[chosen] == in_a_row ? chosen : GTK_INVALID_LIST_POSITION);
  self->filling = FALSE;
  gtk_widget_set_visible (self->marked, pattern && pattern->marked && in_a_row > 0);
}

static void
refresh (TgCablePanel *self)
{
  TgScaleLinkState state = tg_scale_link_state (self->link);
  g_autofree char *standing = standing_here (self->link);
  g_autofree char *shown = tg_scale_words_load (self->link);

  tg_words_show (self->standing, standing);
  gtk_widget_set_visible (self->watch, state != TG_SCALE_LINK_OFF);
  tg_words_show (self->shown, shown ? shown : "–");
  gtk_widget_set_visible (GTK_WIDGET (self->shown), state != TG_SCALE_LINK_OFF);
  refresh_rows (self);
  refresh_lines (self);
}

static void
on_changed (TgCablePanel *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    refresh (self);
}

static void
on_map (TgCablePanel *self)
{
  if (self->link)
    refresh (self);
}

static void
on_rows (TgCablePanel *self)
{
  guint chosen = gtk_drop_down_get_selected (self->rows);

  if (self->link && !self->filling && chosen < G_N_ELEMENTS (rows))
    tg_scale_link_set_in_a_row (self->link, rows[chosen]);
}

void
tg_cable_panel_set_link (TgCablePanel *panel, TgScaleLink *link)
{
  g_return_if_fail (TG_IS_CABLE_PANEL (panel));

  if (panel->link == link)
    return;
  if (panel->link)
    g_signal_handlers_disconnect_by_data (panel->link, panel);
  g_set_object (&panel->link, link);
  tg_port_form_set_link (panel->form, link);
  tg_line_samples_set_link (panel->samples, link);
  if (!link)
    return;
  g_signal_connect_swapped (link, "changed", G_CALLBACK (on_changed), panel);
  gtk_expander_set_expanded (GTK_EXPANDER (panel->learn_section), !tg_scale_link_pattern (link));
  refresh (panel);
}

gboolean
tg_cable_panel_focus (TgCablePanel *panel)
{
  g_return_val_if_fail (TG_IS_CABLE_PANEL (panel), FALSE);

  return tg_port_form_focus (panel->form);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_cable_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LINK)
    g_value_set_object (value, TG_CABLE_PANEL (object)->link);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_cable_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LINK)
    tg_cable_panel_set_link (TG_CABLE_PANEL (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_cable_panel_dispose (GObject *object)
{
  TgCablePanel *self = TG_CABLE_PANEL (object);

  if (self->link)
    g_signal_handlers_disconnect_by_data (self->link, self);
  g_clear_object (&self->link);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_CABLE_PANEL);
  G_OBJECT_CLASS (tg_cable_panel_parent_class)->dispose (object);
}

static void
tg_cable_panel_class_init (TgCablePanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_cable_panel_dispose;
  object_class->get_property = tg_cable_panel_get_property;
  object_class->set_property = tg_cable_panel_set_property;
  props[PROP_LINK] = g_param_spec_object ("link", NULL, NULL, TG_TYPE_SCALE_LINK,
                                          G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_LINE_SAMPLES);
  g_type_ensure (TG_TYPE_PORT_FORM);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/cable-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, standing);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, form);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, watch);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, shown);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, rows);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, marked);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, learn_section);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, samples);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, lines_section);
  gtk_widget_class_bind_template_child (widget_class, TgCablePanel, lines);
  gtk_widget_class_bind_template_callback (widget_class, on_rows);
}

static void
fill_rows (TgCablePanel *self)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = rows[i] > 0
                                  ? g_strdup_printf ("after %u equal readings in a row", rows[i])
                                  : g_strdup ("at once: a key of the scale sends each line");

      gtk_string_list_append (list, text);
    }
  self->filling = TRUE;
  gtk_drop_down_set_model (self->rows, G_LIST_MODEL (list));
  self->filling = FALSE;
  tg_words_name_choice (self->rows, "A reading is taken");
}

static void
tg_cable_panel_init (TgCablePanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_rows (self);
  make_line_rows (self);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (self->learn_section),
                                  GTK_ACCESSIBLE_RELATION_CONTROLS, self->samples, NULL, -1);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
}

GtkWidget *
tg_cable_panel_new (void)
{
  return g_object_new (TG_TYPE_CABLE_PANEL, NULL);
}
