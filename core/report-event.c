/* report-event.c: entries of the journal in words, see report.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One sentence for each, from what the entry itself says.  What a pairing changes hangs on where the
 * parts were before it, so that needs the job.
 */
#include "report.h"

#include <string.h>

#include "number.h"

#define MAX_MOVES 6 /* that are told one by one */

static const char *
zone_name (const TgReview *review, const TgEvent *event)
{
  const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);
  const TgZone *zone = part ? tg_design_find_zone (part->design, event->zone, NULL) : NULL;

  return zone ? zone->name : event->zone;
}

static const char *
part_name (const TgReview *review, const TgEvent *event)
{
  const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);

  return part ? part->name : event->part;
}

static char *
weighing_words (const TgReview *review, const TgEvent *event)
{
  const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);
  g_autofree char *mass = tg_mass_format (
      event->mass,
      MAX (tg_mass_decimals (event->mass), tg_mass_decimals (review->setup->resolution)));
  gboolean rod = part && part->design->kind == TG_PART_ROD;

  return g_strdup_printf ("%s%s%s%s%s: %s g%s%s", part_name (review, event), rod ? ", " : "",
                          rod ? tg_figure_label (TG_PART_ROD, event->figure) : "",
                          event->way != TG_WAY_ANY ? ", " : "", tg_way_label (event->way), mass,
                          event->kept ? " (asked, and kept)" : "",
                          event->sent ? " (by cable)" : "");
}

static char *
check_words (const TgReview *review, const TgEvent *event)
{
  guint decimals = MAX (tg_mass_decimals (event->mass),
                        tg_mass_decimals (review->setup->resolution));
  g_autofree char *mass = tg_number_format_signed (tg_mass_to_g (event->mass), decimals);
  g_autofree char *shown = tg_mass_format (event->mass, decimals);
  g_autofree char *nominal = tg_mass_format_exact (event->nominal);

  const char *cable = event->sent ? " (by cable)" : "";

  if (event->kind == TG_EVENT_CHECK_WEIGHT)
    return g_strdup_printf ("Check weight of %s g: %s g%s", nominal, shown, cable);
  return g_strdup_printf ("Empty scale: %s g%s%s", mass,
                          event->mass != 0 && event->set_back ? ", then set to zero" : "", cable);
}

static char *
pass_words (const TgReview *review, const TgEvent *event)
{
  g_autofree char *mass = tg_mass_format_exact (event->mass);
  g_autofree char *words = tg_effort_words (event->effort, event->count);
  g_autofree char *effort = words[0] ? g_strconcat (", ", words, NULL) : g_strdup ("");

  if (event->mass == 0)
    return g_strdup_printf ("%s: pass on the %s, %s%s", part_name (review, event),
                            zone_name (review, event), tg_tool_label (event->tool), effort);
  return g_strdup_printf ("%s: pass on the %s, %s g wanted, %s%s", part_name (review, event),
                          zone_name (review, event), mass, tg_tool_label (event->tool), effort);
}

static char *
target_words (const TgReview *review, const TgEvent *event)
{
  const char *band = tg_setup_band_label (review->setup, event->band);
  g_autofree char *mass = tg_mass_format_exact (event->mass);

  if (event->automatic)
    return g_strdup_printf ("Target of the %s: the program's choice again", band);
  return g_strdup_printf ("Target of the %s: %s g", band, mass);
}

/* What a person reads for a value that is a word in files; NULL for the others. */
static const char *
value_words (const TgEvent *event)
{
  static const char *const sharings[TG_N_SHARINGS] = {
    "each has its own", "neighbours share one", "those at one place of both banks share one"
  };
  static const char *const small_ends[TG_N_SMALL_ENDS] = { "no", "yes, and only there",
                                                           "yes, and even by themselves too" };
  TgSharing sharing;
  TgSmallEnds ends;
  TgEngineKind kind;

  if (event->value[0] == '\0' ||
      (g_str_has_prefix (event->path, "engine.") && strcmp (event->value, "0") == 0 &&
       tg_engine_zero_is_unsaid (event->path + strlen ("engine."))))
    return "not said";
  if (strcmp (event->value, "by-layout") == 0)
    return "by the layout";
  if (strcmp (event->path, "engine.kind") == 0 && tg_engine_kind_from_word (event->value, &kind))
    return tg_engine_kind_label (kind);
  if (strcmp (event->path, "crankpins") == 0 && tg_sharing_from_word (event->value, &sharing))
    return sharings[sharing];
  if (strcmp (event->path, "sum.rod") == 0 && tg_small_ends_from_word (event->value, &ends))
    return small_ends[ends];
  return NULL;
}

static char *
set_words (const TgReview *review, const TgEvent *event)
{
  const char *unit, *words = value_words (event);
  g_autofree char *name = tg_setup_name (review->setup, event->path, &unit);

  if (words || !unit)
    return g_strdup_printf ("%s: %s", name, words ? words : event->value);
  return g_strdup_printf ("%s: %s %s", name, event->value, unit);
}

/* -- pairings and rules ------------------------------------------------------------------------ */

static const char *
other_name (const TgReview *review, const TgEvent *event)
{
  const TgPart *part = tg_setup_find_part (review->setup, event->other, NULL);

  return part ? part->name : event->other;
}

static char *
tick_words (const TgReview *review, const TgEvent *event)
{
  const char *label = tg_build_check_label (event->check);

  return event->part[0]
             ? g_strdup_printf ("Bore %u: %s: %s", event->bore, label, part_name (review, event))
             : g_strdup_printf ("Bore %u: %s", event->bore, label);
}

