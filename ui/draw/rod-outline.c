/* rod-outline.c: a connecting rod seen along the crank axis, to its dimensions
 *
 * The silhouette is the union of eyes, beam, bolt bosses and pads: all are stroked twice as wide as
 * the line and then filled, so that every join is clean whatever the dimensions.  Beam edges run
 * tangentially into the eyes through fillet circles.  What the dimensions do not say (fillets,
 * flange thickness, bolt diameter, reach of a zone across the rod) is chosen to look right and
 * carries no meaning for the reckoning.
 *
 * Symbols: R, r outer radii of big and small end; L centre distance; t metal between the big bore
 * and the outside of the bolt bosses.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "outline.h"

#include <math.h>

#define FILLET_STEPS 14

/* Lengths that follow from the dimensions. */
typedef struct
{
  double R, r, L;
  double bore, eye; /* radii of the bores */
  double span;      /* half width over the bolt bosses */
  double t;
  double xa, xb, ha, hb; /* the beam's edge is the line (xa, ha) to (xb, hb) */
} Rod;

static Rod
measure (const TgRodDims *dims)
{
  Rod rod = { .R = dims->big_outer / 2,
              .r = dims->small_outer / 2,
              .L = dims->centres,
              .bore = dims->big_bore / 2,
              .eye = dims->small_bore / 2 };

  rod.span = MAX (dims->shoulder_span / 2, rod.bore + 0.2 * rod.R);
  rod.t = rod.span - rod.bore;
  rod.xa = rod.R;
  rod.xb = MAX (rod.L - rod.r, rod.R + 0.01);
  rod.ha = MIN (dims->beam_big / 2, 0.92 * rod.R);
  rod.hb = MIN (dims->beam_small / 2, 0.92 * rod.r);
  return rod;
}

static double
half_width (const Rod *rod, double x)
{
  double f = CLAMP ((x - rod->xa) / (rod->xb - rod->xa), -0.2, 1.2);

  return rod->ha + (rod->hb - rod->ha) * f;
}

static double
flange (const Rod *rod, TgBeam beam)
{
  return (beam == TG_BEAM_I ? 0.26 : 0.5) * MIN (rod->ha, rod->hb);
}

TgRect
tg_rod_outline_bounds (const TgRodDims *dims)
{
  Rod rod = measure (dims);
  double x0 = MIN (-rod.R - dims->cap_pad, -dims->cap_shoulder);
  double x1 = rod.L + rod.r + dims->small_pad;
  double half = MAX (MAX (rod.R, rod.span), rod.r);

  half = MAX (half, MAX (dims->cap_pad_width, dims->small_pad_width) / 2);
  return (TgRect){ x0, -half, x1 - x0, 2 * half };
}

/* A strip of the beam between two shares of its half width, both as functions of x. */
static TgShape
beam_strip (const Rod *rod, double x0, double x1, double in, double out, double cut)
{
  return tg_shape_quad ((TgPoint){ x0, in * (half_width (rod, x0) - cut) },
                        (TgPoint){ x1, in * (half_width (rod, x1) - cut) },
                        (TgPoint){ x1, out * (half_width (rod, x1)) - (out < 1 ? cut : 0) },
                        (TgPoint){ x0, out * (half_width (rod, x0)) - (out < 1 ? cut : 0) });
}

static TgShape
boss_box (const Rod *rod, double x, double half_length, double in, double out)
{
  return tg_shape_box (x - half_length, rod->span - out * rod->t, x + half_length,
                       rod->span - in * rod->t);
}

static TgShape
pad_box (double x, double height, double width, double fallback)
{
  double half = (width > 0 ? width : fallback) / 2, reach = MAX (height, 0.5) / 2;

  return tg_shape_box (x - reach, -half, x + reach, half);
}

static TgShape
beam_panel (const Rod *rod, TgBeam beam, double x)
{
  double reach = 0.17 * (rod->xb - rod->xa), f = flange (rod, beam);
  double h0 = 0.72 * (half_width (rod, x - reach) - f);
  double h1 = 0.72 * (half_width (rod, x + reach) - f);

  return tg_shape_quad ((TgPoint){ x - reach, -h0 }, (TgPoint){ x + reach, -h1 },
                        (TgPoint){ x + reach, h1 }, (TgPoint){ x - reach, h0 });
}

