import type { ExtensionContext } from 'vscode';

/** Called once, when the first markdown document opens. It only registers; nothing is worked out here. */
export function activate(_context: ExtensionContext): void {}
