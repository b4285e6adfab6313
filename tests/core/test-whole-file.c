/* test-whole-file.c: whole files from and to the disk
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Full disks, signals, links and modes are tried with job files in test-job-save.c.
 */
#include <glib/gstdio.h>
#include <string.h>

#include "error.h"
#include "whole-file.h"

/* Law: what was saved is what is loaded, bytes that are no text too. */
static void
test_round_trip (void)
{
  static const char data[] = "one\0two\xff\r\n";
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("tenthgram-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "bytes", NULL);

  for (gsize size = sizeof data; size-- > 0;)
    {
      g_autoptr (GString) loaded = NULL;

      g_assert_true (tg_whole_file_save (path, data, size, &error));
      g_assert_no_error (error);
      loaded = tg_whole_file_load (path, sizeof data, &error);
      g_assert_no_error (error);
      g_assert_cmpmem (loaded->str, loaded->len, data, size);
    }
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static void
test_refuse (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tenthgram-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "bytes", NULL);
  const struct
  {
    const char *path;
    gsize max;
    int code;
    const char *words;
  } cases[] = { { path, (2 << 20) - 1, TG_ERROR_SIZE, "bytes: the file has more than 1 MiB" },
                { folder, 99, TG_ERROR_IO, ": this is a folder" },
                { "/dev/zero", 99, TG_ERROR_IO, "zero: this is not a file with data" },
                { "/nowhere/table", 99, TG_ERROR_IO, "table: No such file or directory" } };
  g_autofree char *large = g_strnfill (2 << 20, 'x');

  g_assert_true (tg_whole_file_save (path, large, 2 << 20, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (tg_whole_file_load (cases[i].path, cases[i].max, &error));
      g_assert_error (error, TG_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].words));
    }
  {
    g_autoptr (GError) error = NULL;

    g_assert_false (tg_whole_file_save (folder, "x", 1, &error));
    g_assert_error (error, TG_ERROR, TG_ERROR_IO);
    g_assert_true (g_str_has_prefix (error->message, folder));
  }
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/whole-file/round-trip", test_round_trip);
  g_test_add_func ("/whole-file/refuse", test_refuse);
  return g_test_run ();
}
