/* stamp.c: moments with offsets, see stamp.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A journal of ten thousand events is read within a frame, so stamps are read by hand instead of
 * through GDateTime.  Day numbers follow the proleptic Gregorian calendar; the two conversions are
 * the usual era arithmetic (400-year eras of 146,097 days, years that begin in March) and are
 * checked against GDateTime in the tests.
 */
#include "stamp.h"

#include <stdio.h>

static gint64
days_from_civil (gint64 year, int month, int day)
{
  gint64 era, year_of_era, day_of_year;

  year -= month <= 2;
  era = (year >= 0 ? year : year - 399) / 400;
  year_of_era = year - era * 400;
  day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
  return era * 146097 + year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year -
         719468;
}

static void
civil_from_days (gint64 days, int *year, int *month, int *day)
{
  gint64 era, day_of_era, year_of_era, day_of_year, shifted;

  days += 719468;
  era = (days >= 0 ? days : days - 146096) / 146097;
  day_of_era = days - era * 146097;
  year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  shifted = (5 * day_of_year + 2) / 153;
  *day = (int) (day_of_year - (153 * shifted + 2) / 5 + 1);
  *month = (int) (shifted < 10 ? shifted + 3 : shifted - 9);
  *year = (int) (year_of_era + era * 400 + (*month <= 2));
}

/* Reads exactly @count digits at *p and steps over them; -1 if there are fewer. */
static int
digits (const char **p, int count)
{
  int value = 0;

  for (int i = 0; i < count; i++, (*p)++)
    {
      if (!g_ascii_isdigit (**p))
        return -1;
      value = value * 10 + (**p - '0');
    }
  return value;
}

static gboolean
skip (const char **p, char c)
{
  if (**p != c)
    return FALSE;
  (*p)++;
  return TRUE;
}

static int
days_in_month (int year, int month)
{
  return g_date_get_days_in_month ((GDateMonth) month, (GDateYear) year);
}

gboolean
tg_stamp_parse (const char *text, TgStamp *stamp)
{
  const char *p = text;
  int year, month, day, hour, minute, second, off_hour, off_minute, sign;

  g_return_val_if_fail (text != NULL && stamp != NULL, FALSE);

  if ((year = digits (&p, 4)) < 1 || !skip (&p, '-') || (month = digits (&p, 2)) < 1 ||
      month > 12 || !skip (&p, '-') || (day = digits (&p, 2)) < 1 ||
      day > days_in_month (year, month) || !skip (&p, 'T'))
    return FALSE;
  if ((hour = digits (&p, 2)) < 0 || hour > 23 || !skip (&p, ':') ||
      (minute = digits (&p, 2)) < 0 || minute > 59 || !skip (&p, ':') ||
      (second = digits (&p, 2)) < 0 || second > 59)
    return FALSE;
  sign = *p == '-' ? -1 : 1;
  if (!skip (&p, sign < 0 ? '-' : '+') || (off_hour = digits (&p, 2)) < 0 || off_hour > 23 ||
      !skip (&p, ':') || (off_minute = digits (&p, 2)) < 0 || off_minute > 59 || *p != '\0')
    return FALSE;

  stamp->offset_min = sign * (off_hour * 60 + off_minute);
  stamp->seconds = days_from_civil (year, month, day) * 86400 + hour * 3600 + minute * 60 + second -
                   stamp->offset_min * 60;
  return TRUE;
}

static gint64
wall_seconds (TgStamp stamp)
{
  return stamp.seconds + stamp.offset_min * 60;
}

gint64
tg_stamp_day (TgStamp stamp)
{
  gint64 seconds = wall_seconds (stamp);

  return (seconds >= 0 ? seconds : seconds - 86399) / 86400;
}

void
tg_stamp_format (TgStamp stamp, char out[TG_STAMP_SIZE])
{
  gint64 of_day = wall_seconds (stamp) - tg_stamp_day (stamp) * 86400;
  guint offset = (guint) ABS (stamp.offset_min) % 1440;
  int year, month, day;

  civil_from_days (tg_stamp_day (stamp), &year, &month, &day);
  g_snprintf (out, TG_STAMP_SIZE, "%04d-%02d-%02dT%02d:%02d:%02d%c%02u:%02u", year, month, day,
              (int) (of_day / 3600), (int) (of_day / 60 % 60), (int) (of_day % 60),
              stamp.offset_min < 0 ? '-' : '+', offset / 60, offset % 60);
}

char *
tg_stamp_format_day (TgStamp stamp)
{
  static const char *const weekday[] = { "Thu", "Fri", "Sat", "Sun", "Mon", "Tue", "Wed" };
  static const char *const name[] = { "Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec" };
  gint64 number = tg_stamp_day (stamp);
  int year, month, day;

  civil_from_days (number, &year, &month, &day);
  return g_strdup_printf ("%s %d %s %d", weekday[((number % 7) + 7) % 7], day, name[month - 1],
                          year);
}

char *
tg_stamp_format_time (TgStamp stamp)
{
  gint64 of_day = wall_seconds (stamp) - tg_stamp_day (stamp) * 86400;

  return g_strdup_printf ("%02d:%02d", (int) (of_day / 3600), (int) (of_day / 60 % 60));
}
