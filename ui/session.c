/* session.c: the one object round a job: appends, saves, announces
 *
 * Here, and nowhere below, the clock, the random ids and the person's name come in.  An append goes
 * in this order: into the job, onto the disk, into a new review, out as "changed"; if the disk
 * refuses, the job is put back as it was, so that what is on the screen is always on the disk.
 *
 * Two windows may have the same file open.  The file's identity (device, inode, size, time) is
 * remembered at every load and save; if it differs before the next save and the content differs too,
 * the save is refused, because it would drop what the other window wrote.  There is no lock file:
 * nothing is left over after a crash.
 *
 * It does not merge two benches' files and does not watch the file between saves.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "session.h"

#include <string.h>
#include <sys/stat.h>

#include "error.h"
#include "job-xml.h"
#include "storable.h"

/* What tells one version of a file from another. */
typedef struct
{
  dev_t device;
  ino_t inode;
  off_t size;
  struct timespec modified;
} FileMark;

struct _TgSession
{
  GObject parent_instance;
  TgJob *job;
  TgReview *review;
  TgLibrary *library;
  char *path;
  FileMark mark;
  guint part;
  TgPracticeDesk *desk; /* of a practice job */
  GArray *appends;      /* guint: index of the first event of each append of this session */
};

enum
{
  PROP_PART = 1,
  N_PROPS
};

enum
{
  SIGNAL_CHANGED,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgSession, tg_session, G_TYPE_OBJECT)

static void
tg_session_finalize (GObject *object)
{
  TgSession *self = TG_SESSION (object);

  g_clear_pointer (&self->review, tg_review_free);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->job, tg_job_free);
  g_clear_pointer (&self->library, tg_library_free);
  g_array_unref (self->appends);
  g_free (self->path);
  G_OBJECT_CLASS (tg_session_parent_class)->finalize (object);
}

static void
tg_session_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_PART)
    g_value_set_uint (value, TG_SESSION (object)->part);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_session_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_PART)
    tg_session_set_part (TG_SESSION (object), g_value_get_uint (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_session_class_init (TgSessionClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->finalize = tg_session_finalize;
  object_class->get_property = tg_session_get_property;
  object_class->set_property = tg_session_set_property;
  properties[PROP_PART] = g_param_spec_uint ("part", NULL, NULL, 0, G_MAXUINT, 0,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS |
                                                 G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", TG_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 0);
}

static void
tg_session_init (TgSession *self)
{
  self->appends = g_array_new (FALSE, FALSE, sizeof (guint));
}

/* --- the file ------------------------------------------------------------------------------- */

static gboolean
read_mark (const char *path, FileMark *mark)
{
  struct stat st;

  if (stat (path, &st) != 0)
    return FALSE;
  *mark = (FileMark){ st.st_dev, st.st_ino, st.st_size, st.st_mtim };
  return TRUE;
}

static gboolean
marks_equal (const FileMark *a, const FileMark *b)
{
  return a->device == b->device && a->inode == b->inode && a->size == b->size &&
         a->modified.tv_sec == b->modified.tv_sec && a->modified.tv_nsec == b->modified.tv_nsec;
}

/* Refuses if somebody else wrote to the file since it was last read or written here. */
static gboolean
check_untouched (TgSession *self, GError **error)
{
  FileMark now;
  g_autofree char *data = NULL;
  g_autoptr (GString) ours = NULL;
  g_autofree char *shown = NULL;
  gsize size = 0;

  if (!read_mark (self->path, &now) || marks_equal (&now, &self->mark))
    return TRUE;
  ours = tg_job_xml_format (self->job);
  if (g_file_get_contents (self->path, &data, &size, NULL) && size == ours->len &&
      memcmp (data, ours->str, size) == 0)
    return TRUE;
  shown = tg_storable_path (self->path);
  g_set_error (error, TG_ERROR, TG_ERROR_IO,
               "%s was changed by another program or window since it was read here; nothing was "
               "written over it",
               shown);
  return FALSE;
}

gboolean
tg_session_is_stale (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), FALSE);

  return !check_untouched (session, NULL);
}

static gboolean
save (TgSession *self, GError **error)
{
  if (!tg_job_xml_save (self->job, self->path, error))
    return FALSE;
  if (!read_mark (self->path, &self->mark))
    self->mark = (FileMark){ 0 };
  return TRUE;
}

/* --- opening -------------------------------------------------------------------------------- */

static void
renew_review (TgSession *self)
{
  TgReview *old = self->review;

  self->review = tg_review_new (self->job);
  g_clear_pointer (&old, tg_review_free);
}

/* Takes @job. */
static TgSession *
session_new (TgJob *job, const char *path)
{
  TgSession *self = g_object_new (TG_TYPE_SESSION, NULL);

  self->job = job;
  self->path = g_strdup (path);
  renew_review (self);
  if (tg_job_setup (job)->practice.on)
    self->desk = tg_practice_desk_new (job);
  self->part = self->review->next->slot.part;
  return self;
}

TgSession *
tg_session_open (const char *path, GError **error)
{
  FileMark mark = { 0 };
  TgJob *job;
  TgSession *self;

  g_return_val_if_fail (path != NULL, NULL);

  /* Marked before it is read: a change in between is then seen at the next save. */
  read_mark (path, &mark);
  job = tg_job_xml_load (path, error);
  if (!job)
    return NULL;
  self = session_new (job, path);
  self->mark = mark;
  return self;
}

TgSession *
tg_session_create (TgSetup *setup, const char *path, GError **error)
{
  g_autoptr (TgSession) self = NULL;

  g_return_val_if_fail (setup != NULL, NULL);
  g_return_val_if_fail (path != NULL, NULL);

  self = session_new (tg_job_new (setup), path);
  if (!save (self, error))
    return NULL;
  return g_steal_pointer (&self);
}

gboolean
tg_session_reload (TgSession *session, GError **error)
{
  FileMark mark = { 0 };
  TgJob *job;

  g_return_val_if_fail (TG_IS_SESSION (session), FALSE);

  read_mark (session->path, &mark);
  job = tg_job_xml_load (session->path, error);
  if (!job)
    return FALSE;
  tg_job_free (session->job);
  session->job = job;
  session->mark = mark;
  g_array_set_size (session->appends, 0);
  renew_review (session);
  if (!tg_job_setup (job)->practice.on)
    g_clear_object (&session->desk);
  else if (session->desk)
    tg_practice_desk_set_job (session->desk, job);
  else
    session->desk = tg_practice_desk_new (job);
  if (session->part >= session->review->parts->len)
    session->part = 0;
  g_signal_emit (session, signals[SIGNAL_CHANGED], 0);
  return TRUE;
}

/* --- reading -------------------------------------------------------------------------------- */

const TgJob *
tg_session_job (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), NULL);

  return session->job;
}

