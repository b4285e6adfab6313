/* document-bobweight.c: what the crankshaft shop needs, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The engine, drawn and in words; a table for up to six crankpins each; what is to be filled in by hand,
 * since no scale tells it.
 */
#include "document-private.h"

#include "engine-drawing.h"
#include "number.h"

#define PINS_IN_A_TABLE 6
#define NAME_SHARE 0.31
#define DRAWING_HEIGHT 128.0

static const char caution[] =
    "Reckoned from the parts as they were weighed. What the crankshaft’s maker, the shop that "
    "balances it "
    "and the engine maker’s manual say of factor, allowances, dampers and flywheels comes first.";

/* ── the engine ────────────────────────────────────────────────────────────────────────────── */

static void
add_fact (GString *facts, const char *name, double value, const char *unit)
{
  g_autofree char *number = tg_number_format_short (value);

  if (value > 0)
    g_string_append_printf (facts, "%s%s %s%s%s", facts->len ? " · " : "", name, number,
                            unit[0] == '\302' ? "" : "\302\240", unit);
}

static char *
engine_words (const TgDocument *document)
{
  const TgSetup *setup = document->review->setup;
  const TgEngine *engine = &setup->engine;
  GString *facts = g_string_new (NULL);

  if (document->balance->has_layout)
    g_string_append (facts, tg_engine_kind_label (document->balance->kind));
  if (document->balance->has_layout && tg_engine_kind_is_vee (document->balance->kind))
    add_fact (facts, "banks", engine->bank_angle_deg, "° apart");
  g_string_append_printf (facts, "%s%u cylinders", facts->len ? " · " : "", setup->cylinders);
  add_fact (facts, "stroke", engine->stroke_mm, "mm");
  add_fact (facts, "rod", tg_setup_rod_mm (setup), "mm");
  add_fact (facts, "bore spacing", engine->spacing_mm, "mm");
  add_fact (facts, "up to", engine->speed_rpm, "1/min");
  if (engine->order[0])
    g_string_append_printf (facts, " · firing order %s", engine->order);
  return g_string_free (facts, FALSE);
}

static double
draw_engine (const TgPage *page, const TgDocument *document, double y)
{
  const TgEngine *engine = &document->review->setup->engine;
  const TgEngineDrawing drawing = { .layout = &document->balance->layout,
                                    .spacing_mm = engine->spacing_mm,
                                    .offset_mm = engine->offset_mm,
                                    .stroke_mm = engine->stroke_mm,
                                    .rod_mm = tg_setup_rod_mm (document->review->setup) };
  TgStyle style = page->style;

  if (!document->balance->has_layout)
    return y;
  style.text_size = 7;
  style.line = 0.7;
  if (page->cr)
    tg_engine_drawing_draw (page->cr, (TgRect){ page->left, y, page->width, DRAWING_HEIGHT },
                            &drawing, TG_ENGINE_DRAWING_BOTH, &style);
  return y + DRAWING_HEIGHT + 6;
}

static double
intro (const TgPage *page, gconstpointer data, double y)
{
  const TgDocument *document = data;
  const TgBobweight *bobweight = document->bobweight;
  g_autofree char *engine = engine_words (document);
  g_autofree char *percent = tg_number_format_short (bobweight->factor * 100);
  g_autofree char *factor = g_strdup_printf ("Balance factor %s\302\240%% (%s). %s", percent,
                                             bobweight->by_layout ? "by the layout" : "chosen",
                                             bobweight->ground);

  y += tg_page_cell (page, engine, page->left, y, page->width) + 4;
  y = draw_engine (page, document, y);
  if (!bobweight->known)
    y += tg_page_words (page, bobweight->missing, page->left, y, page->width, 9, TRUE,
                        TG_ALIGN_LEFT, page->style.ink) +
         4;
  else
    y += tg_page_cell (page, factor, page->left, y, page->width) + 4;
  tg_page_rule (page, y, 0.5);
  return y + TG_PAGE_GAP;
}

/* ── tables ────────────────────────────────────────────────────────────────────────────────── */

typedef struct
{
  const TgPage *page;
  const TgBobweight *bobweight;
  guint first, n;
} Table;

/* The texts of one row are freed here. */
static double
table_row (
    const Table *table, const char *name, char **cells, double y, gboolean title, gboolean bold)
{
  const char *words[1 + PINS_IN_A_TABLE];
  double shares[1 + PINS_IN_A_TABLE];
  double height;

  words[0] = name;
  shares[0] = 0;
  for (guint i = 0; i < table->n; i++)
    {
      words[1 + i] = cells[i];
      shares[1 + i] = -(NAME_SHARE + i * (1 - NAME_SHARE) / PINS_IN_A_TABLE);
    }
  if (table->n < PINS_IN_A_TABLE)
    { /* the last column is as wide as the others */
      words[1 + table->n] = NULL;
      shares[1 + table->n] = NAME_SHARE + table->n * (1 - NAME_SHARE) / PINS_IN_A_TABLE;
    }
  height = tg_page_row (table->page, words, shares,
                        1 + table->n + (table->n < PINS_IN_A_TABLE ? 1 : 0), y, title, bold);
  for (guint i = 0; i < table->n; i++)
    g_free (cells[i]);
  return height;
}

static double
value_row (const Table *table, const char *name, const double *first, double y, gboolean bold)
{
  char *cells[PINS_IN_A_TABLE];

  for (guint i = 0; i < table->n; i++)
    {
      const char *at = (const char *) first + (table->first + i) * sizeof (TgBobweightPin);

      cells[i] = tg_number_format (*(const double *) at,
                                   tg_bobweight_decimals (table->page->review));
    }
  return table_row (table, name, cells, y, FALSE, bold);
}

