/* matching-table.c: what was left when there was no pairing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Many ways lead to the same parts left.  Those that were searched in vain are stored with what might
 * still have been spent, so that they are not searched again with as much or less.  The table begins
 * small, because most problems need none, and grows up to a limit; then new entries take the place of
 * older ones, which costs time and is never wrong.
 */
#include "matching-private.h"

#include <string.h>

#define FIRST_BITS 10
#define MOST_BITS 18
#define BUCKET 4

typedef struct
{
  TgMatchingLeft what;
  guint32 age;
} Entry;

struct _TgMatchingTable
{
  guint32 age;
  guint bits;
  gsize added;
  Entry *entries; /* NULL: nothing was added yet */
};

TgMatchingTable *
tg_matching_table_new (void)
{
  TgMatchingTable *table = g_new0 (TgMatchingTable, 1);

  table->age = 1;
  return table;
}

void
tg_matching_table_free (TgMatchingTable *table)
{
  g_free (table->entries);
  g_free (table);
}

static Entry *
bucket_of (const TgMatchingTable *table, const guint64 *left)
{
  guint64 hash = 0;

  for (guint f = 0; f < K; f++)
    {
      hash = (hash ^ left[f]) * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
      hash ^= hash >> 29;
    }
  hash *= G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  return &table->entries[hash >> (64 - table->bits)];
}

static gboolean
same_parts (const TgMatchingLeft *a, const TgMatchingLeft *b)
{
  return a->m == b->m && a->cylinders == b->cylinders &&
         memcmp (a->left, b->left, sizeof a->left) == 0;
}

gboolean
tg_matching_table_has (const TgMatchingTable *table, const TgMatchingLeft *left)
{
  const Entry *entry;

  if (table->entries == NULL)
    return FALSE;
  entry = bucket_of (table, left->left);
  for (guint i = 0; i < BUCKET; i++, entry++)
    if (entry->age == table->age && same_parts (&entry->what, left) &&
        entry->what.removal >= left->removal && entry->what.touched >= left->touched &&
        entry->what.changes >= left->changes)
      return TRUE;
  return FALSE;
}

static void
insert (TgMatchingTable *table, const TgMatchingLeft *left)
{
  Entry *first = bucket_of (table, left->left), *entry = NULL;

  for (guint i = 0; i < BUCKET && entry == NULL; i++)
    if (first[i].age != table->age || same_parts (&first[i].what, left))
      entry = &first[i];
  if (entry == NULL)
    entry = &first[(left->left[0] ^ left->left[1]) % BUCKET];
  entry->what = *left;
  entry->age = table->age;
  table->added++;
}

static void
grow (TgMatchingTable *table)
{
  g_autofree Entry *old = table->entries;
  gsize n = old != NULL ? ((gsize) 1 << table->bits) + BUCKET : 0;

  table->bits = old != NULL ? table->bits + 2 : FIRST_BITS;
  table->entries = g_new0 (Entry, ((gsize) 1 << table->bits) + BUCKET);
  table->added = 0;
  for (gsize i = 0; i < n; i++)
    if (old[i].age == table->age)
      insert (table, &old[i].what);
}

void
tg_matching_table_add (TgMatchingTable *table, const TgMatchingLeft *left)
{
  if (table->entries == NULL || (table->bits < MOST_BITS && table->added >> table->bits > 0))
    grow (table);
  insert (table, left);
}

void
tg_matching_table_forget (TgMatchingTable *table)
{
  table->age++;
  table->added = 0;
}
