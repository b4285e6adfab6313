/* scale-port.c: the device of a scale, see scale-port.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The port is raw, opened without waiting, and reads with VMIN 1 and VTIME 0: then "nothing there
 * yet" is EAGAIN, and 0 bytes or EIO mean that the other side has gone.  TIOCEXCL and flock keep
 * other programs out that respect either.  What POSIX termios promises is not checked back, because
 * pseudo-terminals drop bits and parity without a word; the speed is.
 *
 * After opening, input that begins within QUIET_US may be the rest of a line that was under way; a
 * scale that was quiet for longer begins with a whole line.  At the slowest speed (300 bit/s, at
 * most 11 bits for a byte) two bytes of one line are 37 ms apart.
 */
#include "scale-port.h"

#include <errno.h>
#include <fcntl.h>
#include <glib-unix.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include "error.h"
#include "word.h"

#define QUIET_US 50000
#define LOOK_AGAIN_MS 1000
#define READ_SIZE 4096
#define READS_AT_ONCE 8 /* then other sources have their turn */
#define REQUEST_MAX 64

struct _TgScalePort
{
  char *path;
  TgScaleSettings settings;
  TgScaleCallbacks callbacks;
  gpointer user_data;
  GMainContext *context;
  int fd; /* -1 while it is gone */
  GSource *input, *look, *ask;
  GBytes *request;
  guint interval_ms;
  gsize sent; /* of the request that is under way */
  gint64 opened_us;
  gboolean quiet; /* nothing has come in since it was opened */
  TgScaleLines lines;
  guint busy; /* callbacks that are running */
  gboolean freed;
};

/* -- settings ---------------------------------------------------------------------------------- */

static const struct
{
  guint speed;
  speed_t code;
} speeds[] = {
  { 300, B300 },   { 600, B600 },     { 1200, B1200 },   { 2400, B2400 },   { 4800, B4800 },
  { 9600, B9600 }, { 19200, B19200 }, { 38400, B38400 }, { 57600, B57600 }, { 115200, B115200 },
};
static const char *const parity_letters[TG_N_SCALE_PARITIES] = { "N", "E", "O" };
static const char *const handshake_words[TG_N_SCALE_HANDSHAKES] = { "none", "lines", "chars" };

TgScaleSettings
tg_scale_settings_default (void)
{
  TgScaleSettings settings = { 9600, 8, TG_SCALE_PARITY_NONE, 1, TG_SCALE_HANDSHAKE_NONE };

  return settings;
}

static gboolean
find_speed (guint speed, speed_t *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (speeds); i++)
    if (speeds[i].speed == speed)
      {
        *code = speeds[i].code;
        return TRUE;
      }
  return FALSE;
}

static gboolean
settings_possible (const TgScaleSettings *settings)
{
  speed_t code;

  return find_speed (settings->speed, &code) && (settings->bits == 7 || settings->bits == 8) &&
         (guint) settings->parity < TG_N_SCALE_PARITIES &&
         (settings->stop_bits == 1 || settings->stop_bits == 2) &&
         (guint) settings->handshake < TG_N_SCALE_HANDSHAKES;
}

char *
tg_scale_settings_to_text (const TgScaleSettings *settings)
{
  g_return_val_if_fail (settings_possible (settings), NULL);

  return g_strdup_printf ("%u %u%s%u %s", settings->speed, settings->bits,
                          parity_letters[settings->parity], settings->stop_bits,
                          handshake_words[settings->handshake]);
}

gboolean
tg_scale_settings_from_text (const char *text, TgScaleSettings *settings)
{
  g_auto (GStrv) parts = g_strsplit (text, " ", 4);
  TgScaleSettings found = { 0 };
  char letter[2] = "";
  int parity, handshake;
  guint64 speed;

  if (g_strv_length (parts) != 3 || strlen (parts[1]) != 3 ||
      !g_ascii_string_to_unsigned (parts[0], 10, 1, G_MAXUINT, &speed, NULL))
    return FALSE;
  letter[0] = parts[1][1];
  parity = tg_word_find (parity_letters, TG_N_SCALE_PARITIES, letter);
  handshake = tg_word_find (handshake_words, TG_N_SCALE_HANDSHAKES, parts[2]);
  if (parity < 0 || handshake < 0)
    return FALSE;
  found.speed = (guint) speed;
  found.bits = (guint) g_ascii_digit_value (parts[1][0]);
  found.parity = (TgScaleParity) parity;
  found.stop_bits = (guint) g_ascii_digit_value (parts[1][2]);
  found.handshake = (TgScaleHandshake) handshake;
  if (!settings_possible (&found))
    return FALSE;
  *settings = found;
  return TRUE;
}

