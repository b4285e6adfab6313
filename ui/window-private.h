/* window-private.h: what window.c and window-actions.c share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "build-page.h"
#include "cautions-panel.h"
#include "demo.h"
#include "grind-page.h"
#include "journal-page.h"
#include "later.h"
#include "lesson-panel.h"
#include "lessons-page.h"
#include "match-page.h"
#include "prove-page.h"
#include "new-job.h"
#include "return-strip.h"
#include "scale-link.h"
#include "scale-page.h"
#include "setup-page.h"
#include "weigh-page.h"
#include "welcome-page.h"
#include "window.h"

struct _TgWindow
{
  GtkApplicationWindow parent_instance;
  TgSession *session;
  gulong changed;
  TgScaleLink *link;
  gboolean painted; /* the first frame has been shown */
  guint page_source;
  guint focus_source;
  guint toast_source;
  guint first_strike;        /* events that the last undo appended: from here … */
  guint end_strike;          /* … to before here */
  const char *before_import; /* the page that the import page was opened from */
  const char *before_class;  /* the same of the class table */
  GtkWidget *bar;
  GtkWidget *bar_end;
  GtkWidget *job_name;
  GtkWidget *practice;
  GtkWidget *standing;
  GtkWidget *stages;
  GtkWidget *stages_row;
  guint stages_source;
  GtkWidget *cautions_button;
  GtkWidget *cautions_label;
  GtkWidget *menu_button;
  GtkWidget *failure;
  GtkWidget *failure_text;
  GtkWidget *reload;
  GtkWidget *strip;
  GtkWidget *pages;
  GtkWidget *lesson;
  GtkWidget *lessons;
  GtkWidget *welcome;
  GtkWidget *new_job;
  GtkWidget *import;
  GtkWidget *setup;
  GtkWidget *scale;
  GtkWidget *weigh;
  GtkWidget *match;
  GtkWidget *prove;
  GtkWidget *build;
  GtkWidget *grind;
  GtkWidget *journal;
  GtkWidget *debrief;
  GtkWidget *replay;
  GtkWidget *class_table;
  GtkWidget *cautions_box;
  GtkWidget *cautions;
  GtkWidget *glossary_box;
  GtkWidget *glossary_scroll;
  GtkWidget *glossary; /* made when it is first wanted */
  GtkWidget *toast;
  GtkWidget *toast_text;
  GtkWidget *toast_back;
};

void tg_window_install_actions (GtkWidgetClass *widget_class);

/* Which actions make sense now. */
void tg_window_refresh_actions (TgWindow *window);

/* Shows the cautions of the stage, if they are open. */
void tg_window_refresh_cautions (TgWindow *window);

/* Puts the keyboard into the field of the page that is shown, from the main loop. */
void tg_window_focus_field (TgWindow *window);

/* Takes the last undo back. */
void tg_window_put_back (TgWindow *window);

/* A line that goes by itself. */
void tg_window_show_toast (TgWindow *window, const char *text, gboolean can_put_back);

/* Pasted and dropped tables lead to the import page. */
void tg_window_take_tables (TgWindow *window);

/* The terms of the page that is shown, if the glossary is open on them. */
void tg_window_refresh_glossary (TgWindow *window);

/* The second button and a long press lead from a term to the glossary. */
void tg_window_take_terms (TgWindow *window);

void tg_window_act_glossary (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_glossary_here (GtkWidget *widget, const char *name, GVariant *parameter);
/* (lends) (nullable): the window that shows the job at @path: the one that has it open already, @window
 * while it has none, or a new one; NULL where the file is refused, which @window says. */
TgWindow *tg_window_open_path (TgWindow *window, const char *path);

void tg_window_act_debrief (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_replay (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_class (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_open_debrief (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_save_sheet (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_print (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_import (GtkWidget *widget, const char *name, GVariant *parameter);
void tg_window_act_export (GtkWidget *widget, const char *name, GVariant *parameter);
