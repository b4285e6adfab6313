/* setup-places.c: which part sits where, and what is carried in which sum, see setup.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "error.h"
#include "setup.h"
#include "storable.h"

const TgPart *
tg_setup_at_bore (const TgSetup *setup, TgPartKind kind, guint bore)
{
  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);

      if (part->design->kind == kind && part->bore == bore)
        return part;
    }
  return NULL;
}

static gboolean
carried_with_pistons (const TgSetup *setup, TgPartKind kind)
{
  if (kind == TG_PART_ROD)
    return setup->small_ends != TG_SMALL_ENDS_APART && tg_setup_has_kind (setup, TG_PART_ROD);
  return kind != TG_PART_BEARINGS && !setup->left_out[kind] && tg_setup_has_kind (setup, kind);
}

gboolean
tg_setup_in_sum (const TgSetup *setup, TgPartKind kind)
{
  static const TgPartKind with_pistons[] = { TG_PART_ROD, TG_PART_PIN, TG_PART_RINGS,
                                             TG_PART_CLIPS };

  if (kind == TG_PART_BEARINGS)
    return !setup->left_out[kind] && tg_setup_has_kind (setup, kind) &&
           tg_setup_has_kind (setup, TG_PART_ROD);
  if (!tg_setup_has_kind (setup, TG_PART_PISTON))
    return FALSE;
  if (kind != TG_PART_PISTON)
    return carried_with_pistons (setup, kind);
  for (guint i = 0; i < G_N_ELEMENTS (with_pistons); i++)
    if (carried_with_pistons (setup, with_pistons[i]))
      return TRUE;
  return FALSE;
}

TgMass
tg_setup_tolerance (const TgSetup *setup, TgBand band)
{
  return band == TG_BAND_PISTON_ALONE && setup->tolerance[band] == 0
             ? setup->tolerance[TG_BAND_PISTON]
             : setup->tolerance[band];
}

gboolean
tg_setup_has_band (const TgSetup *setup, TgBand band)
{
  if (!tg_setup_has_kind (setup, tg_band_kind (band)))
    return FALSE;
  if (band == TG_BAND_PISTON_ALONE)
    return setup->pistons_alone && tg_setup_in_sum (setup, TG_PART_PISTON);
  return band != TG_BAND_ROD_SMALL || setup->small_ends != TG_SMALL_ENDS_SUM ||
         !tg_setup_has_kind (setup, TG_PART_PISTON);
}

void
tg_setup_crankpin (const TgSetup *setup, guint pin, guint bores[2])
{
  gboolean banks = setup->sharing == TG_SHARING_BANKS;

  g_return_if_fail (setup->sharing != TG_SHARING_OWN && pin < setup->cylinders / 2);

  bores[0] = banks ? pin + 1 : 2 * pin + 1;
  bores[1] = banks ? pin + 1 + setup->cylinders / 2 : 2 * pin + 2;
}

const char *
tg_setup_band_label (const TgSetup *setup, TgBand band)
{
  if (band == TG_BAND_PISTON && tg_setup_in_sum (setup, TG_PART_PISTON))
    return "piston sets";
  if (band == TG_BAND_ROD_BIG && tg_setup_in_sum (setup, TG_PART_BEARINGS))
    return "big ends with bearings";
  return tg_band_label (band);
}

/* Without blanks, colons and all that XML has to write longer. */
static char *
escape_id (const char *id)
{
  return g_uri_escape_string (id, NULL, TRUE);
}

char *
tg_setup_places (const TgSetup *setup, guint kinds)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);
      g_autofree char *id = escape_id (part->id);

      if (kinds & 1u << part->design->kind)
        g_string_append_printf (out, "%s%s:%u", out->len > 0 ? " " : "", id, part->bore);
    }
  return g_string_free (out, FALSE);
}

/* Index + 1 by the id of the part as it stands in a list of places. */
static GHashTable *
index_parts (const TgSetup *setup)
{
  GHashTable *index_of = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < setup->parts->len; i++)
    g_hash_table_insert (index_of, escape_id (tg_setup_part (setup, i)->id),
                         GUINT_TO_POINTER (i + 1));
  return index_of;
}

