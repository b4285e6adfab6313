/* job.c: the facts, see job.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Events are plain values in one array; their strings live in the job's string chunk, where the few
 * names that come again and again (parts, zones, persons) are kept once.
 */
#include "job.h"

#include <string.h>

#include "error.h"
#include "storable.h"

struct _TgJob
{
  TgSetup *setup;
  GArray *events;       /* TgEvent */
  GHashTable *index_of; /* id → index + 1 */
  GHashTable *parts;    /* id → TgPart; there may be many parts and very many events */
  GStringChunk *strings;
};

TgJob *
tg_job_new (TgSetup *setup)
{
  TgJob *job = g_new0 (TgJob, 1);

  job->setup = setup;
  job->events = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  job->index_of = g_hash_table_new (g_str_hash, g_str_equal);
  job->parts = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < setup->parts->len; i++)
    g_hash_table_insert (job->parts, tg_setup_part (setup, i)->id, tg_setup_part (setup, i));
  job->strings = g_string_chunk_new (4096);
  return job;
}

void
tg_job_free (TgJob *job)
{
  tg_setup_free (job->setup);
  g_array_unref (job->events);
  g_hash_table_unref (job->index_of);
  g_hash_table_unref (job->parts);
  g_string_chunk_free (job->strings);
  g_free (job);
}

const TgSetup *
tg_job_setup (const TgJob *job)
{
  return job->setup;
}

guint
tg_job_n_events (const TgJob *job)
{
  return job->events->len;
}

const TgEvent *
tg_job_event (const TgJob *job, guint index)
{
  g_return_val_if_fail (index < job->events->len, NULL);

  return &g_array_index (job->events, TgEvent, index);
}

int
tg_job_find_event (const TgJob *job, const char *id)
{
  return GPOINTER_TO_INT (g_hash_table_lookup (job->index_of, id)) - 1;
}

static gboolean
check_mass (const TgEvent *event, TgMass min, GError **error)
{
  g_autofree char *shown = NULL;

  if (event->mass >= min && event->mass <= TG_MASS_MAX)
    return TRUE;
  shown = tg_mass_format_exact (event->mass);
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a %s of %s g cannot be",
               tg_event_kind_to_word (event->kind), shown);
  return FALSE;
}

/* The empty scale may show less than nothing. */
static gboolean
check_zero (const TgEvent *event, GError **error)
{
  g_autofree char *shown = NULL;

  if (ABS (event->mass) <= TG_MAX_ZERO)
    return TRUE;
  shown = tg_mass_format_exact (event->mass);
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "an empty scale that shows %s g cannot be", shown);
  return FALSE;
}

static gboolean
check_check_weight (const TgEvent *event, GError **error)
{
  g_autofree char *shown = NULL;

  if (event->nominal >= 1 && event->nominal <= TG_MASS_MAX)
    return check_mass (event, 1, error);
  shown = tg_mass_format_exact (event->nominal);
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a check weight of %s g cannot be", shown);
  return FALSE;
}

static gboolean
check_effort (const TgEvent *event, GError **error)
{
  if (event->effort == TG_EFFORT_NONE || (event->count >= 1 && event->count <= TG_MAX_EFFORT))
    return TRUE;
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a pass of %u %s; possible is 1 to %d",
               event->count, tg_effort_to_word (event->effort), TG_MAX_EFFORT);
  return FALSE;
}

static gboolean
unknown (GError **error, const TgEvent *event, const char *what, const char *name)
{
  g_autofree char *shown = tg_storable_shorten (name);

  g_set_error (error, TG_ERROR, TG_ERROR_UNKNOWN, "%s of %s “%s”, which this job does not have",
               tg_event_kind_to_word (event->kind), what, shown);
  return FALSE;
}

static gboolean
check_weighing (const TgPart *part, const TgEvent *event, GError **error)
{
  gboolean end = event->figure != TG_FIGURE_WHOLE;

  if (!check_mass (event, 1, error))
    return FALSE;
  if ((part->design->kind != TG_PART_ROD && end) || end != (event->way != TG_WAY_ANY))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a weighing of “%s” cannot be of the %s%s%s",
                   event->part, tg_figure_to_word (event->figure),
                   event->way == TG_WAY_ANY ? " without saying which way up" : ", ",
                   tg_way_label (event->way));
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_set (const TgJob *job, const TgEvent *event, GError **error)
{
  /* Whether it fits the other values is a matter of the moment, which the review judges. */
  if (tg_setup_check_value (job->setup, event->path, event->value, error))
    return TRUE;
  g_prefix_error (error, "set of “%s”: ", event->path);
  return FALSE;
}

