/* cautions-panel.c: the cautions that fit the stage, the material and the tool at hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which cautions fit is the library's answer; the panel only gathers what it asks for: the designs
 * in work, the tools of the passes that count and the tool at hand.  The last line always defers to
 * the maker's manual, local rules and licensed practice.
 */
#include "cautions-panel.h"

struct _TgCautionsPanel
{
  GtkBox parent_instance;
  GtkLabel *heading;
  GtkBox *cautions;
  TgSession *session;
  TgStage stage;
  int tool;
  gboolean only_first;
  guint n_shown;
};

enum
{
  PROP_0,
  PROP_SESSION,
  PROP_STAGE,
  PROP_TOOL,
  PROP_SHORT,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgCautionsPanel, tg_cautions_panel, GTK_TYPE_BOX)

GtkWidget *
tg_cautions_panel_new (void)
{
  return g_object_new (TG_TYPE_CAUTIONS_PANEL, NULL);
}

static GtkWidget *
new_line (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (style)
    gtk_widget_add_css_class (label, style);
  return label;
}

static void
add_caution (TgCautionsPanel *self, const TgCaution *caution)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_box_append (GTK_BOX (box), new_line (caution->title, "strong"));
  gtk_box_append (GTK_BOX (box), new_line (caution->text, NULL));
  gtk_box_append (GTK_BOX (box), new_line (caution->ground, "ground"));
  gtk_box_append (self->cautions, box);
  self->n_shown++;
}

/* The tools of all passes that are not struck out, and the one at hand. */
static guint
tools_of (TgCautionsPanel *self)
{
  const TgJob *job = tg_session_job (self->session);
  const TgReview *review = tg_session_review (self->session);
  guint tools = self->tool >= 0 ? 1u << self->tool : 0;

  for (guint i = 0; i < tg_job_n_events (job); i++)
    {
      const TgEvent *event = tg_job_event (job, i);

      if (event->kind == TG_EVENT_PASS && !review->struck[i])
        tools |= 1u << event->tool;
    }
  return tools;
}

static const char *
heading_of (TgCautionsPanel *self)
{
  if (self->only_first)
    return "Before the first stroke";
  switch (self->stage)
    {
    case TG_STAGE_SETUP:
      return "Cautions: before you begin";
    case TG_STAGE_WEIGH:
      return "Cautions: weighing";
    case TG_STAGE_GRIND:
      return "Cautions: grinding";
    case TG_STAGE_BUILD:
    default:
      return "Cautions: building";
    }
}

static void
refresh (TgCautionsPanel *self)
{
  g_autoptr (GPtrArray) fitting = NULL;
  GtkWidget *child;

  gtk_label_set_text (self->heading, heading_of (self));
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->cautions))))
    gtk_box_remove (self->cautions, child);
  self->n_shown = 0;
  if (!self->session)
    return;
  fitting = tg_library_cautions (tg_session_library (self->session), self->stage, tools_of (self),
                                 tg_session_review (self->session)->setup->designs);
  for (guint i = 0; i < fitting->len; i++)
    {
      const TgCaution *caution = g_ptr_array_index (fitting, i);

      if (caution->first || !self->only_first)
        add_caution (self, caution);
    }
}

guint
tg_cautions_panel_get_n_shown (TgCautionsPanel *self)
{
  g_return_val_if_fail (TG_IS_CAUTIONS_PANEL (self), 0);

  return self->n_shown;
}

static void
set_session (TgCautionsPanel *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
}

static void
tg_cautions_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgCautionsPanel *self = TG_CAUTIONS_PANEL (object);

  switch (id)
    {
    case PROP_SESSION:
      g_value_set_object (value, self->session);
      break;
    case PROP_STAGE:
      g_value_set_int (value, self->stage);
      break;
    case PROP_TOOL:
      g_value_set_int (value, self->tool);
      break;
    case PROP_SHORT:
      g_value_set_boolean (value, self->only_first);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_cautions_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgCautionsPanel *self = TG_CAUTIONS_PANEL (object);

  switch (id)
    {
    case PROP_SESSION:
      set_session (self, g_value_get_object (value));
      break;
    case PROP_STAGE:
      self->stage = g_value_get_int (value);
      break;
    case PROP_TOOL:
      self->tool = g_value_get_int (value);
      break;
    case PROP_SHORT:
      self->only_first = g_value_get_boolean (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  refresh (self);
}

static void
tg_cautions_panel_dispose (GObject *object)
{
  TgCautionsPanel *self = TG_CAUTIONS_PANEL (object);

  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_CAUTIONS_PANEL);
  G_OBJECT_CLASS (tg_cautions_panel_parent_class)->dispose (object);
}

static void
tg_cautions_panel_class_init (TgCautionsPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = tg_cautions_panel_get_property;
  object_class->set_property = tg_cautions_panel_set_property;
  object_class->dispose = tg_cautions_panel_dispose;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION, flags);
  props[PROP_STAGE] = g_param_spec_int ("stage", NULL, NULL, 0, TG_N_STAGES - 1, TG_STAGE_GRIND,
                                        flags);
  props[PROP_TOOL] = g_param_spec_int ("tool", NULL, NULL, -1, TG_N_TOOLS - 1, -1, flags);
  props[PROP_SHORT] = g_param_spec_boolean ("short", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/cautions-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, TgCautionsPanel, heading);
  gtk_widget_class_bind_template_child (widget_class, TgCautionsPanel, cautions);
}

static void
tg_cautions_panel_init (TgCautionsPanel *self)
{
  self->stage = TG_STAGE_GRIND;
  self->tool = -1;
  gtk_widget_init_template (GTK_WIDGET (self));
  refresh (self);
}
