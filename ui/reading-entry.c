/* reading-entry.c: the field for the next reading
 *
 * Type, Enter, done.  What cannot be read or cannot be is refused, what is unlikely is asked; both
 * leave what was typed in the field, selected.  Enter on the same text again keeps a doubtful reading
 * and says so in the journal.  A reading that could not be saved also stays.
 *
 * In between it asks for the empty scale or for the check weight, and then again for what was due.
 *
 * A scale on a cable types here, too: what it sends goes the same way, but is never an answer to a
 * question, and what a person is typing is not written over.  It types in the field that is shown in
 * the window in front, and in no other.
 *
 * It does not decide what is weighed next; its page does, on "taken".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "reading-entry.h"

#include <string.h>

#include "reading-check.h"
#include "scale-words.h"
#include "why-button.h"
#include "words.h"

struct _TgReadingEntry
{
  GtkBox parent_instance;
  TgSession *session;
  TgScaleLink *link;
  TgSlot slot;
  TgReadingOf what;
  char *due;   /* what was typed for the part before something else was asked, or NULL */
  char *asked; /* the text that was asked about, or NULL */
  char *sent;  /* the text that the scale sent, or NULL */
  GtkWidget *label;
  GtkWidget *field;
  GtkWidget *set_back;
  GtkWidget *question;
  GtkWidget *message;
  GtkWidget *why;
  GtkWidget *hint;
  GtkWidget *taken;
  GtkWidget *scale;
};

enum
{
  PROP_SESSION = 1,
  PROP_LINK,
  N_PROPS
};

enum
{
  SIGNAL_TAKEN,
  SIGNAL_ASKS,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgReadingEntry, tg_reading_entry, GTK_TYPE_BOX)

static void
show_message (TgReadingEntry *self, const char *text, gboolean refused)
{
  tg_words_show (GTK_LABEL (self->message), text);
  gtk_widget_set_visible (self->question, text != NULL);
  gtk_widget_set_visible (self->message, text != NULL); /* so that an alert is announced */
  gtk_widget_set_visible (self->hint, text == NULL);
  if (refused)
    gtk_widget_add_css_class (self->question, "refused");
  else
    gtk_widget_remove_css_class (self->question, "refused");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->field), GTK_ACCESSIBLE_STATE_INVALID,
                               text ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

static void
clear_question (TgReadingEntry *self)
{
  tg_why_button_give (TG_WHY_BUTTON (self->why), "", NULL);
  g_clear_pointer (&self->asked, g_free);
  show_message (self, NULL, FALSE);
}

static void
refuse (TgReadingEntry *self, const char *why)
{
  show_message (self, why, TRUE);
  gtk_editable_select_region (GTK_EDITABLE (self->field), 0, -1);
}

static void
ask (TgReadingEntry *self, const char *text, const char *why)
{
  g_autofree char *question = g_strdup_printf ("%s Enter again keeps it, or type anew.", why);

  show_message (self, question, FALSE);
  g_free (self->asked);
  self->asked = g_strdup (text);
  gtk_editable_select_region (GTK_EDITABLE (self->field), 0, -1);
}

/* Far from the screen it has to be seen that something was taken, and what. */
static void
show_taken (TgReadingEntry *self, const char *slot, const char *text)
{
  g_autofree char *line = slot ? g_strdup_printf ("✓ %s: %s g", slot, text) : NULL;

  tg_words_show (GTK_LABEL (self->taken), line);
  gtk_widget_set_visible (self->taken, line != NULL);
}

static TgEvent
event_of (TgReadingEntry *self, TgMass mass, gboolean kept)
{
  const TgReview *review = tg_session_review (self->session);
  TgEvent event = tg_event_blank (self->what == TG_READING_OF_NOTHING  ? TG_EVENT_ZERO
                                  : self->what == TG_READING_OF_WEIGHT ? TG_EVENT_CHECK_WEIGHT
                                                                       : TG_EVENT_WEIGHING);

  event.part = tg_review_part (review, self->slot.part)->part->id;
  event.figure = self->slot.figure;
  event.way = self->slot.way;
  event.mass = mass;
  event.kept = kept;
  event.set_back = mass != 0 && gtk_check_button_get_active (GTK_CHECK_BUTTON (self->set_back));
  event.nominal = review->setup->check_weight;
  return tg_event_plain (&event);
}

/* (transfer full): what lies on the scale. */
static char *
words_of (TgReadingEntry *self)
{
  const TgReview *review = tg_session_review (self->session);

  return self->what == TG_READING_OF_NOTHING  ? g_strdup ("Empty scale")
         : self->what == TG_READING_OF_WEIGHT ? g_strdup ("Check weight")
                                              : tg_words_slot (review, self->slot);
}

