/* debrief-page.c: how a practice job was done
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Before the set is done it only says that what is true stays hidden, and offers to end the practice.
 * Nothing is computed while the page is not seen.
 */
#include "debrief-page.h"

#include "clamp.h"
#include "columns.h"
#include "debrief-line-view.h"
#include "fold.h"
#include "words.h"

/* Lines of a topic that are shown at once. */
#define MANY 12

struct _TgDebriefPage
{
  GtkBox parent_instance;
  GtkWidget *scroller;
  GtkWidget *about;
  GtkWidget *locked;
  GtkWidget *end;
  GtkWidget *sure;
  GtkWidget *work_on;
  GtkWidget *end_it;
  GtkWidget *problem;
  GtkWidget *summary;
  GtkWidget *lines;
  TgSession *session;
  TgDebrief *debrief;
  gboolean fresh; /* what is shown is that of the job as it is */
};

enum
{
  PROP_0,
  PROP_SESSION,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgDebriefPage, tg_debrief_page, GTK_TYPE_BOX)

GtkWidget *
tg_debrief_page_new (void)
{
  return g_object_new (TG_TYPE_DEBRIEF_PAGE, NULL);
}

static void
clear_children (GtkWidget *widget)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (widget)))
    gtk_widget_unparent (child);
}

/* -- summary ----------------------------------------------------------------------------------------- */

/* Takes @figure. */
static void
add_figure (TgDebriefPage *self, const char *name, char *figure, const char *against)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *labels[] = { gtk_label_new (name), gtk_label_new (figure), gtk_label_new (against) };
  static const char *const classes[] = { "quiet", "figure", "small" };

  for (guint i = 0; i < G_N_ELEMENTS (labels); i++)
    {
      gtk_label_set_xalign (GTK_LABEL (labels[i]), 0);
      gtk_label_set_wrap (GTK_LABEL (labels[i]), TRUE);
      gtk_widget_add_css_class (labels[i], classes[i]);
      gtk_box_append (GTK_BOX (box), labels[i]);
    }
  gtk_widget_add_css_class (box, "card");
  tg_columns_append (TG_COLUMNS (self->summary), box);
  g_free (figure);
}

/* The band that is farthest out, by its tolerance. */
static TgBand
worst_band (const TgDebrief *debrief)
{
  TgBand worst = TG_BAND_ROD_SMALL;
  double most = -1;

  for (TgBand band = 0; band < TG_N_BANDS; band++)
    {
      const TgDebriefBand *this = &debrief->bands[band];

      if (!this->present || this->true_g / this->tolerance_g <= most)
        continue;
      most = this->true_g / this->tolerance_g;
      worst = band;
    }
  return worst;
}

static void
add_spread (TgDebriefPage *self, const TgSetup *setup)
{
  TgBand worst = worst_band (self->debrief);
  const TgDebriefBand *band = &self->debrief->bands[worst];
  g_autofree char *grams = tg_debrief_grams (setup, band->true_g);
  g_autofree char *tolerance = tg_mass_format_exact (tg_mass_from_g (band->tolerance_g));
  g_autofree char *against = g_strdup_printf ("%s; %s g is permitted",
                                              tg_setup_band_label (setup, worst), tolerance);

  add_figure (self, self->debrief->even ? "Widest true spread" : "Not even: true spread",
              g_strdup_printf ("%s g", grams), against);
}

static void
add_metal (TgDebriefPage *self, const TgSetup *setup)
{
  const TgDebriefMetal *metal = &self->debrief->metal;
  g_autofree char *removed = tg_debrief_grams (setup, metal->removed_g);
  g_autofree char *best = tg_debrief_grams (setup, metal->known ? metal->best_g : 0);
  g_autofree char *against = metal->known ? g_strdup_printf ("least possible %s g", best)
                                          : g_strdup ("grinding alone cannot make it even");

  add_figure (self, "Metal", g_strdup_printf ("%s g", removed), against);
}

static void
show_summary (TgDebriefPage *self)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;
  const TgDebrief *debrief = self->debrief;
  g_autofree char *careful = g_strdup_printf ("a careful worker: up to %u",
                                              debrief->passes_careful);
  g_autofree char *together = tg_debrief_time_words (debrief->pauses_s);
  g_autofree char *pauses = debrief->pauses_s > 0
                                ? g_strdup_printf ("pauses left out, %s", together)
                                : g_strdup ("no pauses");

  clear_children (self->summary);
  add_spread (self, setup);
  add_metal (self, setup);
  add_figure (self, "Passes", g_strdup_printf ("%u", debrief->passes), careful);
  add_figure (self, "Time", tg_debrief_time_words (debrief->work_s), pauses);
}

/* -- lines ------------------------------------------------------------------------------------------- */

static const TgDebriefLine *
line_at (TgDebriefPage *self, guint i)
{
  return g_ptr_array_index (self->debrief->lines, i);
}

static guint
end_of_topic (TgDebriefPage *self, guint first)
{
  guint i = first;

  while (i < self->debrief->lines->len && line_at (self, i)->topic == line_at (self, first)->topic)
    i++;
  return i;
}

static void
add_cards (TgDebriefPage *self, GtkWidget *box, guint from, guint to)
{
  for (guint i = from; i < to; i++)
    gtk_box_append (GTK_BOX (box), tg_debrief_line_view_new (line_at (self, i), TRUE));
}

static void
on_more (GtkWidget *button, TgDebriefPage *self)
{
  GtkWidget *box = gtk_widget_get_parent (button);
  guint first = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "first"));

  gtk_box_remove (GTK_BOX (box), button);
  add_cards (self, box, first, end_of_topic (self, first));
}

