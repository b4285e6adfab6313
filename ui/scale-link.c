/* scale-link.c: the scale on a cable, see scale-link.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A line goes this way: from the port, through the pattern into a reading, through the settle
 * detector; what comes out is a load at rest and is handed on once as "reading".  Whoever shows a
 * field for a reading takes it; what nobody takes is not kept for later.
 *
 * What lies on the scale when it is connected, or when the cable comes back, may have been read
 * before: it has to change or be lifted first.  A scale that is said to send by its key is believed
 * only while its readings are KEY_US apart, since every one of them is a reading of its own.
 *
 * The settings are of this machine and not of a job, so they lie with the person's settings.
 */
#include "scale-link.h"

#include <string.h>

#define GROUP "scale"
#define DEFAULT_STEP 100   /* mg, until a job says otherwise */
#define ASK_MS 300         /* between requests */
#define LOOK_AGAIN_MS 1000 /* for a port that was not there at the start */
#define SHOW_MS 100        /* between two "changed" of a scale that sends fast */
#define QUIET_US 3000000   /* without a line; then nobody knows what lies on the scale */
#define KEY_US 700000      /* nobody presses the key of a scale faster */

struct _TgScaleLink
{
  GObject parent_instance;
  char *file, *dev, *tty;
  /* settings */
  char *port_path;
  TgScaleSettings settings;
  char *request;
  gboolean has_pattern;
  TgScalePattern pattern;
  gboolean wanted; /* to be connected */
  /* at work */
  TgScalePort *port;
  TgScaleSettle settle;
  gboolean fresh; /* no reading since it was connected */
  gboolean old;   /* the load lay there before */
  gboolean hasty;
  gint64 line_us; /* when the last line came in, and the last reading */
  gint64 reading_us;
  TgScaleReading now;                         /* not a reading: unknown */
  TgScaleLinkLine lines[TG_SCALE_LINK_LINES]; /* a ring, @n_lines in all */
  guint n_lines;
  char *problem; /* why the port could not be opened */
  char *unsaved; /* why the settings could not be saved */
  guint look_source, show_source, quiet_source;
};

enum
{
  SIGNAL_CHANGED,
  SIGNAL_READING,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgScaleLink, tg_scale_link, G_TYPE_OBJECT)

static void
tell (TgScaleLink *self)
{
  g_clear_handle_id (&self->show_source, g_source_remove);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static gboolean
on_show (gpointer data)
{
  TgScaleLink *self = data;

  self->show_source = 0;
  tell (self);
  return G_SOURCE_REMOVE;
}

static void
tell_soon (TgScaleLink *self)
{
  if (self->show_source == 0)
    self->show_source = g_timeout_add (SHOW_MS, on_show, self);
}

/* --- settings -------------------------------------------------------------------------------- */

static char *
read_text (GKeyFile *keys, const char *key)
{
  char *text = g_key_file_get_string (keys, GROUP, key, NULL);

  return text ? text : g_strdup ("");
}

static void
load (TgScaleLink *self)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autofree char *settings = NULL;
  g_autofree char *pattern = NULL;
  g_autoptr (GBytes) request = NULL;
  g_autoptr (GError) error = NULL;
  int in_a_row;

  g_key_file_load_from_file (keys, self->file, G_KEY_FILE_NONE, NULL);
  self->port_path = read_text (keys, "port");
  settings = read_text (keys, "settings");
  tg_scale_settings_from_text (settings, &self->settings);
  self->request = read_text (keys, "request");
  request = tg_scale_request_parse (self->request, NULL);
  if (!request)
    self->request[0] = '\0';
  pattern = read_text (keys, "pattern");
  self->has_pattern = tg_scale_pattern_from_text (pattern, &self->pattern);
  in_a_row = g_key_file_get_integer (keys, GROUP, "in-a-row", &error);
  if (!error && in_a_row >= 0 && in_a_row <= TG_SCALE_LINK_MAX_ROW)
    self->settle.in_a_row = (guint) in_a_row;
  self->wanted = self->port_path[0] && g_key_file_get_boolean (keys, GROUP, "connected", NULL);
}

