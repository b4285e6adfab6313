/* forces-view.c: what the spread costs: forces and couples, and how even is even enough
 *
 * Everything that is shown comes from balance.h for the speed that is chosen here; the speed, the load
 * and the share are of the view, not of the job.  It is worked out when the view is seen.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "forces-view.h"

#include <math.h>

#include "balance.h"
#include "clamp.h"
#include "columns.h"
#include "forces-picture.h"
#include "number.h"
#include "setup-field.h"
#include "why-button.h"
#include "words.h"

typedef enum
{
  PICTURE_LOCUS,
  PICTURE_ANGLE,
  PICTURE_SPEED,
  N_PICTURES
} Picture;

static const struct
{
  const char *path;
  const char *label;
  const char *unit;
} fields[] = {
  { "engine.crank-mass", "Mass of the crankshaft", "kg" },
  { "engine.grade", "Balance quality grade G", "mm/s" },
  { "engine.share", "Share of the layout’s own force", "%" },
};

static const char *const stage_names[TG_BALANCE_N_STAGES] = { "before", "now", "after the plan" };

struct _TgForcesView
{
  GtkWidget parent_instance;
  TgSession *session;
  GtkWidget *scroller;
  GtkWidget *missing;
  GtkWidget *missing_words;
  GtkWidget *describe;
  GtkWidget *weigh;
  GtkWidget *body;
  GtkWidget *words;
  GtkWidget *why;
  GtkAdjustment *speed;
  GtkWidget *speed_scale;
  GtkWidget *speed_spin;
  GtkWidget *load;
  GtkWidget *share;
  GtkWidget *pictures;
  GtkWidget *table;
  GtkWidget *pairs;
  GtkWidget *pins;
  GtkWidget *grade;
  GtkWidget *why_grade;
  GtkWidget *why_enough;
  GtkWidget *fields;
  GtkWidget *enough;
  GtkWidget *plots[N_PICTURES];
  double said_rpm; /* the setup's speed that was taken over last */
  guint later;     /* the source that works everything out when nothing else is to be done */
  gboolean stale;
  gboolean showing;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgForcesView, tg_forces_view, GTK_TYPE_WIDGET)

void
tg_forces_view_focus (TgForcesView *view)
{
  g_return_if_fail (TG_IS_FORCES_VIEW (view));

  gtk_widget_child_focus (view->scroller, GTK_DIR_TAB_FORWARD);
}

/* -- figures ------------------------------------------------------------------------------------ */

#define HARDLY 0.005

/* (transfer full): three figures or so */
static char *
number (double value)
{
  double size = fabs (value);

  if (size < HARDLY)
    return g_strdup ("0");
  return tg_number_format (value, size >= 99.5 ? 0 : size >= 9.95 ? 1 : 2);
}

/* (transfer full): "4.2 ± 6.1", with no more decimals than are known */
static char *
known_number (double value, double expanded)
{
  guint decimals = expanded >= 9.5 ? 0 : expanded >= 0.95 ? 1 : 2;
  g_autofree char *shown = NULL;
  g_autofree char *around = NULL;

  if (expanded < HARDLY)
    return number (value);
  shown = tg_number_format (value, decimals);
  around = tg_number_format (expanded, decimals);
  return g_strconcat (shown, "\302\240±\302\240", around, NULL);
}

static void
put (GtkWidget *grid, const char *text, int column, int row, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column == 0 ? 0 : 1);
  if (style)
    gtk_widget_add_css_class (label, style);
  gtk_grid_attach (GTK_GRID (grid), label, column, row, 1, 1);
}

static void
clear (GtkWidget *grid)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (grid)))
    gtk_grid_remove (GTK_GRID (grid), child);
}

static TgBalanceLoad
load_of (TgForcesView *self)
{
  return gtk_drop_down_get_selected (GTK_DROP_DOWN (self->load)) == 1 ? TG_BALANCE_COUPLE
                                                                      : TG_BALANCE_FORCE;
}

static TgBalanceShare
share_of (TgForcesView *self)
{
  static const TgBalanceShare shares[] = { TG_BALANCE_SPREAD, TG_BALANCE_OWN, TG_BALANCE_WHOLE };
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->share));

  return at < G_N_ELEMENTS (shares) ? shares[at] : TG_BALANCE_SPREAD;
}

/* -- plots -------------------------------------------------------------------------------------- */

