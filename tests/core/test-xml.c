/* test-xml.c: safe reading and plain writing of XML
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What hostile files are refused for is tried on whole job files (test-job-xml.c); here are the
 * pieces.  Escapes after XML 1.0, sections 2.4 and 3.3.3 (attribute values are normalised).
 */
#include <glib.h>
#include <string.h>

#include "error.h"
#include "xml.h"

static const TgXmlLimits limits = { 100000, 50 };

static xmlDoc *
parse (const char *text, GError **error)
{
  return tg_xml_parse (text, strlen (text), "t", &limits, error);
}

static void
test_escapes (void)
{
  static const struct
  {
    const char *value;
    const char *written;
  } rows[] = {
    { "", " v=\"\"" },
    { "plain", " v=\"plain\"" },
    { "a&b", " v=\"a&amp;b\"" },
    { "<\">", " v=\"&lt;&quot;&gt;\"" },
    { "\t\n\r", " v=\"&#9;&#10;&#13;\"" },
    { "it's", " v=\"it's\"" },
    { "&amp; &#38; 🔧 é", " v=\"&amp;amp; &amp;#38; 🔧 é\"" },
    { "  two  blanks ", " v=\"  two  blanks \"" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) out = g_string_new ("<x");
      g_autoptr (xmlDoc) doc = NULL;
      g_autoptr (GError) error = NULL;
      TgXmlTaker taker;

      tg_xml_append_attribute (out, "v", rows[i].value);
      g_assert_cmpstr (out->str + 2, ==, rows[i].written);
      g_string_append (out, "/>");
      doc = parse (out->str, &error);
      g_assert_no_error (error);
      taker = (TgXmlTaker){ "t", xmlDocGetRootElement (doc), 0 };
      g_assert_cmpstr (tg_xml_take (&taker, "v"), ==, rows[i].value);
      g_assert_cmpstr (tg_xml_take (&taker, "v"), ==, rows[i].value);
    }
}

/* A document that was put together by hand may hold a value in pieces. */
static void
test_pieces (void)
{
  g_autoptr (xmlDoc) doc = parse ("<x v='one'/>", NULL);
  xmlAttr *attribute = xmlDocGetRootElement (doc)->properties;
  xmlNode *two = xmlNewDocText (doc, BAD_CAST " two");

  two->parent = (xmlNode *) attribute;
  two->prev = attribute->last;
  attribute->last->next = two;
  attribute->last = two;
  g_assert_cmpstr (tg_xml_value (attribute), ==, "one two");
  g_assert_cmpstr (tg_xml_value (attribute), ==, "one two");
}

static void
test_taker (void)
{
  g_autoptr (xmlDoc) doc = parse ("<x a='1.5' b='yes' c='7' d='0.25' e='?'/>", NULL);
  TgXmlTaker taker = { "t", xmlDocGetRootElement (doc), 0 };
  g_autoptr (GError) missing = NULL, wrong = NULL, left = NULL;
  double number = 0;
  gboolean yes = FALSE;
  guint count = 0;
  TgMass mass = 0, untouched = 3;

  g_assert_true (tg_xml_need_number (&taker, "a", &number, NULL));
  g_assert_cmpfloat (number, ==, 1.5);
  g_assert_true (tg_xml_take_yes (&taker, "b", &yes, NULL));
  g_assert_true (yes);
  g_assert_true (tg_xml_need_count (&taker, "c", &count, NULL));
  g_assert_cmpuint (count, ==, 7);
  g_assert_true (tg_xml_need_mass (&taker, "d", &mass, NULL));
  g_assert_cmpint (mass, ==, 250);
  g_assert_true (tg_xml_take_mass (&taker, "z", &untouched, NULL));
  g_assert_cmpint (untouched, ==, 3);
  g_assert_false (tg_xml_need_mass (&taker, "z", &untouched, &missing));
  g_assert_cmpstr (missing->message, ==, "t:1: element “x” lacks the attribute “z”");
  g_assert_false (tg_xml_finish (&taker, &left));
  g_assert_cmpstr (left->message, ==, "t:1: element “x” has no attribute “e”");
  g_assert_false (tg_xml_need_number (&taker, "e", &number, &wrong));
  g_assert_cmpstr (wrong->message, ==, "t:1: attribute “e” of “x” cannot be “?”");
  g_assert_true (tg_xml_finish (&taker, NULL));
}

