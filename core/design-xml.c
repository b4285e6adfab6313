/* design-xml.c: part designs in job files and in the library, see design-xml.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The numbers go by the tables of design.h, so a new dimension needs no line here (but one in
 * data/design.rng).  A design is judged as it grows, so that a fault is reported at its own line.
 * A plain design stands for parts that are only weighed: it has a name and a kind, and nothing else.
 * Does not do: designs that refer to each other or to files.
 */
#include "design-xml.h"

#include <string.h>

#include "error.h"
#include "storable.h"

#define ROD_ELEMENT "rod-design"
#define PISTON_ELEMENT "piston-design"
#define PLAIN_ELEMENT "plain-design"

gboolean
tg_design_xml_is (const xmlNode *node)
{
  return tg_xml_is (node, ROD_ELEMENT) || tg_xml_is (node, PISTON_ELEMENT) ||
         tg_xml_is (node, PLAIN_ELEMENT);
}

/* -- reading --------------------------------------------------------------------------------- */

static gboolean
take_text (TgXmlTaker *taker, const char *attribute, char **text, GError **error)
{
  const char *value = tg_xml_need (taker, attribute, error);

  if (!value)
    return FALSE;
  g_free (*text);
  *text = g_strdup (value);
  return TRUE;
}

static gboolean
read_fields (TgXmlTaker *taker, const TgField *fields, guint n, gpointer base, GError **error)
{
  for (guint i = 0; i < n; i++)
    if (!tg_xml_need_number (taker, fields[i].name, tg_field_ptr (&fields[i], base), error))
      return FALSE;
  return TRUE;
}

static gboolean
read_zone_words (TgXmlTaker *taker, TgZone *zone, GError **error)
{
  const char *place = tg_xml_need (taker, "place", error);
  const char *standing = place ? tg_xml_need (taker, "standing", error) : NULL;
  const char *use = tg_xml_take (taker, "use");

  if (!standing)
    return FALSE;
  if (!tg_place_from_word (place, &zone->place))
    return tg_xml_refuse_value (taker, "place", place, error);
  if (!tg_standing_from_word (standing, &zone->standing))
    return tg_xml_refuse_value (taker, "standing", standing, error);
  if (use && !tg_use_from_word (use, &zone->use))
    return tg_xml_refuse_value (taker, "use", use, error);
  return TRUE;
}

static TgZone *
read_zone (xmlNode *node, const char *file, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  g_autoptr (TgZone) zone = tg_zone_new ();
  const char *reason = tg_xml_take (&taker, "reason");
  guint n;
  const TgField *fields = tg_design_zone_fields (&n);

  if (!take_text (&taker, "id", &zone->id, error) ||
      !take_text (&taker, "name", &zone->name, error) || !read_zone_words (&taker, zone, error))
    return NULL;
  for (guint i = 0; i < n; i++)
    if (!tg_xml_take_number (&taker, fields[i].name, tg_field_ptr (&fields[i], zone), error))
      return NULL;
  if (!tg_xml_take_mass (&taker, "capacity", &zone->capacity, error) ||
      !tg_xml_finish (&taker, error))
    return NULL;
  if (reason)
    {
      g_free (zone->reason);
      zone->reason = g_strdup (reason);
    }
  return g_steal_pointer (&zone);
}

static gboolean
read_outline (TgXmlTaker *taker, TgDesign *design, GError **error)
{
  gboolean rod = design->kind == TG_PART_ROD;
  const char *word = tg_xml_need (taker, rod ? "beam" : "skirt", error);
  guint n;
  const TgField *fields = rod ? tg_design_rod_fields (&n) : tg_design_piston_fields (&n);
  gpointer base = rod ? (gpointer) &design->rod : &design->piston;

  if (!word)
    return FALSE;
  if (rod ? !tg_beam_from_word (word, &design->beam) : !tg_skirt_from_word (word, &design->skirt))
    return tg_xml_refuse_value (taker, rod ? "beam" : "skirt", word, error);
  if (rod && !tg_xml_take_yes (taker, "fracture-split", &design->fracture_split, error))
    return FALSE;
  return read_fields (taker, fields, n, base, error);
}

/* Everything but id and name. */
static gboolean
read_body (TgXmlTaker *taker, TgDesign *design, GError **error)
{
  const char *metal;

  if (!take_text (taker, "material", &design->material, error) ||
      !(metal = tg_xml_need (taker, "metal", error)) ||
      !tg_xml_need_number (taker, "density", &design->density, error) ||
      !read_outline (taker, design, error))
    return FALSE;
  return tg_metal_from_word (metal, &design->metal) ||
         tg_xml_refuse_value (taker, "metal", metal, error);
}

/* Which of the kinds without an outline a plain design is. */
static gboolean
read_kind (TgXmlTaker *taker, TgDesign *design, GError **error)
{
  const char *word = tg_xml_need (taker, "kind", error);

  if (!word)
    return FALSE;
  return (tg_part_kind_from_word (word, &design->kind) &&
          !tg_part_kind_has_outline (design->kind)) ||
         tg_xml_refuse_value (taker, "kind", word, error);
}

