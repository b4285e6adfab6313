/* more-readings.h: asking for more readings of each, so that a set can be proven
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

/**
 * tg_more_readings_wanted:
 *
 * Returns: readings of each figure and way up with which the band of @proof can be, or is, proven;
 *   0 if the job asks for as many already, or if no number of them does.
 */
guint tg_more_readings_wanted (const TgReview *review, TgBand band, const TgProof *proof);

/* (transfer full): on a button: "Read everything 2 more times" */
char *tg_more_readings_label (const TgReview *review, guint repeats);

/* Sets the readings of each of the job and goes to the first that is missing then. */
void tg_more_readings_ask (GtkWidget *from, TgSession *session, guint repeats);

G_END_DECLS
