/* glossary-picture.h: a drawing with the spot of one term lit
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "glossary.h"

G_BEGIN_DECLS

#define TG_TYPE_GLOSSARY_PICTURE (tg_glossary_picture_get_type ())
G_DECLARE_FINAL_TYPE (TgGlossaryPicture, tg_glossary_picture, TG, GLOSSARY_PICTURE, GtkWidget)

/* TG_SPOT_NONE: the picture is hidden. */
void tg_glossary_picture_show (TgGlossaryPicture *picture, TgGlossarySpot spot);
TgGlossarySpot tg_glossary_picture_spot (TgGlossaryPicture *picture);

G_END_DECLS
