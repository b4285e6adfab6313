/* scale-pattern-private.h: what the files of scale-pattern share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "scale-pattern.h"

G_BEGIN_DECLS

typedef enum
{
  TG_SCALE_TOKEN_WORD,   /* ASCII letters */
  TG_SCALE_TOKEN_NUMBER, /* digits, maybe the decimal mark and digits */
  TG_SCALE_TOKEN_OTHER,  /* any other single byte that is no blank */
} TgScaleTokenKind;

typedef struct
{
  TgScaleTokenKind kind;
  guint start, length;
} TgScaleToken;

/* Splits a line of at most TG_SCALE_LINE_MAX bytes; -1 if it has more than TG_SCALE_MAX_ITEMS. */
int tg_scale_tokens (const char *line,
                     gsize length,
                     char mark,
                     TgScaleToken tokens[TG_SCALE_MAX_ITEMS]);

/* TRUE if the token is + or -; @negative (nullable) is set. */
gboolean tg_scale_token_sign (const char *line, const TgScaleToken *token, gboolean *negative);

/* Decimals of a number token. */
guint tg_scale_token_decimals (const char *line, const TgScaleToken *token, char mark);

G_END_DECLS
