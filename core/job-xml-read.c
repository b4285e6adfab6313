/* job-xml-read.c: from a file to a job, see job-xml.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Three steps: the safe parse (xml.h), the schema, the job.  A schema says only that something does
 * not fit, so when it refuses, the third step is asked for the words: it reads the same elements
 * strictly and names the first thing that it cannot take.  What the setup and the journal must keep
 * beyond the schema is judged by tg_setup_check_so_far() and tg_job_append() as they grow, so that
 * each fault has the line of its own element.
 *
 * Does not do: repair.  There is a whole job or a refusal.
 */
#include "job-xml.h"

#include <string.h>

#include "design-xml.h"
#include "error.h"
#include "storable.h"
#include "whole-file.h"
#include "xml.h"

/* -- setup ----------------------------------------------------------------------------------- */

static gboolean
read_engine (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *layout = tg_xml_need (&taker, "layout", error);
  const char *sharing = tg_xml_take (&taker, "crankpins");

  if (sharing && !tg_sharing_from_word (sharing, &setup->sharing))
    return tg_xml_refuse_value (&taker, "crankpins", sharing, error);
  if (!layout || !tg_xml_need_count (&taker, "cylinders", &setup->cylinders, error) ||
      !tg_xml_finish (&taker, error))
    return FALSE;
  return tg_layout_from_word (layout, &setup->layout) ||
         tg_xml_refuse_value (&taker, "layout", layout, error);
}

/* One fact of the crank drive: an element of its name with a "value".  Elements and not attributes,
 * because libxml2 tries every attribute that may be missing both ways: twenty of them in one element
 * would take it hours. */
static gboolean
read_drive_fact (xmlNode *node, const char *file, TgEngine *engine, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *name = (const char *) node->name, *word = tg_xml_need (&taker, "value", error);
  char **text = tg_engine_text (engine, name);
  double *number = tg_engine_number (engine, name);
  gboolean read = FALSE;

  if (!word)
    return FALSE;
  if (strcmp (name, "kind") == 0)
    {
      engine->chosen = TRUE;
      read = tg_engine_kind_from_word (word, &engine->kind) ||
             tg_xml_refuse_value (&taker, "value", word, error);
    }
  else if (strcmp (name, "split-pins") == 0)
    read = tg_xml_take_yes (&taker, "value", &engine->split_pins, error);
  else if (number)
    read = tg_xml_take_number (&taker, "value", number, error);
  else if (text)
    {
      g_free (*text);
      *text = g_strdup (word);
      read = TRUE;
    }
  else
    return tg_xml_refuse_element (error, file, node);
  return read && tg_xml_finish (&taker, error);
}

static gboolean
read_crank_drive (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };

  for (xmlNode *child = tg_xml_first (node); child; child = tg_xml_next (child))
    if (!read_drive_fact (child, file, &setup->engine, error))
      return FALSE;
  return tg_xml_finish (&taker, error);
}

/* One number of the practice, written like a fact of the crank drive. */
static gboolean
read_practice_fact (xmlNode *node, const char *file, TgPractice *practice, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  double *number = tg_practice_number (practice, (const char *) node->name);

  if (!number)
    return tg_xml_refuse_element (error, file, node);
  return tg_xml_need_number (&taker, "value", number, error) && tg_xml_finish (&taker, error);
}

static gboolean
read_practice (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *seed = tg_xml_need (&taker, "seed", error);
  const char *lesson = tg_xml_take (&taker, "lesson");

  if (!seed || !tg_xml_finish (&taker, error))
    return FALSE;
  tg_practice_set (&setup->practice, seed);
  if (lesson)
    {
      g_free (setup->practice.lesson);
      setup->practice.lesson = g_strdup (lesson);
    }
  for (xmlNode *child = tg_xml_first (node); child; child = tg_xml_next (child))
    if (!read_practice_fact (child, file, &setup->practice, error))
      return FALSE;
  return TRUE;
}

