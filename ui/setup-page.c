/* setup-page.c: what of a job can be refined later; its scale has a page of its own
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sections are made from the field tables of the core, once per job: a job never gains or loses
 * a design or a zone.  The fields look after themselves; the page keeps the drawing beside them on
 * the design and the zone where the focus is, and shows the bands that there are with what counts in
 * the sums.
 */
#include "setup-page.h"

#include "clamp.h"
#include "columns.h"
#include "design-picture.h"
#include "fold.h"
#include "material-field.h"
#include "setup-field.h"
#include "sum-fields.h"
#include "target-field.h"
#include "zone-card.h"
#include "words.h"

#include <string.h>

struct _TgSetupPage
{
  GtkBox parent_instance;
  TgFold *fold;
  GtkBox *sections;
  GtkWidget *pane;
  GtkLabel *title;
  TgDesignPicture *picture;
  GtkLabel *warning;
  GtkWidget *tolerance[TG_N_BANDS]; /* or NULL, like the targets */
  GtkWidget *target[TG_N_BANDS];
  TgSession *session;
  guint design; /* that is drawn */
  int zone;     /* that is singled out, or -1 */
};

enum
{
  PROP_0,
  PROP_SESSION,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgSetupPage, tg_setup_page, GTK_TYPE_BOX)

GtkWidget *
tg_setup_page_new (void)
{
  return g_object_new (TG_TYPE_SETUP_PAGE, NULL);
}

/* -- the drawing ------------------------------------------------------------------------------ */

/* What counts in a sum decides which bands there are and what they are of. */
static void
refresh_bands (TgSetupPage *self, const TgReview *review)
{
  for (guint band = 0; band < TG_N_BANDS; band++)
    {
      const char *of = tg_setup_band_label (review->setup, band);
      g_autofree char *label = g_strdup_printf ("Tolerance of the %s", of);

      if (!self->tolerance[band])
        continue;
      tg_setup_field_show_label (TG_SETUP_FIELD (self->tolerance[band]), label);
      gtk_widget_set_visible (self->tolerance[band], review->bands[band].present);
      gtk_widget_set_visible (self->target[band], review->bands[band].present);
    }
}

static void
refresh (TgSetupPage *self)
{
  const TgReview *review = self->session ? tg_session_review (self->session) : NULL;
  const TgDesign *design = NULL;
  const TgZone *zone = NULL;
  const char *warning = "";
  g_autofree char *title = NULL;

  if (review && self->design < review->setup->designs->len)
    design = g_ptr_array_index (review->setup->designs, self->design);
  if (design && self->zone >= 0 && (guint) self->zone < design->zones->len)
    zone = tg_design_zone (design, self->zone);
  if (zone)
    title = g_strdup_printf ("%s: %s", design->name, zone->name);
  tg_words_show (self->title, title ? title : design ? design->name : "");
  tg_design_picture_show (self->picture, design, zone ? self->zone : -1);
  for (guint i = 0; review && i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      if (finding->code == TG_FINDING_TOLERANCE)
        warning = finding->text;
    }
  if (review)
    refresh_bands (self, review);
  if (self->warning)
    {
      tg_words_show (self->warning, warning);
      gtk_widget_set_visible (GTK_WIDGET (self->warning), warning[0] != '\0');
    }
}

static void
point_at (TgSetupPage *self, guint design, int zone)
{
  self->design = design;
  self->zone = zone;
  refresh (self);
}

static void
on_focus_enter (GtkEventController *focus, TgSetupPage *self)
{
  GtkWidget *widget = gtk_event_controller_get_widget (focus);

  if (TG_IS_ZONE_CARD (widget))
    point_at (self, tg_zone_card_get_design (TG_ZONE_CARD (widget)),
              tg_zone_card_get_zone (TG_ZONE_CARD (widget)));
  else
    point_at (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (widget), "design")), -1);
}

/* The drawing follows the focus into @widget. */
static void
follow (TgSetupPage *self, GtkWidget *widget, guint design)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_object_set_data (G_OBJECT (widget), "design", GUINT_TO_POINTER (design));
  g_signal_connect (focus, "enter", G_CALLBACK (on_focus_enter), self);
  gtk_widget_add_controller (widget, focus);
}

