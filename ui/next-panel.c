/* next-panel.c: the one next instruction, and the field for the reading that follows it
 *
 * Grind, press "Pass done", weigh, type, Enter: the loop of the grind stage.  The panel follows the
 * session's part.  With the first pass of a kind of part the present targets are taken over as
 * decisions, so that they no longer move.  On a day without a pass yet, the short list of cautions is
 * opened here first; the pass counts only when the button is pressed after that.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "next-panel.h"

#include "bench-panel.h"
#include "cautions-panel.h"
#include "decision-view.h"
#include "effort-field.h"
#include "even-card.h"
#include "number.h"
#include "practice-bench.h"
#include "reading-entry.h"
#include "scale-link.h"
#include "why-view.h"
#include "words.h"

struct _TgNextPanel
{
  GtkBox parent_instance;
  TgSession *session;
  gulong changed;
  gulong part_changed;
  TgNext *next;
  gboolean cautions_seen;
  GtkWidget *decision;
  GtkWidget *instruction;
  GtkWidget *title;
  GtkWidget *large;
  GtkWidget *detail;
  GtkWidget *why;
  GtkWidget *even;
  GtkWidget *cautions;
  GtkWidget *panel;
  GtkWidget *bench;
  GtkWidget *entry;
  GtkWidget *zone_row;
  GtkWidget *zone;
  GtkWidget *tool_row;
  GtkWidget *tool;
  GtkWidget *effort;
  GtkWidget *advice;
  GtkWidget *buttons;
  GtkWidget *pass;
  GtkWidget *match;
  GtkWidget *another;
};

enum
{
  PROP_SESSION = 1,
  PROP_LINK,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgNextPanel, tg_next_panel, GTK_TYPE_BOX)

/* --- what is shown --------------------------------------------------------------------------- */

static void
show_cautions (TgNextPanel *self, gboolean shown)
{
  gtk_widget_set_visible (self->cautions, shown);
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->cautions), shown);
  if (shown && gtk_widget_get_mapped (GTK_WIDGET (self)))
    self->cautions_seen = TRUE;
}

/* At the practice bench any zone can be ground, as in life; the one of the instruction is offered. */
static void
refresh_zones (TgNextPanel *self, const TgReview *review)
{
  const TgPartReview *part = tg_review_part (review, tg_session_part (self->session));
  g_autoptr (GtkStringList) zones = gtk_string_list_new (NULL);

  for (guint z = 0; z < part->zones->len; z++)
    gtk_string_list_append (zones, tg_part_review_zone (part, z)->zone->name);
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->zone), G_LIST_MODEL (zones));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->zone), self->next->zone);
}

static void
refresh_instruction (TgNextPanel *self, const TgReview *review)
{
  TgNext *next = self->next;
  gboolean grind = next->kind == TG_NEXT_GRIND;

  tg_words_show (GTK_LABEL (self->title), next->title);
  tg_words_show (GTK_LABEL (self->large), next->large);
  tg_words_show (GTK_LABEL (self->detail), next->detail);
  gtk_widget_set_visible (self->why, next->why->len > 0 && !review->done);
  gtk_widget_set_visible (self->decision, next->kind == TG_NEXT_DECIDE);
  gtk_widget_set_visible (self->instruction, next->kind != TG_NEXT_DECIDE && !review->done);
  if (next->kind == TG_NEXT_DONE)
    gtk_widget_add_css_class (self->large, "good");
  else
    gtk_widget_remove_css_class (self->large, "good");
  gtk_widget_set_visible (self->pass, grind);
  gtk_widget_set_visible (self->match, next->kind == TG_NEXT_PAIR);
  gtk_widget_set_visible (self->zone_row, grind && tg_session_desk (self->session));
  if (grind)
    refresh_zones (self, review);
  gtk_widget_set_visible (self->tool_row, grind);
  gtk_widget_set_visible (self->effort, grind);
  show_cautions (self, grind && tg_session_first_grinding_today (self->session));
}

static guint
chosen_zone (TgNextPanel *self)
{
  return tg_session_desk (self->session) ? gtk_drop_down_get_selected (GTK_DROP_DOWN (self->zone))
                                         : self->next->zone;
}

static TgTool
chosen_tool (TgNextPanel *self)
{
  return (TgTool) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->tool));
}