static void
append (TgReadingEntry *self, const char *text, TgMass mass, gboolean kept)
{
  g_autofree char *words = words_of (self);
  TgEvent event = event_of (self, mass, kept);
  g_autoptr (GError) error = NULL;

  event.sent = self->sent && strcmp (self->sent, text) == 0;
  if (!tg_session_append (self->session, &event, 1, &error))
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->field), "");
  clear_question (self);
  if (event.kind == TG_EVENT_WEIGHING)
    g_signal_emit (self, signals[SIGNAL_TAKEN], 0);
  else
    tg_reading_entry_ask (self, TG_READING_OF_PART);
  show_taken (self, event.sent ? words : NULL, text);
}

/* Why @mass is refused or asked about. */
static void
show_why (TgReadingEntry *self, TgMass mass)
{
  const TgReview *review = tg_session_review (self->session);
  g_autofree char *words = words_of (self);
  g_autofree char *explains = g_strdup_printf ("%s: this reading is asked about", words);
  GPtrArray *why = self->what == TG_READING_OF_NOTHING  ? tg_reading_why_zero (review, mass)
                   : self->what == TG_READING_OF_WEIGHT ? tg_reading_why_weight (review, mass)
                                                        : tg_reading_why (review, self->slot, mass);

  if (why->len == 0)
    g_clear_pointer (&why, g_ptr_array_unref);
  tg_why_button_give (TG_WHY_BUTTON (self->why), explains, why);
}

/* What was read off the scale: refused, asked about, or taken over. */
static void
take (TgReadingEntry *self, const char *text, TgMass mass)
{
  const TgReview *review = tg_session_review (self->session);
  g_autofree char *why = NULL;
  gboolean again = self->asked && strcmp (self->asked, text) == 0;
  TgReadingVerdict verdict = self->what == TG_READING_OF_NOTHING
                                 ? tg_reading_check_zero (review, mass, &why)
                             : self->what == TG_READING_OF_WEIGHT
                                 ? tg_reading_check_weight (review, mass, &why)
                                 : tg_reading_check (review, self->slot, mass, &why);

  if (verdict == TG_READING_REFUSE || (verdict == TG_READING_ASK && !again))
    show_why (self, mass);
  if (verdict == TG_READING_REFUSE)
    refuse (self, why);
  else if (verdict == TG_READING_ASK && !again)
    ask (self, text, why);
  else
    append (self, text, mass, verdict == TG_READING_ASK);
}

static gboolean
parse (TgReadingEntry *self, const char *text, TgMass *mass, GError **error)
{
  return self->what == TG_READING_OF_NOTHING ? tg_mass_parse_signed (text, mass, error)
                                             : tg_mass_parse (text, mass, error);
}

static void
judge (TgReadingEntry *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->field)));
  g_autoptr (GError) error = NULL;
  TgMass mass;

  if (!self->session || g_strstrip (text)[0] == '\0')
    return;
  if (parse (self, text, &mass, &error))
    take (self, text, mass);
  else
    refuse (self, error->message);
}

/* A scale that shows 0 need not be set to zero. */
static void
refresh_set_back (TgReadingEntry *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->field));
  TgMass mass;

  gtk_widget_set_visible (self->set_back, self->what == TG_READING_OF_NOTHING);
  gtk_widget_set_sensitive (self->set_back, tg_mass_parse_signed (text, &mass, NULL) && mass != 0);
}

static void
on_typed (TgReadingEntry *self)
{
  g_clear_pointer (&self->sent, g_free);
  if (gtk_widget_get_visible (self->question))
    clear_question (self);
  refresh_set_back (self);
  if (gtk_editable_get_text (GTK_EDITABLE (self->field))[0] != '\0')
    show_taken (self, NULL, NULL);
}

static gboolean
on_key (GtkEventControllerKey *key,
        guint keyval,
        G_GNUC_UNUSED guint keycode,
        G_GNUC_UNUSED GdkModifierType state,
        G_GNUC_UNUSED gpointer data)
{
  GtkWidget *field = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (key));
  GtkWidget *entry = gtk_widget_get_ancestor (field, TG_TYPE_READING_ENTRY);

  if (keyval != GDK_KEY_Escape || TG_READING_ENTRY (entry)->what == TG_READING_OF_PART)
    return FALSE;
  tg_reading_entry_ask (TG_READING_ENTRY (entry), TG_READING_OF_PART);
  return TRUE;
}

/* --- the scale on a cable -------------------------------------------------------------------- */

