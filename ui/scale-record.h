/* scale-record.h: what is known of the scale: itself, its checks, what it can prove
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SCALE_RECORD (tg_scale_record_get_type ())
G_DECLARE_FINAL_TYPE (TgScaleRecord, tg_scale_record, TG, SCALE_RECORD, GtkBox)

/* Property "session": TgSession, nullable */
GtkWidget *tg_scale_record_new (void);

void tg_scale_record_set_session (TgScaleRecord *record, TgSession *session);

/* Puts the keyboard into the field that is wanted, the first unless something else was said. */
gboolean tg_scale_record_focus (TgScaleRecord *record);

/* Of the value at @path, the next time. */
void tg_scale_record_want_field (TgScaleRecord *record, const char *path);

G_END_DECLS