/* -- the sections ----------------------------------------------------------------------------- */

/* The columns are not the expander's own child: in GTK 4.8 the focus runs into the child of a closed
 * expander, which is in no window then. */
static GtkWidget *
add_section (TgSetupPage *self, const char *title, gboolean open, int column_width)
{
  GtkWidget *expander = gtk_expander_new (NULL);
  GtkWidget *columns = tg_columns_new (column_width);
  GtkWidget *label = gtk_label_new (title);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_expander_set_label_widget (GTK_EXPANDER (expander), label);
  tg_words_name (expander, title);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (expander), GTK_ACCESSIBLE_RELATION_CONTROLS,
                                  columns, NULL, -1);
  gtk_expander_set_expanded (GTK_EXPANDER (expander), open);
  g_object_bind_property (expander, "expanded", columns, "visible", G_BINDING_SYNC_CREATE);
  gtk_widget_add_css_class (expander, "section");
  gtk_widget_add_css_class (columns, "section-body");
  g_object_set_data (G_OBJECT (columns), "section", expander);
  gtk_box_append (self->sections, expander);
  gtk_box_append (self->sections, columns);
  return columns;
}

static GtkLabel *
add_label (TgSetupPage *self, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, style);
  gtk_box_append (self->sections, label);
  return GTK_LABEL (label);
}

static GtkWidget *
add_field (
    TgSetupPage *self, GtkWidget *columns, const char *path, const char *label, const char *unit)
{
  GtkWidget *field = tg_setup_field_new (path, label, unit);

  tg_setup_field_set_session (TG_SETUP_FIELD (field), self->session);
  tg_columns_append (TG_COLUMNS (columns), field);
  return field;
}

static void
add_tolerances (TgSetupPage *self, const TgReview *review)
{
  GtkWidget *columns = add_section (self, "Tolerances and targets", TRUE, 220);

  for (guint band = 0; band < TG_N_BANDS; band++)
    {
      g_autofree char *path = g_strdup_printf ("tolerance.%s", tg_band_to_word (band));

      if (!tg_setup_has_kind (review->setup, tg_band_kind (band)))
        continue;
      self->tolerance[band] = add_field (self, columns, path, "", "g");
      self->target[band] = tg_target_field_new (band);
      tg_target_field_set_session (TG_TARGET_FIELD (self->target[band]), self->session);
      tg_columns_append (TG_COLUMNS (columns), self->target[band]);
    }
}

static void
add_design (TgSetupPage *self, const TgDesign *design, guint index)
{
  g_autofree char *zones = g_strdup_printf ("%s: zones", design->name);
  g_autofree char *sizes = g_strdup_printf ("%s: material and dimensions", design->name);
  GtkWidget *columns = add_section (self, zones, FALSE, 290);
  const TgField *fields;
  guint n;

  follow (self, g_object_get_data (G_OBJECT (columns), "section"), index);
  for (guint i = 0; i < design->zones->len; i++)
    {
      GtkWidget *card = tg_zone_card_new (self->session, index, i);

      follow (self, card, index);
      tg_columns_append (TG_COLUMNS (columns), card);
    }

  columns = add_section (self, sizes, FALSE, 160);
  follow (self, g_object_get_data (G_OBJECT (columns), "section"), index);
  follow (self, columns, index);
  tg_columns_append (TG_COLUMNS (columns), tg_material_field_new (self->session, index));
  fields = design->kind == TG_PART_ROD ? tg_design_rod_fields (&n) : tg_design_piston_fields (&n);
  for (guint i = 0; i <= n; i++)
    {
      const char *name = i == 0 ? "density" : fields[i - 1].name;
      g_autofree char *path = g_strdup_printf ("%s.%s", design->id, name);

      add_field (self, columns, path, i == 0 ? "Density" : fields[i - 1].label,
                 i == 0 ? "g/cm³" : fields[i - 1].unit);
    }
}

