/* new-job.c: the page that makes a new job
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One page in three groups: the engine, its parts, scale and tolerance.  Everything has an answer
 * to start from, so that Enter from group to group makes a job; what is not asked here can be
 * refined on the set-up page.  What is typed is never changed or lost by a refusal.
 */
#include "new-job.h"

#include <string.h>

#include "clamp.h"
#include "columns.h"
#include "crankpins-choice.h"
#include "design-choice.h"
#include "family-choice.h"
#include "job-draft.h"
#include "practice-choice.h"
#include "review.h"
#include "scroll.h"
#include "words.h"
#include "number.h"

#define N_STEPS 4

struct _TgNewJob
{
  GtkBox parent_instance;
  GtkWidget *engine, *parts, *scale;
  GtkEntry *name, *file, *centres, *step, *tolerance;
  GtkEntry *tolerance_of[TG_N_BANDS];
  GtkWidget *tolerance_box[TG_N_BANDS];
  GtkLabel *tolerance_label[TG_N_BANDS];
  GtkCheckButton *layout[TG_N_LAYOUTS];
  GtkSpinButton *cylinders;
  TgCrankpinsChoice *crankpins;
  GtkCheckButton *match_both, *match_rods, *match_pistons;
  GtkWidget *rods, *pistons;
  TgDesignChoice *rod, *piston;
  TgFamilyChoice *families;
  TgPracticeChoice *practice;
  GtkLabel *title;
  GtkCheckButton *steps[N_STEPS];
  GtkCheckButton *step_other;
  GtkWidget *step_box;
  GtkExpander *each;
  GtkLabel *warning, *proof;
  GtkLabel *file_problem, *centres_problem, *step_problem, *tolerance_problem, *problem;
  GtkWidget *start;
  TgLibrary *library;
  GtkFileChooserNative *chooser;
  char *folder;
  guint focus_source;
  gboolean name_typed, file_typed, centres_typed;
  gboolean filling; /* the page writes, not the person */
};

static const TgMass step_masses[N_STEPS] = { 10, 100, 500, 1000 };

enum
{
  CREATED,
  CANCELLED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgNewJob, tg_new_job, GTK_TYPE_BOX)

GtkWidget *
tg_new_job_new (void)
{
  return g_object_new (TG_TYPE_NEW_JOB, NULL);
}

