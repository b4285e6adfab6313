/* engine-view.c: the engine: layout, stroke, speed, drawn from the front and the side
 *
 * Fields for what matters to the kind of engine that is chosen; each change is an event.  The picture
 * and the words follow.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-view.h"

#include <string.h>

#include "balance.h"
#include "clamp.h"
#include "columns.h"
#include "engine-picture.h"
#include "engine-table.h"
#include "fold.h"
#include "number.h"
#include "setup-field.h"
#include "words.h"

typedef enum
{
  FIELD_BANK,
  FIELD_SPACING,
  FIELD_OFFSET,
  FIELD_STROKE,
  FIELD_ROD,
  FIELD_SPEED,
  FIELD_ORDER,
  FIELD_NUMBERING,
  N_FIELDS
} Field;

static const struct
{
  const char *path;
  const char *label;
  const char *unit;
} fields[N_FIELDS] = {
  { "engine.bank-angle", "Angle between the banks", "°" },
  { "engine.spacing", "Bore spacing", "mm" },
  { "engine.offset", "Offset of the banks", "mm" },
  { "engine.stroke", "Stroke", "mm" },
  { "engine.rod-length", "Rod, centre to centre", "mm" },
  { "engine.speed", "Highest speed", "1/min" },
  { "engine.order", "Firing order", "" },
  { "engine.numbering", "Cylinders along the crank", "" },
};

/* Ways to number the bores; the last one is by hand. */
typedef enum
{
  NUMBERS_ALONG,
  NUMBERS_BANKS,
  NUMBERS_BACK,
  NUMBERS_HAND,
  N_NUMBERS
} Numbers;

struct _TgEngineView
{
  GtkWidget parent_instance;
  TgSession *session;
  GtkWidget *scroller;
  GtkWidget *kind;
  GtkWidget *kind_problem;
  GtkWidget *split;
  GtkWidget *columns;
  GtkWidget *numbers;
  GtkWidget *number_box;
  GtkWidget *rod_note;
  GtkWidget *fields[N_FIELDS];
  TgEngineTable *table;
  GtkWidget *table_box;
  TgEnginePicture *picture;
  GtkWidget *says;
  GtkWidget *missing;
  GtkWidget *missing_words;
  GtkWidget *forces;
  TgEngineKind kinds[TG_ENGINE_N_KINDS]; /* by entry of the drop-down, from 1 */
  guint n_kinds;
  gboolean by_hand; /* the numbering is typed */
  gboolean stale;   /* the job changed while the view was not seen */
  gboolean showing;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgEngineView, tg_engine_view, GTK_TYPE_WIDGET)

void
tg_engine_view_focus (TgEngineView *view)
{
  g_return_if_fail (TG_IS_ENGINE_VIEW (view));

  gtk_widget_child_focus (view->scroller, GTK_DIR_TAB_FORWARD);
}

/* -- the numbers of the bores ------------------------------------------------------------------- */

/* (transfer full): "1-2-3-4" as @numbers has it for @n bores */
static char *
numbering (Numbers numbers, guint n)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    {
      guint bore = numbers == NUMBERS_BANKS  ? 1 + i / 2 + (i % 2) * (n / 2)
                   : numbers == NUMBERS_BACK ? n - i
                                             : i + 1;

      g_string_append_printf (text, "%s%u", i ? "-" : "", bore);
    }
  return g_string_free (text, FALSE);
}

/* The way that gives what is in force. */
static Numbers
numbers_of (const TgSetup *setup, gboolean two_banks)
{
  const char *said = setup->engine.numbering;

  if (said[0] == '\0')
    return two_banks && setup->sharing == TG_SHARING_BANKS ? NUMBERS_BANKS : NUMBERS_ALONG;
  for (Numbers numbers = 0; numbers < NUMBERS_HAND; numbers++)
    {
      g_autofree char *text = numbering (numbers, setup->cylinders);

      if (strcmp (text, said) == 0 && (numbers != NUMBERS_BANKS || two_banks))
        return numbers;
    }
  return NUMBERS_HAND;
}

/* -- what is shown ------------------------------------------------------------------------------ */

static void
show_kind (TgEngineView *self, const TgSetup *setup)
{
  guint at = 0;

  for (guint i = 0; i < self->n_kinds && setup->engine.chosen; i++)
    if (self->kinds[i] == setup->engine.kind)
      at = i + 1;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->kind), at);
}

