/* word.h: enum members by the words that stand for them in files
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Index of @word among @n words, or -1. */
int tg_word_find (const char *const *words, guint n, const char *word);

/* Defines tg_PREFIX_to_word() and tg_PREFIX_from_word() over a table indexed by the enum. */
#define TG_DEFINE_WORDS(Type, prefix, ...)                                                         \
  static const char *const prefix##_words[] = { __VA_ARGS__ };                                     \
  const char *tg_##prefix##_to_word (Type value)                                                   \
  {                                                                                                \
    g_return_val_if_fail ((guint) value < G_N_ELEMENTS (prefix##_words), NULL);                    \
    return prefix##_words[value];                                                                  \
  }                                                                                                \
  gboolean tg_##prefix##_from_word (const char *word, Type *value)                                 \
  {                                                                                                \
    int i = tg_word_find (prefix##_words, G_N_ELEMENTS (prefix##_words), word);                    \
    if (i < 0)                                                                                     \
      return FALSE;                                                                                \
    *value = (Type) i;                                                                             \
    return TRUE;                                                                                   \
  }

G_END_DECLS
