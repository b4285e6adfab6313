/* sum-fields.c: what counts in the sums of a running job, and which rods load one crankpin
 *
 * Each change is an event that sets one value of the setup, refused or taken as a whole.  A family that
 * the job does not have is not asked about, nor crankpins that rods cannot share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sum-fields.h"

#include "crankpins-choice.h"
#include "small-ends-choice.h"
#include "words.h"

struct _TgSumFields
{
  GtkBox parent_instance;
  TgSession *session;
  GtkWidget *counts[TG_N_PART_KINDS]; /* or NULL */
  GtkWidget *small_ends;              /* or NULL */
  GtkWidget *crankpins;               /* or NULL */
  GtkWidget *problem;
  gboolean showing;
};

static const char *const labels[TG_N_PART_KINDS] = {
  [TG_PART_PISTON] = "Pistons are even by themselves, too",
  [TG_PART_PIN] = "Pins count with their pistons",
  [TG_PART_RINGS] = "Ring packs count with their pistons",
  [TG_PART_CLIPS] = "Clip pairs count with their pistons",
  [TG_PART_BEARINGS] = "Bearing pairs count with their big ends",
};

G_DEFINE_FINAL_TYPE (TgSumFields, tg_sum_fields, GTK_TYPE_BOX)

/* There are such parts, and parts that they can count with. */
static gboolean
can_count (const TgSetup *setup, TgPartKind kind)
{
  TgPartKind with = kind == TG_PART_BEARINGS ? TG_PART_ROD : TG_PART_PISTON;

  return kind != TG_PART_PISTON && tg_setup_has_kind (setup, kind) &&
         tg_setup_has_kind (setup, with);
}

/* A job may begin with pins that are shared where a new one would not be asked. */
static gboolean
can_share (const TgSetup *setup)
{
  return tg_setup_has_kind (setup, TG_PART_ROD) &&
         (setup->sharing != TG_SHARING_OWN ||
          tg_crankpins_choice_can_share (setup->layout, setup->cylinders));
}

gboolean
tg_sum_fields_apply (const TgSetup *setup)
{
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (can_count (setup, kind))
      return TRUE;
  return can_share (setup);
}

static void
refresh (TgSumFields *self)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;

  self->showing = TRUE;
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (self->counts[kind])
      gtk_check_button_set_active (GTK_CHECK_BUTTON (self->counts[kind]),
                                   kind == TG_PART_PISTON ? setup->pistons_alone
                                                          : !setup->left_out[kind]);
  if (self->counts[TG_PART_PISTON])
    gtk_widget_set_visible (self->counts[TG_PART_PISTON], tg_setup_in_sum (setup, TG_PART_PISTON));
  if (self->small_ends)
    tg_small_ends_choice_set (TG_SMALL_ENDS_CHOICE (self->small_ends), setup->small_ends);
  if (self->crankpins)
    tg_crankpins_choice_set (TG_CRANKPINS_CHOICE (self->crankpins), setup->sharing);
  self->showing = FALSE;
}

static TgEvent
new_set (const char *path, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = path;
  event.value = value;
  return event;
}

/* The first of @events is what the person asked for, and may be refused.  A choice that was refused and
 * put back asks for what is in force already. */
static void
append (TgSumFields *self, const TgEvent *events, guint n)
{
  g_autoptr (TgSetup) copy = tg_setup_copy (tg_session_review (self->session)->setup);
  g_autofree char *present = tg_setup_get (copy, events[0].path);
  g_autoptr (GError) error = NULL;

  if (g_strcmp0 (present, events[0].value) == 0)
    return;
  if (tg_setup_set (copy, events[0].path, events[0].value, &error))
    tg_session_append (self->session, events, n, &error);
  tg_words_show_problem (NULL, GTK_LABEL (self->problem), error ? error->message : NULL);
  if (error)
    refresh (self);
}

static void
set (TgSumFields *self, const char *path, const char *value)
{
  TgEvent event = new_set (path, value);

  append (self, &event, 1);
}

