/* csv.c: fields of tables, see csv.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reader goes once over the text, byte by byte: every character that matters to the form is
 * ASCII, and bytes of longer UTF-8 characters are never ASCII.  What is no table is refused as a
 * whole, with its line; nothing is repaired.
 */
#include "csv.h"

#include <string.h>

#include "error.h"

/* -- writing ----------------------------------------------------------------------------------- */

static gboolean
looks_like_formula (const char *text)
{
  if (text[0] == '\0' || !strchr ("=+-@\t\r\n", text[0]))
    return FALSE;
  if (text[0] != '+' && text[0] != '-')
    return TRUE;
  return text[1] == '\0' || text[1 + strspn (text + 1, "0123456789.,")] != '\0';
}

void
tg_csv_add_field (GString *out, const char *text)
{
  gboolean first = out->len == 0 || out->str[out->len - 1] == '\n';
  gboolean formula = looks_like_formula (text);

  if (!first)
    g_string_append_c (out, ',');
  /* an empty field in front is quoted, so that the next one sees that it is not the first */
  if (!formula && !strpbrk (text, ",\"\r\n") && !(first && text[0] == '\0'))
    {
      g_string_append (out, text);
      return;
    }
  g_string_append (out, formula ? "\"'" : "\"");
  for (const char *p = text; *p; p++)
    {
      if (*p == '"')
        g_string_append_c (out, '"');
      g_string_append_c (out, *p);
    }
  g_string_append_c (out, '"');
}

void
tg_csv_add_number (GString *out, double value, int decimals)
{
  char format[8], buffer[G_ASCII_DTOSTR_BUF_SIZE];

  g_snprintf (format, sizeof format, "%%.%df", decimals);
  tg_csv_add_field (out, g_ascii_formatd (buffer, sizeof buffer, format, value));
}

void
tg_csv_add_count (GString *out, guint value)
{
  tg_csv_add_number (out, value, 0);
}

void
tg_csv_add_blank (GString *out, guint n)
{
  while (n-- > 0)
    tg_csv_add_field (out, "");
}

void
tg_csv_end_row (GString *out)
{
  g_string_append (out, "\r\n");
}

/* -- reading ----------------------------------------------------------------------------------- */

typedef struct
{
  const char *p, *end;
  char separator;
  guint line;
  GString *field;
  TgCsvRow *row;
  GPtrArray *rows;
} Reader;

static void
row_free (TgCsvRow *row)
{
  g_ptr_array_unref (row->fields);
  g_free (row);
}

static TgCsvRow *
row_new (guint line)
{
  TgCsvRow *row = g_new (TgCsvRow, 1);

  row->line = line;
  row->fields = g_ptr_array_new_with_free_func (g_free);
  return row;
}

static gboolean
fail (GError **error, int code, guint line, const char *what)
{
  g_set_error (error, TG_ERROR, code, "line %u: %s", line, what);
  return FALSE;
}

static gboolean
is_blank (const TgCsvRow *row)
{
  for (guint i = 0; i < row->fields->len; i++)
    {
      const char *text = g_ptr_array_index (row->fields, i);

      if (text[strspn (text, " \t\r\n")] != '\0')
        return FALSE;
    }
  return TRUE;
}

/* Steps over a line end at p, if there is one. */
static gboolean
skip_line_end (Reader *reader)
{
  if (reader->p == reader->end || (*reader->p != '\r' && *reader->p != '\n'))
    return FALSE;
  if (*reader->p == '\r' && reader->p + 1 < reader->end && reader->p[1] == '\n')
    reader->p++;
  reader->p++;
  reader->line++;
  return TRUE;
}

/* From behind the opening quotation mark to behind the closing one. */
static gboolean
read_quoted (Reader *reader, GError **error)
{
  guint begin = reader->line;

  for (; reader->p < reader->end; reader->p++)
    {
      if (*reader->p == '"')
        {
          reader->p++;
          if (reader->p == reader->end || *reader->p != '"')
            return TRUE;
        }
      else if (*reader->p == '\n' ||
               (*reader->p == '\r' && (reader->p + 1 == reader->end || reader->p[1] != '\n')))
        reader->line++;
      g_string_append_c (reader->field, *reader->p);
    }
  return fail (error, TG_ERROR_SYNTAX, begin,
               "a field begins with a quotation mark and does not end with one");
}

/* One field, up to the separator or line end behind it. */
static gboolean
read_field (Reader *reader, GError **error)
{
  g_string_truncate (reader->field, 0);
  if (reader->p < reader->end && *reader->p == '"')
    {
      reader->p++;
      if (!read_quoted (reader, error))
        return FALSE;
      if (reader->p < reader->end && *reader->p != reader->separator && *reader->p != '\r' &&
          *reader->p != '\n')
        return fail (error, TG_ERROR_SYNTAX, reader->line,
                     "a field goes on after its closing quotation mark");
    }
  for (; reader->p < reader->end && *reader->p != reader->separator && *reader->p != '\r' &&
         *reader->p != '\n';
       reader->p++)
    g_string_append_c (reader->field, *reader->p);
  if (reader->row->fields->len >= TG_CSV_MAX_FIELDS)
    return fail (error, TG_ERROR_SIZE, reader->line, "more columns than a table of readings has");
  g_ptr_array_add (reader->row->fields, g_strndup (reader->field->str, reader->field->len));
  return TRUE;
}

static gboolean
read_row (Reader *reader, GError **error)
{
  for (;;)
    {
      if (!read_field (reader, error))
        return FALSE;
      if (reader->p == reader->end || skip_line_end (reader))
        break;
      reader->p++; /* the separator */
    }
  if (is_blank (reader->row))
    row_free (reader->row);
  else
    g_ptr_array_add (reader->rows, reader->row);
  reader->row = NULL;
  if (reader->rows->len > TG_CSV_MAX_ROWS)
    return fail (error, TG_ERROR_SIZE, reader->line, "more rows than a table of readings has");
  return TRUE;
}

static gboolean
check_text (const char *text, gsize length, GError **error)
{
  const char *bad;
  guint line = 1;

  if (length > TG_CSV_MAX_SIZE)
    return fail (error, TG_ERROR_SIZE, line, "the table is larger than any table of readings");
  if (g_utf8_validate (text, (gssize) length, &bad))
    return TRUE;
  for (const char *p = text; p < bad; p++)
    line += *p == '\n';
  return fail (error, TG_ERROR_SYNTAX, line, "not a text in UTF-8: save the table as UTF-8");
}

GPtrArray *
tg_csv_parse (const char *text, gsize length, char separator, GError **error)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) row_free);
  g_autoptr (GString) field = g_string_new (NULL);
  Reader reader = { .separator = separator, .line = 1, .field = field, .rows = rows };

  g_return_val_if_fail (text != NULL || length == 0, NULL);
  g_return_val_if_fail (separator == ',' || separator == ';' || separator == '\t', NULL);

  if (length == 0)
    return g_steal_pointer (&rows);
  if (!check_text (text, length, error))
    return NULL;
  reader.p = text;
  reader.end = text + length;
  if (length >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0)
    reader.p += 3;
  while (reader.p < reader.end)
    {
      reader.row = row_new (reader.line);
      if (!read_row (&reader, error))
        {
          g_clear_pointer (&reader.row, row_free);
          return NULL;
        }
    }
  return g_steal_pointer (&rows);
}