/* What does not matter to a kind is not shown. */
static void
show_fields (TgEngineView *self, const TgSetup *setup, gboolean known, TgEngineKind kind)
{
  gboolean free = known && kind == TG_ENGINE_FREE;
  gboolean vee = known && tg_engine_kind_is_vee (kind);
  gboolean two = vee || (known && kind == TG_ENGINE_BOXER);
  gboolean many = known && !free && setup->cylinders > 1;
  Numbers numbers = numbers_of (setup, two);

  gtk_widget_set_visible (self->fields[FIELD_BANK], vee);
  gtk_widget_set_visible (self->split, vee && kind != TG_ENGINE_V_TWIN);
  gtk_widget_set_visible (self->fields[FIELD_SPACING], many);
  gtk_widget_set_visible (self->fields[FIELD_OFFSET], two);
  gtk_widget_set_visible (self->fields[FIELD_ORDER], known && setup->cylinders > 1);
  gtk_widget_set_visible (self->number_box, many);
  if (numbers == NUMBERS_HAND)
    self->by_hand = TRUE;
  gtk_widget_set_visible (self->fields[FIELD_NUMBERING], many && self->by_hand);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->numbers),
                              self->by_hand ? NUMBERS_HAND : numbers);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->split), setup->engine.split_pins);
  gtk_widget_set_visible (self->table_box, free);
}

static void
show_rod (TgEngineView *self, const TgSetup *setup)
{
  double rod_mm = tg_setup_rod_mm (setup);
  g_autofree char *number = tg_number_format_short (rod_mm);
  g_autofree char *words = NULL;

  if (setup->engine.rod_mm <= 0 && rod_mm > 0)
    words = g_strdup_printf ("0 stands for “not said”. Of the rods the design’s length is taken, "
                             "%s mm.",
                             number);
  tg_words_show (GTK_LABEL (self->rod_note), words ? words : "0 stands for “not said”.");
}

static void
show_words (TgEngineView *self, const TgBalance *balance, const TgSetup *setup)
{
  const char *says = "";
  const char *missing = balance->missing;

  if (balance->has_layout && setup->cylinders > 1)
    says = !balance->evenly       ? "It does not fire at equal intervals."
           : !balance->order_fits ? "It can fire at equal intervals, but not in this order."
                                  : "It fires at equal intervals.";
  tg_words_show (GTK_LABEL (self->says), says);
  gtk_widget_set_visible (self->says, says[0] != '\0');
  if (missing[0] == '\0' && !balance->has_couples)
    missing = "For couples the bore spacing has still to be said.";
  else if (missing[0] == '\0' && balance->speed_rpm <= 0)
    missing = "The highest speed has still to be said.";
  tg_words_show (GTK_LABEL (self->missing_words), missing);
  gtk_widget_set_visible (self->missing, missing[0] != '\0');
  gtk_widget_set_visible (self->forces, balance->missing[0] == '\0');
}

static void
refresh (TgEngineView *self)
{
  g_autoptr (TgBalance) balance = NULL;
  const TgReview *review;
  TgEngineKind kind = TG_ENGINE_FREE;
  gboolean known;

  self->stale = !gtk_widget_get_mapped (GTK_WIDGET (self));
  if (!self->session || self->stale)
    return;
  review = tg_session_review (self->session);
  known = tg_setup_engine_kind (review->setup, &kind);
  balance = tg_balance_new (tg_session_job (self->session), review);
  self->showing = TRUE;
  show_kind (self, review->setup);
  show_fields (self, review->setup, known, kind);
  self->showing = FALSE;
  show_rod (self, review->setup);
  show_words (self, balance, review->setup);
}

static void
on_map (TgEngineView *self)
{
  if (self->stale)
    refresh (self);
}

/* -- what the person does ----------------------------------------------------------------------- */

static void
append (TgEngineView *self, const TgEvent *events, guint n)
{
  g_autoptr (TgSetup) copy = tg_setup_copy (tg_session_review (self->session)->setup);
  g_autoptr (GError) error = NULL;
  gboolean done = TRUE;

  for (guint i = 0; i < n && done; i++)
    done = tg_setup_set (copy, events[i].path, events[i].value, &error);
  done = done && tg_session_append (self->session, events, n, &error);
  tg_words_show_problem (NULL, GTK_LABEL (self->kind_problem), done ? NULL : error->message);
  if (!done)
    refresh (self);
}

static void
set_one (TgEngineView *self, const char *path, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = path;
  event.value = value;
  append (self, &event, 1);
}

static void
on_kind (TgEngineView *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->kind));
  const TgSetup *setup;
  g_autofree char *start = NULL;
  TgEvent events[2] = { tg_event_blank (TG_EVENT_SET), tg_event_blank (TG_EVENT_SET) };
  guint n = 0;

  if (self->showing || !self->session || at > self->n_kinds)
    return;
  setup = tg_session_review (self->session)->setup;
  if (at == 0 ? !setup->engine.chosen
              : setup->engine.chosen && setup->engine.kind == self->kinds[at - 1])
    return;
  if (at > 0 && self->kinds[at - 1] == TG_ENGINE_FREE && setup->engine.free[0] == '\0')
    {
      start = tg_engine_table_start (setup);
      events[n].path = "engine.free";
      events[n++].value = start;
    }
  events[n].path = "engine.kind";
  events[n++].value = at == 0 ? "by-layout" : tg_engine_kind_to_word (self->kinds[at - 1]);
  append (self, events, n);
}

