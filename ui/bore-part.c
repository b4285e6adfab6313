/* bore-part.c: one part of the bore that is picked: what holds it there, and why not another
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The other parts of the family are listed only while somebody looks at them, the cheapest swap first.
 */
#include "bore-part.h"

#include "match-rules.h"
#include "padlock.h"
#include "pairing-rules.h"
#include "words.h"

/* A shelf is longer than anybody reads. */
#define FIRST_OTHERS 5
/* The column does not grow with them. */
#define OTHER_CHARS 30

struct _TgBorePart
{
  GtkBox parent_instance;
  TgMatchDesk *desk;
  guint family;
  guint bore;
  gboolean all; /* every other part is listed */
  GtkWidget *name;
  GtkWidget *origin;
  GtkWidget *weight;
  GtkWidget *locks;
  GtkWidget *with;
  GtkWidget *here;
  GtkWidget *beside; /* keeps its neighbour as wide as in the other rows */
  GtkWidget *why_not;
  GtkWidget *others;
};

G_DEFINE_FINAL_TYPE (TgBorePart, tg_bore_part, GTK_TYPE_BOX)

static void
report (TgBorePart *self, const GError *error)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
}

static const char *
name_of (TgBorePart *self, guint part)
{
  return tg_review_part (tg_match_desk_review (self->desk), part)->part->name;
}

static guint
part_here (TgBorePart *self)
{
  return tg_match_desk_part (self->desk, self->family, self->bore);
}

static guint
anchor_here (TgBorePart *self)
{
  return tg_match_desk_part (self->desk, tg_match_desk_anchor (self->desk), self->bore);
}

/* --- why not another ------------------------------------------------------------------------- */

static guint
number_of (GtkWidget *button)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "number"));
}

/* The list is made anew, and the button with the focus goes. */
static void
keep_focus (TgBorePart *self)
{
  gtk_widget_grab_focus (self->why_not);
}

static void
on_put (GtkWidget *button, TgBorePart *self)
{
  guint number = number_of (button);

  keep_focus (self);
  tg_match_desk_put (self->desk, self->family, number, self->bore);
}

static void
on_never (GtkWidget *button, TgBorePart *self)
{
  guint part = tg_match_desk_pairing (self->desk)->families[self->family].part[number_of (button)];
  g_autoptr (GError) error = NULL;

  keep_focus (self);
  if (!tg_match_rules_keep (self->desk, TG_RULE_APART, part, anchor_here (self), TRUE, &error))
    report (self, error);
}

static GtkWidget *
new_button (TgBorePart *self, const char *label, char *name, guint number, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  g_autofree char *taken = name;

  tg_words_name (button, taken);
  gtk_widget_add_css_class (button, "work");
  g_object_set_data (G_OBJECT (button), "number", GUINT_TO_POINTER (number));
  g_signal_connect_object (button, "clicked", clicked, self, 0);
  return button;
}

static GtkWidget *
new_other (TgBorePart *self, guint number)
{
  const TgReview *review = tg_match_desk_review (self->desk);
  const TgPairing *pairing = tg_match_desk_pairing (self->desk);
  const TgMatchingPlan *plan = tg_match_desk_plan (self->desk);
  const TgPairingFamily *family = &pairing->families[self->family];
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *label = gtk_label_new (NULL);
  GtkWidget *put;
  guint anchor = anchor_here (self);
  TgMatchingPlan swapped;
  g_autofree char *words = tg_pairing_swap_words (pairing, plan, self->family, number,
                                                  self->bore - 1);

  tg_words_show (GTK_LABEL (label), words);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), OTHER_CHARS);
  put = new_button (self, "Put it here",
                    g_strdup_printf ("Put %s into bore %u", family->name[number], self->bore),
                    number, G_CALLBACK (on_put));
  tg_pairing_swap (pairing, plan, self->family, number, self->bore - 1, &swapped);
  gtk_widget_set_sensitive (put, tg_pairing_rules_kept (pairing, &swapped));
  gtk_box_append (GTK_BOX (row), put);
  if (self->family != tg_match_desk_anchor (self->desk) &&
      !tg_pairing_rules_find (review, TG_RULE_APART, family->part[number], anchor))
    gtk_box_append (GTK_BOX (row),
                    new_button (self, "Never together",
                                g_strdup_printf ("Never %s with %s", family->name[number],
                                                 name_of (self, anchor)),
                                number, G_CALLBACK (on_never)));
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), row);
  return box;
}

static void list_others (TgBorePart *self);

static void
on_all (TgBorePart *self)
{
  keep_focus (self);
  self->all = TRUE;
  list_others (self);
}

