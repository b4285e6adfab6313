/* glossary.c: the terms of the interface and where they stand in a text, see glossary.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The carried file goes the same way as the library: safe parse, schema, rules.
 * Does not do: inflection; every form that stands in the interface is written down.
 */
#include "glossary.h"

#include <gio/gio.h>
#include <string.h>

#include "error.h"
#include "word.h"
#include "xml.h"

#define GLOSSARY_FILE "glossary.xml"
#define GLOSSARY_NAMESPACE "urn:tenthgram:glossary"
#define GLOSSARY_VERSION 1
#define SYMBOL_LENGTH 2
#define SENTENCES 2

TG_DEFINE_WORDS (TgGround, ground, "trade", "standard", "ours")
TG_DEFINE_WORDS (TgGlossarySpot,
                 glossary_spot,
                 "none",
                 "rod",
                 "small-end",
                 "big-end",
                 "cap",
                 "cap-joint",
                 "beam",
                 "beam-edge",
                 "bearing-shell",
                 "small-end-pad",
                 "small-end-side",
                 "big-end-shoulder",
                 "bolt-seat",
                 "cap-shoulder",
                 "cap-pad",
                 "back-of-the-cap",
                 "centre-distance",
                 "lever-arm",
                 "piston",
                 "crown",
                 "skirt",
                 "skirt-foot",
                 "pin-boss",
                 "pin-boss-foot",
                 "pin-bore",
                 "pin",
                 "clip",
                 "ring-land",
                 "ring-pack",
                 "compression-height",
                 "stand",
                 "mark-up",
                 "scale",
                 "reading",
                 "step-of-the-scale",
                 "check-weight",
                 "cylinder",
                 "crankpin",
                 "throw",
                 "bank",
                 "stroke",
                 "bobweight",
                 "goes-up-and-down",
                 "turns-with-the-crankpin",
                 "band",
                 "target",
                 "tolerance",
                 "spread",
                 "plus-minus",
                 "overshoot",
                 "to-come-off",
                 "first-order",
                 "second-order")
G_STATIC_ASSERT (G_N_ELEMENTS (glossary_spot_words) == TG_N_SPOTS);

static void
term_free (TgGlossaryTerm *term)
{
  g_free (term->id);
  g_free (term->name);
  g_ptr_array_unref (term->forms);
  g_free (term->text);
  g_free (term->source);
  g_free (term);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgGlossaryTerm, term_free)

static TgGlossaryTerm *
term_new (void)
{
  TgGlossaryTerm *term = g_new0 (TgGlossaryTerm, 1);

  term->forms = g_ptr_array_new_with_free_func (g_free);
  return term;
}

void
tg_glossary_free (TgGlossary *glossary)
{
  g_ptr_array_unref (glossary->terms);
  g_free (glossary);
}

/* -- where a form stands ---------------------------------------------------------------------- */

/* Hyphens, breaks and blanks are all one. */
static gunichar
plain (gunichar c, gboolean symbol)
{
  if (c == '-' || c == 0x2010 || c == 0x2011 || g_unichar_isspace (c))
    return ' ';
  return symbol ? c : g_unichar_tolower (c);
}

/* Where @form ends at the start of @text, NULL if something else stands there. */
static const char *
end_of (const char *text, const char *form, gboolean symbol)
{
  for (; *form; form = g_utf8_next_char (form), text = g_utf8_next_char (text))
    if (!*text || plain (g_utf8_get_char (text), symbol) != plain (g_utf8_get_char (form), symbol))
      return NULL;
  return text;
}

/* Length in bytes of @form at the start of @text, 0 if it does not stand there as a word. */
static gsize
match (const char *text, const char *form)
{
  const char *end = end_of (text, form, g_utf8_strlen (form, -1) <= SYMBOL_LENGTH);

  return !end || g_unichar_isalnum (g_utf8_get_char (end)) ? 0 : (gsize) (end - text);
}

static gboolean
holds (const char *form, const char *typed)
{
  for (;; form = g_utf8_next_char (form))
    if (end_of (form, typed, FALSE))
      return TRUE;
    else if (!*form)
      return FALSE;
}

gboolean
tg_glossary_term_fits (const TgGlossaryTerm *term, const char *typed)
{
  g_autofree char *wanted = NULL;

  g_return_val_if_fail (term && typed, FALSE);

  wanted = g_strstrip (g_strdup (typed));
  if (holds (term->name, wanted))
    return TRUE;
  for (guint i = 0; i < term->forms->len; i++)
    if (holds (g_ptr_array_index (term->forms, i), wanted))
      return TRUE;
  return FALSE;
}

static void
keep_longer (TgGlossaryHit *hit, const char *text, const TgGlossaryTerm *term, const char *form)
{
  gsize length = match (text + hit->start, form);

  if (length > hit->end - hit->start)
    {
      hit->end = hit->start + length;
      hit->term = term;
    }
}

