/* weigh-page.c: the set goes over the scale, one reading after the other
 *
 * The field is always ready; a reading that is taken moves on to the next one that is missing.  All
 * readings that are needed come first, whole rods after them as a cross-check.  The person may step
 * anywhere and read again.  Where a reading raises a finding of its part, it is shown below the field.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "weigh-page.h"

#include "bench-panel.h"
#include "bench-view.h"
#include "done-list.h"
#include "finding-view.h"
#include "fold.h"
#include "history-view.h"
#include "proof-line.h"
#include "reading-entry.h"
#include "readings-table.h"
#include "scale-checks.h"
#include "scale-link.h"
#include "scroll.h"
#include "words.h"

struct _TgWeighPage
{
  GtkWidget parent_instance;
  TgSession *session;
  gulong changed;
  gulong part_changed;
  TgSlot slot;
  GtkWidget *scroller;
  GtkWidget *fold;
  GtkWidget *side;
  GtkWidget *progress;
  GtkWidget *last;
  GtkWidget *next;
  GtkWidget *title;
  GtkWidget *figure;
  GtkWidget *how;
  GtkWidget *view;
  GtkWidget *bench;
  GtkWidget *entry;
  GtkWidget *finished;
  GtkWidget *finished_text;
  GtkWidget *grind;
  GtkWidget *match;
  GtkWidget *checks;
  GtkWidget *findings;
  GtkWidget *table;
  GtkWidget *proof;
  GtkWidget *history;
  GtkWidget *done;
};

enum
{
  PROP_SESSION = 1,
  PROP_LINK,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgWeighPage, tg_weigh_page, GTK_TYPE_WIDGET)

/* How many of the readings that are needed are there, and how many of parts that were ground. */
static void
count_readings (const TgReview *review, guint *have, guint *need, guint *again)
{
  guint repeats = review->setup->repeats;

  *have = *need = *again = 0;
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      gboolean rod = part->design->kind == TG_PART_ROD;

      for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
        for (TgWay way = 0; way < TG_N_WAYS; way++)
          {
            guint n = MIN (part->weight[figure].n[way], repeats);

            if ((figure == TG_FIGURE_WHOLE) == rod || (way == TG_WAY_ANY) == rod ||
                tg_review_slot_is_idle (review, (TgSlot){ i, figure, way }))
              continue;
            *need += repeats;
            *have += part->passes > 0 ? repeats : n;
            *again += part->passes > 0 ? repeats - n : 0;
          }
    }
}

/* Where it goes on from here. */
static void
refresh_finished (TgWeighPage *self, const TgReview *review, gboolean finished)
{
  TgSlot missing;
  gboolean whole = tg_review_next_slot (review, NULL, TRUE, &missing);
  gboolean pair = review->next->kind == TG_NEXT_PAIR;
  g_autofree char *text = g_strconcat (
      whole ? "Every reading that is needed is there. Whole rods may follow as a cross-check."
            : "Every reading is there.",
      pair ? " Before the first pass, see which part goes with which." : "", NULL);

  gtk_widget_set_visible (self->finished, finished);
  tg_words_show (GTK_LABEL (self->finished_text), text);
  gtk_widget_set_visible (self->match, pair);
  gtk_widget_set_visible (self->grind, !pair);
}

static void
refresh_progress (TgWeighPage *self, const TgReview *review)
{
  g_autofree char *text = NULL;
  guint have, need, again;
  TgSlot missing;
  gboolean open = tg_review_next_slot (review, NULL, FALSE, &missing);

  count_readings (review, &have, &need, &again);
  if (open && have == need)
    text = g_strdup_printf ("To be read again: %u", again);
  else if (open)
    text = g_strdup_printf ("Reading %u of %u", have + 1, need);
  else
    text = g_strdup_printf ("All %u readings are in", need);
  tg_words_show (GTK_LABEL (self->progress), text);
  refresh_finished (self, review, !open);
}

