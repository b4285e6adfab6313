/* xml.c: safe reading and plain writing of the program's own XML, see xml.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Model of the danger: a file from anywhere.  Whatever it holds, reading must end soon, in bounded
 * memory, without touching another file or the network.
 *
 * - Entities of every kind (expansion bombs, external files) need a document type, so the parser is
 *   stopped at the first sight of one.  Without a document type libxml2 has nothing external to
 *   load; the process-wide entity loader is left alone.
 * - libxml2 2.9 compares the attributes of one element pairwise, so the distance from one "<" to the
 *   next (which an attribute cannot hold) is bounded before parsing.
 * - The tree takes some thirty times the bytes of the smallest elements and attributes, so both are
 *   counted.
 * - libxml2's own line of an element is vague beyond 65,535, where long journals go, so each element
 *   carries its line in _private.
 * - Depth is bounded by libxml2 itself (256, without XML_PARSE_HUGE).
 *
 * Does not do: other encodings than UTF-8, mixed content, anything with namespaces but one.
 */
#include "xml.h"

#include <gio/gio.h>
#include <libxml/parser.h>
#include <libxml/relaxng.h>
#include <string.h>

#include "error.h"
#include "storable.h"

#define MAX_TAG_BYTES (64 * 1024)
#define MAX_ATTRIBUTES 64  /* of one element */
#define MEAN_ATTRIBUTES 12 /* over all elements that there may be */

static void
prepare_libxml (void)
{
  static gsize once = 0;

  if (g_once_init_enter (&once))
    {
      /* libxml2's own tables, which it would else fill in whichever thread comes first. */
      xmlInitParser ();
      xmlRelaxNGInitTypes ();
      g_once_init_leave (&once, 1);
    }
}

/* -- parsing --------------------------------------------------------------------------------- */

typedef struct
{
  startElementNsSAX2Func start;
  guint elements;
  guint attributes;
  guint max_elements;
  gboolean too_many;
  gboolean doctype;
  int line;
  int code;
  char *message;
} Parse;

static void
on_doctype (void *data,
            const xmlChar *name G_GNUC_UNUSED,
            const xmlChar *public_id G_GNUC_UNUSED,
            const xmlChar *system_id G_GNUC_UNUSED)
{
  xmlParserCtxt *ctxt = data;
  Parse *parse = ctxt->_private;

  parse->doctype = TRUE;
  parse->line = xmlSAX2GetLineNumber (ctxt);
  xmlStopParser (ctxt);
}

static void
on_element (void *data,
            const xmlChar *name,
            const xmlChar *prefix,
            const xmlChar *uri,
            int n_namespaces,
            const xmlChar **namespaces,
            int n_attributes,
            int n_defaulted,
            const xmlChar **attributes)
{
  xmlParserCtxt *ctxt = data;
  Parse *parse = ctxt->_private;

  if (parse->too_many)
    return;
  parse->elements++;
  parse->attributes += (guint) (n_attributes + n_namespaces);
  if (parse->elements > parse->max_elements ||
      parse->attributes > MEAN_ATTRIBUTES * parse->max_elements ||
      n_attributes + n_namespaces > MAX_ATTRIBUTES)
    {
      parse->too_many = TRUE;
      parse->line = xmlSAX2GetLineNumber (ctxt);
      xmlStopParser (ctxt);
      return;
    }
  parse->start (data, name, prefix, uri, n_namespaces, namespaces, n_attributes, n_defaulted,
                attributes);
  if (ctxt->node)
    ctxt->node->_private = GINT_TO_POINTER (xmlSAX2GetLineNumber (ctxt));
}

static void
on_parse_error (void *data, xmlError *fault)
{
  xmlParserCtxt *ctxt = data;
  Parse *parse = ctxt->_private;

  if (parse->message || fault->level < XML_ERR_ERROR)
    return;
  parse->line = fault->line;
  parse->code = fault->code;
  parse->message = g_strdup (fault->message ? fault->message : "");
}

static gboolean
refuse_at (GError **error, const char *name, int line, int code, const char *cause)
{
  g_set_error (error, TG_ERROR, code, "%s:%d: %s", name, MAX (line, 1), cause);
  return FALSE;
}

static int
line_of_byte (const char *data, const char *at)
{
  int line = 1;

  for (const char *p = data; (p = memchr (p, '\n', (gsize) (at - p))); p++)
    line++;
  return line;
}