/* Their tolerance begins as that of the sets. */
static void
set_pistons_alone (TgSumFields *self, gboolean on)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;
  g_autofree char *tolerance = tg_setup_get (setup, "tolerance.piston");
  const TgEvent events[] = { new_set ("sum.piston", on ? "both" : "only"),
                             new_set ("tolerance.piston-alone", tolerance) };

  append (self, events, on && setup->tolerance[TG_BAND_PISTON_ALONE] == 0 ? 2 : 1);
}

static void
set_sum (TgSumFields *self, TgPartKind kind, const char *value)
{
  g_autofree char *path = g_strconcat ("sum.", tg_part_kind_to_word (kind), NULL);

  set (self, path, value);
}

static void
on_toggled (GtkCheckButton *button, TgSumFields *self)
{
  gboolean on = gtk_check_button_get_active (button);

  if (self->showing)
    return;
  if (self->counts[TG_PART_PISTON] == GTK_WIDGET (button))
    set_pistons_alone (self, on);
  for (guint kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    if (self->counts[kind] == GTK_WIDGET (button))
      set_sum (self, kind, on ? "yes" : "no");
}

static void
on_small_ends (TgSumFields *self)
{
  TgSmallEnds chosen = tg_small_ends_choice_get (TG_SMALL_ENDS_CHOICE (self->small_ends));

  set_sum (self, TG_PART_ROD, tg_small_ends_to_word (chosen));
}

static void
on_crankpins (TgSumFields *self)
{
  TgSharing chosen = tg_crankpins_choice_get (TG_CRANKPINS_CHOICE (self->crankpins));

  set (self, "crankpins", tg_sharing_to_word (chosen));
}

static void
add_family (TgSumFields *self, TgPartKind kind)
{
  self->counts[kind] = gtk_check_button_new_with_label (labels[kind]);
  gtk_widget_add_css_class (self->counts[kind], "option");
  gtk_box_append (GTK_BOX (self), self->counts[kind]);
  g_signal_connect (self->counts[kind], "toggled", G_CALLBACK (on_toggled), self);
}

static void
add_choices (TgSumFields *self, const TgSetup *setup)
{
  if (can_count (setup, TG_PART_ROD))
    {
      self->small_ends = tg_small_ends_choice_new ();
      gtk_box_append (GTK_BOX (self), self->small_ends);
      g_signal_connect_swapped (self->small_ends, "changed", G_CALLBACK (on_small_ends), self);
    }
  if (can_share (setup))
    {
      self->crankpins = tg_crankpins_choice_new ();
      tg_crankpins_choice_set_cylinders (TG_CRANKPINS_CHOICE (self->crankpins), setup->cylinders);
      gtk_widget_set_margin_top (self->crankpins, 8);
      gtk_box_append (GTK_BOX (self), self->crankpins);
      g_signal_connect_swapped (self->crankpins, "changed", G_CALLBACK (on_crankpins), self);
    }
}

GtkWidget *
tg_sum_fields_new (TgSession *session)
{
  TgSumFields *self = g_object_new (TG_TYPE_SUM_FIELDS, NULL);
  const TgSetup *setup = tg_session_review (session)->setup;

  self->session = g_object_ref (session);
  for (guint kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    if (can_count (setup, kind))
      add_family (self, kind);
  /* a spare can then take the place of any */
  if (tg_setup_has_kind (setup, TG_PART_PISTON))
    add_family (self, TG_PART_PISTON);
  add_choices (self, setup);
  self->problem = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->problem), 0);
  gtk_label_set_wrap (GTK_LABEL (self->problem), TRUE);
  gtk_widget_add_css_class (self->problem, "problem");
  gtk_widget_add_css_class (self->problem, "small");
  gtk_widget_set_visible (self->problem, FALSE);
  gtk_box_append (GTK_BOX (self), self->problem);
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
  return GTK_WIDGET (self);
}

static void
tg_sum_fields_dispose (GObject *object)
{
  TgSumFields *self = TG_SUM_FIELDS (object);

  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tg_sum_fields_parent_class)->dispose (object);
}

static void
tg_sum_fields_class_init (TgSumFieldsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tg_sum_fields_dispose;
}

static void
tg_sum_fields_init (TgSumFields *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 4);
}
