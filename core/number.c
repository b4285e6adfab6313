/* number.c: numbers as a person reads them, see number.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "number.h"

#include <math.h>
#include <string.h>

static char *
with_true_minus (const char *text)
{
  if (text[0] != '-')
    return g_strdup (text);
  /* what rounds to nothing has no sign */
  return g_strconcat (g_ascii_strtod (text, NULL) == 0 ? "" : "−", text + 1, NULL);
}

char *
tg_number_format (double value, guint decimals)
{
  char format[8], buffer[G_ASCII_DTOSTR_BUF_SIZE + 320];

  g_return_val_if_fail (isfinite (value) && decimals <= 9, NULL);

  g_snprintf (format, sizeof format, "%%.%uf", decimals);
  return with_true_minus (g_ascii_formatd (buffer, sizeof buffer, format, value));
}

char *
tg_number_format_short (double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (buffer, sizeof buffer, "%.6g", value));
}

char *
tg_number_format_signed (double value, guint decimals)
{
  g_autofree char *plain = tg_number_format (value, decimals);

  if (g_str_has_prefix (plain, "−") || plain[strspn (plain, "0.")] == '\0')
    return g_steal_pointer (&plain);
  return g_strconcat ("+", plain, NULL);
}
