/* name-uuid.h: an identifier that follows from a name
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Source: RFC 4122 (and RFC 9562), UUID version 5: SHA-1 of a namespace and a name.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * tg_name_uuid:
 * @space: the namespace, 16 bytes in network order
 * @name: any bytes
 * @length: how many
 *
 * Returns: (transfer full): 36 characters, the same for the same name everywhere.
 */
char *tg_name_uuid (const guint8 space[16], const char *name, gsize length);

G_END_DECLS
