/* demo.c: the demo job that comes with the program
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "demo.h"

#include <errno.h>

#include "error.h"

#define DEMO "/io/github/tenthgram/Tenthgram/demo.tenthgram"

gboolean
tg_demo_exists (void)
{
  return g_resources_get_info (DEMO, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL, NULL, NULL);
}

char *
tg_demo_place (GError **error)
{
  g_autofree char *folder = g_build_filename (g_get_user_data_dir (), "tenthgram", NULL);
  g_autofree char *path = g_build_filename (folder, "demo.tenthgram", NULL);
  g_autoptr (GBytes) demo = NULL;

  if (g_file_test (path, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&path);
  demo = g_resources_lookup_data (DEMO, G_RESOURCE_LOOKUP_FLAGS_NONE, error);
  if (!demo)
    return NULL;
  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_IO, "%s cannot be made: %s", folder,
                   g_strerror (errno));
      return NULL;
    }
  if (!g_file_set_contents (path, g_bytes_get_data (demo, NULL), (gssize) g_bytes_get_size (demo),
                            error))
    return NULL;
  return g_steal_pointer (&path);
}
