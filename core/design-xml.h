/* design-xml.h: part designs in job files and in the library
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

#include "design.h"
#include "xml.h"

G_BEGIN_DECLS

/* TRUE if @node is a rod-design, a piston-design or a plain-design. */
gboolean tg_design_xml_is (const xmlNode *node);

/* (transfer full) (nullable): a design that passes tg_design_check(). */
TgDesign *tg_design_xml_read (xmlNode *node, const char *file, GError **error);

/* Appends the element, indented by four blanks, one zone a line. */
void tg_design_xml_append (GString *out, const TgDesign *design);

G_END_DECLS
