/* matching-plot.h: the picture of the pairing's benchmark
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

#define PLOT_SOLVERS 3
#define PLOT_MAX_SIZES 16

/* For one kind of problem, by solver and size; a share < 0: was not run. */
typedef struct
{
  const char *title;
  double ms[PLOT_SOLVERS][PLOT_MAX_SIZES];
  double share[PLOT_SOLVERS][PLOT_MAX_SIZES];
} PlotColumn;

/* Time (logarithmic, up to @limit_ms) above, share proved below, side by side for each column.
 * FALSE: the file could not be written. */
gboolean plot_save (const char *path,
                    const char *const *solvers,
                    const guint *sizes,
                    guint n_sizes,
                    double limit_ms,
                    const PlotColumn *columns,
                    guint n_columns);