static const char *
text_of (GtkEntry *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

static void
write_text (TgNewJob *self, GtkEntry *entry, const char *text)
{
  self->filling = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  self->filling = FALSE;
}

/* -- what was answered ------------------------------------------------------------------------ */

static gboolean
read_mass (GtkEntry *entry, GtkLabel *problem, TgMass *mass)
{
  g_autoptr (GError) error = NULL;
  gboolean read = tg_mass_parse (text_of (entry), mass, &error);

  tg_words_show_problem (GTK_WIDGET (entry), problem, read ? NULL : error->message);
  return read;
}

static gboolean
read_step (TgNewJob *self, TgMass *mass)
{
  for (guint i = 0; i < N_STEPS; i++)
    if (gtk_check_button_get_active (self->steps[i]))
      {
        *mass = step_masses[i];
        tg_words_show_problem (GTK_WIDGET (self->step), self->step_problem, NULL);
        return TRUE;
      }
  if (!read_mass (self->step, self->step_problem, mass))
    return FALSE;
  tg_words_show_problem (GTK_WIDGET (self->step), self->step_problem,
                         *mass > 0 ? NULL : "The step cannot be 0 g.");
  return *mass > 0;
}

static gboolean
read_tolerances (TgNewJob *self, TgMass *tolerance)
{
  TgMass common;

  if (!read_mass (self->tolerance, self->tolerance_problem, &common))
    return FALSE;
  for (guint band = 0; band <= TG_BAND_PISTON; band++)
    {
      GtkEntry *own = self->tolerance_of[band];

      tolerance[band] = common;
      if (gtk_widget_get_visible (self->tolerance_box[band]) && text_of (own)[0] != '\0' &&
          !read_mass (own, self->tolerance_problem, &tolerance[band]))
        return FALSE;
      gtk_widget_remove_css_class (GTK_WIDGET (own), "error");
    }
  return TRUE;
}

static gboolean
read_centres (TgNewJob *self, double *centres)
{
  guint n;
  const TgField *field = tg_design_rod_fields (&n);
  g_autofree char *text = g_strstrip (g_strdup (text_of (self->centres)));
  g_autofree char *problem = NULL;
  char *end = text;

  g_strdelimit (text, ",", '.');
  while (strcmp (field->name, "centres") != 0)
    field++;
  *centres = g_ascii_strtod (text, &end);
  if (g_str_has_suffix (text, "mm"))
    text[strlen (text) - 2] = '\0';
  if (end == text || g_strstrip (end)[0] != '\0' || text[strspn (text, "0123456789.")] != '\0')
    problem = g_strdup_printf ("“%s” is not a length in mm.", text_of (self->centres));
  else if (*centres < field->min || *centres > field->max)
    {
      g_autofree char *min = tg_number_format_short (field->min);
      g_autofree char *max = tg_number_format_short (field->max);

      problem = g_strdup_printf ("Possible is %s to %s mm.", min, max);
    }
  tg_words_show_problem (GTK_WIDGET (self->centres), self->centres_problem, problem);
  return problem == NULL;
}

static TgLayout
chosen_layout (TgNewJob *self)
{
  TgLayout layout = TG_LAYOUT_INLINE;

  while (layout < TG_LAYOUT_OTHER && !gtk_check_button_get_active (self->layout[layout]))
    layout++;
  return layout;
}

static guint
chosen_cylinders (TgNewJob *self)
{
  return (guint) gtk_spin_button_get_value_as_int (self->cylinders);
}

static gboolean
read_draft (TgNewJob *self, TgJobDraft *draft)
{
  gboolean read = TRUE;

  memset (draft, 0, sizeof *draft);
  draft->name = text_of (self->name);
  draft->layout = chosen_layout (self);
  draft->cylinders = chosen_cylinders (self);
  if (gtk_widget_get_visible (GTK_WIDGET (self->crankpins)))
    draft->sharing = tg_crankpins_choice_get (self->crankpins);
  if (!gtk_check_button_get_active (self->match_pistons))
    {
      draft->rod = tg_design_choice_get (self->rod);
      read = read_centres (self, &draft->centres_mm) && read;
    }
  if (!gtk_check_button_get_active (self->match_rods))
    draft->piston = tg_design_choice_get (self->piston);
  tg_family_choice_read (self->families, draft);
  read = read_step (self, &draft->resolution) && read;
  if (gtk_widget_get_visible (GTK_WIDGET (self->practice)))
    read = tg_practice_choice_read (self->practice, draft) && read;
  return read_tolerances (self, draft->tolerance) && read;
}

/* -- what follows from an answer -------------------------------------------------------------- */

static void
show_file (TgNewJob *self)
{
  g_autofree char *path = NULL;
  const char *home = g_get_home_dir ();

  if (self->file_typed)
    return;
  path = tg_job_draft_path (self->folder, text_of (self->name));
  if (g_str_has_prefix (path, home) && path[strlen (home)] == G_DIR_SEPARATOR)
    {
      g_autofree char *shown = g_strconcat ("~", path + strlen (home), NULL);

      write_text (self, self->file, shown);
    }
  else
    write_text (self, self->file, path);
  tg_words_show_problem (GTK_WIDGET (self->file), self->file_problem, NULL);
}

static void
show_lines (GtkLabel *label, const GString *lines)
{
  tg_words_show (label, lines->str);
  gtk_widget_set_visible (GTK_WIDGET (label), lines->len > 0);
}

/* What the scale can prove stands below the tolerance: both are to be seen while it is typed. */
static void
show_answer (TgNewJob *self)
{
  if (!gtk_widget_has_focus (
          GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self->tolerance)))))
    return;
  if (gtk_widget_get_visible (GTK_WIDGET (self->proof)))
    tg_scroll_show (GTK_WIDGET (self->proof));
  if (gtk_widget_get_visible (GTK_WIDGET (self->warning)))
    tg_scroll_show (GTK_WIDGET (self->warning));
  tg_scroll_show (GTK_WIDGET (self->tolerance));
}