static gboolean
read_scale (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *name = tg_xml_take (&taker, "name");
  const char *word = tg_xml_take (&taker, "check-class");

  if (name)
    {
      g_free (setup->scale);
      setup->scale = g_strdup (name);
    }
  if (word && !tg_check_weight_class_from_word (word, &setup->check_class))
    return tg_xml_refuse_value (&taker, "check-class", word, error);
  return tg_xml_need_mass (&taker, "resolution", &setup->resolution, error) &&
         tg_xml_take_mass (&taker, "capacity", &setup->capacity, error) &&
         tg_xml_take_mass (&taker, "check-weight", &setup->check_weight, error) &&
         tg_xml_take_count (&taker, "repeats", &setup->repeats, error) &&
         tg_xml_finish (&taker, error);
}

static gboolean
read_tolerance (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *word = tg_xml_need (&taker, "band", error);
  TgBand band;

  if (!word)
    return FALSE;
  if (!tg_band_from_word (word, &band))
    return tg_xml_refuse_value (&taker, "band", word, error);
  return tg_xml_need_mass (&taker, "mass", &setup->tolerance[band], error) &&
         tg_xml_finish (&taker, error);
}

/* What is carried in the sums. */
static gboolean
read_sum (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *word = tg_xml_take (&taker, tg_part_kind_to_word (TG_PART_ROD));

  if (word && !tg_small_ends_from_word (word, &setup->small_ends))
    return tg_xml_refuse_value (&taker, "rod", word, error);
  word = tg_xml_take (&taker, tg_part_kind_to_word (TG_PART_PISTON));
  if (word && strcmp (word, "only") != 0 && strcmp (word, "both") != 0)
    return tg_xml_refuse_value (&taker, "piston", word, error);
  setup->pistons_alone = word && word[0] == 'b';
  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    {
      gboolean carried = TRUE;

      if (!tg_xml_take_yes (&taker, tg_part_kind_to_word (kind), &carried, error))
        return FALSE;
      setup->left_out[kind] = !carried;
    }
  return tg_xml_finish (&taker, error);
}

static gboolean
read_part (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *id = tg_xml_need (&taker, "id", error);
  const char *name = id ? tg_xml_need (&taker, "name", error) : NULL;
  const char *design_id = name ? tg_xml_need (&taker, "design", error) : NULL;
  g_autofree char *shown = NULL;
  TgDesign *design;
  guint bore = 0;

  if (!design_id || !tg_xml_take_count (&taker, "bore", &bore, error) ||
      !tg_xml_finish (&taker, error))
    return FALSE;
  if (bore == 0 && xmlHasNsProp (node, BAD_CAST "bore", NULL))
    return tg_xml_refuse (error, file, node, TG_ERROR_RANGE,
                          "part “%s” at bore 0; a spare is written without a bore", id);
  design = tg_setup_find_design (setup, design_id);
  if (!design)
    {
      shown = tg_storable_shorten (design_id);
      return tg_xml_refuse (error, file, node, TG_ERROR_UNKNOWN,
                            "a part of design “%s”, which this job does not have", shown);
    }
  tg_setup_add_part (setup, id, name, design, bore);
  return TRUE;
}

static gboolean
read_design (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  TgDesign *design = tg_design_xml_read (node, file, error);

  if (!design)
    return FALSE;
  tg_setup_add_design (setup, design);
  return TRUE;
}

static gboolean
read_setup_child (xmlNode *node, const char *file, TgSetup *setup, GError **error)
{
  if (tg_xml_is (node, "engine"))
    return read_engine (node, file, setup, error);
  if (tg_xml_is (node, "crank-drive"))
    return read_crank_drive (node, file, setup, error);
  if (tg_xml_is (node, "practice"))
    return read_practice (node, file, setup, error);
  if (tg_xml_is (node, "scale"))
    return read_scale (node, file, setup, error);
  if (tg_xml_is (node, "tolerance"))
    return read_tolerance (node, file, setup, error);
  if (tg_xml_is (node, "sum"))
    return read_sum (node, file, setup, error);
  if (tg_xml_is (node, "part"))
    return read_part (node, file, setup, error);
  if (tg_design_xml_is (node))
    return read_design (node, file, setup, error);
  return tg_xml_refuse_element (error, file, node);
}