static gboolean
check_bytes (
    const char *data, gsize size, const char *name, const TgXmlLimits *limits, GError **error)
{
  const char *end = data + size, *bad, *tag, *next;

  if (size > limits->max_bytes)
    {
      g_autofree char *cause = g_strdup_printf ("the file has more than %" G_GSIZE_FORMAT
                                                " MiB, no real one has",
                                                limits->max_bytes >> 20);

      return refuse_at (error, name, 1, TG_ERROR_SIZE, cause);
    }
  if (size == 0)
    return refuse_at (error, name, 1, TG_ERROR_SYNTAX, "the file is empty");
  if (!g_utf8_validate (data, (gssize) size, &bad))
    return refuse_at (error, name, line_of_byte (data, bad), TG_ERROR_SYNTAX,
                      "a byte that is not UTF-8 text");
  for (tag = memchr (data, '<', size); tag; tag = next)
    {
      next = memchr (tag + 1, '<', (gsize) (end - tag - 1));
      if ((next ? next : end) - tag > MAX_TAG_BYTES)
        return refuse_at (error, name, line_of_byte (data, tag), TG_ERROR_SIZE,
                          "an element with more than 64 KiB of attributes or text");
    }
  return TRUE;
}

static void
report_fault (const Parse *parse, const char *name, GError **error)
{
  g_autofree char *cause = NULL;

  switch (parse->code)
    {
    case XML_ERR_DOCUMENT_EMPTY:
      refuse_at (error, name, parse->line, TG_ERROR_SYNTAX, "this is not XML");
      return;
    case XML_ERR_TAG_NOT_FINISHED:
    case XML_ERR_GT_REQUIRED:
    case XML_ERR_LTSLASH_REQUIRED:
    case XML_ERR_ATTRIBUTE_NOT_FINISHED:
      refuse_at (error, name, parse->line, TG_ERROR_SYNTAX,
                 "the XML is cut short or a tag is not closed");
      return;
    case XML_ERR_UNDECLARED_ENTITY:
    case XML_WAR_UNDECLARED_ENTITY:
      refuse_at (error, name, parse->line, TG_ERROR_UNSAFE, "entities are not accepted");
      return;
    default:
      break;
    }
  if (parse->message && strstr (parse->message, "depth"))
    {
      refuse_at (error, name, parse->line, TG_ERROR_UNSAFE,
                 "elements inside elements, deeper than any real file");
      return;
    }
  cause = tg_storable_shorten (g_strstrip (parse->message));
  g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "%s:%d: not well-formed XML: %s", name,
               MAX (parse->line, 1), cause);
}

xmlDoc *
tg_xml_parse (
    const char *data, gsize size, const char *name, const TgXmlLimits *limits, GError **error)
{
  Parse parse = { .max_elements = limits->max_elements };
  g_autoptr (xmlDoc) doc = NULL;
  xmlParserCtxt *ctxt;
  gboolean whole;

  if (!check_bytes (data, size, name, limits, error))
    return NULL;
  prepare_libxml ();
  ctxt = xmlNewParserCtxt ();
  parse.start = ctxt->sax->startElementNs;
  ctxt->_private = &parse;
  ctxt->sax->internalSubset = on_doctype;
  ctxt->sax->startElementNs = on_element;
  ctxt->sax->serror = on_parse_error;
  ctxt->sax->comment = NULL;
  ctxt->sax->processingInstruction = NULL;
  ctxt->sax->cdataBlock = NULL; /* as text */
  doc = xmlCtxtReadMemory (ctxt, data, (int) size, NULL, "UTF-8", XML_PARSE_NONET);
  whole = doc && ctxt->wellFormed && !parse.message;
  xmlFreeParserCtxt (ctxt);

  if (parse.doctype)
    refuse_at (error, name, parse.line, TG_ERROR_UNSAFE,
               "a document type (DOCTYPE) is not accepted");
  else if (parse.too_many)
    refuse_at (error, name, parse.line, TG_ERROR_SIZE,
               "more elements or attributes than any real file has");
  else if (!whole)
    report_fault (&parse, name, error);
  else
    return g_steal_pointer (&doc);
  g_free (parse.message);
  return NULL;
}

/* The line that on_element() noted, also for what stands inside an element. */
static int
line_of (const xmlNode *node)
{
  while (node->type != XML_ELEMENT_NODE && node->parent)
    node = node->parent;
  return node->type == XML_ELEMENT_NODE ? GPOINTER_TO_INT (node->_private) : 1;
}