static gboolean
is_in_front (TgReadingEntry *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkApplication *application = GTK_IS_WINDOW (root)
                                    ? gtk_window_get_application (GTK_WINDOW (root))
                                    : NULL;

  return gtk_widget_get_mapped (GTK_WIDGET (self)) &&
         (!application || gtk_application_get_active_window (application) == GTK_WINDOW (root));
}

/* Somebody is typing: there is text that was not judged yet. */
static gboolean
is_typed_in (TgReadingEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->field))[0] != '\0' &&
         !gtk_widget_get_visible (self->question);
}

gboolean
tg_reading_entry_offer (TgReadingEntry *entry, TgMass mass, gboolean sent)
{
  g_autofree char *text = NULL;

  g_return_val_if_fail (TG_IS_READING_ENTRY (entry), FALSE);

  /* a scale on a cable has nothing to say of parts that are not there */
  if (!entry->session || tg_session_desk (entry->session) || !is_in_front (entry) || is_typed_in (entry))
    return FALSE;
  text = tg_scale_words_figure (mass, tg_session_review (entry->session)->setup->resolution);
  gtk_editable_set_text (GTK_EDITABLE (entry->field), text);
  /* after that, since the text may be the same again */
  clear_question (entry);
  entry->sent = sent ? g_strdup (text) : NULL;
  judge (entry);
  return TRUE;
}

static gboolean
on_sent (TgReadingEntry *self, gint64 mass)
{
  return tg_reading_entry_offer (self, mass, TRUE);
}

static void
refresh_scale (TgReadingEntry *self)
{
  gboolean on = self->link && tg_scale_link_state (self->link) != TG_SCALE_LINK_OFF;
  g_autofree char *text = on ? tg_scale_words_standing (self->link) : NULL;

  gtk_widget_set_visible (self->scale, on);
  tg_words_show (GTK_LABEL (self->scale), text);
}

/* (transfer full): what the field asks for. */
static char *
question_of (TgReadingEntry *self)
{
  const TgReview *review = tg_session_review (self->session);
  g_autofree char *words = self->what == TG_READING_OF_WEIGHT
                               ? tg_mass_format_exact (review->setup->check_weight)
                               : tg_words_slot (review, self->slot);

  switch (self->what)
    {
    case TG_READING_OF_NOTHING:
      return g_strdup ("What does the empty scale show?");
    case TG_READING_OF_WEIGHT:
      return g_strdup_printf ("What does the check weight of %s g show?", words);
    case TG_READING_OF_PART:
    default:
      return g_strdup_printf ("Reading of %s", words);
    }
}

static void
refresh_label (TgReadingEntry *self)
{
  g_autofree char *text = NULL;

  if (!self->session)
    return;
  text = question_of (self);
  /* It is also the field's name: the template ties them. */
  tg_words_show (GTK_LABEL (self->label), text);
  gtk_label_set_text (GTK_LABEL (self->hint), self->what == TG_READING_OF_PART
                                                  ? "Enter takes it over · Ctrl+Z strikes it out"
                                                  : "Enter takes it over · Escape goes back");
}

/* The scale on a cable is empty: what it shows is there to be taken over. */
static void
fill_in_zero (TgReadingEntry *self)
{
  TgMass mass;
  g_autofree char *figure = NULL;
  g_autofree char *text = NULL;

  if (!self->link || !self->session ||
      tg_scale_link_load (self->link, &mass) != TG_SCALE_LOAD_EMPTY)
    return;
  figure = tg_scale_words_figure (ABS (mass), tg_session_review (self->session)->setup->resolution);
  text = g_strconcat (mass < 0 ? "−" : "", figure, NULL);
  gtk_editable_set_text (GTK_EDITABLE (self->field), text);
  self->sent = g_steal_pointer (&text);
  gtk_editable_select_region (GTK_EDITABLE (self->field), 0, -1);
}

void
tg_reading_entry_ask (TgReadingEntry *entry, TgReadingOf what)
{
  g_autofree char *due = NULL;

  g_return_if_fail (TG_IS_READING_ENTRY (entry));

  if (entry->what == what)
    return;
  if (entry->what == TG_READING_OF_PART)
    {
      g_free (entry->due);
      entry->due = g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry->field)));
    }
  entry->what = what;
  clear_question (entry);
  if (what == TG_READING_OF_PART)
    due = g_steal_pointer (&entry->due);
  gtk_editable_set_text (GTK_EDITABLE (entry->field), due ? due : "");
  if (what == TG_READING_OF_NOTHING)
    fill_in_zero (entry);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (entry->set_back), TRUE);
  refresh_set_back (entry);
  refresh_label (entry);
  g_signal_emit (entry, signals[SIGNAL_ASKS], 0);
}

