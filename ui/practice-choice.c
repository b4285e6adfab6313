/* practice-choice.c: how the bench of a new practice job is to be
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice-choice.h"

#include "columns.h"
#include "words.h"

#define MAX_SPREAD_G 20

struct _TgPracticeChoice
{
  GtkBox parent_instance;
  GtkWidget *level[TG_N_PRACTICE_LEVELS];
  GtkWidget *levels;
  GtkWidget *fields;
  GtkWidget *sentence;
  GtkWidget *word;
  GtkWidget *word_problem;
  GtkWidget *spread;
  GtkWidget *spread_problem;
};

G_DEFINE_FINAL_TYPE (TgPracticeChoice, tg_practice_choice, GTK_TYPE_BOX)

static TgPracticeLevel
chosen_level (TgPracticeChoice *self)
{
  TgPracticeLevel level = TG_PRACTICE_HONEST;

  while (level < TG_PRACTICE_STUBBORN &&
         !gtk_check_button_get_active (GTK_CHECK_BUTTON (self->level[level])))
    level++;
  return level;
}

static void
on_level (TgPracticeChoice *self)
{
  tg_words_show (GTK_LABEL (self->sentence), tg_practice_level_words (chosen_level (self)));
}

static void
on_typed (TgPracticeChoice *self)
{
  tg_words_show_problem (self->word, GTK_LABEL (self->word_problem), NULL);
  tg_words_show_problem (self->spread, GTK_LABEL (self->spread_problem), NULL);
}

static gboolean
read_spread (TgPracticeChoice *self, double *spread_g)
{
  g_autoptr (GError) error = NULL;
  TgMass mass = 0;
  gboolean read = tg_mass_parse (gtk_editable_get_text (GTK_EDITABLE (self->spread)), &mass,
                                 &error);
  const char *problem = !read                                      ? error->message
                        : mass > (TgMass) MAX_SPREAD_G * TG_MASS_G ? "Possible is up to 20 g."
                                                                   : NULL;

  tg_words_show_problem (self->spread, GTK_LABEL (self->spread_problem), problem);
  *spread_g = tg_mass_to_g (mass);
  return problem == NULL;
}

gboolean
tg_practice_choice_read (TgPracticeChoice *choice, TgJobDraft *draft)
{
  const char *word;
  gboolean has_word;

  g_return_val_if_fail (TG_IS_PRACTICE_CHOICE (choice), FALSE);

  word = gtk_editable_get_text (GTK_EDITABLE (choice->word));
  has_word = word[0] != '\0';
  tg_words_show_problem (choice->word, GTK_LABEL (choice->word_problem),
                         has_word ? NULL : "Any word will do.");
  draft->seed = word;
  draft->level = chosen_level (choice);
  return read_spread (choice, &draft->spread_g) && has_word;
}

static void
tg_practice_choice_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_PRACTICE_CHOICE);
  G_OBJECT_CLASS (tg_practice_choice_parent_class)->dispose (object);
}

static void
tg_practice_choice_class_init (TgPracticeChoiceClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_practice_choice_dispose;
  g_type_ensure (TG_TYPE_COLUMNS);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/practice-choice.ui");
  gtk_widget_class_bind_template_child_full (
      widget_class, "honest", FALSE, G_STRUCT_OFFSET (TgPracticeChoice, level[TG_PRACTICE_HONEST]));
  gtk_widget_class_bind_template_child_full (
      widget_class, "usual", FALSE, G_STRUCT_OFFSET (TgPracticeChoice, level[TG_PRACTICE_USUAL]));
  gtk_widget_class_bind_template_child_full (
      widget_class, "stubborn", FALSE,
      G_STRUCT_OFFSET (TgPracticeChoice, level[TG_PRACTICE_STUBBORN]));
  gtk_widget_class_bind_template_child (widget_class, TgPracticeChoice, levels);
  gtk_widget_class_bind_template_child (widget_class, TgPracticeChoice, fields);
  gtk_widget_class_bind_template_child (widget_class, TgPracticeChoice, sentence);
  gtk_widget_class_bind_template_child (widget_class, TgPracticeChoice, word);
  gtk_widget_class_bind_template_child (widget_class, TgPracticeChoice, word_problem);
  gtk_widget_class_bind_template_child (widget_class, TgPracticeChoice, spread);
  gtk_widget_class_bind_template_child (widget_class, TgPracticeChoice, spread_problem);
  gtk_widget_class_bind_template_callback (widget_class, on_level);
  gtk_widget_class_bind_template_callback (widget_class, on_typed);
}

/* A word that nobody has to think of: twice a letter that is heard and one that sounds, and a number. */
static char *
any_word (void)
{
  static const char heard[] = "bdfgklmnprstv", sounds[] = "aeiou";
  GString *word = g_string_new (NULL);

  for (guint i = 0; i < 3; i++)
    {
      g_string_append_c (word, heard[g_random_int_range (0, sizeof heard - 1)]);
      g_string_append_c (word, sounds[g_random_int_range (0, sizeof sounds - 1)]);
    }
  g_string_append_printf (word, " %d", g_random_int_range (10, 100));
  return g_string_free (word, FALSE);
}

static void
tg_practice_choice_init (TgPracticeChoice *self)
{
  g_autofree char *word = any_word ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_editable_set_text (GTK_EDITABLE (self->word), word);
  on_level (self);
}
