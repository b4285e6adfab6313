/* family-choice.c: which other families take part in a new job, and the spares
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pins, ring packs and clips go with pistons, bearing pairs with rods; what small ends have to do
 * with pistons is asked where there are both.  An answer that is not offered is kept, but does not
 * count.
 */
#include "family-choice.h"

#include "columns.h"
#include "small-ends-choice.h"

struct _TgFamilyChoice
{
  GtkBox parent_instance;
  GtkCheckButton *take[TG_N_PART_KINDS]; /* NULL for rods and pistons */
  GtkWidget *spare_box[TG_N_PART_KINDS];
  GtkSpinButton *spare[TG_N_PART_KINDS];
  TgSmallEndsChoice *small_ends;
  gboolean rods, pistons;
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgFamilyChoice, tg_family_choice, GTK_TYPE_BOX)

/* There are parts for @kind to go with. */
static gboolean
is_offered (TgFamilyChoice *self, TgPartKind kind)
{
  return kind == TG_PART_ROD || kind == TG_PART_BEARINGS ? self->rods : self->pistons;
}

static gboolean
takes_part (TgFamilyChoice *self, TgPartKind kind)
{
  return is_offered (self, kind) &&
         (!self->take[kind] || gtk_check_button_get_active (self->take[kind]));
}

static void
refresh (TgFamilyChoice *self)
{
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      if (self->take[kind])
        gtk_widget_set_visible (GTK_WIDGET (self->take[kind]), is_offered (self, kind));
      gtk_widget_set_visible (self->spare_box[kind], takes_part (self, kind));
    }
  gtk_widget_set_visible (GTK_WIDGET (self->small_ends), self->rods && self->pistons);
}

static void
on_changed (TgFamilyChoice *self)
{
  refresh (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

void
tg_family_choice_offer (TgFamilyChoice *self, gboolean rods, gboolean pistons)
{
  g_return_if_fail (TG_IS_FAMILY_CHOICE (self));

  self->rods = rods;
  self->pistons = pistons;
  refresh (self);
}

void
tg_family_choice_read (TgFamilyChoice *self, TgJobDraft *draft)
{
  g_return_if_fail (TG_IS_FAMILY_CHOICE (self) && draft != NULL);

  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      draft->takes_part[kind] = self->take[kind] && takes_part (self, kind);
      draft->spares[kind] = takes_part (self, kind)
                                ? (guint) gtk_spin_button_get_value_as_int (self->spare[kind])
                                : 0;
    }
  draft->small_ends = self->rods && self->pistons ? tg_small_ends_choice_get (self->small_ends)
                                                  : TG_SMALL_ENDS_APART;
}

static void
tg_family_choice_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_FAMILY_CHOICE);
  G_OBJECT_CLASS (tg_family_choice_parent_class)->dispose (object);
}

static void
bind_of_kind (GtkWidgetClass *widget_class, TgPartKind kind)
{
  const char *word = tg_part_kind_to_word (kind);
  g_autofree char *take = g_strconcat ("take_", word, NULL);
  g_autofree char *box = g_strconcat ("spare_box_", word, NULL);
  g_autofree char *spare = g_strconcat ("spare_", word, NULL);

  if (!tg_part_kind_has_outline (kind))
    gtk_widget_class_bind_template_child_full (widget_class, take, FALSE,
                                               G_STRUCT_OFFSET (TgFamilyChoice, take) +
                                                   (gssize) (kind * sizeof (gpointer)));
  gtk_widget_class_bind_template_child_full (widget_class, box, FALSE,
                                             G_STRUCT_OFFSET (TgFamilyChoice, spare_box) +
                                                 (gssize) (kind * sizeof (gpointer)));
  gtk_widget_class_bind_template_child_full (widget_class, spare, FALSE,
                                             G_STRUCT_OFFSET (TgFamilyChoice, spare) +
                                                 (gssize) (kind * sizeof (gpointer)));
}

static void
tg_family_choice_class_init (TgFamilyChoiceClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_SMALL_ENDS_CHOICE);
  G_OBJECT_CLASS (klass)->dispose = tg_family_choice_dispose;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/family-choice.ui");
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    bind_of_kind (widget_class, kind);
  gtk_widget_class_bind_template_child (widget_class, TgFamilyChoice, small_ends);
  gtk_widget_class_bind_template_callback (widget_class, on_changed);
}

static void
tg_family_choice_init (TgFamilyChoice *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  refresh (self);
}
