/* main.c: the command line without a display, or else the windows
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "application.h"
#include "commands.h"

int
main (int argc, char **argv)
{
  g_autoptr (TgApplication) application = NULL;

  /* Before GTK is asked for a display. */
  if (tg_commands_wanted (argc, argv))
    return tg_commands_run (argc, argv);
  application = tg_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
