/* library.c: materials, part designs and cautions, see library.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The carried file goes the same way as a job file: safe parse, schema, rules.  A fault in it is a
 * fault of the program, but it is still reported in words and not by falling over.
 * Does not do: libraries of the person's own.
 */
#include "library.h"

#include <gio/gio.h>
#include <string.h>

#include "design-xml.h"
#include "error.h"
#include "storable.h"
#include "word.h"
#include "xml.h"

#define LIBRARY_FILE "library.xml"
#define LIBRARY_NAMESPACE "urn:tenthgram:library"
#define LIBRARY_VERSION 1

TG_DEFINE_WORDS (TgStage, stage, "setup", "weigh", "grind", "build")

static void
material_free (TgMaterial *material)
{
  g_free (material->id);
  g_free (material->name);
  g_free (material->source);
  g_free (material);
}

static void
caution_free (TgCaution *caution)
{
  g_free (caution->id);
  g_free (caution->title);
  g_free (caution->text);
  g_free (caution->ground);
  g_free (caution);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgMaterial, material_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgCaution, caution_free)

static TgLibrary *
library_new (void)
{
  TgLibrary *library = g_new0 (TgLibrary, 1);

  library->materials = g_ptr_array_new_with_free_func ((GDestroyNotify) material_free);
  library->designs = g_ptr_array_new_with_free_func ((GDestroyNotify) tg_design_free);
  library->cautions = g_ptr_array_new_with_free_func ((GDestroyNotify) caution_free);
  return library;
}

void
tg_library_free (TgLibrary *library)
{
  g_ptr_array_unref (library->materials);
  g_ptr_array_unref (library->designs);
  g_ptr_array_unref (library->cautions);
  g_free (library);
}

/* -- reading --------------------------------------------------------------------------------- */

static gboolean
read_material (xmlNode *node, TgLibrary *library, GError **error)
{
  TgXmlTaker taker = { LIBRARY_FILE, node, 0 };
  g_autoptr (TgMaterial) material = g_new0 (TgMaterial, 1);
  const char *metal;

  material->id = g_strdup (tg_xml_need (&taker, "id", error));
  if (!material->id)
    return FALSE;
  material->name = g_strdup (tg_xml_need (&taker, "name", error));
  if (!material->name || !(metal = tg_xml_need (&taker, "metal", error)) ||
      !tg_xml_need_number (&taker, "density", &material->density, error))
    return FALSE;
  material->source = g_strdup (tg_xml_need (&taker, "source", error));
  if (!material->source || !tg_xml_finish (&taker, error))
    return FALSE;
  if (!tg_metal_from_word (metal, &material->metal))
    return tg_xml_refuse_value (&taker, "metal", metal, error);
  if (tg_library_find_material (library, material->id))
    return tg_xml_refuse (error, LIBRARY_FILE, node, TG_ERROR_DUPLICATE,
                          "two materials are called “%s”", material->id);
  g_ptr_array_add (library->materials, g_steal_pointer (&material));
  return TRUE;
}

/* A design names its material as a job does, by name, metal and density. */
static gboolean
has_material (const TgLibrary *library, const TgDesign *design)
{
  for (guint i = 0; i < library->materials->len; i++)
    {
      const TgMaterial *material = g_ptr_array_index (library->materials, i);

      if (strcmp (material->name, design->material) == 0)
        return material->metal == design->metal && !(material->density < design->density) &&
               !(material->density > design->density);
    }
  return FALSE;
}

static gboolean
read_design (xmlNode *node, TgLibrary *library, GError **error)
{
  g_autoptr (TgDesign) design = tg_design_xml_read (node, LIBRARY_FILE, error);

  if (!design)
    return FALSE;
  if (tg_library_find_design (library, design->id))
    return tg_xml_refuse (error, LIBRARY_FILE, node, TG_ERROR_DUPLICATE,
                          "two designs are called “%s”", design->id);
  if (!has_material (library, design))
    return tg_xml_refuse (error, LIBRARY_FILE, node, TG_ERROR_UNKNOWN,
                          "design “%s” is of “%s”, which is not a material here", design->id,
                          design->material);
  g_ptr_array_add (library->designs, g_steal_pointer (&design));
  return TRUE;
}

/* Reads a list of words into a mask; @bit gives the bit of a word, 0 if it is unknown. */
static gboolean
take_mask (TgXmlTaker *taker,
           const char *attribute,
           guint (*bit) (const char *word),
           guint *mask,
           GError **error)
{
  const char *value = tg_xml_take (taker, attribute);
  g_auto (GStrv) words = g_strsplit (value ? value : "", " ", -1);

  for (guint i = 0; words[i]; i++)
    {
      guint found = words[i][0] ? bit (words[i]) : 0;

      if (words[i][0] && found == 0)
        return tg_xml_refuse_value (taker, attribute, value, error);
      *mask |= found;
    }
  return TRUE;
}

static guint
stage_bit (const char *word)
{
  TgStage stage;

  return tg_stage_from_word (word, &stage) ? 1u << stage : 0;
}

static guint
metal_bit (const char *word)
{
  TgMetal metal;

  return tg_metal_from_word (word, &metal) ? 1u << metal : 0;
}

static guint
tool_bit (const char *word)
{
  TgTool tool;

  return tg_tool_from_word (word, &tool) ? 1u << tool : 0;
}

