/* scale-link.h: the scale on a cable, one for all windows of the program
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Holds the port, what its lines mean and when a load has come to rest; remembers all of it, and
 * connects again by itself at the next start and after the cable was out.
 */
#pragma once

#include <gio/gio.h>

#include "scale-pattern.h"
#include "scale-port.h"
#include "scale-settle.h"

G_BEGIN_DECLS

#define TG_TYPE_SCALE_LINK (tg_scale_link_get_type ())
G_DECLARE_FINAL_TYPE (TgScaleLink, tg_scale_link, TG, SCALE_LINK, GObject)

#define TG_SCALE_LINK_LINES 8 /* that are remembered */

typedef enum
{
  TG_SCALE_LINK_OFF,
  TG_SCALE_LINK_LEARNING,  /* connected, but what its lines mean is not known yet */
  TG_SCALE_LINK_LISTENING, /* connected, and its lines are read */
  TG_SCALE_LINK_GONE,      /* to be connected, but not there; it is looked for every second */
} TgScaleLinkState;

/* What lies on the scale, as far as its lines tell. */
typedef enum
{
  TG_SCALE_LOAD_UNKNOWN, /* no reading came in, or none for seconds */
  TG_SCALE_LOAD_MOVING,
  TG_SCALE_LOAD_EMPTY, /* at rest near zero, or below */
  TG_SCALE_LOAD_READ,  /* at rest, and its reading was taken */
  TG_SCALE_LOAD_OLD,   /* at rest, but laid on before the scale was connected or a reading wanted */
  TG_SCALE_LOAD_HASTY, /* said to send by its key, but sends by itself: not handed on */
} TgScaleLoad;

/**
 * TgScaleLinkLine: one line as it came
 * @count: how often it came without another in between
 * @reading: by the pattern in force; a reading of kind TG_SCALE_LINE_EMPTY without a pattern
 */
typedef struct
{
  char text[TG_SCALE_LINE_MAX];
  gsize length;
  guint count;
  TgScaleReading reading;
} TgScaleLinkLine;

/**
 * TgScaleLinkSetup: strings are lent
 * @port: path, "" if none was chosen yet
 * @settings: of the port
 * @request: as typed, for tg_scale_request_parse(); "" for a scale that sends by itself
 */
typedef struct
{
  const char *port;
  TgScaleSettings settings;
  const char *request;
} TgScaleLinkSetup;

/**
 * tg_scale_link_new:
 * @file: of the settings; it need not exist
 * @dev: "/dev"
 * @tty: "/sys/class/tty"
 *
 * Reads the settings; what it cannot read in them is as at the very first start.  Does not connect.
 */
TgScaleLink *tg_scale_link_new (const char *file, const char *dev, const char *tty);

/* With the person's own settings and the devices of this machine. */
TgScaleLink *tg_scale_link_new_here (void);

/* Connects if it was connected when the program was left; else nothing. */
void tg_scale_link_resume (TgScaleLink *link);

/**
 * tg_scale_link_connect:
 * @error: as tg_scale_port_open() and tg_scale_request_parse()
 *
 * Instead of what was connected before.  A load that lies there already is not handed on.
 * Returns: FALSE with the state TG_SCALE_LINK_OFF; what was tried is remembered all the same.
 */
gboolean tg_scale_link_connect (TgScaleLink *link, const TgScaleLinkSetup *setup, GError **error);
void tg_scale_link_disconnect (TgScaleLink *link);

TgScaleLinkState tg_scale_link_state (TgScaleLink *link);

/* (lends): valid until the next connect */
TgScaleLinkSetup tg_scale_link_setup (TgScaleLink *link);

/* (lends) (nullable): while it is looked for after the start: why it could not be opened. */
const char *tg_scale_link_problem (TgScaleLink *link);

/* (lends) (nullable): why the settings could not be saved the last time. */
const char *tg_scale_link_unsaved (TgScaleLink *link);

/* (transfer full) (element-type utf8): ports that are plugged in now */
GPtrArray *tg_scale_link_ports (TgScaleLink *link);

/* (nullable): NULL forgets; the lines that are remembered are read anew. */
void tg_scale_link_set_pattern (TgScaleLink *link, const TgScalePattern *pattern);
/* (lends) (nullable) */
const TgScalePattern *tg_scale_link_pattern (TgScaleLink *link);

/* Equal readings to wait for, 0 to TG_SCALE_LINK_MAX_ROW; 0: each line is sent by a key. */
#define TG_SCALE_LINK_MAX_ROW 50
void tg_scale_link_set_in_a_row (TgScaleLink *link, guint in_a_row);
guint tg_scale_link_in_a_row (TgScaleLink *link);

/* Step of the scale, > 0, of the job that is weighed. */
void tg_scale_link_set_step (TgScaleLink *link, TgMass step);
TgMass tg_scale_link_step (TgScaleLink *link);

/* What the scale shows now; @mass is untouched while that is unknown. */
TgScaleLoad tg_scale_link_load (TgScaleLink *link, TgMass *mass);

guint tg_scale_link_n_lines (TgScaleLink *link);
/* (lends): 0 is the newest */
const TgScaleLinkLine *tg_scale_link_line (TgScaleLink *link, guint index);

/**
 * TgScaleLink::changed: state, load or lines are others; several times in a second at most
 *
 * TgScaleLink::reading: (gint64 mass): a load has come to rest; once for each load.  Returns TRUE if
 *   the reading was taken; the first handler that does is the last that is asked.
 */

G_END_DECLS
