/* test-scale-port.c: a scale at the other end of a pseudo-terminal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The scale is simulated; lines and readings are invented.  A pseudo-terminal drops bits and parity,
 * so framing is not tested here.
 */
#include <errno.h>
#include <fcntl.h>
#include <glib-unix.h>
#include <glib/gstdio.h>
#include <pty.h>
#include <string.h>
#include <sys/file.h>
#include <termios.h>
#include <unistd.h>

#include "error.h"
#include "scale-port.h"
#include "scale-settle.h"

#define QUIET_US 120000 /* more than the port needs to know that no line is under way */

/* The scale: the master side, and a link under which the port finds the slave side. */
typedef struct
{
  char *folder, *link;
  int master, slave;
  GString *out; /* what was asked of it */
} Scale;

/* What came in at the bench. */
typedef struct
{
  TgScalePort *port;
  TgScalePattern pattern;
  TgScaleSettle settle;
  guint lines, readings, refused, gone, back, settled;
  gint64 sum;
  GString *text; /* lines joined by "/" */
  gboolean keep_text, free_on_line;
} Bench;

static void
scale_plug (Scale *scale)
{
  struct termios raw;
  char name[64];

  g_assert_cmpint (openpty (&scale->master, &scale->slave, name, NULL, NULL), ==, 0);
  g_assert_cmpint (tcgetattr (scale->slave, &raw), ==, 0);
  cfmakeraw (&raw);
  g_assert_cmpint (tcsetattr (scale->slave, TCSANOW, &raw), ==, 0);
  g_assert_cmpint (fcntl (scale->master, F_SETFL, O_NONBLOCK), ==, 0);
  g_unlink (scale->link);
  g_assert_cmpint (symlink (name, scale->link), ==, 0);
}

static void
scale_unplug (Scale *scale)
{
  close (scale->master);
  close (scale->slave);
  scale->master = -1;
}

static Scale *
scale_new (void)
{
  Scale *scale = g_new0 (Scale, 1);

  scale->folder = g_dir_make_tmp ("scale-XXXXXX", NULL);
  scale->link = g_build_filename (scale->folder, "scale", NULL);
  scale->out = g_string_new (NULL);
  scale_plug (scale);
  return scale;
}

static void
scale_free (Scale *scale)
{
  if (scale->master >= 0)
    scale_unplug (scale);
  g_unlink (scale->link);
  g_rmdir (scale->folder);
  g_string_free (scale->out, TRUE);
  g_free (scale->folder);
  g_free (scale->link);
  g_free (scale);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Scale, scale_free)

static void
on_line (TgScalePort *port, const char *line, gsize length, gpointer user_data)
{
  Bench *bench = user_data;
  TgScaleReading reading = tg_scale_pattern_read (&bench->pattern, line, length);
  TgMass mass;

  g_assert_true (port == bench->port);
  bench->lines++;
  if (reading.kind == TG_SCALE_LINE_READING)
    {
      bench->readings++;
      bench->sum += reading.mass;
    }
  else
    bench->refused++;
  bench->settled += tg_scale_settle_feed (&bench->settle, &reading, &mass);
  if (bench->keep_text)
    {
      g_string_append_len (bench->text, line, (gssize) length);
      g_string_append_c (bench->text, '/');
    }
  if (bench->free_on_line)
    g_clear_pointer (&bench->port, tg_scale_port_free);
}

static void
on_gone (TgScalePort *port, gpointer user_data)
{
  Bench *bench = user_data;

  g_assert_false (tg_scale_port_is_there (port));
  bench->gone++;
}

static void
on_back (TgScalePort *port, gpointer user_data)
{
  Bench *bench = user_data;

  g_assert_true (tg_scale_port_is_there (port));
  bench->back++;
}

static const TgScaleCallbacks callbacks = { on_line, on_gone, on_back };

