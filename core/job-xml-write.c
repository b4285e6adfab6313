/* job-xml-write.c: from a job to the text of its file, see job-xml.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Written for a person with a text editor: one event a line, the same attribute always in the same
 * place, nothing that does not matter to the kind, no default that says nothing.  The text depends
 * on the job alone, not on locale or clock.
 */
#include "job-xml.h"

#include "design-xml.h"
#include "storable.h"
#include "xml.h"

static void
append_mass (GString *out, const char *attribute, TgMass mass)
{
  g_autofree char *text = tg_mass_format_exact (mass);

  tg_xml_append_attribute (out, attribute, text);
}

static void
append_filled (GString *out, const char *attribute, const char *text)
{
  if (text[0] != '\0')
    tg_xml_append_attribute (out, attribute, text);
}

/* What is carried in the sums, where the person chose otherwise. */
static void
append_sum (GString *out, const TgSetup *setup)
{
  gboolean differs = setup->small_ends != TG_SMALL_ENDS_APART || setup->pistons_alone;

  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    differs |= setup->left_out[kind];
  if (!differs)
    return;
  g_string_append (out, "    <sum");
  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    if (setup->left_out[kind])
      tg_xml_append_attribute (out, tg_part_kind_to_word (kind), "no");
  if (setup->small_ends != TG_SMALL_ENDS_APART)
    tg_xml_append_attribute (out, "rod", tg_small_ends_to_word (setup->small_ends));
  if (setup->pistons_alone)
    tg_xml_append_attribute (out, "piston", "both");
  g_string_append (out, "/>\n");
}

static void
append_fact (GString *out, const char *name, const char *value)
{
  g_string_append_printf (out, "      <%s", name);
  tg_xml_append_attribute (out, "value", value);
  g_string_append (out, "/>\n");
}

/* What was said of the crank drive; nothing if nothing was. */
static void
append_crank_drive (GString *out, const TgEngine *engine)
{
  gsize start = out->len, end;
  char number[TG_STORABLE_NUMBER_SIZE];
  guint n;
  const TgField *fields = tg_engine_fields (&n);

  g_string_append (out, "    <crank-drive>\n");
  end = out->len;
  if (engine->chosen)
    append_fact (out, "kind", tg_engine_kind_to_word (engine->kind));
  if (engine->split_pins)
    append_fact (out, "split-pins", "yes");
  for (guint i = 0; i < n; i++)
    {
      double value = *tg_field_ptr (&fields[i], (gpointer) engine);

      if (value != tg_engine_default (&fields[i]))
        append_fact (out, fields[i].name, tg_storable_format_number (value, number));
    }
  if (engine->factor_percent != TG_ENGINE_FACTOR_BY_LAYOUT)
    append_fact (out, "factor", tg_storable_format_number (engine->factor_percent, number));
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    {
      const char *text = *tg_engine_text ((TgEngine *) engine, tg_engine_text_names[i]);

      if (*text)
        append_fact (out, tg_engine_text_names[i], text);
    }
  if (out->len == end)
    g_string_truncate (out, start);
  else
    g_string_append (out, "    </crank-drive>\n");
}

/* What is said of a practice job; nothing for a real one. */
static void
append_practice (GString *out, const TgPractice *practice)
{
  char number[TG_STORABLE_NUMBER_SIZE];
  guint n;
  const TgField *fields = tg_practice_fields (&n);

  if (!practice->on)
    return;
  g_string_append (out, "    <practice");
  tg_xml_append_attribute (out, "seed", practice->seed);
  append_filled (out, "lesson", practice->lesson);
  g_string_append (out, ">\n");
  for (guint i = 0; i < n; i++)
    {
      double value = tg_field_get (&fields[i], practice);

      if (value != 0)
        append_fact (out, fields[i].name, tg_storable_format_number (value, number));
    }
  g_string_append (out, "    </practice>\n");
}

static void
append_part (GString *out, const TgPart *part)
{
  g_string_append (out, "    <part");
  tg_xml_append_attribute (out, "id", part->id);
  tg_xml_append_attribute (out, "name", part->name);
  tg_xml_append_attribute (out, "design", part->design->id);
  if (part->bore > 0)
    g_string_append_printf (out, " bore=\"%u\"", part->bore);
  g_string_append (out, "/>\n");
}