static void
list_others (TgBorePart *self)
{
  g_autoptr (GArray) numbers = NULL;
  GtkWidget *child;
  guint n;

  while ((child = gtk_widget_get_first_child (self->others)))
    gtk_box_remove (GTK_BOX (self->others), child);
  if (!gtk_expander_get_expanded (GTK_EXPANDER (self->why_not)) || !self->desk)
    return;
  numbers = tg_match_desk_others (self->desk, self->family, self->bore);
  n = self->all || numbers->len <= FIRST_OTHERS + 1 ? numbers->len : FIRST_OTHERS;
  for (guint i = 0; i < n; i++)
    gtk_box_append (GTK_BOX (self->others), new_other (self, g_array_index (numbers, guint, i)));
  if (n < numbers->len)
    {
      g_autofree char *label = g_strdup_printf ("Show the other %u", numbers->len - n);
      GtkWidget *button = gtk_button_new_with_label (label);

      gtk_widget_add_css_class (button, "work");
      g_signal_connect_object (button, "clicked", G_CALLBACK (on_all), self, G_CONNECT_SWAPPED);
      gtk_box_append (GTK_BOX (self->others), button);
    }
}

static void
on_expanded (TgBorePart *self)
{
  self->all = FALSE;
  list_others (self);
}

/* --- what holds it --------------------------------------------------------------------------- */

static void
on_with (TgBorePart *self)
{
  gboolean on = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->with));
  g_autoptr (GError) error = NULL;

  if (!tg_match_rules_keep (self->desk, TG_RULE_TOGETHER, part_here (self), anchor_here (self), on,
                            &error))
    report (self, error);
}

static void
on_here (TgBorePart *self)
{
  gboolean on = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->here));
  g_autoptr (GError) error = NULL;

  if (!tg_match_rules_keep_bore (self->desk, part_here (self), self->bore, on, &error))
    report (self, error);
}

static void
show_locks (TgBorePart *self)
{
  const TgReview *review = tg_match_desk_review (self->desk);
  guint part = part_here (self), anchor = anchor_here (self);
  const char *kind = tg_part_kind_label (tg_review_part (review, anchor)->design->kind);
  const TgRuleReview *bore = tg_pairing_rules_find_bore (review, part);
  g_autofree char *with = g_strdup_printf ("with the %s", kind);
  g_autofree char *name = g_strdup_printf ("Keep %s with %s", name_of (self, part),
                                           name_of (self, anchor));
  g_autofree char *here = g_strdup_printf ("%s stays at bore %u", name_of (self, part), self->bore);

  gtk_widget_set_visible (self->with, part != anchor);
  gtk_widget_set_visible (self->beside, part == anchor);
  tg_padlock_show (TG_PADLOCK (self->with), with, name,
                   tg_pairing_rules_find (review, TG_RULE_TOGETHER, part, anchor) != NULL);
  tg_padlock_show (TG_PADLOCK (self->here), "at this bore", here, bore && bore->bore == self->bore);
}

void
tg_bore_part_show (TgBorePart *row, TgMatchDesk *desk, guint family, guint bore)
{
  const TgPairing *pairing;
  const TgMatchingPart *part;
  guint number;
  gboolean fixed;
  g_autofree char *grams = NULL;
  g_autofree char *weight = NULL;
  g_autofree char *origin = NULL;

  g_return_if_fail (TG_IS_BORE_PART (row) && TG_IS_MATCH_DESK (desk));

  g_set_object (&row->desk, desk);
  if (row->bore != bore)
    row->all = FALSE;
  row->family = family;
  row->bore = bore;
  pairing = tg_match_desk_pairing (desk);
  number = tg_match_desk_plan (desk)->part[family][bore - 1];
  part = &pairing->problem.families[family].parts[number];
  fixed = tg_match_desk_sum (desk) == TG_PAIRING_BEARINGS && family == tg_match_desk_anchor (desk);
  if (fixed)
    origin = g_strdup ("stays where it is");
  else if (part->today < 0)
    origin = g_strdup ("a spare today");
  else if (part->today != (int) bore - 1)
    origin = g_strdup_printf ("from bore %d", part->today + 1);
  grams = tg_review_grams (tg_match_desk_review (desk),
                           tg_pairing_part_g (pairing, family, number));
  weight = g_strdup_printf ("%s g", grams);
  tg_words_show (GTK_LABEL (row->name), pairing->families[family].name[number]);
  tg_words_show (GTK_LABEL (row->origin), origin);
  tg_words_show (GTK_LABEL (row->weight), weight);
  gtk_widget_set_visible (row->locks, !fixed);
  gtk_widget_set_visible (row->why_not, !fixed && pairing->families[family].n > 1);
  show_locks (row);
  list_others (row);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_bore_part_dispose (GObject *object)
{
  g_clear_object (&TG_BORE_PART (object)->desk);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BORE_PART);
  G_OBJECT_CLASS (tg_bore_part_parent_class)->dispose (object);
}

static void
tg_bore_part_class_init (TgBorePartClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_bore_part_dispose;
  g_type_ensure (TG_TYPE_PADLOCK);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/bore-part.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, name);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, origin);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, weight);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, locks);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, with);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, here);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, beside);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, why_not);
  gtk_widget_class_bind_template_child (widget_class, TgBorePart, others);
  gtk_widget_class_bind_template_callback (widget_class, on_expanded);
  gtk_widget_class_bind_template_callback (widget_class, on_here);
  gtk_widget_class_bind_template_callback (widget_class, on_with);
}

static void
tg_bore_part_init (TgBorePart *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_bore_part_new (void)
{
  return g_object_new (TG_TYPE_BORE_PART, NULL);
}
