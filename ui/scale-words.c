/* scale-words.c: what there is to say about the scale on a cable, see scale-words.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scale-words.h"

char *
tg_scale_words_figure (TgMass mass, TgMass step)
{
  guint decimals = tg_mass_decimals (step);
  TgMass unit = 1;

  for (guint i = decimals; i < 3; i++)
    unit *= 10;
  while (mass % unit != 0)
    {
      unit /= 10;
      decimals++;
    }
  return tg_mass_format (mass, decimals);
}

char *
tg_scale_words_load (TgScaleLink *link)
{
  g_autofree char *typed = NULL;
  TgMass mass;

  if (tg_scale_link_load (link, &mass) == TG_SCALE_LOAD_UNKNOWN)
    return NULL;
  typed = tg_scale_words_figure (ABS (mass), tg_scale_link_step (link));
  return g_strconcat (mass < 0 ? "−" : "", typed, " g", NULL);
}

static char *
while_listening (TgScaleLink *link)
{
  static const char *const words[] = {
    [TG_SCALE_LOAD_MOVING] = "moving",
    [TG_SCALE_LOAD_EMPTY] = "ready for the next load",
    [TG_SCALE_LOAD_READ] = "read: take it off",
    [TG_SCALE_LOAD_OLD] = "lay there before: lift it once to have it read",
    [TG_SCALE_LOAD_HASTY] = "not read: the scale sends by itself and not by its key",
  };
  g_autofree char *shown = tg_scale_words_load (link);
  TgMass mass;

  if (shown)
    return g_strdup_printf ("Scale: %s, %s", shown, words[tg_scale_link_load (link, &mass)]);
  if (tg_scale_link_in_a_row (link) == 0)
    return g_strdup ("The scale is connected: its key sends a reading.");
  return g_strdup ("The scale is connected, but no reading comes from it.");
}

char *
tg_scale_words_standing (TgScaleLink *link)
{
  switch (tg_scale_link_state (link))
    {
    case TG_SCALE_LINK_OFF:
      return g_strdup ("No scale is connected.");
    case TG_SCALE_LINK_GONE:
      if (tg_scale_link_problem (link))
        return g_strdup_printf ("No scale yet: %s. Readings can be typed.",
                                tg_scale_link_problem (link));
      return g_strdup ("The scale has gone: plug it in or switch it on. Readings can be typed.");
    case TG_SCALE_LINK_LEARNING:
      return g_strdup ("The scale is connected, but its lines are not learned yet.");
    case TG_SCALE_LINK_LISTENING:
    default:
      return while_listening (link);
    }
}

char *
tg_scale_words_line (const char *line, gsize length)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < length; i++)
    if (g_ascii_isprint (line[i]))
      g_string_append_c (text, line[i]);
    else
      g_string_append_printf (text, "\\x%02X", (guint) (guchar) line[i]);
  return g_string_free (text, FALSE);
}
