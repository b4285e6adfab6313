/* error.c: the error domain, see error.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "error.h"

G_DEFINE_QUARK (tg-error-quark, tg_error)
