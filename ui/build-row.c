/* build-row.c: one check of a build card
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ticking it says that it is so, of the part that belongs here.  Where a part is in hand, picking another
 * one from the list says that that one is; the core then tells what is wrong with it.
 */
#include "build-row.h"

#include "why-button.h"
#include "words.h"

struct _TgBuildRow
{
  GtkBox parent_instance;
  GtkCheckButton *check;
  GtkLabel *label;
  TgWhyButton *why;
  GtkLabel *remark;
  GtkDropDown *in_hand;
  GtkLabel *detail;
  TgSession *session;
  guint bore;
  TgBuildCheck what;
  GArray *parts; /* (element-type guint): what the list holds */
  TgPartKind kind;
  guint n_parts; /* of the job, when the list was made */
  gboolean showing;
};

enum
{
  TICKED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgBuildRow, tg_build_row, GTK_TYPE_BOX)

/* What belongs here, or -1. */
static int
part_here (TgBuildRow *self)
{
  TgPartKind kind;

  if (!tg_build_check_kind (self->what, &kind))
    return -1;
  return g_array_index (tg_session_review (self->session)->sets, TgSetReview, self->bore - 1)
      .part[kind];
}

/* Takes back what was ticked here and, if @on, ticks it anew: @part in hand, -1 for none. */
static gboolean
record (TgBuildRow *self, gboolean on, int part)
{
  const TgReview *review = tg_session_review (self->session);
  g_autoptr (GArray)
      events = tg_build_strikes (tg_session_job (self->session), review, self->bore, self->what);
  g_autoptr (GError) error = NULL;
  TgEvent tick = tg_event_blank (TG_EVENT_TICK);

  tick.bore = self->bore;
  tick.check = self->what;
  if (part >= 0)
    tick.part = tg_setup_part (review->setup, (guint) part)->id;
  if (on)
    g_array_append_val (events, tick);
  if (events->len == 0 ||
      tg_session_append (self->session, (const TgEvent *) (gpointer) events->data, events->len,
                         &error))
    return TRUE;
  gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
  return FALSE;
}

static void
on_toggled (TgBuildRow *self)
{
  gboolean on = gtk_check_button_get_active (self->check);

  if (self->showing || !self->session)
    return;
  if (record (self, on, part_here (self)) && on)
    g_signal_emit (self, signals[TICKED], 0);
}

static void
on_in_hand (TgBuildRow *self)
{
  guint at = gtk_drop_down_get_selected (self->in_hand);

  if (self->showing || !self->session || at >= self->parts->len)
    return;
  record (self, TRUE, (int) g_array_index (self->parts, guint, at));
}

/* Every part of the kind; a list that is in use stays as long as it fits. */
static void
list_parts (TgBuildRow *self, TgPartKind kind)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;
  g_autoptr (GtkStringList) names = NULL;

  if (self->parts->len > 0 && self->kind == kind && self->n_parts == setup->parts->len)
    return;
  self->kind = kind;
  self->n_parts = setup->parts->len;
  g_array_set_size (self->parts, 0);
  names = gtk_string_list_new (NULL);
  for (guint i = 0; i < setup->parts->len; i++)
    if (tg_setup_part (setup, i)->design->kind == kind)
      {
        gtk_string_list_append (names, tg_setup_part (setup, i)->name);
        g_array_append_val (self->parts, i);
      }
  gtk_drop_down_set_model (self->in_hand, G_LIST_MODEL (names));
}

/* Which part is in hand; until one is, that of the card. */
static void
show_in_hand (TgBuildRow *self, const TgBuildTick *tick)
{
  int chosen = tick->in_hand >= 0 ? tick->in_hand : part_here (self);
  g_autofree char *name = g_strdup_printf ("%s, bore %u", tg_build_check_label (tick->check),
                                           self->bore);
  guint selected = GTK_INVALID_LIST_POSITION;
  TgPartKind kind;
  gboolean about_part = tg_build_check_kind (tick->check, &kind);

  tg_words_name_choice (self->in_hand, name);
  gtk_widget_set_visible (GTK_WIDGET (self->in_hand), about_part);
  if (!about_part)
    return;
  list_parts (self, kind);
  for (guint i = 0; i < self->parts->len; i++)
    if ((int) g_array_index (self->parts, guint, i) == chosen)
      selected = i;
  if (gtk_drop_down_get_selected (self->in_hand) != selected)
    gtk_drop_down_set_selected (self->in_hand, selected);
}