/* It takes some milliseconds: only while it is seen. */
static void
refresh_proof (TgWeighPage *self)
{
  const TgReview *review = tg_session_review (self->session);
  const TgPartReview *part = tg_review_part (review, self->slot.part);
  TgBand band = TG_BAND_PISTON;
  gboolean has_band = part->in_work && tg_band_of (part->design->kind, self->slot.figure, &band) &&
                      tg_setup_has_band (review->setup, band);

  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    tg_proof_line_show (TG_PROOF_LINE (self->proof), has_band ? self->session : NULL, band);
}

/* What lies on the scale, and how. */
static void
refresh_words (TgWeighPage *self, const TgReview *review)
{
  TgReadingOf what = tg_reading_entry_asks (TG_READING_ENTRY (self->entry));
  g_autofree char *of_part = tg_words_figure (review, self->slot);
  g_autofree char *place = tg_words_place (review, self->slot.part);
  g_autofree char *figure = g_strconcat (of_part, place[0] ? ", " : "", place, NULL);
  g_autofree char *how = tg_words_how_to_lay (review, self->slot);
  g_autofree char *nominal = tg_mass_format_exact (review->setup->check_weight);
  g_autofree char *weight = g_strdup_printf ("check weight, %s g", nominal);
  gboolean part = what == TG_READING_OF_PART, empty = what == TG_READING_OF_NOTHING;

  tg_words_show (GTK_LABEL (self->title),
                 part ? tg_review_part (review, self->slot.part)->part->name : "Scale");
  tg_words_show (GTK_LABEL (self->figure), part ? figure : empty ? "empty" : weight);
  tg_words_show (GTK_LABEL (self->how),
                 part    ? how
                 : empty ? "Nothing on the scale and nothing that touches it. Let it settle."
                         : "The check weight alone, in the middle of the pan. Let it settle.");
  gtk_widget_set_opacity (self->view, part ? 1 : 0.15);
  gtk_widget_set_visible (self->checks, part);
  tg_bench_panel_set_asked (TG_BENCH_PANEL (self->bench), what, self->slot);
}

static void
refresh (TgWeighPage *self)
{
  const TgReview *review = tg_session_review (self->session);
  const TgPartReview *part = tg_review_part (review, self->slot.part);

  tg_reading_entry_set_slot (TG_READING_ENTRY (self->entry), self->slot);
  refresh_words (self, review);
  tg_bench_view_show (TG_BENCH_VIEW (self->view), review, self->slot);
  tg_readings_table_set_slot (TG_READINGS_TABLE (self->table), self->slot);
  refresh_progress (self, review);
  tg_history_view_set_part (TG_HISTORY_VIEW (self->history), self->slot.part);
  /* before the first pass it would tell no more than the table */
  gtk_widget_set_visible (self->history, part->pass_history->len > 0 || part->pieces > 1);
  tg_finding_view_fill (GTK_BOX (self->findings), review, (int) self->slot.part);
  tg_finding_view_add_bench (GTK_BOX (self->findings), review);
  tg_scale_checks_show (TG_SCALE_CHECKS (self->checks), self->session);
  refresh_proof (self);
}

static void
on_asks (TgWeighPage *self)
{
  if (self->session)
    refresh_words (self, tg_session_review (self->session));
}

static void
on_map (TgWeighPage *self)
{
  if (self->session)
    refresh (self);
}

static void
go_to (TgWeighPage *self, TgSlot slot)
{
  self->slot = slot;
  tg_session_set_part (self->session, slot.part);
  refresh (self);
}

/* The first reading of the part that is missing, else its first figure. */
static TgSlot
slot_of_part (const TgReview *review, guint part)
{
  const TgPartReview *reviewed = tg_review_part (review, part);
  gboolean rod = reviewed->design->kind == TG_PART_ROD;
  TgSlot slot = { part, rod ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE,
                  rod ? TG_WAY_MARK_UP : TG_WAY_ANY };

  if (!rod)
    return slot;
  for (TgFigure figure = TG_FIGURE_SMALL_END; figure <= TG_FIGURE_BIG_END; figure++)
    for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
      if (reviewed->weight[figure].n[way] < review->setup->repeats)
        return (TgSlot){ part, figure, way };
  return slot;
}