/* A tolerance is that of a sum where anything is carried with the part. */
static void
name_tolerances (TgNewJob *self, const TgSetup *setup)
{
  for (guint band = 0; band <= TG_BAND_PISTON; band++)
    {
      g_autofree char *label = g_strdup (tg_setup_band_label (setup, band));
      g_autofree char *name = g_strdup_printf ("Tolerance of the %s in g", label);

      label[0] = g_ascii_toupper (label[0]);
      tg_words_show (self->tolerance_label[band], label);
      tg_words_name (GTK_WIDGET (self->tolerance_of[band]), name);
    }
}

/* What this scale can prove with what was chosen, while it can still be chosen otherwise: what it
 * cannot stands out. */
static void
show_proofs (TgNewJob *self, const TgSetup *setup)
{
  g_autoptr (GString) can = g_string_new (NULL);
  g_autoptr (GString) cannot = g_string_new (NULL);

  for (guint band = 0; band <= TG_BAND_PISTON; band++)
    {
      g_autoptr (TgProof) proof = tg_proof_of_setup (setup, band);
      GString *lines = proof->needed == 0 ? cannot : can;

      if (tg_setup_has_band (setup, band) && proof->n_parts >= 2)
        g_string_append_printf (lines, "%s%s", lines->len > 0 ? "\n" : "", proof->text);
    }
  show_lines (self->warning, cannot);
  show_lines (self->proof, can);
  show_answer (self);
}

/* An odd number of rods cannot share pins two by two. */
static void
show_crankpins (TgNewJob *self, gboolean rods)
{
  guint cylinders = chosen_cylinders (self);
  gboolean asked = rods && tg_crankpins_choice_can_share (chosen_layout (self), cylinders);

  if (asked)
    tg_crankpins_choice_set_cylinders (self->crankpins, cylinders);
  gtk_widget_set_visible (GTK_WIDGET (self->crankpins), asked);
}

/* What does not apply is not shown, before the answers are read: it is not asked either. */
static void
show_questions (TgNewJob *self, gboolean rods, gboolean pistons)
{
  TgJobDraft draft = { 0 };

  tg_family_choice_offer (self->families, rods, pistons);
  tg_family_choice_read (self->families, &draft);
  show_crankpins (self, rods);
  gtk_widget_set_visible (self->rods, rods);
  gtk_widget_set_visible (self->pistons, pistons);
  gtk_widget_set_visible (self->tolerance_box[TG_BAND_ROD_SMALL],
                          rods && draft.small_ends != TG_SMALL_ENDS_SUM);
  gtk_widget_set_visible (self->tolerance_box[TG_BAND_ROD_BIG], rods);
  gtk_widget_set_visible (self->tolerance_box[TG_BAND_PISTON], pistons);
  gtk_widget_set_visible (self->step_box, gtk_check_button_get_active (self->step_other));
}

static void
on_changed (TgNewJob *self)
{
  gboolean rods = !gtk_check_button_get_active (self->match_pistons);
  gboolean pistons = !gtk_check_button_get_active (self->match_rods);
  g_autoptr (TgSetup) setup = NULL;
  TgJobDraft draft;

  if (self->filling || !self->library)
    return;
  show_questions (self, rods, pistons);
  tg_words_show_problem (NULL, self->problem, NULL);
  if (read_draft (self, &draft))
    setup = tg_job_draft_setup (&draft, NULL);
  if (setup)
    {
      name_tolerances (self, setup);
      show_proofs (self, setup);
    }
  if (rods && gtk_widget_get_visible (GTK_WIDGET (self->centres_problem)) == FALSE)
    tg_design_choice_set_centres (self->rod, draft.centres_mm);
  if (!self->name_typed)
    {
      g_autofree char *name = tg_job_draft_name (draft.layout, draft.cylinders);

      if (gtk_widget_get_visible (GTK_WIDGET (self->practice)))
        {
          g_autofree char *real = g_steal_pointer (&name);

          name = g_strdup_printf ("%s, %s", TG_PRACTICE_NAME, real);
        }
      write_text (self, self->name, name);
      show_file (self);
    }
}

static void
on_name_changed (TgNewJob *self)
{
  if (self->filling)
    return;
  self->name_typed = text_of (self->name)[0] != '\0';
  tg_words_show_problem (NULL, self->problem, NULL);
  show_file (self);
}

