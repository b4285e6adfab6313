/* scale-pattern-learn.c: a pattern from sample lines; see scale-pattern.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which number of the line is the reading is what the person typed: every decimal mark and every
 * place is tried, and exactly one may fit all that was shown.  Then each sample becomes a shape, and
 * shapes of the same build are laid over each other: words that differ become a choice, numbers that
 * differ become any number.  Where standing and moving lines never share a word in one place, that
 * place says whether the load rests; so does a thing that only one of them has.
 *
 * What the samples leave open is learned the careful way, so that a line is rather refused than
 * misread, and is put into a question.  At the end every sample is read with the new pattern.
 */
#include "scale-pattern.h"

#include <string.h>

#include "error.h"
#include "scale-pattern-private.h"
#include "storable.h"

/* A sample as it is seen under one decimal mark. */
typedef struct
{
  const TgScaleSample *sample;
  guint number; /* from 1, for messages */
  TgScaleToken tokens[TG_SCALE_MAX_ITEMS];
  int n;
  int reading, sign, unit; /* tokens, or -1 */
} Line;

/* What the display showed. */
typedef struct
{
  gboolean given, negative, has_mark, has_unit;
  gint64 micro; /* millionths of the unit that was shown */
  TgMassUnit unit;
} Shown;

typedef struct
{
  guint n;
  Line lines[TG_SCALE_MAX_SAMPLES];
  Shown shown[TG_SCALE_MAX_SAMPLES];
  char mark;
  gboolean behind;
  GPtrArray *questions;
} Learner;

static void G_GNUC_PRINTF (2, 3) ask (Learner *learner, const char *format, ...)
{
  va_list args;

  if (!learner->questions)
    return;
  va_start (args, format);
  g_ptr_array_add (learner->questions, g_strdup_vprintf (format, args));
  va_end (args);
}

/* Millionths of a decimal number of up to 12 digits before the mark, or -1. */
static gint64
micro (const char *text, gsize length, char mark)
{
  gint64 value = 0;
  gsize i = 0, decimals = 0;

  for (; i < length && g_ascii_isdigit (text[i]) && i < 12; i++)
    value = value * 10 + (text[i] - '0');
  if (i == 0 || (i < length && (text[i] != mark || i + 1 == length)))
    return -1;
  for (i += i < length; i < length && g_ascii_isdigit (text[i]) && decimals < 6; i++, decimals++)
    value = value * 10 + (text[i] - '0');
  if (i < length)
    return -1;
  for (; decimals < 6; decimals++)
    value *= 10;
  return value;
}

static gboolean
parse_shown (const char *text, Shown *shown)
{
  g_autofree char *copy = g_strdup (text);
  const char *p = g_strstrip (copy);
  gsize digits;

  memset (shown, 0, sizeof *shown);
  if (*p == '\0')
    return TRUE;
  shown->given = TRUE;
  shown->negative = *p == '-';
  p += *p == '-' || *p == '+';
  p += strspn (p, " \t");
  digits = strspn (p, "0123456789.,");
  shown->has_mark = memchr (p, '.', digits) || memchr (p, ',', digits);
  shown->micro = micro (p, digits, memchr (p, ',', digits) ? ',' : '.');
  p += digits;
  p += strspn (p, " \t");
  shown->has_unit = *p != '\0';
  return shown->micro >= 0 && (!shown->has_unit || tg_mass_unit_find (p, strlen (p), &shown->unit));
}

static gboolean
take_samples (Learner *learner, const TgScaleSample *samples, guint n, GError **error)
{
  gboolean any = FALSE, unit_typed = FALSE;
  TgMassUnit unit = TG_MASS_UNIT_G;

  for (guint i = 0; i < n; i++)
    {
      Shown shown;

      if (samples[i].length > TG_SCALE_LINE_MAX)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                       "sample %u is longer than a line of a scale: check speed and framing",
                       i + 1);
          return FALSE;
        }
      if (memchr (samples[i].line, '\0', samples[i].length))
        {
          g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                       "sample %u is no text: check speed and framing", i + 1);
          return FALSE;
        }
      if (!parse_shown (samples[i].shown ? samples[i].shown : "", &shown))
        {
          g_autofree char *typed = tg_storable_shorten (samples[i].shown);

          g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” is not what a scale shows", typed);
          return FALSE;
        }
      if (shown.has_unit && unit_typed && shown.unit != unit)
        {
          g_set_error_literal (error, TG_ERROR, TG_ERROR_RANGE,
                               "two units were typed: take all samples in one");
          return FALSE;
        }
      unit = shown.has_unit ? shown.unit : unit;
      unit_typed = unit_typed || shown.has_unit;
      any = any || shown.given;
      learner->lines[learner->n] = (Line){ .sample = &samples[i], .number = i + 1 };
      learner->shown[learner->n++] = shown;
    }
  if (!any)
    g_set_error_literal (error, TG_ERROR, TG_ERROR_UNKNOWN,
                         "type what the display showed for at least one line");
  return any;
}

