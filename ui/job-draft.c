/* job-draft.c: the few answers that a new job is made from
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything that is not asked comes from the designs.  The designs are copied, so that the job
 * keeps what it was made from when the library changes.
 */
#include "job-draft.h"

#include <string.h>

#define SUFFIX ".tenthgram"
#define PRACTICE_CHECK_WEIGHT_G 500

static void
add_design (TgSetup *setup, const TgDesign *from, double centres_mm, guint spares)
{
  TgDesign *design = tg_design_copy (from);

  if (design->kind == TG_PART_ROD && centres_mm > 0)
    design->rod.centres = centres_mm;
  tg_setup_add_design (setup, design);
  tg_setup_add_set (setup, design, spares);
}

/* Parts that are only weighed need no more of a design than their name. */
static void
add_plain (TgSetup *setup, TgPartKind kind, guint spares)
{
  TgDesign *design = tg_design_new (kind);

  g_free (design->id);
  g_free (design->name);
  design->id = g_strdup (tg_part_kind_to_word (kind));
  design->name = g_strdup (tg_part_kind_plural (kind));
  design->name[0] = g_ascii_toupper (design->name[0]);
  tg_setup_add_design (setup, design);
  tg_setup_add_set (setup, design, spares);
}

/* A practice bench has everything that a careful person would have. */
static void
make_practice (TgSetup *setup, const TgJobDraft *draft)
{
  tg_practice_set (&setup->practice, draft->seed);
  setup->practice.spread_g = draft->spread_g;
  setup->practice.faults = tg_practice_level_faults (draft->level,
                                                     tg_mass_to_g (draft->resolution));
  setup->check_weight = (TgMass) PRACTICE_CHECK_WEIGHT_G * TG_MASS_G;
  if (!g_str_has_prefix (setup->name, TG_PRACTICE_NAME))
    {
      g_autofree char *name = g_steal_pointer (&setup->name);

      setup->name = g_strdup_printf ("%s, %s", TG_PRACTICE_NAME, name);
    }
}

TgSetup *
tg_job_draft_setup (const TgJobDraft *draft, GError **error)
{
  g_autoptr (TgSetup) setup = tg_setup_new ();

  g_return_val_if_fail (draft != NULL, NULL);

  g_free (setup->name);
  setup->name = g_strdup (draft->name);
  setup->layout = draft->layout;
  setup->cylinders = draft->cylinders;
  setup->resolution = draft->resolution;
  setup->small_ends = draft->small_ends;
  setup->sharing = draft->sharing;
  memcpy (setup->tolerance, draft->tolerance, sizeof setup->tolerance);
  if (draft->rod)
    add_design (setup, draft->rod, draft->centres_mm, draft->spares[TG_PART_ROD]);
  if (draft->piston)
    add_design (setup, draft->piston, 0, draft->spares[TG_PART_PISTON]);
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (draft->takes_part[kind])
      add_plain (setup, kind, draft->spares[kind]);
  if (draft->seed)
    make_practice (setup, draft);
  if (!tg_setup_check (setup, error))
    return NULL;
  return g_steal_pointer (&setup);
}

char *
tg_job_draft_name (TgLayout layout, guint cylinders)
{
  static const char *const words[] = { "none",  "one",   "two",  "three", "four",   "five",  "six",
                                       "seven", "eight", "nine", "ten",   "eleven", "twelve" };
  g_autofree char *count = cylinders < G_N_ELEMENTS (words) ? g_strdup (words[cylinders])
                                                            : g_strdup_printf ("%u", cylinders);
  char *name;

  switch (layout)
    {
    case TG_LAYOUT_INLINE:
      name = g_strdup_printf ("%s in line", count);
      break;
    case TG_LAYOUT_VEE:
      name = g_strdup_printf ("V %s", count);
      break;
    case TG_LAYOUT_BOXER:
      name = g_strdup_printf ("Boxer %s", count);
      break;
    case TG_LAYOUT_OTHER:
    default:
      name = g_strdup_printf ("Engine of %s", count);
      break;
    }
  name[0] = g_ascii_toupper (name[0]);
  return name;
}

char *
tg_job_draft_path (const char *folder, const char *name)
{
  g_autofree char *base = g_strstrip (g_strdup (name));

  for (char *c = base; *c; c++)
    if (*c == G_DIR_SEPARATOR || (guchar) *c < ' ' || *c == 0x7f)
      *c = '-';
  if (base[0] == '.')
    base[0] = '-';
  for (guint i = 1;; i++)
    {
      g_autofree char *file = i == 1 ? g_strconcat (base[0] ? base : "Job", SUFFIX, NULL)
                                     : g_strdup_printf ("%s %u" SUFFIX, base[0] ? base : "Job", i);
      g_autofree char *path = g_build_filename (folder, file, NULL);

      if (!g_file_test (path, G_FILE_TEST_EXISTS))
        return g_steal_pointer (&path);
    }
}

char *
tg_job_draft_folder (void)
{
  const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);

  if (documents && g_file_test (documents, G_FILE_TEST_IS_DIR))
    return g_strdup (documents);
  return g_build_filename (g_get_home_dir (), NULL);
}
