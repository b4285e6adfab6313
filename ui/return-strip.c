/* return-strip.c: where the job stands, for a person who comes back to it
 *
 * A narrow window shows the last day only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "return-strip.h"

#include "fold.h"
#include "why-button.h"
#include "words.h"

#define N_DAYS 3

struct _TgReturnStrip
{
  GtkBox parent_instance;
  GtkWidget *standing;
  GtkWidget *days;
  GtkWidget *last;
  GtkWidget *next;
  GtkWidget *why;
  GtkWidget *close;
};

G_DEFINE_FINAL_TYPE (TgReturnStrip, tg_return_strip, GTK_TYPE_BOX)

static void
on_close (TgReturnStrip *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  /* The focus goes on to the page rather than being lost with the button. */
  if (root && gtk_widget_has_focus (self->close))
    gtk_widget_child_focus (GTK_WIDGET (root), GTK_DIR_TAB_FORWARD);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

static void
add_count (GString *text, guint n, const char *one, const char *many)
{
  if (n > 0)
    g_string_append_printf (text, ", %u %s", n, n == 1 ? one : many);
}

static void
describe_day (const TgReview *review, const TgDay *day, GString *text)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", day->label);
  add_count (text, day->weighings, "reading", "readings");
  add_count (text, day->passes, "pass", "passes");
  add_count (text, day->decisions, "decision", "decisions");
  if (day->removed_g > 0)
    {
      g_autofree char *grams = tg_review_grams (review, day->removed_g);

      g_string_append_printf (text, ", %s g off", grams);
    }
}

static void
tg_return_strip_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_RETURN_STRIP);
  G_OBJECT_CLASS (tg_return_strip_parent_class)->dispose (object);
}

static void
tg_return_strip_class_init (TgReturnStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_return_strip_dispose;
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/return-strip.ui");
  gtk_widget_class_bind_template_child (widget_class, TgReturnStrip, standing);
  gtk_widget_class_bind_template_child (widget_class, TgReturnStrip, days);
  gtk_widget_class_bind_template_child (widget_class, TgReturnStrip, last);
  gtk_widget_class_bind_template_child (widget_class, TgReturnStrip, next);
  gtk_widget_class_bind_template_child (widget_class, TgReturnStrip, why);
  gtk_widget_class_bind_template_child (widget_class, TgReturnStrip, close);
  gtk_widget_class_bind_template_callback (widget_class, on_close);
}

static void
tg_return_strip_init (TgReturnStrip *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_return_strip_new (void)
{
  return g_object_new (TG_TYPE_RETURN_STRIP, NULL);
}

void
tg_return_strip_show (TgReturnStrip *strip, const TgReview *review)
{
  g_autoptr (GString) days = g_string_new (NULL);
  g_autoptr (GString) last = g_string_new (NULL);
  guint n = review->days->len;
  g_autofree char *next = NULL;

  g_return_if_fail (TG_IS_RETURN_STRIP (strip));

  for (guint i = n > N_DAYS ? n - N_DAYS : 0; i + 1 < n; i++)
    describe_day (review, g_ptr_array_index (review->days, i), days);
  if (n > 0)
    describe_day (review, g_ptr_array_index (review->days, n - 1), last);
  next = review->done ? g_strdup ("Next: nothing more to grind.")
                      : g_strdup_printf ("Next: %s, %s", review->next->title, review->next->large);
  tg_words_show (GTK_LABEL (strip->standing), review->standing);
  tg_words_show (GTK_LABEL (strip->days), days->str);
  gtk_widget_set_visible (strip->days, days->len > 0);
  tg_words_show (GTK_LABEL (strip->last), last->str);
  gtk_widget_set_visible (strip->last, last->len > 0);
  tg_words_show (GTK_LABEL (strip->next), next);
  tg_why_button_give (TG_WHY_BUTTON (strip->why), review->next->title,
                      g_ptr_array_ref (review->next->why));
  gtk_widget_set_visible (GTK_WIDGET (strip), TRUE);
}