static void
on_file_changed (TgNewJob *self)
{
  if (self->filling)
    return;
  self->file_typed = text_of (self->file)[0] != '\0';
  tg_words_show_problem (GTK_WIDGET (self->file), self->file_problem, NULL);
}

static void
on_centres_changed (TgNewJob *self)
{
  if (self->filling)
    return;
  self->centres_typed = text_of (self->centres)[0] != '\0';
  on_changed (self);
}

/* A typed centre distance stays when another rod is picked. */
static void
on_rod_changed (TgNewJob *self)
{
  const TgDesign *rod = tg_design_choice_get (self->rod);
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  if (!rod || self->centres_typed)
    return;
  g_ascii_formatd (text, sizeof text, "%.10g", rod->rod.centres);
  write_text (self, self->centres, text);
  tg_design_choice_set_centres (self->rod, 0);
}

static void
on_class (GtkButton *button, gpointer data G_GNUC_UNUSED)
{
  TgNewJob *self = TG_NEW_JOB (gtk_widget_get_ancestor (GTK_WIDGET (button), TG_TYPE_NEW_JOB));
  const char *label = gtk_button_get_label (button);
  g_autofree char *grams = g_strdup (strchr (label, ':') + 1);

  *strstr (grams, " g") = '\0';
  gtk_editable_set_text (GTK_EDITABLE (self->tolerance), g_strstrip (grams));
}

/* -- the file --------------------------------------------------------------------------------- */

/* (transfer full): the typed place as a path of the system. */
static char *
typed_path (TgNewJob *self)
{
  g_autofree char *typed = g_strstrip (g_strdup (text_of (self->file)));
  g_autofree char *path = NULL;

  if (g_str_has_prefix (typed, "~/"))
    path = g_build_filename (g_get_home_dir (), typed + 2, NULL);
  else
    path = g_canonicalize_filename (typed, self->folder);
  return g_str_has_suffix (path, ".tenthgram") ? g_steal_pointer (&path)
                                               : g_strconcat (path, ".tenthgram", NULL);
}

static void
on_chosen (GtkNativeDialog *dialog, int response, TgNewJob *self)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = g_file_get_path (file);

      if (path)
        gtk_editable_set_text (GTK_EDITABLE (self->file), path);
    }
  g_clear_object (&self->chooser);
}

static void
on_choose (TgNewJob *self)
{
  g_autofree char *path = typed_path (self);
  g_autofree char *base = g_path_get_basename (path);
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GFile) at = g_file_new_for_path (folder);

  g_clear_object (&self->chooser);
  self->chooser = gtk_file_chooser_native_new (
      "Where to keep the job", GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
      GTK_FILE_CHOOSER_ACTION_SAVE, "_Keep it here", "_Cancel");
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (self->chooser), at, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), base);
  g_signal_connect_object (self->chooser, "response", G_CALLBACK (on_chosen), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

void
tg_new_job_set_folder (TgNewJob *self, const char *folder)
{
  g_return_if_fail (TG_IS_NEW_JOB (self) && folder != NULL);

  g_free (self->folder);
  self->folder = g_strdup (folder);
  show_file (self);
}

void
tg_new_job_set_practice (TgNewJob *self)
{
  g_return_if_fail (TG_IS_NEW_JOB (self));

  gtk_widget_set_visible (GTK_WIDGET (self->practice), TRUE);
  tg_words_show (self->title, "New practice job");
  on_changed (self);
}

/* -- making the job --------------------------------------------------------------------------- */

gboolean
tg_new_job_start (TgNewJob *self)
{
  g_autoptr (TgSession) session = NULL;
  g_autoptr (TgSetup) setup = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  TgJobDraft draft;

  g_return_val_if_fail (TG_IS_NEW_JOB (self), FALSE);

  gtk_spin_button_update (self->cylinders);
  tg_words_show_problem (NULL, self->problem, NULL);
  if (!read_draft (self, &draft))
    {
      tg_words_show_problem (NULL, self->problem, "One of the answers above cannot be right yet.");
      return FALSE;
    }
  setup = tg_job_draft_setup (&draft, &error);
  path = typed_path (self);
  if (setup && g_file_test (path, G_FILE_TEST_EXISTS))
    {
      tg_words_show_problem (
          GTK_WIDGET (self->file), self->file_problem,
          "There is a file of this name already. It stays as it is: choose another name.");
      gtk_widget_grab_focus (GTK_WIDGET (self->file));
      return FALSE;
    }
  if (setup)
    session = tg_session_create (g_steal_pointer (&setup), path, &error);
  if (!session)
    {
      tg_words_show_problem (NULL, self->problem, error->message);
      return FALSE;
    }
  g_signal_emit (self, signals[CREATED], 0, session);
  return TRUE;
}

void
tg_new_job_advance (TgNewJob *self)
{
  GtkWidget *focus, *next;

  g_return_if_fail (TG_IS_NEW_JOB (self));

  gtk_spin_button_update (self->cylinders);
  focus = gtk_widget_get_focus_child (GTK_WIDGET (self))
              ? gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)))
              : NULL;
  if (focus && gtk_widget_is_ancestor (focus, self->scale))
    {
      tg_new_job_start (self);
      return;
    }
  if (focus && gtk_widget_is_ancestor (focus, self->parts))
    next = GTK_WIDGET (self->tolerance);
  else
    next = gtk_widget_get_visible (self->rods) ? GTK_WIDGET (self->rod) : GTK_WIDGET (self->piston);
  gtk_widget_grab_focus (next);
  if (GTK_IS_WINDOW (gtk_widget_get_root (next)))
    gtk_window_set_focus_visible (GTK_WINDOW (gtk_widget_get_root (next)), TRUE);
}

