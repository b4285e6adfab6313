/* theme.c: the program's colours on screen, in step with the desktop's light, dark and contrast
 *
 * style.css and pages.css use named colours only; the names are defined in one of colours-light.css,
 * colours-dark.css and colours-contrast.css.  Which one is loaded follows GtkSettings and GTK_THEME.
 * Under a high contrast theme the names stand for the theme's own colours.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "theme.h"

#define RESOURCES "/io/github/tenthgram/Tenthgram/ui/"

typedef enum
{
  LOOK_LIGHT,
  LOOK_DARK,
  LOOK_CONTRAST,
} Look;

typedef struct
{
  GtkCssProvider *colours;
  int look;
} Theme;

static void
find_look (GtkSettings *settings, Look *look, gboolean *dark)
{
  g_autofree char *name = NULL;
  gboolean prefer_dark = FALSE;
  const char *env = g_getenv ("GTK_THEME");

  g_object_get (settings, "gtk-theme-name", &name, "gtk-application-prefer-dark-theme",
                &prefer_dark, NULL);
  if (env && env[0])
    {
      g_free (name);
      name = g_strdup (env);
      prefer_dark = FALSE;
    }
  *dark = prefer_dark ||
          (name && (g_str_has_suffix (name, "dark") || g_str_has_suffix (name, "Dark") ||
                    g_strrstr (name, "Inverse") != NULL));
  *look = name && g_strrstr (name, "HighContrast") ? LOOK_CONTRAST : *dark ? LOOK_DARK : LOOK_LIGHT;
}

static void
follow (GtkSettings *settings, G_GNUC_UNUSED GParamSpec *pspec, gpointer data)
{
  static const char *const files[] = { RESOURCES "colours-light.css", RESOURCES "colours-dark.css",
                                       RESOURCES "colours-contrast.css" };
  Theme *theme = data;
  Look look;
  gboolean dark;

  find_look (settings, &look, &dark);
  if ((int) look == theme->look)
    return;
  theme->look = (int) look;
  gtk_css_provider_load_from_resource (theme->colours, files[look]);
}

static void
add_sheet (GdkDisplay *display, const char *resource)
{
  g_autoptr (GtkCssProvider) provider = gtk_css_provider_new ();

  if (!g_resources_get_info (resource, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL, NULL, NULL))
    return;
  gtk_css_provider_load_from_resource (provider, resource);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

static void
theme_free (gpointer data)
{
  Theme *theme = data;

  g_object_unref (theme->colours);
  g_free (theme);
}

void
tg_theme_install (GdkDisplay *display)
{
  GtkSettings *settings = gtk_settings_get_for_display (display);
  Theme *theme;

  g_return_if_fail (GDK_IS_DISPLAY (display));

  if (g_object_get_data (G_OBJECT (display), "tg-theme"))
    return;
  theme = g_new0 (Theme, 1);
  theme->colours = gtk_css_provider_new ();
  theme->look = -1;
  g_object_set_data_full (G_OBJECT (display), "tg-theme", theme, theme_free);
  follow (settings, NULL, theme);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (theme->colours),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
  add_sheet (display, RESOURCES "style.css");
  add_sheet (display, RESOURCES "pages.css");
  g_signal_connect (settings, "notify::gtk-theme-name", G_CALLBACK (follow), theme);
  g_signal_connect (settings, "notify::gtk-application-prefer-dark-theme", G_CALLBACK (follow),
                    theme);
}

TgStyle
tg_theme_style (GtkWidget *widget)
{
  const PangoFontDescription *font = pango_context_get_font_description (
      gtk_widget_get_pango_context (widget));
  TgStyle style;
  Look look;
  gboolean dark;
  double size = pango_font_description_get_size (font) / (double) PANGO_SCALE;

  find_look (gtk_widget_get_settings (widget), &look, &dark);
  style = dark ? tg_style_dark () : tg_style_light ();
  if (look == LOOK_CONTRAST)
    style = tg_style_high_contrast (style);
  if (!pango_font_description_get_size_is_absolute (font))
    {
      int dpi = -1;

      g_object_get (gtk_widget_get_settings (widget), "gtk-xft-dpi", &dpi, NULL);
      size *= (dpi > 0 ? dpi / 1024.0 : 96.0) / 72.0;
    }
  style.font = g_intern_string (pango_font_description_get_family (font));
  style.text_size = size;
  return style;
}
