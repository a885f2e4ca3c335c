/** The pictures that belong to a line: its formula's, the limits with what was measured, the shares of its inputs. */
import type { ReadingResult, Row, Sheet } from '../../engine/index';
import type { CallNode } from '../../notation/syntax';
import { callOf } from '../../notation/walk';
import { showValue } from '../../quantity/display';
import type { Quantity, Value } from '../../quantity/value';
import { type How, PREVIEW, inUnits } from '../how';
import { element } from '../html';
import { ballSetup } from './ball';
import { boltCircle, holeCircle } from './circles';
import type { Figures } from './figures';
import { kneePasses } from './knee';
import { taperReadings, taperSetOver } from './tapers';
import { threadWires } from './thread';
import { fitZones, limitsBar, sharesBars } from './zones';

/** By the key that a formula names. */
export const PICTURES: ReadonlyMap<string, (figures: Figures) => string | null> = new Map([
  ['ball_setup', ballSetup],
  ['knee_passes', kneePasses],
  ['hole_circle', holeCircle],
  ['bolt_circle', boltCircle],
  ['fit_zones', fitZones],
  ['taper_set_over', taperSetOver],
  ['taper_readings', taperReadings],
  ['thread_wires', threadWires],
]);

/** Pictures of a line as SVG, the formula's first. */
export function picturesOf(sheet: Sheet, row: Row, how: How = PREVIEW): readonly string[] {
  const { statement, value, asked } = row;
  if (value === null || (statement.kind !== 'figure' && statement.kind !== 'show')) return [];
  const show = (q: Quantity): string => showValue(inUnits(q, how));
  const made = [formulaPicture(sheet, callOf(statement.expression), value, show)];
  if (statement.kind === 'figure' && asked && value.kind === 'number') {
    const name = statement.name.text;
    made.push(limitsBar(name, value, asked, lastReadings(sheet).get(name), show));
  }
  return made.filter((it) => it !== null);
}

/** The shares of the inputs in a result's limits; null where one input or none moves it. */
export function sharesOf(sheet: Sheet, { statement, value }: Row): string | null {
  if (value?.kind !== 'number') return null;
  const name = statement.kind === 'figure' ? statement.name.text : '';
  return sharesBars(name, value, (input) => sheet.inputName(input));
}

function formulaPicture(
  sheet: Sheet,
  node: CallNode | null,
  value: Value,
  show: Figures['show'],
): string | null {
  const call = node && sheet.call(node);
  const draw = PICTURES.get(call?.formula.picture ?? '');
  return call && draw ? draw({ arguments: call.arguments, value, show }) : null;
}

/** The last readings by name, gathered once for each set of rows. */
const gathered = new WeakMap<readonly Row[], ReadonlyMap<string, ReadingResult>>();

function lastReadings(sheet: Sheet): ReadonlyMap<string, ReadingResult> {
  const rows = sheet.rows();
  let known = gathered.get(rows);
  if (!known) gathered.set(rows, (known = gather(rows)));
  return known;
}

function gather(rows: readonly Row[]): ReadonlyMap<string, ReadingResult> {
  return new Map(rows.flatMap(({ reading }) => (reading ? [[reading.path, reading] as const] : [])));
}

export function figure(svg: string): string {
  return element('figure', { class: 'scribeline-picture' }, svg);
}