static void
on_part (TgWeighPage *self)
{
  guint part = tg_session_part (self->session);

  if (part != self->slot.part)
    go_to (self, slot_of_part (tg_session_review (self->session), part));
}

static void
on_taken (TgWeighPage *self)
{
  const TgReview *review = tg_session_review (self->session);
  TgSlot slot;

  if (!tg_review_next_slot (review, &self->slot, FALSE, &slot) &&
      !tg_review_next_slot (review, &self->slot, TRUE, &slot))
    slot = tg_review_step_slot (review, self->slot, 1);
  go_to (self, slot);
  tg_reading_entry_focus (TG_READING_ENTRY (self->entry));
}

static void
step (TgWeighPage *self, int by)
{
  if (!self->session)
    return;
  go_to (self, tg_review_step_slot (tg_session_review (self->session), self->slot, by));
  tg_reading_entry_focus (TG_READING_ENTRY (self->entry));
}

static void
on_struck (TgWeighPage *self)
{
  tg_reading_entry_focus (TG_READING_ENTRY (self->entry));
}

static void
on_step_back (TgWeighPage *self)
{
  step (self, -1);
}

static void
on_step_on (TgWeighPage *self)
{
  step (self, 1);
}

/* Side by side the table scrolls on its own, below the field the page does. */
static void
on_shape (TgWeighPage *self)
{
  gboolean wide = tg_fold_shape (TG_FOLD (self->fold)) == TG_FOLD_WIDE;

  tg_scroll_column (self->side, wide);
  tg_readings_table_set_wrap (TG_READINGS_TABLE (self->table), !wide);
}

static void
on_cell_chosen (TgWeighPage *self, guint part, guint figure)
{
  const TgPartReview *reviewed = tg_review_part (tg_session_review (self->session), part);
  TgSlot slot = { part, (TgFigure) figure, TG_WAY_ANY };

  if (slot.figure != TG_FIGURE_WHOLE)
    slot.way = reviewed->weight[figure].n[TG_WAY_MARK_UP] >
                       reviewed->weight[figure].n[TG_WAY_MARK_DOWN]
                   ? TG_WAY_MARK_DOWN
                   : TG_WAY_MARK_UP;
  go_to (self, slot);
  tg_reading_entry_focus (TG_READING_ENTRY (self->entry));
}

static gboolean
on_key (G_GNUC_UNUSED GtkEventControllerKey *key,
        guint keyval,
        G_GNUC_UNUSED guint keycode,
        G_GNUC_UNUSED GdkModifierType state,
        TgWeighPage *self)
{
  if (keyval != GDK_KEY_Up && keyval != GDK_KEY_Down)
    return FALSE;
  step (self, keyval == GDK_KEY_Up ? -1 : 1);
  return TRUE;
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_weigh_page_dispose (GObject *object)
{
  tg_weigh_page_set_session (TG_WEIGH_PAGE (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_WEIGH_PAGE);
  G_OBJECT_CLASS (tg_weigh_page_parent_class)->dispose (object);
}

static void
tg_weigh_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_WEIGH_PAGE (object)->session);
  else if (id == PROP_LINK)
    g_object_get_property (G_OBJECT (TG_WEIGH_PAGE (object)->entry), "link", value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_weigh_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_weigh_page_set_session (TG_WEIGH_PAGE (object), g_value_get_object (value));
  else if (id == PROP_LINK)
    g_object_set_property (G_OBJECT (TG_WEIGH_PAGE (object)->entry), "link", value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, fold);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, side);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, progress);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, last);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, next);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, title);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, figure);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, how);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, view);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, bench);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, entry);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, finished);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, finished_text);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, grind);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, match);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, checks);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, findings);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, table);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, proof);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, history);
  gtk_widget_class_bind_template_child (widget_class, TgWeighPage, done);
  gtk_widget_class_bind_template_callback (widget_class, on_shape);
  gtk_widget_class_bind_template_callback (widget_class, on_taken);
  gtk_widget_class_bind_template_callback (widget_class, on_asks);
  gtk_widget_class_bind_template_callback (widget_class, on_struck);
  gtk_widget_class_bind_template_callback (widget_class, on_step_back);
  gtk_widget_class_bind_template_callback (widget_class, on_step_on);
  gtk_widget_class_bind_template_callback (widget_class, on_cell_chosen);
}

