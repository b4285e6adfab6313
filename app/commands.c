/* commands.c: the command line that needs no display, see commands.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words: the first argument names the command.  Anything else that does not begin with a dash is a
 * job to open in a window, which is not done here.
 */
#include "commands.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "class-table.h"
#include "config.h"
#include "document.h"
#include "error.h"
#include "job-xml.h"
#include "report-debrief.h"
#include "report-match.h"
#include "report-prove.h"
#include "report.h"
#include "session.h"
#include "storable.h"
#include "table-export.h"
#include "table-preview.h"
#include "whole-file.h"

#define EXIT_DONE 0
#define EXIT_REFUSED 1
#define EXIT_USAGE 2

typedef struct
{
  const char *words[2]; /* the job; the table or what is exported */
  const char *output;
  const char *paper;
  gboolean csv;
  gboolean dry_run;
  TgTableKind kind; /* of an export */
  TgDocumentKind document;
  const char *seconds;
  double allowed; /* @seconds as a number */
  const char *speed;
  double speed_rpm; /* @speed as a number; 0: that of the job */
} Options;

typedef enum
{
  TAKES_CSV = 1 << 0,
  TAKES_OUTPUT = 1 << 1,
  NEEDS_OUTPUT = 1 << 2,
  TAKES_PAPER = 1 << 3,
  TAKES_DRY_RUN = 1 << 4,
  TAKES_KIND = 1 << 5, /* as its second word */
  TAKES_SECONDS = 1 << 6,
  MAY_NAME_DOCUMENT = 1 << 7, /* as its second word, which may be left out */
  TAKES_SPEED = 1 << 8,
  TAKES_FOLDER = 1 << 9, /* not a job */
} Takes;

typedef struct
{
  const char *word;
  const char *usage;
  guint n_words;
  guint takes;
  int (*run) (const Options *options);
} Command;

/* A full disk behind a redirection is told like any other. */
static int
print (const char *text)
{
  if (fputs (text, stdout) >= 0 && fflush (stdout) == 0)
    return EXIT_DONE;
  fprintf (stderr, "tenthgram: could not be printed: %s\n", g_strerror (errno));
  return EXIT_REFUSED;
}

static int
refuse (const GError *error)
{
  fprintf (stderr, "tenthgram: %s\n", error->message);
  return EXIT_REFUSED;
}

/* NULL after a refusal. */
static TgJob *
load (const Options *options)
{
  g_autoptr (GError) error = NULL;
  TgJob *job = tg_job_xml_load (options->words[0], &error);

  if (!job)
    refuse (error);
  return job;
}

static int
run_check (const Options *options)
{
  g_autoptr (TgJob) job = load (options);
  g_autoptr (TgReview) review = job ? tg_review_new (job) : NULL;
  g_autofree char *text = job ? tg_report_check (review) : NULL;

  return job ? print (text) : EXIT_REFUSED;
}

static int
run_plan (const Options *options)
{
  g_autoptr (TgJob) job = load (options);
  g_autoptr (TgReview) review = NULL;
  g_autofree char *text = NULL;

  if (!job)
    return EXIT_REFUSED;
  review = tg_review_new (job);
  text = options->csv ? tg_table_marked (tg_report_plan_csv (review), review->setup)
                      : tg_report_plan (review);
  return print (text);
}

/* Seconds that a pairing is searched for, unless they are given. */
#define SECONDS 2
#define MOST_SECONDS 3600

static gboolean
time_is_up (gpointer data)
{
  return g_get_monotonic_time () >= *(const gint64 *) data;
}

static void
find_match (TgReportMatch *match, double seconds)
{
  gint64 end = g_get_monotonic_time () + (gint64) (seconds * G_USEC_PER_SEC);
  const TgMatchingLimits limits = { .should_stop = time_is_up, .data = &end };

  if (match->pairing)
    tg_pairing_solve (match->pairing, &limits, &match->result);
}

