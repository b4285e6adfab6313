/* journal-page.c: everything that was done, day by day
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The newest line stands last and is in sight when the page opens.  Lines are words that the core
 * makes (tg_report_event()); the page shows, strikes out, filters by part and adds notes.
 */
#include "journal-page.h"

#include <string.h>

#include "clamp.h"
#include "fold.h"
#include "journal-model.h"
#include "journal-row.h"
#include "report.h"
#include "words.h"

/* frames in which the end of the list is asked for */
#define SCROLLS 3

struct _TgJournalPage
{
  GtkBox parent_instance;
  GtkDropDown *filter;
  GtkWidget *strike;
  GtkLabel *problem;
  GtkStack *stack;
  GtkListView *list;
  GtkEntry *note;
  GtkWidget *add;
  TgJournalModel *model;
  GtkSingleSelection *selection;
  TgSession *session;
  guint scroll_tick;
  guint scrolls_left;
  gboolean filling;
};

enum
{
  PROP_0,
  PROP_SESSION,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgJournalPage, tg_journal_page, GTK_TYPE_BOX)

GtkWidget *
tg_journal_page_new (void)
{
  return g_object_new (TG_TYPE_JOURNAL_PAGE, NULL);
}

/* -- lines ------------------------------------------------------------------------------------ */

static void
show_day (TgJournalPage *self, TgJournalRow *row, guint index)
{
  const TgDay *day = g_ptr_array_index (tg_session_review (self->session)->days, index);
  g_autoptr (GString) summary = g_string_new (NULL);
  const struct
  {
    guint n;
    const char *one, *many;
  } counts[] = { { day->weighings, "reading", "readings" },
                 { day->passes, "pass", "passes" },
                 { day->decisions, "decision", "decisions" },
                 { day->struck, "line struck out", "lines struck out" } };

  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    if (counts[i].n > 0)
      g_string_append_printf (summary, "%s%u %s", summary->len > 0 ? ", " : "", counts[i].n,
                              counts[i].n == 1 ? counts[i].one : counts[i].many);
  tg_journal_row_show_day (row, day->label, summary->str);
}

/* (transfer full): the sentence of an event; of a strike with what it strikes. */
static char *
sentence_of (TgJournalPage *self, guint index)
{
  const TgJob *job = tg_session_job (self->session);
  const TgEvent *event = tg_job_event (job, index);
  g_autofree char *inner = NULL;
  int refers;

  if (event->kind != TG_EVENT_STRIKE)
    return tg_report_entry (tg_session_review (self->session), job, index);
  refers = tg_job_find_event (job, event->refers);
  if (refers < 0 || tg_job_event (job, refers)->kind == TG_EVENT_STRIKE)
    return g_strdup ("Put back what was struck out");
  inner = tg_report_entry (tg_session_review (self->session), job, (guint) refers);
  return g_strdup_printf ("Struck out: %s", inner);
}

static void
show_event (TgJournalPage *self, TgJournalRow *row, TgJournalLine *line)
{
  const TgJob *job = tg_session_job (self->session);
  const TgEvent *event = tg_job_event (job, tg_journal_line_get_index (line));
  g_autofree char *time = tg_stamp_format_time (event->stamp);
  g_autofree char *sentence = sentence_of (self, (guint) tg_journal_line_get_index (line));
  g_autofree char *struck = NULL;
  int by = tg_journal_line_get_struck_by (line);

  if (by >= 0)
    {
      const TgEvent *strike = tg_job_event (job, by);
      g_autofree char *day = tg_stamp_format_day (strike->stamp);
      g_autofree char *at = tg_stamp_format_time (strike->stamp);

      struck = g_strdup_printf ("struck out %s, %s%s%s", day, at, strike->who[0] ? " by " : "",
                                strike->who);
    }
  tg_journal_row_show_event (row, time, sentence, event->who, struck);
}

static void
on_setup (GtkSignalListItemFactory *factory G_GNUC_UNUSED, GtkListItem *item)
{
  GtkWidget *clamp = g_object_new (TG_TYPE_CLAMP, "maximum-width", 820, NULL);

  gtk_widget_insert_before (tg_journal_row_new (), clamp, NULL);
  gtk_list_item_set_child (item, clamp);
}

static void
on_bind (GtkSignalListItemFactory *factory G_GNUC_UNUSED, GtkListItem *item, TgJournalPage *self)
{
  TgJournalLine *line = gtk_list_item_get_item (item);
  TgJournalRow *row = TG_JOURNAL_ROW (gtk_widget_get_first_child (gtk_list_item_get_child (item)));

  gtk_list_item_set_selectable (item, !tg_journal_line_is_day (line));
  gtk_list_item_set_activatable (item, FALSE);
  if (!self->session)
    return;
  if (tg_journal_line_is_day (line))
    show_day (self, row, tg_journal_line_get_index (line));
  else
    show_event (self, row, line);
}

