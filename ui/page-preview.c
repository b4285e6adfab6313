/* page-preview.c: a page of a document as it will be on paper
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Drawn by the function that prints it, on white whatever the colours of the desktop.
 */
#include "page-preview.h"
#include "words.h"

#define MARGIN 14
#define LEAST_WIDTH 240
#define NATURAL_WIDTH 760
#define LARGE_WIDTH 1000

struct _TgPagePreview
{
  GtkWidget parent_instance;
  const TgDocument *document;
  guint page;
  gboolean large;
};

G_DEFINE_FINAL_TYPE (TgPagePreview, tg_page_preview, GTK_TYPE_WIDGET)

void
tg_page_preview_show (TgPagePreview *preview, const TgDocument *document, guint page)
{
  g_autofree char *words = NULL;

  g_return_if_fail (TG_IS_PAGE_PREVIEW (preview));

  preview->document = document;
  preview->page = page;
  words = document ? g_strdup_printf ("Page %u of %u", page + 1, tg_document_n_pages (document))
                   : g_strdup ("No page");
  tg_words_name (GTK_WIDGET (preview), words);
  gtk_widget_queue_resize (GTK_WIDGET (preview));
}

void
tg_page_preview_set_large (TgPagePreview *preview, gboolean large)
{
  g_return_if_fail (TG_IS_PAGE_PREVIEW (preview));

  preview->large = large;
  gtk_widget_queue_resize (GTK_WIDGET (preview));
}

/* So that white paper ends somewhere on a light ground, too. */
static void
draw_edge (GtkSnapshot *snapshot, const graphene_rect_t *paper)
{
  static const float widths[4] = { 1, 1, 1, 1 };
  const GdkRGBA grey = { 0.5f, 0.5f, 0.5f, 0.6f };
  const GdkRGBA colours[4] = { grey, grey, grey, grey };
  GskRoundedRect edge;

  gsk_rounded_rect_init_from_rect (&edge, paper, 0);
  gtk_snapshot_append_border (snapshot, &edge, widths, colours);
}

static void
tg_page_preview_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TgPagePreview *self = TG_PAGE_PREVIEW (widget);
  float width = (float) gtk_widget_get_width (widget) - 2 * MARGIN;
  graphene_rect_t rect;
  TgPaper paper;
  cairo_t *cr;
  double scale;

  if (!self->document || width <= 0)
    return;
  paper = tg_document_paper (self->document);
  scale = (double) width / paper.width_pt;
  rect = GRAPHENE_RECT_INIT (MARGIN, MARGIN, width, (float) (paper.height_pt * scale));
  cr = gtk_snapshot_append_cairo (snapshot, &rect);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, MARGIN, MARGIN);
  cairo_scale (cr, scale, scale);
  tg_document_draw_page (cr, self->document, self->page);
  cairo_destroy (cr);
  draw_edge (snapshot, &rect);
}

static GtkSizeRequestMode
tg_page_preview_get_request_mode (G_GNUC_UNUSED GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
tg_page_preview_measure (GtkWidget *widget,
                         GtkOrientation orientation,
                         int for_size,
                         int *minimum,
                         int *natural,
                         G_GNUC_UNUSED int *minimum_baseline,
                         G_GNUC_UNUSED int *natural_baseline)
{
  TgPagePreview *self = TG_PAGE_PREVIEW (widget);
  TgPaper paper = self->document ? tg_document_paper (self->document) : TG_PAPER_A4;
  int least = self->large ? LARGE_WIDTH : LEAST_WIDTH;

  *minimum = least;
  *natural = MAX (least, NATURAL_WIDTH);
  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = 2 * MARGIN + (int) ((MAX (for_size, least) - 2 * MARGIN) *
                                              paper.height_pt / paper.width_pt);
}

static void
tg_page_preview_class_init (TgPagePreviewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = tg_page_preview_snapshot;
  widget_class->measure = tg_page_preview_measure;
  widget_class->get_request_mode = tg_page_preview_get_request_mode;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "page-preview");
}

static void
tg_page_preview_init (G_GNUC_UNUSED TgPagePreview *self)
{
}

GtkWidget *
tg_page_preview_new (void)
{
  return g_object_new (TG_TYPE_PAGE_PREVIEW, NULL);
}
