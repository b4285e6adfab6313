/* lesson-row.c: one lesson of the list, see lesson-row.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-row.h"

#include "fold.h"
#include "words.h"

struct _TgLessonRow
{
  GtkBox parent_instance;
  const TgLessonPlace *place;
  GtkWidget *title;
  GtkWidget *goal;
  GtkWidget *standing;
  GtkWidget *anew;
  GtkWidget *go_on;
  GtkWidget *start;
};

enum
{
  START,
  GO_ON,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgLessonRow, tg_lesson_row, GTK_TYPE_BOX)

static void
on_start (TgLessonRow *self)
{
  g_signal_emit (self, signals[START], 0);
}

static void
on_go_on (TgLessonRow *self)
{
  g_signal_emit (self, signals[GO_ON], 0);
}

/* (transfer full): "about 10 minutes · begun, step 3 of 7" */
static char *
standing_words (const TgLessonPlace *place)
{
  const TgLesson *lesson = place->lesson;
  g_autofree char *own = lesson->path ? g_path_get_basename (lesson->path) : NULL;
  GString *words = g_string_new (NULL);

  g_string_append_printf (words, "about %u minutes · ", lesson->minutes);
  if (place->standing == TG_LESSON_FINISHED)
    g_string_append (words, "✓ done");
  else if (place->standing == TG_LESSON_BEGUN)
    g_string_append_printf (words, "begun, step %u of %u", place->step, lesson->steps->len);
  else
    g_string_append (words, "not begun");
  if (own)
    g_string_append_printf (words, " · from %s", own);
  return g_string_free (words, FALSE);
}

/* Every row has buttons of the same names; a screen reader hears which lesson each is for. */
static void
name_button (GtkWidget *button, const char *what, const TgLesson *lesson)
{
  g_autofree char *name = g_strdup_printf ("%s: %s", what, lesson->title);

  tg_words_name (button, name);
}

GtkWidget *
tg_lesson_row_new (const TgLessonPlace *place, guint number)
{
  TgLessonRow *self = g_object_new (TG_TYPE_LESSON_ROW, NULL);
  g_autofree char *title = g_strdup_printf ("%u  %s", number, place->lesson->title);
  g_autofree char *standing = standing_words (place);

  self->place = place;
  gtk_label_set_text (GTK_LABEL (self->title), title);
  tg_words_show (GTK_LABEL (self->goal), place->lesson->goal);
  tg_words_show (GTK_LABEL (self->standing), standing);
  if (place->standing == TG_LESSON_FINISHED)
    gtk_widget_add_css_class (self->standing, "good");
  gtk_widget_set_visible (self->start, place->standing == TG_LESSON_NOT_BEGUN);
  gtk_widget_set_visible (self->anew, place->standing != TG_LESSON_NOT_BEGUN);
  gtk_widget_set_visible (self->go_on, place->standing == TG_LESSON_BEGUN);
  name_button (self->start, "Start", place->lesson);
  name_button (self->anew, "Start anew", place->lesson);
  name_button (self->go_on, "Go on", place->lesson);
  return GTK_WIDGET (self);
}

const TgLessonPlace *
tg_lesson_row_place (TgLessonRow *row)
{
  g_return_val_if_fail (TG_IS_LESSON_ROW (row), NULL);

  return row->place;
}

static void
tg_lesson_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_LESSON_ROW);
  G_OBJECT_CLASS (tg_lesson_row_parent_class)->dispose (object);
}

static void
tg_lesson_row_class_init (TgLessonRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_lesson_row_dispose;
  g_type_ensure (TG_TYPE_FOLD);
  signals[START] = g_signal_new ("start", TG_TYPE_LESSON_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
  signals[GO_ON] = g_signal_new ("go-on", TG_TYPE_LESSON_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/lesson-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TgLessonRow, title);
  gtk_widget_class_bind_template_child (widget_class, TgLessonRow, goal);
  gtk_widget_class_bind_template_child (widget_class, TgLessonRow, standing);
  gtk_widget_class_bind_template_child (widget_class, TgLessonRow, anew);
  gtk_widget_class_bind_template_child (widget_class, TgLessonRow, go_on);
  gtk_widget_class_bind_template_child (widget_class, TgLessonRow, start);
  gtk_widget_class_bind_template_callback (widget_class, on_start);
  gtk_widget_class_bind_template_callback (widget_class, on_go_on);
}

static void
tg_lesson_row_init (TgLessonRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