static void
save (TgScaleLink *self)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autofree char *folder = g_path_get_dirname (self->file);
  g_autofree char *settings = tg_scale_settings_to_text (&self->settings);
  g_autofree char *pattern = self->has_pattern ? tg_scale_pattern_to_text (&self->pattern) : NULL;
  g_autoptr (GError) error = NULL;

  g_key_file_set_string (keys, GROUP, "port", self->port_path);
  g_key_file_set_string (keys, GROUP, "settings", settings);
  g_key_file_set_string (keys, GROUP, "request", self->request);
  if (pattern)
    g_key_file_set_string (keys, GROUP, "pattern", pattern);
  g_key_file_set_integer (keys, GROUP, "in-a-row", (int) self->settle.in_a_row);
  g_key_file_set_boolean (keys, GROUP, "connected", self->wanted);
  g_mkdir_with_parents (folder, 0700);
  g_clear_pointer (&self->unsaved, g_free);
  if (!g_key_file_save_to_file (keys, self->file, &error))
    self->unsaved = g_strdup_printf ("What is set here could not be kept for the next time: %s",
                                     error->message);
}

/* --- lines ----------------------------------------------------------------------------------- */

static void
remember_line (TgScaleLink *self, const char *text, gsize length, const TgScaleReading *reading)
{
  TgScaleLinkLine *last =
      &self->lines[(self->n_lines + TG_SCALE_LINK_LINES - 1) % TG_SCALE_LINK_LINES];

  if (self->n_lines > 0 && last->length == length && memcmp (last->text, text, length) == 0)
    {
      last->count++;
      return;
    }
  last = &self->lines[self->n_lines++ % TG_SCALE_LINK_LINES];
  memcpy (last->text, text, length);
  last->length = length;
  last->count = 1;
  last->reading = *reading;
}

/* TRUE if a reading comes too soon for somebody to have pressed the key of the scale. */
static gboolean
is_hasty (TgScaleLink *self)
{
  gint64 before = self->reading_us;

  self->reading_us = g_get_monotonic_time ();
  return self->settle.in_a_row == 0 && before > 0 && self->reading_us - before < KEY_US;
}

static void
take_in (TgScaleLink *self, const TgScaleReading *reading)
{
  gboolean taken = FALSE;
  TgMass mass;

  if (reading->kind == TG_SCALE_LINE_READING)
    {
      self->now = *reading;
      self->hasty = is_hasty (self);
      if (self->fresh && self->settle.in_a_row > 0)
        {
          self->settle.armed = FALSE;
          self->settle.handed = reading->mass;
          self->old = TRUE;
        }
      self->fresh = FALSE;
    }
  if (self->hasty || !tg_scale_settle_feed (&self->settle, reading, &mass))
    {
      self->old = self->old && !self->settle.armed;
      return;
    }
  g_signal_emit (self, signals[SIGNAL_READING], 0, (gint64) mass, &taken);
  self->old = !taken;
}

static void
on_line (G_GNUC_UNUSED TgScalePort *port, const char *line, gsize length, gpointer data)
{
  g_autoptr (TgScaleLink) self = g_object_ref (TG_SCALE_LINK (data));
  TgScaleReading reading = { TG_SCALE_LINE_EMPTY, 0, TG_SCALE_REST_UNKNOWN };

  self->line_us = g_get_monotonic_time ();
  if (self->has_pattern)
    reading = tg_scale_pattern_read (&self->pattern, line, length);
  remember_line (self, line, length, &reading);
  if (self->has_pattern)
    take_in (self, &reading);
  tell_soon (self);
}

static void
forget_load (TgScaleLink *self)
{
  self->now = (TgScaleReading){ TG_SCALE_LINE_EMPTY, 0, TG_SCALE_REST_UNKNOWN };
  self->settle = tg_scale_settle_new (self->settle.step, self->settle.in_a_row);
  self->fresh = TRUE;
  self->old = FALSE;
  self->hasty = FALSE;
  self->reading_us = 0;
}

static gboolean
on_quiet (gpointer data)
{
  TgScaleLink *self = data;

  /* One that sends by its key is quiet most of the time. */
  if (self->settle.in_a_row > 0 && self->now.kind == TG_SCALE_LINE_READING &&
      g_get_monotonic_time () - self->line_us > QUIET_US)
    {
      self->now.kind = TG_SCALE_LINE_EMPTY;
      self->settle.run = 0;
      tell (self);
    }
  return G_SOURCE_CONTINUE;
}

/* --- the port -------------------------------------------------------------------------------- */

static void
on_gone (G_GNUC_UNUSED TgScalePort *port, gpointer data)
{
  TgScaleLink *self = data;

  forget_load (self);
  tell (self);
}

static void
on_back (G_GNUC_UNUSED TgScalePort *port, gpointer data)
{
  tell (data);
}

