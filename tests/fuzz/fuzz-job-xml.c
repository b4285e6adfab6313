/* fuzz-job-xml.c: any bytes as a job file
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A refusal must say why in one line; a job that was accepted must be written so that it is accepted
 * again with the same bytes.  Seeds are the files of tests/data.
 */
#include <stdint.h>
#include <string.h>

#include "error.h"
#include "job-xml.h"

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

static void
check_refusal (const GError *error)
{
  g_assert_true (error->domain == TG_ERROR);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_true (g_str_has_prefix (error->message, "fuzz:"));
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL, again_error = NULL;
  g_autoptr (TgJob) job = tg_job_xml_parse ((const char *) data, size, "fuzz", &error);
  g_autoptr (TgJob) again = NULL;
  GString *text, *same;

  if (!job)
    {
      check_refusal (error);
      return 0;
    }
  text = tg_job_xml_format (job);
  again = tg_job_xml_parse (text->str, text->len, "again", &again_error);
  g_assert_no_error (again_error);
  same = tg_job_xml_format (again);
  g_assert_true (g_string_equal (text, same));
  g_string_free (same, TRUE);
  g_string_free (text, TRUE);
  return 0;
}