static char *
rule_words (const TgReview *review, const TgEvent *event)
{
  const char *part = part_name (review, event), *other = other_name (review, event);

  switch (event->rule)
    {
    case TG_RULE_TOGETHER:
      return g_strdup_printf ("%s and %s %sstay together", part, other,
                              event->on ? "" : "need not ");
    case TG_RULE_APART:
      return g_strdup_printf ("%s and %s %s go together", part, other, event->on ? "never" : "may");
    case TG_RULE_BORE:
    default:
      return g_strdup_printf ("%s %s at bore %u", part, event->on ? "stays" : "need not stay",
                              event->bore);
    }
}

/* "pins and ring packs"; @n (nullable): how many of each, 0 to leave it out */
static char *
kinds_words (guint kinds, const guint *n)
{
  GString *out = g_string_new (NULL);
  guint left = 0;

  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    left += (kinds & 1u << kind) != 0;
  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (kinds & 1u << kind)
      {
        if (n)
          g_string_append_printf (out, "%u ", n[kind]);
        g_string_append (out, n && n[kind] == 1 ? tg_part_kind_label (kind)
                                                : tg_part_kind_plural (kind));
        left--;
        g_string_append (out, left > 1 ? ", " : left == 1 ? " and " : "");
      }
  return g_string_free (out, FALSE);
}

static char *
pair_words (const TgReview *review, const TgEvent *event)
{
  guint kinds = tg_setup_places_kinds (review->setup, event->places);
  g_autofree char *named = kinds_words (kinds, NULL);

  return g_strdup_printf ("New pairing%s%s", kinds ? " of the " : "", named);
}

/* Where the parts were when event @index was written. */
static TgSetup *
places_before (const TgReview *review, const TgJob *job, guint index)
{
  TgSetup *setup = tg_setup_copy (tg_job_setup (job));

  for (guint i = 0; i < index; i++)
    if (tg_job_event (job, i)->kind == TG_EVENT_PAIR && !review->struck[i])
      tg_setup_place (setup, tg_job_event (job, i)->places, NULL);
  return setup;
}

/* "Pin 2 to bore 5, Pin 5 to the spares"; of many only how many */
static char *
moves_words (const TgSetup *before, const TgSetup *after)
{
  GString *out = g_string_new (NULL);
  guint n[TG_N_PART_KINDS] = { 0 }, kinds = 0, all = 0;
  g_autofree char *counted = NULL;

  for (guint i = 0; i < after->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (after, i);

      if (part->bore == tg_setup_part (before, i)->bore)
        continue;
      g_string_append_printf (out, "%s%s to ", all ? ", " : "", part->name);
      if (part->bore > 0)
        g_string_append_printf (out, "bore %u", part->bore);
      else
        g_string_append (out, "the spares");
      n[part->design->kind]++;
      kinds |= 1u << part->design->kind;
      all++;
    }
  if (all == 0)
    g_string_assign (out, "every part stays where it is");
  if (all <= MAX_MOVES)
    return g_string_free (out, FALSE);
  counted = kinds_words (kinds, n);
  g_string_printf (out, "%s change places", counted);
  return g_string_free (out, FALSE);
}

char *
tg_report_entry (const TgReview *review, const TgJob *job, guint index)
{
  const TgEvent *event = tg_job_event (job, index);
  g_autoptr (TgSetup) before = NULL;
  g_autoptr (TgSetup) after = NULL;
  g_autofree char *moves = NULL;

  if (event->kind != TG_EVENT_PAIR)
    return tg_report_event (review, event);
  before = places_before (review, job, index);
  after = tg_setup_copy (before);
  tg_setup_place (after, event->places, NULL);
  moves = moves_words (before, after);
  return g_strdup_printf ("New pairing: %s%s%s", moves, event->text[0] ? " – " : "", event->text);
}

/* -- all --------------------------------------------------------------------------------------- */

static char *
plain_words (const TgReview *review, const TgEvent *event)
{
  switch (event->kind)
    {
    case TG_EVENT_FREEZE:
      return g_strdup_printf ("%s: %s", part_name (review, event),
                              event->on ? "left as it is" : "may be ground again");
    case TG_EVENT_REPLACE:
      return g_strdup_printf ("%s: another piece takes its place", part_name (review, event));
    case TG_EVENT_SET:
      return set_words (review, event);
    case TG_EVENT_PAIR:
      return pair_words (review, event);
    case TG_EVENT_TICK:
      return tick_words (review, event);
    case TG_EVENT_STEP:
      return event->value[0]
                 ? g_strdup_printf ("Lesson step “%s”: answered “%s”", event->path, event->value)
                 : g_strdup_printf ("Lesson step “%s”: done", event->path);
    case TG_EVENT_RULE:
      return rule_words (review, event);
    case TG_EVENT_STRIKE:
      return g_strdup ("An entry struck out");
    case TG_EVENT_NOTE:
      return event->part[0] ? g_strdup_printf ("%s: %s", part_name (review, event), event->text)
                            : g_strdup (event->text);
    default:
      return g_strdup ("");
    }
}

char *
tg_report_event (const TgReview *review, const TgEvent *event)
{
  g_autofree char *words = NULL;

  switch (event->kind)
    {
    case TG_EVENT_WEIGHING:
      words = weighing_words (review, event);
      break;
    case TG_EVENT_PASS:
      words = pass_words (review, event);
      break;
    case TG_EVENT_TARGET:
      words = target_words (review, event);
      break;
    case TG_EVENT_ZERO:
    case TG_EVENT_CHECK_WEIGHT:
      words = check_words (review, event);
      break;
    default:
      words = plain_words (review, event);
      break;
    }
  if (event->text[0] && event->kind != TG_EVENT_NOTE)
    return g_strdup_printf ("%s – %s", words, event->text);
  return g_steal_pointer (&words);
}