/* The longest form that begins at @start; without one the hit has no term. */
static TgGlossaryHit
longest_at (const TgGlossary *glossary, const char *text, gsize start)
{
  TgGlossaryHit hit = { NULL, start, start };

  for (guint i = 0; i < glossary->terms->len; i++)
    {
      const TgGlossaryTerm *term = g_ptr_array_index (glossary->terms, i);

      keep_longer (&hit, text, term, term->name);
      for (guint f = 0; f < term->forms->len; f++)
        keep_longer (&hit, text, term, g_ptr_array_index (term->forms, f));
    }
  return hit;
}

/* A word may begin after @before; the s of “rod’s” is none. */
static gboolean
begins_word (gunichar before, gunichar before_that)
{
  if (before == 0)
    return TRUE;
  if (before == '\'' || before == 0x2019)
    return !g_unichar_isalnum (before_that);
  return !g_unichar_isalnum (before);
}

GArray *
tg_glossary_hits (const TgGlossary *glossary, const char *text)
{
  GArray *hits = g_array_new (FALSE, FALSE, sizeof (TgGlossaryHit));
  gunichar before = 0, before_that = 0;

  for (const char *t = text; *t; t = g_utf8_next_char (t))
    {
      TgGlossaryHit hit = { NULL, 0, 0 };

      if (begins_word (before, before_that))
        hit = longest_at (glossary, text, (gsize) (t - text));
      if (hit.term)
        {
          g_array_append_val (hits, hit);
          t = g_utf8_find_prev_char (text, text + hit.end);
        }
      before_that = before;
      before = g_utf8_get_char (t);
    }
  return hits;
}

void
tg_glossary_add_from (const TgGlossary *glossary, const char *text, GPtrArray *terms)
{
  g_autoptr (GArray) hits = tg_glossary_hits (glossary, text);

  for (guint i = 0; i < hits->len; i++)
    {
      gpointer term = (gpointer) g_array_index (hits, TgGlossaryHit, i).term;

      if (!g_ptr_array_find (terms, term, NULL))
        g_ptr_array_add (terms, term);
    }
}

GPtrArray *
tg_glossary_in_text (const TgGlossary *glossary, const char *text)
{
  GPtrArray *terms = g_ptr_array_new ();

  tg_glossary_add_from (glossary, text, terms);
  return terms;
}

const TgGlossaryTerm *
tg_glossary_find (const TgGlossary *glossary, const char *id)
{
  for (guint i = 0; i < glossary->terms->len; i++)
    {
      const TgGlossaryTerm *term = g_ptr_array_index (glossary->terms, i);

      if (strcmp (term->id, id) == 0)
        return term;
    }
  return NULL;
}

/* -- reading ---------------------------------------------------------------------------------- */

/* Lines joined to one. */
static char *
content_of (const xmlNode *node)
{
  g_autoptr (GRegex) blanks = g_regex_new ("\\s+", 0, 0, NULL);
  xmlChar *content = xmlNodeGetContent (node);
  char *text = g_regex_replace_literal (blanks, (const char *) content, -1, 0, " ", 0, NULL);

  xmlFree (content);
  return g_strstrip (text);
}

/* A sentence ends with a full stop that a blank or nothing follows: "0.1 g" is no end. */
static guint
count_sentences (const char *text)
{
  guint n = 0;

  for (const char *t = text; *t; t++)
    n += strchr (".!?", *t) && (t[1] == ' ' || t[1] == '\0');
  return n;
}

static gboolean
is_known_form (const TgGlossary *glossary, const TgGlossaryTerm *own, const char *form)
{
  for (guint i = 0; i <= glossary->terms->len; i++)
    {
      const TgGlossaryTerm *term = i < glossary->terms->len ? g_ptr_array_index (glossary->terms, i)
                                                            : own;
      gsize length = strlen (form);

      if (match (form, term->name) == length)
        return TRUE;
      for (guint f = 0; f < term->forms->len; f++)
        if (match (form, g_ptr_array_index (term->forms, f)) == length)
          return TRUE;
    }
  return FALSE;
}

static gboolean
read_attributes (TgXmlTaker *taker, TgGlossaryTerm *term, GError **error)
{
  const char *ground, *spot, *source;

  term->id = g_strdup (tg_xml_need (taker, "id", error));
  if (!term->id)
    return FALSE;
  term->name = g_strdup (tg_xml_need (taker, "name", error));
  if (!term->name || !(ground = tg_xml_need (taker, "ground", error)))
    return FALSE;
  source = tg_xml_take (taker, "source");
  term->source = g_strdup (source ? source : "");
  spot = tg_xml_take (taker, "spot");
  if (!tg_xml_finish (taker, error))
    return FALSE;
  if (!tg_ground_from_word (ground, &term->ground))
    return tg_xml_refuse_value (taker, "ground", ground, error);
  if (spot && !tg_glossary_spot_from_word (spot, &term->spot))
    return tg_xml_refuse_value (taker, "spot", spot, error);
  return TRUE;
}