/* Which of the things that a setup has once each element is; 0 for designs and parts. */
static guint
single_bit (const xmlNode *node)
{
  xmlAttr *band = xmlHasNsProp ((xmlNode *) node, BAD_CAST "band", NULL);
  TgBand which;

  if (tg_xml_is (node, "engine"))
    return 1u << TG_N_BANDS;
  if (tg_xml_is (node, "scale"))
    return 2u << TG_N_BANDS;
  if (tg_xml_is (node, "sum"))
    return 4u << TG_N_BANDS;
  if (tg_xml_is (node, "crank-drive"))
    return 8u << TG_N_BANDS;
  if (tg_xml_is (node, "practice"))
    return 16u << TG_N_BANDS;
  if (tg_xml_is (node, "tolerance") && band && tg_band_from_word (tg_xml_value (band), &which))
    return 1u << which;
  return 0;
}

static gboolean
check_singles (xmlNode *node, const char *file, guint seen, GError **error)
{
  static const char *const missing[] = { "tolerance for the small ends",
                                         "tolerance for the big ends",
                                         "tolerance for the pistons",
                                         NULL, /* pistons by themselves */
                                         "engine",
                                         "scale" };

  for (guint i = 0; i < G_N_ELEMENTS (missing); i++)
    if (missing[i] && !(seen & (1u << i)))
      return tg_xml_refuse (error, file, node, TG_ERROR_SYNTAX, "the setup has no %s", missing[i]);
  return TRUE;
}

static TgSetup *
read_setup (xmlNode *node, const char *file, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  const char *name = tg_xml_need (&taker, "name", error);
  g_autoptr (TgSetup) setup = tg_setup_new ();
  guint seen = 0;

  if (!name || !tg_xml_take_number (&taker, "overshoot", &setup->overshoot_percent, error) ||
      !tg_xml_finish (&taker, error))
    return NULL;
  g_free (setup->name);
  setup->name = g_strdup (name);
  /* possible until the file says otherwise, so that the first refusal is about what was read */
  setup->cylinders = 1;
  setup->resolution = 1;
  for (xmlNode *child = tg_xml_first (node); child; child = tg_xml_next (child))
    {
      if (seen & single_bit (child))
        {
          tg_xml_refuse (error, file, child, TG_ERROR_DUPLICATE, "a second “%s” of the same kind",
                         (const char *) child->name);
          return NULL;
        }
      seen |= single_bit (child);
      if (!read_setup_child (child, file, setup, error))
        return NULL;
      if (!tg_setup_check_so_far (setup, error))
        {
          tg_xml_locate (error, file, child);
          return NULL;
        }
    }
  if (!check_singles (node, file, seen, error))
    return NULL;
  if (!tg_setup_check (setup, error))
    {
      tg_xml_locate (error, file, node);
      return NULL;
    }
  return g_steal_pointer (&setup);
}

/* -- journal --------------------------------------------------------------------------------- */

static gboolean
read_common (TgXmlTaker *taker, TgEvent *event, GError **error)
{
  const char *at, *text;

  event->id = tg_xml_need (taker, "id", error);
  at = event->id ? tg_xml_need (taker, "at", error) : NULL;
  if (!at)
    return FALSE;
  if (!tg_stamp_parse (at, &event->stamp))
    return tg_xml_refuse_value (taker, "at", at, error);
  text = tg_xml_take (taker, "who");
  event->who = text ? text : "";
  text = tg_xml_take (taker, "text");
  event->text = text ? text : "";
  return TRUE;
}

static gboolean
may_be_of_no_part (const TgEvent *event)
{
  return event->kind == TG_EVENT_NOTE || event->kind == TG_EVENT_TICK;
}

static gboolean
read_texts (TgXmlTaker *taker, guint uses, TgEvent *event, GError **error)
{
  const struct
  {
    guint use;
    const char *attribute;
    const char **text;
  } texts[] = {
    { TG_EVENT_USES_PART, "part", &event->part },
    { TG_EVENT_USES_ZONE, "zone", &event->zone },
    { TG_EVENT_USES_PATH, "path", &event->path },
    { TG_EVENT_USES_VALUE, "value", &event->value },
    { TG_EVENT_USES_REFERS, "refers", &event->refers },
    { TG_EVENT_USES_PLACES, "places", &event->places },
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      const char *text;

      if (!(uses & texts[i].use))
        continue;
      text = may_be_of_no_part (event) ? tg_xml_take (taker, texts[i].attribute)
                                       : tg_xml_need (taker, texts[i].attribute, error);
      if (!text && !may_be_of_no_part (event))
        return FALSE;
      *texts[i].text = text ? text : "";
    }
  return TRUE;
}

