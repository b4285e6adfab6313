/* lesson-job.c: the practice job of a lesson, see lesson.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whatever a lesson does not say is as in any new job; what it says beyond the few words of its own goes
 * by the paths of tg_setup_set().
 */
#include <string.h>

#include "error.h"
#include "lesson-private.h"

/* Of every band, until the lesson says otherwise. */
#define TOLERANCE (TG_MASS_G / 2)

typedef struct
{
  const char *file;
  const TgLibrary *library;
  TgLesson *lesson;
} Reading;

static gboolean
read_engine (TgXmlTaker *taker, TgSetup *setup, GError **error)
{
  const char *layout = tg_xml_take (taker, "layout");
  TgMass step = 0;

  if (!tg_xml_need_count (taker, "cylinders", &setup->cylinders, error) ||
      !tg_xml_need_mass (taker, "step", &step, error) || !tg_xml_finish (taker, error))
    return FALSE;
  setup->resolution = step;
  if (layout && !tg_layout_from_word (layout, &setup->layout))
    return tg_xml_refuse_value (taker, "layout", layout, error);
  if (setup->cylinders < 1 || setup->cylinders > TG_MAX_CYLINDERS)
    return tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_RANGE,
                          "%u cylinders; possible is 1 to %d", setup->cylinders, TG_MAX_CYLINDERS);
  return TRUE;
}

/* Parts that are only weighed need no more of a design than their name. */
static TgDesign *
plain_design (TgPartKind kind)
{
  TgDesign *design = tg_design_new (kind);

  g_free (design->id);
  g_free (design->name);
  design->id = g_strdup (tg_part_kind_to_word (kind));
  design->name = g_strdup (tg_part_kind_plural (kind));
  design->name[0] = g_ascii_toupper (design->name[0]);
  return design;
}

static gboolean
read_family (xmlNode *node, const Reading *r, GError **error)
{
  TgXmlTaker taker = { r->file, node, 0 };
  TgSetup *setup = r->lesson->setup;
  const char *word = tg_xml_need (&taker, "kind", error), *id;
  const TgDesign *found = NULL;
  TgDesign *design;
  TgPartKind kind;
  guint spares = 0;

  if (!word || !tg_xml_take_count (&taker, "spares", &spares, error))
    return FALSE;
  if (!tg_part_kind_from_word (word, &kind))
    return tg_xml_refuse_value (&taker, "kind", word, error);
  if (tg_setup_has_kind (setup, kind))
    return tg_xml_refuse (error, r->file, node, TG_ERROR_DUPLICATE, "a second family of %s",
                          tg_part_kind_plural (kind));
  id = tg_part_kind_has_outline (kind) ? tg_xml_need (&taker, "design", error) : NULL;
  if ((tg_part_kind_has_outline (kind) && !id) || !tg_xml_finish (&taker, error))
    return FALSE;
  found = id ? tg_library_find_design (r->library, id) : NULL;
  if (id && (!found || found->kind != kind))
    return tg_xml_refuse (error, r->file, node, TG_ERROR_UNKNOWN,
                          "the library has no %s design “%s”", tg_part_kind_label (kind), id);
  if (setup->cylinders + spares > TG_MAX_PARTS)
    return tg_xml_refuse (error, r->file, node, TG_ERROR_RANGE, "%u spares are too many", spares);
  design = found ? tg_design_copy (found) : plain_design (kind);
  tg_setup_add_design (setup, design);
  tg_setup_add_set (setup, design, spares);
  return TRUE;
}

static gboolean
read_set (xmlNode *node, const Reading *r, GError **error)
{
  TgXmlTaker taker = { r->file, node, 0 };
  const char *path = tg_xml_need (&taker, "path", error);
  const char *value = path ? tg_xml_need (&taker, "value", error) : NULL;

  if (!value || !tg_xml_finish (&taker, error))
    return FALSE;
  return tg_setup_set (r->lesson->setup, path, value, error) ||
         tg_xml_locate (error, r->file, node);
}

