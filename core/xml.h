/* xml.h: safe reading and plain writing of the program's own XML
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shared by the job files and the library.  Every refusal is one line, "NAME:LINE: cause".
 */
#pragma once

#include <glib.h>
#include <libxml/tree.h>

#include "mass.h"

G_BEGIN_DECLS

G_DEFINE_AUTOPTR_CLEANUP_FUNC (xmlDoc, xmlFreeDoc)

/**
 * TgXmlLimits: what no real file comes near; judged before and while parsing
 * @max_bytes: of the whole file
 * @max_elements: of the whole file
 */
typedef struct
{
  gsize max_bytes;
  guint max_elements;
} TgXmlLimits;

/**
 * tg_xml_parse:
 * @name: of the file, for messages
 * @error: TG_ERROR_SIZE beyond @limits; TG_ERROR_UNSAFE: a document type or an entity;
 *   TG_ERROR_SYNTAX: not UTF-8, not XML, cut short
 *
 * No network, no document type, no entities but the five of XML, no XInclude. Comments and
 * processing instructions are passed over. No setting of libxml2 outside this call is changed.
 *
 * Returns: (transfer full): the document; its strings are UTF-8 whatever it declares.
 */
xmlDoc *tg_xml_parse (
    const char *data, gsize size, const char *name, const TgXmlLimits *limits, GError **error);

/**
 * tg_xml_check_root:
 * @error: TG_ERROR_FOREIGN: another element or namespace; TG_ERROR_VERSION: a newer version;
 *   TG_ERROR_SYNTAX: a version that is no number from 1 to @version
 */
gboolean tg_xml_check_root (const xmlDoc *doc,
                            const char *name,
                            const char *element,
                            const char *namespace_uri,
                            int version,
                            GError **error);

/**
 * tg_xml_validate:
 * @schema: of a RELAX NG grammar among the carried data, "job.rng"; what it includes is looked for
 *   there too
 * @line: (out): of the first fault
 *
 * Returns: FALSE if @doc does not fit. Says no more than the line: the words are for those who
 * know what the elements mean.
 */
gboolean tg_xml_validate (xmlDoc *doc, const char *schema, int *line);

/* Sets @error to "NAME:LINE: cause" with the line of @node. Always FALSE. */
gboolean tg_xml_refuse (
    GError **error, const char *name, const xmlNode *node, int code, const char *format, ...)
    G_GNUC_PRINTF (5, 6);

/* An element that has no place here. Always FALSE. */
gboolean tg_xml_refuse_element (GError **error, const char *name, const xmlNode *node);

/* Puts "NAME:LINE: " before the message of *@error, which is set. Always FALSE. */
gboolean tg_xml_locate (GError **error, const char *name, const xmlNode *node);

/* First child element, next sibling element; NULL if there is none. */
xmlNode *tg_xml_first (const xmlNode *parent);
xmlNode *tg_xml_next (const xmlNode *node);

/* TRUE if @node is called @element in the namespace of its root. */
gboolean tg_xml_is (const xmlNode *node, const char *element);

/* (transfer full): the text inside @node, what is blank in it and around it joined to single blanks. */
char *tg_xml_text (const xmlNode *node);

/* (lends): the value of one attribute, valid as long as the document. */
const char *tg_xml_value (xmlAttr *attribute);

/**
 * TgXmlTaker: reads the attributes of one element and knows in the end which one nobody asked for
 *
 * Start with { file, node }.  The tg_xml_need functions refuse a missing attribute; the tg_xml_take
 * functions leave the output as it is.  Texts are lent by the document.
 */
typedef struct
{
  const char *file;
  xmlNode *node;
  guint64 taken;
} TgXmlTaker;

/* (nullable) (lends) */
const char *tg_xml_take (TgXmlTaker *taker, const char *attribute);
/* (nullable) (lends): NULL with @error if it is missing */
const char *tg_xml_need (TgXmlTaker *taker, const char *attribute, GError **error);
/* Grams as tg_mass_format_exact() writes them; digits and a point only. */
gboolean tg_xml_need_mass (TgXmlTaker *taker, const char *attribute, TgMass *mass, GError **error);
/* The same with "-" before it where the mass is below zero. */
gboolean
tg_xml_need_signed_mass (TgXmlTaker *taker, const char *attribute, TgMass *mass, GError **error);
gboolean tg_xml_take_mass (TgXmlTaker *taker, const char *attribute, TgMass *mass, GError **error);
gboolean
tg_xml_need_number (TgXmlTaker *taker, const char *attribute, double *number, GError **error);
gboolean
tg_xml_take_number (TgXmlTaker *taker, const char *attribute, double *number, GError **error);
gboolean tg_xml_need_count (TgXmlTaker *taker, const char *attribute, guint *count, GError **error);
gboolean tg_xml_take_count (TgXmlTaker *taker, const char *attribute, guint *count, GError **error);
/* "yes" or "no" */
gboolean tg_xml_take_yes (TgXmlTaker *taker, const char *attribute, gboolean *yes, GError **error);
/* Always FALSE: the value read is none of the possible ones. */
gboolean tg_xml_refuse_value (const TgXmlTaker *taker,
                              const char *attribute,
                              const char *value,
                              GError **error);
/* FALSE if there is an attribute that was not taken. */
gboolean tg_xml_finish (const TgXmlTaker *taker, GError **error);

/* Appends ` NAME="VALUE"` so that a parser gives exactly @value back. */
void tg_xml_append_attribute (GString *out, const char *name, const char *value);

G_END_DECLS
