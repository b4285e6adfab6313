/* test-job-save.c: what is on the disk after a save, a fault or a sudden end
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Faults are made in child processes, so that limits, user and mounts of the test itself stay.
 */
#define _GNU_SOURCE
#include <errno.h>
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <sched.h>
#include <signal.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "error.h"
#include "job-xml.h"

#define NOBODY 65534
#define KILLS 220
#define EXIT_CANNOT 77

typedef struct
{
  char *folder;
  char *path;
  TgJob *job;
} Bench;

static void
add_note (TgJob *job, const char *id, const char *text)
{
  TgEvent event = tg_event_blank (TG_EVENT_NOTE);
  g_autoptr (GError) error = NULL;

  event.id = id;
  event.text = text;
  event.stamp.seconds = 1780000000;
  g_assert_true (tg_job_append (job, &event, &error));
  g_assert_no_error (error);
}

static void
set_up (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *valid = g_test_build_filename (G_TEST_DIST, "data", "valid",
                                                  "every-kind.tenthgram", NULL);

  bench->folder = g_dir_make_tmp ("tenthgram-XXXXXX", NULL);
  bench->path = g_build_filename (bench->folder, "engine.tenthgram", NULL);
  bench->job = tg_job_xml_load (valid, NULL);
  g_assert_nonnull (bench->job);
}

/* Removes every file and returns how many there were beside @but. */
static guint
clear (const char *folder, const char *but)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint others = 0;

  while ((name = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (but && strcmp (name, but) == 0)
        continue;
      others++;
      if (g_unlink (path) != 0)
        g_rmdir (path);
    }
  g_dir_close (dir);
  return others;
}

static void
tear_down (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  g_chmod (bench->folder, 0755);
  clear (bench->folder, NULL);
  g_assert_cmpint (g_rmdir (bench->folder), ==, 0);
  g_free (bench->folder);
  g_free (bench->path);
  tg_job_free (bench->job);
}

static void
assert_holds (const char *path, const TgJob *job)
{
  g_autofree char *bytes = NULL;
  gsize size;
  GString *text = tg_job_xml_format (job);

  g_assert_true (g_file_get_contents (path, &bytes, &size, NULL));
  g_assert_cmpmem (bytes, size, text->str, text->len);
  g_string_free (text, TRUE);
}

static guint
mode_of (const char *path)
{
  GStatBuf status;

  g_assert_cmpint (g_lstat (path, &status), ==, 0);
  return status.st_mode & 07777;
}

static void
save_fine (const TgJob *job, const char *path)
{
  g_autoptr (GError) error = NULL;
  gboolean saved = tg_job_xml_save (job, path, &error);

  g_assert_no_error (error);
  g_assert_true (saved);
}

/* The message is about the file that the person knows and no other. */
static void
assert_save_fails (const TgJob *job, const char *path, int cause)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *temporary = g_strconcat (path, ".", NULL);
  g_autofree char *prefix = g_strconcat (path, ": could not be saved: ", NULL);

  g_assert_false (tg_job_xml_save (job, path, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_IO);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, prefix));
  g_assert_null (strstr (error->message, temporary));
  if (cause)
    g_assert_true (g_str_has_suffix (error->message, g_strerror (cause)));
}

static void
test_new_and_old (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  mode_t before = umask (027);

  save_fine (bench->job, bench->path);
  assert_holds (bench->path, bench->job);
  g_assert_cmpuint (mode_of (bench->path), ==, 0640);
  g_assert_cmpint (g_chmod (bench->path, 0666), ==, 0);
  add_note (bench->job, "n1", "more");
  save_fine (bench->job, bench->path);
  assert_holds (bench->path, bench->job);
  g_assert_cmpuint (mode_of (bench->path), ==, 0666);
  g_assert_cmpuint (clear (bench->folder, "engine.tenthgram"), ==, 0);
  umask (before);
}

