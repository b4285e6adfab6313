/* storable.c: numbers and texts as a file can hold them, see storable.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What enters a job is judged here at the door, so that a job in memory can always be written and
 * what was written can always be read again.  Nothing is repaired: a text that cannot be kept as it
 * is gets refused.
 */
#include "storable.h"

#include <math.h>
#include <string.h>

#include "error.h"

static gboolean
is_xml_char (gunichar c)
{
  return c == '\t' || c == '\n' || c == '\r' || (c >= 0x20 && c != 0xfffe && c != 0xffff);
}

gboolean
tg_storable_check (const char *text, gsize max, const char *what, GError **error)
{
  gsize length = strlen (text);

  if (!g_utf8_validate (text, (gssize) length, NULL))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "the %s is not UTF-8 text", what);
      return FALSE;
    }
  for (const char *p = text; *p; p = g_utf8_next_char (p))
    if (!is_xml_char (g_utf8_get_char (p)))
      {
        g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                     "the %s has a control character (U+%04X), which a file cannot hold", what,
                     g_utf8_get_char (p));
        return FALSE;
      }
  if (length > max)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                   "the %s has %" G_GSIZE_FORMAT " bytes, possible is up to %" G_GSIZE_FORMAT, what,
                   length, max);
      return FALSE;
    }
  return TRUE;
}

char *
tg_storable_shorten (const char *text)
{
  gsize length = strnlen (text, 200);
  g_autofree char *valid = g_utf8_make_valid (text, (gssize) length);
  GString *shown = g_string_new (NULL);
  guint n = 0;

  for (const char *p = valid; *p; p = g_utf8_next_char (p))
    {
      if (n++ == 40)
        {
          g_string_append (shown, "…");
          break;
        }
      g_string_append_unichar (shown,
                               g_unichar_iscntrl (g_utf8_get_char (p)) ? ' ' : g_utf8_get_char (p));
    }
  return g_string_free (shown, FALSE);
}

static char *
on_one_line (char *text)
{
  for (char *p = text; *p; p++)
    if (g_ascii_iscntrl (*p))
      *p = ' ';
  return text;
}

char *
tg_storable_path (const char *path)
{
  return on_one_line (g_filename_display_name (path));
}

char *
tg_storable_basename (const char *path)
{
  return on_one_line (g_filename_display_basename (path));
}

static const char *
skip_digits (const char *p, gboolean *ok)
{
  *ok = *ok && g_ascii_isdigit (*p);
  while (g_ascii_isdigit (*p))
    p++;
  return p;
}

gboolean
tg_storable_parse_number (const char *text, double *number)
{
  const char *p = text + (*text == '-');
  gboolean ok = TRUE;
  double value;

  p = skip_digits (p, &ok);
  if (*p == '.')
    p = skip_digits (p + 1, &ok);
  if (*p == 'e' || *p == 'E')
    p = skip_digits (p + (p[1] == '-' || p[1] == '+' ? 2 : 1), &ok);
  if (!ok || *p != '\0')
    return FALSE;
  value = g_ascii_strtod (text, NULL);
  if (!isfinite (value))
    return FALSE;
  *number = value;
  return TRUE;
}

const char *
tg_storable_format_number (double number, char out[TG_STORABLE_NUMBER_SIZE])
{
  g_ascii_formatd (out, TG_STORABLE_NUMBER_SIZE, "%.10g", number);
  if (g_ascii_strtod (out, NULL) < number || g_ascii_strtod (out, NULL) > number)
    g_ascii_formatd (out, TG_STORABLE_NUMBER_SIZE, "%.17g", number);
  return out;
}