/* Nothing has been learned of this hand yet: what the tool takes in most. */
static char *
usual_words (TgNextPanel *self)
{
  double rate = tg_practice_tool_rate (chosen_tool (self));
  g_autofree char *grams = tg_number_format (60 * rate, rate < 0.02 ? 1 : 0);

  return g_strdup_printf (
      "A %s takes about %s g a minute, or a sixtieth of that a stroke. How much "
      "yours takes, passes will show.",
      tg_tool_label (chosen_tool (self)), grams);
}

/* How long the pass may be with another tool than the instruction reckons with. */
static void
refresh_advice (TgNextPanel *self, const TgReview *review)
{
  guint part = tg_session_part (self->session), count = 0;
  TgMetal metal = tg_review_part (review, part)->design->metal;
  TgEffort effort = TG_EFFORT_NONE;
  g_autofree char *words = NULL;
  g_autofree char *text = NULL;
  gboolean usual;

  if (self->next->kind == TG_NEXT_GRIND && chosen_tool (self) != review->tool[metal])
    count = tg_review_pass_effort (review, part, self->next, chosen_tool (self), &effort);
  words = tg_effort_words (effort, count);
  usual = tg_session_desk (self->session) && self->next->kind == TG_NEXT_GRIND &&
          self->next->effort == TG_EFFORT_NONE && count == 0;
  text = usual ? usual_words (self)
               : g_strdup_printf ("With the %s: about %s.", tg_tool_label (chosen_tool (self)),
                                  words);
  gtk_widget_set_visible (self->advice, count > 0 || usual);
  tg_words_show (GTK_LABEL (self->advice), text);
}

static TgSlot
entry_slot (const TgReview *review, const TgNext *next, guint part)
{
  TgSlot slot = next->slot;

  /* A finished part may be read again, whatever comes next elsewhere. */
  if (slot.part != part || next->kind == TG_NEXT_DONE || next->kind == TG_NEXT_DECIDE)
    slot = (TgSlot){ part, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  if (tg_review_part (review, part)->design->kind != TG_PART_ROD)
    return (TgSlot){ part, TG_FIGURE_WHOLE, TG_WAY_ANY };
  if (slot.figure != TG_FIGURE_WHOLE && slot.way == TG_WAY_ANY)
    slot.way = TG_WAY_MARK_UP;
  return slot;
}

/* The next part in work, going round, that still wants something; -1 if none does. */
static int
find_other_part (const TgReview *review, guint from)
{
  guint n = review->parts->len;

  if (review->next->kind != TG_NEXT_DONE && review->next->slot.part != from &&
      tg_review_part (review, review->next->slot.part)->in_work)
    return (int) review->next->slot.part;
  for (guint i = 1; i < n; i++)
    {
      guint index = (from + i) % n;
      TgState state = tg_review_part (review, index)->state;

      if (!tg_review_part (review, index)->in_work)
        continue;
      if (state == TG_STATE_TO_GRIND || state == TG_STATE_WEIGH_AGAIN ||
          state == TG_STATE_UNWEIGHED || state == TG_STATE_TOO_LIGHT ||
          state == TG_STATE_OUT_OF_REACH)
        return (int) index;
    }
  return -1;
}

/* What is on the scale, or ought to be. */
static void
refresh_bench (TgNextPanel *self)
{
  TgReadingEntry *entry = TG_READING_ENTRY (self->entry);

  tg_bench_panel_set_asked (TG_BENCH_PANEL (self->bench), tg_reading_entry_asks (entry),
                            tg_reading_entry_slot (entry));
}

static void
refresh (TgNextPanel *self)
{
  const TgReview *review = tg_session_review (self->session);
  guint part = tg_session_part (self->session);

  g_clear_pointer (&self->next, tg_next_free);
  self->next = tg_review_next_for (review, part);
  refresh_instruction (self, review);
  refresh_advice (self, review);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    tg_even_card_show (TG_EVEN_CARD (self->even), self->session);
  tg_reading_entry_set_slot (TG_READING_ENTRY (self->entry), entry_slot (review, self->next, part));
  refresh_bench (self);
  gtk_widget_set_sensitive (self->another, find_other_part (review, part) >= 0);
}

/* The field, or where the page has the focus while there is something to decide. */
static void
focus (TgNextPanel *self)
{
  if (!gtk_widget_activate_action (GTK_WIDGET (self), "grind.focus", NULL))
    tg_next_panel_focus (self);
}

/* Whatever was done, also Ctrl+Z from a button that is gone now: the field is ready again. */
static void
on_changed (TgNextPanel *self)
{
  gboolean here = gtk_widget_get_mapped (GTK_WIDGET (self));

  /* first, so that no widget is hidden while it has the focus */
  if (here)
    tg_reading_entry_focus (TG_READING_ENTRY (self->entry));
  refresh (self);
  if (here)
    focus (self);
}

static void
make_why (GtkMenuButton *button, gpointer data)
{
  TgNextPanel *self = data;
  TgNext *next = tg_review_next_for (tg_session_review (self->session),
                                     tg_session_part (self->session));

  /* The view keeps the terms; the instruction here keeps its own. */
  tg_why_view_pop_up (button, g_ptr_array_ref (next->why), next->title);
  tg_next_free (next);
}

/* --- what the person does -------------------------------------------------------------------- */

static void
on_pass (TgNextPanel *self)
{
  const TgReview *review = tg_session_review (self->session);
  guint part = tg_session_part (self->session);
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);
  g_autoptr (GArray) events = NULL;
  g_autoptr (GError) error = NULL;

  if (!self->next || self->next->kind != TG_NEXT_GRIND)
    return;
  if (tg_session_first_grinding_today (self->session) && !self->cautions_seen)
    {
      show_cautions (self, TRUE);
      return;
    }
  if (!tg_effort_field_read (TG_EFFORT_FIELD (self->effort), &pass.effort, &pass.count))
    return;
  pass.part = tg_review_part (review, part)->part->id;
  pass.zone = tg_part_review_zone (tg_review_part (review, part), chosen_zone (self))->zone->id;
  pass.mass = tg_mass_from_g (self->next->pass_g);
  pass.tool = chosen_tool (self);
  events = tg_review_take_targets (review, part);
  g_array_append_val (events, pass);
  if (tg_session_append (self->session, (const TgEvent *) events->data, events->len, &error))
    tg_effort_field_clear (TG_EFFORT_FIELD (self->effort));
  else
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
  focus (self);
}

