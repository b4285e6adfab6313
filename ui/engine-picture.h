/* engine-picture.h: the engine that the setup describes, drawn
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "review-picture.h"

G_BEGIN_DECLS

#define TG_TYPE_ENGINE_PICTURE (tg_engine_picture_get_type ())
G_DECLARE_FINAL_TYPE (TgEnginePicture, tg_engine_picture, TG, ENGINE_PICTURE, TgReviewPicture)

/* Property "session". */
GtkWidget *tg_engine_picture_new (void);

G_END_DECLS
