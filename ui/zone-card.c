/* zone-card.c: one zone of a design: what it is, whether it may be ground, its figures
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The switch turns into one event that sets the zone's "use".  A zone with care is not switched on
 * by the switch alone: the reason and what comes first are shown, then a button opts in.  A zone
 * that is never ground has a switch that cannot be moved and no figures to refine.
 */
#include "zone-card.h"

#include <string.h>

#include "columns.h"
#include "setup-field.h"
#include "words.h"

struct _TgZoneCard
{
  GtkBox parent_instance;
  GtkLabel *name;
  GtkLabel *standing;
  GtkSwitch *may;
  GtkLabel *reason;
  GtkWidget *confirm;
  GtkWidget *opt_in;
  GtkWidget *leave;
  GtkLabel *problem;
  TgColumns *fields;
  TgSession *session;
  guint design;
  guint zone;
  gboolean showing; /* the switch is moved by refresh(), not by the person */
};

G_DEFINE_FINAL_TYPE (TgZoneCard, tg_zone_card, GTK_TYPE_BOX)

static const TgDesign *
design_of (TgZoneCard *self)
{
  return g_ptr_array_index (tg_session_review (self->session)->setup->designs, self->design);
}

static void
refresh (TgZoneCard *self)
{
  const TgZone *zone = tg_design_zone (design_of (self), self->zone);
  const char *text;

  switch (zone->standing)
    {
    case TG_STANDING_FREE:
      text = zone->use == TG_USE_NO ? "left alone, by your choice" : "may be ground";
      break;
    case TG_STANDING_WITH_CARE:
      text = zone->use == TG_USE_YES ? "with care, by your choice" : "with care: not used";
      break;
    case TG_STANDING_NEVER:
    default:
      text = "never ground";
      break;
    }
  tg_words_show (self->standing, text);
  self->showing = TRUE;
  gtk_switch_set_active (self->may, tg_zone_usable (zone));
  gtk_switch_set_state (self->may, tg_zone_usable (zone));
  self->showing = FALSE;
}

static gboolean
set_use (TgZoneCard *self, TgUse use)
{
  const TgDesign *design = design_of (self);
  const TgZone *zone = tg_design_zone (design, self->zone);
  g_autofree char *path = g_strdup_printf ("%s.%s.use", design->id, zone->id);
  g_autoptr (TgSetup) copy = NULL;
  g_autoptr (GError) error = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_SET);
  gboolean done = TRUE;

  gtk_widget_set_visible (self->confirm, FALSE);
  if (zone->use != use)
    {
      event.path = path;
      event.value = tg_use_to_word (use);
      copy = tg_setup_copy (tg_session_review (self->session)->setup);
      done = tg_setup_set (copy, path, event.value, &error) &&
             tg_session_append (self->session, &event, 1, &error);
    }
  tg_words_show (self->problem, done ? "" : error->message);
  gtk_widget_set_visible (GTK_WIDGET (self->problem), !done);
  refresh (self);
  return done;
}

static gboolean
on_state_set (GtkSwitch *may, gboolean on, gpointer data G_GNUC_UNUSED)
{
  TgZoneCard *self = TG_ZONE_CARD (gtk_widget_get_ancestor (GTK_WIDGET (may), TG_TYPE_ZONE_CARD));
  const TgZone *zone;

  if (!self || self->showing || !self->session)
    return FALSE;
  zone = tg_design_zone (design_of (self), self->zone);
  if (on == tg_zone_usable (zone))
    return FALSE;
  if (zone->standing == TG_STANDING_NEVER)
    refresh (self);
  else if (zone->standing == TG_STANDING_FREE)
    set_use (self, on ? TG_USE_DEFAULT : TG_USE_NO);
  else if (!on)
    set_use (self, TG_USE_DEFAULT);
  else
    {
      gtk_widget_set_visible (self->confirm, TRUE);
      gtk_widget_grab_focus (self->leave);
      refresh (self);
    }
  return TRUE;
}

static void
on_opt_in (TgZoneCard *self)
{
  set_use (self, TG_USE_YES);
}