/* -- which ports there are --------------------------------------------------------------------- */

static int
by_text (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Sorted names in @folder. */
static GPtrArray *
names_in (const char *folder)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    g_ptr_array_add (names, g_strdup (name));
  g_clear_pointer (&dir, g_dir_close);
  g_ptr_array_sort (names, by_text);
  return names;
}

/* A ttyS* that the kernel made for a chip that is not there has the type 0. */
static gboolean
has_hardware (const char *tty, const char *name)
{
  g_autofree char *path = g_build_filename (tty, name, "type", NULL);
  g_autofree char *type = NULL;

  return !g_str_has_prefix (name, "ttyS") || !g_file_get_contents (path, &type, NULL, NULL) ||
         !g_str_equal (g_strstrip (type), "0");
}

/* Adds the adapters that are plugged in, and what they lead to to @known. */
static void
add_named (GPtrArray *ports, GHashTable *known, const char *dev)
{
  g_autofree char *folder = g_build_filename (dev, "serial", "by-id", NULL);
  g_autoptr (GPtrArray) names = names_in (folder);

  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, g_ptr_array_index (names, i), NULL);
      char *target = realpath (path, NULL);

      if (!target)
        continue;
      g_hash_table_add (known, target);
      g_ptr_array_add (ports, g_steal_pointer (&path));
    }
}

GPtrArray *
tg_scale_port_list (const char *dev, const char *tty)
{
  static const char *const prefixes[] = { "ttyUSB", "ttyACM", "ttyS" };
  GPtrArray *ports = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) names = names_in (dev);
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, free, NULL);

  add_named (ports, known, dev);
  for (guint p = 0; p < G_N_ELEMENTS (prefixes); p++)
    for (guint i = 0; i < names->len; i++)
      {
        const char *name = g_ptr_array_index (names, i);
        g_autofree char *path = g_build_filename (dev, name, NULL);
        char *target = g_str_has_prefix (name, prefixes[p]) ? realpath (path, NULL) : NULL;

        if (target && !g_hash_table_contains (known, target) && has_hardware (tty, name))
          g_ptr_array_add (ports, g_steal_pointer (&path));
        free (target);
      }
  return ports;
}

/* -- request ----------------------------------------------------------------------------------- */

/* The byte that the character at *p behind a backslash stands for; *p is moved to the last
 * character of the sequence. -1 if there is no such sequence. */
static int
escaped (const char **p)
{
  switch (**p)
    {
    case 'r':
      return '\r';
    case 'n':
      return '\n';
    case 't':
      return '\t';
    case '\\':
      return '\\';
    case 'x':
      if (!g_ascii_isxdigit ((*p)[1]) || !g_ascii_isxdigit ((*p)[2]))
        return -1;
      *p += 2;
      return g_ascii_xdigit_value ((*p)[-1]) * 16 + g_ascii_xdigit_value ((*p)[0]);
    default:
      return -1;
    }
}

GBytes *
tg_scale_request_parse (const char *text, GError **error)
{
  guint8 bytes[REQUEST_MAX];
  gsize n = 0;

  g_return_val_if_fail (text != NULL, NULL);

  for (const char *p = text; *p; p++)
    {
      int byte = (guchar) *p;

      if (byte == '\\')
        {
          p++;
          byte = escaped (&p);
        }
      if (byte < 0)
        {
          g_set_error_literal (error, TG_ERROR, TG_ERROR_SYNTAX,
                               "behind \\ only r, n, t, \\ or x with two digits can stand");
          return NULL;
        }
      if (n == REQUEST_MAX)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_SIZE,
                       "more than %d bytes are not sent to a scale at once", REQUEST_MAX);
          return NULL;
        }
      bytes[n++] = (guint8) byte;
    }
  return g_bytes_new (bytes, n);
}

/* -- opening ----------------------------------------------------------------------------------- */

static void
fail (GError **error, const char *path, const char *what)
{
  g_autofree char *shown = g_filename_display_name (path);

  g_set_error (error, TG_ERROR, TG_ERROR_IO, "%s %s", shown, what);
}

static void
fail_errno (GError **error, const char *path, int number)
{
  g_autofree char *what = NULL;

  switch (number)
    {
    case ENOENT:
    case ENXIO:
    case ENODEV:
    case EIO:
      fail (error, path, "is not there: plug the scale in");
      return;
    case EACCES:
    case EPERM:
      fail (error, path,
            "may not be used: ports are open to members of the group “dialout”, which takes a new "
            "log-in");
      return;
    case EBUSY:
    case EWOULDBLOCK:
      fail (error, path, "is in use by another program");
      return;
    default:
      what = g_strdup_printf ("cannot be used: %s", g_strerror (number));
      fail (error, path, what);
      return;
    }
}