static void
on_split (TgEngineView *self)
{
  if (!self->showing && self->session)
    set_one (self, "engine.split-pins",
             gtk_check_button_get_active (GTK_CHECK_BUTTON (self->split)) ? "yes" : "no");
}

static void
on_numbers (TgEngineView *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->numbers));
  const TgSetup *setup;
  g_autofree char *text = NULL;

  if (self->showing || !self->session || at >= N_NUMBERS)
    return;
  setup = tg_session_review (self->session)->setup;
  self->by_hand = at == NUMBERS_HAND;
  if (self->by_hand)
    {
      refresh (self);
      gtk_widget_child_focus (self->fields[FIELD_NUMBERING], GTK_DIR_TAB_FORWARD);
      return;
    }
  text = numbering (at, setup->cylinders);
  if (strcmp (text, setup->engine.numbering) != 0)
    set_one (self, "engine.numbering", text);
}

/* -- the job ------------------------------------------------------------------------------------ */

/* The kinds that fit the cylinders of this job. */
static void
fill_kinds (TgEngineView *self)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;
  g_autoptr (GtkStringList) labels = gtk_string_list_new (NULL);

  self->n_kinds = 0;
  gtk_string_list_append (labels, "as in Set up");
  for (TgEngineKind kind = 0; kind < TG_ENGINE_N_KINDS; kind++)
    if (tg_engine_kind_fits (kind, setup->cylinders))
      {
        self->kinds[self->n_kinds++] = kind;
        gtk_string_list_append (labels, tg_engine_kind_label (kind));
      }
  self->showing = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->kind), G_LIST_MODEL (labels));
  self->showing = FALSE;
}

static void
make_fields (TgEngineView *self)
{
  static const char *const ways[] = { "along the crank", "one bank after the other",
                                      "from the other end", "by hand", NULL };
  g_autoptr (GtkStringList) numbers = gtk_string_list_new (ways);

  for (guint i = 0; i < N_FIELDS; i++)
    {
      self->fields[i] = tg_setup_field_new (fields[i].path, fields[i].label, fields[i].unit);
      /* the way to number stands before the numbers */
      if (i == FIELD_NUMBERING)
        {
          g_object_ref (self->number_box);
          gtk_box_remove (GTK_BOX (gtk_widget_get_parent (self->number_box)), self->number_box);
          tg_columns_append (TG_COLUMNS (self->columns), self->number_box);
          g_object_unref (self->number_box);
        }
      tg_columns_append (TG_COLUMNS (self->columns), self->fields[i]);
    }
  self->showing = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->numbers), G_LIST_MODEL (numbers));
  self->showing = FALSE;
  tg_words_name_choice (GTK_DROP_DOWN (self->kind), "Layout of the engine");
  tg_words_name_choice (GTK_DROP_DOWN (self->numbers), "How the cylinders are numbered");
}

static void
set_session (TgEngineView *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  self->by_hand = FALSE;
  for (guint i = 0; i < N_FIELDS; i++)
    if (self->fields[i])
      tg_setup_field_set_session (TG_SETUP_FIELD (self->fields[i]), session);
  if (self->table)
    tg_engine_table_set_session (self->table, session);
  if (self->picture)
    tg_review_picture_set_session (TG_REVIEW_PICTURE (self->picture), session);
  if (session)
    {
      fill_kinds (self);
      g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), self);
    }
  refresh (self);
}

static void
tg_engine_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_ENGINE_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_engine_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_ENGINE_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_engine_view_dispose (GObject *object)
{
  set_session (TG_ENGINE_VIEW (object), NULL);
  memset (TG_ENGINE_VIEW (object)->fields, 0, sizeof TG_ENGINE_VIEW (object)->fields);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_ENGINE_VIEW);
  G_OBJECT_CLASS (tg_engine_view_parent_class)->dispose (object);
}

static void
tg_engine_view_class_init (TgEngineViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_engine_view_dispose;
  object_class->get_property = tg_engine_view_get_property;
  object_class->set_property = tg_engine_view_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_ENGINE_PICTURE);
  g_type_ensure (TG_TYPE_ENGINE_TABLE);
  g_type_ensure (TG_TYPE_FOLD);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/engine-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, kind);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, kind_problem);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, split);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, columns);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, numbers);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, number_box);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, rod_note);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, table);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, table_box);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, picture);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, says);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, missing);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, missing_words);
  gtk_widget_class_bind_template_child (widget_class, TgEngineView, forces);
  gtk_widget_class_bind_template_callback (widget_class, on_kind);
  gtk_widget_class_bind_template_callback (widget_class, on_split);
  gtk_widget_class_bind_template_callback (widget_class, on_numbers);
}

static void
tg_engine_view_init (TgEngineView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_fields (self);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
}

GtkWidget *
tg_engine_view_new (void)
{
  return g_object_new (TG_TYPE_ENGINE_VIEW, NULL);
}