static void
add_sums (TgSetupPage *self, const TgReview *review)
{
  GtkWidget *columns;

  if (!tg_sum_fields_apply (review->setup))
    return;
  columns = add_section (self, "What counts together", FALSE, 290);
  tg_columns_append (TG_COLUMNS (columns), tg_sum_fields_new (self->session));
}

/* What is said of the crank drive has a view of its own, beside its drawing. */
static void
add_engine (TgSetupPage *self)
{
  GtkWidget *columns = add_section (self, "Engine", FALSE, 290);
  GtkWidget *button = gtk_button_new_with_label ("Layout, stroke and speed");

  gtk_widget_add_css_class (button, "work");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.prove");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", "engine");
  tg_columns_append (TG_COLUMNS (columns), button);
}

static void
build (TgSetupPage *self)
{
  const TgReview *review = tg_session_review (self->session);
  GtkWidget *columns;

  add_label (self, "Set-up", "page-title");
  add_label (self,
             "Every change is written to the journal and can be struck out there. Enter takes a "
             "value over, Escape brings the old one back.",
             "quiet");
  add_tolerances (self, review);
  self->warning = add_label (self, "", "amber");
  add_sums (self, review);
  for (guint i = 0; i < review->setup->designs->len; i++)
    {
      const TgDesign *design = g_ptr_array_index (review->setup->designs, i);

      /* of the others there is nothing to refine */
      if (tg_part_kind_has_outline (design->kind))
        add_design (self, design, i);
    }
  add_engine (self);
  columns = add_section (self, "Job", FALSE, 200);
  add_field (self, columns, "name", "Name of the job", "");
}

/* Beside the fields the drawing takes the height there is, above them no more than it needs. */
static void
on_shape (TgSetupPage *self)
{
  gboolean wide = tg_fold_shape (self->fold) == TG_FOLD_WIDE;

  gtk_widget_set_vexpand (GTK_WIDGET (self->picture), wide);
  gtk_widget_set_hexpand (GTK_WIDGET (self->picture), !wide);
}

/* The first field; otherwise the focus of the page before would be lost. */
static void
focus_first (TgSetupPage *self)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->sections));

  while (child && !gtk_widget_grab_focus (child))
    child = gtk_widget_get_next_sibling (child);
}

static void
set_session (TgSetupPage *self, TgSession *session)
{
  GtkWidget *child;

  if (self->session == session)
    return;
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  self->warning = NULL;
  memset (self->tolerance, 0, sizeof self->tolerance);
  memset (self->target, 0, sizeof self->target);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->sections))))
    gtk_box_remove (self->sections, child);
  g_set_object (&self->session, session);
  gtk_widget_set_visible (self->pane, session != NULL);
  if (session)
    {
      build (self);
      g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
    }
  point_at (self, 0, -1);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    focus_first (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_SESSION]);
}

static void
tg_setup_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_SETUP_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_setup_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_SETUP_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_setup_page_dispose (GObject *object)
{
  TgSetupPage *self = TG_SETUP_PAGE (object);

  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_SETUP_PAGE);
  G_OBJECT_CLASS (tg_setup_page_parent_class)->dispose (object);
}

static void
tg_setup_page_class_init (TgSetupPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_DESIGN_PICTURE);
  g_type_ensure (TG_TYPE_FOLD);
  object_class->get_property = tg_setup_page_get_property;
  object_class->set_property = tg_setup_page_set_property;
  object_class->dispose = tg_setup_page_dispose;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY |
                                                 G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/setup-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgSetupPage, fold);
  gtk_widget_class_bind_template_child (widget_class, TgSetupPage, sections);
  gtk_widget_class_bind_template_child (widget_class, TgSetupPage, pane);
  gtk_widget_class_bind_template_child (widget_class, TgSetupPage, title);
  gtk_widget_class_bind_template_child (widget_class, TgSetupPage, picture);
  gtk_widget_class_bind_template_callback (widget_class, on_shape);
}

static void
tg_setup_page_init (TgSetupPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_after (self, "map", G_CALLBACK (focus_first), NULL);
  self->zone = -1;
  on_shape (self);
}
