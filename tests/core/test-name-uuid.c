/* test-name-uuid.c: identifiers that follow from a name
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Published values: RFC 9562, Appendix A.4 (www.example.com in the DNS namespace of RFC 4122,
 * Appendix C), and the documentation of Python's uuid module (python.org); both were computed again
 * with that module.
 */
#include <string.h>

#include "name-uuid.h"

static const guint8 dns[16] = { 0x6b, 0xa7, 0xb8, 0x10, 0x9d, 0xad, 0x11, 0xd1,
                                0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8 };

static void
test_published (void)
{
  g_autofree char *rfc = tg_name_uuid (dns, "www.example.com", 15);
  g_autofree char *python = tg_name_uuid (dns, "python.org", 10);

  g_assert_cmpstr (rfc, ==, "2ed6657d-e927-568b-95e1-2665a8aea6a2");
  g_assert_cmpstr (python, ==, "886313e1-3b8a-5372-9b90-0c9aee199e5d");
}

static void
test_form (void)
{
  for (guint i = 0; i < 500; i++)
    {
      g_autofree char *name = g_strdup_printf ("name %u", i);
      g_autofree char *id = tg_name_uuid (dns, name, strlen (name));

      g_assert_true (g_uuid_string_is_valid (id));
      g_assert_cmpint (id[14], ==, '5');
      g_assert_nonnull (strchr ("89ab", id[19]));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/name-uuid/published", test_published);
  g_test_add_func ("/name-uuid/form", test_form);
  return g_test_run ();
}