static void
on_leave_alone (TgZoneCard *self)
{
  gtk_widget_set_visible (self->confirm, FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self->may));
}

static void
add_field (TgZoneCard *self, const char *name, const char *label, const char *unit)
{
  const TgDesign *design = design_of (self);
  g_autofree char *path = g_strdup_printf ("%s.%s.%s", design->id,
                                           tg_design_zone (design, self->zone)->id, name);
  GtkWidget *field = tg_setup_field_new (path, label, unit);

  tg_setup_field_set_session (TG_SETUP_FIELD (field), self->session);
  tg_columns_append (self->fields, field);
}

GtkWidget *
tg_zone_card_new (TgSession *session, guint design, guint index)
{
  TgZoneCard *self = g_object_new (TG_TYPE_ZONE_CARD, NULL);
  g_autofree char *label = NULL;
  g_autofree char *opt_in = NULL;
  g_autofree char *leave = NULL;
  const TgZone *zone;
  const TgField *fields;
  guint n;

  self->session = g_object_ref (session);
  self->design = design;
  self->zone = index;
  zone = tg_design_zone (design_of (self), index);
  tg_words_show (self->name, zone->name);
  tg_words_show (self->reason, zone->reason);
  gtk_widget_set_visible (GTK_WIDGET (self->reason), zone->reason[0] != '\0');
  label = g_strdup_printf ("%s may be ground", zone->name);
  opt_in = g_strdup_printf ("Use %s, with care", zone->name);
  leave = g_strdup_printf ("Leave %s alone", zone->name);
  tg_words_name (GTK_WIDGET (self->may), label);
  tg_words_tell (GTK_WIDGET (self->may), zone->reason);
  tg_words_name (GTK_WIDGET (self->opt_in), opt_in);
  tg_words_name (GTK_WIDGET (self->leave), leave);
  if (zone->standing == TG_STANDING_NEVER)
    {
      gtk_widget_set_sensitive (GTK_WIDGET (self->may), FALSE);
      gtk_widget_set_visible (GTK_WIDGET (self->fields), FALSE);
    }
  else
    {
      fields = tg_design_zone_fields (&n);
      for (guint i = 0; i < n; i++)
        if (design_of (self)->kind == TG_PART_ROD || strcmp (fields[i].name, "offset") != 0)
          add_field (self, fields[i].name, fields[i].label, fields[i].unit);
      add_field (self, "capacity", "At most, 0: by depth", "g");
    }
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}

guint
tg_zone_card_get_design (TgZoneCard *self)
{
  g_return_val_if_fail (TG_IS_ZONE_CARD (self), 0);

  return self->design;
}

guint
tg_zone_card_get_zone (TgZoneCard *self)
{
  g_return_val_if_fail (TG_IS_ZONE_CARD (self), 0);

  return self->zone;
}

GtkSwitch *
tg_zone_card_get_switch (TgZoneCard *self)
{
  g_return_val_if_fail (TG_IS_ZONE_CARD (self), NULL);

  return self->may;
}

GtkWidget *
tg_zone_card_get_opt_in (TgZoneCard *self)
{
  g_return_val_if_fail (TG_IS_ZONE_CARD (self), NULL);

  return self->opt_in;
}

static void
tg_zone_card_dispose (GObject *object)
{
  TgZoneCard *self = TG_ZONE_CARD (object);

  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_ZONE_CARD);
  G_OBJECT_CLASS (tg_zone_card_parent_class)->dispose (object);
}

static void
tg_zone_card_class_init (TgZoneCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_COLUMNS);
  G_OBJECT_CLASS (klass)->dispose = tg_zone_card_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/zone-card.ui");
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, name);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, standing);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, may);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, reason);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, confirm);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, opt_in);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, leave);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, problem);
  gtk_widget_class_bind_template_child (widget_class, TgZoneCard, fields);
  gtk_widget_class_bind_template_callback (widget_class, on_state_set);
  gtk_widget_class_bind_template_callback (widget_class, on_opt_in);
  gtk_widget_class_bind_template_callback (widget_class, on_leave_alone);
}

static void
tg_zone_card_init (TgZoneCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