static void
drop_port (TgScaleLink *self)
{
  g_clear_handle_id (&self->look_source, g_source_remove);
  g_clear_handle_id (&self->quiet_source, g_source_remove);
  g_clear_pointer (&self->port, tg_scale_port_free);
  g_clear_pointer (&self->problem, g_free);
  forget_load (self);
}

static gboolean
open_port (TgScaleLink *self, GError **error)
{
  static const TgScaleCallbacks callbacks = { on_line, on_gone, on_back };
  g_autoptr (GBytes) request = tg_scale_request_parse (self->request, error);

  if (!request)
    return FALSE;
  self->port = tg_scale_port_open (self->port_path, &self->settings, &callbacks, self, error);
  if (!self->port)
    return FALSE;
  tg_scale_port_set_request (self->port, request, ASK_MS);
  self->quiet_source = g_timeout_add_seconds (1, on_quiet, self);
  return TRUE;
}

static gboolean
on_look (gpointer data)
{
  TgScaleLink *self = data;
  g_autoptr (GError) error = NULL;

  if (open_port (self, &error))
    {
      self->look_source = 0;
      g_clear_pointer (&self->problem, g_free);
      tell (self);
      return G_SOURCE_REMOVE;
    }
  if (g_strcmp0 (self->problem, error->message) != 0)
    {
      g_free (self->problem);
      self->problem = g_strdup (error->message);
      tell (self);
    }
  return G_SOURCE_CONTINUE;
}

void
tg_scale_link_resume (TgScaleLink *link)
{
  g_return_if_fail (TG_IS_SCALE_LINK (link));

  if (!link->wanted || link->port || link->look_source)
    return;
  if (on_look (link) == G_SOURCE_CONTINUE)
    link->look_source = g_timeout_add (LOOK_AGAIN_MS, on_look, link);
}

gboolean
tg_scale_link_connect (TgScaleLink *link, const TgScaleLinkSetup *setup, GError **error)
{
  char *path, *request;

  g_return_val_if_fail (TG_IS_SCALE_LINK (link), FALSE);
  g_return_val_if_fail (setup->port[0] != '\0', FALSE);

  drop_port (link);
  path = g_strdup (setup->port);
  request = g_strdup (setup->request);
  g_free (link->port_path);
  g_free (link->request);
  link->port_path = path;
  link->request = request;
  link->settings = setup->settings;
  link->wanted = open_port (link, error);
  save (link);
  tell (link);
  return link->wanted;
}

void
tg_scale_link_disconnect (TgScaleLink *link)
{
  g_return_if_fail (TG_IS_SCALE_LINK (link));

  drop_port (link);
  link->wanted = FALSE;
  save (link);
  tell (link);
}

/* --- what it is set to ----------------------------------------------------------------------- */

TgScaleLinkState
tg_scale_link_state (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), TG_SCALE_LINK_OFF);

  if (!link->wanted)
    return TG_SCALE_LINK_OFF;
  if (!link->port || !tg_scale_port_is_there (link->port))
    return TG_SCALE_LINK_GONE;
  return link->has_pattern ? TG_SCALE_LINK_LISTENING : TG_SCALE_LINK_LEARNING;
}

TgScaleLinkSetup
tg_scale_link_setup (TgScaleLink *link)
{
  TgScaleLinkSetup setup = { "", tg_scale_settings_default (), "" };

  g_return_val_if_fail (TG_IS_SCALE_LINK (link), setup);

  return (TgScaleLinkSetup){ link->port_path, link->settings, link->request };
}

const char *
tg_scale_link_problem (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), NULL);

  return link->problem;
}

const char *
tg_scale_link_unsaved (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), NULL);

  return link->unsaved;
}

GPtrArray *
tg_scale_link_ports (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), NULL);

  return tg_scale_port_list (link->dev, link->tty);
}

void
tg_scale_link_set_pattern (TgScaleLink *link, const TgScalePattern *pattern)
{
  g_return_if_fail (TG_IS_SCALE_LINK (link));

  link->has_pattern = pattern != NULL;
  if (pattern)
    link->pattern = *pattern;
  for (guint i = 0; i < TG_SCALE_LINK_LINES; i++)
    if (pattern)
      link->lines[i].reading = tg_scale_pattern_read (pattern, link->lines[i].text,
                                                      link->lines[i].length);
  forget_load (link);
  save (link);
  tell (link);
}

const TgScalePattern *
tg_scale_link_pattern (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), NULL);

  return link->has_pattern ? &link->pattern : NULL;
}