/* -- refreshing ------------------------------------------------------------------------------- */

/* A list knows the heights of its rows only after it was laid out, and those of rows further down
 * only after it was scrolled there once; so the end is asked for again over a few frames. */
static gboolean
scroll_to_end (GtkWidget *list, GdkFrameClock *clock G_GNUC_UNUSED, gpointer data)
{
  TgJournalPage *self = data;
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->model));

  if (n == 0 || self->scrolls_left == 0)
    {
      self->scroll_tick = 0;
      return G_SOURCE_REMOVE;
    }
  if (gtk_widget_get_height (list) > 0)
    {
      gtk_widget_activate_action (list, "list.scroll-to-item", "u", n - 1);
      self->scrolls_left--;
    }
  return G_SOURCE_CONTINUE;
}

static void
scroll_soon (TgJournalPage *self)
{
  self->scrolls_left = SCROLLS;
  if (self->scroll_tick == 0)
    self->scroll_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self->list), scroll_to_end, self,
                                                      NULL);
}

/* (nullable) (lends): the line that is selected, if it is an event's */
static TgJournalLine *
selected_line (TgJournalPage *self)
{
  TgJournalLine *line = gtk_single_selection_get_selected_item (self->selection);

  return line && !tg_journal_line_is_day (line) ? line : NULL;
}

static void
on_selection (TgJournalPage *self)
{
  TgJournalLine *line = selected_line (self);

  gtk_widget_set_sensitive (self->strike, line != NULL);
  gtk_button_set_label (GTK_BUTTON (self->strike), line && tg_journal_line_get_struck_by (line) >= 0
                                                       ? "Put back"
                                                       : "Strike out");
}

static void
show_lines (TgJournalPage *self)
{
  guint at = gtk_drop_down_get_selected (self->filter);
  const GPtrArray *parts = self->session ? tg_session_review (self->session)->parts : NULL;
  const char *part = NULL;

  if (parts && at > 0 && at <= parts->len)
    part = tg_review_part (tg_session_review (self->session), at - 1)->part->id;
  tg_journal_model_update (self->model, self->session, part);
  gtk_stack_set_visible_child_name (
      self->stack, g_list_model_get_n_items (G_LIST_MODEL (self->model)) > 0 ? "list" : "empty");
  on_selection (self);
}

static void
show_problem (TgJournalPage *self, const char *text)
{
  tg_words_show (self->problem, text);
  gtk_widget_set_visible (GTK_WIDGET (self->problem), text != NULL);
}

static void
on_changed (TgJournalPage *self)
{
  TgJournalLine *line = selected_line (self);
  int keep = line ? (int) tg_journal_line_get_index (line) : -1;
  guint before = g_list_model_get_n_items (G_LIST_MODEL (self->model));

  show_lines (self);
  if (keep >= 0)
    tg_journal_page_select (self, keep);
  else if (g_list_model_get_n_items (G_LIST_MODEL (self->model)) > before)
    scroll_soon (self);
}

static void
fill_filter (TgJournalPage *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  const TgReview *review = self->session ? tg_session_review (self->session) : NULL;

  gtk_string_list_append (names, "All parts");
  for (guint i = 0; review && i < review->parts->len; i++)
    gtk_string_list_append (names, tg_review_part (review, i)->part->name);
  self->filling = TRUE;
  gtk_drop_down_set_model (self->filter, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->filter, 0);
  self->filling = FALSE;
}

/* -- what the person does --------------------------------------------------------------------- */

void
tg_journal_page_select (TgJournalPage *self, guint index)
{
  guint at;

  g_return_if_fail (TG_IS_JOURNAL_PAGE (self));

  at = tg_journal_model_find_event (self->model, index);
  gtk_single_selection_set_selected (self->selection,
                                     at == G_MAXUINT ? GTK_INVALID_LIST_POSITION : at);
  on_selection (self);
}

gboolean
tg_journal_page_toggle_strike (TgJournalPage *self)
{
  g_autoptr (GError) error = NULL;
  TgJournalLine *line;
  gboolean done;

  g_return_val_if_fail (TG_IS_JOURNAL_PAGE (self), FALSE);

  line = selected_line (self);
  if (!self->session || !line)
    return FALSE;
  done = tg_session_toggle_strike (self->session, tg_journal_line_get_index (line), &error);
  show_problem (self, done ? NULL : error->message);
  return done;
}