static gboolean
read_design (TgXmlTaker *taker, TgDesign *design, GError **error)
{
  gboolean plain = !tg_part_kind_has_outline (design->kind);

  if (!take_text (taker, "id", &design->id, error) ||
      !take_text (taker, "name", &design->name, error) ||
      !(plain ? read_kind (taker, design, error) : read_body (taker, design, error)) ||
      !tg_xml_finish (taker, error))
    return FALSE;
  return tg_design_check (design, error) || tg_xml_locate (error, taker->file, taker->node);
}

static TgPartKind
kind_of (const xmlNode *node)
{
  if (tg_xml_is (node, PLAIN_ELEMENT))
    return TG_PART_PIN;
  return tg_xml_is (node, ROD_ELEMENT) ? TG_PART_ROD : TG_PART_PISTON;
}

TgDesign *
tg_design_xml_read (xmlNode *node, const char *file, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  g_autoptr (TgDesign) design = tg_design_new (kind_of (node));

  if (!read_design (&taker, design, error))
    return NULL;
  for (xmlNode *child = tg_xml_first (node); child; child = tg_xml_next (child))
    {
      TgZone *zone;

      if (!tg_xml_is (child, "zone"))
        {
          tg_xml_refuse_element (error, file, child);
          return NULL;
        }
      zone = read_zone (child, file, error);
      if (!zone)
        return NULL;
      g_ptr_array_add (design->zones, zone);
      if (!tg_design_check (design, error))
        {
          tg_xml_locate (error, file, child);
          return NULL;
        }
    }
  return g_steal_pointer (&design);
}

/* -- writing --------------------------------------------------------------------------------- */

static void
append_field (GString *out, const TgField *field, gconstpointer base)
{
  char number[TG_STORABLE_NUMBER_SIZE];

  tg_xml_append_attribute (out, field->name,
                           tg_storable_format_number (tg_field_get (field, base), number));
}

static void
append_zone (GString *out, const TgZone *zone)
{
  guint n;
  const TgField *fields = tg_design_zone_fields (&n);
  g_autoptr (TgZone) plain = tg_zone_new ();

  g_string_append (out, "      <zone");
  tg_xml_append_attribute (out, "id", zone->id);
  tg_xml_append_attribute (out, "name", zone->name);
  tg_xml_append_attribute (out, "place", tg_place_to_word (zone->place));
  tg_xml_append_attribute (out, "standing", tg_standing_to_word (zone->standing));
  if (zone->use != TG_USE_DEFAULT)
    tg_xml_append_attribute (out, "use", tg_use_to_word (zone->use));
  for (guint i = 0; i < n; i++)
    if (memcmp (tg_field_ptr (&fields[i], (gpointer) zone), tg_field_ptr (&fields[i], plain),
                sizeof (double)) != 0)
      append_field (out, &fields[i], zone);
  if (zone->capacity != 0)
    {
      g_autofree char *capacity = tg_mass_format_exact (zone->capacity);

      tg_xml_append_attribute (out, "capacity", capacity);
    }
  if (zone->reason[0] != '\0')
    tg_xml_append_attribute (out, "reason", zone->reason);
  g_string_append (out, "/>\n");
}

static void
append_plain (GString *out, const TgDesign *design)
{
  g_string_append (out, "    <" PLAIN_ELEMENT);
  tg_xml_append_attribute (out, "id", design->id);
  tg_xml_append_attribute (out, "name", design->name);
  tg_xml_append_attribute (out, "kind", tg_part_kind_to_word (design->kind));
  g_string_append (out, "/>\n");
}

static void
append_outlined (GString *out, const TgDesign *design)
{
  gboolean rod = design->kind == TG_PART_ROD;
  const char *element = rod ? ROD_ELEMENT : PISTON_ELEMENT;
  char number[TG_STORABLE_NUMBER_SIZE];
  guint n;
  const TgField *fields = rod ? tg_design_rod_fields (&n) : tg_design_piston_fields (&n);
  gconstpointer base = rod ? (gconstpointer) &design->rod : &design->piston;

  g_string_append_printf (out, "    <%s", element);
  tg_xml_append_attribute (out, "id", design->id);
  tg_xml_append_attribute (out, "name", design->name);
  tg_xml_append_attribute (out, "material", design->material);
  tg_xml_append_attribute (out, "metal", tg_metal_to_word (design->metal));
  tg_xml_append_attribute (out, "density", tg_storable_format_number (design->density, number));
  if (rod)
    tg_xml_append_attribute (out, "beam", tg_beam_to_word (design->beam));
  else
    tg_xml_append_attribute (out, "skirt", tg_skirt_to_word (design->skirt));
  if (rod && design->fracture_split)
    tg_xml_append_attribute (out, "fracture-split", "yes");
  for (guint i = 0; i < n; i++)
    append_field (out, &fields[i], base);
  g_string_append (out, design->zones->len > 0 ? ">\n" : "/>\n");
  for (guint i = 0; i < design->zones->len; i++)
    append_zone (out, tg_design_zone (design, i));
  if (design->zones->len > 0)
    g_string_append_printf (out, "    </%s>\n", element);
}

void
tg_design_xml_append (GString *out, const TgDesign *design)
{
  if (tg_part_kind_has_outline (design->kind))
    append_outlined (out, design);
  else
    append_plain (out, design);
}
