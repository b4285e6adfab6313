/* build.c: the build cards, see build.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "build.h"

TgBuild *
tg_build_new (const TgJob *job, const TgReview *review)
{
  TgBuild *build = g_new0 (TgBuild, 1);

  (void) job;
  (void) review;
  build->cards = g_ptr_array_new ();
  return build;
}

void
tg_build_free (TgBuild *build)
{
  g_ptr_array_unref (build->cards);
  for (guint i = 0; i < TG_N_FACINGS; i++)
    g_free (build->facing[i]);
  g_free (build);
}