static void
append_setup (GString *out, const TgSetup *setup)
{
  g_string_append (out, "  <setup");
  tg_xml_append_attribute (out, "name", setup->name);
  if (setup->overshoot_percent != TG_SETUP_OVERSHOOT_PERCENT)
    {
      char number[TG_STORABLE_NUMBER_SIZE];

      tg_xml_append_attribute (out, "overshoot",
                               tg_storable_format_number (setup->overshoot_percent, number));
    }
  g_string_append_printf (out, ">\n    <engine layout=\"%s\" cylinders=\"%u\"",
                          tg_layout_to_word (setup->layout), setup->cylinders);
  if (setup->sharing != TG_SHARING_OWN)
    tg_xml_append_attribute (out, "crankpins", tg_sharing_to_word (setup->sharing));
  g_string_append (out, "/>\n");
  append_crank_drive (out, &setup->engine);
  append_practice (out, &setup->practice);
  g_string_append (out, "    <scale");
  append_mass (out, "resolution", setup->resolution);
  if (setup->capacity != 0)
    append_mass (out, "capacity", setup->capacity);
  append_filled (out, "name", setup->scale);
  if (setup->check_weight != 0)
    {
      append_mass (out, "check-weight", setup->check_weight);
      tg_xml_append_attribute (out, "check-class",
                               tg_check_weight_class_to_word (setup->check_class));
    }
  if (setup->repeats != TG_SETUP_REPEATS)
    g_string_append_printf (out, " repeats=\"%u\"", setup->repeats);
  g_string_append (out, "/>\n");
  for (guint band = 0; band < TG_N_BANDS; band++)
    {
      if (band == TG_BAND_PISTON_ALONE && setup->tolerance[band] == 0)
        continue;
      g_string_append_printf (out, "    <tolerance band=\"%s\"", tg_band_to_word (band));
      append_mass (out, "mass", setup->tolerance[band]);
      g_string_append (out, "/>\n");
    }
  append_sum (out, setup);
  for (guint i = 0; i < setup->designs->len; i++)
    tg_design_xml_append (out, g_ptr_array_index (setup->designs, i));
  for (guint i = 0; i < setup->parts->len; i++)
    append_part (out, tg_setup_part (setup, i));
  g_string_append (out, "  </setup>\n");
}

static void
append_rule (GString *out, const TgEvent *event)
{
  tg_xml_append_attribute (out, "rule", tg_rule_to_word (event->rule));
  append_filled (out, "other", event->other);
  if (event->rule == TG_RULE_BORE)
    g_string_append_printf (out, " bore=\"%u\"", event->bore);
}

static void
append_event (GString *out, const TgEvent *event)
{
  guint uses = tg_event_uses (event->kind);
  char at[TG_STAMP_SIZE];

  tg_stamp_format (event->stamp, at);
  g_string_append_printf (out, "    <%s", tg_event_kind_to_word (event->kind));
  tg_xml_append_attribute (out, "id", event->id);
  tg_xml_append_attribute (out, "at", at);
  append_filled (out, "who", event->who);
  append_filled (out, "part", event->part);
  if (uses & TG_EVENT_USES_FIGURE)
    tg_xml_append_attribute (out, "figure", tg_figure_to_word (event->figure));
  if (uses & TG_EVENT_USES_WAY && event->way != TG_WAY_ANY)
    tg_xml_append_attribute (out, "way", tg_way_to_word (event->way));
  append_filled (out, "zone", event->zone);
  if (uses & TG_EVENT_USES_TOOL)
    tg_xml_append_attribute (out, "tool", tg_tool_to_word (event->tool));
  if (uses & TG_EVENT_USES_BAND)
    tg_xml_append_attribute (out, "band", tg_band_to_word (event->band));
  if (event->automatic)
    tg_xml_append_attribute (out, "automatic", "yes");
  if (uses & TG_EVENT_USES_NOMINAL)
    append_mass (out, "nominal", event->nominal);
  if (event->mass != 0 || event->kind == TG_EVENT_ZERO)
    append_mass (out, "mass", event->mass);
  if (event->effort != TG_EFFORT_NONE)
    g_string_append_printf (out, " %s=\"%u\"", tg_effort_to_word (event->effort), event->count);
  if (event->set_back)
    tg_xml_append_attribute (out, "set-back", "yes");
  append_filled (out, "places", event->places);
  if (uses & TG_EVENT_USES_CHECK)
    {
      g_string_append_printf (out, " bore=\"%u\"", event->bore);
      tg_xml_append_attribute (out, "check", tg_build_check_to_word (event->check));
    }
  if (uses & TG_EVENT_USES_RULE)
    append_rule (out, event);
  if (uses & TG_EVENT_USES_ON)
    tg_xml_append_attribute (out, "on", event->on ? "yes" : "no");
  append_filled (out, "path", event->path);
  if (uses & TG_EVENT_USES_VALUE)
    tg_xml_append_attribute (out, "value", event->value);
  append_filled (out, "refers", event->refers);
  if (event->kept)
    tg_xml_append_attribute (out, "kept", "yes");
  if (event->sent)
    tg_xml_append_attribute (out, "sent", "yes");
  if (event->practice)
    tg_xml_append_attribute (out, "practice", "yes");
  append_filled (out, "text", event->text);
  g_string_append (out, "/>\n");
}

GString *
tg_job_xml_format (const TgJob *job)
{
  GString *out;

  g_return_val_if_fail (job != NULL, NULL);

  out = g_string_sized_new (4096 + 200 * (gsize) tg_job_n_events (job));
  g_string_append_printf (out,
                          "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                          "<job xmlns=\"%s\" version=\"%d\">\n",
                          TG_JOB_XML_NAMESPACE, TG_JOB_XML_VERSION);
  append_setup (out, tg_job_setup (job));
  g_string_append (out, "  <journal>\n");
  for (guint i = 0; i < tg_job_n_events (job); i++)
    append_event (out, tg_job_event (job, i));
  g_string_append (out, "  </journal>\n</job>\n");
  return out;
}
