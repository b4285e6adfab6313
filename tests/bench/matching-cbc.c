/* matching-cbc.c: CBC as a process, see matching-cbc.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Gets the same programme as GLPK, weights counted from the lightest of their family, as a file in
 * the LP format, and writes its answer into another, whose first line holds the verdict and the
 * objective.  Writing the file is not timed; starting the program and reading it are.
 */
#include "matching-cbc.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

gboolean
cbc_is_there (void)
{
  g_autofree char *path = g_find_program_in_path ("cbc");

  return path != NULL;
}

static OracleVerdict
read_answer (const char *path, gint64 *total)
{
  g_autofree char *text = NULL;
  const char *value;

  if (!g_file_get_contents (path, &text, NULL, NULL))
    return ORACLE_TIME_OUT;
  if (g_str_has_prefix (text, "Infeasible") || g_str_has_prefix (text, "Integer infeasible"))
    return ORACLE_NONE;
  value = strstr (text, "objective value ");
  if (!g_str_has_prefix (text, "Optimal") || value == NULL)
    return ORACLE_TIME_OUT;
  *total = llround (g_ascii_strtod (value + strlen ("objective value "), NULL));
  return ORACLE_OPTIMUM;
}

OracleVerdict
cbc_solve_matching (const TgMatchingProblem *problem, int limit_ms, gint64 *total, double *ms)
{
  g_autofree char *folder = g_dir_make_tmp ("matching-XXXXXX", NULL);
  g_autofree char *programme = g_build_filename (folder, "matching.lp", NULL);
  g_autofree char *answer = g_build_filename (folder, "answer", NULL);
  g_autofree char *seconds = g_strdup_printf ("%d", MAX (1, limit_ms / 1000));
  const char *argv[] = { "cbc",   programme, "timeMode", "elapsed", "sec",
                         seconds, "solve",   "solu",     answer,    NULL };
  OracleVerdict verdict = ORACLE_TIME_OUT;
  gint64 start;

  *ms = limit_ms;
  if (!oracle_write_matching (problem, programme))
    return verdict;
  start = g_get_monotonic_time ();
  if (g_spawn_sync (NULL, (char **) argv, NULL,
                    G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                    NULL, NULL, NULL, NULL, NULL, NULL))
    verdict = read_answer (answer, total);
  *ms = (double) (g_get_monotonic_time () - start) / 1000;
  g_unlink (programme);
  g_unlink (answer);
  g_rmdir (folder);
  return verdict;
}