static int
run_match (const Options *options)
{
  g_autoptr (TgJob) job = load (options);
  g_autoptr (TgReview) review = NULL;
  TgReportMatch matches[TG_N_PAIRING_SUMS] = { { 0 } };
  g_autofree char *text = NULL;
  guint n = 0;

  if (!job)
    return EXIT_REFUSED;
  review = tg_review_new (job);
  for (TgPairingSum sum = 0; sum < TG_N_PAIRING_SUMS; sum++)
    {
      char *why_not;

      /* what a job does not have is said of the pistons only */
      if (sum == TG_PAIRING_BEARINGS && !tg_setup_in_sum (review->setup, TG_PART_BEARINGS))
        continue;
      matches[n].sum = sum;
      matches[n].pairing = tg_pairing_new (review, sum, &why_not);
      matches[n].why_not = why_not;
      find_match (&matches[n++], options->allowed);
    }
  text = options->csv ? tg_table_marked (tg_report_match_csv (matches, n), review->setup)
                      : tg_report_match (review, matches, n);
  for (guint i = 0; i < n; i++)
    {
      if (matches[i].pairing)
        tg_pairing_unref ((TgPairing *) matches[i].pairing);
      g_free ((char *) matches[i].why_not);
    }
  return print (text);
}

static int
run_prove (const Options *options)
{
  g_autoptr (TgJob) job = load (options);
  g_autoptr (TgReview) review = job ? tg_review_new (job) : NULL;
  g_autoptr (TgBalance) balance = job ? tg_balance_new (job, review) : NULL;
  g_autoptr (TgBobweight) bobweight = job ? tg_bobweight_new (review) : NULL;
  g_autofree char *text = NULL;
  TgReportProve report = { review, balance, bobweight, options->speed_rpm };

  if (!job)
    return EXIT_REFUSED;
  if (report.speed_rpm <= 0)
    report.speed_rpm = balance->speed_rpm;
  text = options->csv ? tg_table_marked (tg_report_prove_csv (&report), review->setup)
                      : tg_report_prove (&report);
  return print (text);
}

static int
run_sheet (const Options *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgJob) job = load (options);
  g_autoptr (TgReview) review = NULL;
  g_autoptr (TgDocument) document = NULL;
  TgPaper paper = TG_PAPER_A4;

  if (!job)
    return EXIT_REFUSED;
  review = tg_review_new (job);
  if (g_strcmp0 (options->paper, "letter") == 0)
    paper = TG_PAPER_LETTER;
  document = tg_document_new (job, review, options->document, paper);
  return tg_document_write (document, options->output, &error) ? EXIT_DONE : refuse (error);
}

static int
run_export (const Options *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgJob) job = load (options);
  g_autoptr (TgReview) review = NULL;
  g_autofree char *text = NULL;

  if (!job)
    return EXIT_REFUSED;
  review = tg_review_new (job);
  text = tg_table_export (job, review, options->kind);
  if (!options->output)
    return print (text);
  return tg_whole_file_save (options->output, text, strlen (text), &error) ? EXIT_DONE
                                                                           : refuse (error);
}

/* What was, or would be, taken over, and what was left out. */
static int
print_import (const TgTableImport *import, const TgReview *review, gboolean dry_run)
{
  g_autofree char *preview = tg_table_preview_text (import, review, dry_run);
  g_autofree char *counts = tg_table_preview_counts (import);
  g_autofree char *readings = tg_table_preview_readings (import->n_new);
  gboolean nothing = dry_run || import->n_new == 0;
  g_autofree char *text = g_strdup_printf ("%s%s\ntaken over: %s\n", preview, counts,
                                           nothing ? "nothing" : readings);

  return print (text);
}

/* (nullable) (lends): why nothing of the table can be taken over. */
static const char *
find_problem (const TgTableImport *import)
{
  const TgTableRow *first;

  if (import->problem || import->n_new + import->n_known > 0 || import->rows->len == 0)
    return import->problem;
  first = g_ptr_array_index (import->rows, 0);
  return first->problem;
}

static int
take_over (TgSession *session, const TgTableImport *import, const Options *options)
{
  g_autoptr (GArray) events = tg_table_import_new_events (import);
  g_autoptr (GError) error = NULL;
  const char *problem = find_problem (import);
  int status = EXIT_DONE;

  if (!problem && !options->dry_run && events->len > 0 &&
      !tg_session_append (session, (const TgEvent *) events->data, events->len, &error))
    return refuse (error);
  if (!problem || options->dry_run)
    status = print_import (import, tg_session_review (session), options->dry_run);
  if (!problem)
    return status;
  fprintf (stderr, "tenthgram: nothing in the table can be read: %s\n", problem);
  return EXIT_REFUSED;
}