gboolean
tg_journal_page_add_note (TgJournalPage *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_NOTE);
  guint at;
  gboolean done;

  g_return_val_if_fail (TG_IS_JOURNAL_PAGE (self), FALSE);

  text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->note))));
  if (!self->session || text[0] == '\0')
    return FALSE;
  at = gtk_drop_down_get_selected (self->filter);
  if (at > 0 && at != GTK_INVALID_LIST_POSITION)
    event.part = tg_review_part (tg_session_review (self->session), at - 1)->part->id;
  event.text = text;
  gtk_single_selection_set_selected (self->selection, GTK_INVALID_LIST_POSITION);
  done = tg_session_append (self->session, &event, 1, &error);
  show_problem (self, done ? NULL : error->message);
  if (done)
    gtk_editable_set_text (GTK_EDITABLE (self->note), "");
  return done;
}

static void
on_strike (TgJournalPage *self)
{
  tg_journal_page_toggle_strike (self);
}

static void
on_note (TgJournalPage *self)
{
  tg_journal_page_add_note (self);
}

static void
on_note_changed (TgJournalPage *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->note));

  gtk_widget_set_sensitive (self->add, self->session && text[strspn (text, " ")] != '\0');
}

static void
on_filter (TgJournalPage *self)
{
  if (self->filling)
    return;
  gtk_single_selection_set_selected (self->selection, GTK_INVALID_LIST_POSITION);
  show_lines (self);
  scroll_soon (self);
}

static gboolean
on_key (GtkEventControllerKey *keys,
        guint key,
        guint code G_GNUC_UNUSED,
        GdkModifierType state G_GNUC_UNUSED,
        gpointer data G_GNUC_UNUSED)
{
  GtkWidget *list = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys));

  if (key != GDK_KEY_Delete && key != GDK_KEY_KP_Delete)
    return GDK_EVENT_PROPAGATE;
  tg_journal_page_toggle_strike (
      TG_JOURNAL_PAGE (gtk_widget_get_ancestor (list, TG_TYPE_JOURNAL_PAGE)));
  return GDK_EVENT_STOP;
}

GListModel *
tg_journal_page_get_lines (TgJournalPage *self)
{
  g_return_val_if_fail (TG_IS_JOURNAL_PAGE (self), NULL);

  return G_LIST_MODEL (self->model);
}

/* -- the object ------------------------------------------------------------------------------- */

static void
set_session (TgJournalPage *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  tg_journal_model_update (self->model, NULL, NULL);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_object (session, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  fill_filter (self);
  show_problem (self, NULL);
  show_lines (self);
  on_note_changed (self);
  scroll_soon (self);
}

static void
tg_journal_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_JOURNAL_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_journal_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_JOURNAL_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_journal_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (tg_journal_page_parent_class)->map (widget);
  scroll_soon (TG_JOURNAL_PAGE (widget));
}

static void
tg_journal_page_dispose (GObject *object)
{
  TgJournalPage *self = TG_JOURNAL_PAGE (object);

  if (self->scroll_tick)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self->list), self->scroll_tick);
  self->scroll_tick = 0;
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_JOURNAL_PAGE);
  g_clear_object (&self->selection);
  g_clear_object (&self->model);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tg_journal_page_parent_class)->dispose (object);
}

static void
tg_journal_page_class_init (TgJournalPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_FOLD);
  object_class->get_property = tg_journal_page_get_property;
  object_class->set_property = tg_journal_page_set_property;
  object_class->dispose = tg_journal_page_dispose;
  widget_class->map = tg_journal_page_map;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/journal-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgJournalPage, filter);
  gtk_widget_class_bind_template_child (widget_class, TgJournalPage, strike);
  gtk_widget_class_bind_template_child (widget_class, TgJournalPage, problem);
  gtk_widget_class_bind_template_child (widget_class, TgJournalPage, stack);
  gtk_widget_class_bind_template_child (widget_class, TgJournalPage, list);
  gtk_widget_class_bind_template_child (widget_class, TgJournalPage, note);
  gtk_widget_class_bind_template_child (widget_class, TgJournalPage, add);
  gtk_widget_class_bind_template_callback (widget_class, on_filter);
  gtk_widget_class_bind_template_callback (widget_class, on_key);
  gtk_widget_class_bind_template_callback (widget_class, on_note);
  gtk_widget_class_bind_template_callback (widget_class, on_note_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_strike);
}

/* A note can be typed at once; otherwise the focus of the page before would be lost. */
static void
on_map (TgJournalPage *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->note));
}

static void
tg_journal_page_init (TgJournalPage *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  self->model = tg_journal_model_new ();
  self->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->model)));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  gtk_single_selection_set_selected (self->selection, GTK_INVALID_LIST_POSITION);
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_after (self, "map", G_CALLBACK (on_map), NULL);
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), NULL);
  g_signal_connect_object (factory, "bind", G_CALLBACK (on_bind), self, 0);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (on_selection),
                           self, G_CONNECT_SWAPPED);
  fill_filter (self);
  show_lines (self);
}
