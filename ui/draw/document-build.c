/* document-build.c: a card for each bore: which parts, facing which way, what to tick off
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was ticked off in the journal is ticked here; the rest is for the pencil.
 */
#include "document-private.h"

#include <math.h>

#include "mark.h"

#define TICK 8.0

static const char caution[] = "The engine maker’s manual comes first: it says which way the parts "
                              "face, what is new, the clearances and "
                              "how bolts are tightened. These checks are common practice and may "
                              "not be all. Wear eye protection: clips "
                              "fly.";

/* ── parts ─────────────────────────────────────────────────────────────────────────────────── */

#define N_PART 5

static double
part_row (const TgPage *page, const TgBuildPart *part, double y)
{
  g_autofree char *number = isnan (part->weight_g) ? g_strdup ("not weighed")
                                                   : tg_review_grams (page->review, part->weight_g);
  g_autofree char *grams = g_strconcat (number, isnan (part->weight_g) ? "" : " g", NULL);
  const char *words[N_PART] = {
    part->label,
    part->part >= 0 ? tg_review_part (page->review, (guint) part->part)->part->name : "none yet",
    grams,
    NULL,
    part->remark[0] ? part->remark
    : part->proven  ? "as it was proven"
                    : "",
  };
  const double shares[N_PART] = { 0, 0.2, -0.36, 0.5, 0.54 };

  return tg_page_row (page, words, shares, N_PART, y, FALSE, part->remark[0] != '\0');
}

static double
facing_row (const TgPage *page, const TgBuild *build, TgFacing facing, const char *name, double y)
{
  const char *const words[] = { name, build->facing[facing] };
  const double shares[] = { 0, 0.3 };

  return tg_page_row (page, words, shares, G_N_ELEMENTS (words), y, FALSE, FALSE);
}

static double
facing_rows (const TgPage *page, const TgBuild *build, double y)
{
  const TgSetup *setup = page->review->setup;

  if (tg_setup_has_kind (setup, TG_PART_PISTON))
    y += facing_row (page, build, TG_FACING_PISTON, "mark of the piston points", y);
  if (tg_setup_has_kind (setup, TG_PART_ROD))
    y += facing_row (page, build, TG_FACING_ROD, "numbers of rod and cap point", y);
  if (tg_build_check_applies (setup, TG_CHECK_CLIPS_GAP))
    y += facing_row (page, build, TG_FACING_CLIPS, "gap of the clips stands", y);
  return y;
}

/* ── ticks ─────────────────────────────────────────────────────────────────────────────────── */

static char *
tick_words (const TgPage *page, const TgBuildTick *tick)
{
  const char *label = tg_build_check_label (tick->check);
  const TgEvent *event;
  g_autofree char *day = NULL;

  if (tick->remark[0])
    return g_strdup_printf ("%s – %s", label, tick->remark);
  if (!tick->ticked || tick->event < 0)
    return g_strdup (label);
  event = tg_job_event (page->job, (guint) tick->event);
  day = tg_stamp_format_day (event->stamp);
  return g_strdup_printf ("%s (%s%s%s)", label, day, event->who[0] ? ", " : "", event->who);
}

static double
tick_line (const TgPage *page, const TgBuildTick *tick, double x, double y, double width)
{
  g_autofree char *words = tick_words (page, tick);
  TgRect box = { x, y + 1, TICK, TICK };
  double height = tg_page_cell (page, words, x + TICK + 5, y, width - TICK - 11);

  tg_page_box (page, box);
  if (page->cr && tick->ticked)
    tg_mark_tick (page->cr, (TgPoint){ box.x + TICK / 2, box.y + TICK / 2 }, TICK - 1, &page->style,
                  1);
  return MAX (height, TICK + 1) + 4;
}

/* In two columns, the first half left. */
static double
tick_lines (const TgPage *page, const TgBuildCard *card, double y)
{
  guint half = (card->ticks->len + 1) / 2;
  double width = page->width / 2, ends[2] = { y, y };

  for (guint i = 0; i < card->ticks->len; i++)
    {
      guint column = i / half;

      ends[column] += tick_line (page, &g_array_index (card->ticks, TgBuildTick, i),
                                 page->left + column * width, ends[column], width);
    }
  return MAX (ends[0], ends[1]);
}

/* ── cards ─────────────────────────────────────────────────────────────────────────────────── */

static double
block (const TgPage *page, gconstpointer data, guint index, double y)
{
  const TgDocument *document = data;
  const TgBuildCard *card = tg_build_card (document->build, index + 1);
  g_autofree char *title = g_strdup_printf ("Bore %u", card->bore);
  const char *state = card->done    ? "done"
                      : card->ready ? "every part is as it was proven"
                                    : "not ready: see the parts";
  double half = page->width / 2, height;

  height = tg_page_words (page, title, page->left, y, half - 8, 12, TRUE, TG_ALIGN_LEFT,
                          page->style.ink);
  tg_page_words (page, state, page->left + half, y + 2, half, 8.5, TRUE, TG_ALIGN_RIGHT,
                 page->style.ink);
  y += height + 3;
  for (guint i = 0; i < card->parts->len; i++)
    y += part_row (page, &g_array_index (card->parts, TgBuildPart, i), y);
  y = facing_rows (page, document->build, y + 3) + 5;
  y = tick_lines (page, card, y);
  height = tg_page_blank (page, "built by", page->left, y, half);
  tg_page_blank (page, "date", page->left + half, y, half);
  y += height + 4;
  tg_page_rule (page, y, 0.6);
  return y + TG_PAGE_GAP;
}

void
tg_document_fill_build (TgDocument *document)
{
  document->build = tg_build_new (document->job, document->review);
  document->content.caution = caution;
  document->content.n = document->build->cards->len;
  document->content.block = block;
}
