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

#include "config.h"
#include "job-xml.h"
#include "report.h"
#include "sheet.h"

#define EXIT_DONE 0
#define EXIT_REFUSED 1
#define EXIT_USAGE 2

typedef struct
{
  const char *job;
  const char *output;
  const char *paper;
  gboolean csv;
} Options;

typedef struct
{
  const char *word;
  const char *usage;
  gboolean csv, output;
  int (*run) (const TgJob *job, const TgReview *review, const Options *options);
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
run_check (const TgJob *job G_GNUC_UNUSED,
           const TgReview *review,
           const Options *options G_GNUC_UNUSED)
{
  g_autofree char *text = tg_report_check (review);

  return print (text);
}

static int
run_plan (const TgJob *job G_GNUC_UNUSED, const TgReview *review, const Options *options)
{
  g_autofree char *text = options->csv ? tg_report_plan_csv (review) : tg_report_plan (review);

  return print (text);
}

static int
run_sheet (const TgJob *job, const TgReview *review, const Options *options)
{
  g_autoptr (GError) error = NULL;
  TgPaper paper = TG_PAPER_A4;

  if (g_strcmp0 (options->paper, "letter") == 0)
    paper = TG_PAPER_LETTER;
  if (tg_sheet_write (job, review, paper, options->output, &error))
    return EXIT_DONE;
  fprintf (stderr, "tenthgram: %s\n", error->message);
  return EXIT_REFUSED;
}

static const Command commands[] = {
  { "check", "check JOB", FALSE, FALSE, run_check },
  { "plan", "plan JOB [--csv]", TRUE, FALSE, run_plan },
  { "sheet", "sheet JOB --output FILE.pdf|.svg|.png [--paper a4|letter]", FALSE, TRUE, run_sheet },
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

/* Reads the words after the command; 0, or the exit status of wrong usage. */
static int
read_options (const Command *command, int argc, char **argv, Options *options)
{
  for (int i = 2; i < argc; i++)
    {
      gboolean output = command->output && strcmp (argv[i], "--output") == 0;
      gboolean paper = command->output && strcmp (argv[i], "--paper") == 0;

      if (command->csv && strcmp (argv[i], "--csv") == 0)
        options->csv = TRUE;
      else if ((output || paper) && i + 1 < argc)
        *(output ? &options->output : &options->paper) = argv[++i];
      else if (argv[i][0] == '-')
        return wrong_usage ("not understood:", argv[i]);
      else if (options->job)
        return wrong_usage ("one job at a time, not also", argv[i]);
      else
        options->job = argv[i];
    }
  if (!options->job)
    return wrong_usage ("which job? after", command->word);
  if (command->output && !options->output)
    return wrong_usage ("--output FILE is missing", NULL);
  if (options->paper && strcmp (options->paper, "a4") != 0 &&
      strcmp (options->paper, "letter") != 0)
    return wrong_usage ("paper is a4 or letter, not", options->paper);
  return 0;
}

int
tg_commands_run (int argc, char **argv)
{
  const Command *command = argc > 1 ? find_command (argv[1]) : NULL;
  Options options = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;
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
  if (status)
    return status;
  job = tg_job_xml_load (options.job, &error);
  if (!job)
    {
      fprintf (stderr, "tenthgram: %s\n", error->message);
      return EXIT_REFUSED;
    }
  review = tg_review_new (job);
  return command->run (job, review, &options);
}
