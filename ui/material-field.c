/* material-field.c: the material of a design, from the library
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Choosing a material sets its name, metal and density together, as one group of events; values
 * that stay the same are left out.  A material that the library does not have stays in the list
 * under the name that the job gives it.
 */
#include "material-field.h"

#include "words.h"

#include <string.h>

#define MAX_CHANGES 3

struct _TgMaterialField
{
  GtkBox parent_instance;
  GtkDropDown *choice;
  GtkLabel *note;
  GtkLabel *problem;
  GtkStringList *names; /* the library's, then others that the job has */
  TgSession *session;
  guint design;
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (TgMaterialField, tg_material_field, GTK_TYPE_BOX)

static const TgDesign *
design_of (TgMaterialField *self)
{
  return g_ptr_array_index (tg_session_review (self->session)->setup->designs, self->design);
}

static const GPtrArray *
materials_of (TgMaterialField *self)
{
  return tg_session_library (self->session)->materials;
}

static const TgDesign *
began_with (TgMaterialField *self)
{
  return g_ptr_array_index (tg_job_setup (tg_session_job (self->session))->designs, self->design);
}

/* Position of a material in the list, its length if it is not there. */
static guint
position_of (TgMaterialField *self, const char *name)
{
  guint i = 0;

  while (i < g_list_model_get_n_items (G_LIST_MODEL (self->names)) &&
         strcmp (gtk_string_list_get_string (self->names, i), name) != 0)
    i++;
  return i;
}

static void
refresh (TgMaterialField *self)
{
  const GPtrArray *materials = materials_of (self);
  const TgDesign *design = design_of (self);
  guint at = position_of (self, design_of (self)->material);
  g_autofree char *note = NULL;

  self->showing = TRUE;
  if (at == g_list_model_get_n_items (G_LIST_MODEL (self->names)))
    gtk_string_list_append (self->names, design->material);
  gtk_drop_down_set_selected (self->choice, at);
  self->showing = FALSE;
  if (strcmp (design->material, began_with (self)->material) != 0)
    note = g_strdup_printf ("was %s", began_with (self)->material);
  else if (at < materials->len)
    note = g_strdup_printf ("Density: %s",
                            ((TgMaterial *) g_ptr_array_index (materials, at))->source);
  tg_words_show (self->note, note);
  gtk_widget_set_visible (GTK_WIDGET (self->note), note != NULL);
}

static void
choose (TgMaterialField *self, const TgMaterial *material)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;
  const char *id = design_of (self)->id;
  char density[G_ASCII_DTOSTR_BUF_SIZE];
  const char *values[MAX_CHANGES] = { material->name, tg_metal_to_word (material->metal), density };
  static const char *const names[MAX_CHANGES] = { "material", "metal", "density" };
  g_autoptr (TgSetup) copy = tg_setup_copy (setup);
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  TgEvent events[MAX_CHANGES];
  gboolean done = TRUE;
  guint n = 0;

  g_ascii_formatd (density, sizeof density, "%.10g", material->density);
  for (guint i = 0; i < MAX_CHANGES && done; i++)
    {
      char *path = g_strdup_printf ("%s.%s", id, names[i]);
      g_autofree char *now = tg_setup_get (setup, path);

      g_ptr_array_add (paths, path);
      done = tg_setup_set (copy, path, values[i], &error);
      if (g_strcmp0 (now, values[i]) == 0)
        continue;
      events[n] = tg_event_blank (TG_EVENT_SET);
      events[n].path = path;
      events[n++].value = values[i];
    }
  if (done && n > 0)
    done = tg_session_append (self->session, events, n, &error);
  tg_words_show (self->problem, done ? "" : error->message);
  gtk_widget_set_visible (GTK_WIDGET (self->problem), !done);
  if (!done)
    refresh (self);
}

static void
on_selected (TgMaterialField *self)
{
  guint at = gtk_drop_down_get_selected (self->choice);
  TgMaterial first;

  if (self->showing || !self->session || at == GTK_INVALID_LIST_POSITION ||
      at == position_of (self, design_of (self)->material))
    return;
  if (at < materials_of (self)->len)
    {
      choose (self, g_ptr_array_index (materials_of (self), at));
      return;
    }
  /* not of the library: what the job began with */
  first = (TgMaterial){ .name = began_with (self)->material,
                        .metal = began_with (self)->metal,
                        .density = began_with (self)->density };
  choose (self, &first);
}

GtkWidget *
tg_material_field_new (TgSession *session, guint design)
{
  TgMaterialField *self = g_object_new (TG_TYPE_MATERIAL_FIELD, NULL);
  g_autofree char *label = NULL;
  const GPtrArray *materials;
  const TgDesign *began;

  self->session = g_object_ref (session);
  self->design = design;
  materials = materials_of (self);
  began = began_with (self);
  self->names = gtk_string_list_new (NULL);
  for (guint i = 0; i < materials->len; i++)
    gtk_string_list_append (self->names, ((TgMaterial *) g_ptr_array_index (materials, i))->name);
  if (position_of (self, began->material) == materials->len)
    gtk_string_list_append (self->names, began->material);
  self->showing = TRUE;
  gtk_drop_down_set_model (self->choice, G_LIST_MODEL (self->names));
  self->showing = FALSE;
  label = g_strdup_printf ("Material of %s", design_of (self)->name);
  tg_words_name (GTK_WIDGET (self->choice), label);
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}

GtkDropDown *
tg_material_field_get_choice (TgMaterialField *self)
{
  g_return_val_if_fail (TG_IS_MATERIAL_FIELD (self), NULL);

  return self->choice;
}

static void
tg_material_field_dispose (GObject *object)
{
  TgMaterialField *self = TG_MATERIAL_FIELD (object);

  g_clear_object (&self->session);
  g_clear_object (&self->names);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_MATERIAL_FIELD);
  G_OBJECT_CLASS (tg_material_field_parent_class)->dispose (object);
}

static void
tg_material_field_class_init (TgMaterialFieldClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_material_field_dispose;
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/material-field.ui");
  gtk_widget_class_bind_template_child (widget_class, TgMaterialField, choice);
  gtk_widget_class_bind_template_child (widget_class, TgMaterialField, note);
  gtk_widget_class_bind_template_child (widget_class, TgMaterialField, problem);
  gtk_widget_class_bind_template_callback (widget_class, on_selected);
}

static void
tg_material_field_init (TgMaterialField *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
