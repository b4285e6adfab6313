/* name-uuid.c: version 5 UUIDs, see name-uuid.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "name-uuid.h"

char *
tg_name_uuid (const guint8 space[16], const char *name, gsize length)
{
  g_autoptr (GChecksum) sha = g_checksum_new (G_CHECKSUM_SHA1);
  guint8 d[20];
  gsize size = sizeof d;

  g_checksum_update (sha, space, 16);
  g_checksum_update (sha, (const guchar *) name, (gssize) length);
  g_checksum_get_digest (sha, d, &size);
  d[6] = (guint8) ((d[6] & 0x0f) | 0x50); /* version 5 */
  d[8] = (guint8) ((d[8] & 0x3f) | 0x80); /* the variant of the RFC */
  return g_strdup_printf ("%02x%02x%02x%02x-%02x%02x-%02x%02x-%02x%02x-%02x%02x%02x%02x%02x%02x",
                          d[0], d[1], d[2], d[3], d[4], d[5], d[6], d[7], d[8], d[9], d[10], d[11],
                          d[12], d[13], d[14], d[15]);
}