/* -- which number is the reading --------------------------------------------------------------- */

static int
nth_number (const Line *line, guint nth)
{
  for (int i = 0; i < line->n; i++)
    if (line->tokens[i].kind == TG_SCALE_TOKEN_NUMBER && nth-- == 0)
      return i;
  return -1;
}

static gboolean
find_unit_at (const Line *line, int at, TgMassUnit *unit)
{
  return at >= 0 && at < line->n && line->tokens[at].kind == TG_SCALE_TOKEN_WORD &&
         tg_mass_unit_find (line->sample->line + line->tokens[at].start, line->tokens[at].length,
                            unit);
}

static gboolean
is_divider (const Line *line, int at)
{
  return at < line->n && line->tokens[at].kind == TG_SCALE_TOKEN_OTHER &&
         strchr (",;:[(", line->sample->line[line->tokens[at].start]);
}

static gboolean
is_sign_behind (const Line *line, int number)
{
  return number + 1 < line->n &&
         line->tokens[number + 1].start ==
             line->tokens[number].start + line->tokens[number].length &&
         tg_scale_token_sign (line->sample->line, &line->tokens[number + 1], NULL);
}

static gboolean
is_sign_before (const Line *line, int number)
{
  return number > 0 && tg_scale_token_sign (line->sample->line, &line->tokens[number - 1], NULL);
}

/* Finds reading, sign and unit of every line; FALSE if a line has no number in that place. */
static gboolean
place (Learner *learner, guint nth)
{
  gboolean before = FALSE, behind = FALSE;
  TgMassUnit unit;

  for (guint i = 0; i < learner->n; i++)
    {
      Line *line = &learner->lines[i];

      line->reading = nth_number (line, nth);
      if (line->reading < 0)
        return FALSE;
      before = before || is_sign_before (line, line->reading);
      behind = behind || is_sign_behind (line, line->reading);
    }
  learner->behind = behind && !before;
  for (guint i = 0; i < learner->n; i++)
    {
      Line *line = &learner->lines[i];
      int after = line->reading + 1;

      line->sign = -1;
      if (learner->behind && is_sign_behind (line, line->reading))
        line->sign = after++;
      else if (!learner->behind && is_sign_before (line, line->reading))
        line->sign = line->reading - 1;
      after += is_divider (line, after) && find_unit_at (line, after + 1, &unit);
      line->unit = find_unit_at (line, after, &unit) ? after : -1;
    }
  return TRUE;
}

static gboolean
fits_shown (const Learner *learner, guint i)
{
  const Line *line = &learner->lines[i];
  const Shown *shown = &learner->shown[i];
  const TgScaleToken *number = &line->tokens[line->reading];
  gboolean negative = FALSE;
  TgMassUnit unit;

  if (!shown->given)
    return TRUE;
  if (line->sign >= 0)
    tg_scale_token_sign (line->sample->line, &line->tokens[line->sign], &negative);
  if (shown->has_unit && find_unit_at (line, line->unit, &unit) && unit != shown->unit)
    return FALSE;
  if (shown->has_mark && tg_scale_token_decimals (line->sample->line, number, learner->mark) == 0)
    return FALSE;
  return micro (line->sample->line + number->start, number->length, learner->mark) ==
             shown->micro &&
         (negative == shown->negative || shown->micro == 0);
}

/* Pounds before ounces are one weight in two units. */
static gboolean
is_second_half (const Line *line)
{
  TgMassUnit unit;

  return line->reading > 1 && find_unit_at (line, line->reading - 1, &unit) &&
         line->tokens[line->reading - 2].kind == TG_SCALE_TOKEN_NUMBER && unit == TG_MASS_UNIT_LB &&
         find_unit_at (line, line->unit, &unit) && unit == TG_MASS_UNIT_OZ;
}

