/* lesson-subject.c: what a condition or a question of a lesson is about, see lesson-subject.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-subject.h"

#include "error.h"
#include "word.h"

TG_DEFINE_WORDS (TgLessonWays, lesson_ways, "all", "mark-up", "mark-down", "both")

typedef struct
{
  TgXmlTaker *taker;
  const TgSetup *setup;
  TgLessonSubject *subject;
  const char *value;
  GError **error;
} Reading;

static gboolean
not_there (const Reading *r, const char *what)
{
  return tg_xml_refuse (r->error, r->taker->file, r->taker->node, TG_ERROR_UNKNOWN,
                        "the job of the lesson has no %s “%s”", what, r->value);
}

static gboolean
no_such (const Reading *r, const char *attribute)
{
  return tg_xml_refuse_value (r->taker, attribute, r->value, r->error);
}

static gboolean
read_part (const Reading *r)
{
  if (!tg_setup_find_part (r->setup, r->value, &r->subject->index))
    return not_there (r, "part");
  r->subject->part = g_strdup (r->value);
  r->subject->kind = tg_setup_part (r->setup, r->subject->index)->design->kind;
  return TRUE;
}

/* Of the part that was said, or else of any design of the job. */
static gboolean
read_zone (const Reading *r)
{
  TgLessonSubject *subject = r->subject;
  gboolean found = FALSE;

  if (subject->has & TG_LESSON_HAS_PART)
    found = tg_design_find_zone (tg_setup_part (r->setup, subject->index)->design, r->value,
                                 &subject->zone_index) != NULL;
  for (guint i = 0; i < r->setup->designs->len && !(subject->has & TG_LESSON_HAS_PART); i++)
    found = found || tg_design_find_zone (g_ptr_array_index (r->setup->designs, i), r->value, NULL);
  if (!found)
    return not_there (r, subject->part ? "zone of that part" : "zone");
  subject->zone = g_strdup (r->value);
  return TRUE;
}

static gboolean
read_kind (const Reading *r)
{
  if (!tg_part_kind_from_word (r->value, &r->subject->kind))
    return no_such (r, "kind");
  return tg_setup_has_kind (r->setup, r->subject->kind) || not_there (r, "family");
}

static gboolean
read_figure (const Reading *r)
{
  TgLessonSubject *subject = r->subject;

  if (!tg_figure_from_word (r->value, &subject->figure))
    return no_such (r, "figure");
  if (subject->figure == TG_FIGURE_WHOLE ||
      !(subject->has & (TG_LESSON_HAS_PART | TG_LESSON_HAS_KIND)) || subject->kind == TG_PART_ROD)
    return TRUE;
  return tg_xml_refuse (r->error, r->taker->file, r->taker->node, TG_ERROR_RANGE,
                        "only rods have a %s", tg_figure_label (TG_PART_ROD, subject->figure));
}

static gboolean
read_ways (const Reading *r)
{
  return tg_lesson_ways_from_word (r->value, &r->subject->ways) || no_such (r, "way");
}

static gboolean
read_band (const Reading *r)
{
  if (!tg_band_from_word (r->value, &r->subject->band))
    return no_such (r, "band");
  return (tg_setup_has_band (r->setup, r->subject->band) &&
          tg_setup_has_kind (r->setup, tg_band_kind (r->subject->band))) ||
         not_there (r, "band");
}

static gboolean
read_count (const Reading *r, const char *attribute, guint most, guint *count)
{
  guint64 number;

  if (!g_ascii_string_to_unsigned (r->value, 10, 1, most, &number, NULL))
    return no_such (r, attribute);
  *count = (guint) number;
  return TRUE;
}

static gboolean
read_bore (const Reading *r)
{
  return read_count (r, "bore", r->setup->cylinders, &r->subject->bore);
}

static gboolean
read_at_least (const Reading *r)
{
  return read_count (r, "at-least", TG_LESSON_MOST, &r->subject->at_least);
}

static gboolean
read_grams (const Reading *r)
{
  TgMass mass;

  if (!tg_mass_parse (r->value, &mass, NULL) || mass == 0)
    return no_such (r, "grams");
  r->subject->grams = tg_mass_to_g (mass);
  return TRUE;
}

/* A part comes before what hangs on it. */
static const struct
{
  TgLessonHas has;
  const char *attribute;
  gboolean (*read) (const Reading *r);
} fields[] = {
  { TG_LESSON_HAS_PART, "part", read_part },
  { TG_LESSON_HAS_KIND, "kind", read_kind },
  { TG_LESSON_HAS_ZONE, "zone", read_zone },
  { TG_LESSON_HAS_FIGURE, "figure", read_figure },
  { TG_LESSON_HAS_WAYS, "way", read_ways },
  { TG_LESSON_HAS_BAND, "band", read_band },
  { TG_LESSON_HAS_BORE, "bore", read_bore },
  { TG_LESSON_HAS_GRAMS, "grams", read_grams },
  { TG_LESSON_HAS_AT_LEAST, "at-least", read_at_least },
};

gboolean
tg_lesson_subject_read (TgXmlTaker *taker,
                        guint need,
                        guint may,
                        const TgSetup *setup,
                        TgLessonSubject *subject,
                        GError **error)
{
  Reading r = { taker, setup, subject, NULL, error };

  *subject = (TgLessonSubject){ .at_least = 1 };
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    {
      if (!((need | may) & fields[i].has))
        continue;
      r.value = need & fields[i].has ? tg_xml_need (taker, fields[i].attribute, error)
                                     : tg_xml_take (taker, fields[i].attribute);
      if (!r.value && need & fields[i].has)
        return FALSE;
      if (r.value && !fields[i].read (&r))
        return FALSE;
      if (r.value)
        subject->has |= fields[i].has;
    }
  return TRUE;
}

void
tg_lesson_subject_clear (TgLessonSubject *subject)
{
  g_clear_pointer (&subject->part, g_free);
  g_clear_pointer (&subject->zone, g_free);
}