static Bench *
bench_new (const Scale *scale)
{
  static const TgScaleSample samples[] = {
    { "S +  171.6 g", 12, "171.6", TG_SCALE_REST_STANDING },
    { "D +   82.0 g", 12, NULL, TG_SCALE_REST_MOVING },
  };
  Bench *bench = g_new0 (Bench, 1);
  TgScaleSettings settings = tg_scale_settings_default ();
  g_autoptr (GError) error = NULL;

  g_assert_true (tg_scale_pattern_learn (samples, 2, &bench->pattern, NULL, NULL));
  bench->settle = tg_scale_settle_new (100, 4);
  bench->text = g_string_new (NULL);
  bench->port = tg_scale_port_open (scale->link, &settings, &callbacks, bench, &error);
  g_assert_no_error (error);
  g_usleep (QUIET_US);
  return bench;
}

static void
bench_free (Bench *bench)
{
  tg_scale_port_free (bench->port);
  g_string_free (bench->text, TRUE);
  g_free (bench);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Bench, bench_free)

static guint64
bytes_in (const Bench *bench)
{
  guint64 bytes, lines, dropped;

  tg_scale_port_get_counts (bench->port, &bytes, &lines, &dropped);
  return bytes;
}

/* Lets the main context work until @value is @wanted; fails after 20 s. */
static void
wait_for (const guint *value, guint wanted)
{
  gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;

  while (*value != wanted && g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (200);
  g_assert_cmpuint (*value, ==, wanted);
}

/* Sends bytes and lets the bench take them in. */
static void
send_bytes (Scale *scale, Bench *bench, const char *data, gsize size)
{
  guint64 wanted = bytes_in (bench) + size;
  gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;

  while (bytes_in (bench) < wanted)
    {
      if (size > 0)
        {
          ssize_t n = write (scale->master, data, size);

          g_assert_true (n > 0 || errno == EAGAIN);
          if (n > 0)
            {
              data += n;
              size -= (gsize) n;
            }
        }
      g_main_context_iteration (NULL, FALSE);
      g_assert_cmpint (g_get_monotonic_time (), <, end);
    }
}

static void
send_text (Scale *scale, Bench *bench, const char *text)
{
  send_bytes (scale, bench, text, strlen (text));
}

/* Adds a true line and counts it, or a disturbed one, which may not be counted. */
static void
add_line (GString *text, GRand *rand, guint *readings, gint64 *sum)
{
  gint tenths = g_rand_int_range (rand, 0, 99999);
  gsize at = text->len;

  g_string_append_printf (text, "%c %c%5d.%d g\r\n", g_rand_boolean (rand) ? 'S' : 'D',
                          tenths % 7 ? '+' : '-', tenths / 10, tenths % 10);
  switch (g_rand_int_range (rand, 0, 20))
    {
    case 0: /* a byte that no scale sends */
      text->str[at + (gsize) g_rand_int_range (rand, 0, 12)] = (char) g_rand_int_range (rand, 128,
                                                                                        256);
      return;
    case 1: /* a byte was lost, not of the line's end */
      g_string_erase (text, (gssize) at + g_rand_int_range (rand, 0, 12), 1);
      return;
    case 2: /* the line was cut */
      g_string_truncate (text, at + (gsize) g_rand_int_range (rand, 1, 12));
      g_string_append (text, "\r\n");
      return;
    case 3: /* something else altogether */
      g_string_truncate (text, at);
      g_string_append (text, g_rand_boolean (rand) ? "OVER\r\n" : "\r\n\xff\x01 12 g\n\n");
      return;
    default:
      (*readings)++;
      *sum += (tenths % 7 ? 100 : -100) * (gint64) tenths;
      return;
    }
}

/* Law: of 100,000 lines at full speed, with disturbed ones among them, no reading is lost, doubled
 * or invented. */
static void
test_full_speed (void)
{
  g_autoptr (Scale) scale = scale_new ();
  g_autoptr (Bench) bench = bench_new (scale);
  g_autoptr (GRand) rand = g_rand_new_with_seed (100000);
  g_autoptr (GString) text = g_string_new (NULL);
  guint readings = 0;
  gint64 sum = 0;

  for (guint i = 0; i < 100000; i++)
    add_line (text, rand, &readings, &sum);
  send_bytes (scale, bench, text->str, text->len);
  g_assert_cmpuint (readings, >, 70000);
  g_assert_cmpuint (bench->readings, ==, readings);
  g_assert_cmpint (bench->sum, ==, sum);
  g_assert_cmpuint (bench->refused, >, 10000);
  g_assert_cmpuint (bytes_in (bench), ==, text->len);
}

/* Three lines, split at every place into two pieces that come in one after the other. */
static void
test_split (void)
{
  static const char text[] = "S +  171.6 g\r\nD +   82.0 g\rS -   12.5 g\n";
  g_autoptr (Scale) scale = scale_new ();
  g_autoptr (Bench) bench = bench_new (scale);
  gsize size = strlen (text);

  for (gsize at = 0; at <= size; at++)
    {
      bench->lines = bench->readings = 0;
      bench->sum = 0;
      send_bytes (scale, bench, text, at);
      send_bytes (scale, bench, text + at, size - at);
      g_assert_cmpuint (bench->lines, ==, 3);
      g_assert_cmpuint (bench->readings, ==, 3);
      g_assert_cmpint (bench->sum, ==, 171600 + 82000 - 12500);
    }
}

/* Unplugged in the middle of a line and plugged in again as another device. */
static void
test_replug (void)
{
  g_autoptr (Scale) scale = scale_new ();
  g_autoptr (Bench) bench = bench_new (scale);

  send_text (scale, bench, "S +  171.6 g\r\nS +  1");
  scale_unplug (scale);
  wait_for (&bench->gone, 1);
  g_assert_cmpuint (bench->back, ==, 0);
  scale_plug (scale);
  wait_for (&bench->back, 1);
  g_usleep (QUIET_US);
  /* the rest of the old line would make “S +  171.6 g” of it */
  send_text (scale, bench, "71.6 g\r\nS +   98.2 g\r\n");
  g_assert_cmpuint (bench->gone, ==, 1);
  g_assert_cmpuint (bench->lines, ==, 3);
  g_assert_cmpuint (bench->readings, ==, 2);
  g_assert_cmpint (bench->sum, ==, 171600 + 98200);
}

/* Freed while it is away, and in its own callback. */
static void
test_free (void)
{
  g_autoptr (Scale) scale = scale_new ();
  g_autoptr (Bench) bench = bench_new (scale);
  g_autoptr (Scale) other = scale_new ();
  g_autoptr (Bench) second = bench_new (other);
  static const char text[] = "S +  171.6 g\r\nS +  171.6 g\r\n";

  scale_unplug (scale);
  wait_for (&bench->gone, 1);
  second->free_on_line = TRUE;
  g_assert_cmpint (write (other->master, text, strlen (text)), ==, strlen (text));
  wait_for (&second->lines, 1);
  g_clear_pointer (&bench->port, tg_scale_port_free);
  for (guint i = 0; i < 20; i++)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (second->lines, ==, 1);
  g_assert_cmpuint (bench->back, ==, 0);
}

/* The line that was under way when the port was opened is not handed on. */
static void
test_under_way (void)
{
  g_autoptr (Scale) scale = scale_new ();
  g_autoptr (Bench) bench = g_new0 (Bench, 1);
  TgScaleSettings settings = tg_scale_settings_default ();
  static const char text[] = "1.6 g\r\nS +  171.6 g\r\n";
  gint64 opened;

  bench->text = g_string_new (NULL);
  bench->settle = tg_scale_settle_new (100, 4);
  bench->keep_text = TRUE;
  /* only if this machine was not held up longer than a pause between two lines */
  do
    {
      tg_scale_port_free (bench->port);
      bench->lines = 0;
      g_string_truncate (bench->text, 0);
      opened = g_get_monotonic_time ();
      bench->port = tg_scale_port_open (scale->link, &settings, &callbacks, bench, NULL);
      g_assert_nonnull (bench->port);
      g_assert_cmpint (write (scale->master, text, strlen (text)), ==, strlen (text));
      while (bytes_in (bench) < strlen (text))
        g_main_context_iteration (NULL, TRUE);
    }
  while (g_get_monotonic_time () - opened > 40000);
  g_assert_cmpstr (bench->text->str, ==, "S +  171.6 g/");
}

static gboolean
answer (int fd, GIOCondition condition, gpointer user_data)
{
  Scale *scale = user_data;
  char asked[16];
  ssize_t n = read (fd, asked, sizeof asked);

  g_assert_true (condition & G_IO_IN);
  for (ssize_t i = 0; i < n; i++)
    {
      g_string_append_c (scale->out, asked[i]);
      if (asked[i] == '\r')
        g_assert_cmpint (write (fd, "S +  171.6 g\r\n", 14), ==, 14);
    }
  return G_SOURCE_CONTINUE;
}

static void
test_request (void)
{
  g_autoptr (Scale) scale = scale_new ();
  g_autoptr (Bench) bench = bench_new (scale);
  g_autoptr (GBytes) request = tg_scale_request_parse ("ask\\r", NULL);
  guint source;

  source = g_unix_fd_add (scale->master, G_IO_IN, answer, scale);
  tg_scale_port_set_request (bench->port, request, 50);
  wait_for (&bench->lines, 4);
  tg_scale_port_set_request (bench->port, NULL, 0);
  g_assert_true (g_str_has_prefix (scale->out->str, "ask\rask\rask\rask\r"));
  g_assert_cmpuint (bench->readings, ==, 4);
  /* one load, one reading */
  g_assert_cmpuint (bench->settled, ==, 1);
  g_source_remove (source);
}

static void
refuse (const char *path, const char *words)
{
  TgScaleSettings settings = tg_scale_settings_default ();
  g_autoptr (GError) error = NULL;

  g_assert_null (tg_scale_port_open (path, &settings, &callbacks, NULL, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_IO);
  g_assert_nonnull (strstr (error->message, words));
}

static void
test_refuse (void)
{
  g_autoptr (Scale) scale = scale_new ();
  TgScaleSettings settings = tg_scale_settings_default ();
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (flock (scale->slave, LOCK_EX | LOCK_NB), ==, 0);
  refuse (scale->link, "in use");
  g_assert_cmpint (flock (scale->slave, LOCK_UN), ==, 0);
  refuse ("/dev/null", "not a serial port");
  refuse (scale->folder, "cannot be used");
  scale_unplug (scale);
  refuse (scale->link, "is not there");
  settings.bits = 9;
  g_assert_null (tg_scale_port_open (scale->link, &settings, &callbacks, NULL, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
}

/* A port that is ours cannot be opened again. */
static void
test_alone (void)
{
  g_autoptr (Scale) scale = scale_new ();
  g_autoptr (Bench) bench = bench_new (scale);
  struct termios got;

  refuse (scale->link, "in use");
  /* what a pseudo-terminal keeps of the settings */
  g_assert_cmpint (tcgetattr (scale->slave, &got), ==, 0);
  g_assert_cmpuint (cfgetospeed (&got), ==, B9600);
  g_assert_cmpint (got.c_cc[VMIN], ==, 1);
  g_assert_cmpint (got.c_cc[VTIME], ==, 0);
  g_assert_cmpuint (got.c_lflag & (ICANON | ECHO | ISIG), ==, 0);
  g_assert_cmpuint (got.c_iflag & (ICRNL | INLCR | IXON), ==, 0);
}

static void
touch (const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *parent = g_path_get_dirname (path);

  g_assert_cmpint (g_mkdir_with_parents (parent, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
remove_all (const char *path)
{
  GDir *dir = g_file_test (path, G_FILE_TEST_IS_SYMLINK) ? NULL : g_dir_open (path, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      remove_all (child);
    }
  g_clear_pointer (&dir, g_dir_close);
  g_remove (path);
}

static void
test_list (void)
{
  static const char *const expected[] = { "serial/by-id/adapter", "ttyUSB1", "ttyACM0", "ttyS0" };
  g_autofree char *root = g_dir_make_tmp ("scale-XXXXXX", NULL);
  g_autofree char *dev = g_build_filename (root, "dev", NULL);
  g_autofree char *tty = g_build_filename (root, "tty", NULL);
  g_autofree char *by_id = g_build_filename (dev, "serial/by-id/adapter", NULL);
  g_autofree char *parent = g_path_get_dirname (by_id);
  g_autofree char *stale = g_build_filename (parent, "unplugged", NULL);
  g_autoptr (GPtrArray) ports = NULL;
  g_autoptr (GPtrArray) none = tg_scale_port_list ("/nowhere", "/nowhere");

  g_assert_cmpuint (none->len, ==, 0);
  touch (dev, "ttyUSB0", "");
  touch (dev, "ttyUSB1", "");
  touch (dev, "ttyACM0", "");
  touch (dev, "ttyS0", "");
  touch (dev, "ttyS1", "");
  touch (dev, "tty1", "");
  touch (tty, "ttyS0/type", "4\n");
  touch (tty, "ttyS1/type", "0\n");
  g_assert_cmpint (g_mkdir_with_parents (parent, 0700), ==, 0);
  g_assert_cmpint (symlink ("../../ttyUSB0", by_id), ==, 0);
  g_assert_cmpint (symlink ("../../ttyUSB9", stale), ==, 0);
  ports = tg_scale_port_list (dev, tty);
  g_assert_cmpuint (ports->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < ports->len; i++)
    {
      g_autofree char *path = g_build_filename (dev, expected[i], NULL);

      g_assert_cmpstr (g_ptr_array_index (ports, i), ==, path);
    }
  remove_all (root);
}

static void
test_settings (void)
{
  static const char *const good[] = { "9600 8N1 none", "2400 7E1 lines", "115200 8O2 chars" };
  static const char *const bad[] = { "",
                                     "9600",
                                     "9600 8N1",
                                     "9601 8N1 none",
                                     "9600 9N1 none",
                                     "9600 8M1 none",
                                     "9600 8N3 none",
                                     "9600 8N1 x",
                                     "9600 8N1 none x",
                                     "-1 8N1 none",
                                     "9600 8N none" };
  TgScaleSettings settings = tg_scale_settings_default ();

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autofree char *text = NULL;

      g_assert_true (tg_scale_settings_from_text (good[i], &settings));
      text = tg_scale_settings_to_text (&settings);
      g_assert_cmpstr (text, ==, good[i]);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (tg_scale_settings_from_text (bad[i], &settings));
}

static void
test_request_text (void)
{
  static const char *const bad[] = { "\\", "\\q", "\\x1", "\\xzz" };
  g_autoptr (GBytes) bytes = tg_scale_request_parse ("W\\r\\n\\t\\\\\\x1B\\x00!", NULL);
  g_autofree char *longest = g_strnfill (64, 'a');
  g_autofree char *longer = g_strnfill (65, 'a');
  g_autoptr (GBytes) most = tg_scale_request_parse (longest, NULL);
  g_autoptr (GError) size_error = NULL;
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);

  g_assert_cmpmem (data, size, "W\r\n\t\\\x1b\0!", 8);
  g_assert_cmpuint (g_bytes_get_size (most), ==, 64);
  g_assert_null (tg_scale_request_parse (longer, &size_error));
  g_assert_error (size_error, TG_ERROR, TG_ERROR_SIZE);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (tg_scale_request_parse (bad[i], &error));
      g_assert_error (error, TG_ERROR, TG_ERROR_SYNTAX);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scale-port/full-speed", test_full_speed);
  g_test_add_func ("/scale-port/split", test_split);
  g_test_add_func ("/scale-port/replug", test_replug);
  g_test_add_func ("/scale-port/free", test_free);
  g_test_add_func ("/scale-port/under-way", test_under_way);
  g_test_add_func ("/scale-port/request", test_request);
  g_test_add_func ("/scale-port/refuse", test_refuse);
  g_test_add_func ("/scale-port/alone", test_alone);
  g_test_add_func ("/scale-port/list", test_list);
  g_test_add_func ("/scale-port/settings", test_settings);
  g_test_add_func ("/scale-port/request-text", test_request_text);
  return g_test_run ();
}