static void
test_symlink (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *link = g_build_filename (bench->folder, "link", NULL);
  g_autofree char *again = g_build_filename (bench->folder, "again", NULL);
  g_autofree char *loop = g_build_filename (bench->folder, "loop", NULL);

  /* it leads to nothing yet; then through a second link to the file */
  g_assert_cmpint (symlink ("engine.tenthgram", link), ==, 0);
  g_assert_cmpint (symlink (link, again), ==, 0);
  save_fine (bench->job, link);
  assert_holds (bench->path, bench->job);
  add_note (bench->job, "n1", "more");
  save_fine (bench->job, again);
  assert_holds (bench->path, bench->job);
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_test (again, G_FILE_TEST_IS_SYMLINK));
  g_assert_false (g_file_test (bench->path, G_FILE_TEST_IS_SYMLINK));
  g_assert_cmpint (symlink ("loop", loop), ==, 0);
  assert_save_fails (bench->job, loop, ELOOP);
}

static void
test_wrong_place (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *missing = g_build_filename (bench->folder, "nowhere", "a.tenthgram", NULL);
  g_autofree char *under_file = g_build_filename (bench->path, "a.tenthgram", NULL);
  g_autofree char *fifo = g_build_filename (bench->folder, "fifo", NULL);
  g_autofree char *long_name = g_strnfill (300, 'n');
  g_autofree char *long_path = g_build_filename (bench->folder, long_name, NULL);

  assert_save_fails (bench->job, bench->folder, 0);
  assert_save_fails (bench->job, missing, ENOENT);
  assert_save_fails (bench->job, long_path, ENAMETOOLONG);
  g_assert_cmpint (mkfifo (fifo, 0600), ==, 0);
  assert_save_fails (bench->job, fifo, 0);
  save_fine (bench->job, bench->path);
  assert_save_fails (bench->job, under_file, ENOTDIR);
  assert_holds (bench->path, bench->job);
  g_assert_cmpint (g_unlink (fifo), ==, 0);
  g_assert_cmpuint (clear (bench->folder, "engine.tenthgram"), ==, 0);
}

/* Runs @body in a child and gives its exit code; a failed assertion there is a crash here. */
static int
in_child (int (*body) (Bench *bench), Bench *bench)
{
  pid_t child = fork ();
  int status;

  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    _exit (body (bench));
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  return WEXITSTATUS (status);
}

static int
save_as_nobody (Bench *bench)
{
  if (geteuid () == 0 && (setgid (NOBODY) != 0 || setuid (NOBODY) != 0))
    return EXIT_CANNOT;
  add_note (bench->job, "n1", "never on the disk");
  assert_save_fails (bench->job, bench->path, EACCES);
  return 0;
}

/* First a folder where nothing may be made, then a file that is write-protected. */
static void
test_no_permission (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  int code;

  save_fine (bench->job, bench->path);
  g_chmod (bench->path, 0666);
  g_chmod (bench->folder, 0555);
  code = in_child (save_as_nobody, bench);
  if (code == EXIT_CANNOT)
    {
      g_test_skip ("cannot become another user here");
      return;
    }
  g_assert_cmpint (code, ==, 0);
  g_chmod (bench->folder, 0777);
  g_chmod (bench->path, 0444);
  g_assert_cmpint (in_child (save_as_nobody, bench), ==, 0);
  assert_holds (bench->path, bench->job);
  g_assert_cmpuint (clear (bench->folder, "engine.tenthgram"), ==, 0);
}

static int
save_with_limit (Bench *bench)
{
  struct rlimit limit = { 2048, 2048 };

  signal (SIGXFSZ, SIG_IGN);
  if (setrlimit (RLIMIT_FSIZE, &limit) != 0)
    return EXIT_CANNOT;
  add_note (bench->job, "n1", "never on the disk");
  assert_save_fails (bench->job, bench->path, EFBIG);
  return 0;
}

static void
test_file_limit (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  save_fine (bench->job, bench->path);
  g_assert_cmpint (in_child (save_with_limit, bench), ==, 0);
  assert_holds (bench->path, bench->job);
  g_assert_cmpuint (clear (bench->folder, "engine.tenthgram"), ==, 0);
}