static TgBalanceCurve *
curve_of (TgForcesView *self,
          const TgBalance *balance,
          Picture picture,
          TgBalanceStage stage,
          TgBalanceShare share,
          gboolean across)
{
  double rpm = gtk_adjustment_get_value (self->speed);
  TgBalanceLoad load = load_of (self);

  switch (picture)
    {
    case PICTURE_LOCUS:
      return tg_balance_locus (balance, stage, share, load, rpm);
    case PICTURE_ANGLE:
      return tg_balance_over_angle (balance, stage, share, load, across, rpm);
    case PICTURE_SPEED:
    default:
      return tg_balance_over_speed (balance, stage, share, load,
                                    gtk_adjustment_get_upper (self->speed));
    }
}

static void
add_line (TgForcesDrawing *forces, TgBalanceCurve *curve, TgForcesLook look, const char *name)
{
  forces->lines[forces->n++] = (TgForcesLine){ curve, look, name };
}

static void
add_lines (TgForcesView *self,
           const TgBalance *balance,
           Picture picture,
           gboolean across,
           TgForcesDrawing *forces)
{
  static const TgForcesLook looks[] = { TG_FORCES_BEFORE, TG_FORCES_NOW, TG_FORCES_THEN };
  TgBalanceShare share = share_of (self);
  TgBalanceStage last = tg_balance_is_known (balance, TG_BALANCE_NOW) ? TG_BALANCE_NOW
                                                                      : TG_BALANCE_BEFORE;

  if (share != TG_BALANCE_SPREAD)
    add_line (forces, curve_of (self, balance, picture, last, TG_BALANCE_OWN, across),
              TG_FORCES_OWN, "the layout’s own");
  for (TgBalanceStage stage = 0; stage < TG_BALANCE_N_STAGES && share != TG_BALANCE_OWN; stage++)
    if (tg_balance_is_news (balance, stage))
      add_line (forces, curve_of (self, balance, picture, stage, share, across), looks[stage],
                stage_names[stage]);
}

/* Where an engine shakes across only, as a boxer does, that is what is drawn over the angle. */
static gboolean
is_across (TgForcesView *self, const TgBalance *balance)
{
  TgForcesDrawing up = { 0 }, across = { 0 };
  double sizes[2] = { 0, 0 };

  add_lines (self, balance, PICTURE_ANGLE, FALSE, &up);
  add_lines (self, balance, PICTURE_ANGLE, TRUE, &across);
  for (guint side = 0; side < 2; side++)
    for (guint l = 0; l < (side ? across : up).n; l++)
      {
        TgBalanceCurve *curve = (TgBalanceCurve *) (side ? across : up).lines[l].curve;

        for (guint i = 0; i < curve->n; i++)
          sizes[side] = MAX (sizes[side], fabs (curve->y[i]));
        tg_balance_curve_free (curve);
      }
  return sizes[1] > 2 * sizes[0];
}

static void
show_pictures (TgForcesView *self, const TgBalance *balance)
{
  gboolean couple = load_of (self) == TG_BALANCE_COUPLE;
  gboolean across = is_across (self, balance);
  const char *const titles[N_PICTURES] = {
    couple ? "The couple in a turn" : "The force in a turn",
    across ? "Across, over the crank angle" : "Up and down, over the crank angle",
    "The largest, over the speed",
  };

  for (Picture picture = 0; picture < N_PICTURES; picture++)
    {
      TgForcesDrawing forces = { .plot = (TgForcesPlot) picture,
                                 .unit = couple ? "N·m" : "N",
                                 .nothing = couple ? "No couple." : "No force.",
                                 .marked_rpm = gtk_adjustment_get_value (self->speed) };
      GtkWidget *box = gtk_widget_get_parent (self->plots[picture]);

      add_lines (self, balance, picture, across, &forces);
      tg_words_show (GTK_LABEL (gtk_widget_get_first_child (box)), titles[picture]);
      tg_forces_picture_show (TG_FORCES_PICTURE (self->plots[picture]), &forces, titles[picture]);
    }
}

static void
make_pictures (TgForcesView *self)
{
  for (Picture picture = 0; picture < N_PICTURES; picture++)
    {
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
      GtkWidget *title = gtk_label_new (NULL);

      self->plots[picture] = g_object_new (TG_TYPE_FORCES_PICTURE, NULL);
      gtk_label_set_xalign (GTK_LABEL (title), 0);
      gtk_label_set_wrap (GTK_LABEL (title), TRUE);
      gtk_widget_add_css_class (title, "heading");
      gtk_widget_set_hexpand (self->plots[picture], TRUE);
      gtk_box_append (GTK_BOX (box), title);
      gtk_box_append (GTK_BOX (box), self->plots[picture]);
      tg_columns_append (TG_COLUMNS (self->pictures), box);
    }
}