/* (transfer full): the check with the part or the way that the card asks for */
static char *
words_of (TgBuildRow *self, const char *facing)
{
  const char *label = tg_build_check_label (self->what);
  int part = part_here (self);

  if (part >= 0)
    return g_strdup_printf (
        "%s: %s", label,
        tg_setup_part (tg_session_review (self->session)->setup, (guint) part)->name);
  return facing ? g_strdup_printf ("%s: %s", label, facing) : g_strdup (label);
}

void
tg_build_row_show (
    TgBuildRow *row, TgSession *session, guint bore, const TgBuildTick *tick, const char *facing)
{
  g_autofree char *words = NULL;
  g_autofree char *remark = NULL;
  TgPartKind kind;

  g_return_if_fail (TG_IS_BUILD_ROW (row) && session != NULL && tick != NULL);

  g_set_object (&row->session, session);
  row->bore = bore;
  row->what = tick->check;
  row->showing = TRUE;
  words = words_of (row, facing);
  tg_words_show (row->label, words);
  tg_words_name (GTK_WIDGET (row->check), words);
  gtk_check_button_set_active (row->check, tick->ticked);
  gtk_widget_set_sensitive (GTK_WIDGET (row->check),
                            !tg_build_check_kind (tick->check, &kind) || part_here (row) >= 0);
  remark = g_strdup_printf ("%s: %s", tick->wrong ? "Wrong part" : "Look again", tick->remark);
  tg_words_show (row->remark, remark);
  gtk_widget_set_visible (GTK_WIDGET (row->remark), tick->remark[0] != '\0');
  tg_words_show (row->detail, tg_build_check_detail (tick->check));
  gtk_widget_set_tooltip_text (GTK_WIDGET (row->detail), tg_build_check_source (tick->check));
  show_in_hand (row, tick);
  row->showing = FALSE;
}

void
tg_build_row_explain (TgBuildRow *row, GPtrArray *why)
{
  g_autofree char *explains = NULL;

  g_return_if_fail (TG_IS_BUILD_ROW (row));

  explains = g_strdup_printf ("bore %u: %s", row->bore, tg_build_check_label (row->what));
  tg_why_button_give (row->why, explains, why);
}

void
tg_build_row_focus (TgBuildRow *row)
{
  g_return_if_fail (TG_IS_BUILD_ROW (row));

  gtk_widget_grab_focus (GTK_WIDGET (row->check));
}

static void
tg_build_row_dispose (GObject *object)
{
  TgBuildRow *self = TG_BUILD_ROW (object);

  g_clear_object (&self->session);
  g_clear_pointer (&self->parts, g_array_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BUILD_ROW);
  G_OBJECT_CLASS (tg_build_row_parent_class)->dispose (object);
}

static void
tg_build_row_class_init (TgBuildRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_build_row_dispose;
  signals[TICKED] = g_signal_new ("ticked", TG_TYPE_BUILD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/build-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBuildRow, check);
  gtk_widget_class_bind_template_child (widget_class, TgBuildRow, label);
  gtk_widget_class_bind_template_child (widget_class, TgBuildRow, why);
  gtk_widget_class_bind_template_child (widget_class, TgBuildRow, remark);
  gtk_widget_class_bind_template_child (widget_class, TgBuildRow, in_hand);
  gtk_widget_class_bind_template_child (widget_class, TgBuildRow, detail);
  gtk_widget_class_bind_template_callback (widget_class, on_toggled);
  gtk_widget_class_bind_template_callback (widget_class, on_in_hand);
}

static void
tg_build_row_init (TgBuildRow *self)
{
  self->parts = g_array_new (FALSE, FALSE, sizeof (guint));
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_build_row_new (void)
{
  return g_object_new (TG_TYPE_BUILD_ROW, NULL);
}