static gboolean
check_pair (const TgJob *job, const TgEvent *event, GError **error)
{
  if (tg_setup_check_places (job->setup, event->places, error))
    return TRUE;
  g_prefix_error (error, "pair: ");
  return FALSE;
}

static gboolean
check_rule (const TgJob *job, const TgPart *part, const TgEvent *event, GError **error)
{
  const TgPart *other;

  if (event->rule == TG_RULE_BORE)
    {
      if (event->bore >= 1 && event->bore <= job->setup->cylinders)
        return TRUE;
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a rule for bore %u of %u cylinders",
                   event->bore, job->setup->cylinders);
      return FALSE;
    }
  other = g_hash_table_lookup (job->parts, event->other);
  if (!other)
    return unknown (error, event, "part", event->other);
  if (other->design->kind != part->design->kind)
    return TRUE;
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
               "a rule about two %s; only different parts meet in a bore",
               tg_part_kind_plural (part->design->kind));
  return FALSE;
}

static gboolean
check_tick (const TgJob *job, const TgPart *part, const TgEvent *event, GError **error)
{
  TgPartKind kind;
  gboolean of_part = tg_build_check_kind (event->check, &kind);

  if (event->bore < 1 || event->bore > job->setup->cylinders)
    g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a tick for bore %u of %u cylinders", event->bore,
                 job->setup->cylinders);
  else if (of_part && (!part || part->design->kind != kind))
    g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a tick “%s” that does not name one of the %s",
                 tg_build_check_to_word (event->check), tg_part_kind_plural (kind));
  else if (!of_part && part)
    g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "a tick “%s” of a part",
                 tg_build_check_to_word (event->check));
  else
    return TRUE;
  return FALSE;
}

/* What is read and ground at a practice bench stays in its job, and nothing else goes into that. */
static gboolean
check_practice (const TgJob *job, const TgEvent *event, GError **error)
{
  gboolean practice = job->setup->practice.on;

  if (event->kind == TG_EVENT_STEP && practice && job->setup->practice.lesson[0] != '\0')
    return TRUE;
  if (event->kind == TG_EVENT_STEP)
    g_set_error_literal (error, TG_ERROR, TG_ERROR_RANGE,
                         "a step of a lesson in a job that is for none");
  else if (!(tg_event_uses (event->kind) & TG_EVENT_USES_PRACTICE) || event->practice == practice)
    return TRUE;
  else
    g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                 practice ? "a %s that was not made at the practice bench, in a practice job"
                          : "a %s at the practice bench, in a job with real parts",
                 tg_event_kind_to_word (event->kind));
  return FALSE;
}

static gboolean
check_event (const TgJob *job, const TgEvent *event, GError **error)
{
  const TgPart *part = NULL;
  gboolean needs_part = event->kind == TG_EVENT_WEIGHING || event->kind == TG_EVENT_PASS ||
                        event->kind == TG_EVENT_FREEZE || event->kind == TG_EVENT_REPLACE ||
                        event->kind == TG_EVENT_RULE;

  gboolean may_have_part = event->kind == TG_EVENT_NOTE || event->kind == TG_EVENT_TICK;

  if (needs_part || (may_have_part && event->part[0] != '\0'))
    {
      part = g_hash_table_lookup (job->parts, event->part);
      if (!part)
        return unknown (error, event, "part", event->part);
    }
  switch (event->kind)
    {
    case TG_EVENT_WEIGHING:
      return check_weighing (part, event, error);
    case TG_EVENT_PASS:
      if (!tg_design_find_zone (part->design, event->zone, NULL))
        return unknown (error, event, "zone", event->zone);
      return check_mass (event, 0, error) && check_effort (event, error);
    case TG_EVENT_TARGET:
      return event->automatic || check_mass (event, 1, error);
    case TG_EVENT_SET:
      return check_set (job, event, error);
    case TG_EVENT_STRIKE:
      if (tg_job_find_event (job, event->refers) < 0)
        return unknown (error, event, "event", event->refers);
      return TRUE;
    case TG_EVENT_ZERO:
      return check_zero (event, error);
    case TG_EVENT_CHECK_WEIGHT:
      return check_check_weight (event, error);
    case TG_EVENT_PAIR:
      return check_pair (job, event, error);
    case TG_EVENT_RULE:
      return check_rule (job, part, event, error);
    case TG_EVENT_TICK:
      return check_tick (job, part, event, error);
    case TG_EVENT_STEP:
    case TG_EVENT_FREEZE:
    case TG_EVENT_REPLACE:
    case TG_EVENT_NOTE:
    default:
      return TRUE;
    }
}