void
tg_rod_outline_zone (const TgDesign *design, const TgZone *zone, TgShape sides[2])
{
  const TgRodDims *dims = &design->rod;
  Rod rod = measure (dims);
  double x = tg_design_zone_position (design, zone);
  TgShape *a = &sides[0];

  switch (zone->place)
    {
    case TG_PLACE_SMALL_END_PAD:
      *a = pad_box (x, dims->small_pad, dims->small_pad_width, rod.r);
      break;
    case TG_PLACE_SMALL_END_SIDES:
      *a = tg_shape_sector (x, 0, rod.eye + 0.4 * (rod.r - rod.eye), rod.r, -G_PI_2, 0.5);
      break;
    case TG_PLACE_BEAM_EDGES:
      *a = beam_strip (&rod, x - 0.2 * (rod.xb - rod.xa), x + 0.2 * (rod.xb - rod.xa), 1, 1,
                       MIN (flange (&rod, design->beam), 0.3 * MIN (rod.ha, rod.hb)));
      *a = tg_shape_mirror_y (a);
      break;
    case TG_PLACE_BIG_END_SHOULDERS:
      *a = boss_box (&rod, x, 0.38 * dims->shoulder, 0, 0.7);
      *a = tg_shape_mirror_y (a);
      break;
    case TG_PLACE_BOLT_SEATS:
      *a = boss_box (&rod, x, 0.1 * dims->shoulder, 0.06, 0.9);
      *a = tg_shape_mirror_y (a);
      break;
    case TG_PLACE_CAP_SHOULDERS:
      *a = boss_box (&rod, x, 0.4 * dims->cap_shoulder, 0, 0.7);
      *a = tg_shape_mirror_y (a);
      break;
    case TG_PLACE_CAP_PAD:
      *a = pad_box (x, dims->cap_pad, dims->cap_pad_width, rod.R);
      break;
    case TG_PLACE_CAP_BACK:
      *a = tg_shape_sector (x + rod.R, 0, rod.bore + 0.4 * (rod.R - rod.bore), rod.R, G_PI, 0.62);
      break;
    case TG_PLACE_BEAM:
    default:
      *a = beam_panel (&rod, design->beam, x);
      break;
    }
  sides[1] = tg_shape_mirror_y (a);
}

/* Points of the fillet between the beam's lower edge and the eye at (cx, 0), from eye to edge.
 * @toward: +1 if the beam leaves the eye to the right. */
static guint
fillet (const Rod *rod, double cx, double radius, double rho, double toward, TgPoint *out)
{
  double length = hypot (rod->xb - rod->xa, rod->hb - rod->ha);
  double ux = (rod->xb - rod->xa) / length, uy = (rod->hb - rod->ha) / length;
  double nx = -uy, ny = ux;
  /* |P + s u − C| = radius + rho, P on the edge moved out by rho */
  double px = rod->xa + rho * nx - cx, py = rod->ha + rho * ny;
  double b = px * ux + py * uy;
  double c = px * px + py * py - (radius + rho) * (radius + rho);
  double root = b * b - c;
  double s, fx, fy, from, to;

  if (root < 0)
    {
      out[0] = (TgPoint){ cx, MIN (radius, toward > 0 ? rod->ha : rod->hb) };
      return 1;
    }
  s = -b + toward * sqrt (root);
  fx = px + s * ux;
  fy = py + s * uy;
  from = atan2 (-fy, -fx);
  to = atan2 (-ny, -nx);
  for (guint i = 0; i < FILLET_STEPS; i++)
    {
      double angle = from + (to - from) * i / (FILLET_STEPS - 1);

      out[i] = (TgPoint){ cx + fx + rho * cos (angle), fy + rho * sin (angle) };
    }
  return FILLET_STEPS;
}

static void
beam_path (cairo_t *cr, const Rod *rod)
{
  TgPoint edge[2 * FILLET_STEPS];
  double room = rod->xb - rod->xa;
  guint n = fillet (rod, 0, rod->R, MIN (0.55 * rod->R, 0.4 * room), 1, edge);
  guint m = fillet (rod, rod->L, rod->r, MIN (0.9 * rod->r, 0.35 * room), -1, edge + n);

  /* the small end's fillet comes from the eye too: turn it round */
  for (guint i = 0; i < m / 2; i++)
    {
      TgPoint keep = edge[n + i];

      edge[n + i] = edge[n + m - 1 - i];
      edge[n + m - 1 - i] = keep;
    }
  cairo_new_sub_path (cr);
  for (guint i = 0; i < n + m; i++)
    cairo_line_to (cr, edge[i].x, edge[i].y);
  for (guint i = n + m; i > 0; i--)
    cairo_line_to (cr, edge[i - 1].x, -edge[i - 1].y);
  cairo_close_path (cr);
}

static void
circle (cairo_t *cr, double x, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, 0, radius, 0, 2 * G_PI);
  cairo_close_path (cr);
}

