/* words.h: the few phrases that several pages say in the same way
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

/* (transfer full): "small end, mark up"; "whole"; "weight" */
char *tg_words_figure (const TgReview *review, TgSlot slot);

/* (transfer full): "Rod 3, small end, mark up" */
char *tg_words_slot (const TgReview *review, TgSlot slot);

/* What ± means, once on each page that shows it. */
#define TG_WORDS_PLUS_MINUS "± holds the true weight in 95 of 100 cases"

/* (transfer full): what a part weighs and how well that is known, "small end 247.1 g ± 0.12 g, big end
 * 562.6 g ± 0.10 g, at 95 %"; "" if nothing was read */
char *tg_words_weights (const TgReview *review, guint part);

/* (transfer full): where a part sits, as far as its name does not tell: "spare", "bore 2" once parts were
 * paired, else "" */
char *tg_words_place (const TgReview *review, guint part);

/* (transfer full): what counts with a figure in the sum of its bore, "with Pin 5, Rings 1"; "" if nothing
 * does */
char *tg_words_company (const TgReview *review, guint part, TgFigure figure);

/* (transfer full): how the part lies for this reading, one sentence */
char *tg_words_how_to_lay (const TgReview *review, TgSlot slot);

/* (transfer full): @text with every figure kept on one line with its "g", "mm" or "%" */
char *tg_words_keep_units (const char *text);

/* Sets @text on @label that way; NULL is "". */
void tg_words_show (GtkLabel *label, const char *text);

/* What is wrong with the text in @entry (nullable), below it in @problem; NULL: nothing. */
void tg_words_show_problem (GtkWidget *entry, GtkLabel *problem, const char *text);

/* Gives @widget the name that a screen reader says, and with the second one what it shows in words: what
 * GTK lets nobody read again is kept for tg_words_told(). */
void tg_words_name (GtkWidget *widget, const char *name);
void tg_words_tell (GtkWidget *widget, const char *shows);

/* (transfer full): the name and the words that @widget was given, "" for none */
char *tg_words_told (GtkWidget *widget);

/* The same for menu buttons and drop-downs, whose inner button is what a screen reader meets. */
void tg_words_name_menu (GtkMenuButton *button, const char *name);
void tg_words_name_choice (GtkDropDown *choice, const char *name);

G_END_DECLS
