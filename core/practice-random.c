/* practice-random.c: chance that follows from words, see practice-random.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice-random.h"

#include <string.h>

static void
digest (const char *seed, const char *what, guint64 n, guint32 block, guint8 out[32])
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  guint64 number = GUINT64_TO_BE (n);
  guint32 which = GUINT32_TO_BE (block);
  gsize size = 32;

  /* the end of each text counts, so that "ab" + "c" is not "a" + "bc" */
  g_checksum_update (sum, (const guchar *) seed, (gssize) strlen (seed) + 1);
  g_checksum_update (sum, (const guchar *) what, (gssize) strlen (what) + 1);
  g_checksum_update (sum, (const guchar *) &number, sizeof number);
  g_checksum_update (sum, (const guchar *) &which, sizeof which);
  g_checksum_get_digest (sum, out, &size);
}

/* The @i-th of the four numbers of a digest. */
static double
unit (const guint8 *bytes, guint i)
{
  guint64 number;

  memcpy (&number, bytes + 8 * i, sizeof number);
  return (double) (GUINT64_FROM_BE (number) >> 11) * 0x1p-53;
}

double
tg_practice_uniform (const char *seed, const char *what, guint64 n)
{
  guint8 bytes[32];

  g_return_val_if_fail (seed && what, 0);

  digest (seed, what, n, 0, bytes);
  return unit (bytes, 0);
}

double
tg_practice_normal (const char *seed, const char *what, guint64 n)
{
  double sum = -6;

  g_return_val_if_fail (seed && what, 0);

  for (guint32 block = 1; block <= 3; block++)
    {
      guint8 bytes[32];

      digest (seed, what, n, block, bytes);
      for (guint i = 0; i < 4; i++)
        sum += unit (bytes, i);
    }
  return sum;
}