static void
set_framing (struct termios *wanted, const TgScaleSettings *settings)
{
  wanted->c_cflag &= ~(tcflag_t) (CSIZE | PARENB | PARODD | CSTOPB | CRTSCTS);
  wanted->c_iflag &= ~(tcflag_t) (IXON | IXOFF | IXANY | INPCK | IGNPAR);
  wanted->c_cflag |= CLOCAL | CREAD | (settings->bits == 7 ? CS7 : CS8);
  if (settings->parity != TG_SCALE_PARITY_NONE)
    {
      wanted->c_cflag |= PARENB | (settings->parity == TG_SCALE_PARITY_ODD ? PARODD : 0);
      wanted->c_iflag |= INPCK; /* a byte with wrong parity becomes a NUL: no reading */
    }
  if (settings->stop_bits == 2)
    wanted->c_cflag |= CSTOPB;
  if (settings->handshake == TG_SCALE_HANDSHAKE_LINES)
    wanted->c_cflag |= CRTSCTS;
  if (settings->handshake == TG_SCALE_HANDSHAKE_CHARS)
    wanted->c_iflag |= IXON | IXOFF;
}

static gboolean
set_port (int fd, const TgScaleSettings *settings)
{
  struct termios wanted, got;
  speed_t code = B9600;

  if (tcgetattr (fd, &wanted) < 0)
    return FALSE;
  cfmakeraw (&wanted);
  set_framing (&wanted, settings);
  wanted.c_cc[VMIN] = 1;
  wanted.c_cc[VTIME] = 0;
  find_speed (settings->speed, &code);
  return cfsetispeed (&wanted, code) == 0 && cfsetospeed (&wanted, code) == 0 &&
         tcsetattr (fd, TCSANOW, &wanted) == 0 && tcgetattr (fd, &got) == 0 &&
         cfgetospeed (&got) == code && tcflush (fd, TCIOFLUSH) == 0;
}

/* The open and set port, or -1. */
static int
open_port (const char *path, const TgScaleSettings *settings, GError **error)
{
  int fd = open (path, O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);

  if (fd < 0)
    {
      fail_errno (error, path, errno);
      return -1;
    }
  if (!isatty (fd))
    fail (error, path, "is not a serial port");
  else if (flock (fd, LOCK_EX | LOCK_NB) < 0 || ioctl (fd, TIOCEXCL) < 0)
    fail_errno (error, path, errno);
  else if (!set_port (fd, settings))
    fail (error, path, "does not take these settings");
  else
    return fd;
  close (fd);
  return -1;
}

/* -- at work ----------------------------------------------------------------------------------- */

static void
stop (GSource **source)
{
  if (*source)
    g_source_destroy (*source);
  g_clear_pointer (source, g_source_unref);
}

/* Takes @source. */
static void
start (TgScalePort *port, GSource **slot, GSource *source, GSourceFunc func)
{
  stop (slot);
  g_source_set_callback (source, func, port, NULL);
  g_source_attach (source, port->context);
  *slot = source;
}

static void
destroy (TgScalePort *port)
{
  g_bytes_unref (port->request);
  g_main_context_unref (port->context);
  g_free (port->path);
  g_free (port);
}

/* After a callback: FALSE if the port was freed in it and must not be touched any more. */
static gboolean
leave (TgScalePort *port)
{
  if (--port->busy > 0 || !port->freed)
    return !port->freed;
  destroy (port);
  return FALSE;
}

static gboolean on_input (int fd, GIOCondition condition, gpointer user_data);
static gboolean on_ask (gpointer user_data);

static void
attach (TgScalePort *port, int fd)
{
  port->fd = fd;
  port->quiet = TRUE;
  port->sent = 0;
  port->opened_us = g_get_monotonic_time ();
  tg_scale_lines_begin (&port->lines, TRUE);
  start (port, &port->input, g_unix_fd_source_new (fd, G_IO_IN | G_IO_HUP | G_IO_ERR),
         G_SOURCE_FUNC (on_input));
}

static gboolean
on_look (gpointer user_data)
{
  TgScalePort *port = user_data;
  int fd = open_port (port->path, &port->settings, NULL);

  if (fd < 0)
    return G_SOURCE_CONTINUE;
  stop (&port->look);
  attach (port, fd);
  if (g_bytes_get_size (port->request) > 0)
    start (port, &port->ask, g_timeout_source_new (port->interval_ms), on_ask);
  port->busy++;
  if (port->callbacks.back)
    port->callbacks.back (port, port->user_data);
  leave (port);
  return G_SOURCE_REMOVE;
}