void
tg_scale_link_set_in_a_row (TgScaleLink *link, guint in_a_row)
{
  g_return_if_fail (TG_IS_SCALE_LINK (link));
  g_return_if_fail (in_a_row <= TG_SCALE_LINK_MAX_ROW);

  if (link->settle.in_a_row == in_a_row)
    return;
  link->settle.in_a_row = in_a_row;
  forget_load (link);
  save (link);
  tell (link);
}

guint
tg_scale_link_in_a_row (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), 0);

  return link->settle.in_a_row;
}

void
tg_scale_link_set_step (TgScaleLink *link, TgMass step)
{
  g_return_if_fail (TG_IS_SCALE_LINK (link));
  g_return_if_fail (step > 0);

  link->settle.step = step;
}

TgMass
tg_scale_link_step (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), DEFAULT_STEP);

  return link->settle.step;
}

/* --- what it shows --------------------------------------------------------------------------- */

TgScaleLoad
tg_scale_link_load (TgScaleLink *link, TgMass *mass)
{
  const TgScaleSettle *settle;
  gboolean standing;

  g_return_val_if_fail (TG_IS_SCALE_LINK (link), TG_SCALE_LOAD_UNKNOWN);

  if (link->now.kind != TG_SCALE_LINE_READING)
    return TG_SCALE_LOAD_UNKNOWN;
  settle = &link->settle;
  *mass = link->now.mass;
  standing = link->now.rest == TG_SCALE_REST_STANDING ||
             (link->now.rest == TG_SCALE_REST_UNKNOWN && settle->run >= settle->in_a_row);
  if (link->hasty)
    return TG_SCALE_LOAD_HASTY;
  if (!standing)
    return TG_SCALE_LOAD_MOVING;
  if (link->now.mass <= TG_SCALE_SETTLE_STEPS * settle->step)
    return TG_SCALE_LOAD_EMPTY;
  return link->old ? TG_SCALE_LOAD_OLD : TG_SCALE_LOAD_READ;
}

guint
tg_scale_link_n_lines (TgScaleLink *link)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), 0);

  return MIN (link->n_lines, TG_SCALE_LINK_LINES);
}

const TgScaleLinkLine *
tg_scale_link_line (TgScaleLink *link, guint index)
{
  g_return_val_if_fail (TG_IS_SCALE_LINK (link), NULL);
  g_return_val_if_fail (index < tg_scale_link_n_lines (link), NULL);

  return &link->lines[(link->n_lines - 1 - index) % TG_SCALE_LINK_LINES];
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_scale_link_dispose (GObject *object)
{
  TgScaleLink *self = TG_SCALE_LINK (object);

  g_clear_handle_id (&self->show_source, g_source_remove);
  drop_port (self);
  G_OBJECT_CLASS (tg_scale_link_parent_class)->dispose (object);
}

static void
tg_scale_link_finalize (GObject *object)
{
  TgScaleLink *self = TG_SCALE_LINK (object);

  g_free (self->file);
  g_free (self->dev);
  g_free (self->tty);
  g_free (self->port_path);
  g_free (self->request);
  g_free (self->unsaved);
  G_OBJECT_CLASS (tg_scale_link_parent_class)->finalize (object);
}

static void
tg_scale_link_class_init (TgScaleLinkClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tg_scale_link_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_scale_link_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", TG_TYPE_SCALE_LINK, G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_READING] = g_signal_new ("reading", TG_TYPE_SCALE_LINK, G_SIGNAL_RUN_LAST, 0,
                                          g_signal_accumulator_true_handled, NULL, NULL,
                                          G_TYPE_BOOLEAN, 1, G_TYPE_INT64);
}

static void
tg_scale_link_init (TgScaleLink *self)
{
  self->settings = tg_scale_settings_default ();
  self->settle = tg_scale_settle_new (DEFAULT_STEP, TG_SCALE_SETTLE_IN_A_ROW);
  forget_load (self);
}

TgScaleLink *
tg_scale_link_new (const char *file, const char *dev, const char *tty)
{
  TgScaleLink *self = g_object_new (TG_TYPE_SCALE_LINK, NULL);

  self->file = g_strdup (file);
  self->dev = g_strdup (dev);
  self->tty = g_strdup (tty);
  load (self);
  return self;
}

TgScaleLink *
tg_scale_link_new_here (void)
{
  g_autofree char *file = g_build_filename (g_get_user_config_dir (), "tenthgram", "scale.ini",
                                            NULL);

  return tg_scale_link_new (file, "/dev", "/sys/class/tty");
}
