/* bench-panel.c: what is done at the bench of a practice job
 *
 * The display settles and flickers while it is looked at, so it is drawn anew a few times a second as long
 * as it is seen.  What lies there stays until it is taken off: a display that still shows the rod before
 * is one of the things that can be learned here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-panel.h"

#include "columns.h"
#include "fold.h"
#include "number.h"
#include "words.h"

#define TICK_MS 100

struct _TgBenchPanel
{
  GtkBox parent_instance;
  TgSession *session;
  TgPracticeDesk *desk;
  gulong moved;
  guint tick;
  TgReadingOf what;
  TgSlot asked;
  gboolean looked; /* since it was laid there */
  GtkWidget *display;
  GtkWidget *state;
  GtkWidget *deeds;
  GtkWidget *lay;
  GtkWidget *turn;
  GtkWidget *rock;
  GtkWidget *look;
  GtkWidget *off;
  GtkWidget *zero;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgBenchPanel, tg_bench_panel, GTK_TYPE_BOX)

static const TgReview *
review_of (TgBenchPanel *self)
{
  return tg_session_review (self->session);
}

static gboolean
on_stand (TgSlot slot)
{
  return slot.figure != TG_FIGURE_WHOLE;
}

/* --- what is seen ---------------------------------------------------------------------------- */

static void
refresh_display (TgBenchPanel *self)
{
  TgMass shown = tg_practice_desk_display (self->desk);
  TgMass step = tg_job_setup (tg_session_job (self->session))->resolution;
  g_autofree char *figure = tg_number_format (tg_mass_to_g (shown), tg_mass_decimals (step));
  g_autofree char *text = g_strdup_printf ("%s g", figure);

  if (g_strcmp0 (text, gtk_label_get_text (GTK_LABEL (self->display))) != 0)
    gtk_label_set_text (GTK_LABEL (self->display), text);
}

/* (transfer full): what lies there, and what a close look has shown. */
static char *
state_words (TgBenchPanel *self)
{
  TgPracticeBench *bench = tg_practice_desk_bench (self->desk);
  g_autofree char *words = NULL;
  TgSlot slot;

  if (!tg_practice_bench_lies (bench, &slot))
    return g_strdup (tg_practice_bench_has_weight (bench) ? "The check weight is on the scale."
                                                          : "Nothing on the scale.");
  words = tg_words_slot (review_of (self), slot);
  if (!self->looked)
    return g_strdup_printf ("On the scale: %s.", words);
  return g_strdup_printf ("On the scale: %s. %s", words,
                          tg_practice_bench_touches (bench)
                              ? "It touches the post of the stand: lay it on again."
                              : "It touches nothing.");
}

/* What laying on would do now. */
static const char *
lay_words (TgBenchPanel *self)
{
  TgPracticeBench *bench = tg_practice_desk_bench (self->desk);
  TgSlot slot;

  if (self->what == TG_READING_OF_PART && tg_practice_bench_lies (bench, &slot) &&
      slot.part == self->asked.part && slot.figure == self->asked.figure)
    return "Lay again";
  return "Put on";
}

static void
refresh (TgBenchPanel *self)
{
  TgPracticeBench *bench = tg_practice_desk_bench (self->desk);
  g_autofree char *state = state_words (self);
  TgSlot slot;
  gboolean lies = tg_practice_bench_lies (bench, &slot);
  gboolean rod = lies && on_stand (slot);
  gboolean empty = !lies && !tg_practice_bench_has_weight (bench);
  GtkWidget *widget = GTK_WIDGET (self);

  tg_words_show (GTK_LABEL (self->state), state);
  gtk_button_set_label (GTK_BUTTON (self->lay), lay_words (self));
  gtk_widget_action_set_enabled (widget, "bench.lay", self->what != TG_READING_OF_NOTHING);
  gtk_widget_action_set_enabled (widget, "bench.turn", rod);
  gtk_widget_action_set_enabled (widget, "bench.rock", rod);
  gtk_widget_action_set_enabled (widget, "bench.look", lies);
  gtk_widget_action_set_enabled (widget, "bench.off", !empty);
  gtk_widget_action_set_enabled (widget, "bench.zero", empty);
  refresh_display (self);
}

static gboolean
on_tick (gpointer data)
{
  refresh_display (data);
  return G_SOURCE_CONTINUE;
}

static void
watch (TgBenchPanel *self)
{
  gboolean seen = self->desk && gtk_widget_get_mapped (GTK_WIDGET (self));

  if (!seen)
    g_clear_handle_id (&self->tick, g_source_remove);
  else if (self->tick == 0)
    self->tick = g_timeout_add (TICK_MS, on_tick, self);
}

static void
on_moved (TgBenchPanel *self)
{
  refresh (self);
}

/* --- what is done ---------------------------------------------------------------------------- */

static TgWay
other_way (TgWay way)
{
  return way == TG_WAY_MARK_UP ? TG_WAY_MARK_DOWN : TG_WAY_MARK_UP;
}

static void
lay (TgBenchPanel *self, TgSlot slot)
{
  self->looked = FALSE;
  tg_practice_desk_lay (self->desk, &slot);
}