static double
head_row (const Table *table, double y)
{
  char *cells[PINS_IN_A_TABLE];

  for (guint i = 0; i < table->n; i++)
    {
      const TgBobweightPin *pin = &table->bobweight->pins[table->first + i];
      GString *words = g_string_new (NULL);

      g_string_append_printf (words, "crankpin %u\n%s ", table->first + i + 1,
                              pin->n_rods > 1 ? "bores" : "bore");
      for (guint b = 0; b < pin->n_rods; b++)
        g_string_append_printf (words, "%s%u", b ? ", " : "", pin->bores[b]);
      cells[i] = g_string_free (words, FALSE);
    }
  return table_row (table, "grams", cells, y, TRUE, FALSE);
}

static double
plus_row (const Table *table, double y)
{
  char *cells[PINS_IN_A_TABLE];

  for (guint i = 0; i < table->n; i++)
    cells[i] = tg_review_plus_minus (table->page->review,
                                     table->bobweight->pins[table->first + i].expanded_g);
  return table_row (table, "known to", cells, y, FALSE, FALSE);
}

static double
pins_table (const TgPage *page, const TgBobweight *bobweight, guint index, double y)
{
  guint first = index * PINS_IN_A_TABLE;
  Table table = { page, bobweight, first, MIN (PINS_IN_A_TABLE, bobweight->n_pins - first) };
  g_autofree char *percent = tg_number_format_short (bobweight->factor * 100);
  g_autofree char *formula = g_strdup_printf (
      "bobweight = turning + %s\302\240%% of what goes up and "
      "down",
      percent);

  y += head_row (&table, y);
  for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
    {
      if (t == TG_TERM_FIRST_RECIPROCATING)
        y += value_row (&table, "turns with the crankpin", &bobweight->pins[0].rotating_g, y,
                        TRUE) +
             2;
      if (bobweight->weighed[t])
        y += value_row (&table, tg_bobweight_term_label (t), &bobweight->pins[0].terms_g[t], y,
                        FALSE);
    }
  y += value_row (&table, "goes up and down", &bobweight->pins[0].reciprocating_g, y, TRUE) + 2;
  y += value_row (&table, "bobweight", &bobweight->pins[0].bobweight_g, y, TRUE);
  y += plus_row (&table, y);
  y += tg_page_heading (page, formula, page->left, y, page->width) + 4;
  tg_page_rule (page, y, 0.4);
  return y + TG_PAGE_GAP;
}

/* ── what is common, and what the shop writes ──────────────────────────────────────────────── */

/* What ISO 21940-11 leaves room for; nothing if the mass of the crankshaft or the speed is not known. */
static double
permitted (const TgPage *page, const TgDocument *document, double y)
{
  const TgEngine *engine = &document->review->setup->engine;
  g_autofree char *grade = tg_number_format_short (engine->grade);
  g_autofree char *mass = tg_number_format_short (engine->crank_kg);
  g_autofree char *rpm = tg_number_format_short (engine->speed_rpm);
  g_autofree char *room = NULL, *words = NULL;
  TgBalanceUnbalance left;

  if (!tg_balance_unbalance (document->balance, document->review->setup, TG_BALANCE_NOW, &left) ||
      left.permissible_g_mm <= 0)
    return y;
  room = tg_number_format (left.permissible_g_mm, 0);
  words = g_strdup_printf ("ISO 21940-11 leaves room for %s\302\240g·mm on the whole crankshaft: "
                           "grade G\302\240%s, %s\302\240kg, up to %s\302\2401/min.",
                           room, grade, mass, rpm);
  return y + tg_page_cell (page, words, page->left, y, page->width) + 6;
}

static double
common (const TgPage *page, const TgDocument *document, double y)
{
  g_autofree char *words = tg_bobweight_words (document->bobweight, page->review);

  y += tg_page_words (page, words, page->left, y, page->width, 9, TRUE, TG_ALIGN_LEFT,
                      page->style.ink) +
       2;
  return permitted (page, document, y) + 2;
}

static double
by_hand (const TgPage *page, double y)
{
  static const char *const names[] = {
    "balanced internally or externally",
    "damper, its mark",
    "flywheel or flexplate, its mark",
    "clutch cover and bolts, marked",
    "what may be drilled",
    "what must not be drilled",
    "bobweights used, g",
    "unbalance left, g·mm",
    "balanced by",
    "date",
  };
  double half = page->width / 2;

  y += tg_page_words (page, "To be filled in by hand", page->left, y, page->width, 10, TRUE,
                      TG_ALIGN_LEFT, page->style.ink);
  for (guint i = 0; i < G_N_ELEMENTS (names); i += 2)
    {
      double a = tg_page_blank (page, names[i], page->left, y, half);
      double b = tg_page_blank (page, names[i + 1], page->left + half, y, half);

      y += MAX (a, b);
    }
  return y + TG_PAGE_GAP;
}

static guint
n_tables (const TgBobweight *bobweight)
{
  return bobweight->known ? (bobweight->n_pins + PINS_IN_A_TABLE - 1) / PINS_IN_A_TABLE : 0;
}

static double
block (const TgPage *page, gconstpointer data, guint index, double y)
{
  const TgDocument *document = data;
  guint tables = n_tables (document->bobweight);

  if (index < tables)
    return pins_table (page, document->bobweight, index, y);
  if (document->bobweight->known)
    y = common (page, document, y);
  return by_hand (page, y);
}

void
tg_document_fill_bobweight (TgDocument *document)
{
  document->balance = tg_balance_new (document->job, document->review);
  document->bobweight = tg_bobweight_new (document->review);
  document->content.caution = caution;
  document->content.n = n_tables (document->bobweight) + 1;
  document->content.intro = intro;
  document->content.block = block;
}