static gboolean
read_fault (xmlNode *node, const Reading *r, GError **error)
{
  TgXmlTaker taker = { r->file, node, 0 };
  const char *name;
  double *number;

  if (!tg_xml_is (node, "fault"))
    return tg_xml_refuse_element (error, r->file, node);
  name = tg_xml_need (&taker, "name", error);
  if (!name)
    return FALSE;
  number = tg_practice_number (&r->lesson->setup->practice, name);
  if (!number)
    return tg_xml_refuse_value (&taker, "name", name, error);
  if (!tg_xml_need_number (&taker, "value", number, error) || !tg_xml_finish (&taker, error))
    return FALSE;
  return tg_practice_check (&r->lesson->setup->practice, error) ||
         tg_xml_locate (error, r->file, node);
}

static gboolean
level_from_word (const char *word, TgPracticeLevel *level)
{
  for (TgPracticeLevel l = 0; l < TG_N_PRACTICE_LEVELS; l++)
    if (strcmp (word, tg_practice_level_label (l)) == 0)
      {
        *level = l;
        return TRUE;
      }
  return FALSE;
}

static gboolean
read_bench (xmlNode *node, const Reading *r, GError **error)
{
  TgXmlTaker taker = { r->file, node, 0 };
  TgSetup *setup = r->lesson->setup;
  const char *seed = tg_xml_need (&taker, "seed", error), *word;
  TgPracticeLevel level = TG_PRACTICE_HONEST;

  if (!seed || !tg_xml_need_number (&taker, "spread", &setup->practice.spread_g, error))
    return FALSE;
  word = tg_xml_take (&taker, "level");
  if (!tg_xml_finish (&taker, error))
    return FALSE;
  if (word && !level_from_word (word, &level))
    return tg_xml_refuse_value (&taker, "level", word, error);
  tg_practice_set (&setup->practice, seed);
  setup->practice.faults = tg_practice_level_faults (level, tg_mass_to_g (setup->resolution));
  for (xmlNode *fault = tg_xml_first (node); fault; fault = tg_xml_next (fault))
    if (!read_fault (fault, r, error))
      return FALSE;
  return tg_practice_check (&setup->practice, error) || tg_xml_locate (error, r->file, node);
}

static gboolean
read_entry (xmlNode *node, const Reading *r, GError **error)
{
  if (tg_xml_is (node, "family"))
    return read_family (node, r, error);
  if (tg_xml_is (node, "set"))
    return read_set (node, r, error);
  if (tg_xml_is (node, "bench"))
    return read_bench (node, r, error);
  return tg_xml_refuse_element (error, r->file, node);
}

gboolean
tg_lesson_read_job (
    xmlNode *node, const char *file, const TgLibrary *library, TgLesson *lesson, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const Reading r = { file, library, lesson };
  TgSetup *setup = lesson->setup = tg_setup_new ();

  g_free (setup->name);
  setup->name = g_strdup_printf ("%s: %s", TG_PRACTICE_NAME, lesson->title);
  g_free (setup->practice.lesson);
  setup->practice.lesson = g_strdup (lesson->id);
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    setup->tolerance[band] = band == TG_BAND_PISTON_ALONE ? 0 : TOLERANCE;
  if (!read_engine (&taker, setup, error))
    return FALSE;
  for (xmlNode *entry = tg_xml_first (node); entry; entry = tg_xml_next (entry))
    if (!read_entry (entry, &r, error))
      return FALSE;
  if (!setup->practice.on)
    return tg_xml_refuse (error, file, node, TG_ERROR_SYNTAX, "a job without a “bench”");
  return tg_setup_check (setup, error) || tg_xml_locate (error, file, node);
}

TgSetup *
tg_lesson_new_setup (const TgLesson *lesson)
{
  return tg_setup_copy (lesson->setup);
}