static int
run_import (const Options *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgSession) session = tg_session_open (options->words[0], &error);
  g_autofree char *source = tg_storable_basename (options->words[1]);
  g_autoptr (GString) text = NULL;
  g_autoptr (TgTableImport) import = NULL;

  if (session)
    text = tg_whole_file_load (options->words[1], TG_CSV_MAX_SIZE, &error);
  if (!text)
    return refuse (error);
  import = tg_table_import_new (tg_session_job (session), text->str, text->len, source, NULL,
                                &error);
  if (import)
    return take_over (session, import, options);
  g_prefix_error (&error, "%s: ", source);
  return refuse (error);
}

static int
run_debrief (const Options *options)
{
  g_autoptr (TgJob) job = load (options);
  g_autoptr (TgDebrief) debrief = NULL;
  g_autofree char *name = NULL;
  g_autofree char *text = NULL;

  if (!job)
    return EXIT_REFUSED;
  if (!tg_job_setup (job)->practice.on)
    {
      name = tg_storable_basename (options->words[0]);
      fprintf (stderr, "tenthgram: %s: a job with real parts; only practice has a debrief\n", name);
      return EXIT_REFUSED;
    }
  debrief = tg_debrief_new (job);
  text = options->csv ? tg_debrief_csv (debrief, job) : tg_debrief_text (debrief, job);
  return print (text);
}

static int
run_class (const Options *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgClassTable) table = tg_class_table_new (options->words[0], &error);
  g_autofree char *text = NULL;

  if (!table)
    return refuse (error);
  text = options->csv ? tg_class_table_csv (table) : tg_class_table_text (table);
  return print (text);
}

static const Command commands[] = {
  { "check", "check JOB", 1, 0, run_check },
  { "plan", "plan JOB [--csv]", 1, TAKES_CSV, run_plan },
  { "match", "match JOB [--csv] [--seconds N]", 1, TAKES_CSV | TAKES_SECONDS, run_match },
  { "sheet",
    "sheet JOB [grind|weigh|proof|bobweight|build] --output FILE.pdf|.svg|.png [--paper a4|letter]",
    2, TAKES_OUTPUT | NEEDS_OUTPUT | TAKES_PAPER | MAY_NAME_DOCUMENT, run_sheet },
  { "prove", "prove JOB [--csv] [--speed N]", 1, TAKES_CSV | TAKES_SPEED, run_prove },
  { "export", "export JOB readings|plan|journal [--output FILE]", 2, TAKES_KIND | TAKES_OUTPUT,
    run_export },
  { "import", "import JOB TABLE [--dry-run]", 2, TAKES_DRY_RUN, run_import },
  { "debrief", "debrief JOB [--csv]", 1, TAKES_CSV, run_debrief },
  { "class", "class FOLDER [--csv]", 1, TAKES_CSV | TAKES_FOLDER, run_class },
};

static void
print_usage (FILE *out)
{
  fputs ("Usage:\n  tenthgram [JOB]    open the window\n", out);
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    fprintf (out, "  tenthgram %s\n", commands[i].usage);
  fputs ("  tenthgram --help | --version\n", out);
}

static int
wrong_usage (const char *what, const char *word)
{
  fprintf (stderr, "tenthgram: %s%s%s\n", what, word ? " " : "", word ? word : "");
  print_usage (stderr);
  return EXIT_USAGE;
}

static const Command *
find_command (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (strcmp (commands[i].word, word) == 0)
      return &commands[i];
  return NULL;
}

gboolean
tg_commands_wanted (int argc, char **argv)
{
  if (argc < 2)
    return FALSE;
  return find_command (argv[1]) != NULL || argv[1][0] == '-' || argc > 2;
}

