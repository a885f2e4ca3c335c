/**
 * A page as the built-in preview makes it around what is drawn: its classes and the colours of VS Code's own themes, as
 * the theme files of VS Code 1.10x and its colour registry give them. `hc` stands for high contrast.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

interface Theme {
  readonly body: string;
  readonly paper: string;
  /** Foreground, description, error, warning, info, green, errorForeground, link, border. */
  readonly colours: readonly string[];
}

const NAMES = [
  'foreground',
  'descriptionForeground',
  'editorError-foreground',
  'editorWarning-foreground',
  'editorInfo-foreground',
  'charts-green',
  'errorForeground',
  'textLink-foreground',
  'contrastBorder',
];

export const THEMES: Readonly<Record<string, Theme>> = {
  light: {
    body: 'vscode-light',
    paper: '#ffffff',
    colours: '#3b3b3b #3b3b3b #e51400 #bf8803 #1a85ff #388a34 #f85149 #005fb8'.split(' '),
  },
  dark: {
    body: 'vscode-dark',
    paper: '#1f1f1f',
    colours: '#cccccc #9d9d9d #f14c4c #cca700 #3794ff #89d185 #f85149 #4daafc'.split(' '),
  },
  hc: {
    body: 'vscode-high-contrast',
    paper: '#000000',
    colours: '#ffffff #ffffffb3 #f48771 #ffd370 #3794ff #89d185 #f48771 #21a6ff #6fc3df'.split(' '),
  },
  'hc-light': {
    body: 'vscode-high-contrast vscode-high-contrast-light',
    paper: '#ffffff',
    colours: '#292929 #292929b3 #b5200d #895503 #1a85ff #374e06 #b5200d #0f4a85 #0f4a85'.split(' '),
  },
};

const STYLES = readFileSync(join(import.meta.dirname, '../../media/preview.css'), 'utf8');

/** The page for what the preview's markdown came to. */
export function previewPage(html: string, theme: string): string {
  const { body, paper, colours } = THEMES[theme] ?? { body: '', paper: '', colours: [] };
  const values = NAMES.flatMap((name, i) => (colours[i] ? [`--vscode-${name}: ${colours[i]};`] : []));
  const own = [
    `html { ${values.join(' ')} --vscode-editor-foreground: ${colours[0] ?? ''};`,
    '--markdown-font-family: "Liberation Sans", sans-serif; --vscode-editor-font-family: "Liberation Mono", monospace; }',
    `body { background: ${paper}; color: var(--vscode-foreground); padding: 0 26px; font: 14px/22px var(--markdown-font-family); }`,
    'a { color: var(--vscode-textLink-foreground); } pre { overflow: auto; }',
  ].join('\n');
  return [
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Preview</title>',
    `<style>${own}</style><style>${STYLES}</style></head>`,
    `<body class="vscode-body ${body}"><main class="markdown-body" dir="auto">${html}</main></body></html>`,
  ].join('\n');
}