/* -- tables ------------------------------------------------------------------------------------- */

/* Order @row, or all together: the layout's own, then what the differences add. */
static void
put_order (TgForcesView *self, const TgBalance *balance, guint row, gboolean all)
{
  double rpm = gtk_adjustment_get_value (self->speed);
  TgBalanceLoad load = load_of (self);
  TgBalanceStage last = tg_balance_is_known (balance, TG_BALANCE_NOW) ? TG_BALANCE_NOW
                                                                      : TG_BALANCE_BEFORE;
  g_autofree char *name = all ? g_strdup ("all together")
                              : g_strdup_printf ("order %u", tg_dynamics_order_number (row));

  put (self->table, name, 0, (int) row + 1, all ? "strong" : NULL);
  for (int column = 1; column <= 1 + TG_BALANCE_N_STAGES; column++)
    {
      TgBalanceStage stage = column == 1 ? last : (TgBalanceStage) (column - 2);
      TgBalanceShare share = column == 1 ? TG_BALANCE_OWN : TG_BALANCE_SPREAD;
      TgBalanceFigure figure;
      g_autofree char *text = NULL;

      if (!tg_balance_is_news (balance, stage))
        continue;
      figure = all ? tg_balance_peak (balance, stage, share, load, rpm)
                   : tg_balance_figure (balance, stage, share, load, row, rpm);
      text = known_number (figure.largest, figure.expanded);
      put (self->table, text, column, (int) row + 1, all ? "strong" : NULL);
    }
}

static void
show_table (TgForcesView *self, const TgBalance *balance)
{
  const char *unit = load_of (self) == TG_BALANCE_COUPLE ? "N·m" : "N";

  clear (self->table);
  put (self->table, unit, 0, 0, "quiet");
  put (self->table, "the layout’s own", 1, 0, "quiet");
  for (guint stage = 0; stage < TG_BALANCE_N_STAGES; stage++)
    if (tg_balance_is_news (balance, (TgBalanceStage) stage))
      put (self->table, stage_names[stage], (int) stage + 2, 0, "quiet");
  for (guint row = 0; row <= TG_DYNAMICS_N_ORDERS; row++)
    put_order (self, balance, row, row == TG_DYNAMICS_N_ORDERS);
}

static void
show_pairs (TgForcesView *self, const TgBalance *balance)
{
  static const char *const what[] = { "What turns", "What goes up and down" };
  GString *text = g_string_new (NULL);

  for (guint reciprocating = 0; reciprocating < 2; reciprocating++)
    for (TgBalanceStage stage = 0; stage <= TG_BALANCE_NOW; stage++)
      {
        TgBalancePair pair;
        g_autofree char *force = NULL;
        g_autofree char *grams = NULL;

        if (!tg_balance_is_news (balance, stage))
          continue;
        pair = tg_balance_worst_pair (balance, stage, reciprocating,
                                      gtk_adjustment_get_value (self->speed));
        if (pair.a == 0 || pair.b == 0)
          continue;
        force = known_number (pair.force, pair.expanded);
        grams = number (pair.difference_g);
        g_string_append_printf (text, "%s%s, %s: bores %u and %u, %s g, %s\302\240N.",
                                text->len ? "\n" : "", what[reciprocating], stage_names[stage],
                                pair.a, pair.b, grams, force);
      }
  tg_words_show (GTK_LABEL (self->pairs), text->str);
  g_string_free (text, TRUE);
}

static void
put_pin (TgForcesView *self, const char *name, double g_mm, double expanded, int row)
{
  g_autofree char *text = known_number (g_mm, expanded);
  g_autofree char *figure = g_strconcat (text, " g·mm", NULL);

  put (self->pins, name, 0, row, NULL);
  put (self->pins, figure, 1, row, NULL);
}