static gboolean
fits_all (Learner *learner, guint nth)
{
  if (!place (learner, nth))
    return FALSE;
  for (guint i = 0; i < learner->n; i++)
    if (!fits_shown (learner, i) || is_second_half (&learner->lines[i]))
      return FALSE;
  return TRUE;
}

/* Splits all lines with @mark. Lines without a number are dropped; FALSE if one is too rich. */
static gboolean
split (Learner *learner, char mark, GError **error)
{
  guint kept = 0;

  learner->mark = mark;
  for (guint i = 0; i < learner->n; i++)
    {
      Line *line = &learner->lines[i];

      line->n = tg_scale_tokens (line->sample->line, line->sample->length, mark, line->tokens);
      if (line->n < 0)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                       "sample %u has more in it than a line of a scale: check speed and framing",
                       line->number);
          return FALSE;
        }
      if (nth_number (line, 0) < 0 && !learner->shown[i].given)
        continue;
      learner->lines[kept] = *line;
      learner->shown[kept++] = learner->shown[i];
    }
  learner->n = kept;
  return TRUE;
}

/* TRUE if the reading looks the same under both marks: no mark in it, none beside it. */
static gboolean
same_under_both (const Learner *learner)
{
  for (guint i = 0; i < learner->n; i++)
    {
      const Line *line = &learner->lines[i];
      TgScaleToken other[TG_SCALE_MAX_ITEMS];
      int n = tg_scale_tokens (line->sample->line, line->sample->length,
                               learner->mark == '.' ? ',' : '.', other);

      if (n != line->n || memcmp (other, line->tokens, (gsize) n * sizeof *other) != 0)
        return FALSE;
    }
  return TRUE;
}

static gboolean
find_reading (Learner *learner, GError **error)
{
  static const char marks[] = { '.', ',' };
  char mark = 0;
  guint fits = 0, found = 0;

  for (guint m = 0; m < G_N_ELEMENTS (marks); m++)
    {
      if (!split (learner, marks[m], error))
        return FALSE;
      for (guint nth = 0; nth < TG_SCALE_MAX_ITEMS; nth++)
        {
          if (!fits_all (learner, nth) || (m > 0 && same_under_both (learner)))
            continue;
          fits++;
          mark = marks[m];
          found = nth;
        }
    }
  if (fits == 0)
    g_set_error_literal (error, TG_ERROR, TG_ERROR_UNKNOWN,
                         "no number stands in every line that is what was typed: check the typed "
                         "figures, and leave out lines of another kind");
  else if (fits > 1)
    g_set_error_literal (error, TG_ERROR, TG_ERROR_DUPLICATE,
                         "several numbers in the lines could be the reading: let the scale send "
                         "one more with another load and with decimals other than 0, and type it");
  if (fits != 1)
    return FALSE;
  return split (learner, mark, error) && fits_all (learner, found);
}

/* -- shapes ------------------------------------------------------------------------------------ */

static gboolean
add_text (TgScaleItem *item, const char *text, gsize length)
{
  for (guint w = 0; w < item->n_words; w++)
    if (strlen (item->words[w]) == length && memcmp (item->words[w], text, length) == 0)
      return TRUE;
  if (item->n_words == TG_SCALE_MAX_WORDS || length >= TG_SCALE_WORD_SIZE)
    return FALSE;
  memcpy (item->words[item->n_words], text, length);
  item->words[item->n_words++][length] = '\0';
  return TRUE;
}

static gboolean
make_shape (const Line *line, TgScaleShape *shape)
{
  TgMassUnit unit;

  memset (shape, 0, sizeof *shape);
  shape->rest = line->sample->rest;
  for (int t = 0; t < line->n; t++)
    {
      const TgScaleToken *token = &line->tokens[t];
      TgScaleItem *item = &shape->items[shape->n_items];

      if (t == line->sign)
        continue;
      shape->n_items++;
      item->kind = TG_SCALE_ITEM_TEXT;
      if (t == line->reading)
        item->kind = TG_SCALE_ITEM_READING;
      else if (t == line->unit && find_unit_at (line, t, &unit))
        {
          item->kind = TG_SCALE_ITEM_UNIT;
          item->units = 1u << unit;
        }
      else if (token->kind == TG_SCALE_TOKEN_NUMBER && token->length >= TG_SCALE_WORD_SIZE)
        item->kind = TG_SCALE_ITEM_NUMBER;
      else if (!add_text (item, line->sample->line + token->start, token->length))
        return FALSE;
    }
  return TRUE;
}

