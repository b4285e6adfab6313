/* table-preview.c: the preview of a table in words, see table-preview.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "table-preview.h"

#include <string.h>

#include "report.h"
#include "storable.h"

static void
add_count (GString *out, guint n, const char *one, const char *many)
{
  if (n > 0)
    g_string_append_printf (out, "%s%u %s", out->len ? ", " : "", n, n == 1 ? one : many);
}

char *
tg_table_preview_readings (guint n)
{
  return g_strdup_printf ("%u %s", n, n == 1 ? "reading" : "readings");
}

char *
tg_table_preview_counts (const TgTableImport *import)
{
  GString *out = g_string_new (import->n_new == 0 ? "nothing new" : NULL);

  add_count (out, import->n_new, "new reading", "new readings");
  add_count (out, import->n_known, "known already", "known already");
  add_count (out, import->n_problems, "row cannot be read", "rows cannot be read");
  return g_string_free (out, FALSE);
}

const char *
tg_table_preview_separator (char separator)
{
  return separator == ';' ? "semicolons" : separator == '\t' ? "tabs" : "commas";
}

char *
tg_table_preview_form (const TgTableImport *import)
{
  char mark = tg_table_import_mark (import);

  return g_strdup_printf ("%s%s%s, %s headings",
                          tg_table_preview_separator (import->options.separator),
                          mark ? ", decimal " : "",
                          mark == 0     ? ""
                          : mark == ',' ? "comma"
                                        : "point",
                          import->options.header == TG_TABLE_HEADER_YES ? "with" : "without");
}

char *
tg_table_preview_status (const TgTableRow *row)
{
  GString *out = g_string_new (NULL);
  guint n = 0, struck = 0;

  for (guint e = 0; e < row->events->len; e++)
    {
      n += !g_array_index (row->events, TgTableEvent, e).known;
      struck += g_array_index (row->events, TgTableEvent, e).struck;
    }
  if (row->problem)
    g_string_append (out, "cannot be read");
  else if (row->events->len == 1)
    g_string_append (out, n ? "new" : "known already");
  else
    {
      add_count (out, n, "new", "new");
      add_count (out, row->events->len - n, "known already", "known already");
    }
  if (struck == 1 && row->events->len == 1)
    g_string_append (out, ", struck out");
  else
    add_count (out, struck, "of them struck out", "of them struck out");
  return g_string_free (out, FALSE);
}

char *
tg_table_preview_row (const TgTableRow *row, const TgReview *review)
{
  GString *out = g_string_new (row->problem);

  for (guint e = 0; e < row->events->len; e++)
    {
      const TgEvent *event = &g_array_index (row->events, TgTableEvent, e).event;
      const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);
      g_autofree char *prefix = g_strconcat (part->name, ", ", NULL);
      g_autofree char *words = tg_report_event (review, event);
      gboolean cut = e > 0 && g_str_has_prefix (words, prefix);

      g_string_append_printf (out, "%s%s", e > 0 ? "; " : "", words + (cut ? strlen (prefix) : 0));
    }
  return g_string_free (out, FALSE);
}

char *
tg_table_preview_row_short (const TgTableRow *row, const TgReview *review)
{
  GString *out;

  if (row->events->len < 2)
    return tg_table_preview_row (row, review);
  out = g_string_new (NULL);
  for (guint e = 0; e < row->events->len; e++)
    {
      const TgEvent *event = &g_array_index (row->events, TgTableEvent, e).event;
      const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);
      g_autofree char *mass = tg_mass_format (
          event->mass,
          MAX (tg_mass_decimals (event->mass), tg_mass_decimals (review->setup->resolution)));

      g_string_append_printf (out, "%s%s%s g", e == 0 ? part->name : "", e == 0 ? ": " : "; ",
                              mass);
    }
  return g_string_free (out, FALSE);
}

static void
add_columns (GString *out, const TgTableImport *import)
{
  for (guint c = 0; c < import->n_columns; c++)
    {
      g_autofree char *title = tg_storable_shorten (g_ptr_array_index (import->titles, c));

      g_string_append_printf (out, "  column %u%s%s%s: %s\n", c + 1, title[0] ? " (" : "", title,
                              title[0] ? ")" : "", tg_column_label (import->options.columns[c]));
    }
}

char *
tg_table_preview_text (const TgTableImport *import, const TgReview *review, gboolean all)
{
  GString *out = g_string_new (NULL);
  g_autofree char *form = tg_table_preview_form (import);

  g_string_append_printf (out, "table: %s\n", form);
  add_columns (out, import);
  for (guint r = 0; r < import->rows->len; r++)
    {
      const TgTableRow *row = g_ptr_array_index (import->rows, r);
      g_autofree char *status = tg_table_preview_status (row);
      g_autofree char *words = tg_table_preview_row (row, review);

      if (row->problem)
        g_string_append_printf (out, "  cannot be read: %s\n", words);
      else if (all)
        g_string_append_printf (out, "  line %u, %s: %s\n", row->line, status, words);
    }
  for (guint i = 0; i < import->notes->len; i++)
    g_string_append_printf (out, "  note: %s\n", (char *) g_ptr_array_index (import->notes, i));
  return g_string_free (out, FALSE);
}
