/* bobweight-view.c: the bobweight of each crankpin, term by term
 *
 * A row for each term, a column for each crankpin; what is chosen here, factor and allowances, become
 * events.  The sums are those of bobweight.h.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bobweight-view.h"

#include "bobweight.h"
#include "clamp.h"
#include "columns.h"
#include "number.h"
#include "setup-field.h"
#include "storable.h"
#include "why-button.h"

struct _TgBobweightView
{
  GtkWidget parent_instance;
  TgSession *session;
  GtkWidget *scroller;
  GtkWidget *ground;
  GtkWidget *why_factor;
  GtkWidget *missing;
  GtkWidget *missing_words;
  GtkWidget *describe;
  GtkWidget *weigh;
  GtkWidget *by_layout;
  GtkWidget *fields;
  GtkWidget *factor;
  GtkWidget *problem;
  GtkWidget *table_scroller;
  GtkWidget *table;
  GtkWidget *summary;
  GtkWidget *why;
  GtkWidget *print;
  double suggested;
  gboolean showing;
};

static const struct
{
  const char *path;
  const char *label;
  const char *unit;
} allowances[] = {
  { "engine.oil", "Oil on each crankpin", "g" },
  { "engine.other-rotating", "Not weighed here, with each big end", "g" },
  { "engine.other-reciprocating", "Not weighed here, with each piston", "g" },
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgBobweightView, tg_bobweight_view, GTK_TYPE_WIDGET)

void
tg_bobweight_view_focus (TgBobweightView *view)
{
  g_return_if_fail (TG_IS_BOBWEIGHT_VIEW (view));

  gtk_widget_child_focus (view->scroller, GTK_DIR_TAB_FORWARD);
}

/* -- the table ---------------------------------------------------------------------------------- */

static void
put (TgBobweightView *self, const char *text, int column, int row, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column == 0 ? 0 : 1);
  if (style)
    gtk_widget_add_css_class (label, style);
  gtk_grid_attach (GTK_GRID (self->table), label, column, row, 1, 1);
}

static void
put_rule (TgBobweightView *self, int row, guint n_pins)
{
  gtk_grid_attach (GTK_GRID (self->table), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL), 0, row,
                   (int) n_pins + 1, 1);
}

static char *
bores_words (const TgBobweightPin *pin)
{
  GString *words = g_string_new (pin->n_rods > 1 ? "bores " : "bore ");

  for (guint i = 0; i < pin->n_rods; i++)
    g_string_append_printf (words, "%s%u", i ? ", " : "", pin->bores[i]);
  return g_string_free (words, FALSE);
}

static void
put_head (TgBobweightView *self, const TgBobweight *bobweight)
{
  put (self, "Grams", 0, 0, "quiet");
  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      g_autofree char *bores = bores_words (&bobweight->pins[p]);
      g_autofree char *words = g_strdup_printf ("crankpin %u\n%s", p + 1, bores);

      put (self, words, (int) p + 1, 0, "quiet");
      gtk_label_set_justify (
          GTK_LABEL (gtk_grid_get_child_at (GTK_GRID (self->table), (int) p + 1, 0)),
          GTK_JUSTIFY_RIGHT);
    }
}

/* In a column all have the same decimals. */
static char *
grams_text (const TgReview *review, double grams)
{
  return tg_number_format (grams, tg_bobweight_decimals (review));
}

/* A row of one double of each pin, of which @first is that of pin 1. */
static void
put_row (TgBobweightView *self,
         const TgBobweight *bobweight,
         const char *label,
         const double *first,
         const char *style,
         int row)
{
  const TgReview *review = tg_session_review (self->session);

  put (self, label, 0, row, style);
  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      const double *value = (const double *) ((const char *) first + p * sizeof *bobweight->pins);
      g_autofree char *grams = grams_text (review, *value);

      put (self, grams, (int) p + 1, row, style);
    }
}

static int
put_terms (TgBobweightView *self, const TgBobweight *bobweight, gboolean reciprocating, int row)
{
  for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
    if (bobweight->weighed[t] && (t >= TG_TERM_FIRST_RECIPROCATING) == reciprocating)
      put_row (self, bobweight, tg_bobweight_term_label (t), &bobweight->pins[0].terms_g[t], NULL,
               row++);
  return row;
}

static void
put_bobweights (TgBobweightView *self, const TgBobweight *bobweight, int row)
{
  const TgReview *review = tg_session_review (self->session);

  put_row (self, bobweight, "bobweight", &bobweight->pins[0].bobweight_g, "strong", row);
  put (self, "known to", 0, row + 1, "quiet");
  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      g_autofree char *known = tg_review_plus_minus (review, bobweight->pins[p].expanded_g);

      put (self, known, (int) p + 1, row + 1, "quiet");
    }
}

