/* word.c: see word.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "word.h"

#include <string.h>

int
tg_word_find (const char *const *words, guint n, const char *word)
{
  g_return_val_if_fail (word != NULL, -1);

  for (guint i = 0; i < n; i++)
    if (strcmp (words[i], word) == 0)
      return (int) i;
  return -1;
}
