/* pairing-words.c: the amounts of a pairing's rows, and its sentences for those who do not see it
 *
 * Figures are written as they were given; only the base is added, as on the scale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "number.h"
#include "pairing-layout.h"

static char *
amount (double g, guint decimals)
{
  g_autofree char *figure = tg_number_format (g, decimals);

  return g_strconcat (figure, " g", NULL);
}

char *
tg_pairing_layout_grams (const TgPairingPicture *picture, double over_g)
{
  return amount (picture->base_g + over_g, picture->decimals);
}

gboolean
tg_pairing_layout_is_light (const TgPairingPicture *picture, guint i)
{
  const double tiny = 1e-6;

  return !picture->bars[i].touched && picture->bars[i].after_g < picture->band_lower_g - tiny;
}

char *
tg_pairing_layout_amount (const TgPairingPicture *picture, guint i)
{
  const TgPairingBar *bar = &picture->bars[i];

  if (bar->touched)
    return amount (bar->removal_g, picture->decimals);
  return g_strdup (tg_pairing_layout_is_light (picture, i) ? "light" : "even");
}

char *
tg_pairing_layout_before_amount (const TgPairingPicture *picture, guint i)
{
  double g = picture->bars[i].before_removal_g;

  return g > 0 ? amount (g, picture->decimals) : g_strdup ("even");
}

static void
add_part (GString *words, const char *family, const TgPairingSegment *part)
{
  const char *note = part->moved && part->locked ? " (from another bore, locked)"
                     : part->moved               ? " (from another bore)"
                     : part->locked              ? " (locked)"
                                                 : "";

  g_string_append_printf (words, "%s %s%s, ", family, part->number, note);
}

/* "0.6 g to come off", "even", "light". */
static void
add_amount (GString *words, const char *amount, gboolean off)
{
  g_string_append_printf (words, "%s%s", amount, off ? " to come off" : "");
}

char *
tg_pairing_drawing_describe_bar (const TgPairingPicture *picture, guint i)
{
  const TgPairingBar *bar = &picture->bars[i];
  GString *words = g_string_new (NULL);
  g_autofree char *together = tg_pairing_layout_grams (picture, bar->after_g);
  g_autofree char *after = tg_pairing_layout_amount (picture, i);
  g_autofree char *before = tg_pairing_layout_before_amount (picture, i);

  g_string_append_printf (words, "Bore %s: ", bar->label);
  for (guint f = 0; f < picture->n_families; f++)
    if (bar->parts[f].number)
      add_part (words, picture->family_label[f], &bar->parts[f]);
  g_string_append_printf (words, "together %s, ", together);
  add_amount (words, after, bar->touched);
  if (picture->has_before)
    {
      g_string_append (words, "; today ");
      add_amount (words, before, bar->before_removal_g > 0);
    }
  g_string_append_c (words, '.');
  return g_string_free (words, FALSE);
}

char *
tg_pairing_drawing_describe (const TgPairingPicture *picture)
{
  GString *words = g_string_new (NULL);

  for (guint i = 0; i < picture->n_bars; i++)
    {
      g_autofree char *bar = tg_pairing_drawing_describe_bar (picture, i);

      g_string_append_printf (words, "%s%s", i ? "\n" : "", bar);
    }
  return g_string_free (words, FALSE);
}
