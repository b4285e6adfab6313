/* part-drawing.c
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "part-drawing.h"