/* Strokes or fills the path that was just made; overlapping shapes must not cancel each other. */
static void
paint (cairo_t *cr, gboolean fill)
{
  if (fill)
    cairo_fill (cr);
  else
    cairo_stroke (cr);
}

/* The bolt bosses of one side: flat where the bolt bears, running out into cap and beam. */
static TgShape
boss_outline (const TgRodDims *dims, const Rod *rod)
{
  double inner = 0.8 * rod->bore, seat = rod->span - 0.62 * rod->t;
  double on_eye = -sqrt (MAX (0.95 * rod->R * rod->R - inner * inner, 0));
  double cap = dims->cap_shoulder, shoulder = dims->shoulder;

  /* where the gusset meets the beam's edge, and a stretch along it, so that the corner can be round */
  double meet = MAX (1.12 * rod->R, shoulder), along = meet + 0.45 * rod->R;

  along = MIN (along, MAX (rod->L - rod->r, meet + 0.01));
  return (TgShape){ .n = 8,
                    .p = { { on_eye, inner },
                           { -cap, seat },
                           { -cap, rod->span },
                           { shoulder, rod->span },
                           { shoulder, seat },
                           { meet, half_width (rod, meet) },
                           { along, half_width (rod, along) },
                           { 0.5 * rod->R, 0.5 * rod->ha } } };
}

static void
silhouette (cairo_t *cr, const TgRodDims *dims, const Rod *rod, gboolean fill)
{
  double corner = 0.22 * MIN (rod->t, MIN (dims->shoulder, dims->cap_shoulder));
  const double radii[] = { 0, corner, 0.8 * corner, 0.5 * corner, 2.5 * corner, rod->R, 0, 0 };
  double cap = 0.2 * dims->cap_pad, small = 0.2 * dims->small_pad;
  TgShape boss = boss_outline (dims, rod);
  TgShape other = tg_shape_mirror_y (&boss);
  TgShape pad;

  circle (cr, 0, rod->R);
  paint (cr, fill);
  circle (cr, rod->L, rod->r);
  paint (cr, fill);
  beam_path (cr, rod);
  paint (cr, fill);
  tg_shape_path (cr, &boss, 0, radii);
  paint (cr, fill);
  tg_shape_path (cr, &other, 0, radii);
  paint (cr, fill);
  if (dims->cap_pad > 0)
    {
      pad = pad_box (-rod->R - dims->cap_pad / 2, dims->cap_pad, dims->cap_pad_width, rod->R);
      pad.p[1].x = pad.p[2].x = -0.8 * rod->bore;
      tg_shape_path (cr, &pad, 0, (const double[]){ cap, 0, 0, cap });
      paint (cr, fill);
    }
  if (dims->small_pad > 0)
    {
      pad = pad_box (rod->L + rod->r + dims->small_pad / 2, dims->small_pad, dims->small_pad_width,
                     rod->r);
      pad.p[0].x = pad.p[3].x = rod->L + 0.8 * rod->eye;
      tg_shape_path (cr, &pad, 0, (const double[]){ 0, small, small, 0 });
      paint (cr, fill);
    }
}

/* The I-beam's recess: a closed, tapering panel between the flanges. */
static void
recess_path (cairo_t *cr, const Rod *rod)
{
  double room = rod->xb - rod->xa, f = flange (rod, TG_BEAM_I);
  double x0 = rod->xa + 0.1 * room, x1 = rod->xb - 0.1 * room;
  double h0 = half_width (rod, x0) - f, h1 = half_width (rod, x1) - f;
  TgShape shape = tg_shape_quad ((TgPoint){ x0, -h0 }, (TgPoint){ x1, -h1 }, (TgPoint){ x1, h1 },
                                 (TgPoint){ x0, h0 });

  tg_shape_path (cr, &shape, 0, (const double[]){ 0.7 * h0, 0.9 * h1, 0.9 * h1, 0.7 * h0 });
}

/* The H-beam's channel: open towards both eyes. */
static void
channel_path (cairo_t *cr, const Rod *rod)
{
  double f = flange (rod, TG_BEAM_H);
  double h0 = half_width (rod, rod->xa) - f, h1 = half_width (rod, rod->xb) - f;
  double x0 = 0.6 * rod->R, x1 = rod->L - 0.6 * rod->r;
  TgShape shape = tg_shape_quad ((TgPoint){ x0, -h0 }, (TgPoint){ x1, -h1 }, (TgPoint){ x1, h1 },
                                 (TgPoint){ x0, h0 });

  tg_shape_path (cr, &shape, 0, NULL);
}

