/* pty-scale.c: see pty-scale.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The form of the lines is invented.
 */
#include "pty-scale.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <pty.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include "scale-pattern.h"

void
pty_scale_plug (PtyScale *scale)
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

void
pty_scale_unplug (PtyScale *scale)
{
  g_unlink (scale->link);
  close (scale->master);
  close (scale->slave);
  scale->master = scale->slave = -1;
}

PtyScale *
pty_scale_new (void)
{
  PtyScale *scale = g_new0 (PtyScale, 1);

  scale->folder = g_dir_make_tmp ("tenthgram-scale-XXXXXX", NULL);
  scale->link = g_build_filename (scale->folder, "scale", NULL);
  pty_scale_plug (scale);
  return scale;
}

void
pty_scale_free (PtyScale *scale)
{
  if (scale->master >= 0)
    pty_scale_unplug (scale);
  g_rmdir (scale->folder);
  g_free (scale->folder);
  g_free (scale->link);
  g_free (scale);
}

void
pty_scale_send (PtyScale *scale, const char *data, gssize length)
{
  gsize size = length < 0 ? strlen (data) : (gsize) length;

  g_assert_cmpint (write (scale->master, data, size), ==, (gssize) size);
}

void
pty_scale_show (PtyScale *scale, double grams, gboolean moving)
{
  char figure[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *line = NULL;

  g_ascii_formatd (figure, sizeof figure, "%7.1f", ABS (grams));
  line = g_strdup_printf ("%s %s%s g\r\n", moving ? "D" : "S", grams < 0 ? "-" : "+", figure);
  pty_scale_send (scale, line, -1);
}

char *
pty_scale_asked (PtyScale *scale)
{
  gint64 end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;
  char data[256];
  ssize_t n;

  while ((n = read (scale->master, data, sizeof data)) <= 0 && g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
  g_assert_cmpint (n, >, 0);
  return g_strndup (data, (gsize) n);
}

char *
pty_scale_pattern (void)
{
  static const TgScaleSample samples[] = {
    { "S +  171.6 g", 12, "171.6", TG_SCALE_REST_STANDING },
    { "S -    3.4 g", 12, "-3.4", TG_SCALE_REST_STANDING },
    { "D +   82.0 g", 12, NULL, TG_SCALE_REST_MOVING },
  };
  TgScalePattern pattern;

  g_assert_true (tg_scale_pattern_learn (samples, G_N_ELEMENTS (samples), &pattern, NULL, NULL));
  return tg_scale_pattern_to_text (&pattern);
}