/* One "part:bore" of a list of places. */
static gboolean
read_place (const TgSetup *setup,
            GHashTable *index_of,
            const char *place,
            guint *index,
            guint *bore,
            GError **error)
{
  const char *colon = strrchr (place, ':');
  g_autofree char *id = colon ? g_strndup (place, (gsize) (colon - place)) : NULL;
  g_autofree char *shown = tg_storable_shorten (id ? id : place);
  guint64 read;

  if (!colon || !g_ascii_string_to_unsigned (colon + 1, 10, 0, 999, &read, NULL))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” is not a part and its bore", shown);
      return FALSE;
    }
  *index = GPOINTER_TO_UINT (g_hash_table_lookup (index_of, id)) - 1;
  if (*index >= setup->parts->len)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_UNKNOWN, "this job has no part “%s”", shown);
      return FALSE;
    }
  *bore = (guint) read;
  if (*bore <= setup->cylinders)
    return TRUE;
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "part “%s” at bore %u of %u cylinders", shown,
               *bore, setup->cylinders);
  return FALSE;
}

/* Every part of a kind that is named has a place, and no bore has two of a kind. */
static gboolean
check_places (const TgSetup *setup, const int *bore_of, GError **error)
{
  gboolean named[TG_N_PART_KINDS] = { FALSE };
  int taken[TG_N_PART_KINDS][TG_MAX_CYLINDERS + 1] = { { 0 } };

  for (guint i = 0; i < setup->parts->len; i++)
    named[tg_setup_part (setup, i)->design->kind] |= bore_of[i] >= 0;
  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);

      if (named[part->design->kind] && bore_of[i] < 0)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "it leaves out part “%s”", part->id);
          return FALSE;
        }
      if (bore_of[i] > 0 && taken[part->design->kind][bore_of[i]]++)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "two %s at bore %d",
                       tg_part_kind_plural (part->design->kind), bore_of[i]);
          return FALSE;
        }
    }
  return TRUE;
}

/* Bore by part, -1 where nothing is said. */
static gboolean
read_places (const TgSetup *setup, const char *places, int *bore_of, GError **error)
{
  g_auto (GStrv) list = g_strsplit (places, " ", TG_MAX_PARTS + 1);
  g_autoptr (GHashTable) index_of = index_parts (setup);

  for (guint i = 0; i < setup->parts->len; i++)
    bore_of[i] = -1;
  if (!list[0])
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_SYNTAX, "it places nothing");
      return FALSE;
    }
  for (guint i = 0; list[i]; i++)
    {
      guint index, bore;

      if (!read_place (setup, index_of, list[i], &index, &bore, error))
        return FALSE;
      if (bore_of[index] >= 0)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "it places part “%s” twice",
                       tg_setup_part (setup, index)->id);
          return FALSE;
        }
      bore_of[index] = (int) bore;
    }
  return check_places (setup, bore_of, error);
}

gboolean
tg_setup_check_places (const TgSetup *setup, const char *places, GError **error)
{
  int bore_of[TG_MAX_PARTS];

  g_return_val_if_fail (setup->parts->len <= TG_MAX_PARTS && places != NULL, FALSE);

  return read_places (setup, places, bore_of, error);
}

gboolean
tg_setup_place (TgSetup *setup, const char *places, GError **error)
{
  int bore_of[TG_MAX_PARTS];

  g_return_val_if_fail (setup->parts->len <= TG_MAX_PARTS && places != NULL, FALSE);

  if (!read_places (setup, places, bore_of, error))
    return FALSE;
  for (guint i = 0; i < setup->parts->len; i++)
    if (bore_of[i] >= 0)
      tg_setup_part (setup, i)->bore = (guint) bore_of[i];
  return TRUE;
}

guint
tg_setup_places_kinds (const TgSetup *setup, const char *places)
{
  int bore_of[TG_MAX_PARTS];
  guint kinds = 0;

  g_return_val_if_fail (setup->parts->len <= TG_MAX_PARTS && places != NULL, 0);

  if (!read_places (setup, places, bore_of, NULL))
    return 0;
  for (guint i = 0; i < setup->parts->len; i++)
    if (bore_of[i] >= 0)
      kinds |= 1u << tg_setup_part (setup, i)->design->kind;
  return kinds;
}
