/* journal-model.c: the journal as a list: days and what was done on them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A line is a small value; the object for it is made when the list asks for it, so that a journal of
 * many thousand events costs a few bytes each.  An update tells the list the one stretch that is
 * different, between the lines that stayed at the beginning and at the end.
 */
#include "journal-model.h"

#include <string.h>

typedef struct
{
  gboolean day;
  guint index;
  int struck_by;
} Line;

struct _TgJournalLine
{
  GObject parent_instance;
  Line line;
};

G_DEFINE_FINAL_TYPE (TgJournalLine, tg_journal_line, G_TYPE_OBJECT)

gboolean
tg_journal_line_is_day (TgJournalLine *self)
{
  g_return_val_if_fail (TG_IS_JOURNAL_LINE (self), FALSE);

  return self->line.day;
}

guint
tg_journal_line_get_index (TgJournalLine *self)
{
  g_return_val_if_fail (TG_IS_JOURNAL_LINE (self), 0);

  return self->line.index;
}

int
tg_journal_line_get_struck_by (TgJournalLine *self)
{
  g_return_val_if_fail (TG_IS_JOURNAL_LINE (self), -1);

  return self->line.struck_by;
}

static void
tg_journal_line_class_init (TgJournalLineClass *klass G_GNUC_UNUSED)
{
}

static void
tg_journal_line_init (TgJournalLine *self)
{
  self->line.struck_by = -1;
}

struct _TgJournalModel
{
  GObject parent_instance;
  GArray *lines; /* Line */
};

static void list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (TgJournalModel,
                               tg_journal_model,
                               G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

TgJournalModel *
tg_journal_model_new (void)
{
  return g_object_new (TG_TYPE_JOURNAL_MODEL, NULL);
}

static GType
get_item_type (GListModel *model G_GNUC_UNUSED)
{
  return TG_TYPE_JOURNAL_LINE;
}

static guint
get_n_items (GListModel *model)
{
  return TG_JOURNAL_MODEL (model)->lines->len;
}

static gpointer
get_item (GListModel *model, guint position)
{
  TgJournalModel *self = TG_JOURNAL_MODEL (model);
  TgJournalLine *line;

  if (position >= self->lines->len)
    return NULL;
  line = g_object_new (TG_TYPE_JOURNAL_LINE, NULL);
  line->line = g_array_index (self->lines, Line, position);
  return line;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

/* A strike belongs to the part of what it strikes. */
static gboolean
concerns (const TgJob *job, const TgEvent *event, const char *part)
{
  for (guint depth = 0; event->kind == TG_EVENT_STRIKE && depth < TG_JOB_MAX_EVENTS; depth++)
    {
      int refers = tg_job_find_event (job, event->refers);

      if (refers < 0)
        return FALSE;
      event = tg_job_event (job, refers);
    }
  return strcmp (event->part, part) == 0;
}

/* (transfer full): by event, the index of the strike that counts, or -1 */
static int *
find_strikes (const TgJob *job, const TgReview *review)
{
  guint n = tg_job_n_events (job);
  int *by = g_new (int, n + 1);

  for (guint i = 0; i < n; i++)
    by[i] = -1;
  for (guint i = 0; i < n; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      int refers;

      if (event->kind != TG_EVENT_STRIKE || review->struck[i])
        continue;
      refers = tg_job_find_event (job, event->refers);
      if (refers >= 0 && by[refers] < 0)
        by[refers] = i;
    }
  return by;
}

static GArray *
make_lines (TgSession *session, const char *part)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (Line));
  const TgJob *job = tg_session_job (session);
  const TgReview *review = tg_session_review (session);
  g_autofree int *by = find_strikes (job, review);

  for (guint d = 0; d < review->days->len; d++)
    {
      const TgDay *day = g_ptr_array_index (review->days, d);
      Line line = { TRUE, d, -1 };
      guint head = lines->len;

      g_array_append_val (lines, line);
      for (guint i = day->first; i <= day->last; i++)
        if (!part || concerns (job, tg_job_event (job, i), part))
          {
            line = (Line){ FALSE, i, by[i] };
            g_array_append_val (lines, line);
          }
      if (lines->len == head + 1)
        g_array_set_size (lines, head);
    }
  return lines;
}

static gboolean
equal (const GArray *a, guint i, const GArray *b, guint j)
{
  const Line *x = &g_array_index (a, Line, i);
  const Line *y = &g_array_index (b, Line, j);

  return x->day == y->day && x->index == y->index && x->struck_by == y->struck_by;
}

void
tg_journal_model_update (TgJournalModel *self, TgSession *session, const char *part)
{
  GArray *before, *after;
  guint head = 0, tail = 0;

  g_return_if_fail (TG_IS_JOURNAL_MODEL (self));

  before = self->lines;
  after = session ? make_lines (session, part) : g_array_new (FALSE, FALSE, sizeof (Line));
  while (head < before->len && head < after->len && equal (before, head, after, head))
    head++;
  while (tail < before->len - head && tail < after->len - head &&
         equal (before, before->len - 1 - tail, after, after->len - 1 - tail))
    tail++;
  self->lines = after;
  if (before->len != head + tail || after->len != head + tail)
    g_list_model_items_changed (G_LIST_MODEL (self), head, before->len - head - tail,
                                after->len - head - tail);
  g_array_unref (before);
}

guint
tg_journal_model_find_event (TgJournalModel *self, guint index)
{
  g_return_val_if_fail (TG_IS_JOURNAL_MODEL (self), G_MAXUINT);

  for (guint i = 0; i < self->lines->len; i++)
    {
      const Line *line = &g_array_index (self->lines, Line, i);

      if (!line->day && line->index == index)
        return i;
    }
  return G_MAXUINT;
}

static void
tg_journal_model_finalize (GObject *object)
{
  g_array_unref (TG_JOURNAL_MODEL (object)->lines);
  G_OBJECT_CLASS (tg_journal_model_parent_class)->finalize (object);
}

static void
tg_journal_model_class_init (TgJournalModelClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tg_journal_model_finalize;
}

static void
tg_journal_model_init (TgJournalModel *self)
{
  self->lines = g_array_new (FALSE, FALSE, sizeof (Line));
}
