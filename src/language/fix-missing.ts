/** A line for a figure that the note uses and does not have yet. */
import type { Finding } from '../engine/results';
import { type Noted, lineAbove, mends } from './edits';
import type { Proposal } from './quick-fixes';
import { said } from './said';

/** What shops state most, tried in turn: the first that fits where the name is used. */
const FIRST_GUESSES = [
  '1 mm',
  '100 rpm',
  '20 m/min',
  '0.1 mm/rev',
  '10°',
  '1',
  '1 kg',
  '10 min',
  '1 kW',
  '20 °C',
  '100 N',
  '1 AUD',
];

export function missingFigure(noted: Noted, finding: Finding): readonly Proposal[] {
  const row = noted.sheet.rowAt(finding.line);
  const name = String(finding.data['name']);
  if (row?.block.word !== 'figures') return [];
  for (const value of FIRST_GUESSES) {
    const edits = [lineAbove(noted.text, row, `${name} = ${value}   # fill in`)];
    if (mends(noted, edits, finding.code))
      return [{ title: said('Give {0} a line of its own', name), edits }];
  }
  return [];
}