static gboolean
on_key (GtkEventControllerKey *keys,
        guint key,
        guint code G_GNUC_UNUSED,
        GdkModifierType state,
        gpointer data G_GNUC_UNUSED)
{
  TgNewJob *self = TG_NEW_JOB (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys)));
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  if (key != GDK_KEY_Return && key != GDK_KEY_KP_Enter && key != GDK_KEY_ISO_Enter)
    return GDK_EVENT_PROPAGATE;
  if (state & GDK_CONTROL_MASK)
    tg_new_job_start (self);
  else if (GTK_IS_BUTTON (focus) || GTK_IS_EXPANDER (focus))
    return GDK_EVENT_PROPAGATE;
  else
    tg_new_job_advance (self);
  return GDK_EVENT_STOP;
}

static void
on_start (TgNewJob *self)
{
  tg_new_job_start (self);
}

static void
on_cancel (TgNewJob *self)
{
  g_signal_emit (self, signals[CANCELLED], 0);
}

static gboolean
tg_new_job_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (TG_NEW_JOB (widget)->name));
}

static gboolean
focus_name (gpointer data)
{
  TgNewJob *self = data;

  self->focus_source = 0;
  gtk_widget_grab_focus (GTK_WIDGET (self->name));
  return G_SOURCE_REMOVE;
}

/* Once whoever shows the page has done with it: a new window moves the focus about. */
static void
tg_new_job_map (GtkWidget *widget)
{
  TgNewJob *self = TG_NEW_JOB (widget);

  GTK_WIDGET_CLASS (tg_new_job_parent_class)->map (widget);
  if (self->focus_source == 0)
    self->focus_source = g_idle_add (focus_name, self);
}

static void
tg_new_job_dispose (GObject *object)
{
  TgNewJob *self = TG_NEW_JOB (object);

  g_clear_handle_id (&self->focus_source, g_source_remove);
  g_clear_object (&self->chooser);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_NEW_JOB);
  g_clear_pointer (&self->library, tg_library_free);
  G_OBJECT_CLASS (tg_new_job_parent_class)->dispose (object);
}

static void
tg_new_job_finalize (GObject *object)
{
  g_free (TG_NEW_JOB (object)->folder);
  G_OBJECT_CLASS (tg_new_job_parent_class)->finalize (object);
}

#define BIND(name, member)                                                                         \
  gtk_widget_class_bind_template_child_full (widget_class, name, FALSE,                            \
                                             G_STRUCT_OFFSET (TgNewJob, member))
#define BIND_SAME(member) BIND (#member, member)

