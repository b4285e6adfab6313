/* scale-drawing.c: how the scale drifted over the days, see scale-drawing.h
 *
 * A panel for what the empty scale showed and one for the errors of the check weight, on one time
 * axis.  The strip is what fits, dashed edges the limit to doubtful, full lines the limit to off; they
 * step where the limits of a check differ from those before it.  A check that fits is a dot, a doubtful
 * one a ring, one that is off a cross.  A triangle stands over a zero after which the scale was set
 * back; the line goes down to zero there and begins anew.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scale-drawing.h"

#include <math.h>

/**
 * Panel: @n: its checks; @last: index of the last one
 * @head: y of its head line
 * @row: there is a row of words between that and the plot
 * @nominals: check weights of different values were used
 */
typedef struct
{
  gboolean zero;
  guint n, last;
  guint set_back;
  gboolean nominals;
  double head;
  gboolean row;
  TgPlotScale scale;
} Panel;

typedef struct
{
  TgPlot *plot;
  const TgReview *review;
  const GArray *checks;
  Panel panels[2];
  guint n_panels;
} Drift;

static const TgScaleCheck *
check_at (const Drift *drift, guint i)
{
  return &g_array_index (drift->checks, TgScaleCheck, i);
}

static gboolean
is_check_of (const Drift *drift, guint i, const Panel *panel)
{
  return check_at (drift, i)->zero == panel->zero;
}

/* On a coarse scale both limits may be the same step: then there is nothing doubtful. */
static gboolean
has_doubtful (const TgScaleCheck *check)
{
  return check->off_g - check->doubtful_g > 1e-9;
}

/* The next check of the panel from @i on, or the number of all checks. */
static guint
next_of (const Drift *drift, const Panel *panel, guint i)
{
  while (i < drift->checks->len && !is_check_of (drift, i, panel))
    i++;
  return i;
}

/* --- what there is, and where it lies -------------------------------------------------------- */

static void
add_panel (Drift *drift, gboolean zero)
{
  Panel panel = { .zero = zero };

  for (guint i = next_of (drift, &panel, 0); i < drift->checks->len;
       i = next_of (drift, &panel, i + 1))
    {
      const TgScaleCheck *check = check_at (drift, i);

      panel.set_back += check->set_back;
      panel.nominals = panel.nominals ||
                       (panel.n > 0 && check_at (drift, panel.last)->nominal != check->nominal);
      panel.n++;
      panel.last = i;
    }
  if (panel.n > 0)
    drift->panels[drift->n_panels++] = panel;
}

static double
lane_height (const TgPlot *plot, const Panel *panel, gboolean rows)
{
  double marks = panel->set_back > 0 ? tg_plot_triangle_height (plot) + 0.3 * plot->size : 0;

  return marks + (rows && (panel->set_back > 0 || panel->nominals) ? plot->row : 0);
}

static double
plot_height (const Drift *drift, gboolean rows)
{
  const TgPlot *plot = drift->plot;
  double left = plot->area.height - 1.2 * plot->row;

  for (guint p = 0; p < drift->n_panels; p++)
    left -= (p > 0 ? 1.65 : 1.15) * plot->row + lane_height (plot, &drift->panels[p], rows);
  return left / drift->n_panels;
}

static gboolean
place_panels (Drift *drift)
{
  const TgPlot *plot = drift->plot;
  gboolean rows = plot_height (drift, TRUE) >= 3 * plot->row;
  double height = plot_height (drift, rows), y = plot->area.y;

  if (height < plot->row)
    return FALSE;
  for (guint p = 0; p < drift->n_panels; p++)
    {
      Panel *panel = &drift->panels[p];

      y += p > 0 ? 0.5 * plot->row : 0;
      panel->head = y;
      panel->row = rows;
      y += 1.15 * plot->row + lane_height (plot, panel, rows);
      panel->scale.rect = (TgRect){ .y = y, .height = height };
      y += height;
    }
  return TRUE;
}

