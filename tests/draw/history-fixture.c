/* history-fixture.c: histories put together by hand, see history-fixture.h
 *
 * All figures are invented; the drawings must show whatever they are given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "history-fixture.h"

#include "fixture.h"

/* 2026-03-03T19:00:00+01:00 */
#define START G_GINT64_CONSTANT (1772560800)

/**
 * Pen: what the part weighs while its history is written
 * @now: by TgFigure
 */
typedef struct
{
  TgPartReview *part;
  gboolean rod;
  gint64 seconds;
  guint piece;
  double now[TG_N_FIGURES];
  double expanded_g;
} Pen;

const char *
history_name (HistoryCase which)
{
  static const char *const names[] = { "empty", "one", "evenings", "replaced", "sixty", "days" };

  return names[which];
}

static TgStamp
stamp (Pen *pen)
{
  pen->seconds += 90;
  return (TgStamp){ pen->seconds, 60 };
}

static void
go_to_day (Pen *pen, guint day)
{
  pen->seconds = START + 86400 * (gint64) day;
}

static void
weigh (Pen *pen, TgFigure figure)
{
  TgHistoryPoint point = { .figure = figure,
                           .piece = pen->piece,
                           .stamp = stamp (pen),
                           .n = 2,
                           .mean_g = pen->now[figure],
                           .u_g = pen->expanded_g / 2,
                           .expanded_g = pen->expanded_g };

  g_array_append_val (pen->part->history, point);
}

static void
weigh_all (Pen *pen)
{
  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    if (pen->rod || figure == TG_FIGURE_WHOLE)
      weigh (pen, figure);
}

/* Zone 0 of the fixture's rod is the small-end pad, 2 the cap pad; its piston has zone 0. */
static void
take (Pen *pen, guint zone, double grams, gboolean shown)
{
  TgHistoryPass pass = { .stamp = stamp (pen),
                         .piece = pen->piece,
                         .zone = pen->rod ? zone : 0,
                         .taken_g = grams,
                         .shown = shown };
  TgFigure near = !pen->rod ? TG_FIGURE_WHOLE : zone == 0 ? TG_FIGURE_SMALL_END : TG_FIGURE_BIG_END;

  g_array_append_val (pen->part->pass_history, pass);
  if (!shown)
    return;
  pen->now[near] -= grams;
  weigh (pen, near);
}

static void
write_evenings (Pen *pen)
{
  weigh_all (pen);
  go_to_day (pen, 9);
  take (pen, 0, 0.6, TRUE);
  take (pen, 0, 0.3, TRUE);
  take (pen, 2, 0.5, TRUE);
  go_to_day (pen, 13);
  take (pen, 2, 0.3, TRUE);
  take (pen, 0, 0.2, TRUE);
  take (pen, 2, 0.2, FALSE);
}

static void
write_replaced (Pen *pen)
{
  weigh_all (pen);
  take (pen, 0, 0.6, TRUE);
  take (pen, 0, 1.4, TRUE);
  go_to_day (pen, 4);
  pen->piece = 1;
  pen->now[TG_FIGURE_SMALL_END] += 1.7;
  pen->now[TG_FIGURE_BIG_END] += 0.3;
  pen->now[TG_FIGURE_WHOLE] += 1.2;
  weigh_all (pen);
  take (pen, 0, 0.4, TRUE);
}

static void
write_sixty (Pen *pen)
{
  weigh_all (pen);
  for (guint i = 0; i < 29; i++)
    {
      if (i % 10 == 0)
        go_to_day (pen, i / 2);
      take (pen, 0, 0.02 + 0.01 * (i % 5), TRUE);
      take (pen, 2, 0.05 - 0.01 * (i % 4), TRUE);
    }
}

static void
write_days (Pen *pen)
{
  weigh_all (pen);
  for (guint i = 0; i < 11; i++)
    {
      go_to_day (pen, 1 + 2 * i);
      take (pen, i % 2 ? 2 : 0, 0.2, TRUE);
      if (i % 3 == 0)
        take (pen, 1, 0.1, TRUE);
    }
}

static void
write_history (TgPartReview *part, HistoryCase which)
{
  gboolean rod = part->design->kind == TG_PART_ROD;
  Pen pen = { .part = part,
              .rod = rod,
              .seconds = START,
              .piece = 0,
              .now = { 172.4, 413.1, rod ? 585.5 : 319.6 },
              .expanded_g = 0.12 };

  switch (which)
    {
    case HISTORY_ONE:
      weigh (&pen, rod ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE);
      break;
    case HISTORY_EVENINGS:
      write_evenings (&pen);
      break;
    case HISTORY_REPLACED:
      write_replaced (&pen);
      break;
    case HISTORY_SIXTY:
      write_sixty (&pen);
      break;
    case HISTORY_DAYS:
      write_days (&pen);
      break;
    case HISTORY_EMPTY:
    case N_HISTORIES:
    default:
      break;
    }
}

TgReview *
history_review (HistoryCase which, gboolean long_names, TgJob **job)
{
  TgReview *review;

  *job = fixture_job (2, long_names, 0, &review);
  write_history (g_ptr_array_index (review->parts, HISTORY_ROD), which);
  write_history (g_ptr_array_index (review->parts, HISTORY_PISTON), which);
  return review;
}
