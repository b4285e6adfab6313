/* scale-pattern.c: reading lines by a pattern, and the pattern as text; see scale-pattern.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A line is split into words, numbers and single other bytes; blanks only part them.  A shape is the
 * sequence of these things from the first to the last.  So the place of the sign, blanks between
 * sign and digits, leading zeros and padding need no rule of their own, and a line that was cut or
 * disturbed has a thing too few, too many or of the wrong kind.
 *
 * Limits: a digit that was changed on the way into another digit cannot be told from a true one, nor
 * can a front digit that was lost where lines have no fixed width and nothing before the number;
 * parity, and asking for equal readings in a row, are what helps there.  A number must have a digit
 * before its decimal mark.  Weights in two units at once (pounds and ounces) are not read.
 * Learning is in scale-pattern-learn.c.
 */
#include "scale-pattern.h"

#include <string.h>

#include "scale-pattern-private.h"
#include "word.h"

/* -- tokens ------------------------------------------------------------------------------------ */

static gsize
number_length (const char *text, gsize length, char mark)
{
  gsize n = 0;

  while (n < length && g_ascii_isdigit (text[n]))
    n++;
  if (n + 1 < length && text[n] == mark && g_ascii_isdigit (text[n + 1]))
    for (n++; n < length && g_ascii_isdigit (text[n]);)
      n++;
  return n;
}

static gsize
word_length (const char *text, gsize length)
{
  gsize n = 0;

  while (n < length && g_ascii_isalpha (text[n]))
    n++;
  return n;
}

int
tg_scale_tokens (const char *line, gsize length, char mark, TgScaleToken tokens[TG_SCALE_MAX_ITEMS])
{
  int n = 0;

  for (gsize i = 0; i < length;)
    {
      TgScaleToken token = { TG_SCALE_TOKEN_OTHER, (guint) i, 1 };

      if (line[i] == ' ' || line[i] == '\t')
        {
          i++;
          continue;
        }
      if (n == TG_SCALE_MAX_ITEMS)
        return -1;
      if (g_ascii_isdigit (line[i]))
        {
          token.kind = TG_SCALE_TOKEN_NUMBER;
          token.length = (guint) number_length (line + i, length - i, mark);
        }
      else if (g_ascii_isalpha (line[i]))
        {
          token.kind = TG_SCALE_TOKEN_WORD;
          token.length = (guint) word_length (line + i, length - i);
        }
      i += token.length;
      tokens[n++] = token;
    }
  return n;
}

gboolean
tg_scale_token_sign (const char *line, const TgScaleToken *token, gboolean *negative)
{
  char c = line[token->start];

  if (token->kind != TG_SCALE_TOKEN_OTHER || (c != '+' && c != '-'))
    return FALSE;
  if (negative)
    *negative = c == '-';
  return TRUE;
}

guint
tg_scale_token_decimals (const char *line, const TgScaleToken *token, char mark)
{
  const char *at = memchr (line + token->start, mark, token->length);

  return at ? (guint) (line + token->start + token->length - at - 1) : 0;
}

/* -- reading ----------------------------------------------------------------------------------- */

typedef struct
{
  const TgScalePattern *pattern;
  const char *line;
  TgScaleToken tokens[TG_SCALE_MAX_ITEMS];
  int n, at;
  gboolean any_unit;
  /* what was found */
  const TgScaleToken *number;
  gboolean negative;
  TgMassUnit unit;
} Match;

static const TgScaleToken *
next (Match *match)
{
  return match->at < match->n ? &match->tokens[match->at] : NULL;
}

static gboolean
match_reading (Match *match)
{
  const TgScalePattern *pattern = match->pattern;
  const TgScaleToken *token = next (match);
  gboolean sign = FALSE;
  guint decimals;

  if (token && pattern->sign != TG_SCALE_SIGN_BEHIND &&
      tg_scale_token_sign (match->line, token, &match->negative))
    {
      sign = TRUE;
      match->at++;
      token = next (match);
    }
  if (!token || token->kind != TG_SCALE_TOKEN_NUMBER ||
      (pattern->sign == TG_SCALE_SIGN_ALWAYS && !sign))
    return FALSE;
  decimals = tg_scale_token_decimals (match->line, token, pattern->mark);
  if (decimals < pattern->min_decimals || decimals > pattern->max_decimals)
    return FALSE;
  match->number = token;
  match->at++;
  token = next (match);
  if (token && pattern->sign == TG_SCALE_SIGN_BEHIND &&
      token->start == match->number->start + match->number->length &&
      tg_scale_token_sign (match->line, token, &match->negative))
    match->at++;
  return TRUE;
}