/* The option at @argv[*i], with its value; FALSE if the command does not take it. */
static gboolean
read_option (const Command *command, int argc, char **argv, int *i, Options *options)
{
  const char *word = argv[*i];
  const char **value = NULL;

  if (command->takes & TAKES_CSV && strcmp (word, "--csv") == 0)
    options->csv = TRUE;
  else if (command->takes & TAKES_DRY_RUN && strcmp (word, "--dry-run") == 0)
    options->dry_run = TRUE;
  else if (command->takes & TAKES_OUTPUT && strcmp (word, "--output") == 0)
    value = &options->output;
  else if (command->takes & TAKES_SECONDS && strcmp (word, "--seconds") == 0)
    value = &options->seconds;
  else if (command->takes & TAKES_SPEED && strcmp (word, "--speed") == 0)
    value = &options->speed;
  else if (command->takes & TAKES_PAPER && strcmp (word, "--paper") == 0)
    value = &options->paper;
  else
    return FALSE;
  if (value && *i + 1 >= argc)
    return FALSE;
  if (value)
    *value = argv[++*i];
  return TRUE;
}

static int
check_options (const Command *command, guint n_words, Options *options)
{
  if (n_words == 0)
    return wrong_usage (command->takes & TAKES_FOLDER ? "which folder? after" : "which job? after",
                        command->word);
  if (n_words < command->n_words && command->takes & TAKES_KIND)
    return wrong_usage ("readings, plan or journal? after", options->words[0]);
  if (n_words < command->n_words && !(command->takes & MAY_NAME_DOCUMENT))
    return wrong_usage ("which table? after", options->words[0]);
  if (command->takes & TAKES_KIND && !tg_table_kind_from_word (options->words[1], &options->kind))
    return wrong_usage ("readings, plan or journal, not", options->words[1]);
  options->document = TG_DOCUMENT_GRIND;
  if (command->takes & MAY_NAME_DOCUMENT && options->words[1] &&
      !tg_document_kind_from_word (options->words[1], &options->document))
    return wrong_usage ("grind, weigh, proof, bobweight or build, not", options->words[1]);
  if (command->takes & NEEDS_OUTPUT && !options->output)
    return wrong_usage ("--output FILE is missing", NULL);
  options->allowed = SECONDS;
  if (options->seconds && (!tg_storable_parse_number (options->seconds, &options->allowed) ||
                           options->allowed <= 0 || options->allowed > MOST_SECONDS))
    return wrong_usage ("seconds are a number up to 3600, not", options->seconds);
  if (options->speed && (!tg_storable_parse_number (options->speed, &options->speed_rpm) ||
                         options->speed_rpm <= 0 || options->speed_rpm > TG_DYNAMICS_MAX_RPM))
    return wrong_usage ("speed is a number of 1/min up to 50000, not", options->speed);
  if (options->paper && strcmp (options->paper, "a4") != 0 &&
      strcmp (options->paper, "letter") != 0)
    return wrong_usage ("paper is a4 or letter, not", options->paper);
  return 0;
}

/* Reads the words after the command; 0, or the exit status of wrong usage. */
static int
read_options (const Command *command, int argc, char **argv, Options *options)
{
  guint n = 0;

  for (int i = 2; i < argc; i++)
    {
      if (read_option (command, argc, argv, &i, options))
        continue;
      if (argv[i][0] == '-')
        return wrong_usage ("not understood:", argv[i]);
      if (n == command->n_words)
        return wrong_usage (command->takes & TAKES_FOLDER ? "one folder at a time, not also"
                                                          : "one job at a time, not also",
                            argv[i]);
      options->words[n++] = argv[i];
    }
  return check_options (command, n, options);
}

int
tg_commands_run (int argc, char **argv)
{
  const Command *command = argc > 1 ? find_command (argv[1]) : NULL;
  Options options = { 0 };
  int status;

  if (!command)
    {
      if (argc == 2 && (strcmp (argv[1], "--help") == 0 || strcmp (argv[1], "-h") == 0))
        {
          print_usage (stdout);
          return EXIT_DONE;
        }
      if (argc == 2 && strcmp (argv[1], "--version") == 0)
        {
          puts ("tenthgram " TG_VERSION);
          return EXIT_DONE;
        }
      return wrong_usage ("not understood:", argc > 1 ? argv[1] : NULL);
    }
  status = read_options (command, argc, argv, &options);
  return status ? status : command->run (&options);
}
