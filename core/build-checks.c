/* build-checks.c: what a builder looks at, see build-checks.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "build-checks.h"

#include "word.h"

#define PRACTICE "common practice, no published source"
/* Those that were read agree; which maker it was does not matter to another one's engine. */
#define MANUALS "engine makers’ service manuals, no standard"
#define ARTICLES "trade articles, no standard"

TG_DEFINE_WORDS (TgBuildCheck,
                 build_check,
                 "rod",
                 "piston",
                 "pin",
                 "rings",
                 "clips",
                 "bearings",
                 "piston-facing",
                 "rod-facing",
                 "pin-oiled",
                 "clips-new",
                 "clips-gap",
                 "rings-placed",
                 "shells",
                 "cap",
                 "bolts",
                 "turns")

static const struct
{
  const char *label;
  const char *detail;
  const char *source;
} checks[TG_N_BUILD_CHECKS] = {
  [TG_CHECK_ROD] = { "Rod in hand", "Read the number on the rod and on its cap.", PRACTICE },
  [TG_CHECK_PISTON] = { "Piston in hand", "Read the number on the piston.", PRACTICE },
  [TG_CHECK_PIN] = { "Pin in hand",
                     "Pins are matched to their piston: take the one that was weighed.", PRACTICE },
  [TG_CHECK_RINGS] = { "Rings in hand", "The ring pack that was weighed with this set.", PRACTICE },
  [TG_CHECK_CLIPS] = { "Clips in hand", "The clip pair that was weighed, never fitted before.",
                       PRACTICE },
  [TG_CHECK_BEARINGS] = { "Bearing shells in hand", "Both shells of this big end.", PRACTICE },
  [TG_CHECK_PISTON_FACING] = { "Piston faces the right way",
                               "Valve pockets and the offset of the pin depend on it. The mark and "
                               "its meaning are in the maker’s manual.",
                               MANUALS },
  [TG_CHECK_ROD_FACING] = { "Rod faces the right way",
                            "Big-end chamfer to the crank’s fillet, oil hole to the side that the "
                            "maker’s manual gives; rods of one crankpin flat to flat.",
                            ARTICLES },
  [TG_CHECK_PIN_OILED] = { "Pin oiled and free",
                           "Oil on pin and bores; the rod falls by its own weight, unless the pin "
                           "is "
                           "a press fit.",
                           PRACTICE },
  [TG_CHECK_CLIPS_NEW] = { "New clips, seated all round on both sides",
                           "A clip that was squeezed once is not used again. Turn each in its "
                           "groove "
                           "and look all the way round. Wear eye protection: clips fly.",
                           ARTICLES },
  [TG_CHECK_CLIPS_GAP] = { "Gap of the clips where the maker wants it",
                           "In line with the piston’s travel, if the manual says nothing else.",
                           ARTICLES },
  [TG_CHECK_RINGS_PLACED] = { "Rings as the maker says",
                              "Marks up, gaps apart as in the manual, end gaps measured.",
                              PRACTICE },
  [TG_CHECK_SHELLS] = { "Shells clean, seated, oiled",
                        "Backs and seats dry and clean, tangs in their grooves, faces oiled, "
                        "clearance measured.",
                        "TM 5-3820-256-24-5, p. 13 (crush and spread)" },
  [TG_CHECK_CAP] = { "Cap on its own rod, numbers on the same side",
                     "A cap that is turned or swapped spoils the bore of the big end.", MANUALS },
  [TG_CHECK_BOLTS] = { "Bolts as the maker says",
                       "New where the manual asks for it, oiled as it says, tightened in its steps "
                       "to "
                       "its torque, angle or stretch, and written down.",
                       MANUALS },
  [TG_CHECK_TURNS] = { "Side clearance measured, crank turns freely",
                       "Turn the crank by hand after each bore.", MANUALS },
};

gboolean
tg_build_check_kind (TgBuildCheck check, TgPartKind *kind)
{
  static const TgPartKind kinds[] = {
    [TG_CHECK_ROD] = TG_PART_ROD,     [TG_CHECK_PISTON] = TG_PART_PISTON,
    [TG_CHECK_PIN] = TG_PART_PIN,     [TG_CHECK_RINGS] = TG_PART_RINGS,
    [TG_CHECK_CLIPS] = TG_PART_CLIPS, [TG_CHECK_BEARINGS] = TG_PART_BEARINGS,
  };

  if ((guint) check >= G_N_ELEMENTS (kinds))
    return FALSE;
  *kind = kinds[check];
  return TRUE;
}

const char *
tg_build_check_label (TgBuildCheck check)
{
  g_return_val_if_fail ((guint) check < TG_N_BUILD_CHECKS, NULL);

  return checks[check].label;
}

const char *
tg_build_check_detail (TgBuildCheck check)
{
  g_return_val_if_fail ((guint) check < TG_N_BUILD_CHECKS, NULL);

  return checks[check].detail;
}

const char *
tg_build_check_source (TgBuildCheck check)
{
  g_return_val_if_fail ((guint) check < TG_N_BUILD_CHECKS, NULL);

  return checks[check].source;
}
