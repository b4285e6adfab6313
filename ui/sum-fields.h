/* sum-fields.h: what counts in the sums of a running job
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SUM_FIELDS (tg_sum_fields_get_type ())
G_DECLARE_FINAL_TYPE (TgSumFields, tg_sum_fields, TG, SUM_FIELDS, GtkBox)

/* TRUE if there is anything to choose in such a job. */
gboolean tg_sum_fields_apply (const TgSetup *setup);

GtkWidget *tg_sum_fields_new (TgSession *session);

G_END_DECLS
