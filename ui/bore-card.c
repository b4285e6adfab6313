/* bore-card.c: the bore that is picked: its parts, and what holds them together
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bore-card.h"

#include "bore-part.h"
#include "match-rules.h"
#include "padlock.h"
#include "words.h"

struct _TgBoreCard
{
  GtkBox parent_instance;
  TgMatchDesk *desk;
  guint bore;
  GtkWidget *title;
  GtkWidget *all;
  GtkWidget *figures;
  GtkWidget *parts;
};

G_DEFINE_FINAL_TYPE (TgBoreCard, tg_bore_card, GTK_TYPE_BOX)

static void
on_all (TgBoreCard *self)
{
  gboolean on = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->all));
  g_autoptr (GError) error = NULL;

  if (!tg_match_rules_keep_all (self->desk, self->bore, on, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
}

/* As many rows as there are families; those that are there stay, with what is open in them. */
static void
show_parts (TgBoreCard *self, guint n)
{
  GtkWidget *row = gtk_widget_get_first_child (self->parts);

  for (guint f = 0; f < n; f++)
    {
      if (!row)
        {
          row = tg_bore_part_new ();
          gtk_box_append (GTK_BOX (self->parts), row);
        }
      tg_bore_part_show (TG_BORE_PART (row), self->desk, f, self->bore);
      row = gtk_widget_get_next_sibling (row);
    }
  while (row)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (row);

      gtk_box_remove (GTK_BOX (self->parts), row);
      row = next;
    }
}

static char *
figures_of (TgMatchDesk *desk, guint bore)
{
  const TgReview *review = tg_match_desk_review (desk);
  const TgPairing *pairing = tg_match_desk_pairing (desk);
  const TgMatchingPlan *plan = tg_match_desk_plan (desk);
  TgPairingSet sets[TG_MATCHING_MAX_CYLINDERS];
  g_autofree char *weight = NULL;
  g_autofree char *removal = NULL;

  tg_pairing_sets (pairing, plan, sets);
  weight = tg_review_grams (review, sets[bore - 1].weight_g);
  removal = tg_review_grams (review, sets[bore - 1].off_g);
  if (sets[bore - 1].off_g < pairing->step_g / 2)
    return g_strdup_printf ("Together %s g, nothing to come off.", weight);
  if (pairing->joint)
    return g_strdup_printf ("Together %s g, %s g to come off rod and piston.", weight, removal);
  return g_strdup_printf ("Together %s g, %s g to come off.", weight, removal);
}

void
tg_bore_card_show (TgBoreCard *card, TgMatchDesk *desk, guint bore)
{
  g_autofree char *title = g_strdup_printf ("Bore %u", bore);
  g_autofree char *name = g_strdup_printf ("Keep the parts of bore %u together", bore);
  g_autofree char *figures = NULL;

  g_return_if_fail (TG_IS_BORE_CARD (card) && TG_IS_MATCH_DESK (desk));

  g_set_object (&card->desk, desk);
  card->bore = bore;
  figures = figures_of (desk, bore);
  tg_words_show (GTK_LABEL (card->title), title);
  tg_words_show (GTK_LABEL (card->figures), figures);
  tg_padlock_show (TG_PADLOCK (card->all), "all together", name,
                   tg_match_rules_keeps_all (desk, bore));
  show_parts (card, tg_match_desk_pairing (desk)->problem.n_families);
}

static void
tg_bore_card_dispose (GObject *object)
{
  g_clear_object (&TG_BORE_CARD (object)->desk);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BORE_CARD);
  G_OBJECT_CLASS (tg_bore_card_parent_class)->dispose (object);
}

static void
tg_bore_card_class_init (TgBoreCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_bore_card_dispose;
  g_type_ensure (TG_TYPE_PADLOCK);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/bore-card.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBoreCard, title);
  gtk_widget_class_bind_template_child (widget_class, TgBoreCard, all);
  gtk_widget_class_bind_template_child (widget_class, TgBoreCard, figures);
  gtk_widget_class_bind_template_child (widget_class, TgBoreCard, parts);
  gtk_widget_class_bind_template_callback (widget_class, on_all);
}

static void
tg_bore_card_init (TgBoreCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
