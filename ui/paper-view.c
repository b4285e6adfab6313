/* paper-view.c: sheets and cards: preview, print, save
 *
 * The document is made anew with every change of the job, since it reads the review.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "paper-view.h"

#include "clamp.h"
#include "columns.h"
#include "page-preview.h"
#include "paper-print.h"
#include "words.h"

/* Width of a page at most, in px. */
#define SHEET 860
#define LARGE_SHEET 1240

struct _TgPaperView
{
  GtkWidget parent_instance;
  TgSession *session;
  GtkWidget *head;
  GtkWidget *scroller;
  GtkWidget *documents;
  GtkWidget *papers;
  GtkWidget *back;
  GtkWidget *where;
  GtkWidget *forth;
  GtkWidget *large;
  GtkWidget *sheet;
  GtkWidget *page;
  TgDocument *document;
  guint shown;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgPaperView, tg_paper_view, GTK_TYPE_WIDGET)

void
tg_paper_view_focus (TgPaperView *view)
{
  g_return_if_fail (TG_IS_PAPER_VIEW (view));

  gtk_widget_grab_focus (view->documents);
}

TgDocumentKind
tg_paper_view_kind (TgPaperView *view)
{
  guint selected;

  g_return_val_if_fail (TG_IS_PAPER_VIEW (view), TG_DOCUMENT_GRIND);

  selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (view->documents));
  return selected < TG_N_DOCUMENT_KINDS ? (TgDocumentKind) selected : TG_DOCUMENT_GRIND;
}

TgPaper
tg_paper_view_paper (TgPaperView *view)
{
  g_return_val_if_fail (TG_IS_PAPER_VIEW (view), TG_PAPER_A4);

  return gtk_drop_down_get_selected (GTK_DROP_DOWN (view->papers)) == 1 ? TG_PAPER_LETTER
                                                                        : TG_PAPER_A4;
}

static void
turn_to (TgPaperView *self, guint page)
{
  guint n = self->document ? tg_document_n_pages (self->document) : 0;
  g_autofree char *words = NULL;

  self->shown = n > 0 ? MIN (page, n - 1) : 0;
  words = n > 0 ? g_strdup_printf ("page %u of %u", self->shown + 1, n) : g_strdup ("");
  gtk_label_set_text (GTK_LABEL (self->where), words);
  gtk_widget_set_sensitive (self->back, self->shown > 0);
  gtk_widget_set_sensitive (self->forth, self->shown + 1 < n);
  tg_page_preview_show (TG_PAGE_PREVIEW (self->page), self->document, self->shown);
}

static void
refresh (TgPaperView *self)
{
  tg_page_preview_show (TG_PAGE_PREVIEW (self->page), NULL, 0);
  g_clear_pointer (&self->document, tg_document_free);
  if (self->session)
    self->document = tg_document_new (tg_session_job (self->session),
                                      tg_session_review (self->session), tg_paper_view_kind (self),
                                      tg_paper_view_paper (self));
  turn_to (self, self->shown);
}

static void
on_choice (TgPaperView *self)
{
  if (!self->page)
    return;
  self->shown = 0;
  refresh (self);
}

static void
on_back (TgPaperView *self)
{
  if (self->shown > 0)
    turn_to (self, self->shown - 1);
}

static void
on_forth (TgPaperView *self)
{
  turn_to (self, self->shown + 1);
}

static void
on_large (TgPaperView *self)
{
  gboolean large = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->large));

  g_object_set (self->sheet, "maximum-width", large ? LARGE_SHEET : SHEET, NULL);
  tg_page_preview_set_large (TG_PAGE_PREVIEW (self->page), large);
}

void
tg_paper_view_show (TgPaperView *view, TgDocumentKind kind)
{
  g_return_if_fail (TG_IS_PAPER_VIEW (view));

  gtk_drop_down_set_selected (GTK_DROP_DOWN (view->documents), kind);
}

static void
fill_choices (TgPaperView *self)
{
  static const char *const papers[] = { "A4", "Letter", NULL };
  g_autoptr (GtkStringList) kinds = gtk_string_list_new (NULL);
  g_autoptr (GtkStringList) sizes = gtk_string_list_new (papers);

  for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
    gtk_string_list_append (kinds, tg_document_kind_label (kind));
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->documents), G_LIST_MODEL (kinds));
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->papers), G_LIST_MODEL (sizes));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->documents), TG_DOCUMENT_PROOF);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->papers),
                              tg_paper_usual ().width_pt == TG_PAPER_LETTER.width_pt ? 1 : 0);
}

static void
set_session (TgPaperView *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), self);
  if (self->page)
    refresh (self);
}

static void
tg_paper_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_PAPER_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_paper_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_PAPER_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_paper_view_dispose (GObject *object)
{
  set_session (TG_PAPER_VIEW (object), NULL);
  g_clear_pointer (&TG_PAPER_VIEW (object)->document, tg_document_free);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_PAPER_VIEW);
  G_OBJECT_CLASS (tg_paper_view_parent_class)->dispose (object);
}

static void
tg_paper_view_class_init (TgPaperViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_paper_view_dispose;
  object_class->get_property = tg_paper_view_get_property;
  object_class->set_property = tg_paper_view_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_PAGE_PREVIEW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/paper-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, head);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, documents);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, papers);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, back);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, where);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, forth);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, large);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, sheet);
  gtk_widget_class_bind_template_child (widget_class, TgPaperView, page);
  gtk_widget_class_bind_template_callback (widget_class, on_choice);
  gtk_widget_class_bind_template_callback (widget_class, on_back);
  gtk_widget_class_bind_template_callback (widget_class, on_forth);
  gtk_widget_class_bind_template_callback (widget_class, on_large);
}

static void
tg_paper_view_init (TgPaperView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_choices (self);
  tg_words_name_choice (GTK_DROP_DOWN (self->documents), "Sheet or card");
  tg_words_name_choice (GTK_DROP_DOWN (self->papers), "Paper size");
}

GtkWidget *
tg_paper_view_new (void)
{
  return g_object_new (TG_TYPE_PAPER_VIEW, NULL);
}
