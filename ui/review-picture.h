/* review-picture.h: a picture of the review, for widgets that show one
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"
#include "style.h"

G_BEGIN_DECLS

#define TG_TYPE_REVIEW_PICTURE (tg_review_picture_get_type ())
G_DECLARE_DERIVABLE_TYPE (TgReviewPicture, tg_review_picture, TG, REVIEW_PICTURE, GtkWidget)

/**
 * TgReviewPictureClass:
 * @begin: (nullable): another job follows; what belonged to the one before is forgotten
 * @draw: everything, within @area
 * @height: wanted, in text sizes
 * @words: (transfer full): the same for a screen reader
 * @more: (nullable) (transfer full): what the words leave out
 */
struct _TgReviewPictureClass
{
  GtkWidgetClass parent_class;
  void (*begin) (TgReviewPicture *picture);
  void (*draw) (TgReviewPicture *picture,
                cairo_t *cr,
                TgRect area,
                const TgReview *review,
                const TgStyle *style);
  double (*height) (TgReviewPicture *picture, const TgReview *review);
  char *(*words) (TgReviewPicture *picture, const TgReview *review);
  char *(*more) (TgReviewPicture *picture, const TgReview *review);
};

/* (nullable): drawn again whenever the job changes. Also the property "session". */
void tg_review_picture_set_session (TgReviewPicture *picture, TgSession *session);

/* What is drawn is another thing of the same job; nothing without a session. */
void tg_review_picture_refresh (TgReviewPicture *picture);

G_END_DECLS