static gboolean
read_form (xmlNode *node,
           const char *file,
           const TgGlossary *glossary,
           TgGlossaryTerm *term,
           GError **error)
{
  g_autofree char *form = content_of (node);

  if (form[0] == '\0' || is_known_form (glossary, term, form))
    return tg_xml_refuse (error, file, node, TG_ERROR_DUPLICATE, "the form “%s” stands twice",
                          form);
  g_ptr_array_add (term->forms, g_steal_pointer (&form));
  return TRUE;
}

/* What no schema says. */
static gboolean
check_term (const TgGlossaryTerm *term, const char *file, const xmlNode *node, GError **error)
{
  gsize length = term->text ? strlen (term->text) : 0;

  if (length == 0 || !strchr (".!?", term->text[length - 1]) ||
      count_sentences (term->text) != SENTENCES)
    return tg_xml_refuse (error, file, node, TG_ERROR_RANGE,
                          "“%s” is not explained in two sentences", term->name);
  if (term->ground == TG_GROUND_STANDARD && term->source[0] == '\0')
    return tg_xml_refuse (error, file, node, TG_ERROR_SYNTAX, "“%s” names no standard", term->name);
  if (term->ground == TG_GROUND_TRADE && term->source[0] != '\0')
    return tg_xml_refuse (error, file, node, TG_ERROR_SYNTAX,
                          "“%s” is a term of the trade and names a source", term->name);
  return TRUE;
}

static gboolean
read_term (xmlNode *node, const char *file, TgGlossary *glossary, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  g_autoptr (TgGlossaryTerm) term = term_new ();

  if (!tg_xml_is (node, "term"))
    return tg_xml_refuse_element (error, file, node);
  if (!read_attributes (&taker, term, error))
    return FALSE;
  if (tg_glossary_find (glossary, term->id))
    return tg_xml_refuse (error, file, node, TG_ERROR_DUPLICATE, "two terms are called “%s”",
                          term->id);
  for (guint i = 0; i < glossary->terms->len; i++)
    if (is_known_form (glossary, g_ptr_array_index (glossary->terms, i), term->name))
      return tg_xml_refuse (error, file, node, TG_ERROR_DUPLICATE, "the form “%s” stands twice",
                            term->name);
  for (xmlNode *child = tg_xml_first (node); child; child = tg_xml_next (child))
    {
      if (tg_xml_is (child, "form") && !read_form (child, file, glossary, term, error))
        return FALSE;
      if (tg_xml_is (child, "text"))
        {
          g_free (term->text);
          term->text = content_of (child);
        }
    }
  if (!check_term (term, file, node, error))
    return FALSE;
  g_ptr_array_add (glossary->terms, g_steal_pointer (&term));
  return TRUE;
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  const TgGlossaryTerm *const *left = a, *const *right = b;

  return g_ascii_strcasecmp ((*left)->name, (*right)->name);
}

TgGlossary *
tg_glossary_parse (const char *data, gsize size, const char *name, GError **error)
{
  static const TgXmlLimits limits = { 1024 * 1024, 10000 };
  g_autoptr (TgGlossary) glossary = g_new0 (TgGlossary, 1);
  g_autoptr (xmlDoc) doc = NULL;
  int line;

  glossary->terms = g_ptr_array_new_with_free_func ((GDestroyNotify) term_free);
  doc = tg_xml_parse (data, size, name, &limits, error);
  if (!doc ||
      !tg_xml_check_root (doc, name, "glossary", GLOSSARY_NAMESPACE, GLOSSARY_VERSION, error))
    return NULL;
  for (xmlNode *node = tg_xml_first (xmlDocGetRootElement (doc)); node; node = tg_xml_next (node))
    if (!read_term (node, name, glossary, error))
      return NULL;
  if (!tg_xml_validate (doc, "glossary.rng", &line))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "%s:%d: does not fit the schema", name, line);
      return NULL;
    }
  g_ptr_array_sort (glossary->terms, by_name);
  return g_steal_pointer (&glossary);
}

TgGlossary *
tg_glossary_load (GError **error)
{
  g_autoptr (GBytes) bytes = g_resources_lookup_data ("/tenthgram/" GLOSSARY_FILE,
                                                      G_RESOURCE_LOOKUP_FLAGS_NONE, error);

  if (!bytes)
    return NULL;
  return tg_glossary_parse (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), GLOSSARY_FILE,
                            error);
}

/* -- in words --------------------------------------------------------------------------------- */

char *
tg_glossary_ground_words (const TgGlossaryTerm *term)
{
  switch (term->ground)
    {
    case TG_GROUND_TRADE:
      return g_strdup ("Trade term");
    case TG_GROUND_STANDARD:
      return g_strdup_printf ("Open standard: %s", term->source);
    case TG_GROUND_OURS:
    default:
      return g_strdup_printf ("Our own word%s%s", term->source[0] ? ", after " : "", term->source);
    }
}

char *
tg_glossary_spot_label (TgGlossarySpot spot)
{
  return spot == TG_SPOT_PLUS_MINUS
             ? g_strdup ("±")
             : g_strdelimit (g_strdup (tg_glossary_spot_to_word (spot)), "-", ' ');
}