/* -- the root -------------------------------------------------------------------------------- */

gboolean
tg_xml_check_root (const xmlDoc *doc,
                   const char *name,
                   const char *element,
                   const char *namespace_uri,
                   int version,
                   GError **error)
{
  xmlNode *root = xmlDocGetRootElement (doc);
  const char *uri = root->ns ? (const char *) root->ns->href : "";
  xmlAttr *attribute = xmlHasNsProp (root, BAD_CAST "version", NULL);
  const char *text = attribute ? tg_xml_value (attribute) : "";
  g_autofree char *shown = NULL;
  guint64 found;

  if (strcmp ((const char *) root->name, element) != 0 || strcmp (uri, namespace_uri) != 0)
    {
      shown = tg_storable_shorten ((const char *) root->name);
      return tg_xml_refuse (error, name, root, TG_ERROR_FOREIGN,
                            "this is XML, but no %s of this program: it begins with “%s”", element,
                            shown);
    }
  shown = tg_storable_shorten (text);
  if (!g_ascii_string_to_unsigned (text, 10, 1, G_MAXINT, &found, NULL))
    return tg_xml_refuse (error, name, root, TG_ERROR_SYNTAX, "“%s” is not a version", shown);
  if (found > (guint64) version)
    return tg_xml_refuse (error, name, root, TG_ERROR_VERSION,
                          "written by a newer version of this program (format %s; this one reads "
                          "up to %d); the file is left as it is",
                          shown, version);
  return TRUE;
}

/* -- schema ---------------------------------------------------------------------------------- */

static void
on_schema_error (void *data, xmlError *fault)
{
  int *line = data;

  if (*line == 0)
    *line = fault->node ? line_of (fault->node) : fault->line;
}

static void
on_grammar_error (void *data G_GNUC_UNUSED, xmlError *fault)
{
  g_critical ("carried schema, line %d: %s", fault->line, fault->message);
}

static xmlDoc *
read_carried (const char *file)
{
  g_autofree char *path = g_strconcat ("/tenthgram/", file, NULL);
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  const char *data;
  gsize size;

  g_return_val_if_fail (bytes != NULL, NULL);

  data = g_bytes_get_data (bytes, &size);
  return xmlReadMemory (data, (int) size, file, NULL, XML_PARSE_NONET);
}

/* RELAX NG 4.7 by hand: an include of carried data becomes a div with what it includes. */
static void
resolve_includes (xmlDoc *doc)
{
  xmlNode *next;

  for (xmlNode *node = tg_xml_first (xmlDocGetRootElement (doc)); node; node = next)
    {
      xmlChar *href;
      g_autoptr (xmlDoc) included = NULL;

      next = tg_xml_next (node);
      if (!tg_xml_is (node, "include") || !(href = xmlGetNoNsProp (node, BAD_CAST "href")))
        continue;
      included = read_carried ((const char *) href);
      xmlFree (href);
      g_return_if_fail (included != NULL);
      xmlNodeSetName (node, BAD_CAST "div");
      xmlUnsetNsProp (node, NULL, BAD_CAST "href");
      xmlAddChildList (node,
                       xmlDocCopyNodeList (doc, tg_xml_first (xmlDocGetRootElement (included))));
    }
  /* The copies brought their own declarations of the same namespace, which do no harm. */
}

gboolean
tg_xml_validate (xmlDoc *doc, const char *schema, int *line)
{
  g_autoptr (xmlDoc) grammar = NULL;
  xmlRelaxNGParserCtxt *parser;
  xmlRelaxNGValidCtxt *valid;
  xmlRelaxNG *relax;
  int result = -1;

  prepare_libxml ();
  *line = 0;
  grammar = read_carried (schema);
  g_return_val_if_fail (grammar != NULL, FALSE);
  resolve_includes (grammar);
  parser = xmlRelaxNGNewDocParserCtxt (grammar);
  xmlRelaxNGSetParserStructuredErrors (parser, on_grammar_error, NULL);
  relax = xmlRelaxNGParse (parser);
  xmlRelaxNGFreeParserCtxt (parser);
  g_return_val_if_fail (relax != NULL, FALSE);

  valid = xmlRelaxNGNewValidCtxt (relax);
  xmlRelaxNGSetValidStructuredErrors (valid, on_schema_error, line);
  result = xmlRelaxNGValidateDoc (valid, doc);
  xmlRelaxNGFreeValidCtxt (valid);
  xmlRelaxNGFree (relax);
  return result == 0;
}