static void
add_more_button (TgDebriefPage *self, GtkWidget *box, guint first, guint n)
{
  g_autofree char *label = g_strdup_printf ("Show %u more", n);
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (button), "first", GUINT_TO_POINTER (first));
  g_signal_connect_object (button, "clicked", G_CALLBACK (on_more), self, 0);
  gtk_box_append (GTK_BOX (box), button);
}

static void
show_lines (TgDebriefPage *self)
{
  clear_children (self->lines);
  for (guint i = 0, end; i < self->debrief->lines->len; i = end)
    {
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
      GtkWidget *head = gtk_label_new (tg_debrief_topic_label (line_at (self, i)->topic));
      guint shown;

      end = end_of_topic (self, i);
      shown = MIN (end, i + MANY);
      gtk_label_set_xalign (GTK_LABEL (head), 0);
      gtk_label_set_wrap (GTK_LABEL (head), TRUE);
      gtk_widget_add_css_class (head, "debrief-topic");
      gtk_box_append (GTK_BOX (box), head);
      add_cards (self, box, i, shown);
      if (shown < end)
        add_more_button (self, box, shown, end - shown);
      gtk_box_append (GTK_BOX (self->lines), box);
    }
}

/* -- refreshing --------------------------------------------------------------------------------------- */

static gboolean
is_practice (TgDebriefPage *self)
{
  return self->session && tg_job_setup (tg_session_job (self->session))->practice.on;
}

static void
show_about (TgDebriefPage *self)
{
  const TgPractice *practice;
  g_autofree char *text = NULL;

  if (!is_practice (self))
    {
      gtk_label_set_text (GTK_LABEL (self->about),
                          "This job has real parts: nobody knows what they weigh truly.");
      return;
    }
  practice = &tg_job_setup (tg_session_job (self->session))->practice;
  text = g_strdup_printf ("%s%sBench “%s”", practice->lesson, practice->lesson[0] ? " · " : "",
                          practice->seed);
  gtk_label_set_text (GTK_LABEL (self->about), text);
}

static void
refresh (TgDebriefPage *self)
{
  gboolean open = is_practice (self) && tg_debrief_is_open (tg_session_job (self->session),
                                                            tg_session_review (self->session));

  self->fresh = TRUE;
  g_clear_pointer (&self->debrief, tg_debrief_free);
  show_about (self);
  gtk_widget_set_visible (self->locked, is_practice (self) && !open);
  gtk_widget_set_visible (self->summary, open);
  gtk_widget_set_visible (self->lines, open);
  gtk_widget_set_visible (self->end, TRUE);
  gtk_widget_set_visible (self->sure, FALSE);
  gtk_widget_set_visible (self->problem, FALSE);
  clear_children (self->lines);
  clear_children (self->summary);
  if (!open)
    return;
  self->debrief = tg_debrief_new (tg_session_job (self->session));
  show_summary (self);
  show_lines (self);
}

static void
on_changed (TgDebriefPage *self)
{
  self->fresh = FALSE;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    refresh (self);
}

static void
tg_debrief_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (tg_debrief_page_parent_class)->map (widget);
  if (!TG_DEBRIEF_PAGE (widget)->fresh)
    refresh (TG_DEBRIEF_PAGE (widget));
}

/* -- ending the practice --------------------------------------------------------------------------------- */

static void
on_end (TgDebriefPage *self)
{
  gtk_widget_set_visible (self->end, FALSE);
  gtk_widget_set_visible (self->sure, TRUE);
  gtk_widget_grab_focus (self->work_on);
}

static void
on_work_on (TgDebriefPage *self)
{
  gtk_widget_set_visible (self->sure, FALSE);
  gtk_widget_set_visible (self->end, TRUE);
  gtk_widget_grab_focus (self->end);
}

static void
on_end_it (TgDebriefPage *self)
{
  TgEvent end = tg_event_blank (TG_EVENT_NOTE);
  g_autoptr (GError) error = NULL;

  end.id = TG_DEBRIEF_END_ID;
  end.text = "Practice ended before the set was done; what is true has been seen.";
  if (tg_session_append (self->session, &end, 1, &error))
    return;
  gtk_label_set_text (GTK_LABEL (self->problem), error->message);
  gtk_widget_set_visible (self->problem, TRUE);
}

/* -- the object -------------------------------------------------------------------------------------------- */

static void
set_session (TgDebriefPage *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_object (session, "changed", G_CALLBACK (on_changed), self, G_CONNECT_SWAPPED);
  on_changed (self);
}

static void
tg_debrief_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_DEBRIEF_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_debrief_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_DEBRIEF_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_debrief_page_dispose (GObject *object)
{
  TgDebriefPage *self = TG_DEBRIEF_PAGE (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_DEBRIEF_PAGE);
  g_clear_pointer (&self->debrief, tg_debrief_free);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tg_debrief_page_parent_class)->dispose (object);
}

static void
tg_debrief_page_class_init (TgDebriefPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_FOLD);
  object_class->get_property = tg_debrief_page_get_property;
  object_class->set_property = tg_debrief_page_set_property;
  object_class->dispose = tg_debrief_page_dispose;
  widget_class->map = tg_debrief_page_map;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/debrief-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, about);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, locked);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, end);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, sure);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, work_on);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, end_it);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, problem);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, summary);
  gtk_widget_class_bind_template_child (widget_class, TgDebriefPage, lines);
  gtk_widget_class_bind_template_callback (widget_class, on_end);
  gtk_widget_class_bind_template_callback (widget_class, on_work_on);
  gtk_widget_class_bind_template_callback (widget_class, on_end_it);
}

static void
tg_debrief_page_init (TgDebriefPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