/* Zero, the limits and every error are on it. */
static void
make_scale (const Drift *drift, Panel *panel)
{
  double step = tg_mass_to_g (drift->review->setup->resolution);
  double low = -step, high = step;

  for (guint i = next_of (drift, panel, 0); i < drift->checks->len;
       i = next_of (drift, panel, i + 1))
    {
      const TgScaleCheck *check = check_at (drift, i);

      low = MIN (low, MIN (check->error_g, -check->off_g));
      high = MAX (high, MAX (check->error_g, check->off_g));
    }
  panel->scale = tg_plot_scale_new (drift->plot, panel->scale.rect, low, high);
}

static gboolean
place (Drift *drift)
{
  TgPlot *plot = drift->plot;
  g_autofree TgStamp *stamps = g_new (TgStamp, drift->checks->len);
  double figures = 0, left, right = plot->area.x + plot->area.width - 0.3 * plot->size;

  if (!place_panels (drift))
    return FALSE;
  for (guint p = 0; p < drift->n_panels; p++)
    {
      make_scale (drift, &drift->panels[p]);
      figures = MAX (figures, tg_plot_scale_width (plot, &drift->panels[p].scale));
    }
  left = plot->area.x + figures + 0.8 * plot->size;
  if (right - left < 6 * plot->size)
    return FALSE;
  for (guint i = 0; i < drift->checks->len; i++)
    stamps[i] = check_at (drift, i)->stamp;
  tg_plot_place_days (plot, stamps, drift->checks->len, left, right);
  return TRUE;
}

/* --- heads ----------------------------------------------------------------------------------- */

/* "zero in g"; "check weight 500 g" */
static char *
panel_name (const Drift *drift, const Panel *panel)
{
  g_autofree char *nominal = NULL;

  if (panel->zero)
    return g_strdup ("zero in g");
  if (panel->nominals)
    return g_strdup ("check weights");
  nominal = tg_mass_format_exact (check_at (drift, panel->last)->nominal);
  return g_strdup_printf ("check weight %s g", nominal);
}

static void
set_line (cairo_t *cr, const TgPlot *plot, gboolean off)
{
  double dash[] = { 4 * plot->line, 3 * plot->line };

  cairo_set_dash (cr, dash, off ? 0 : 2, 0);
  cairo_set_line_width (cr, plot->line);
  tg_color_set (cr, off ? plot->style.alert : plot->style.good);
}

static double
key_width (const TgPlot *plot, const char *words)
{
  return tg_plot_text_width (plot, words, FALSE) + 2 * plot->size;
}