static gboolean
read_words (TgXmlTaker *taker, guint uses, TgEvent *event, GError **error)
{
  const char *word = "";

  if (uses & TG_EVENT_USES_FIGURE && (!(word = tg_xml_need (taker, "figure", error)) ||
                                      !tg_figure_from_word (word, &event->figure)))
    return word && tg_xml_refuse_value (taker, "figure", word, error);
  if (uses & TG_EVENT_USES_WAY && (word = tg_xml_take (taker, "way")) &&
      !tg_way_from_word (word, &event->way))
    return tg_xml_refuse_value (taker, "way", word, error);
  if (uses & TG_EVENT_USES_TOOL &&
      (!(word = tg_xml_need (taker, "tool", error)) || !tg_tool_from_word (word, &event->tool)))
    return word && tg_xml_refuse_value (taker, "tool", word, error);
  if (uses & TG_EVENT_USES_BAND &&
      (!(word = tg_xml_need (taker, "band", error)) || !tg_band_from_word (word, &event->band)))
    return word && tg_xml_refuse_value (taker, "band", word, error);
  return TRUE;
}

/* How long a pass was: one attribute, called after what it counts. */
static gboolean
read_effort (TgXmlTaker *taker, TgEvent *event, GError **error)
{
  for (TgEffort effort = TG_EFFORT_STROKES; effort <= TG_EFFORT_SECONDS; effort++)
    {
      guint count = G_MAXUINT;

      if (!tg_xml_take_count (taker, tg_effort_to_word (effort), &count, error))
        return FALSE;
      if (count == G_MAXUINT)
        continue;
      if (event->effort != TG_EFFORT_NONE)
        return tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_SYNTAX,
                              "a pass is counted in strokes or in seconds, not in both");
      event->effort = effort;
      event->count = count;
    }
  return TRUE;
}

/* What was looked at, in which bore. */
static gboolean
read_tick (TgXmlTaker *taker, TgEvent *event, GError **error)
{
  const char *word = tg_xml_need (taker, "check", error);

  if (!word)
    return FALSE;
  return tg_build_check_from_word (word, &event->check)
             ? tg_xml_need_count (taker, "bore", &event->bore, error)
             : tg_xml_refuse_value (taker, "check", word, error);
}

/* What a rule says of its part. */
static gboolean
read_rule (TgXmlTaker *taker, TgEvent *event, GError **error)
{
  const char *word = tg_xml_need (taker, "rule", error);

  if (!word)
    return FALSE;
  if (!tg_rule_from_word (word, &event->rule))
    return tg_xml_refuse_value (taker, "rule", word, error);
  if (event->rule == TG_RULE_BORE)
    return tg_xml_need_count (taker, "bore", &event->bore, error);
  word = tg_xml_need (taker, "other", error);
  event->other = word ? word : "";
  return word != NULL;
}

static gboolean
read_values (TgXmlTaker *taker, guint uses, TgEvent *event, GError **error)
{
  if (uses & TG_EVENT_USES_AUTOMATIC &&
      !tg_xml_take_yes (taker, "automatic", &event->automatic, error))
    return FALSE;
  if (uses & TG_EVENT_USES_KEPT && !tg_xml_take_yes (taker, "kept", &event->kept, error))
    return FALSE;
  if (uses & TG_EVENT_USES_PRACTICE &&
      !tg_xml_take_yes (taker, "practice", &event->practice, error))
    return FALSE;
  if (uses & TG_EVENT_USES_SENT && !tg_xml_take_yes (taker, "sent", &event->sent, error))
    return FALSE;
  if (uses & TG_EVENT_USES_SET_BACK &&
      !tg_xml_take_yes (taker, "set-back", &event->set_back, error))
    return FALSE;
  if (uses & TG_EVENT_USES_NOMINAL && !tg_xml_need_mass (taker, "nominal", &event->nominal, error))
    return FALSE;
  if (uses & TG_EVENT_USES_EFFORT && !read_effort (taker, event, error))
    return FALSE;
  if (uses & TG_EVENT_USES_RULE && !read_rule (taker, event, error))
    return FALSE;
  if (uses & TG_EVENT_USES_CHECK && !read_tick (taker, event, error))
    return FALSE;
  if (uses & TG_EVENT_USES_ON &&
      (!tg_xml_need (taker, "on", error) || !tg_xml_take_yes (taker, "on", &event->on, error)))
    return FALSE;
  if (!(uses & TG_EVENT_USES_MASS) || event->automatic)
    return TRUE;
  if (event->kind == TG_EVENT_ZERO)
    return tg_xml_need_signed_mass (taker, "mass", &event->mass, error);
  return event->kind == TG_EVENT_PASS ? tg_xml_take_mass (taker, "mass", &event->mass, error)
                                      : tg_xml_need_mass (taker, "mass", &event->mass, error);
}