const TgReview *
tg_session_review (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), NULL);

  return session->review;
}

const TgLibrary *
tg_session_library (TgSession *session)
{
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (TG_IS_SESSION (session), NULL);

  /* Read when it is first asked for. It is carried inside the program: a fault is a broken build. */
  if (!session->library)
    session->library = tg_library_load (&error);
  if (!session->library)
    g_error ("The library is broken: %s", error->message);
  return session->library;
}

const char *
tg_session_path (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), NULL);

  return session->path;
}

TgPracticeDesk *
tg_session_desk (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), NULL);

  return session->desk;
}

guint
tg_session_part (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), 0);

  return session->part;
}

void
tg_session_set_part (TgSession *session, guint part)
{
  g_return_if_fail (TG_IS_SESSION (session));
  g_return_if_fail (part < session->review->parts->len);

  if (session->part == part)
    return;
  session->part = part;
  g_object_notify_by_pspec (G_OBJECT (session), properties[PROP_PART]);
}

/* --- appending ------------------------------------------------------------------------------ */

static TgStamp
stamp_now (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  return (TgStamp){ g_date_time_to_unix (now),
                    (gint) (g_date_time_get_utc_offset (now) / G_TIME_SPAN_MINUTE) };
}

static const char *
who_is_here (void)
{
  const char *name = g_get_real_name ();

  return name && name[0] && strcmp (name, "Unknown") != 0 ? name : g_get_user_name ();
}

static gboolean
append_to_job (TgSession *self, const TgEvent *event, TgStamp stamp, GError **error)
{
  TgEvent whole = *event;
  g_autofree char *id = g_uuid_string_random ();

  if (event->id[0] == '\0')
    whole.id = id;
  whole.practice = tg_job_setup (self->job)->practice.on;
  whole.stamp = stamp;
  whole.who = who_is_here ();
  return tg_job_append (self->job, &whole, error);
}

gboolean
tg_session_append (TgSession *session, const TgEvent *events, guint n, GError **error)
{
  TgStamp stamp = stamp_now ();
  guint before;
  gboolean ok = TRUE;

  g_return_val_if_fail (TG_IS_SESSION (session), FALSE);
  g_return_val_if_fail (events != NULL && n > 0, FALSE);

  if (!check_untouched (session, error))
    return FALSE;
  before = tg_job_n_events (session->job);
  for (guint i = 0; ok && i < n; i++)
    ok = append_to_job (session, &events[i], stamp, error);
  if (!ok || !save (session, error))
    {
      while (tg_job_n_events (session->job) > before)
        tg_job_drop_last (session->job);
      return FALSE;
    }
  g_array_append_val (session->appends, before);
  if (session->desk)
    tg_practice_desk_follow (session->desk, before);
  renew_review (session);
  g_signal_emit (session, signals[SIGNAL_CHANGED], 0);
  return TRUE;
}