static gboolean
check_texts (const TgEvent *event, GError **error)
{
  return tg_storable_check (event->id, TG_STORABLE_ID, "id of an event", error) &&
         tg_storable_check (event->who, TG_STORABLE_NAME, "name of who made an event", error) &&
         tg_storable_check (event->text, TG_STORABLE_TEXT, "text of an event", error) &&
         tg_storable_check (event->path, TG_STORABLE_NAME, "path of a value", error) &&
         tg_storable_check (event->value, TG_STORABLE_TEXT, "value", error) &&
         tg_storable_check (event->other, TG_STORABLE_ID, "id of a part", error) &&
         tg_storable_check (event->places, TG_STORABLE_PLACES, "list of places", error);
}

/* Years 1 to 9999, which is what a stamp can be written for. */
static gboolean
check_stamp (TgStamp stamp, GError **error)
{
  const gint64 day_first = -719162, day_last = 2932896; /* 0001-01-01, 9999-12-31 */

  if (ABS (stamp.offset_min) < 1440 && stamp.seconds / 86400 > day_first - 2 &&
      stamp.seconds / 86400 < day_last + 2 && tg_stamp_day (stamp) >= day_first &&
      tg_stamp_day (stamp) <= day_last)
    return TRUE;
  g_set_error_literal (error, TG_ERROR, TG_ERROR_SYNTAX, "an event at a moment that cannot be");
  return FALSE;
}

static const char *
keep (TgJob *job, const char *text)
{
  return text[0] ? g_string_chunk_insert_const (job->strings, text) : "";
}

gboolean
tg_job_append (TgJob *job, const TgEvent *event, GError **error)
{
  TgEvent copy, plain;

  g_return_val_if_fail (job != NULL && event != NULL, FALSE);

  plain = tg_event_plain (event);
  event = &plain;

  if (job->events->len >= TG_JOB_MAX_EVENTS)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "more than %d events", TG_JOB_MAX_EVENTS);
      return FALSE;
    }
  if (event->id[0] == '\0')
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_SYNTAX, "an event without id");
      return FALSE;
    }
  if (g_hash_table_contains (job->index_of, event->id))
    {
      g_autofree char *shown = tg_storable_shorten (event->id);

      g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "two events have the id “%s”", shown);
      return FALSE;
    }
  if (!check_texts (event, error) || !check_stamp (event->stamp, error) ||
      !check_practice (job, event, error) || !check_event (job, event, error))
    return FALSE;

  copy = *event;
  copy.id = g_string_chunk_insert (job->strings, event->id);
  copy.who = keep (job, event->who);
  copy.part = keep (job, event->part);
  copy.zone = keep (job, event->zone);
  copy.path = keep (job, event->path);
  copy.value = keep (job, event->value);
  copy.refers = keep (job, event->refers);
  copy.text = keep (job, event->text);
  copy.places = keep (job, event->places);
  copy.other = keep (job, event->other);
  g_array_append_val (job->events, copy);
  g_hash_table_insert (job->index_of, (gpointer) copy.id, GINT_TO_POINTER (job->events->len));
  return TRUE;
}

TgJob *
tg_job_first (const TgJob *job, guint n)
{
  TgJob *first;

  g_return_val_if_fail (job && n <= job->events->len, NULL);

  first = tg_job_new (tg_setup_copy (job->setup));
  for (guint i = 0; i < n; i++)
    tg_job_append (first, tg_job_event (job, i), NULL);
  return first;
}

TgJob *
tg_job_copy (const TgJob *job)
{
  return tg_job_first (job, job->events->len);
}

