import type { ExtensionContext } from 'vscode';

/** The extension's version, as its package says. */
export function versionOf({ extension }: ExtensionContext): string {
  const { version } = extension.packageJSON as { readonly version?: unknown };
  return typeof version === 'string' ? version : '';
}