/* The strike that is in force on the event at @index. */
static int
find_strike (TgSession *self, guint index)
{
  const char *id = tg_job_event (self->job, index)->id;

  for (guint i = index + 1; i < tg_job_n_events (self->job); i++)
    {
      const TgEvent *event = tg_job_event (self->job, i);

      if (event->kind == TG_EVENT_STRIKE && !self->review->struck[i] &&
          strcmp (event->refers, id) == 0)
        return (int) i;
    }
  return -1;
}

gboolean
tg_session_toggle_strike (TgSession *session, guint index, GError **error)
{
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);
  int in_force = -1;

  g_return_val_if_fail (TG_IS_SESSION (session), FALSE);
  g_return_val_if_fail (index < tg_job_n_events (session->job), FALSE);

  if (session->review->struck[index])
    in_force = find_strike (session, index);
  strike.refers = tg_job_event (session->job, in_force >= 0 ? (guint) in_force : index)->id;
  return tg_session_append (session, &strike, 1, error);
}

int
tg_session_last_done (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), -1);

  for (guint i = tg_job_n_events (session->job); i-- > 0;)
    {
      TgEventKind kind = tg_job_event (session->job, i)->kind;

      /* a step of a lesson is no deed that could be taken back */
      if (kind != TG_EVENT_STRIKE && kind != TG_EVENT_STEP && !session->review->struck[i])
        return (int) i;
    }
  return -1;
}

static gboolean
is_decision (const TgEvent *event)
{
  return event->kind == TG_EVENT_TARGET || event->kind == TG_EVENT_FREEZE ||
         event->kind == TG_EVENT_REPLACE || event->kind == TG_EVENT_SET ||
         event->kind == TG_EVENT_PAIR;
}

static gboolean
stamps_equal (TgStamp a, TgStamp b)
{
  return a.seconds == b.seconds && a.offset_min == b.offset_min;
}

/* The first event that was appended together with the one at @index: known of what this session
 * appended.  Of what stands in the file, decisions right before it with the same stamp were made in the
 * same breath (targets taken over with a first pass, the events of one choice, a pairing with the
 * targets it frees). */
static int
first_of_append (TgSession *self, int index)
{
  TgStamp stamp = tg_job_event (self->job, (guint) index)->stamp;

  for (guint i = self->appends->len; i-- > 0;)
    if ((int) g_array_index (self->appends, guint, i) <= index)
      return (int) g_array_index (self->appends, guint, i);
  while (index > 0)
    {
      const TgEvent *before = tg_job_event (self->job, (guint) index - 1);

      if (!is_decision (before) || !stamps_equal (before->stamp, stamp))
        break;
      index--;
    }
  return index;
}

gboolean
tg_session_undo (TgSession *session, GError **error)
{
  g_autoptr (GArray) strikes = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  int last = tg_session_last_done (session), first;

  if (last < 0)
    return FALSE;
  first = first_of_append (session, last);
  for (int i = last; i >= first; i--)
    {
      const TgEvent *event = tg_job_event (session->job, (guint) i);
      TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

      if (session->review->struck[i] || event->kind == TG_EVENT_STRIKE)
        continue;
      strike.refers = event->id;
      g_array_append_val (strikes, strike);
    }
  return tg_session_append (session, (const TgEvent *) strikes->data, strikes->len, error);
}

gboolean
tg_session_is_today (TgStamp stamp)
{
  return tg_stamp_day (stamp) == tg_stamp_day (stamp_now ());
}

static gboolean
done_today (TgSession *self, TgEventKind kind)
{
  for (guint i = tg_job_n_events (self->job); i-- > 0;)
    {
      const TgEvent *event = tg_job_event (self->job, i);

      if (event->kind == kind && !self->review->struck[i] && tg_session_is_today (event->stamp))
        return TRUE;
    }
  return FALSE;
}

gboolean
tg_session_first_grinding_today (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), FALSE);

  return !done_today (session, TG_EVENT_PASS);
}

gboolean
tg_session_first_weighing_today (TgSession *session)
{
  g_return_val_if_fail (TG_IS_SESSION (session), FALSE);

  return !done_today (session, TG_EVENT_WEIGHING) && !done_today (session, TG_EVENT_ZERO);
}
