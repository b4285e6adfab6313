/* table-guess.c: what is what in a table that was made elsewhere; see table-import.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything here is a guess that the preview shows and the person can override; a wrong guess must
 * give rows that cannot be read rather than readings that were never made.  Words are plain English.
 */
#include <string.h>

#include "table-import-private.h"

/* -- words ------------------------------------------------------------------------------------- */

/* The kinds that have no ends and no outline. */
#define PLAIN_KINDS                                                                                \
  (TG_TABLE_SAYS_PIN | TG_TABLE_SAYS_RINGS | TG_TABLE_SAYS_CLIPS | TG_TABLE_SAYS_BEARINGS)

static guint
word_says (const char *word, gsize length)
{
  static const struct
  {
    const char *words;
    guint says;
  } table[] = {
    { "|small|little|", TG_TABLE_SAYS_SMALL },
    { "|big|large|", TG_TABLE_SAYS_BIG },
    { "|whole|total|complete|overall|", TG_TABLE_SAYS_WHOLE },
    { "|up|", TG_TABLE_SAYS_UP },
    { "|down|", TG_TABLE_SAYS_DOWN },
    { "|weight|weights|reading|readings|mass|weighed|", TG_TABLE_SAYS_READING },
    { "|part|parts|name|cylinder|cyl|no|nr|number|bore|", TG_TABLE_SAYS_PART },
    { "|rod|rods|", TG_TABLE_SAYS_PART | TG_TABLE_SAYS_ROD },
    { "|piston|pistons|", TG_TABLE_SAYS_PART | TG_TABLE_SAYS_PISTON },
    { "|pin|pins|gudgeon|wrist|", TG_TABLE_SAYS_PART | TG_TABLE_SAYS_PIN },
    { "|ring|rings|", TG_TABLE_SAYS_PART | TG_TABLE_SAYS_RINGS },
    { "|clip|clips|circlip|circlips|", TG_TABLE_SAYS_PART | TG_TABLE_SAYS_CLIPS },
    { "|bearing|bearings|shell|shells|", TG_TABLE_SAYS_PART | TG_TABLE_SAYS_BEARINGS },
    { "|set|sets|", TG_TABLE_SAYS_SET },
    { "|figure|what|", TG_TABLE_SAYS_FIGURE },
    { "|way|side|facing|", TG_TABLE_SAYS_WAY },
    { "|id|", TG_TABLE_SAYS_ID },
    { "|struck|", TG_TABLE_SAYS_STRUCK },
    { "|kept|", TG_TABLE_SAYS_KEPT },
    { "|sent|", TG_TABLE_SAYS_SENT },
    { "|end|ends|mark|any|in|of|the|out|pack|packs|pair|pairs|", 0 },
  };
  g_autofree char *lower = g_ascii_strdown (word, (gssize) length);
  g_autofree char *key = g_strconcat ("|", lower, "|", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    if (strstr (table[i].words, key))
      return table[i].says;
  return TG_TABLE_SAYS_OTHER;
}

guint
tg_table_words (const char *text, TgMassUnit *unit)
{
  TgMassUnit found;
  guint says = 0;

  for (const char *p = text; *p;)
    {
      gsize length = 0;

      while (g_ascii_isalpha (p[length]) || (guchar) p[length] >= 0x80)
        length++;
      if (length == 0)
        {
          p++;
          continue;
        }
      if (tg_mass_unit_find (p, length, &found))
        {
          says |= TG_TABLE_SAYS_READING;
          if (unit)
            *unit = found;
        }
      else
        says |= word_says (p, length);
      p += length;
    }
  if (says & TG_TABLE_SAYS_SET && !(says & PLAIN_KINDS))
    says |= TG_TABLE_SAYS_OTHER;
  return says & ~(guint) TG_TABLE_SAYS_SET;
}

guint
tg_table_kinds (guint says)
{
  static const guint words[TG_N_PART_KINDS] = {
    [TG_PART_ROD] = TG_TABLE_SAYS_ROD,     [TG_PART_PISTON] = TG_TABLE_SAYS_PISTON,
    [TG_PART_PIN] = TG_TABLE_SAYS_PIN,     [TG_PART_RINGS] = TG_TABLE_SAYS_RINGS,
    [TG_PART_CLIPS] = TG_TABLE_SAYS_CLIPS, [TG_PART_BEARINGS] = TG_TABLE_SAYS_BEARINGS,
  };
  guint kinds = 0;

  /* "pin clips", "piston rings" and "rod bearings" are what the last word says */
  if (says & TG_TABLE_SAYS_CLIPS)
    says &= ~(guint) TG_TABLE_SAYS_PIN;
  if (says & PLAIN_KINDS)
    says &= ~(guint) (TG_TABLE_SAYS_ROD | TG_TABLE_SAYS_PISTON);
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (says & words[kind])
      kinds |= 1u << kind;
  return kinds;
}

static TgColumn
end_column (guint says, TgColumn bare, TgColumn up, TgColumn down)
{
  return says & TG_TABLE_SAYS_UP ? up : says & TG_TABLE_SAYS_DOWN ? down : bare;
}

static TgColumn
column_of_title (const char *title)
{
  const guint ends = TG_TABLE_SAYS_SMALL | TG_TABLE_SAYS_BIG;
  const guint ways = TG_TABLE_SAYS_UP | TG_TABLE_SAYS_DOWN;
  guint says = tg_table_words (title, NULL);

  if (says == TG_TABLE_SAYS_STRUCK)
    return TG_COLUMN_STRUCK;
  if (says == TG_TABLE_SAYS_KEPT)
    return TG_COLUMN_KEPT;
  if (says == TG_TABLE_SAYS_SENT)
    return TG_COLUMN_SENT;
  if (says == TG_TABLE_SAYS_ID)
    return TG_COLUMN_ID;
  /* the weight of big-end bearings is no weight of a big end */
  if (says & ends && says & PLAIN_KINDS)
    return TG_COLUMN_IGNORE;
  if ((says & ends) == ends || (says & TG_TABLE_SAYS_FIGURE))
    return TG_COLUMN_FIGURE;
  if ((says & ways) == ways || (says & TG_TABLE_SAYS_WAY))
    return TG_COLUMN_WAY;
  if (says & TG_TABLE_SAYS_SMALL)
    return end_column (says, TG_COLUMN_SMALL, TG_COLUMN_SMALL_UP, TG_COLUMN_SMALL_DOWN);
  if (says & TG_TABLE_SAYS_BIG)
    return end_column (says, TG_COLUMN_BIG, TG_COLUMN_BIG_UP, TG_COLUMN_BIG_DOWN);
  if (says & TG_TABLE_SAYS_WHOLE)
    return TG_COLUMN_WHOLE;
  /* "Target weight" or "old weight" is no reading of this job */
  if (says & TG_TABLE_SAYS_READING)
    return says & TG_TABLE_SAYS_OTHER ? TG_COLUMN_IGNORE : TG_COLUMN_READING;
  if (says & TG_TABLE_SAYS_PART && !(says & TG_TABLE_SAYS_OTHER))
    return TG_COLUMN_PART;
  return g_ascii_strcasecmp (title, "end") == 0 ? TG_COLUMN_FIGURE : TG_COLUMN_IGNORE;
}

/* -- parts ------------------------------------------------------------------------------------- */

#define IGNORED " \t\r\n-_#."

/* Without case, blanks, hyphens and the like: "Rod-03" and "rod 03" are one name. */
static char *
fold (const char *text)
{
  g_autofree char *folded = g_utf8_casefold (text, -1);
  GString *out = g_string_new (NULL);

  for (const char *p = folded; *p; p++)
    if (!strchr (IGNORED, *p))
      g_string_append_c (out, *p);
  return g_string_free (out, FALSE);
}

/* The one number in @text, whole and not too great for a part, or 0. */
static guint
number_in (const char *text)
{
  const char *from = text + strcspn (text, "0123456789");
  gsize length = strspn (from, "0123456789");
  guint64 number;

  if (length == 0 || length > 4 || strpbrk (from + length, "0123456789"))
    return 0;
  number = g_ascii_strtoull (from, NULL, 10);
  return number <= TG_MAX_PARTS ? (guint) number : 0;
}

/* "3", "rod 3", "ring pack no. 3", "clips": TRUE if @text says nothing else. @kinds is narrowed to those
 * that it names. */
static gboolean
names_kind (const char *text, guint *kinds)
{
  static const guint words = TG_TABLE_SAYS_PART | TG_TABLE_SAYS_ROD | TG_TABLE_SAYS_PISTON |
                             PLAIN_KINDS;
  guint says = tg_table_words (text, NULL);
  guint named = tg_table_kinds (says);

  for (const char *p = text; *p; p++)
    if ((guchar) *p < 0x80 && !g_ascii_isalnum (*p) && !strchr (IGNORED, *p))
      return FALSE;
  *kinds &= named ? named : *kinds;
  return (says & ~words) == 0;
}

static gboolean
has_number (const TgPart *part, guint number)
{
  return part->bore > 0 ? part->bore == number : number_in (part->name) == number;
}

static gboolean
is_named (const TgPart *part, const char *wanted)
{
  g_autofree char *name = fold (part->name);
  g_autofree char *id = fold (part->id);

  return g_str_equal (name, wanted) || g_str_equal (id, wanted);
}

/* Our own export puts an apostrophe before what a spreadsheet would calculate. */
static const char *
without_apostrophe (const char *text)
{
  return text[0] == '\'' && text[1] && strchr ("=+-@", text[1]) ? text + 1 : text;
}

guint
tg_table_find_parts (const TgSetup *setup, const char *text, guint kinds, const TgPart **part)
{
  g_autofree char *wanted = NULL;
  guint number, found = 0;

  wanted = fold (without_apostrophe (text));
  if (wanted[0] == '\0')
    return 0;
  for (guint i = 0; i < setup->parts->len; i++)
    if (is_named (tg_setup_part (setup, i), wanted))
      {
        *part = tg_setup_part (setup, i);
        found++;
      }
  number = found == 0 && names_kind (text, &kinds) ? number_in (text) : 0;
  for (guint i = 0; number > 0 && i < setup->parts->len; i++)
    {
      const TgPart *candidate = tg_setup_part (setup, i);

      if (kinds & 1u << candidate->design->kind && has_number (candidate, number))
        {
          *part = candidate;
          found++;
        }
    }
  return found;
}

guint
tg_table_find_kind (const TgSetup *setup, const char *text, guint kinds, const TgPart **part)
{
  guint found = 0;

  if (!names_kind (text, &kinds) || tg_table_kinds (tg_table_words (text, NULL)) == 0 ||
      strpbrk (text, "0123456789"))
    return 0;
  for (guint i = 0; i < setup->parts->len; i++)
    if (kinds & 1u << tg_setup_part (setup, i)->design->kind)
      {
        *part = tg_setup_part (setup, i);
        found++;
      }
  return found;
}

/* -- separator --------------------------------------------------------------------------------- */

const char *
tg_table_cell (const TgCsvRow *row, guint column)
{
  return column < row->fields->len ? g_ptr_array_index (row->fields, column) : "";
}

/* How many rows have the number of fields that most rows have, if that is more than one. */
static guint
evenness (const GPtrArray *csv)
{
  guint counts[TG_CSV_MAX_FIELDS + 1] = { 0 }, best = 0;

  for (guint i = 0; i < csv->len; i++)
    counts[((const TgCsvRow *) g_ptr_array_index (csv, i))->fields->len]++;
  for (guint n = 2; n <= TG_CSV_MAX_FIELDS; n++)
    best = MAX (best, counts[n]);
  return best;
}

static gboolean
holds_nothing (const char *text, gsize length)
{
  for (gsize i = 0; i < length; i++)
    if (!memchr (" \t\r\n,;", text[i], 6))
      return FALSE;
  return TRUE;
}

GPtrArray *
tg_table_split (const char *text, gsize length, TgTableOptions *options, GError **error)
{
  /* a decimal comma makes a comma look like a separator, so it comes last */
  static const char separators[] = { '\t', ';', ',' };
  GPtrArray *best = NULL;
  guint most = 0;

  if (options->separator)
    return tg_csv_parse (text, length, options->separator, error);
  /* what separates here would stand for itself there */
  if (holds_nothing (text, length))
    return tg_csv_parse ("", 0, ',', error);
  for (guint i = 0; i < G_N_ELEMENTS (separators); i++)
    {
      g_autoptr (GPtrArray) csv = tg_csv_parse (text, length, separators[i], NULL);

      if (!csv || evenness (csv) <= most)
        continue;
      most = evenness (csv);
      options->separator = separators[i];
      g_clear_pointer (&best, g_ptr_array_unref);
      best = g_steal_pointer (&csv);
    }
  if (best)
    return best;
  options->separator = ',';
  return tg_csv_parse (text, length, ',', error);
}

/* -- heading and columns ----------------------------------------------------------------------- */

gboolean
tg_table_column_has_readings (TgColumn column)
{
  return column >= TG_COLUMN_READING && column <= TG_COLUMN_WHOLE;
}

static gboolean
looks_numeric (const char *text)
{
  text += strspn (text, " \t+-");
  return g_ascii_isdigit (*text);
}

/* Words for at least two columns, no number and no part of the job. */
static gboolean
is_heading (const TgSetup *setup, const TgCsvRow *row)
{
  const TgPart *part;
  guint words = 0;

  for (guint c = 0; c < row->fields->len; c++)
    {
      const char *cell = tg_table_cell (row, c);

      if (looks_numeric (cell) || tg_table_find_parts (setup, cell, TG_TABLE_ALL_KINDS, &part) > 0)
        return FALSE;
      words += column_of_title (cell) != TG_COLUMN_IGNORE;
    }
  return words >= 2;
}

static int
find_heading (const TgSetup *setup, const GPtrArray *csv, TgTableHeader header)
{
  if (header == TG_TABLE_HEADER_NO || csv->len == 0)
    return -1;
  if (header == TG_TABLE_HEADER_YES)
    return 0;
  for (guint i = 0; i < MIN (csv->len, 5); i++)
    if (is_heading (setup, g_ptr_array_index (csv, i)))
      return (int) i;
  return -1;
}

/* A table without heading: what usually stands where. */
static TgColumn
column_by_place (guint column, guint n_columns)
{
  static const TgColumn wide[] = { TG_COLUMN_PART,   TG_COLUMN_SMALL_UP, TG_COLUMN_SMALL_DOWN,
                                   TG_COLUMN_BIG_UP, TG_COLUMN_BIG_DOWN, TG_COLUMN_WHOLE };
  static const TgColumn four[] = { TG_COLUMN_PART, TG_COLUMN_FIGURE, TG_COLUMN_WAY,
                                   TG_COLUMN_READING };
  static const TgColumn three[] = { TG_COLUMN_PART, TG_COLUMN_FIGURE, TG_COLUMN_READING };
  static const TgColumn two[] = { TG_COLUMN_PART, TG_COLUMN_READING };

  switch (n_columns)
    {
    case 2:
      return two[column];
    case 3:
      return three[column];
    case 4:
      return four[column];
    case 5:
    case 6:
      return wide[column];
    default:
      return TG_COLUMN_IGNORE;
    }
}

static gboolean
is_single (TgColumn column)
{
  return column == TG_COLUMN_PART || column == TG_COLUMN_FIGURE || column == TG_COLUMN_WAY ||
         column == TG_COLUMN_ID || column >= TG_COLUMN_STRUCK;
}

static gboolean
has_column (const TgTableOptions *options, guint n_columns, TgColumn column)
{
  for (guint c = 0; c < n_columns; c++)
    if (options->columns[c] == column)
      return TRUE;
  return FALSE;
}

/* "Cylinder, piston, pin, rings": headings that name kinds stand over their weights if one column
 * names the part without its kind and nothing else could be a reading. */
static void
guess_weights_by_kind (const TgCsvRow *heading, guint n_columns, TgColumn *guess)
{
  int part = -1;

  for (guint c = 0; c < n_columns; c++)
    {
      if (tg_table_column_has_readings (guess[c]))
        return;
      if (part < 0 && guess[c] == TG_COLUMN_PART &&
          tg_table_kinds (tg_table_words (tg_table_cell (heading, c), NULL)) == 0)
        part = (int) c;
    }
  for (guint c = 0; part >= 0 && c < n_columns; c++)
    if (guess[c] == TG_COLUMN_PART && (int) c != part)
      guess[c] = tg_table_kinds (tg_table_words (tg_table_cell (heading, c), NULL)) != 0
                     ? TG_COLUMN_READING
                     : TG_COLUMN_IGNORE;
}

static void
guess_columns (const TgCsvRow *heading, guint n_columns, TgTableOptions *options)
{
  TgColumn guess[TG_CSV_MAX_FIELDS];

  for (guint c = 0; c < n_columns; c++)
    guess[c] = heading ? column_of_title (tg_table_cell (heading, c))
                       : column_by_place (c, n_columns);
  if (heading)
    guess_weights_by_kind (heading, n_columns, guess);
  for (guint c = 0; c < n_columns; c++)
    {
      if (options->columns[c] != TG_COLUMN_GUESS)
        continue;
      /* the first of its kind counts */
      if (is_single (guess[c]) && has_column (options, n_columns, guess[c]))
        guess[c] = TG_COLUMN_IGNORE;
      options->columns[c] = guess[c];
    }
}

/* -- decimal marks ----------------------------------------------------------------------------- */

static void
guess_mark (
    const GPtrArray *csv, guint first, guint column, TgTableOptions *options, GPtrArray *notes)
{
  guint points = 0, commas = 0, thirds = 0;

  for (guint i = first; i < csv->len; i++)
    {
      const char *cell = tg_table_cell (g_ptr_array_index (csv, i), column);
      const char *at = strpbrk (cell, ".,");

      if (!at || strpbrk (at + 1, ".,"))
        continue;
      points += *at == '.';
      commas += *at == ',';
      thirds += strspn (at + 1, "0123456789") == 3;
    }
  if (options->marks[column] == 0)
    options->marks[column] = commas > points ? ',' : '.';
  if (points > 0 && commas > 0)
    g_ptr_array_add (notes, g_strdup_printf ("Column %u has decimal points and decimal commas: "
                                             "cells with the rarer one are not read.",
                                             column + 1));
  else if (thirds > 0 && thirds == points + commas)
    g_ptr_array_add (notes, g_strdup_printf ("Every mark in column %u stands before three digits: "
                                             "make sure that it parts decimals and not thousands.",
                                             column + 1));
}

int
tg_table_guess (const TgSetup *setup,
                const GPtrArray *csv,
                guint n_columns,
                TgTableOptions *options,
                GPtrArray *notes)
{
  int heading = find_heading (setup, csv, options->header);

  options->header = heading >= 0 ? TG_TABLE_HEADER_YES : TG_TABLE_HEADER_NO;
  if (heading > 0)
    g_ptr_array_add (notes, g_strdup ("What stands above the headings is passed over."));
  guess_columns (heading >= 0 ? g_ptr_array_index (csv, (guint) heading) : NULL, n_columns,
                 options);
  for (guint c = 0; c < n_columns; c++)
    if (tg_table_column_has_readings (options->columns[c]))
      guess_mark (csv, (guint) (heading + 1), c, options, notes);
  return heading;
}