static void
on_another (TgNextPanel *self)
{
  int part = find_other_part (tg_session_review (self->session), tg_session_part (self->session));

  if (part >= 0)
    tg_session_set_part (self->session, (guint) part);
  focus (self);
}

static void
on_asks (TgNextPanel *self)
{
  refresh_bench (self);
}

static void
on_taken (TgNextPanel *self)
{
  focus (self);
}

static void
on_tool (TgNextPanel *self)
{
  g_object_set (self->panel, "tool", (int) chosen_tool (self), NULL);
  if (self->next)
    refresh_advice (self, tg_session_review (self->session));
}

/* The tool of the last pass, so that it need not be said twice. */
static void
select_last_tool (TgNextPanel *self)
{
  const TgJob *job = tg_session_job (self->session);

  for (guint i = tg_job_n_events (job); i-- > 0;)
    if (tg_job_event (job, i)->kind == TG_EVENT_PASS)
      {
        gtk_drop_down_set_selected (GTK_DROP_DOWN (self->tool), tg_job_event (job, i)->tool);
        return;
      }
}

/* There the button does the grinding, and does not say that it was done. */
static void
set_practice (TgNextPanel *self, gboolean practice)
{
  tg_effort_field_set_wanted (TG_EFFORT_FIELD (self->effort), practice);
  gtk_button_set_label (GTK_BUTTON (self->pass), practice ? "_Grind" : "_Pass done");
  if (!practice)
    return;
  /* first what is done to the part, then what it weighs */
  gtk_box_reorder_child_after (GTK_BOX (self), self->buttons, self->effort);
  gtk_box_reorder_child_after (GTK_BOX (self), self->bench, self->advice);
  gtk_box_reorder_child_after (GTK_BOX (self), self->entry, self->bench);
}

static void
on_map (TgNextPanel *self)
{
  if (self->session)
    refresh (self);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_next_panel_dispose (GObject *object)
{
  tg_next_panel_set_session (TG_NEXT_PANEL (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_NEXT_PANEL);
  G_OBJECT_CLASS (tg_next_panel_parent_class)->dispose (object);
}

static void
tg_next_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_NEXT_PANEL (object)->session);
  else if (id == PROP_LINK)
    g_object_get_property (G_OBJECT (TG_NEXT_PANEL (object)->entry), "link", value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_next_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_next_panel_set_session (TG_NEXT_PANEL (object), g_value_get_object (value));
  else if (id == PROP_LINK)
    g_object_set_property (G_OBJECT (TG_NEXT_PANEL (object)->entry), "link", value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, decision);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, instruction);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, title);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, large);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, detail);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, why);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, even);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, cautions);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, panel);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, bench);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, entry);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, zone_row);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, zone);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, tool_row);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, tool);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, effort);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, advice);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, buttons);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, pass);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, match);
  gtk_widget_class_bind_template_child (widget_class, TgNextPanel, another);
  gtk_widget_class_bind_template_callback (widget_class, on_pass);
  gtk_widget_class_bind_template_callback (widget_class, on_another);
  gtk_widget_class_bind_template_callback (widget_class, on_asks);
  gtk_widget_class_bind_template_callback (widget_class, on_taken);
  gtk_widget_class_bind_template_callback (widget_class, on_tool);
}