static void
draw_beam (
    cairo_t *cr, const Rod *rod, TgBeam beam, const TgView *view, const TgStyle *style, double line)
{
  cairo_save (cr);
  tg_view_apply (cr, view);
  if (beam == TG_BEAM_I)
    recess_path (cr, rod);
  else
    channel_path (cr, rod);
  cairo_restore (cr);
  tg_set_color (cr, tg_color_mix (style->metal, style->ink, style->dark ? 0.16 : 0.12));
  cairo_fill_preserve (cr);
  tg_set_color (cr, style->ink);
  cairo_set_line_width (cr, 0.6 * line);
  cairo_stroke (cr);
}

static void
draw_eyes (cairo_t *cr, const Rod *rod, const TgView *view, const TgStyle *style, double line)
{
  const double x[] = { 0, rod->L }, outer[] = { rod->R, rod->r }, inner[] = { rod->bore, rod->eye };

  for (guint i = 0; i < 2; i++)
    {
      cairo_save (cr);
      tg_view_apply (cr, view);
      circle (cr, x[i], outer[i]);
      cairo_restore (cr);
      tg_set_color (cr, style->metal);
      cairo_fill_preserve (cr);
      tg_set_color (cr, style->ink);
      cairo_set_line_width (cr, 0.6 * line);
      if (outer[i] * view->scale > 9)
        cairo_stroke (cr);
      cairo_new_path (cr);

      cairo_save (cr);
      tg_view_apply (cr, view);
      circle (cr, x[i], inner[i]);
      cairo_restore (cr);
      tg_set_color (cr, style->ground);
      cairo_fill_preserve (cr);
      tg_set_color (cr, style->ink);
      cairo_set_line_width (cr, line);
      cairo_stroke (cr);
      /* chamfer */
      if ((outer[i] - inner[i]) * view->scale > 9)
        {
          cairo_save (cr);
          tg_view_apply (cr, view);
          circle (cr, x[i], inner[i] + 0.14 * (outer[i] - inner[i]));
          cairo_restore (cr);
          tg_set_color (cr, tg_color_mix (style->metal, style->ink, 0.35));
          cairo_set_line_width (cr, 0.5 * line);
          cairo_stroke (cr);
        }
    }
}

static void
segment (cairo_t *cr, const TgView *view, double x0, double y0, double x1, double y1)
{
  TgPoint a = tg_view_point (view, (TgPoint){ x0, y0 });
  TgPoint b = tg_view_point (view, (TgPoint){ x1, y1 });

  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
}

/* The parting line from bore to outside, and the bolts as hidden edges. */
static void
draw_joint (cairo_t *cr,
            const TgRodDims *dims,
            const Rod *rod,
            const TgView *view,
            const TgStyle *style,
            double line)
{
  double middle = rod->span - 0.48 * rod->t, d = 0.2 * rod->t;
  const double joint[] = { 2.5 * line, 1.5 * line }, hidden[] = { 3 * line, 2 * line };

  tg_set_color (cr, style->ink);
  cairo_set_line_width (cr, 0.8 * line);
  cairo_set_dash (cr, joint, 2, 0);
  for (int side = -1; side <= 1; side += 2)
    segment (cr, view, 0, side * rod->bore, 0, side * rod->span);
  cairo_stroke (cr);
  if (d * view->scale > 2.5)
    {
      tg_set_color (cr, tg_color_mix (style->metal, style->ink, 0.55));
      cairo_set_line_width (cr, 0.5 * line);
      cairo_set_dash (cr, hidden, 2, 0);
      for (int side = -1; side <= 1; side += 2)
        for (int edge = -1; edge <= 1; edge += 2)
          segment (cr, view, -dims->cap_shoulder, side * (middle + edge * d), dims->shoulder,
                   side * (middle + edge * d));
      cairo_stroke (cr);
    }
  cairo_set_dash (cr, NULL, 0, 0);
}

void
tg_rod_outline_draw (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line)
{
  Rod rod = measure (&design->rod);
  gboolean fine = rod.R * view->scale > 14;

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_save (cr);
  tg_view_apply (cr, view);
  tg_set_color (cr, style->ink);
  cairo_set_line_width (cr, 2 * line / view->scale);
  silhouette (cr, &design->rod, &rod, FALSE);
  tg_set_color (cr, style->metal);
  silhouette (cr, &design->rod, &rod, TRUE);
  cairo_restore (cr);
  if (fine)
    draw_beam (cr, &rod, design->beam, view, style, line);
  draw_eyes (cr, &rod, view, style, line);
  if (fine)
    draw_joint (cr, &design->rod, &rod, view, style, line);
  cairo_restore (cr);
}