static void
bind_children (GtkWidgetClass *widget_class)
{
  BIND_SAME (engine);
  BIND_SAME (parts);
  BIND_SAME (scale);
  BIND_SAME (name);
  BIND_SAME (file);
  BIND_SAME (centres);
  BIND_SAME (step);
  BIND_SAME (tolerance);
  BIND_SAME (cylinders);
  BIND_SAME (crankpins);
  BIND_SAME (match_both);
  BIND_SAME (match_rods);
  BIND_SAME (match_pistons);
  BIND_SAME (rods);
  BIND_SAME (pistons);
  BIND_SAME (rod);
  BIND_SAME (piston);
  BIND_SAME (families);
  BIND_SAME (practice);
  BIND_SAME (title);
  BIND_SAME (step_other);
  BIND_SAME (step_box);
  BIND_SAME (each);
  BIND_SAME (warning);
  BIND_SAME (proof);
  BIND_SAME (file_problem);
  BIND_SAME (centres_problem);
  BIND_SAME (step_problem);
  BIND_SAME (tolerance_problem);
  BIND_SAME (problem);
  BIND_SAME (start);
  BIND ("layout_inline", layout[TG_LAYOUT_INLINE]);
  BIND ("layout_vee", layout[TG_LAYOUT_VEE]);
  BIND ("layout_boxer", layout[TG_LAYOUT_BOXER]);
  BIND ("layout_other", layout[TG_LAYOUT_OTHER]);
  BIND ("step_0", steps[0]);
  BIND ("step_1", steps[1]);
  BIND ("step_2", steps[2]);
  BIND ("step_3", steps[3]);
  BIND ("tolerance_0", tolerance_of[TG_BAND_ROD_SMALL]);
  BIND ("tolerance_1", tolerance_of[TG_BAND_ROD_BIG]);
  BIND ("tolerance_2", tolerance_of[TG_BAND_PISTON]);
  BIND ("tolerance_label_0", tolerance_label[TG_BAND_ROD_SMALL]);
  BIND ("tolerance_label_1", tolerance_label[TG_BAND_ROD_BIG]);
  BIND ("tolerance_label_2", tolerance_label[TG_BAND_PISTON]);
  BIND ("tolerance_box_0", tolerance_box[TG_BAND_ROD_SMALL]);
  BIND ("tolerance_box_1", tolerance_box[TG_BAND_ROD_BIG]);
  BIND ("tolerance_box_2", tolerance_box[TG_BAND_PISTON]);
}

static void
tg_new_job_class_init (TgNewJobClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_CRANKPINS_CHOICE);
  g_type_ensure (TG_TYPE_DESIGN_CHOICE);
  g_type_ensure (TG_TYPE_FAMILY_CHOICE);
  g_type_ensure (TG_TYPE_PRACTICE_CHOICE);
  G_OBJECT_CLASS (klass)->dispose = tg_new_job_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_new_job_finalize;
  widget_class->grab_focus = tg_new_job_grab_focus;
  widget_class->map = tg_new_job_map;
  signals[CREATED] = g_signal_new ("created", TG_TYPE_NEW_JOB, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, TG_TYPE_SESSION);
  signals[CANCELLED] = g_signal_new ("cancelled", TG_TYPE_NEW_JOB, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                     NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/new-job.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, on_cancel);
  gtk_widget_class_bind_template_callback (widget_class, on_centres_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_choose);
  gtk_widget_class_bind_template_callback (widget_class, on_class);
  gtk_widget_class_bind_template_callback (widget_class, on_file_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_key);
  gtk_widget_class_bind_template_callback (widget_class, on_name_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_rod_changed);
  gtk_widget_class_bind_template_callback (widget_class, on_start);
  gtk_widget_class_bind_template_callback (widget_class, show_answer);
}

static void
tg_new_job_init (TgNewJob *self)
{
  g_autoptr (GError) error = NULL;

  self->folder = tg_job_draft_folder ();
  gtk_widget_init_template (GTK_WIDGET (self));
  self->library = tg_library_load (&error);
  if (!self->library)
    {
      tg_words_show_problem (NULL, self->problem, error->message);
      gtk_widget_set_sensitive (self->start, FALSE);
      return;
    }
  tg_design_choice_fill (self->rod, self->library, TG_PART_ROD);
  tg_design_choice_fill (self->piston, self->library, TG_PART_PISTON);
  on_rod_changed (self);
  on_changed (self);
}