void
tg_job_drop_last (TgJob *job)
{
  g_return_if_fail (job->events->len > 0);

  g_hash_table_remove (job->index_of, tg_job_event (job, job->events->len - 1)->id);
  g_array_set_size (job->events, job->events->len - 1);
}

gboolean *
tg_job_struck (const TgJob *job)
{
  gboolean *struck = g_new0 (gboolean, job->events->len + 1);

  /* A strike stands after what it strikes, so going backwards each is judged before it acts. */
  for (guint i = job->events->len; i-- > 0;)
    {
      const TgEvent *event = tg_job_event (job, i);
      int refers;

      if (event->kind != TG_EVENT_STRIKE || struck[i])
        continue;
      refers = tg_job_find_event (job, event->refers);
      if (refers >= 0)
        struck[refers] = TRUE;
    }
  return struck;
}

/* -- merging --------------------------------------------------------------------------------- */

/* The same fact may have been written down at both benches, each with its own clock and name. */
static gboolean
same_fact (const TgEvent *a, const TgEvent *b)
{
  TgEvent c = *b;

  c.stamp = a->stamp;
  c.who = a->who;
  return tg_event_equal (a, &c);
}

/* @event, or what @other has of the same fact if that is the one to keep. */
static const TgEvent *
kept_of (const TgEvent *event, const TgJob *other)
{
  int i = tg_job_find_event (other, event->id);
  const TgEvent *twin;
  int who;

  if (i < 0)
    return event;
  twin = tg_job_event (other, (guint) i);
  if (twin->stamp.seconds != event->stamp.seconds)
    return twin->stamp.seconds < event->stamp.seconds ? twin : event;
  who = strcmp (twin->who, event->who);
  return who < 0 || (who == 0 && twin->stamp.offset_min < event->stamp.offset_min) ? twin : event;
}

static gboolean
comes_first (const TgEvent *a, const TgEvent *b)
{
  if (a->stamp.seconds != b->stamp.seconds)
    return a->stamp.seconds < b->stamp.seconds;
  return strcmp (a->id, b->id) < 0;
}

/* Steps over what has been taken from the other side already. */
static const TgEvent *
head (const TgJob *job, guint *next, const TgJob *taken)
{
  for (; *next < job->events->len; (*next)++)
    if (tg_job_find_event (taken, tg_job_event (job, *next)->id) < 0)
      return tg_job_event (job, *next);
  return NULL;
}

/* An event that the other journal has too must wait there for what stands before it. */
static const TgEvent *
choose (const TgJob *job_a, const TgEvent *a, const TgJob *job_b, const TgEvent *b)
{
  gboolean a_waits, b_waits;

  if (!a || !b)
    return a ? a : b;
  a_waits = tg_job_find_event (job_b, a->id) >= 0;
  b_waits = tg_job_find_event (job_a, b->id) >= 0;
  if (a_waits != b_waits)
    return a_waits ? b : a;
  a = kept_of (a, job_b);
  b = kept_of (b, job_a);
  return comes_first (a, b) ? a : b;
}

static gboolean
check_same_events (const TgJob *job, const TgJob *other, GError **error)
{
  for (guint i = 0; i < job->events->len; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      int j = tg_job_find_event (other, event->id);

      if (j >= 0 && !same_fact (event, tg_job_event (other, (guint) j)))
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE,
                       "the two files have different events with the id “%s”", event->id);
          return FALSE;
        }
    }
  return TRUE;
}

TgJob *
tg_job_merge (const TgJob *job, const TgJob *other, GError **error)
{
  g_autoptr (TgJob) merged = NULL;
  const TgEvent *a, *b;
  guint next_a = 0, next_b = 0;

  g_return_val_if_fail (job != NULL && other != NULL, NULL);

  if (!tg_setup_equal (job->setup, other->setup))
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_RANGE,
                           "the two files do not begin with the same setup: they are two jobs");
      return NULL;
    }
  if (!check_same_events (job, other, error))
    return NULL;
  merged = tg_job_new (tg_setup_copy (job->setup));
  for (;;)
    {
      a = head (job, &next_a, merged);
      b = head (other, &next_b, merged);
      if (!a && !b)
        return g_steal_pointer (&merged);
      if (!tg_job_append (merged, choose (job, a, other, b), error))
        return NULL;
    }
}
