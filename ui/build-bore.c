/* build-bore.c: the build card of one bore: its parts, and its checks
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "build-bore.h"

#include <math.h>

#include "build-row.h"
#include "why-button.h"
#include "words.h"

struct _TgBuildBore
{
  GtkBox parent_instance;
  GtkLabel *title;
  TgWhyButton *why;
  GtkLabel *standing;
  GtkWidget *parts;
  GtkWidget *checks;
  guint bore;
};

G_DEFINE_FINAL_TYPE (TgBuildBore, tg_build_bore, GTK_TYPE_BOX)

static GtkWidget *
wrapped_label (void)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  return label;
}

/* "Rod 3: 809.6 g" and below it whether it is proven, or what is wrong with it. */
static GtkWidget *
part_line (const TgReview *review, const TgBuildPart *part)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *name = wrapped_label (), *state = wrapped_label ();
  g_autofree char *grams = isnan (part->weight_g) ? NULL : tg_review_grams (review, part->weight_g);
  g_autofree char *words = part->part < 0
                               ? g_strdup_printf ("No %s", part->label)
                               : g_strdup_printf (
                                     "%s%s: %s%s",
                                     tg_setup_part (review->setup, (guint) part->part)->name,
                                     part->kind == TG_PART_ROD ? " with its cap" : "",
                                     grams ? grams : "not weighed", grams ? " g" : "");

  tg_words_show (GTK_LABEL (name), words);
  gtk_widget_add_css_class (name, "strong");
  tg_words_show (GTK_LABEL (state), part->remark[0] ? part->remark
                                    : part->proven  ? "as it was proven"
                                                    : "not proven yet");
  gtk_widget_add_css_class (state, part->remark[0] ? "alert" : "quiet");
  gtk_widget_add_css_class (state, "small");
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), state);
  return box;
}

static void
show_parts (TgBuildBore *self, const TgReview *review, const TgBuildCard *card)
{
  GtkWidget *old;

  while ((old = gtk_widget_get_first_child (self->parts)))
    gtk_box_remove (GTK_BOX (self->parts), old);
  for (guint i = 0; i < card->parts->len; i++)
    gtk_box_append (GTK_BOX (self->parts),
                    part_line (review, &g_array_index (card->parts, TgBuildPart, i)));
}

static void
show_standing (TgBuildBore *self, const TgReview *review, const TgBuildCard *card)
{
  g_autofree char *sum = isnan (card->sum_g) ? NULL : tg_review_grams (review, card->sum_g);
  g_autofree char *explains = g_strdup_printf ("bore %u is %s", card->bore,
                                               card->done    ? "done"
                                               : card->ready ? "ready"
                                                             : "not ready");
  g_autofree char *words = g_strdup_printf (
      "%s%s%s%s",
      card->done      ? "Done: every part is as it was proven, and all is ticked off."
      : card->n_wrong ? "Something has to be looked at again."
      : card->ready   ? "Every part is as it was proven."
                      : "Not every part is proven yet.",
      sum ? " Piston and what counts with it: " : "", sum ? sum : "", sum ? " g." : "");

  tg_words_show (self->standing, words);
  tg_why_button_give (self->why, explains, tg_build_why_card (review, card));
  gtk_widget_remove_css_class (GTK_WIDGET (self->standing), "good");
  gtk_widget_remove_css_class (GTK_WIDGET (self->standing), "alert");
  if (card->done || card->n_wrong)
    gtk_widget_add_css_class (GTK_WIDGET (self->standing), card->done ? "good" : "alert");
}

/* On to the check below. */
static void
on_ticked (GtkWidget *row)
{
  GtkWidget *next = gtk_widget_get_next_sibling (row);

  if (next)
    tg_build_row_focus (TG_BUILD_ROW (next));
}

static const char *
facing_of (const TgBuild *build, TgBuildCheck check)
{
  return check == TG_CHECK_PISTON_FACING ? build->facing[TG_FACING_PISTON]
         : check == TG_CHECK_ROD_FACING  ? build->facing[TG_FACING_ROD]
         : check == TG_CHECK_CLIPS_GAP   ? build->facing[TG_FACING_CLIPS]
                                         : NULL;
}

void
tg_build_bore_show (TgBuildBore *view, TgSession *session, const TgBuild *build, guint bore)
{
  const TgBuildCard *card = tg_build_card (build, bore);
  g_autofree char *title = g_strdup_printf ("Bore %u", bore);
  GtkWidget *row = gtk_widget_get_first_child (view->checks);

  g_return_if_fail (TG_IS_BUILD_BORE (view));

  view->bore = bore;
  tg_words_show (view->title, title);
  show_standing (view, tg_session_review (session), card);
  show_parts (view, tg_session_review (session), card);
  for (guint i = 0; i < card->ticks->len; i++)
    {
      const TgBuildTick *tick = &g_array_index (card->ticks, TgBuildTick, i);

      if (!row)
        {
          row = tg_build_row_new ();
          g_signal_connect (row, "ticked", G_CALLBACK (on_ticked), NULL);
          gtk_box_append (GTK_BOX (view->checks), row);
        }
      tg_build_row_show (TG_BUILD_ROW (row), session, bore, tick, facing_of (build, tick->check));
      tg_build_row_explain (
          TG_BUILD_ROW (row),
          tg_build_why_tick (tg_session_job (session), tg_session_review (session), card, i));
      row = gtk_widget_get_next_sibling (row);
    }
  while (row)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (row);

      gtk_box_remove (GTK_BOX (view->checks), row);
      row = next;
    }
}

void
tg_build_bore_focus (TgBuildBore *view)
{
  GtkWidget *row;

  g_return_if_fail (TG_IS_BUILD_BORE (view));

  row = gtk_widget_get_first_child (view->checks);
  if (row)
    tg_build_row_focus (TG_BUILD_ROW (row));
}

static void
tg_build_bore_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BUILD_BORE);
  G_OBJECT_CLASS (tg_build_bore_parent_class)->dispose (object);
}

static void
tg_build_bore_class_init (TgBuildBoreClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_build_bore_dispose;
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/build-bore.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBuildBore, title);
  gtk_widget_class_bind_template_child (widget_class, TgBuildBore, why);
  gtk_widget_class_bind_template_child (widget_class, TgBuildBore, standing);
  gtk_widget_class_bind_template_child (widget_class, TgBuildBore, parts);
  gtk_widget_class_bind_template_child (widget_class, TgBuildBore, checks);
}

static void
tg_build_bore_init (TgBuildBore *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_build_bore_new (void)
{
  return g_object_new (TG_TYPE_BUILD_BORE, NULL);
}