/* A piece of the line and its words, from @x on. */
static void
draw_key (cairo_t *cr, TgPlot *plot, const char *words, gboolean off, double x, double y)
{
  tg_plot_write (plot, words, FALSE, plot->style.quiet, x + 2 * plot->size, y, 0);
  cairo_save (cr);
  set_line (cr, plot, off);
  cairo_move_to (cr, x, y + 0.55 * plot->row);
  cairo_line_to (cr, x + 1.6 * plot->size, y + 0.55 * plot->row);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* What the lines are, with the limits of the panel's last check where there is room for these. */
static void
draw_keys (cairo_t *cr, const Drift *drift, const Panel *panel, double from)
{
  TgPlot *plot = drift->plot;
  const TgScaleCheck *last = check_at (drift, panel->last);
  g_autofree char *doubtful = tg_review_grams (drift->review, last->doubtful_g);
  g_autofree char *off = tg_review_grams (drift->review, last->off_g);

  for (guint brief = 0; brief < 2; brief++)
    {
      g_autofree char *first = brief ? g_strdup ("doubtful")
                                     : g_strdup_printf ("doubtful beyond ± %s g", doubtful);
      g_autofree char *second = brief ? g_strdup ("off")
                                      : g_strdup_printf ("off beyond ± %s g", off);
      double right = plot->right - key_width (plot, second);
      double left = has_doubtful (last) ? right - plot->size - key_width (plot, first) : right;

      if (left < from + plot->size)
        continue;
      draw_key (cr, plot, second, TRUE, right, panel->head);
      if (has_doubtful (last))
        draw_key (cr, plot, first, FALSE, left, panel->head);
      return;
    }
}

static void
draw_head (cairo_t *cr, const Drift *drift, const Panel *panel)
{
  TgPlot *plot = drift->plot;
  g_autofree char *name = panel_name (drift, panel);

  tg_plot_write (plot, name, TRUE, plot->style.ink, plot->left, panel->head, 0);
  draw_keys (cr, drift, panel, plot->left + tg_plot_text_width (plot, name, TRUE));
}

/* --- limits ---------------------------------------------------------------------------------- */

/* What belongs to check @i: half the way to the one before and the one after it. */
static void
span_of (const Drift *drift, const Panel *panel, guint i, double *left, double *right)
{
  const TgPlot *plot = drift->plot;
  guint next = next_of (drift, panel, i + 1);

  *left = plot->left;
  for (guint before = i; before-- > 0;)
    if (is_check_of (drift, before, panel))
      {
        *left = (tg_plot_x (plot, before) + tg_plot_x (plot, i)) / 2;
        break;
      }
  *right = next == drift->checks->len ? plot->right
                                      : (tg_plot_x (plot, i) + tg_plot_x (plot, next)) / 2;
}

/* Both edges at ± a limit, with a step where it is another. */
static void
draw_limit (cairo_t *cr, const Drift *drift, const Panel *panel, gboolean off)
{
  cairo_save (cr);
  set_line (cr, drift->plot, off);
  for (int side = -1; side <= 1; side += 2)
    {
      double before = NAN;

      cairo_new_path (cr);
      for (guint i = next_of (drift, panel, 0); i < drift->checks->len;
           i = next_of (drift, panel, i + 1))
        {
          const TgScaleCheck *check = check_at (drift, i);
          double y = tg_plot_y (&panel->scale, side * (off ? check->off_g : check->doubtful_g));
          double left, right;

          if (!off && !has_doubtful (check))
            {
              before = NAN;
              continue;
            }
          span_of (drift, panel, i, &left, &right);
          if (y != before)
            cairo_move_to (cr, left, y);
          cairo_line_to (cr, right, y);
          before = y;
        }
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}

static void
draw_limits (cairo_t *cr, const Drift *drift, const Panel *panel)
{
  const TgPlot *plot = drift->plot;

  cairo_set_source_rgba (cr, plot->style.good.r, plot->style.good.g, plot->style.good.b, 0.14);
  for (guint i = next_of (drift, panel, 0); i < drift->checks->len;
       i = next_of (drift, panel, i + 1))
    {
      double half = check_at (drift, i)->doubtful_g, left, right;
      double top = tg_plot_y (&panel->scale, half), bottom = tg_plot_y (&panel->scale, -half);

      span_of (drift, panel, i, &left, &right);
      cairo_rectangle (cr, left, top, right - left, bottom - top);
    }
  cairo_fill (cr);
  draw_limit (cr, drift, panel, FALSE);
  draw_limit (cr, drift, panel, TRUE);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, 0.6 * plot->line);
  cairo_move_to (cr, plot->left, tg_plot_y (&panel->scale, 0));
  cairo_line_to (cr, plot->right, tg_plot_y (&panel->scale, 0));
  cairo_stroke (cr);
}

/* --- checks ---------------------------------------------------------------------------------- */

/* From check to check of the same weight; after a zero that was set back from zero on. */
static void
draw_course (cairo_t *cr, const Drift *drift, const Panel *panel)
{
  const TgPlot *plot = drift->plot;
  const TgScaleCheck *last = NULL;

  tg_color_set (cr, plot->style.quiet);
  cairo_set_line_width (cr, 0.8 * plot->line);
  cairo_new_path (cr);
  for (guint i = next_of (drift, panel, 0); i < drift->checks->len;
       i = next_of (drift, panel, i + 1))
    {
      const TgScaleCheck *check = check_at (drift, i);
      double x = tg_plot_x (plot, i), y = tg_plot_y (&panel->scale, check->error_g);

      if (last && last->nominal == check->nominal)
        cairo_line_to (cr, x, y);
      else
        cairo_move_to (cr, x, y);
      if (check->set_back)
        cairo_line_to (cr, x, tg_plot_y (&panel->scale, 0));
      last = check;
    }
  cairo_stroke (cr);
}

static void
draw_checks (cairo_t *cr, const Drift *drift, const Panel *panel)
{
  const TgPlotMark marks[] = { TG_PLOT_DOT, TG_PLOT_RING, TG_PLOT_CROSS };
  TgPlot *plot = drift->plot;

  for (guint i = next_of (drift, panel, 0); i < drift->checks->len;
       i = next_of (drift, panel, i + 1))
    {
      const TgScaleCheck *check = check_at (drift, i);

      tg_plot_draw_mark (cr, plot, marks[check->verdict], tg_plot_x (plot, i),
                         tg_plot_y (&panel->scale, check->error_g),
                         check->verdict == TG_CHECK_WEIGHT_OFF ? plot->style.alert
                                                               : plot->style.accent);
      if (check->set_back)
        tg_plot_draw_triangle (
            cr, plot, tg_plot_x (plot, i),
            panel->scale.rect.y - tg_plot_triangle_height (plot) - 0.15 * plot->size, TRUE);
    }
}

/* Over the first triangle what it is; over each change of the weight which one it is now. */
static void
write_row (const Drift *drift, const Panel *panel)
{
  TgPlot *plot = drift->plot;
  double y = panel->head + 1.15 * plot->row;
  const TgScaleCheck *last = NULL;
  gboolean said = FALSE;

  for (guint i = next_of (drift, panel, 0); i < drift->checks->len;
       i = next_of (drift, panel, i + 1))
    {
      const TgScaleCheck *check = check_at (drift, i);
      double x = tg_plot_x (plot, i);

      if (check->set_back && !said)
        {
          double half = tg_plot_text_width (plot, "set to zero", FALSE) / 2;

          said = tg_plot_write (plot, "set to zero", FALSE, plot->style.quiet,
                                CLAMP (x, plot->left + half, plot->right - half), y, 0.5);
        }
      if (panel->nominals && (!last || last->nominal != check->nominal))
        {
          g_autofree char *nominal = tg_mass_format_exact (check->nominal);
          g_autofree char *words = g_strconcat (nominal, " g", NULL);

          tg_plot_write (plot, words, FALSE, plot->style.quiet, x, y, 0.5);
        }
      last = check;
    }
}

/* --- all of it ------------------------------------------------------------------------------- */

static void
draw_panel (cairo_t *cr, const Drift *drift, const Panel *panel)
{
  TgPlot *plot = drift->plot;
  const TgRect *rect = &panel->scale.rect;

  draw_head (cr, drift, panel);
  tg_plot_draw_days (cr, plot, rect->y, rect->y + rect->height);
  tg_plot_draw_scale (cr, plot, &panel->scale);
  draw_limits (cr, drift, panel);
  draw_course (cr, drift, panel);
  draw_checks (cr, drift, panel);
  if (panel->row)
    write_row (drift, panel);
}

static void
draw_drift (cairo_t *cr, Drift *drift)
{
  const TgRect *last;

  if (!place (drift))
    return;
  for (guint p = 0; p < drift->n_panels; p++)
    draw_panel (cr, drift, &drift->panels[p]);
  last = &drift->panels[drift->n_panels - 1].scale.rect;
  tg_plot_draw_time (cr, drift->plot, last->y + last->height);
}

TgPlot *
tg_scale_drawing_plot (cairo_t *cr, TgRect area, const TgReview *review, const TgStyle *style)
{
  Drift drift = { .review = review, .checks = review->scale.checks };

  if (area.width < 4 || area.height < 4)
    return NULL;
  drift.plot = tg_plot_new (area, style);
  add_panel (&drift, TRUE);
  add_panel (&drift, FALSE);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  if (drift.checks->len > 0)
    draw_drift (cr, &drift);
  else
    tg_plot_write_sentence (drift.plot, "The scale was not checked yet.", style->quiet,
                            drift.plot->area);
  tg_plot_draw_texts (cr, drift.plot);
  cairo_restore (cr);
  return drift.plot;
}

void
tg_scale_drawing_draw (cairo_t *cr, TgRect area, const TgReview *review, const TgStyle *style)
{
  TgPlot *plot = tg_scale_drawing_plot (cr, area, review, style);

  g_clear_pointer (&plot, tg_plot_free);
}
