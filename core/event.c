/* event.c: journal entries and their words, see event.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "event.h"

#include <string.h>

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
                 "note",
                 "zero",
                 "check-weight",
                 "pair",
                 "rule",
                 "tick",
                 "step")
TG_DEFINE_WORDS (TgRule, rule, "together", "apart", "bore")
TG_DEFINE_WORDS (TgWay, way, "any", "mark-up", "mark-down")
TG_DEFINE_WORDS (TgTool, tool, "belt", "wheel", "file", "paper", "burr", "mill", "lathe")
TG_DEFINE_WORDS (TgEffort, effort, "none", "strokes", "seconds")

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
                    .text = "",
                    .places = "",
                    .other = "" };

  return event;
}

guint
tg_event_uses (TgEventKind kind)
{
  static const guint uses[TG_N_EVENT_KINDS] = {
    [TG_EVENT_WEIGHING] = TG_EVENT_USES_PART | TG_EVENT_USES_FIGURE | TG_EVENT_USES_WAY |
                          TG_EVENT_USES_MASS | TG_EVENT_USES_KEPT | TG_EVENT_USES_SENT |
                          TG_EVENT_USES_PRACTICE,
    [TG_EVENT_PASS] = TG_EVENT_USES_PART | TG_EVENT_USES_ZONE | TG_EVENT_USES_MASS |
                      TG_EVENT_USES_TOOL | TG_EVENT_USES_EFFORT | TG_EVENT_USES_PRACTICE,
    [TG_EVENT_TARGET] = TG_EVENT_USES_BAND | TG_EVENT_USES_MASS | TG_EVENT_USES_AUTOMATIC,
    [TG_EVENT_FREEZE] = TG_EVENT_USES_PART | TG_EVENT_USES_ON,
    [TG_EVENT_REPLACE] = TG_EVENT_USES_PART,
    [TG_EVENT_SET] = TG_EVENT_USES_PATH | TG_EVENT_USES_VALUE,
    [TG_EVENT_STRIKE] = TG_EVENT_USES_REFERS,
    [TG_EVENT_NOTE] = TG_EVENT_USES_PART,
    [TG_EVENT_ZERO] = TG_EVENT_USES_MASS | TG_EVENT_USES_SENT | TG_EVENT_USES_SET_BACK |
                      TG_EVENT_USES_PRACTICE,
    [TG_EVENT_CHECK_WEIGHT] = TG_EVENT_USES_MASS | TG_EVENT_USES_SENT | TG_EVENT_USES_NOMINAL |
                              TG_EVENT_USES_PRACTICE,
    [TG_EVENT_PAIR] = TG_EVENT_USES_PLACES,
    [TG_EVENT_RULE] = TG_EVENT_USES_PART | TG_EVENT_USES_ON | TG_EVENT_USES_RULE,
    [TG_EVENT_TICK] = TG_EVENT_USES_PART | TG_EVENT_USES_CHECK,
    [TG_EVENT_STEP] = TG_EVENT_USES_PATH | TG_EVENT_USES_VALUE,
  };

  g_return_val_if_fail ((guint) kind < TG_N_EVENT_KINDS, 0);

  return uses[kind];
}

TgEvent
tg_event_plain (const TgEvent *event)
{
  guint uses = tg_event_uses (event->kind);
  TgEvent plain = tg_event_blank (event->kind);

  plain.id = event->id;
  plain.stamp = event->stamp;
  plain.who = event->who;
  plain.text = event->text;
  plain.part = uses & TG_EVENT_USES_PART ? event->part : "";
  plain.zone = uses & TG_EVENT_USES_ZONE ? event->zone : "";
  plain.path = uses & TG_EVENT_USES_PATH ? event->path : "";
  plain.value = uses & TG_EVENT_USES_VALUE ? event->value : "";
  plain.refers = uses & TG_EVENT_USES_REFERS ? event->refers : "";
  plain.figure = uses & TG_EVENT_USES_FIGURE ? event->figure : plain.figure;
  plain.way = uses & TG_EVENT_USES_WAY ? event->way : plain.way;
  plain.tool = uses & TG_EVENT_USES_TOOL ? event->tool : plain.tool;
  plain.band = uses & TG_EVENT_USES_BAND ? event->band : plain.band;
  plain.kept = uses & TG_EVENT_USES_KEPT && event->kept;
  plain.practice = uses & TG_EVENT_USES_PRACTICE && event->practice;
  plain.sent = uses & TG_EVENT_USES_SENT && event->sent;
  plain.set_back = uses & TG_EVENT_USES_SET_BACK && event->set_back;
  plain.nominal = uses & TG_EVENT_USES_NOMINAL ? event->nominal : 0;
  plain.effort = uses & TG_EVENT_USES_EFFORT ? event->effort : TG_EFFORT_NONE;
  plain.count = plain.effort != TG_EFFORT_NONE ? event->count : 0;
  plain.automatic = uses & TG_EVENT_USES_AUTOMATIC && event->automatic;
  plain.on = uses & TG_EVENT_USES_ON && event->on;
  plain.places = uses & TG_EVENT_USES_PLACES ? event->places : "";
  if (uses & TG_EVENT_USES_RULE)
    {
      plain.rule = event->rule;
      plain.other = event->rule == TG_RULE_BORE ? "" : event->other;
      plain.bore = event->rule == TG_RULE_BORE ? event->bore : 0;
    }
  if (uses & TG_EVENT_USES_CHECK)
    {
      plain.check = event->check;
      plain.bore = event->bore;
    }
  plain.mass = uses & TG_EVENT_USES_MASS && !plain.automatic ? event->mass : 0;
  return plain;
}

gboolean
tg_event_equal (const TgEvent *a, const TgEvent *b)
{
  TgEvent x = tg_event_plain (a), y = tg_event_plain (b);

  return x.kind == y.kind && x.stamp.seconds == y.stamp.seconds &&
         x.stamp.offset_min == y.stamp.offset_min && x.figure == y.figure && x.way == y.way &&
         x.mass == y.mass && x.kept == y.kept && x.tool == y.tool && x.band == y.band &&
         x.automatic == y.automatic && x.on == y.on && x.sent == y.sent &&
         x.practice == y.practice && x.set_back == y.set_back && x.nominal == y.nominal &&
         x.effort == y.effort && x.count == y.count && x.rule == y.rule && x.bore == y.bore &&
         x.check == y.check && strcmp (x.places, y.places) == 0 && strcmp (x.other, y.other) == 0 &&
         strcmp (x.id, y.id) == 0 && strcmp (x.who, y.who) == 0 && strcmp (x.part, y.part) == 0 &&
         strcmp (x.zone, y.zone) == 0 && strcmp (x.path, y.path) == 0 &&
         strcmp (x.value, y.value) == 0 && strcmp (x.refers, y.refers) == 0 &&
         strcmp (x.text, y.text) == 0;
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