static int
save_on_full_disk (Bench *bench)
{
  g_autofree char *filler = g_build_filename (bench->folder, "filler", NULL);
  g_autofree char *text = g_strnfill (3000, 'n');

  if (unshare (CLONE_NEWNS) != 0 || mount (NULL, "/", NULL, MS_REC | MS_PRIVATE, NULL) != 0 ||
      mount ("tmpfs", bench->folder, "tmpfs", 0, "size=64k") != 0)
    return EXIT_CANNOT;
  save_fine (bench->job, bench->path);
  /* fill what is left, page by page */
  for (gsize size = 4096;; size += 4096)
    {
      g_autofree char *fill = g_strnfill (size, 'f');

      if (!g_file_set_contents_full (filler, fill, (gssize) size, G_FILE_SET_CONTENTS_NONE, 0600,
                                     NULL))
        break;
    }
  for (guint i = 0; i < 10; i++)
    {
      g_autofree char *id = g_strdup_printf ("n%u", i);

      add_note (bench->job, id, text);
    }
  assert_save_fails (bench->job, bench->path, ENOSPC);
  for (guint i = 0; i < 10; i++)
    tg_job_drop_last (bench->job);
  assert_holds (bench->path, bench->job);
  g_assert_cmpuint (clear (bench->folder, "engine.tenthgram"), ==, 1);
  return 0;
}

static void
test_full_disk (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  int code = in_child (save_on_full_disk, bench);

  if (code == EXIT_CANNOT)
    g_test_skip ("no small disk can be mounted here");
  else
    g_assert_cmpint (code, ==, 0);
}

/* Appends and saves until it is killed; what is on the disk is told through @pipe_end. */
static void
record_for_ever (Bench *bench, int pipe_end, guint round)
{
  for (guint n = 0;; n++)
    {
      char id[32];

      g_snprintf (id, sizeof id, "k-%u-%u", round, n);
      add_note (bench->job, id, "recorded");
      if (!tg_job_xml_save (bench->job, bench->path, NULL) ||
          write (pipe_end, &n, sizeof n) != sizeof n)
        _exit (1);
    }
}

/* Kills the child @after_us behind its report number @reports, in whatever it does just then.
 * Returns how many events it reported as recorded. */
static guint
run_and_kill (Bench *bench, guint round, guint reports, gulong after_us)
{
  int ends[2], status;
  guint reported = 0, n;
  pid_t child;

  g_assert_cmpint (pipe (ends), ==, 0);
  child = fork ();
  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    {
      close (ends[0]);
      record_for_ever (bench, ends[1], round);
    }
  close (ends[1]);
  while (reported < reports)
    {
      g_assert_cmpint (read (ends[0], &n, sizeof n), ==, sizeof n);
      reported = n + 1;
    }
  g_usleep (after_us);
  kill (child, SIGKILL);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFSIGNALED (status));
  while (read (ends[0], &n, sizeof n) == sizeof n)
    reported = n + 1;
  close (ends[0]);
  return reported;
}

static void
test_killed (Bench *bench, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  guint recorded = 0, left = 0;

  save_fine (bench->job, bench->path);
  for (guint round = 0; round < KILLS; round++)
    {
      guint wait_for = (guint) g_rand_int_range (rand, 0, 4);
      gulong after = (gulong) g_rand_int_range (rand, 0, 4000);
      guint reported = run_and_kill (bench, round, wait_for, after);
      g_autoptr (GError) error = NULL;
      TgJob *found = tg_job_xml_load (bench->path, &error);

      g_assert_no_error (error);
      for (guint n = 0; n < reported; n++)
        {
          char id[32];

          g_snprintf (id, sizeof id, "k-%u-%u", round, n);
          g_assert_cmpint (tg_job_find_event (found, id), >=, 0);
        }
      /* nothing of earlier rounds was lost, and at most the one in flight is more */
      g_assert_cmpuint (tg_job_n_events (found), >=, tg_job_n_events (bench->job) + reported);
      g_assert_cmpuint (tg_job_n_events (found), <=, tg_job_n_events (bench->job) + reported + 1);
      recorded += reported;
      left += clear (bench->folder, "engine.tenthgram");
      tg_job_free (bench->job);
      bench->job = found;
    }
  g_test_message ("%u kills, %u events recorded, %u kills in the middle of a save", KILLS, recorded,
                  left);
  g_assert_cmpuint (recorded, >=, KILLS);
  g_assert_cmpuint (left, >, 0);
}

#define ADD(path, function) g_test_add (path, Bench, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/job-save/new-and-old", test_new_and_old);
  ADD ("/job-save/symlink", test_symlink);
  ADD ("/job-save/wrong-place", test_wrong_place);
  ADD ("/job-save/no-permission", test_no_permission);
  ADD ("/job-save/file-limit", test_file_limit);
  ADD ("/job-save/full-disk", test_full_disk);
  ADD ("/job-save/killed", test_killed);
  return g_test_run ();
}
