/* practice-random.h: chance that follows from words, the same on every machine
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A number is the beginning of SHA-256 over the words (FIPS 180-4), so that a whole class gets the same
 * bench and each number is there without those before it.  Only additions, multiplications by powers of
 * two and comparisons are made, which IEEE 754 gives alike everywhere.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* 0 to below 1, in steps of 2⁻⁵³. @what says what for, @n which of those. */
double tg_practice_uniform (const char *seed, const char *what, guint64 n);

/* Mean 0, standard deviation 1, never beyond ±6: the sum of twelve uniform numbers less 6. */
double tg_practice_normal (const char *seed, const char *what, guint64 n);

G_END_DECLS
