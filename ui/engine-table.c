/* engine-table.c: a free layout, cylinder by cylinder
 *
 * A row of entries for each cylinder.  Enter, or leaving a row's entry, takes all over as one event; what
 * is refused is said below and stays as it was typed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-table.h"

#include <string.h>

#include "number.h"
#include "storable.h"
#include "words.h"

#define N_COLUMNS 4

struct _TgEngineTable
{
  GtkBox parent_instance;
  GtkWidget *grid;
  GtkWidget *problem;
  GtkWidget *entries[TG_ENGINE_LAYOUT_MAX][N_COLUMNS];
  guint n;
  TgSession *session;
};

static const char *const heads[N_COLUMNS] = { "Bank, °", "Throw, °", "Place, mm", "Crankpin" };

G_DEFINE_FINAL_TYPE (TgEngineTable, tg_engine_table, GTK_TYPE_BOX)

char *
tg_engine_table_start (const TgSetup *setup)
{
  TgEngineLayout layout;

  if (!tg_setup_engine_layout (setup, &layout, NULL))
    {
      layout = (TgEngineLayout){ .n = setup->cylinders, .n_pins = setup->cylinders };
      for (guint i = 0; i < layout.n; i++)
        layout.cylinders[i] = (TgEngineCylinder){ 0, 0, 100.0 * i - 50.0 * (layout.n - 1), i };
    }
  return tg_engine_format_free (&layout);
}

static void
refresh (TgEngineTable *self)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;
  g_auto (GStrv) rows = g_strsplit (setup->engine.free, " ", -1);

  for (guint i = 0; i < self->n && i < g_strv_length (rows); i++)
    {
      g_auto (GStrv) numbers = g_strsplit (rows[i], ":", N_COLUMNS);

      for (guint c = 0; c < N_COLUMNS && numbers[c]; c++)
        gtk_editable_set_text (GTK_EDITABLE (self->entries[i][c]), numbers[c]);
    }
  tg_words_show_problem (NULL, GTK_LABEL (self->problem), NULL);
}

/* (transfer full): all entries as TgEngine.free */
static char *
typed (TgEngineTable *self)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < self->n; i++)
    for (guint c = 0; c < N_COLUMNS; c++)
      {
        const char *shown = gtk_editable_get_text (GTK_EDITABLE (self->entries[i][c]));
        g_autofree char *number = g_strstrip (g_strdelimit (g_strdup (shown), ",", '.'));
        g_auto (GStrv) parts = g_strsplit (number, "−", -1);
        g_autofree char *plain = g_strjoinv ("-", parts);

        g_string_append_printf (text, "%s%s", c ? ":" : i ? " " : "", plain);
      }
  return g_string_free (text, FALSE);
}

static void
commit (TgEngineTable *self)
{
  g_autofree char *value = NULL;
  g_autoptr (GError) error = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_SET);
  const TgSetup *setup;

  if (!self->session)
    return;
  setup = tg_session_review (self->session)->setup;
  value = typed (self);
  if (strcmp (value, setup->engine.free) == 0)
    {
      tg_words_show_problem (NULL, GTK_LABEL (self->problem), NULL);
      return;
    }
  event.path = "engine.free";
  event.value = value;
  if (!tg_setup_check_value (setup, event.path, value, &error) ||
      !tg_session_append (self->session, &event, 1, &error))
    tg_words_show_problem (NULL, GTK_LABEL (self->problem), error->message);
}

static GtkWidget *
entry_new (TgEngineTable *self, guint cylinder, guint column)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_autofree char *name = g_strdup_printf ("Cylinder %u: %s", cylinder + 1, heads[column]);

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 4);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), 7);
  gtk_widget_set_hexpand (entry, TRUE);
  tg_words_name (entry, name);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (commit), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (commit), self);
  gtk_widget_add_controller (entry, focus);
  return entry;
}

static void
attach_head (TgEngineTable *self, const char *text, int column, int row)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "field-label");
  gtk_grid_attach (GTK_GRID (self->grid), label, column, row, 1, 1);
}

static void
build (TgEngineTable *self)
{
  for (guint c = 0; c < N_COLUMNS; c++)
    attach_head (self, heads[c], (int) c + 1, 0);
  for (guint i = 0; i < self->n; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i + 1);

      attach_head (self, number, 0, (int) i + 1);
      for (guint c = 0; c < N_COLUMNS; c++)
        {
          self->entries[i][c] = entry_new (self, i, c);
          gtk_grid_attach (GTK_GRID (self->grid), self->entries[i][c], (int) c + 1, (int) i + 1, 1,
                           1);
        }
    }
}

void
tg_engine_table_set_session (TgEngineTable *self, TgSession *session)
{
  GtkWidget *child;

  g_return_if_fail (TG_IS_ENGINE_TABLE (self));

  if (self->session == session)
    return;
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  while ((child = gtk_widget_get_first_child (self->grid)))
    gtk_grid_remove (GTK_GRID (self->grid), child);
  self->n = 0;
  if (!session)
    return;
  self->session = g_object_ref (session);
  self->n = tg_session_review (session)->setup->cylinders;
  build (self);
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
}

static void
tg_engine_table_dispose (GObject *object)
{
  TgEngineTable *self = TG_ENGINE_TABLE (object);

  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tg_engine_table_parent_class)->dispose (object);
}

static void
tg_engine_table_class_init (TgEngineTableClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tg_engine_table_dispose;
}

static void
tg_engine_table_init (TgEngineTable *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 6);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 4);
  self->problem = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->problem), 0);
  gtk_label_set_wrap (GTK_LABEL (self->problem), TRUE);
  gtk_widget_add_css_class (self->problem, "problem");
  gtk_widget_set_visible (self->problem, FALSE);
  gtk_box_append (GTK_BOX (self), self->grid);
  gtk_box_append (GTK_BOX (self), self->problem);
}
