/** The user's settings, read where they are needed so that a change counts at once. */
import { type Uri, workspace } from 'vscode';
import type { FixSettings } from '../../language/quick-fixes';
import type { Display } from '../../quantity/display';

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

export function displaySettings(note: Uri): Display {
  const settings = workspace.getConfiguration(SECTION, note);
  const digits = (unit: string, usual: number): readonly [string, number] => {
    const set = settings.get<unknown>(`decimals.${unit}`);
    return [unit, typeof set === 'number' && set >= 0 && set <= 9 ? Math.round(set) : usual];
  };
  return {
    decimals: new Map([digits('mm', 3), digits('in', 4)]),
    angles: settings.get('angles') === 'minutes' ? 'minutes' : 'decimal',
  };
}

/** The units of notes whose head does not name them. */
export function unitsOf(note: Uri): 'mm' | 'in' {
  return jobSettings(note).units;
}
