/* event.c: journal entries and their words, see event.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "event.h"

#include "word.h"

TG_DEFINE_WORDS (TgEventKind,
                 event_kind,
                 "weighing",
                 "pass",
                 "target",
                 "freeze",
                 "replace",
                 "set",
                 "strike",
                 "note")
TG_DEFINE_WORDS (TgWay, way, "any", "mark-up", "mark-down")
TG_DEFINE_WORDS (TgTool, tool, "belt", "wheel", "file", "paper", "burr", "mill", "lathe")

TgEvent
tg_event_blank (TgEventKind kind)
{
  TgEvent event = { .kind = kind,
                    .id = "",
                    .who = "",
                    .part = "",
                    .zone = "",
                    .path = "",
                    .value = "",
                    .refers = "",
                    .text = "" };

  return event;
}

const char *
tg_way_label (TgWay way)
{
  static const char *const labels[TG_N_WAYS] = { "", "mark up", "mark down" };

  g_return_val_if_fail ((guint) way < TG_N_WAYS, NULL);

  return labels[way];
}

const char *
tg_tool_label (TgTool tool)
{
  static const char *const labels[TG_N_TOOLS] = { "belt grinder",   "bench grinder", "file",
                                                  "abrasive paper", "rotary burr",   "mill",
                                                  "lathe" };

  g_return_val_if_fail ((guint) tool < TG_N_TOOLS, NULL);

  return labels[tool];
}