/* -- nodes and attributes -------------------------------------------------------------------- */

gboolean
tg_xml_refuse (
    GError **error, const char *name, const xmlNode *node, int code, const char *format, ...)
{
  g_autofree char *cause = NULL;
  va_list args;

  va_start (args, format);
  cause = g_strdup_vprintf (format, args);
  va_end (args);
  return refuse_at (error, name, line_of (node), code, cause);
}

gboolean
tg_xml_refuse_element (GError **error, const char *name, const xmlNode *node)
{
  g_autofree char *shown = tg_storable_shorten ((const char *) node->name);

  return tg_xml_refuse (error, name, node, TG_ERROR_SYNTAX, "no element “%s” belongs here", shown);
}

gboolean
tg_xml_locate (GError **error, const char *name, const xmlNode *node)
{
  g_prefix_error (error, "%s:%d: ", name, line_of (node));
  return FALSE;
}

static xmlNode *
next_element (xmlNode *node)
{
  while (node && node->type != XML_ELEMENT_NODE)
    node = node->next;
  return node;
}

xmlNode *
tg_xml_first (const xmlNode *parent)
{
  return next_element (parent->children);
}

xmlNode *
tg_xml_next (const xmlNode *node)
{
  return next_element (node->next);
}

gboolean
tg_xml_is (const xmlNode *node, const char *element)
{
  const xmlNode *root = xmlDocGetRootElement (node->doc);

  if (strcmp ((const char *) node->name, element) != 0)
    return FALSE;
  return node->ns == root->ns ||
         (node->ns && root->ns && xmlStrEqual (node->ns->href, root->ns->href));
}

char *
tg_xml_text (const xmlNode *node)
{
  g_autoptr (GRegex) blanks = g_regex_new ("\\s+", 0, 0, NULL);
  xmlChar *content = xmlNodeGetContent (node);
  char *text = g_regex_replace_literal (blanks, (const char *) content, -1, 0, " ", 0, NULL);

  xmlFree (content);
  return g_strstrip (text);
}

const char *
tg_xml_value (xmlAttr *attribute)
{
  xmlNode *text = attribute->children;

  if (!text)
    return "";
  if (text->next || text->type != XML_TEXT_NODE)
    {
      /* in pieces: joined once, so that the document owns the whole */
      xmlChar *whole = xmlNodeListGetString (attribute->doc, text, 1);

      xmlFreeNodeList (text);
      text = xmlNewDocText (attribute->doc, whole);
      text->parent = (xmlNode *) attribute;
      attribute->children = attribute->last = text;
      xmlFree (whole);
    }
  return text->content ? (const char *) text->content : "";
}

/* -- attributes by name ---------------------------------------------------------------------- */

const char *
tg_xml_take (TgXmlTaker *taker, const char *attribute)
{
  guint64 bit = 1;

  for (xmlAttr *a = taker->node->properties; a && bit; a = a->next, bit <<= 1)
    if (!a->ns && strcmp ((const char *) a->name, attribute) == 0)
      {
        taker->taken |= bit;
        return tg_xml_value (a);
      }
  return NULL;
}

const char *
tg_xml_need (TgXmlTaker *taker, const char *attribute, GError **error)
{
  const char *value = tg_xml_take (taker, attribute);

  if (!value)
    tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_SYNTAX,
                   "element “%s” lacks the attribute “%s”", (const char *) taker->node->name,
                   attribute);
  return value;
}

gboolean
tg_xml_refuse_value (const TgXmlTaker *taker,
                     const char *attribute,
                     const char *value,
                     GError **error)
{
  g_autofree char *shown = tg_storable_shorten (value);

  return tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_SYNTAX,
                        "attribute “%s” of “%s” cannot be “%s”", attribute,
                        (const char *) taker->node->name, shown);
}

static gboolean
read_mass (const TgXmlTaker *taker,
           const char *attribute,
           const char *value,
           gboolean below_zero,
           TgMass *mass,
           GError **error)
{
  gsize whole = strspn (value + (below_zero && *value == '-'), "0123456789") +
                (below_zero && *value == '-');

  /* A person may type a comma or a unit; a file may not. */
  if (value[strspn (value, "-0123456789.")] != '\0' || (whole == 0 && *value != '-') ||
      (value[whole] == '.' && value[whole + 1] == '\0'))
    return tg_xml_refuse_value (taker, attribute, value, error);
  if (below_zero ? tg_mass_parse_signed (value, mass, error) : tg_mass_parse (value, mass, error))
    return TRUE;
  g_prefix_error (error, "attribute “%s” of “%s”: ", attribute, (const char *) taker->node->name);
  return tg_xml_locate (error, taker->file, taker->node);
}