/* What may be laid over each other: readings, units, numbers, words, signs. */
static int
class_of (const TgScaleItem *item)
{
  switch (item->kind)
    {
    case TG_SCALE_ITEM_READING:
      return 0;
    case TG_SCALE_ITEM_UNIT:
      return 1;
    case TG_SCALE_ITEM_NUMBER:
      return 2;
    case TG_SCALE_ITEM_TEXT:
    default:
      return g_ascii_isdigit (item->words[0][0]) ? 2 : g_ascii_isalpha (item->words[0][0]) ? 3 : 4;
    }
}

static gboolean
same_build (const TgScaleShape *a, const TgScaleShape *b)
{
  if (a->n_items != b->n_items)
    return FALSE;
  for (guint i = 0; i < a->n_items; i++)
    if (class_of (&a->items[i]) != class_of (&b->items[i]))
      return FALSE;
  return TRUE;
}

/* FALSE if more words were seen in this place than a scale has for it. */
static gboolean
merge_item (TgScaleItem *into, const TgScaleItem *from)
{
  if (into->kind == TG_SCALE_ITEM_UNIT)
    into->units |= from->units;
  if (class_of (into) == 2 &&
      (into->kind == TG_SCALE_ITEM_NUMBER || from->kind == TG_SCALE_ITEM_NUMBER ||
       strcmp (into->words[0], from->words[0]) != 0))
    {
      memset (into, 0, sizeof *into);
      into->kind = TG_SCALE_ITEM_NUMBER;
    }
  if (into->kind == TG_SCALE_ITEM_TEXT)
    for (guint w = 0; w < from->n_words; w++)
      if (!add_text (into, from->words[w], strlen (from->words[w])))
        return FALSE;
  return TRUE;
}

/* Lays @shape over the shape of the same build and rest, or adds it. */
static gboolean
add_shape (TgScalePattern *pattern, const TgScaleShape *shape)
{
  for (guint s = 0; s < pattern->n_shapes; s++)
    {
      TgScaleShape *into = &pattern->shapes[s];

      if (into->rest != shape->rest || !same_build (into, shape))
        continue;
      for (guint i = 0; i < shape->n_items; i++)
        if (!merge_item (&into->items[i], &shape->items[i]))
          return FALSE;
      return TRUE;
    }
  if (pattern->n_shapes == TG_SCALE_MAX_SHAPES)
    return FALSE;
  pattern->shapes[pattern->n_shapes++] = *shape;
  return TRUE;
}

/* -- what says that the load rests ------------------------------------------------------------- */

/* TRUE if no line can have both in this place, and that is no chance of two counters. */
static gboolean
tells_apart (const TgScaleItem *a, const TgScaleItem *b)
{
  if (a->kind != TG_SCALE_ITEM_TEXT || b->kind != TG_SCALE_ITEM_TEXT)
    return FALSE;
  if (class_of (a) == 2 && (strlen (a->words[0]) > 1 || strlen (b->words[0]) > 1))
    return FALSE;
  for (guint i = 0; i < a->n_words; i++)
    for (guint j = 0; j < b->n_words; j++)
      if (strcmp (a->words[i], b->words[j]) == 0)
        return FALSE;
  return TRUE;
}

/* Gives both shapes what the other has, but for the places that tell them apart. */
static guint
level (TgScaleShape *a, TgScaleShape *b, gboolean *room)
{
  guint marks = 0;

  for (guint i = 0; i < a->n_items; i++)
    if (tells_apart (&a->items[i], &b->items[i]))
      marks++;
    else
      *room = *room && merge_item (&a->items[i], &b->items[i]) &&
              merge_item (&b->items[i], &a->items[i]);
  return marks;
}

static gboolean
has_rest (const TgScalePattern *pattern, TgScaleRest rest)
{
  for (guint s = 0; s < pattern->n_shapes; s++)
    if (pattern->shapes[s].rest == rest)
      return TRUE;
  return FALSE;
}