static void
fill_table (TgBobweightView *self, const TgBobweight *bobweight)
{
  GtkWidget *child;
  g_autofree char *percent = tg_number_format_short (bobweight->factor * 100);
  g_autofree char *share = g_strdup_printf ("of which %s %% counts", percent);
  int row = 1;

  while ((child = gtk_widget_get_first_child (self->table)))
    gtk_grid_remove (GTK_GRID (self->table), child);
  put_head (self, bobweight);
  row = put_terms (self, bobweight, FALSE, row);
  put_row (self, bobweight, "turns with the crankpin", &bobweight->pins[0].rotating_g, "strong",
           row++);
  put_rule (self, row++, bobweight->n_pins);
  row = put_terms (self, bobweight, TRUE, row);
  put_row (self, bobweight, "goes up and down", &bobweight->pins[0].reciprocating_g, "strong",
           row++);
  put (self, share, 0, row++, "quiet");
  put_rule (self, row++, bobweight->n_pins);
  put_bobweights (self, bobweight, row);
}

/* -- words and fields ---------------------------------------------------------------------------- */

static void
make_fields (TgBobweightView *self)
{
  self->factor = tg_setup_field_new ("engine.factor", "Balance factor", "%");
  tg_columns_append (TG_COLUMNS (self->fields), self->factor);
  for (guint i = 0; i < G_N_ELEMENTS (allowances); i++)
    tg_columns_append (
        TG_COLUMNS (self->fields),
        tg_setup_field_new (allowances[i].path, allowances[i].label, allowances[i].unit));
}

static void
give_fields (TgBobweightView *self, TgSession *session)
{
  for (GtkWidget *field = gtk_widget_get_first_child (self->fields); field;
       field = gtk_widget_get_next_sibling (field))
    tg_setup_field_set_session (TG_SETUP_FIELD (field), session);
}

static void
show_missing (TgBobweightView *self, const TgBobweight *bobweight)
{
  gboolean engine = bobweight->n_pins == 0;

  gtk_widget_set_visible (self->missing, !bobweight->known);
  gtk_label_set_text (GTK_LABEL (self->missing_words), bobweight->missing);
  gtk_widget_set_visible (self->describe, engine);
  gtk_widget_set_visible (self->weigh, !engine);
  gtk_widget_set_visible (self->table_scroller, bobweight->known);
  gtk_widget_set_visible (self->summary, bobweight->known);
  gtk_widget_set_visible (self->print, bobweight->known);
}

static void
refresh (TgBobweightView *self)
{
  const TgReview *review;
  g_autoptr (TgBobweight) bobweight = NULL;
  g_autofree char *summary = NULL;
  gboolean by_layout;

  if (!self->session)
    return;
  review = tg_session_review (self->session);
  bobweight = tg_bobweight_new (review);
  by_layout = review->setup->engine.factor_percent == TG_ENGINE_FACTOR_BY_LAYOUT;
  self->suggested = bobweight->suggested;
  self->showing = TRUE;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->by_layout), by_layout);
  self->showing = FALSE;
  gtk_widget_set_visible (self->factor, !by_layout);
  gtk_label_set_text (GTK_LABEL (self->ground), bobweight->ground);
  gtk_widget_set_visible (self->ground, bobweight->ground[0] != '\0');
  tg_why_button_give (TG_WHY_BUTTON (self->why_factor), "the balance factor",
                      bobweight->ground[0] ? tg_bobweight_why_factor (bobweight) : NULL);
  tg_why_button_give (TG_WHY_BUTTON (self->why), "the bobweights",
                      bobweight->known ? tg_bobweight_why (bobweight, review) : NULL);
  show_missing (self, bobweight);
  if (!bobweight->known)
    return;
  fill_table (self, bobweight);
  summary = tg_bobweight_words (bobweight, review);
  gtk_label_set_text (GTK_LABEL (self->summary), summary);
}

static void
on_by_layout (TgBobweightView *self)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);
  char percent[TG_STORABLE_NUMBER_SIZE];
  g_autoptr (GError) error = NULL;
  gboolean done;

  if (self->showing || !self->session)
    return;
  event.path = "engine.factor";
  event.value = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->by_layout))
                    ? "by-layout"
                    : tg_storable_format_number (self->suggested * 100, percent);
  done = tg_session_append (self->session, &event, 1, &error);
  gtk_widget_set_visible (self->problem, !done);
  if (done)
    return;
  gtk_label_set_text (GTK_LABEL (self->problem), error->message);
  refresh (self);
}

static void
set_session (TgBobweightView *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (self->fields)
    give_fields (self, session);
  if (session)
    g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), self);
  refresh (self);
}

static void
tg_bobweight_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_BOBWEIGHT_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_bobweight_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_BOBWEIGHT_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_bobweight_view_dispose (GObject *object)
{
  set_session (TG_BOBWEIGHT_VIEW (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BOBWEIGHT_VIEW);
  G_OBJECT_CLASS (tg_bobweight_view_parent_class)->dispose (object);
}

static void
tg_bobweight_view_class_init (TgBobweightViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_bobweight_view_dispose;
  object_class->get_property = tg_bobweight_view_get_property;
  object_class->set_property = tg_bobweight_view_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/bobweight-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, ground);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, why_factor);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, missing);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, missing_words);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, describe);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, weigh);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, by_layout);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, fields);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, problem);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, table_scroller);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, table);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, summary);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, why);
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, print);
  gtk_widget_class_bind_template_callback (widget_class, on_by_layout);
}

static void
tg_bobweight_view_init (TgBobweightView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_fields (self);
}

GtkWidget *
tg_bobweight_view_new (void)
{
  return g_object_new (TG_TYPE_BOBWEIGHT_VIEW, NULL);
}