/* The text of a child element, lines joined to one; NULL with @error if it is another element. */
static char *
read_child_text (const xmlNode *node, const xmlNode *parent, const char *element, GError **error)
{
  if (node && tg_xml_is (node, element))
    return tg_xml_text (node);
  tg_xml_refuse (error, LIBRARY_FILE, node ? node : parent, TG_ERROR_SYNTAX,
                 "a caution without “%s”", element);
  return NULL;
}

static gboolean
read_caution (xmlNode *node, TgLibrary *library, GError **error)
{
  TgXmlTaker taker = { LIBRARY_FILE, node, 0 };
  g_autoptr (TgCaution) caution = g_new0 (TgCaution, 1);
  const xmlNode *text = tg_xml_first (node), *ground = text ? tg_xml_next (text) : NULL;

  caution->id = g_strdup (tg_xml_need (&taker, "id", error));
  if (!caution->id)
    return FALSE;
  caution->title = g_strdup (tg_xml_need (&taker, "title", error));
  if (!caution->title || !take_mask (&taker, "stages", stage_bit, &caution->stages, error) ||
      !take_mask (&taker, "metals", metal_bit, &caution->metals, error) ||
      !take_mask (&taker, "tools", tool_bit, &caution->tools, error) ||
      !tg_xml_take_yes (&taker, "fracture-split", &caution->fracture_split, error) ||
      !tg_xml_take_yes (&taker, "first", &caution->first, error) || !tg_xml_finish (&taker, error))
    return FALSE;
  caution->text = read_child_text (text, node, "text", error);
  if (!caution->text)
    return FALSE;
  caution->ground = read_child_text (ground, node, "ground", error);
  if (!caution->ground)
    return FALSE;
  g_ptr_array_add (library->cautions, g_steal_pointer (&caution));
  return TRUE;
}

static gboolean
read_entry (xmlNode *node, TgLibrary *library, GError **error)
{
  if (tg_xml_is (node, "material"))
    return read_material (node, library, error);
  if (tg_design_xml_is (node))
    return read_design (node, library, error);
  if (tg_xml_is (node, "caution"))
    return read_caution (node, library, error);
  return tg_xml_refuse_element (error, LIBRARY_FILE, node);
}

TgLibrary *
tg_library_load (GError **error)
{
  static const TgXmlLimits limits = { 1024 * 1024, 10000 };
  g_autoptr (GBytes) bytes = g_resources_lookup_data ("/tenthgram/" LIBRARY_FILE,
                                                      G_RESOURCE_LOOKUP_FLAGS_NONE, error);
  g_autoptr (TgLibrary) library = library_new ();
  g_autoptr (xmlDoc) doc = NULL;
  int line;

  if (!bytes)
    return NULL;
  doc = tg_xml_parse (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), LIBRARY_FILE,
                      &limits, error);
  if (!doc ||
      !tg_xml_check_root (doc, LIBRARY_FILE, "library", LIBRARY_NAMESPACE, LIBRARY_VERSION, error))
    return NULL;
  for (xmlNode *node = tg_xml_first (xmlDocGetRootElement (doc)); node; node = tg_xml_next (node))
    if (!read_entry (node, library, error))
      return NULL;
  if (!tg_xml_validate (doc, "library.rng", &line))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "%s:%d: does not fit the schema", LIBRARY_FILE,
                   line);
      return NULL;
    }
  return g_steal_pointer (&library);
}

/* -- looking things up ----------------------------------------------------------------------- */

const TgMaterial *
tg_library_find_material (const TgLibrary *library, const char *id)
{
  for (guint i = 0; i < library->materials->len; i++)
    {
      const TgMaterial *material = g_ptr_array_index (library->materials, i);

      if (strcmp (material->id, id) == 0)
        return material;
    }
  return NULL;
}

const TgDesign *
tg_library_find_design (const TgLibrary *library, const char *id)
{
  for (guint i = 0; i < library->designs->len; i++)
    {
      const TgDesign *design = g_ptr_array_index (library->designs, i);

      if (strcmp (design->id, id) == 0)
        return design;
    }
  return NULL;
}

/* Parts that are only weighed have no metal to warn of. */
static gboolean
fits_designs (const TgCaution *caution, const GPtrArray *designs)
{
  if (caution->metals == 0 && !caution->fracture_split)
    return TRUE;
  for (guint i = 0; i < designs->len; i++)
    {
      const TgDesign *design = g_ptr_array_index (designs, i);

      if (tg_part_kind_has_outline (design->kind) &&
          (caution->metals == 0 || caution->metals & (1u << design->metal)) &&
          (!caution->fracture_split || design->fracture_split))
        return TRUE;
    }
  return FALSE;
}

GPtrArray *
tg_library_cautions (const TgLibrary *library, TgStage stage, guint tools, const GPtrArray *designs)
{
  GPtrArray *fitting = g_ptr_array_new ();

  for (guint i = 0; i < library->cautions->len; i++)
    {
      TgCaution *caution = g_ptr_array_index (library->cautions, i);

      if ((caution->stages == 0 || caution->stages & (1u << stage)) &&
          (caution->tools == 0 || tools == 0 || caution->tools & tools) &&
          fits_designs (caution, designs))
        g_ptr_array_add (fitting, caution);
    }
  return fitting;
}
