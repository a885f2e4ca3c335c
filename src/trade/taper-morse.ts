/** Size and angle of Morse tapers. */
import { degrees, field } from './build';
import type { Formula } from './formula';
import { morseOf } from './taper-callout';

const INCHES_PER_FOOT = 12;

const morse: Formula = {
  name: 'morse_taper',
  family: 'taper',
  title: 'Size and angle of a Morse taper',
  parameters: [
    { name: 'number', kind: 'code', unit: '', meaning: 'number of the Morse taper, from MT0 to MT6' },
  ],
  result: [
    field('gauge_diameter', 'mm', 'diameter at the gauge line, near the large end'),
    field('per_foot', 'in/ft', 'change of the diameter for each foot'),
    field('one_in', '', 'length in which the diameter changes by one: the x of 1:x'),
    field('half_angle', '°', 'angle between flank and axis'),
  ],
  compute: (given) => {
    const row = morseOf(given.code('number'));
    if (!row)
      return {
        refused: `\`${given.code('number')}\` is no Morse taper: give one from \`MT0\` to \`MT6\`.`,
        parameter: 'number',
      };
    const ratio = row.per_foot / INCHES_PER_FOOT;
    return {
      gauge_diameter: row.gauge,
      per_foot: row.per_foot,
      one_in: 1 / ratio,
      half_angle: degrees(Math.atan(ratio / 2)),
    };
  },
  working: (given) => {
    const row = morseOf(given.code('number'));
    if (!row) return [];
    return [
      { name: 'gauge_diameter', expression: `${row.gauge} mm`, words: 'from the table' },
      { name: 'per_foot', expression: `${row.per_foot} in/ft`, words: 'from the table' },
      { name: 'one_in', expression: '1 / per_foot', words: 'the length for a change of one' },
      { name: 'half_angle', expression: 'atan(per_foot / 2)', words: 'half the change lies on either side' },
    ];
  },
  why:
    'All Morse tapers are near 1:20 and no two are quite alike, so one set for number 2 does not fit number 3. Set the slide ' +
    'by an indicator along a good shank rather than by the scale.',
  conditions: [],
  source:
    'ISO 296; taper for each foot and gauge diameter from printed tables of shanks, checked against 1:x and inch diameters ' +
    'from memory',
  cautions: ['lathe'],
  picture: null,
  checks: [
    {
      call: 'morse_taper(MT2)',
      expect: { per_foot: 0.599400599401, gauge_diameter: 17.78 },
      tolerance: 5e-5,
      source: '1:20.020 and 0.700 in, from memory',
    },
    {
      call: 'morse_taper(MT6)',
      expect: { per_foot: 0.625651720542, one_in: 19.18 },
      tolerance: 5e-4,
      source: '1:19.180, from memory',
    },
  ],
};

export const MORSE_FORMULAS: readonly Formula[] = [morse];