static void
tg_weigh_page_class_init (TgWeighPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_weigh_page_dispose;
  object_class->get_property = tg_weigh_page_get_property;
  object_class->set_property = tg_weigh_page_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_LINK] = g_param_spec_object ("link", NULL, NULL, TG_TYPE_SCALE_LINK,
                                               G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  g_type_ensure (TG_TYPE_BENCH_PANEL);
  g_type_ensure (TG_TYPE_BENCH_VIEW);
  g_type_ensure (TG_TYPE_DONE_LIST);
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_PROOF_LINE);
  g_type_ensure (TG_TYPE_HISTORY_VIEW);
  g_type_ensure (TG_TYPE_READING_ENTRY);
  g_type_ensure (TG_TYPE_READINGS_TABLE);
  g_type_ensure (TG_TYPE_SCALE_CHECKS);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/weigh-page.ui");
  bind_children (widget_class);
}

static void
tg_weigh_page_init (TgWeighPage *self)
{
  GtkEventController *key = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (self->entry, key);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
}

GtkWidget *
tg_weigh_page_new (void)
{
  return g_object_new (TG_TYPE_WEIGH_PAGE, NULL);
}

void
tg_weigh_page_set_session (TgWeighPage *page, TgSession *session)
{
  const TgReview *review;

  g_return_if_fail (TG_IS_WEIGH_PAGE (page));

  if (page->session == session)
    return;
  if (page->session)
    {
      g_clear_signal_handler (&page->changed, page->session);
      g_clear_signal_handler (&page->part_changed, page->session);
    }
  g_set_object (&page->session, session);
  if (!session)
    return;
  review = tg_session_review (session);
  tg_reading_entry_set_session (TG_READING_ENTRY (page->entry), session);
  tg_bench_panel_set_session (TG_BENCH_PANEL (page->bench), session);
  tg_readings_table_set_session (TG_READINGS_TABLE (page->table), session);
  tg_history_view_set_session (TG_HISTORY_VIEW (page->history), session);
  tg_done_list_set_session (TG_DONE_LIST (page->done), session);
  page->slot = review->next->kind == TG_NEXT_WEIGH
                   ? review->next->slot
                   : slot_of_part (review, tg_session_part (session));
  page->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), page);
  page->part_changed = g_signal_connect_swapped (session, "notify::part", G_CALLBACK (on_part),
                                                 page);
  refresh (page);
}

void
tg_weigh_page_focus (TgWeighPage *page)
{
  g_return_if_fail (TG_IS_WEIGH_PAGE (page));

  tg_reading_entry_focus (TG_READING_ENTRY (page->entry));
}

void
tg_weigh_page_set_slot (TgWeighPage *page, TgSlot slot)
{
  g_return_if_fail (TG_IS_WEIGH_PAGE (page));
  g_return_if_fail (page->session != NULL);

  go_to (page, slot);
}

void
tg_weigh_page_lead (TgWeighPage *page)
{
  TgSlot slot;

  g_return_if_fail (TG_IS_WEIGH_PAGE (page) && page->session != NULL);

  if (tg_review_next_slot (tg_session_review (page->session), NULL, FALSE, &slot))
    go_to (page, slot);
  tg_reading_entry_focus (TG_READING_ENTRY (page->entry));
}

void
tg_weigh_page_check (TgWeighPage *page, TgReadingOf what)
{
  g_return_if_fail (TG_IS_WEIGH_PAGE (page) && page->session != NULL);

  tg_reading_entry_ask (TG_READING_ENTRY (page->entry), what);
  tg_reading_entry_focus (TG_READING_ENTRY (page->entry));
}