/* Compares each standing with each moving shape; FALSE if a pair cannot be told apart. */
static gboolean
find_marks (Learner *learner, TgScalePattern *pattern, gboolean *room)
{
  guint most = 0;

  for (guint s = 0; s < pattern->n_shapes; s++)
    for (guint m = 0; m < pattern->n_shapes; m++)
      {
        TgScaleShape *standing = &pattern->shapes[s], *moving = &pattern->shapes[m];
        guint marks;

        if (standing->rest != TG_SCALE_REST_STANDING || moving->rest != TG_SCALE_REST_MOVING ||
            !same_build (standing, moving))
          continue;
        marks = level (standing, moving, room);
        if (marks == 0)
          return FALSE;
        most = MAX (most, marks);
      }
  if (most > 1)
    ask (learner,
         "The standing and the moving lines differ in %u places. All of them have to agree "
         "until more lines of both kinds, sent with the same load and tare, show which one "
         "it is.",
         most);
  return TRUE;
}

/* Builds the shapes, with or without regard to what the person said of the load. */
static gboolean
build (Learner *learner, TgScalePattern *pattern, gboolean by_rest, GError **error)
{
  TgScaleShape shape;

  pattern->n_shapes = 0;
  memset (pattern->shapes, 0, sizeof pattern->shapes);
  for (guint i = 0; i < learner->n; i++)
    {
      gboolean made;

      if (by_rest && learner->lines[i].sample->rest == TG_SCALE_REST_UNKNOWN)
        continue;
      made = make_shape (&learner->lines[i], &shape);
      if (!by_rest)
        shape.rest = TG_SCALE_REST_UNKNOWN;
      if (made && add_shape (pattern, &shape))
        continue;
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                   "sample %u differs too much from the lines before it: take samples in one mode "
                   "of the scale only",
                   learner->lines[i].number);
      return FALSE;
    }
  return TRUE;
}

static gboolean
find_shapes (Learner *learner, TgScalePattern *pattern, GError **error)
{
  gboolean room = TRUE;

  if (!build (learner, pattern, TRUE, error))
    return FALSE;
  if (has_rest (pattern, TG_SCALE_REST_STANDING) && has_rest (pattern, TG_SCALE_REST_MOVING))
    {
      pattern->marked = find_marks (learner, pattern, &room);
      if (pattern->marked && room)
        return TRUE;
      pattern->marked = FALSE;
      ask (learner,
           "Nothing in the lines tells a moving load from a standing one: equal readings in "
           "a row will have to.");
    }
  else
    ask (learner, "Lines sent while the load moves and while it stands, said to be so, would show "
                  "whether the scale tells when it has settled; until then equal readings in a row "
                  "have to.");
  return build (learner, pattern, FALSE, error);
}

/* -- number, unit, width ----------------------------------------------------------------------- */

static void
find_number (Learner *learner, TgScalePattern *pattern)
{
  gboolean always = TRUE;

  pattern->mark = learner->mark;
  pattern->min_decimals = G_MAXUINT;
  for (guint i = 0; i < learner->n; i++)
    {
      const Line *line = &learner->lines[i];
      guint decimals = tg_scale_token_decimals (line->sample->line, &line->tokens[line->reading],
                                                learner->mark);

      pattern->min_decimals = MIN (pattern->min_decimals, decimals);
      pattern->max_decimals = MAX (pattern->max_decimals, decimals);
      always = always && line->sign >= 0;
    }
  pattern->sign = learner->behind ? TG_SCALE_SIGN_BEHIND
                  : always        ? TG_SCALE_SIGN_ALWAYS
                                  : TG_SCALE_SIGN_FREE;
}

static void
find_unit (Learner *learner, TgScalePattern *pattern)
{
  gboolean in_line = FALSE, typed = FALSE;

  pattern->unit = TG_MASS_UNIT_G;
  for (guint i = 0; i < learner->n; i++)
    if (find_unit_at (&learner->lines[i], learner->lines[i].unit, &pattern->unit))
      {
        in_line = TRUE;
        break;
      }
  for (guint i = 0; i < learner->n; i++)
    if (learner->shown[i].has_unit)
      {
        typed = TRUE;
        if (!in_line)
          pattern->unit = learner->shown[i].unit;
      }
  if (!in_line && !typed)
    ask (learner, "The lines name no unit, so they are taken for grams: type the unit behind the "
                  "figure if it is another.");
  else if (in_line && !typed && pattern->unit != TG_MASS_UNIT_G && pattern->unit != TG_MASS_UNIT_KG)
    ask (learner,
         "The lines are taken to be in “%s”: type the unit behind the figure to make sure.",
         tg_mass_unit_to_word (pattern->unit));
}

