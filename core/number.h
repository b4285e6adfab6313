/* number.h: numbers as a person reads them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A decimal point whatever the locale, and a true minus sign.  Files and tables have their own form
 * (storable.h, csv.h).
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* (transfer full): finite @value with @decimals (0 to 9) decimals: "-40" is "−40.0" with one. */
char *tg_number_format (double value, guint decimals);

/* (transfer full): the same with its sign also above zero: "+0.26", "−1.46"; what rounds to zero has
 * none: "0.00". */
char *tg_number_format_signed (double value, guint decimals);

/* (transfer full): at most six digits and no more decimals than are needed: "182", "0.35".  Written as
 * files write it, with the minus sign of the keyboard and "nan" where it is, since messages name with
 * it what stands in a file. */
char *tg_number_format_short (double value);

G_END_DECLS
