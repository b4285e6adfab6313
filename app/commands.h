/* commands.h: the command line that needs no display
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* TRUE if the arguments ask for something that opens no window: a command, --help, --version or
 * wrong usage. */
gboolean tg_commands_wanted (int argc, char **argv);

/**
 * tg_commands_run:
 *
 * check JOB, plan JOB [--csv], sheet JOB --output FILE [--paper a4|letter],
 * export JOB readings|plan|journal [--output FILE], import JOB TABLE [--dry-run], --help, --version.
 * Returns: 0 done; 1 the input was refused, with one line on stderr; 2 wrong usage.
 */
int tg_commands_run (int argc, char **argv);

G_END_DECLS