gboolean
tg_xml_need_mass (TgXmlTaker *taker, const char *attribute, TgMass *mass, GError **error)
{
  const char *value = tg_xml_need (taker, attribute, error);

  return value && read_mass (taker, attribute, value, FALSE, mass, error);
}

gboolean
tg_xml_need_signed_mass (TgXmlTaker *taker, const char *attribute, TgMass *mass, GError **error)
{
  const char *value = tg_xml_need (taker, attribute, error);

  return value && read_mass (taker, attribute, value, TRUE, mass, error);
}

gboolean
tg_xml_take_mass (TgXmlTaker *taker, const char *attribute, TgMass *mass, GError **error)
{
  const char *value = tg_xml_take (taker, attribute);

  return !value || read_mass (taker, attribute, value, FALSE, mass, error);
}

gboolean
tg_xml_need_number (TgXmlTaker *taker, const char *attribute, double *number, GError **error)
{
  const char *value = tg_xml_need (taker, attribute, error);

  if (!value)
    return FALSE;
  return tg_storable_parse_number (value, number) ||
         tg_xml_refuse_value (taker, attribute, value, error);
}

gboolean
tg_xml_take_number (TgXmlTaker *taker, const char *attribute, double *number, GError **error)
{
  const char *value = tg_xml_take (taker, attribute);

  return !value || tg_storable_parse_number (value, number) ||
         tg_xml_refuse_value (taker, attribute, value, error);
}

gboolean
tg_xml_need_count (TgXmlTaker *taker, const char *attribute, guint *count, GError **error)
{
  return tg_xml_need (taker, attribute, error) &&
         tg_xml_take_count (taker, attribute, count, error);
}

gboolean
tg_xml_take_count (TgXmlTaker *taker, const char *attribute, guint *count, GError **error)
{
  const char *value = tg_xml_take (taker, attribute);
  guint64 found;

  if (!value)
    return TRUE;
  if (!g_ascii_string_to_unsigned (value, 10, 0, 999999, &found, NULL))
    return tg_xml_refuse_value (taker, attribute, value, error);
  *count = (guint) found;
  return TRUE;
}

gboolean
tg_xml_take_yes (TgXmlTaker *taker, const char *attribute, gboolean *yes, GError **error)
{
  const char *value = tg_xml_take (taker, attribute);

  if (!value)
    return TRUE;
  if (strcmp (value, "yes") != 0 && strcmp (value, "no") != 0)
    return tg_xml_refuse_value (taker, attribute, value, error);
  *yes = *value == 'y';
  return TRUE;
}

gboolean
tg_xml_finish (const TgXmlTaker *taker, GError **error)
{
  guint64 bit = 1;

  for (xmlAttr *a = taker->node->properties; a; a = a->next, bit <<= 1)
    if (!(taker->taken & bit))
      {
        g_autofree char *shown = tg_storable_shorten ((const char *) a->name);

        return tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_SYNTAX,
                              "element “%s” has no attribute “%s”",
                              (const char *) taker->node->name, shown);
      }
  return TRUE;
}

/* -- writing --------------------------------------------------------------------------------- */

void
tg_xml_append_attribute (GString *out, const char *name, const char *value)
{
  g_string_append_c (out, ' ');
  g_string_append (out, name);
  g_string_append (out, "=\"");
  for (const char *p = value; *p;)
    {
      gsize plain = strcspn (p, "&<>\"\t\n\r");

      g_string_append_len (out, p, (gssize) plain);
      p += plain;
      switch (*p)
        {
        case '\0':
          continue;
        case '&':
          g_string_append (out, "&amp;");
          break;
        case '<':
          g_string_append (out, "&lt;");
          break;
        case '>':
          g_string_append (out, "&gt;");
          break;
        case '"':
          g_string_append (out, "&quot;");
          break;
        default: /* would be read as blanks */
          g_string_append_printf (out, "&#%d;", *p);
        }
      p++;
    }
  g_string_append_c (out, '"');
}
