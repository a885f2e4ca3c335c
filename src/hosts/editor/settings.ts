/** The user's settings, read where they are needed so that a change counts at once. */
import { type Uri, workspace } from 'vscode';
import type { FixSettings } from '../../language/quick-fixes';

export const SECTION = 'scribeline';

export interface HintSettings {
  readonly results: boolean;
  readonly parameterNames: boolean;
}

export function hintSettings(note: Uri): HintSettings {
  const settings = workspace.getConfiguration(SECTION, note);
  return {
    results: settings.get('hints.results', true),
    parameterNames: settings.get('hints.parameterNames', true),
  };
}

export function fixSettings(note: Uri): FixSettings {
  const choice = workspace.getConfiguration(SECTION, note).get('speedChoice');
  return { speedChoice: choice === 'nearest' ? 'nearest' : 'below' };
}

/** Whether the preview shows every working unfolded. */
export function workingsInPreview(note: Uri): boolean {
  return workspace.getConfiguration(SECTION, note).get('preview.workings', false);
}

export interface JobSettings {
  /** Layout of a new job's path. */
  readonly path: string;
  readonly units: 'mm' | 'in';
}

export function jobSettings(place: Uri | undefined): JobSettings {
  const settings = workspace.getConfiguration(SECTION, place);
  return {
    path: settings.get('jobs.path', ''),
    units: settings.get('units') === 'in' ? 'in' : 'mm',
  };
}
