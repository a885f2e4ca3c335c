/** The fields that the notebook acts on, at the beginning of a card's line. */
import { KNOWN_FIELDS, type KnownField, type Sheet } from '../engine/index';
import type { Block } from '../notation/syntax';
import { baseUnit } from '../quantity/units';
import type { Answer } from './completion';

/** Units in which a card states a field, where the kind's plainest one is not what a shop writes. */
const STATED = new Map([
  ['speeds', 'rpm'],
  ['min_speed', 'rpm'],
  ['max_speed', 'rpm'],
  ['power', 'kW'],
  ['efficiency', '%'],
  ['expansion', 'µm/m/K'],
  ['modulus', 'N/mm^2'],
  ['specific_force', 'N/mm^2'],
  ['hss_speed', 'm/min'],
  ['carbide_speed', 'm/min'],
  ['rate', 'AUD/h'],
]);

/** The unit in which a card states a field, as it is written; empty for plain numbers. */
export const statedUnit = ({ name, dimension }: KnownField): string =>
  STATED.get(name) ?? baseUnit(dimension).symbol;

/** `typed` is a field's beginning, which does not count as one given already. */
export function cardFields(sheet: Sheet, block: Block, typed: string): readonly Answer[] {
  const given = new Set(
    sheet
      .rows()
      .filter((row) => row.block === block)
      .flatMap(({ statement }) => (statement.kind === 'figure' ? [statement.name.text] : [])),
  );
  const open = KNOWN_FIELDS.filter(
    ({ word, name }) => word === block.word && (name === typed || !given.has(name)),
  );
  return open.map((field): Answer => {
    const { name, list, meaning } = field;
    const unit = statedUnit(field);
    const value = list ? '[$1]' : '$1';
    const blank = unit === '' || unit === '%' ? '' : ' ';
    return {
      label: name,
      kind: 'field',
      detail: meaning,
      insert: `${name} = ${value}${blank}${unit}`,
      snippet: true,
    };
  });
}