/* A rod that is picked up anew is laid with its mark up; the same one as it lay before. */
static void
act_lay (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  TgBenchPanel *self = TG_BENCH_PANEL (widget);
  TgSlot slot = self->asked, before;
  gboolean same = tg_practice_bench_lies (tg_practice_desk_bench (self->desk), &before) &&
                  before.part == slot.part;

  if (self->what == TG_READING_OF_WEIGHT)
    {
      tg_practice_desk_lay_weight (self->desk, review_of (self)->setup->check_weight);
      return;
    }
  slot.way = !on_stand (slot)            ? TG_WAY_ANY
             : same && on_stand (before) ? before.way
                                         : TG_WAY_MARK_UP;
  lay (self, slot);
}

static void
act_turn (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  TgBenchPanel *self = TG_BENCH_PANEL (widget);
  TgSlot slot;

  if (!tg_practice_bench_lies (tg_practice_desk_bench (self->desk), &slot) || !on_stand (slot))
    return;
  slot.way = other_way (slot.way);
  lay (self, slot);
}

static void
act_rock (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  tg_practice_desk_rock (TG_BENCH_PANEL (widget)->desk);
}

static void
act_look (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  TgBenchPanel *self = TG_BENCH_PANEL (widget);

  self->looked = TRUE;
  refresh (self);
}

static void
act_off (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  TgBenchPanel *self = TG_BENCH_PANEL (widget);

  self->looked = FALSE;
  tg_practice_desk_lay (self->desk, NULL);
}

static void
act_zero (GtkWidget *widget, G_GNUC_UNUSED const char *name, G_GNUC_UNUSED GVariant *parameter)
{
  tg_practice_desk_set_zero (TG_BENCH_PANEL (widget)->desk);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_bench_panel_dispose (GObject *object)
{
  tg_bench_panel_set_session (TG_BENCH_PANEL (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BENCH_PANEL);
  G_OBJECT_CLASS (tg_bench_panel_parent_class)->dispose (object);
}

static void
tg_bench_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_BENCH_PANEL (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_bench_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_bench_panel_set_session (TG_BENCH_PANEL (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "bench.lay", NULL, act_lay);
  gtk_widget_class_install_action (widget_class, "bench.turn", NULL, act_turn);
  gtk_widget_class_install_action (widget_class, "bench.rock", NULL, act_rock);
  gtk_widget_class_install_action (widget_class, "bench.look", NULL, act_look);
  gtk_widget_class_install_action (widget_class, "bench.off", NULL, act_off);
  gtk_widget_class_install_action (widget_class, "bench.zero", NULL, act_zero);
}

static void
tg_bench_panel_class_init (TgBenchPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_bench_panel_dispose;
  object_class->get_property = tg_bench_panel_get_property;
  object_class->set_property = tg_bench_panel_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_FOLD);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/bench-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, display);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, state);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, deeds);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, lay);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, turn);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, rock);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, look);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, off);
  gtk_widget_class_bind_template_child (widget_class, TgBenchPanel, zero);
  install_actions (widget_class);
}

/* There is one of these on each page that weighing is done on; the one that is seen is meant. */
static gboolean
on_shortcut (GtkWidget *widget, G_GNUC_UNUSED GVariant *args, gpointer action)
{
  return gtk_widget_get_mapped (widget) && gtk_widget_activate_action (widget, action, NULL);
}

/* The keys work wherever the keyboard is in the window, so that a reading needs no mouse. */
static void
add_keys (TgBenchPanel *self)
{
  static const struct
  {
    guint key;
    const char *action;
  } keys[] = {
    { GDK_KEY_l, "bench.lay" },  { GDK_KEY_t, "bench.turn" }, { GDK_KEY_r, "bench.rock" },
    { GDK_KEY_k, "bench.look" }, { GDK_KEY_e, "bench.off" },
  };
  GtkEventController *controller = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_set_scope (GTK_SHORTCUT_CONTROLLER (controller),
                                     GTK_SHORTCUT_SCOPE_MANAGED);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_shortcut_controller_add_shortcut (
        GTK_SHORTCUT_CONTROLLER (controller),
        gtk_shortcut_new (gtk_keyval_trigger_new (keys[i].key, GDK_CONTROL_MASK),
                          gtk_callback_action_new (on_shortcut, (gpointer) keys[i].action, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

static void
tg_bench_panel_init (TgBenchPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  add_keys (self);
  g_signal_connect (self, "map", G_CALLBACK (watch), NULL);
  g_signal_connect_after (self, "unmap", G_CALLBACK (watch), NULL);
}

void
tg_bench_panel_set_session (TgBenchPanel *panel, TgSession *session)
{
  g_return_if_fail (TG_IS_BENCH_PANEL (panel));

  if (panel->session == session)
    return;
  if (panel->desk)
    g_clear_signal_handler (&panel->moved, panel->desk);
  g_clear_object (&panel->desk);
  g_set_object (&panel->session, session);
  if (session && tg_session_desk (session))
    panel->desk = g_object_ref (tg_session_desk (session));
  gtk_widget_set_visible (GTK_WIDGET (panel), panel->desk != NULL);
  if (panel->desk)
    {
      panel->moved = g_signal_connect_swapped (panel->desk, "moved", G_CALLBACK (on_moved), panel);
      refresh (panel);
    }
  watch (panel);
}

void
tg_bench_panel_set_asked (TgBenchPanel *panel, TgReadingOf what, TgSlot slot)
{
  g_return_if_fail (TG_IS_BENCH_PANEL (panel));

  panel->what = what;
  panel->asked = slot;
  if (panel->desk)
    refresh (panel);
}
