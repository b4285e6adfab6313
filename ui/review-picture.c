/* review-picture.c: a picture of the review, for widgets that show one
 *
 * The picture comes from ui/draw; here are its session, its size and its place in the tree of a
 * screen reader.  Nothing is computed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "review-picture.h"

#include <math.h>

#include "theme.h"
#include "words.h"

#define MIN_WIDTH 240
#define NAT_WIDTH 360
/* In text sizes, without a job. */
#define EMPTY_HEIGHT 3.5

typedef struct
{
  TgSession *session;
  gulong changed;
} TgReviewPicturePrivate;

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (TgReviewPicture, tg_review_picture, GTK_TYPE_WIDGET)

static TgReviewPicturePrivate *
private_of (gpointer picture)
{
  return tg_review_picture_get_instance_private (TG_REVIEW_PICTURE (picture));
}

void
tg_review_picture_refresh (TgReviewPicture *self)
{
  TgReviewPictureClass *klass = TG_REVIEW_PICTURE_GET_CLASS (self);
  TgReviewPicturePrivate *priv = private_of (self);
  const TgReview *review;
  g_autofree char *words = NULL;
  g_autofree char *more = NULL;

  g_return_if_fail (TG_IS_REVIEW_PICTURE (self));

  if (!priv->session)
    return;
  review = tg_session_review (priv->session);
  words = klass->words (self, review);
  more = klass->more ? klass->more (self, review) : NULL;
  tg_words_name (GTK_WIDGET (self), words);
  if (more)
    tg_words_tell (GTK_WIDGET (self), more);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
tg_review_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TgReviewPicture *self = TG_REVIEW_PICTURE (widget);
  TgReviewPicturePrivate *priv = private_of (self);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  TgStyle style;
  cairo_t *cr;

  if (!priv->session || width < 4 || height < 4)
    return;
  style = tg_theme_style (widget);
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  TG_REVIEW_PICTURE_GET_CLASS (self)->draw (self, cr, (TgRect){ 0, 0, width, height },
                                            tg_session_review (priv->session), &style);
  cairo_destroy (cr);
}

static void
tg_review_picture_measure (GtkWidget *widget,
                           GtkOrientation orientation,
                           G_GNUC_UNUSED int for_size,
                           int *minimum,
                           int *natural,
                           G_GNUC_UNUSED int *minimum_baseline,
                           G_GNUC_UNUSED int *natural_baseline)
{
  TgReviewPicture *self = TG_REVIEW_PICTURE (widget);
  TgSession *session = private_of (self)->session;
  double height = EMPTY_HEIGHT;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = MIN_WIDTH;
      *natural = NAT_WIDTH;
      return;
    }
  if (session)
    height = TG_REVIEW_PICTURE_GET_CLASS (self)->height (self, tg_session_review (session));
  *minimum = *natural = (int) ceil (height * tg_theme_style (widget).text_size);
}

static void
tg_review_picture_dispose (GObject *object)
{
  tg_review_picture_set_session (TG_REVIEW_PICTURE (object), NULL);
  G_OBJECT_CLASS (tg_review_picture_parent_class)->dispose (object);
}

static void
tg_review_picture_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, private_of (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_review_picture_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    tg_review_picture_set_session (TG_REVIEW_PICTURE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_review_picture_class_init (TgReviewPictureClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_review_picture_dispose;
  object_class->get_property = tg_review_picture_get_property;
  object_class->set_property = tg_review_picture_set_property;
  widget_class->snapshot = tg_review_picture_snapshot;
  widget_class->measure = tg_review_picture_measure;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_review_picture_init (G_GNUC_UNUSED TgReviewPicture *self)
{
}

void
tg_review_picture_set_session (TgReviewPicture *self, TgSession *session)
{
  TgReviewPicturePrivate *priv = private_of (self);

  g_return_if_fail (TG_IS_REVIEW_PICTURE (self));

  if (priv->session == session)
    return;
  if (priv->session)
    g_clear_signal_handler (&priv->changed, priv->session);
  g_set_object (&priv->session, session);
  if (TG_REVIEW_PICTURE_GET_CLASS (self)->begin)
    TG_REVIEW_PICTURE_GET_CLASS (self)->begin (self);
  if (!session)
    return;
  priv->changed = g_signal_connect_swapped (session, "changed",
                                            G_CALLBACK (tg_review_picture_refresh), self);
  tg_review_picture_refresh (self);
}
