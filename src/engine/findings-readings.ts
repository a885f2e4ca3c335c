/** What the engine finds of readings and of what was used, in words. */
import { type FindingKind, word } from '../quantity/finding';
import type { FaultData } from '../quantity/value';
import { kind, withUnit, write } from './findings-text';

const SLIP = ' Did the point or the unit slip?';
const slip = (d: FaultData): string => (d['slip'] === true ? SLIP : '');

export const readingFindings: Readonly<Record<string, FindingKind>> = {
  'not-measured-yet': kind(
    'info',
    (d) => `Waits for a reading: write \`${word(d, 'name')} measured …\` when it is measured.`,
    'A plan may use a reading before there is one; the line fills in when it comes.',
  ),
  'position-missing': kind(
    'error',
    (d) =>
      `Not every reading of \`${word(d, 'name')}\` says where it was taken, in one kind of unit. Write each with its place: \`${word(d, 'name')} measured 12.76 mm at 10 mm, 12.73 mm at 70 mm\`.`,
    'A taper is a change of size over a distance, so a reading without its place says nothing about it.',
  ),
  'not-used-yet': kind(
    'info',
    (d) => `Waits for what was run: write \`${word(d, 'name')} used …\` when it is known.`,
    'A plan may refer to what was really run before that is known.',
  ),
  'reading-kind': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` is in ${word(d, 'wanted') || 'plain numbers'}, this reading in ${word(d, 'unit') || 'a plain number'}. Give it a unit of the same kind.`,
    'A reading is compared with its figure, so both must measure the same kind of thing.',
  ),
  'used-kind': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` is planned in ${word(d, 'wanted') || 'plain numbers'}, this is in ${word(d, 'unit') || 'a plain number'}. Give it a unit of the same kind.`,
    'What was used stands beside the plan, so both must be the same kind of thing.',
  ),
  'reading-warm': kind(
    'warning',
    (d) =>
      `This was read at ${withUnit(d, 'temperature')}, limits are for 20 °C, and ${word(d, 'material') === '' ? 'the front matter names no material' : `\`${word(d, 'material')}\` is no card with an \`expansion\``}: it is judged as read. Write \`material: steel_C45\` in the front matter, or the name of the card it is of.`,
    'Metal that is warm is too large; a size is meant at 20 °C (ISO 1).',
  ),
  'place-unit': kind(
    'warning',
    (d) => `At ${word(d, 'at')} of what?${write(d, ' Give it its unit.')} A mere count needs no \`at\`.`,
    'A place along the work is a length, and a reading at a temperature is brought to 20 °C.',
  ),
  'readings-apart': kind(
    'info',
    (d) =>
      `The readings of \`${word(d, 'name')}\` are ${withUnit(d, 'apart')} apart, its limits allow ${withUnit(d, 'allowed')}: true it up before ${withUnit(d, 'by')} comes off.${d['sense'] === 'shaft' && d['placed'] === true ? ` What can still save it says \`taper_rescue(${word(d, 'name')}.readings, ${withUnit(d, 'low')}, ${withUnit(d, 'high')})\`.` : ''}`,
    'What is left counts from the place with most metal: taken off everywhere, it takes too much elsewhere.',
  ),
  'metal-gone': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` is ${withUnit(d, 'by')} too ${d['sense'] === 'hole' ? 'large' : 'small'}: past ${withUnit(d, d['sense'] === 'hole' ? 'high' : 'low')}${d['slip'] === true ? `.${SLIP} If not,` : ', and'} the metal is gone. Tell the customer, or build up, sleeve or start again.`,
    'A shaft under its lower limit or a hole over its upper one cannot be cut into size.',
  ),
  'outside-limits': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` is ${withUnit(d, 'by')} ${d['over'] === true ? 'over' : 'under'} its limits ${withUnit(d, 'low')} to ${withUnit(d, 'high')} at final inspection.${slip(d)}`,
    'What goes out must lie within the limits that were asked for.',
  ),
  'side-unknown': kind(
    'info',
    (d) =>
      `\`${word(d, 'name')}\` is ${withUnit(d, 'by')} ${d['over'] === true ? 'over' : 'under'} its limits.${slip(d)} Write \`shaft\` or \`hole\` after its limits and the notebook says whether metal is left.`,
    'Without knowing which side is metal nobody can say whether a size can still be cut.',
  ),
};