/* The other side went away; what came of the last line is no line. */
static void
lose (TgScalePort *port)
{
  stop (&port->input);
  stop (&port->ask);
  close (port->fd);
  port->fd = -1;
  tg_scale_lines_begin (&port->lines, FALSE);
  start (port, &port->look, g_timeout_source_new (LOOK_AGAIN_MS), on_look);
  port->busy++;
  if (port->callbacks.gone)
    port->callbacks.gone (port, port->user_data);
  leave (port);
}

/* FALSE if the port was freed by who got a line. */
static gboolean
hand_out (TgScalePort *port, const char *data, gsize length)
{
  const char *line;
  gsize line_length;

  if (port->quiet)
    {
      port->quiet = FALSE;
      tg_scale_lines_begin (&port->lines, g_get_monotonic_time () - port->opened_us < QUIET_US);
    }
  port->busy++;
  while (!port->freed && tg_scale_lines_next (&port->lines, &data, &length, &line, &line_length))
    if (port->callbacks.line)
      port->callbacks.line (port, line, line_length, port->user_data);
  return leave (port);
}

static gboolean
on_input (int fd, GIOCondition condition, gpointer user_data)
{
  TgScalePort *port = user_data;
  char data[READ_SIZE];

  (void) condition; /* read() tells the same, and in the right order */
  for (guint i = 0; i < READS_AT_ONCE; i++)
    {
      ssize_t n = read (fd, data, sizeof data);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0 && errno == EAGAIN)
        return G_SOURCE_CONTINUE;
      if (n <= 0)
        {
          lose (port);
          return G_SOURCE_REMOVE;
        }
      if (!hand_out (port, data, (gsize) n))
        return G_SOURCE_REMOVE;
    }
  return G_SOURCE_CONTINUE;
}

/* Sends what is left of the request, as far as the port takes it; a lost port shows when read. */
static gboolean
on_ask (gpointer user_data)
{
  TgScalePort *port = user_data;
  gsize size;
  const char *data = g_bytes_get_data (port->request, &size);
  ssize_t n = write (port->fd, data + port->sent, size - port->sent);

  if (n > 0)
    port->sent = (port->sent + (gsize) n) % size;
  return G_SOURCE_CONTINUE;
}

/* -- the port ---------------------------------------------------------------------------------- */

TgScalePort *
tg_scale_port_open (const char *path,
                    const TgScaleSettings *settings,
                    const TgScaleCallbacks *callbacks,
                    gpointer user_data,
                    GError **error)
{
  TgScalePort *port;
  int fd;

  g_return_val_if_fail (path != NULL && settings != NULL && callbacks != NULL, NULL);

  if (!settings_possible (settings))
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_RANGE, "no serial port has such settings");
      return NULL;
    }
  fd = open_port (path, settings, error);
  if (fd < 0)
    return NULL;
  port = g_new0 (TgScalePort, 1);
  port->path = g_strdup (path);
  port->settings = *settings;
  port->callbacks = *callbacks;
  port->user_data = user_data;
  port->request = g_bytes_new (NULL, 0);
  port->context = g_main_context_ref_thread_default ();
  attach (port, fd);
  return port;
}

void
tg_scale_port_free (TgScalePort *port)
{
  if (!port || port->freed)
    return;
  port->freed = TRUE;
  stop (&port->input);
  stop (&port->look);
  stop (&port->ask);
  if (port->fd >= 0)
    close (port->fd);
  port->fd = -1;
  if (port->busy == 0)
    destroy (port);
}

void
tg_scale_port_set_request (TgScalePort *port, GBytes *request, guint interval_ms)
{
  g_return_if_fail (port != NULL && !port->freed);
  g_return_if_fail (!request || interval_ms >= 50);

  stop (&port->ask);
  g_bytes_unref (port->request);
  port->request = request ? g_bytes_ref (request) : g_bytes_new (NULL, 0);
  port->interval_ms = interval_ms;
  port->sent = 0;
  if (g_bytes_get_size (port->request) == 0 || port->fd < 0)
    return;
  on_ask (port);
  start (port, &port->ask, g_timeout_source_new (interval_ms), on_ask);
}

gboolean
tg_scale_port_is_there (const TgScalePort *port)
{
  return port->fd >= 0;
}

void
tg_scale_port_get_counts (const TgScalePort *port, guint64 *bytes, guint64 *lines, guint64 *dropped)
{
  *bytes = port->lines.bytes;
  *lines = port->lines.lines;
  *dropped = port->lines.dropped;
}
