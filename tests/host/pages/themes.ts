/** Colours of VS Code 1.100 that pages of ours use, from its default themes and, where these are silent, its registry. */
export const themes = {
  dark: {
    isDark: true,
    colours: {
      foreground: '#CCCCCC',
      'editor-background': '#1F1F1F',
      'editor-foreground': '#CCCCCC',
      descriptionForeground: '#9D9D9D',
      'textLink-foreground': '#4daafc',
      'textPreformat-foreground': '#D0D0D0',
      'textPreformat-background': '#3C3C3C',
      'textCodeBlock-background': '#2B2B2B',
      'panel-border': '#2B2B2B',
      focusBorder: '#0078D4',
      'editorError-foreground': '#F14C4C',
      'editorWarning-foreground': '#CCA700',
      'charts-green': '#89D185',
    },
  },
  light: {
    isDark: false,
    colours: {
      foreground: '#3B3B3B',
      'editor-background': '#FFFFFF',
      'editor-foreground': '#3B3B3B',
      descriptionForeground: '#3B3B3B',
      'textLink-foreground': '#005FB8',
      'textPreformat-foreground': '#3B3B3B',
      'textPreformat-background': '#0000001F',
      'textCodeBlock-background': '#F8F8F8',
      'panel-border': '#E5E5E5',
      focusBorder: '#005FB8',
      'editorError-foreground': '#E51400',
      'editorWarning-foreground': '#BF8803',
      'charts-green': '#388A34',
    },
  },
} as const;

export type ThemeName = keyof typeof themes;