static gboolean
match_text (const Match *match, const TgScaleItem *item, const TgScaleToken *token)
{
  for (guint w = 0; w < item->n_words; w++)
    if (strlen (item->words[w]) == token->length &&
        memcmp (item->words[w], match->line + token->start, token->length) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
match_item (Match *match, const TgScaleItem *item)
{
  const TgScaleToken *token = next (match);

  if (item->kind == TG_SCALE_ITEM_READING)
    return match_reading (match);
  if (!token)
    return FALSE;
  match->at++;
  switch (item->kind)
    {
    case TG_SCALE_ITEM_NUMBER:
      return token->kind == TG_SCALE_TOKEN_NUMBER;
    case TG_SCALE_ITEM_UNIT:
      return token->kind == TG_SCALE_TOKEN_WORD &&
             tg_mass_unit_find (match->line + token->start, token->length, &match->unit) &&
             (match->any_unit || item->units & (1u << match->unit));
    case TG_SCALE_ITEM_TEXT:
    default:
      return match_text (match, item, token);
    }
}

static gboolean
match_shape (Match *match, const TgScaleShape *shape)
{
  match->at = 0;
  match->number = NULL;
  match->negative = FALSE;
  match->unit = match->pattern->unit;
  for (guint i = 0; i < shape->n_items; i++)
    if (!match_item (match, &shape->items[i]))
      return FALSE;
  return match->at == match->n && match->number;
}

static TgScaleReading
no_reading (TgScaleLineKind kind)
{
  TgScaleReading reading = { kind, 0, TG_SCALE_REST_UNKNOWN };

  return reading;
}

static TgScaleReading
weigh (const Match *match, TgScaleRest rest)
{
  TgScaleReading reading = { TG_SCALE_LINE_READING, 0, rest };
  TgMass mass = 0;

  switch (tg_mass_unit_read (match->line + match->number->start, match->number->length,
                             match->pattern->mark, match->unit, &mass))
    {
    case TG_MASS_UNIT_FINE:
      reading.mass = match->negative ? -mass : mass;
      return reading;
    case TG_MASS_UNIT_TOO_HEAVY:
      return no_reading (TG_SCALE_LINE_HEAVY);
    case TG_MASS_UNIT_NO_NUMBER:
    default:
      return no_reading (TG_SCALE_LINE_UNLIKE);
    }
}

/* The one reading of all shapes that fit; shapes that contradict each other give none. */
static TgScaleReading
read_shapes (Match *match)
{
  TgScaleReading found = no_reading (TG_SCALE_LINE_UNLIKE), reading;
  gboolean any = FALSE;

  for (guint s = 0; s < match->pattern->n_shapes; s++)
    {
      if (!match_shape (match, &match->pattern->shapes[s]))
        continue;
      reading = weigh (match, match->pattern->shapes[s].rest);
      if (any &&
          (reading.kind != found.kind || reading.mass != found.mass || reading.rest != found.rest))
        return no_reading (TG_SCALE_LINE_UNLIKE);
      found = reading;
      any = TRUE;
    }
  return found;
}

static gboolean
has_number (const Match *match)
{
  for (int i = 0; i < match->n; i++)
    if (match->tokens[i].kind == TG_SCALE_TOKEN_NUMBER)
      return TRUE;
  return FALSE;
}

TgScaleReading
tg_scale_pattern_read (const TgScalePattern *pattern, const char *line, gsize length)
{
  Match match = { .pattern = pattern, .line = line };
  TgScaleReading reading;

  g_return_val_if_fail (pattern != NULL, no_reading (TG_SCALE_LINE_UNLIKE));
  g_return_val_if_fail (line != NULL || length == 0, no_reading (TG_SCALE_LINE_UNLIKE));

  if (length > TG_SCALE_LINE_MAX)
    return no_reading (TG_SCALE_LINE_UNLIKE);
  match.n = tg_scale_tokens (line, length, pattern->mark, match.tokens);
  if (match.n == 0)
    return no_reading (TG_SCALE_LINE_EMPTY);
  if (match.n > 0 && !has_number (&match))
    return no_reading (TG_SCALE_LINE_NO_NUMBER);
  reading = read_shapes (&match);
  if (reading.kind == TG_SCALE_LINE_READING && pattern->width > 0 && length != pattern->width)
    return no_reading (TG_SCALE_LINE_WIDTH);
  if (reading.kind == TG_SCALE_LINE_UNLIKE)
    {
      match.any_unit = TRUE;
      if (read_shapes (&match).kind != TG_SCALE_LINE_UNLIKE)
        return no_reading (TG_SCALE_LINE_UNIT);
    }
  return reading;
}

const char *
tg_scale_line_label (TgScaleLineKind kind)
{
  static const char *const labels[TG_N_SCALE_LINE_KINDS] = {
    "a reading",
    "an empty line",
    "no number in it: the scale says something else",
    "not like the sample lines",
    "shorter or longer than the sample lines",
    "in a unit that was not in the sample lines",
    "heavier than any part of an engine",
  };

  g_return_val_if_fail ((guint) kind < TG_N_SCALE_LINE_KINDS, NULL);

  return labels[kind];
}

/* -- as text ----------------------------------------------------------------------------------- */

static const char *const rest_words[TG_N_SCALE_RESTS] = { "any", "moving", "standing" };
static const char *const sign_words[TG_N_SCALE_SIGNS] = { "free", "always", "behind" };

static void
write_word (GString *out, const char *word)
{
  for (const char *p = word; *p; p++)
    if (g_ascii_isalnum (*p))
      g_string_append_c (out, *p);
    else
      g_string_append_printf (out, "%%%02X", (guint) (guchar) *p);
}

static void
write_item (GString *out, const TgScaleItem *item)
{
  g_string_append (out, item->kind == TG_SCALE_ITEM_READING  ? "reading"
                        : item->kind == TG_SCALE_ITEM_NUMBER ? "number"
                        : item->kind == TG_SCALE_ITEM_UNIT   ? "unit"
                                                             : "text");
  if (item->kind == TG_SCALE_ITEM_UNIT)
    {
      for (guint u = 0; u < TG_N_MASS_UNITS; u++)
        if (item->units & (1u << u))
          g_string_append_printf (out, "=%s", tg_mass_unit_to_word ((TgMassUnit) u));
    }
  else if (item->kind == TG_SCALE_ITEM_TEXT)
    for (guint w = 0; w < item->n_words; w++)
      {
        g_string_append_c (out, '=');
        write_word (out, item->words[w]);
      }
}

char *
tg_scale_pattern_to_text (const TgScalePattern *pattern)
{
  GString *out = g_string_new (NULL);

  g_return_val_if_fail (pattern != NULL, NULL);

  g_string_append_printf (out, "line-1 %s %u %u %s %s %u %s",
                          pattern->mark == '.' ? "point" : "comma", pattern->min_decimals,
                          pattern->max_decimals, sign_words[pattern->sign],
                          tg_mass_unit_to_word (pattern->unit), pattern->width,
                          pattern->marked ? "marked" : "unmarked");
  for (guint s = 0; s < pattern->n_shapes; s++)
    {
      g_string_append_printf (out, " %s", rest_words[pattern->shapes[s].rest]);
      for (guint i = 0; i < pattern->shapes[s].n_items; i++)
        {
          g_string_append_c (out, ':');
          write_item (out, &pattern->shapes[s].items[i]);
        }
    }
  return g_string_free (out, FALSE);
}

static gboolean
read_word (const char *text, char word[TG_SCALE_WORD_SIZE])
{
  guint n = 0;

  memset (word, 0, TG_SCALE_WORD_SIZE);
  for (; *text; n++)
    {
      int byte = *text;

      if (n + 1 >= TG_SCALE_WORD_SIZE)
        return FALSE;
      if (*text == '%')
        {
          if (!g_ascii_isxdigit (text[1]) || !g_ascii_isxdigit (text[2]))
            return FALSE;
          byte = g_ascii_xdigit_value (text[1]) * 16 + g_ascii_xdigit_value (text[2]);
          text += 2;
        }
      if (byte == 0)
        return FALSE;
      word[n] = (char) byte;
      text++;
    }
  return n > 0;
}

static gboolean
read_item (const char *text, TgScaleItem *item)
{
  g_auto (GStrv) parts = g_strsplit (text, "=", TG_N_MASS_UNITS + 2);
  guint n = g_strv_length (parts);
  TgMassUnit unit;

  if (n == 1)
    {
      item->kind = g_str_equal (text, "reading") ? TG_SCALE_ITEM_READING : TG_SCALE_ITEM_NUMBER;
      return item->kind == TG_SCALE_ITEM_READING || g_str_equal (text, "number");
    }
  if (n > 1 && g_str_equal (parts[0], "unit"))
    {
      item->kind = TG_SCALE_ITEM_UNIT;
      for (guint i = 1; i < n; i++)
        {
          if (!tg_mass_unit_from_word (parts[i], &unit))
            return FALSE;
          item->units |= 1u << unit;
        }
      return TRUE;
    }
  if (n < 2 || n > TG_SCALE_MAX_WORDS + 1 || !g_str_equal (parts[0], "text"))
    return FALSE;
  item->kind = TG_SCALE_ITEM_TEXT;
  for (guint i = 1; i < n; i++)
    if (!read_word (parts[i], item->words[item->n_words++]))
      return FALSE;
  return TRUE;
}

static gboolean
read_shape (const char *text, TgScaleShape *shape)
{
  g_auto (GStrv) parts = g_strsplit (text, ":", TG_SCALE_MAX_ITEMS + 2);
  guint n = g_strv_length (parts), readings = 0;
  int rest = n > 0 ? tg_word_find (rest_words, TG_N_SCALE_RESTS, parts[0]) : -1;

  if (rest < 0 || n < 2 || n > TG_SCALE_MAX_ITEMS + 1)
    return FALSE;
  shape->rest = (TgScaleRest) rest;
  shape->n_items = n - 1;
  for (guint i = 0; i < shape->n_items; i++)
    {
      if (!read_item (parts[i + 1], &shape->items[i]))
        return FALSE;
      readings += shape->items[i].kind == TG_SCALE_ITEM_READING;
    }
  return readings == 1;
}

static gboolean
read_count (const char *text, guint most, guint *value)
{
  guint64 number;

  if (!g_ascii_string_to_unsigned (text, 10, 0, most, &number, NULL))
    return FALSE;
  *value = (guint) number;
  return TRUE;
}

static gboolean
read_head (char **parts, TgScalePattern *pattern)
{
  int sign = tg_word_find (sign_words, TG_N_SCALE_SIGNS, parts[4]);

  if (sign < 0)
    return FALSE;
  pattern->sign = (TgScaleSign) sign;
  pattern->mark = g_str_equal (parts[1], "comma") ? ',' : '.';
  pattern->marked = g_str_equal (parts[7], "marked");
  return g_str_equal (parts[0], "line-1") && read_count (parts[2], 6, &pattern->min_decimals) &&
         read_count (parts[3], 6, &pattern->max_decimals) &&
         tg_mass_unit_from_word (parts[5], &pattern->unit) &&
         read_count (parts[6], TG_SCALE_LINE_MAX, &pattern->width);
}

gboolean
tg_scale_pattern_from_text (const char *text, TgScalePattern *pattern)
{
  g_auto (GStrv) parts = NULL;
  g_autofree TgScalePattern *found = g_new0 (TgScalePattern, 1);
  g_autofree char *again = NULL;
  guint n;

  g_return_val_if_fail (text != NULL && pattern != NULL, FALSE);

  parts = g_strsplit (text, " ", 8 + TG_SCALE_MAX_SHAPES + 1);
  n = g_strv_length (parts);
  if (n < 9 || n > 8 + TG_SCALE_MAX_SHAPES || !read_head (parts, found))
    return FALSE;
  found->n_shapes = n - 8;
  for (guint s = 0; s < found->n_shapes; s++)
    if (!read_shape (parts[8 + s], &found->shapes[s]))
      return FALSE;
  /* one pattern, one text: what is spelt otherwise was not written here */
  again = tg_scale_pattern_to_text (found);
  if (!g_str_equal (again, text))
    return FALSE;
  *pattern = *found;
  return TRUE;
}
