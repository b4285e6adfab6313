/* pairing-job.c: jobs whose parts can change hands, see pairing-job.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "pairing-job.h"

#include "fixture.h"
#include "job-xml.h"
#include "page-fixture.h"

/* In tenths of a gram, over what the first digits say. */
static const int piston_dg[] = { 28, 41, 19, 33, 52, 24, 38, 30 };
static const int pin_dg[] = { 12, 5, 20, 16, 9, 24, 1, 13 };
static const int rings_dg[] = { 6, 11, 3, 8, 14, 1, 10, 5 };
static const int clips_dg[] = { 1, 2, 0, 1, 3, 2, 0, 1 };

TgSetup *
pairing_setup (guint cylinders, guint spares)
{
  TgSetup *setup = fixture_setup (cylinders, FALSE, TRUE);

  fixture_add_family (setup, TG_PART_PIN, spares);
  fixture_add_family (setup, TG_PART_RINGS, 0);
  fixture_add_family (setup, TG_PART_CLIPS, 0);
  return setup;
}

static double
grams_of (TgPartKind kind, guint number)
{
  guint i = (number - 1) % G_N_ELEMENTS (piston_dg);

  switch (kind)
    {
    case TG_PART_PISTON:
      return 410 + 0.1 * piston_dg[i];
    case TG_PART_PIN:
      return 117 + 0.1 * pin_dg[i];
    case TG_PART_RINGS:
      return 43 + 0.1 * rings_dg[i];
    case TG_PART_CLIPS:
    default:
      return 2 + 0.1 * clips_dg[i];
    }
}

void
pairing_weigh (TgJob *job)
{
  const TgSetup *setup = tg_job_setup (job);
  guint number[TG_N_PART_KINDS] = { 0 };

  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);
      TgPartKind kind = part->design->kind;

      if (kind != TG_PART_ROD)
        fixture_weigh (job, part->id, TG_FIGURE_WHOLE, TG_WAY_ANY, grams_of (kind, ++number[kind]));
    }
}

TgJob *
pairing_job (guint cylinders, guint spares)
{
  TgJob *job = tg_job_new (pairing_setup (cylinders, spares));

  pairing_weigh (job);
  return job;
}

TgJob *
pairing_both_job (guint cylinders)
{
  TgSetup *setup = fixture_setup (cylinders, TRUE, TRUE);
  TgJob *job;

  fixture_add_family (setup, TG_PART_PIN, 0);
  fixture_add_family (setup, TG_PART_BEARINGS, 0);
  job = tg_job_new (setup);
  for (guint i = 1; i <= cylinders; i++)
    {
      g_autofree char *pin = g_strdup_printf ("pin-%u", i);
      g_autofree char *bearings = g_strdup_printf ("bearings-%u", i);

      fixture_weigh_rod (job, i, 171.6, 412 + 0.1 * piston_dg[i - 1]);
      fixture_weigh_piston (job, i, grams_of (TG_PART_PISTON, i));
      fixture_weigh (job, pin, TG_FIGURE_WHOLE, TG_WAY_ANY, grams_of (TG_PART_PIN, i));
      /* the heavy ones with the heavy rods, as nobody would want it */
      fixture_weigh (job, bearings, TG_FIGURE_WHOLE, TG_WAY_ANY, 60 + 0.05 * piston_dg[i - 1]);
    }
  return job;
}

TgJob *
pairing_hard_job (void)
{
  TgSetup *setup = fixture_setup (TG_MAX_CYLINDERS, FALSE, TRUE);
  g_autoptr (GRand) rand = g_rand_new_with_seed (4711);
  TgJob *job;

  setup->resolution = 1;
  setup->tolerance[TG_BAND_PISTON] = 0;
  for (TgPartKind kind = TG_PART_PIN; kind <= TG_PART_CLIPS; kind++)
    fixture_add_family (setup, kind, 0);
  job = tg_job_new (setup);
  for (guint i = 0; i < tg_job_setup (job)->parts->len; i++)
    fixture_weigh (job, tg_setup_part (tg_job_setup (job), i)->id, TG_FIGURE_WHOLE, TG_WAY_ANY,
                   100 + 0.001 * g_rand_int_range (rand, 0, 50000));
  return job;
}

TgSession *
pairing_session_new (const char *folder, TgJob *job)
{
  static guint n = 0;
  g_autofree char *name = g_strdup_printf ("pairing-%u.tenthgram", n++);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (TgJob) taken = job;
  g_autoptr (GError) error = NULL;
  TgSession *session;

  tg_job_xml_save (taken, path, &error);
  g_assert_no_error (error);
  session = tg_session_open (path, &error);
  g_assert_no_error (error);
  return session;
}

void
pairing_rule (TgSession *session, TgRule rule, const char *part, const char *other, guint bore)
{
  TgEvent event = tg_event_blank (TG_EVENT_RULE);

  event.rule = rule;
  event.on = TRUE;
  event.part = part;
  event.other = other ? other : "";
  event.bore = bore;
  page_append (session, event);
}