static void
show_grade (TgForcesView *self, const TgBalance *balance, const TgBalanceUnbalance *unbalance)
{
  const TgReview *review = tg_session_review (self->session);
  const TgSetup *setup = review->setup;
  g_autofree char *permitted = number (unbalance->permissible_g_mm);
  g_autofree char *wanted = tg_number_format_short (setup->engine.grade);
  g_autofree char *kept = number (unbalance->grade);
  g_autofree char *text = NULL;

  if (unbalance->permissible_g_mm <= 0)
    text = g_strdup ("For a grade after ISO 21940-11 the mass of the crankshaft and the highest "
                     "speed have still to be said.");
  else
    text = g_strdup_printf ("G %s after ISO 21940-11 allows %s g·mm for the whole crankshaft at "
                            "its highest speed. What the parts leave keeps G %s%s.",
                            wanted, permitted, kept,
                            unbalance->grade <= setup->engine.grade ? "" : ", which is more");
  tg_words_show (GTK_LABEL (self->grade), text);
  tg_why_button_give (TG_WHY_BUTTON (self->why_grade), "the unbalance that is left",
                      tg_balance_why_grade (balance, review, unbalance));
}

static void
show_pins (TgForcesView *self, const TgBalance *balance, const TgSetup *setup)
{
  TgBalanceUnbalance unbalance;
  TgBalanceStage last = tg_balance_is_known (balance, TG_BALANCE_NOW) ? TG_BALANCE_NOW
                                                                      : TG_BALANCE_BEFORE;
  int row = 0;

  clear (self->pins);
  tg_words_show (GTK_LABEL (self->grade), "");
  tg_why_button_give (TG_WHY_BUTTON (self->why_grade), "", NULL);
  if (!tg_balance_unbalance (balance, setup, last, &unbalance))
    return;
  for (guint p = 0; p < unbalance.n_pins; p++)
    {
      g_autofree char *name = g_strdup_printf ("Crankpin %u", p + 1);

      put_pin (self, name, unbalance.pins[p].g_mm, unbalance.pins[p].expanded, row++);
    }
  put_pin (self, "All together", unbalance.resultant_g_mm, unbalance.resultant_expanded, row++);
  for (guint plane = 0; plane < 2 && unbalance.has_planes; plane++)
    put_pin (self, plane ? "In the plane at the other end" : "In the plane at the front",
             unbalance.planes_g_mm[plane], 0, row++);
  show_grade (self, balance, &unbalance);
}

/* -- all of it ---------------------------------------------------------------------------------- */

/* The highest speed of the setup is where the slider begins, and again whenever that is changed. */
static void
take_speed (TgForcesView *self, double rpm)
{
  double upper = rpm > 0 ? ceil (rpm * 1.2 / 500) * 500 : 8000;

  if (rpm == self->said_rpm)
    return;
  self->said_rpm = rpm;
  gtk_adjustment_set_upper (self->speed, MIN (upper, TG_DYNAMICS_MAX_RPM));
  gtk_adjustment_set_value (self->speed, rpm > 0 ? rpm : 3000);
}

static void
show_missing (TgForcesView *self, const TgBalance *balance, gboolean known)
{
  gboolean engine = balance->missing[0] != '\0';
  const char *words = engine ? balance->missing : balance->stages[TG_BALANCE_NOW].missing;

  if (known && !balance->has_couples)
    words = "For couples the bore spacing has still to be said.";
  tg_words_show (GTK_LABEL (self->missing_words), words);
  gtk_widget_set_visible (self->missing, !known || !balance->has_couples);
  gtk_widget_set_visible (self->describe, engine || known);
  gtk_widget_set_visible (self->weigh, !known && !engine);
  gtk_widget_set_visible (self->body, known);
  gtk_widget_set_sensitive (self->load, balance->has_couples);
}

/* Each sentence is a paragraph of its own. */
static void
show_words (TgForcesView *self, const char *words)
{
  g_auto (GStrv) lines = g_strsplit (words, "\n", -1);
  GtkWidget *label;

  while ((label = gtk_widget_get_first_child (self->words)))
    gtk_box_remove (GTK_BOX (self->words), label);
  for (guint i = 0; lines[i]; i++)
    {
      label = gtk_label_new (NULL);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
      gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
      tg_words_show (GTK_LABEL (label), lines[i]);
      gtk_box_append (GTK_BOX (self->words), label);
    }
}