TgReadingOf
tg_reading_entry_asks (TgReadingEntry *entry)
{
  g_return_val_if_fail (TG_IS_READING_ENTRY (entry), TG_READING_OF_PART);

  return entry->what;
}

static void
tg_reading_entry_dispose (GObject *object)
{
  TgReadingEntry *self = TG_READING_ENTRY (object);

  tg_reading_entry_set_link (self, NULL);
  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_READING_ENTRY);
  G_OBJECT_CLASS (tg_reading_entry_parent_class)->dispose (object);
}

static void
tg_reading_entry_finalize (GObject *object)
{
  g_free (TG_READING_ENTRY (object)->asked);
  g_free (TG_READING_ENTRY (object)->due);
  g_free (TG_READING_ENTRY (object)->sent);
  G_OBJECT_CLASS (tg_reading_entry_parent_class)->finalize (object);
}

static void
tg_reading_entry_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_READING_ENTRY (object)->session);
  else if (id == PROP_LINK)
    g_value_set_object (value, TG_READING_ENTRY (object)->link);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_reading_entry_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_reading_entry_set_session (TG_READING_ENTRY (object), g_value_get_object (value));
  else if (id == PROP_LINK)
    tg_reading_entry_set_link (TG_READING_ENTRY (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_reading_entry_class_init (TgReadingEntryClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_reading_entry_dispose;
  object_class->finalize = tg_reading_entry_finalize;
  object_class->get_property = tg_reading_entry_get_property;
  object_class->set_property = tg_reading_entry_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_LINK] = g_param_spec_object ("link", NULL, NULL, TG_TYPE_SCALE_LINK,
                                               G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[SIGNAL_TAKEN] = g_signal_new ("taken", TG_TYPE_READING_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_ASKS] = g_signal_new ("asks", TG_TYPE_READING_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL,
                                       NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/reading-entry.ui");
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, label);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, field);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, set_back);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, question);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, message);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, why);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, hint);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, taken);
  gtk_widget_class_bind_template_child (widget_class, TgReadingEntry, scale);
  gtk_widget_class_bind_template_callback (widget_class, judge);
  gtk_widget_class_bind_template_callback (widget_class, on_key);
  gtk_widget_class_bind_template_callback (widget_class, on_typed);
}

static void
tg_reading_entry_init (TgReadingEntry *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_reading_entry_new (void)
{
  return g_object_new (TG_TYPE_READING_ENTRY, NULL);
}

void
tg_reading_entry_set_session (TgReadingEntry *entry, TgSession *session)
{
  g_return_if_fail (TG_IS_READING_ENTRY (entry));

  if (g_set_object (&entry->session, session) && session)
    {
      tg_reading_entry_ask (entry, TG_READING_OF_PART);
      gtk_editable_set_text (GTK_EDITABLE (entry->field), "");
      entry->slot = (TgSlot){ 0 };
    }
}

void
tg_reading_entry_set_link (TgReadingEntry *entry, TgScaleLink *link)
{
  g_return_if_fail (TG_IS_READING_ENTRY (entry));

  if (entry->link == link)
    return;
  if (entry->link)
    g_signal_handlers_disconnect_by_data (entry->link, entry);
  g_set_object (&entry->link, link);
  if (!link)
    return;
  g_signal_connect_swapped (link, "reading", G_CALLBACK (on_sent), entry);
  g_signal_connect_swapped (link, "changed", G_CALLBACK (refresh_scale), entry);
  refresh_scale (entry);
}

static gboolean
slots_equal (TgSlot a, TgSlot b)
{
  return a.part == b.part && a.figure == b.figure && a.way == b.way;
}

void
tg_reading_entry_set_slot (TgReadingEntry *entry, TgSlot slot)
{
  g_return_if_fail (TG_IS_READING_ENTRY (entry));

  if (!slots_equal (slot, entry->slot))
    {
      tg_reading_entry_ask (entry, TG_READING_OF_PART);
      clear_question (entry);
    }
  entry->slot = slot;
  refresh_label (entry);
}

TgSlot
tg_reading_entry_slot (TgReadingEntry *entry)
{
  g_return_val_if_fail (TG_IS_READING_ENTRY (entry), ((TgSlot){ 0 }));

  return entry->slot;
}

void
tg_reading_entry_focus (TgReadingEntry *entry)
{
  g_return_if_fail (TG_IS_READING_ENTRY (entry));

  gtk_widget_grab_focus (entry->field);
}
