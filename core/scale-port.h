/* scale-port.h: a scale on a serial or USB-serial port
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one file of core that holds a device.  It works on the thread-default main context and calls
 * back from there; it never blocks.  What the lines mean is in scale-pattern.h.
 */
#pragma once

#include <glib.h>

#include "scale-lines.h"

G_BEGIN_DECLS

typedef enum
{
  TG_SCALE_PARITY_NONE,
  TG_SCALE_PARITY_EVEN,
  TG_SCALE_PARITY_ODD,
} TgScaleParity;
#define TG_N_SCALE_PARITIES 3

typedef enum
{
  TG_SCALE_HANDSHAKE_NONE,
  TG_SCALE_HANDSHAKE_LINES, /* RTS and CTS */
  TG_SCALE_HANDSHAKE_CHARS, /* XON and XOFF */
} TgScaleHandshake;
#define TG_N_SCALE_HANDSHAKES 3

/**
 * TgScaleSettings: as in the scale's manual
 * @speed: bits per second: 300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600 or 115200
 * @bits: 7 or 8
 * @stop_bits: 1 or 2
 */
typedef struct
{
  guint speed;
  guint bits;
  TgScaleParity parity;
  guint stop_bits;
  TgScaleHandshake handshake;
} TgScaleSettings;

/* 9600 bit/s, 8 bits, no parity, 1 stop bit, no handshake. */
TgScaleSettings tg_scale_settings_default (void);

/* (transfer full): one line, "9600 8N1 none"; handshakes "none", "lines", "chars". */
char *tg_scale_settings_to_text (const TgScaleSettings *settings);

/* FALSE, with @settings untouched, unless @text is of that form. */
gboolean tg_scale_settings_from_text (const char *text, TgScaleSettings *settings);

/**
 * tg_scale_port_list:
 * @dev: "/dev"
 * @tty: "/sys/class/tty", which tells serial ports without hardware behind them
 *
 * Ports that are there now: by name of the adapter first (serial/by-id, which stays the same when
 * it is plugged in elsewhere), then ttyUSB*, ttyACM* not named so already, and ttyS*.
 *
 * Returns: (transfer full) (element-type utf8): paths; maybe empty.
 */
GPtrArray *tg_scale_port_list (const char *dev, const char *tty);

/**
 * tg_scale_request_parse:
 * @text: what the person typed to be sent to a scale that answers only when asked; \r, \n, \t, \\
 *   and \xHH stand for single bytes
 * @error: TG_ERROR_SYNTAX: another \ sequence; TG_ERROR_SIZE: more than 64 bytes
 *
 * Returns: (transfer full): the bytes; NULL on failure.
 */
GBytes *tg_scale_request_parse (const char *text, GError **error);

typedef struct _TgScalePort TgScalePort;

/**
 * TgScaleCallbacks: each may be NULL; each may free the port
 * @line: a whole line, without its end; bytes of any encoding, valid for the call
 * @gone: the port went away: unplugged or switched off; it is looked for every second
 * @back: it is there again under the same path
 */
typedef struct
{
  void (*line) (TgScalePort *port, const char *line, gsize length, gpointer user_data);
  void (*gone) (TgScalePort *port, gpointer user_data);
  void (*back) (TgScalePort *port, gpointer user_data);
} TgScaleCallbacks;

/**
 * tg_scale_port_open:
 * @path: of a serial port, a USB-serial adapter or a pseudo-terminal, maybe a symbolic link
 * @callbacks: copied
 * @error: TG_ERROR_IO: not there, no permission, in use by another program, not a serial port;
 *   TG_ERROR_RANGE: settings that no port has; the message says what to do
 *
 * Opens for this program alone, sets the port and throws away what came in before.  A scale that
 * was sending is in the middle of a line at that moment: a line whose beginning may have been
 * missed is never handed on.
 *
 * Returns: (transfer full): free with tg_scale_port_free(), which ends all callbacks.
 */
TgScalePort *tg_scale_port_open (const char *path,
                                 const TgScaleSettings *settings,
                                 const TgScaleCallbacks *callbacks,
                                 gpointer user_data,
                                 GError **error);

void tg_scale_port_free (TgScalePort *port);

/**
 * tg_scale_port_set_request:
 * @request: (nullable): bytes that are sent now and every @interval_ms; NULL for none
 * @interval_ms: 50 or more
 */
void tg_scale_port_set_request (TgScalePort *port, GBytes *request, guint interval_ms);

/* FALSE between gone and back. */
gboolean tg_scale_port_is_there (const TgScalePort *port);

/* Bytes, whole lines and dropped lines since opening, over all times the port was away. */
void tg_scale_port_get_counts (const TgScalePort *port,
                               guint64 *bytes,
                               guint64 *lines,
                               guint64 *dropped);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgScalePort, tg_scale_port_free)

G_END_DECLS