static void
refresh (TgForcesView *self)
{
  g_autoptr (TgBalance) balance = NULL;
  g_autoptr (TgBalanceEnough) enough = NULL;
  g_autofree char *words = NULL;
  const TgReview *review;
  double rpm;
  gboolean known;

  self->stale = !gtk_widget_get_mapped (GTK_WIDGET (self));
  if (!self->session || self->stale)
    return;
  review = tg_session_review (self->session);
  balance = tg_balance_new (tg_session_job (self->session), review);
  known = tg_balance_is_known (balance, TG_BALANCE_NOW) ||
          tg_balance_is_known (balance, TG_BALANCE_BEFORE);
  self->showing = TRUE;
  take_speed (self, balance->speed_rpm);
  if (!balance->has_couples)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->load), 0);
  self->showing = FALSE;
  show_missing (self, balance, known);
  tg_why_button_give (TG_WHY_BUTTON (self->why), "", NULL);
  if (!known)
    return;
  rpm = gtk_adjustment_get_value (self->speed);
  words = tg_balance_words (balance, rpm);
  enough = tg_balance_enough (balance, review, rpm);
  show_words (self, words);
  tg_why_button_give (TG_WHY_BUTTON (self->why), "these forces",
                      tg_balance_why_forces (balance, rpm));
  tg_words_show (GTK_LABEL (self->enough), enough->words);
  tg_why_button_give (TG_WHY_BUTTON (self->why_enough), "how even is even enough",
                      tg_balance_why_enough (balance, review, enough, rpm));
  show_pictures (self, balance);
  show_table (self, balance);
  show_pairs (self, balance);
  show_pins (self, balance, review->setup);
}

static gboolean
refresh_later (gpointer data)
{
  TgForcesView *self = data;

  self->later = 0;
  refresh (self);
  return G_SOURCE_REMOVE;
}

/* The slider moves on, whatever has to be worked out. */
static void
on_choice (TgForcesView *self)
{
  if (!self->showing && self->later == 0)
    self->later = g_idle_add (refresh_later, self);
}

static void
on_map (TgForcesView *self)
{
  if (self->stale)
    refresh (self);
}

static void
make (TgForcesView *self)
{
  static const char *const loads[] = { "force", "couple", NULL };
  static const char *const shares[] = { "what the differences add", "the layout’s own",
                                        "both together", NULL };
  g_autoptr (GtkStringList) load = gtk_string_list_new (loads);
  g_autoptr (GtkStringList) share = gtk_string_list_new (shares);

  self->said_rpm = -1;
  self->showing = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->load), G_LIST_MODEL (load));
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->share), G_LIST_MODEL (share));
  self->showing = FALSE;
  tg_words_name_choice (GTK_DROP_DOWN (self->load), "Force or couple");
  tg_words_name_choice (GTK_DROP_DOWN (self->share), "Which share of it");
  tg_words_name (self->speed_scale, "Speed in 1/min");
  tg_words_name (self->speed_spin, "Speed in 1/min");
  make_pictures (self);
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    tg_columns_append (TG_COLUMNS (self->fields),
                       tg_setup_field_new (fields[i].path, fields[i].label, fields[i].unit));
}

static void
give_session (TgForcesView *self, TgSession *session)
{
  for (Picture picture = 0; picture < N_PICTURES; picture++)
    {
      tg_forces_picture_show (TG_FORCES_PICTURE (self->plots[picture]), NULL, NULL);
      tg_review_picture_set_session (TG_REVIEW_PICTURE (self->plots[picture]), session);
    }
  for (GtkWidget *field = gtk_widget_get_first_child (self->fields); field;
       field = gtk_widget_get_next_sibling (field))
    tg_setup_field_set_session (TG_SETUP_FIELD (field), session);
}

static void
set_session (TgForcesView *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  self->said_rpm = -1;
  if (self->fields)
    give_session (self, session);
  if (session)
    g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), self);
  refresh (self);
}

static void
tg_forces_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_FORCES_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_forces_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_FORCES_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_forces_view_dispose (GObject *object)
{
  g_clear_handle_id (&TG_FORCES_VIEW (object)->later, g_source_remove);
  set_session (TG_FORCES_VIEW (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_FORCES_VIEW);
  G_OBJECT_CLASS (tg_forces_view_parent_class)->dispose (object);
}

static void
tg_forces_view_class_init (TgForcesViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_forces_view_dispose;
  object_class->get_property = tg_forces_view_get_property;
  object_class->set_property = tg_forces_view_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/forces-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, missing);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, missing_words);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, describe);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, weigh);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, body);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, words);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, why);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, speed);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, speed_scale);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, speed_spin);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, load);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, share);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, pictures);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, table);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, pairs);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, pins);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, grade);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, why_grade);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, why_enough);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, fields);
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, enough);
  gtk_widget_class_bind_template_callback (widget_class, on_choice);
}

static void
tg_forces_view_init (TgForcesView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make (self);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
}

GtkWidget *
tg_forces_view_new (void)
{
  return g_object_new (TG_TYPE_FORCES_VIEW, NULL);
}
