/* bench-view.c: how the part lies on scale and stand for the next reading
 *
 * The picture comes from ui/draw; here are its size and the words for a screen reader.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-view.h"

#include "bench-drawing.h"
#include "theme.h"
#include "words.h"

#define MIN_WIDTH 280
#define MIN_HEIGHT 180
#define MAX_MIN_HEIGHT 260
#define NAT_WIDTH 640

struct _TgBenchView
{
  GtkWidget parent_instance;
  TgDesign *design;
  TgSlot slot;
};

G_DEFINE_FINAL_TYPE (TgBenchView, tg_bench_view, GTK_TYPE_WIDGET)

static void
tg_bench_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TgBenchView *self = TG_BENCH_VIEW (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  /* not taller than it is wide */
  double used = MIN (height, 0.8 * width);
  TgRect area = { 0, MIN ((height - used) / 2, 32), width, used };
  TgStyle style;
  cairo_t *cr;

  if (!self->design || area.width < 4 || area.height < 4)
    return;
  style = tg_theme_style (widget);
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, (float) area.y, (float) area.width, (float) area.height));
  tg_bench_drawing_draw (cr, area, self->design, self->slot.figure, self->slot.way, &style);
  cairo_destroy (cr);
}

static void
tg_bench_view_measure (G_GNUC_UNUSED GtkWidget *widget,
                       GtkOrientation orientation,
                       int for_size,
                       int *minimum,
                       int *natural,
                       G_GNUC_UNUSED int *minimum_baseline,
                       G_GNUC_UNUSED int *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = MIN_WIDTH;
      *natural = NAT_WIDTH;
    }
  else
    *minimum = *natural = CLAMP (for_size * 62 / 100, MIN_HEIGHT, MAX_MIN_HEIGHT);
}

static GtkSizeRequestMode
tg_bench_view_get_request_mode (G_GNUC_UNUSED GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
tg_bench_view_finalize (GObject *object)
{
  g_clear_pointer (&TG_BENCH_VIEW (object)->design, tg_design_free);
  G_OBJECT_CLASS (tg_bench_view_parent_class)->finalize (object);
}

static void
tg_bench_view_class_init (TgBenchViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = tg_bench_view_finalize;
  widget_class->snapshot = tg_bench_view_snapshot;
  widget_class->measure = tg_bench_view_measure;
  widget_class->get_request_mode = tg_bench_view_get_request_mode;
  gtk_widget_class_set_css_name (widget_class, "benchview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_bench_view_init (G_GNUC_UNUSED TgBenchView *self)
{
}

GtkWidget *
tg_bench_view_new (void)
{
  return g_object_new (TG_TYPE_BENCH_VIEW, NULL);
}

void
tg_bench_view_show (TgBenchView *view, const TgReview *review, TgSlot slot)
{
  g_autofree char *name = NULL;
  g_autofree char *how = NULL;

  g_return_if_fail (TG_IS_BENCH_VIEW (view));

  name = tg_words_slot (review, slot);
  how = tg_words_how_to_lay (review, slot);
  g_clear_pointer (&view->design, tg_design_free);
  view->design = tg_design_copy (tg_review_part (review, slot.part)->design);
  view->slot = slot;
  tg_words_name (GTK_WIDGET (view), name);
  tg_words_tell (GTK_WIDGET (view), how);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}
