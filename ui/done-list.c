/* done-list.c: what was done on one part, or lately, each line with its strike-out
 *
 * The newest few entries of the journal, newest first; the journal page has them all.  Struck entries
 * stay and are shown struck through; the same button puts them back.  Strikes themselves are no lines.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "done-list.h"

#include <string.h>

#include "report.h"
#include "words.h"

struct _TgDoneList
{
  GtkBox parent_instance;
  TgSession *session;
  gulong changed;
  int part;
  guint limit;
  GtkWidget *heading;
  GtkWidget *empty;
  GtkWidget *rows;
};

enum
{
  PROP_SESSION = 1,
  PROP_PART,
  PROP_LIMIT,
  N_PROPS
};

enum
{
  SIGNAL_STRUCK,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgDoneList, tg_done_list, GTK_TYPE_BOX)

static void
on_strike (GtkButton *button, TgDoneList *self)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "tg-event"));
  g_autoptr (TgSession) session = g_object_ref (self->session);
  g_autoptr (GError) error = NULL;

  if (tg_session_toggle_strike (session, index, &error))
    g_signal_emit (self, signals[SIGNAL_STRUCK], 0);
  else
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
}

static gboolean
fits (TgDoneList *self, const TgReview *review, const TgEvent *event)
{
  if (event->kind == TG_EVENT_STRIKE)
    return FALSE;
  return self->part < 0 ||
         strcmp (event->part, tg_review_part (review, (guint) self->part)->part->id) == 0;
}

static char *
format_when (TgDoneList *self, const TgEvent *event)
{
  const TgJob *job = tg_session_job (self->session);
  const TgEvent *last = tg_job_event (job, tg_job_n_events (job) - 1);
  g_autofree char *time = tg_stamp_format_time (event->stamp);
  g_autofree char *day = NULL;

  if (tg_stamp_day (event->stamp) == tg_stamp_day (last->stamp))
    return g_steal_pointer (&time);
  day = tg_stamp_format_day (event->stamp);
  /* The year is the journal's to say. */
  if (strlen (day) > 5)
    day[strlen (day) - 5] = '\0';
  return g_strconcat (day, " ", time, NULL);
}

static GtkWidget *
strike_button (TgDoneList *self, guint index, gboolean struck, const char *sentence)
{
  GtkWidget *button = gtk_button_new_from_icon_name (struck ? "edit-redo-symbolic"
                                                            : "edit-undo-symbolic");
  g_autofree char *name = g_strdup_printf ("%s: %s", struck ? "Put back" : "Strike out", sentence);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (button, struck ? "Put back" : "Strike out");
  tg_words_name (button, name);
  g_object_set_data (G_OBJECT (button), "tg-event", GUINT_TO_POINTER (index));
  g_signal_connect (button, "clicked", G_CALLBACK (on_strike), self);
  return button;
}

static GtkWidget *
make_row (TgDoneList *self, const TgReview *review, guint index)
{
  const TgEvent *event = tg_job_event (tg_session_job (self->session), index);
  gboolean struck = review->struck[index];
  g_autofree char *when = format_when (self, event);
  g_autofree char *sentence = tg_report_entry (review, tg_session_job (self->session), index);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *time = gtk_label_new (when);
  GtkWidget *text = gtk_label_new (NULL);

  gtk_widget_add_css_class (time, "quiet");
  gtk_widget_add_css_class (time, "small");
  gtk_widget_add_css_class (time, "figures");
  gtk_label_set_xalign (GTK_LABEL (time), 0);
  tg_words_show (GTK_LABEL (text), sentence);
  gtk_label_set_xalign (GTK_LABEL (text), 0);
  gtk_label_set_wrap (GTK_LABEL (text), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (text), PANGO_WRAP_WORD_CHAR);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  if (struck)
    gtk_widget_add_css_class (text, "struck");
  gtk_box_append (GTK_BOX (words), time);
  gtk_box_append (GTK_BOX (words), text);
  gtk_box_append (GTK_BOX (row), words);
  gtk_box_append (GTK_BOX (row), strike_button (self, index, struck, sentence));
  return row;
}

static void
clear_rows (TgDoneList *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->rows)))
    gtk_box_remove (GTK_BOX (self->rows), child);
}

static void
refresh (TgDoneList *self)
{
  const TgReview *review;
  const TgJob *job;
  g_autofree char *heading = NULL;
  guint shown = 0;

  if (!self->session)
    return;
  review = tg_session_review (self->session);
  job = tg_session_job (self->session);
  clear_rows (self);
  for (guint i = tg_job_n_events (job); i-- > 0 && shown < self->limit;)
    if (fits (self, review, tg_job_event (job, i)))
      {
        gtk_box_append (GTK_BOX (self->rows), make_row (self, review, i));
        shown++;
      }
  gtk_widget_set_visible (self->empty, shown == 0);
  heading = self->part >= 0
                ? g_strdup_printf ("%s, what was done",
                                   tg_review_part (review, (guint) self->part)->part->name)
                : g_strdup ("Last entries");
  gtk_label_set_text (GTK_LABEL (self->heading), heading);
}

static void
tg_done_list_dispose (GObject *object)
{
  tg_done_list_set_session (TG_DONE_LIST (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_DONE_LIST);
  G_OBJECT_CLASS (tg_done_list_parent_class)->dispose (object);
}

static void
tg_done_list_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgDoneList *self = TG_DONE_LIST (object);

  switch (id)
    {
    case PROP_SESSION:
      g_value_set_object (value, self->session);
      break;
    case PROP_PART:
      g_value_set_int (value, self->part);
      break;
    case PROP_LIMIT:
      g_value_set_uint (value, self->limit);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_done_list_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgDoneList *self = TG_DONE_LIST (object);

  switch (id)
    {
    case PROP_SESSION:
      tg_done_list_set_session (self, g_value_get_object (value));
      break;
    case PROP_PART:
      tg_done_list_set_part (self, g_value_get_int (value));
      break;
    case PROP_LIMIT:
      self->limit = g_value_get_uint (value);
      refresh (self);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_done_list_class_init (TgDoneListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = tg_done_list_dispose;
  object_class->get_property = tg_done_list_get_property;
  object_class->set_property = tg_done_list_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION, flags);
  properties[PROP_PART] = g_param_spec_int ("part", NULL, NULL, -1, G_MAXINT, -1, flags);
  properties[PROP_LIMIT] = g_param_spec_uint ("limit", NULL, NULL, 1, G_MAXUINT, 12, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[SIGNAL_STRUCK] = g_signal_new ("struck", TG_TYPE_DONE_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/done-list.ui");
  gtk_widget_class_bind_template_child (widget_class, TgDoneList, heading);
  gtk_widget_class_bind_template_child (widget_class, TgDoneList, empty);
  gtk_widget_class_bind_template_child (widget_class, TgDoneList, rows);
}

static void
tg_done_list_init (TgDoneList *self)
{
  self->part = -1;
  self->limit = 12;
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_done_list_new (void)
{
  return g_object_new (TG_TYPE_DONE_LIST, NULL);
}

void
tg_done_list_set_session (TgDoneList *list, TgSession *session)
{
  g_return_if_fail (TG_IS_DONE_LIST (list));

  if (list->session)
    g_clear_signal_handler (&list->changed, list->session);
  g_set_object (&list->session, session);
  if (!session)
    return;
  list->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), list);
  refresh (list);
}

void
tg_done_list_set_part (TgDoneList *list, int part)
{
  g_return_if_fail (TG_IS_DONE_LIST (list));

  list->part = part;
  refresh (list);
}