static gboolean
read_event (xmlNode *node, const char *file, TgJob *job, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  TgEventKind kind;
  TgEvent event;
  guint uses;

  if (!tg_event_kind_from_word ((const char *) node->name, &kind) ||
      !tg_xml_is (node, (const char *) node->name))
    return tg_xml_refuse_element (error, file, node);
  uses = tg_event_uses (kind);
  event = tg_event_blank (kind);
  if (!read_common (&taker, &event, error) || !read_texts (&taker, uses, &event, error) ||
      !read_words (&taker, uses, &event, error) || !read_values (&taker, uses, &event, error) ||
      !tg_xml_finish (&taker, error))
    return FALSE;
  if (tg_xml_first (node))
    return tg_xml_refuse_element (error, file, tg_xml_first (node));
  return tg_job_append (job, &event, error) || tg_xml_locate (error, file, node);
}

static TgJob *
read_job (const xmlDoc *doc, const char *file, GError **error)
{
  xmlNode *root = xmlDocGetRootElement (doc), *first = tg_xml_first (root), *journal;
  g_autoptr (TgJob) job = NULL;
  TgSetup *setup;

  if (!first || !tg_xml_is (first, "setup"))
    {
      tg_xml_refuse (error, file, first ? first : root, TG_ERROR_SYNTAX,
                     "a job begins with its setup");
      return NULL;
    }
  setup = read_setup (first, file, error);
  if (!setup)
    return NULL;
  job = tg_job_new (setup);
  journal = tg_xml_next (first);
  if (!journal || !tg_xml_is (journal, "journal"))
    {
      tg_xml_refuse (error, file, journal ? journal : root, TG_ERROR_SYNTAX,
                     "after the setup comes the journal");
      return NULL;
    }
  for (xmlNode *node = tg_xml_first (journal); node; node = tg_xml_next (node))
    if (!read_event (node, file, job, error))
      return NULL;
  if (tg_xml_next (journal))
    {
      tg_xml_refuse_element (error, file, tg_xml_next (journal));
      return NULL;
    }
  return g_steal_pointer (&job);
}

TgJob *
tg_job_xml_parse (const char *data, gsize size, const char *name, GError **error)
{
  static const TgXmlLimits limits = { TG_JOB_XML_MAX_BYTES, TG_JOB_MAX_EVENTS + 10000 };
  g_autoptr (xmlDoc) doc = NULL;
  g_autoptr (TgJob) job = NULL;
  gboolean fits;
  int line;

  g_return_val_if_fail (data != NULL && name != NULL, NULL);

  doc = tg_xml_parse (data, size, name, &limits, error);
  if (!doc ||
      !tg_xml_check_root (doc, name, "job", TG_JOB_XML_NAMESPACE, TG_JOB_XML_VERSION, error))
    return NULL;
  fits = tg_xml_validate (doc, "job.rng", &line);
  job = read_job (doc, name, error);
  if (job && !fits)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                   "%s:%d: what stands here, or its order, does not fit a job file", name,
                   MAX (line, 1));
      return NULL;
    }
  return g_steal_pointer (&job);
}

/* -- from the disk --------------------------------------------------------------------------- */

TgJob *
tg_job_xml_load (const char *path, GError **error)
{
  g_autofree char *name = NULL;
  g_autoptr (GString) data = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  data = tg_whole_file_load (path, TG_JOB_XML_MAX_BYTES, error);
  if (!data)
    return NULL;
  name = tg_storable_basename (path);
  return tg_job_xml_parse (data->str, data->len, name, error);
}