static void
tg_next_panel_class_init (TgNextPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_next_panel_dispose;
  object_class->get_property = tg_next_panel_get_property;
  object_class->set_property = tg_next_panel_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_LINK] = g_param_spec_object ("link", NULL, NULL, TG_TYPE_SCALE_LINK,
                                               G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  g_type_ensure (TG_TYPE_BENCH_PANEL);
  g_type_ensure (TG_TYPE_CAUTIONS_PANEL);
  g_type_ensure (TG_TYPE_DECISION_VIEW);
  g_type_ensure (TG_TYPE_EFFORT_FIELD);
  g_type_ensure (TG_TYPE_EVEN_CARD);
  g_type_ensure (TG_TYPE_READING_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/next-panel.ui");
  bind_children (widget_class);
}

static void
tg_next_panel_init (TgNextPanel *self)
{
  g_autoptr (GtkStringList) tools = gtk_string_list_new (NULL);

  gtk_widget_init_template (GTK_WIDGET (self));
  for (TgTool tool = 0; tool < TG_N_TOOLS; tool++)
    gtk_string_list_append (tools, tg_tool_label (tool));
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->tool), G_LIST_MODEL (tools));
  tg_words_name_choice (GTK_DROP_DOWN (self->tool), "Tool");
  tg_words_name_choice (GTK_DROP_DOWN (self->zone), "Where");
  tg_words_name_menu (GTK_MENU_BUTTON (self->why), "Why this amount?");
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (self->why), make_why, self, NULL);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
}

GtkWidget *
tg_next_panel_new (void)
{
  return g_object_new (TG_TYPE_NEXT_PANEL, NULL);
}

void
tg_next_panel_set_session (TgNextPanel *panel, TgSession *session)
{
  g_return_if_fail (TG_IS_NEXT_PANEL (panel));

  if (panel->session == session)
    return;
  if (panel->session)
    {
      g_clear_signal_handler (&panel->changed, panel->session);
      g_clear_signal_handler (&panel->part_changed, panel->session);
    }
  g_clear_pointer (&panel->next, tg_next_free);
  tg_even_card_show (TG_EVEN_CARD (panel->even), NULL);
  g_set_object (&panel->session, session);
  if (!session)
    return;
  panel->cautions_seen = FALSE;
  tg_reading_entry_set_session (TG_READING_ENTRY (panel->entry), session);
  tg_bench_panel_set_session (TG_BENCH_PANEL (panel->bench), session);
  set_practice (panel, tg_session_desk (session) != NULL);
  g_object_set (panel->panel, "session", session, NULL);
  g_object_set (panel->decision, "session", session, NULL);
  panel->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (on_changed), panel);
  panel->part_changed = g_signal_connect_swapped (session, "notify::part", G_CALLBACK (refresh),
                                                  panel);
  select_last_tool (panel);
  tg_effort_field_clear (TG_EFFORT_FIELD (panel->effort));
  tg_effort_field_remember (TG_EFFORT_FIELD (panel->effort), tg_session_job (session));
  on_tool (panel);
  refresh (panel);
}

gboolean
tg_next_panel_focus (TgNextPanel *panel)
{
  g_return_val_if_fail (TG_IS_NEXT_PANEL (panel), FALSE);

  /* What is to be decided comes first and stays in sight. */
  if (panel->next && panel->next->kind == TG_NEXT_DECIDE)
    return FALSE;
  if (tg_session_desk (panel->session) && panel->next && panel->next->kind == TG_NEXT_GRIND)
    tg_effort_field_focus (TG_EFFORT_FIELD (panel->effort));
  else
    tg_reading_entry_focus (TG_READING_ENTRY (panel->entry));
  return TRUE;
}
