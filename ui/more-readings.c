/* more-readings.c: asking for more readings of each, so that a set can be proven
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A proof counts readings of a figure; the setup counts them for each way up.  It is one event of
 * the journal, so it can be struck out like every other.
 */
#include "more-readings.h"

guint
tg_more_readings_wanted (const TgReview *review, TgBand band, const TgProof *proof)
{
  guint ways = tg_band_kind (band) == TG_PART_ROD ? 2 : 1;
  guint repeats = MAX (proof->needed, proof->enough) / ways;

  return repeats > review->setup->repeats ? MIN (repeats, TG_SETUP_MAX_REPEATS) : 0;
}

char *
tg_more_readings_label (const TgReview *review, guint repeats)
{
  guint more = repeats - review->setup->repeats;

  return more == 1 ? g_strdup ("Read everything once more")
                   : g_strdup_printf ("Read everything %u more times", more);
}

void
tg_more_readings_ask (GtkWidget *from, TgSession *session, guint repeats)
{
  g_autofree char *value = g_strdup_printf ("%u", repeats);
  g_autoptr (GtkWidget) alive = g_object_ref (from);
  g_autoptr (GError) error = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = "repeats";
  event.value = value;
  if (tg_session_append (session, &event, 1, &error))
    gtk_widget_activate_action (alive, "win.weigh-on", NULL);
  else
    gtk_widget_activate_action (alive, "win.report-failure", "s", error->message);
}
