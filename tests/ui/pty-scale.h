/* pty-scale.h: a scale at the other end of a pseudo-terminal, for the tests of the interface
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/* The scale's side, and a link under which the program finds the other one. */
typedef struct
{
  char *folder;
  char *link;
  int master, slave; /* -1 while it is unplugged */
} PtyScale;

/* Plugged in, in a folder of its own. (transfer full) */
PtyScale *pty_scale_new (void);
void pty_scale_free (PtyScale *scale);

void pty_scale_plug (PtyScale *scale);
void pty_scale_unplug (PtyScale *scale);

/* Sends bytes as they are. */
void pty_scale_send (PtyScale *scale, const char *data, gssize length);

/* Sends "S +  171.6 g" or, while it is moving, "D +  171.6 g". */
void pty_scale_show (PtyScale *scale, double grams, gboolean moving);

/* (transfer full): what the program sent, waited for at most ten seconds. */
char *pty_scale_asked (PtyScale *scale);

/* The pattern of pty_scale_show() as text, for the settings. (transfer full) */
char *pty_scale_pattern (void);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PtyScale, pty_scale_free)
