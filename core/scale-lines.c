/* scale-lines.c: lines from bytes, see scale-lines.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scale-lines.h"

void
tg_scale_lines_begin (TgScaleLines *lines, gboolean missing)
{
  lines->length = 0;
  lines->skip = missing;
}

/* At the end of a line: TRUE if there is one to hand out. */
static gboolean
end_line (TgScaleLines *lines, const char **line, gsize *line_length)
{
  gboolean whole = !lines->skip && lines->length > 0;

  *line = lines->text;
  *line_length = lines->length;
  lines->length = 0;
  lines->skip = FALSE;
  lines->lines += whole;
  return whole;
}

gboolean
tg_scale_lines_next (
    TgScaleLines *lines, const char **data, gsize *length, const char **line, gsize *line_length)
{
  while (*length > 0)
    {
      char c = *(*data)++;

      (*length)--;
      lines->bytes++;
      if (c == '\r' || c == '\n')
        {
          if (end_line (lines, line, line_length))
            return TRUE;
        }
      else if (lines->skip)
        continue;
      else if (lines->length < sizeof lines->text)
        lines->text[lines->length++] = c;
      else
        {
          lines->skip = TRUE;
          lines->dropped++;
        }
    }
  return FALSE;
}
