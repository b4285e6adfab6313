/* scale-fields.c: what a job knows of its scale, as fields
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scale-fields.h"

#include "setup-choice.h"
#include "setup-field.h"

static void
add_field (
    TgColumns *columns, TgSession *session, const char *path, const char *label, const char *unit)
{
  GtkWidget *field = tg_setup_field_new (path, label, unit);

  tg_setup_field_set_session (TG_SETUP_FIELD (field), session);
  tg_columns_append (columns, field);
}

static void
add_class (TgColumns *columns, TgSession *session)
{
  const char *words[TG_N_CHECK_WEIGHT_CLASSES + 1] = { NULL };
  GtkWidget *choice;

  for (guint i = 0; i < TG_N_CHECK_WEIGHT_CLASSES; i++)
    words[i] = tg_check_weight_class_to_word (i);
  choice = tg_setup_choice_new ("check-class", "Class of the check weight (OIML R 111)", words);
  tg_setup_choice_set_session (TG_SETUP_CHOICE (choice), session);
  tg_columns_append (columns, choice);
}

void
tg_scale_fields_add (TgColumns *columns, TgSession *session)
{
  add_field (columns, session, "scale", "Name of the scale", "");
  add_field (columns, session, "resolution", "Step of the scale", "g");
  add_field (columns, session, "capacity", "Capacity of the scale, 0 if not known", "g");
  add_field (columns, session, "check-weight", "Check weight, 0 if there is none", "g");
  add_class (columns, session);
  add_field (columns, session, "repeats", "Readings of each, each way up", "");
  add_field (columns, session, "overshoot", "Chance of an overshoot in a pass", "%");
}