static void
test_limits (void)
{
  static const struct
  {
    const char *piece;
    guint times;
    int code;
  } rows[] = {
    { "<y/>", 49, -1 },
    { "<y/>", 50, TG_ERROR_SIZE },
    { "<y a='' b='' c='' d='' e='' f='' g='' h='' i='' j='' k='' l='' m=''/>", 49, TG_ERROR_SIZE },
    { "<y/> ........................", 3400, TG_ERROR_SIZE },
    { "x", 70000, TG_ERROR_SIZE },
    { "<!---->", 20000, TG_ERROR_SIZE },
    { "<!---->", 9000, -1 },
    { "<?p?>", 9000, -1 },
    { "<![CDATA[.]]>", 5000, -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) text = g_string_new ("<x>");
      g_autoptr (GError) error = NULL;
      g_autoptr (xmlDoc) doc = NULL;

      for (guint n = 0; n < rows[i].times; n++)
        g_string_append (text, rows[i].piece);
      g_string_append (text, "</x>");
      g_test_message ("row %u", i);
      doc = parse (text->str, &error);
      g_assert_cmpint (doc != NULL, ==, rows[i].code < 0);
      if (rows[i].code < 0)
        g_assert_no_error (error);
      else
        g_assert_error (error, TG_ERROR, rows[i].code);
    }
}

static void
test_root (void)
{
  static const struct
  {
    const char *text;
    int code;
  } rows[] = {
    { "<x xmlns='urn:x' version='1'/>", -1 },
    { "<p:x xmlns:p='urn:x' version='3'/>", -1 },
    { "<x xmlns='urn:x' version='4'/>", TG_ERROR_VERSION },
    { "<x xmlns='urn:x' version='4.1'/>", TG_ERROR_SYNTAX },
    { "<x xmlns='urn:x' version='99999999999999999999'/>", TG_ERROR_SYNTAX },
    { "<x xmlns='urn:x'/>", TG_ERROR_SYNTAX },
    { "<y xmlns='urn:x' version='1'/>", TG_ERROR_FOREIGN },
    { "<x xmlns='urn:y' version='1'/>", TG_ERROR_FOREIGN },
    { "<x version='1'/>", TG_ERROR_FOREIGN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (xmlDoc) doc = parse (rows[i].text, NULL);
      g_autoptr (GError) error = NULL;

      g_assert_cmpint (tg_xml_check_root (doc, "t", "x", "urn:x", 3, &error), ==, rows[i].code < 0);
      if (rows[i].code >= 0)
        g_assert_error (error, TG_ERROR, rows[i].code);
    }
}

/* libxml2 gives up its own line numbers at 65,535. */
static void
test_lines (void)
{
  g_autoptr (GString) text = g_string_new ("<x>\n");
  g_autoptr (xmlDoc) doc = NULL;
  const xmlNode *node;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 70000; i++)
    g_string_append (text, "\n");
  g_string_append (text, "<y\n a='b'>\n\n</y></x>");
  doc = tg_xml_parse (text->str, text->len, "t", &limits, &error);
  g_assert_null (doc);
  g_assert_error (error, TG_ERROR, TG_ERROR_SIZE);
  g_clear_error (&error);
  for (guint i = 1; i < 70; i++)
    g_string_insert (text, 3 + (gssize) i * 1000, "<!---->");
  doc = tg_xml_parse (text->str, text->len, "t", &limits, &error);
  g_assert_no_error (error);
  node = tg_xml_first (xmlDocGetRootElement (doc));
  tg_xml_refuse (&error, "t", node, TG_ERROR_SYNTAX, "here");
  g_assert_cmpstr (error->message, ==, "t:70003: here");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/xml/escapes", test_escapes);
  g_test_add_func ("/xml/pieces", test_pieces);
  g_test_add_func ("/xml/taker", test_taker);
  g_test_add_func ("/xml/limits", test_limits);
  g_test_add_func ("/xml/root", test_root);
  g_test_add_func ("/xml/lines", test_lines);
  return g_test_run ();
}