static gboolean
is_padded (const Line *line)
{
  const TgScaleToken *number = &line->tokens[line->reading];
  const char *text = line->sample->line;
  guint blanks = 0;

  for (guint i = number->start; i > 0 && text[i - 1] == ' '; i--)
    blanks++;
  return blanks > 1 || (number->length > 1 && text[number->start] == '0' &&
                        g_ascii_isdigit (text[number->start + 1]));
}

static void
find_width (Learner *learner, TgScalePattern *pattern)
{
  gsize length = learner->lines[0].sample->length;
  guint digits = learner->lines[0].tokens[learner->lines[0].reading].length;
  gboolean padded = FALSE, varied = FALSE;

  for (guint i = 0; i < learner->n; i++)
    {
      const Line *line = &learner->lines[i];

      if (line->sample->length != length)
        return;
      varied = varied || line->tokens[line->reading].length != digits;
      padded = padded || is_padded (line);
    }
  if (padded || varied)
    pattern->width = (guint) length;
  if (!varied && padded)
    ask (learner,
         "The lines seem to have a fixed length of %u: a line with a load of fewer or more "
         "digits would show it.",
         pattern->width);
  else if (!varied)
    ask (learner,
         "A line with a load of fewer or more digits would show whether lines have a fixed "
         "length; if so, cut lines are told more surely.");
}

static void
ask_for_numbers (Learner *learner, const TgScalePattern *pattern)
{
  for (guint s = 0; s < pattern->n_shapes; s++)
    for (guint i = 0; i < pattern->shapes[s].n_items; i++)
      {
        const TgScaleItem *item = &pattern->shapes[s].items[i];

        if (item->kind != TG_SCALE_ITEM_TEXT || class_of (item) != 2 ||
            (pattern->marked && item->words[0][1] == '\0'))
          continue;
        ask (learner,
             "Beside the reading the number “%s” was the same in the samples: lines with "
             "another one are refused. If it is a time or a count, add a later line.",
             item->words[0]);
      }
}

/* Every sample must be read as it was shown; one that the person said nothing of may be open. */
static gboolean
verify (Learner *learner, const TgScalePattern *pattern, GError **error)
{
  for (guint i = 0; i < learner->n; i++)
    {
      const Line *line = &learner->lines[i];
      TgScaleReading reading = tg_scale_pattern_read (pattern, line->sample->line,
                                                      line->sample->length);
      gboolean open = pattern->marked && line->sample->rest == TG_SCALE_REST_UNKNOWN;

      if (reading.kind == TG_SCALE_LINE_READING &&
          (!pattern->marked || open || reading.rest == line->sample->rest))
        continue;
      if (open && !learner->shown[i].given)
        {
          ask (learner,
               "Line %u is like neither the standing nor the moving lines: say which it is.",
               line->number);
          continue;
        }
      if (open)
        {
          g_set_error (
              error, TG_ERROR, TG_ERROR_RANGE,
              "sample %u is like neither the standing nor the moving lines: say which it is",
              line->number);
          return FALSE;
        }
      g_set_error (
          error, TG_ERROR, TG_ERROR_RANGE,
          "sample %u cannot be read like the others (%s): leave it out, or take new samples",
          line->number, tg_scale_line_label (reading.kind));
      return FALSE;
    }
  return TRUE;
}

gboolean
tg_scale_pattern_learn (const TgScaleSample *samples,
                        guint n,
                        TgScalePattern *pattern,
                        GPtrArray *questions,
                        GError **error)
{
  g_autofree Learner *learner = g_new0 (Learner, 1);
  g_autofree TgScalePattern *found = g_new0 (TgScalePattern, 1);
  g_autoptr (GPtrArray) asked = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (samples != NULL && pattern != NULL, FALSE);
  g_return_val_if_fail (n >= 1 && n <= TG_SCALE_MAX_SAMPLES, FALSE);

  learner->questions = asked;
  if (!take_samples (learner, samples, n, error) || !find_reading (learner, error))
    return FALSE;
  find_number (learner, found);
  find_unit (learner, found);
  find_width (learner, found);
  if (found->max_decimals > 6 || !find_shapes (learner, found, error))
    {
      if (found->max_decimals > 6)
        g_set_error_literal (error, TG_ERROR, TG_ERROR_RANGE,
                             "the reading has more decimals than a scale shows");
      return FALSE;
    }
  ask_for_numbers (learner, found);
  if (!verify (learner, found, error))
    return FALSE;
  *pattern = *found;
  while (questions && asked->len > 0)
    g_ptr_array_add (questions, g_ptr_array_steal_index (asked, 0));
  return TRUE;
}
