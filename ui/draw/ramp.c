/* ramp.c: the published colour ramp behind tg_style_shade()
 *
 * Cividis: J. R. Nuñez, C. R. Anderton, R. S. Renslow, "Optimizing colormaps with consideration for
 * color vision deficiency to enable accurate interpretation of scientific data", PLoS ONE 13(7),
 * 2018, e0199239.  It is perceptually uniform and looks nearly the same with and without red-green
 * colour blindness.  The table holds every fifth of its 256 entries (sRGB, rounded to 8 bits), as
 * found in Matplotlib 3.6.3, matplotlib/_cm_listed.py (matplotlib licence, BSD compatible);
 * linear interpolation between them is within 4/255 of all 256.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "ramp.h"

static const guint32 cividis[] = {
  0x00224e, 0x002656, 0x002a5f, 0x002d68, 0x003070, 0x083370, 0x163770, 0x203a6f, 0x273e6e,
  0x2e416d, 0x34456c, 0x3a486c, 0x3f4c6c, 0x444f6c, 0x49536c, 0x4e566c, 0x535a6d, 0x575d6d,
  0x5c616e, 0x60646f, 0x656870, 0x696b71, 0x6d6f72, 0x727274, 0x767676, 0x7a7a78, 0x7e7d78,
  0x838179, 0x888578, 0x8d8878, 0x928c78, 0x969077, 0x9b9476, 0xa09875, 0xa59c74, 0xaaa073,
  0xafa471, 0xb5a86f, 0xbaac6d, 0xbfb06b, 0xc4b468, 0xc9b965, 0xcfbd62, 0xd4c15f, 0xdac65b,
  0xdfca57, 0xe5cf52, 0xead34c, 0xf0d846, 0xf6dd3f, 0xfce236, 0xfee838,
};

static double
channel (guint32 rgb, int shift)
{
  return ((rgb >> shift) & 0xff) / 255.0;
}

TgColor
tg_ramp_cividis (double x)
{
  const guint last = G_N_ELEMENTS (cividis) - 1;
  double at = CLAMP (x, 0, 1) * last;
  guint i = MIN ((guint) at, last - 1);
  double f = at - i;
  guint32 a = cividis[i], b = cividis[i + 1];

  return (TgColor){ channel (a, 16) * (1 - f) + channel (b, 16) * f,
                    channel (a, 8) * (1 - f) + channel (b, 8) * f,
                    channel (a, 0) * (1 - f) + channel (b, 0) * f };
}
