/** Fits of a hole and a shaft of one size by ISO 286. */
import { type IsoLimits, isoLimits } from '../quantity/iso286';
import type { Fault } from '../quantity/value';
import { field, length, mm, positive } from './build';
import type { Formula, Given, Parameter, Refusal } from './formula';

const SIZE = length('size', 'nominal size that hole and shaft share');
const HOLE: Parameter = {
  name: 'hole',
  kind: 'code',
  unit: '',
  meaning: 'ISO 286 class of the hole, such as H7',
};
const SHAFT: Parameter = {
  name: 'shaft',
  kind: 'code',
  unit: '',
  meaning: 'ISO 286 class of the shaft, such as g6',
};

/** The table's own finding says what it has: letters, grades or sizes. */
const notHeld = (size: number, code: string, parameter: string, found: Fault): Refusal => ({
  refused: `ISO 286 gives no limits for ${mm(size)} \`${code}\` here: take another class.`,
  parameter,
  code: found.code,
  data: found.data,
});

function limitsOf(given: Given, part: 'hole' | 'shaft'): IsoLimits | Refusal {
  const [size, code] = [given.number('size'), given.code(part)];
  const found = isoLimits(size, code);
  if (!('upper' in found)) return notHeld(size, code, part, found);
  if (found.sense === part) return found;
  const other = part === 'hole' ? code.toUpperCase() : code.toLowerCase();
  return {
    refused: `\`${code}\` is a ${found.sense}: the ${part} has a ${part === 'hole' ? 'capital' : 'small'} letter, such as \`${other}\`.`,
    parameter: part,
    offers: [other],
  };
}

/** Both parts' deviations, or why there are none. */
function both(given: Given): { hole: IsoLimits; shaft: IsoLimits } | Refusal {
  const hole = limitsOf(given, 'hole');
  if ('refused' in hole) return hole;
  const shaft = limitsOf(given, 'shaft');
  return 'refused' in shaft ? shaft : { hole, shaft };
}

const PER_MM = 1000;

const signed = (um: number): string => (um > 0 ? `+${um}` : String(um));

/** `+21/0 µm`, as drawings write a zone. */
const zone = ({ upper, lower }: IsoLimits): string => `${signed(upper)}/${signed(lower)} µm`;

function kindOf(most: number, least: number): string {
  if (least >= 0) return 'clearance fit';
  return most <= 0 ? 'interference fit' : 'transition fit';
}

const fit: Formula = {
  name: 'fit',
  family: 'fits',
  title: 'Clearance or interference of a fit',
  parameters: [SIZE, HOLE, SHAFT],
  result: [
    field('hole_max', 'mm', 'largest hole'),
    field('hole_min', 'mm', 'smallest hole'),
    field('shaft_max', 'mm', 'largest shaft'),
    field('shaft_min', 'mm', 'smallest shaft'),
    field('clearance_max', 'µm', 'largest hole less smallest shaft; negative is interference'),
    field('clearance_min', 'µm', 'smallest hole less largest shaft; negative is interference'),
    field('middle', 'µm', 'clearance where both parts are in the middle of their limits'),
    { ...field('kind', '', 'clearance, transition or interference fit'), words: true },
    { ...field('zones', '', 'how the two zones lie about the nominal size'), words: true },
    { ...field('checked', '', 'how far the values of the table were checked'), words: true },
  ],
  compute: (given) => {
    const parts = both(given);
    if ('refused' in parts) return parts;
    const { hole, shaft } = parts;
    const [clearance_max, clearance_min] = [hole.upper - shaft.lower, hole.lower - shaft.upper];
    const size = given.number('size');
    return {
      hole_max: size + hole.upper / PER_MM,
      hole_min: size + hole.lower / PER_MM,
      shaft_max: size + shaft.upper / PER_MM,
      shaft_min: size + shaft.lower / PER_MM,
      clearance_max,
      clearance_min,
      middle: (clearance_max + clearance_min) / 2,
      kind: kindOf(clearance_max, clearance_min),
      zones: `hole ${zone(hole)}, shaft ${zone(shaft)}`,
      checked: hole.check === shaft.check ? hole.check : `hole: ${hole.check}; shaft: ${shaft.check}`,
    };
  },
  working: (given) => {
    const parts = both(given);
    if ('refused' in parts) return [];
    const size = mm(given.number('size'));
    const read = (part: 'hole' | 'shaft', end: 'upper' | 'lower') => ({
      name: `${part}_${end}`,
      expression: `${parts[part][end]} µm`,
      words: `${end} deviation of ${size} ${given.code(part)}, ${parts[part].check}`,
    });
    return [
      read('hole', 'upper'),
      read('hole', 'lower'),
      read('shaft', 'upper'),
      read('shaft', 'lower'),
      {
        name: 'clearance_max',
        expression: 'hole_upper - shaft_lower',
        words: 'largest hole less smallest shaft',
      },
      {
        name: 'clearance_min',
        expression: 'hole_lower - shaft_upper',
        words: 'smallest hole less largest shaft',
      },
      {
        name: 'middle',
        expression: '(clearance_max + clearance_min) / 2',
        words: 'half way between the two',
      },
      { name: 'hole_max', expression: 'size + hole_upper', words: 'size and deviation' },
      { name: 'hole_min', expression: 'size + hole_lower', words: 'size and deviation' },
      { name: 'shaft_max', expression: 'size + shaft_upper', words: 'size and deviation' },
      { name: 'shaft_min', expression: 'size + shaft_lower', words: 'size and deviation' },
    ];
  },
  why:
    'Each class is a letter for where its limits lie about the nominal size and a number for how wide they are. The ' +
    'loosest pair is the largest hole with the smallest shaft, the tightest the other way round; most pairs made fall ' +
    'near the middle. Measure both parts at 20 °C.',
  conditions: positive(SIZE),
  source: 'ISO 286-1:2010, tables 1 to 5; ISO 286-2',
  cautions: ['fits_and_heat'],
  picture: 'fit_zones',
  checks: [
    {
      call: 'fit(25 mm, H7, h6)',
      expect: {
        clearance_max: 34,
        clearance_min: 0,
        middle: 17,
        kind: 'clearance fit',
        zones: 'hole +21/0 µm, shaft 0/-13 µm',
      },
      tolerance: 0,
      source: 'hand arithmetic on handbook limits, from memory',
    },
    {
      call: 'fit(16 mm, H7, k6)',
      expect: {
        hole_max: 16.018,
        hole_min: 16,
        shaft_max: 16.012,
        shaft_min: 16.001,
        clearance_max: 17,
        clearance_min: -12,
        kind: 'transition fit',
      },
      tolerance: 1e-12,
      source: 'hand arithmetic on handbook limits, from memory',
    },
    {
      call: 'fit(25 mm, H7, p6)',
      expect: { clearance_max: -1, clearance_min: -35, kind: 'interference fit' },
      tolerance: 0,
      source: 'hand arithmetic on handbook limits, from memory',
    },
  ],
};

const CLASS: Parameter = {
  name: 'class',
  kind: 'code',
  unit: '',
  meaning: 'ISO 286 class, such as H7 for a hole or g6 for a shaft',
};

const isoClass: Formula = {
  name: 'iso_limits',
  family: 'fits',
  title: 'Limits of a size by its ISO 286 class',
  parameters: [{ ...SIZE, meaning: 'nominal size' }, CLASS],
  result: [
    field('upper', 'µm', 'upper deviation'),
    field('lower', 'µm', 'lower deviation'),
    field('largest', 'mm', 'largest size'),
    field('smallest', 'mm', 'smallest size'),
    { ...field('checked', '', 'how far the values of the table were checked'), words: true },
  ],
  compute: (given) => {
    const size = given.number('size');
    const found = isoLimits(size, given.code('class'));
    if (!('upper' in found)) return notHeld(size, given.code('class'), 'class', found);
    const { upper, lower, check } = found;
    return { upper, lower, largest: size + upper / PER_MM, smallest: size + lower / PER_MM, checked: check };
  },
  working: (given) => {
    const found = isoLimits(given.number('size'), given.code('class'));
    if (!('upper' in found)) return [];
    return [
      { name: 'upper', expression: `${found.upper} µm`, words: `upper deviation, ${found.check}` },
      { name: 'lower', expression: `${found.lower} µm`, words: `lower deviation, ${found.check}` },
      { name: 'largest', expression: 'size + upper', words: 'size and deviation' },
      { name: 'smallest', expression: 'size + lower', words: 'size and deviation' },
    ];
  },
  why:
    'The number is how wide the limits are, the letter where they lie: capital letters are holes, small ones shafts. H ' +
    'holes begin at the nominal size and go up, h shafts end at it; letters before h leave room, letters after it take it. ' +
    'Larger sizes get wider limits, in steps, since they are harder to hold.',
  conditions: positive(SIZE),
  source: 'ISO 286-1:2010, tables 1 to 5; holes R and S by its rule',
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'iso_limits(140 mm, s6)',
      expect: { upper: 117, lower: 92, largest: 140.117, smallest: 140.092 },
      tolerance: 1e-9,
      source: 'upper limit digit for digit in an open general-purpose CAD table, IT grade likewise',
    },
    {
      call: 'iso_limits(40 mm, P7)',
      expect: { upper: -17, lower: -42 },
      tolerance: 0,
      source: 'upper limit digit for digit in an open numeric table of ISO 286-2',
    },
    {
      call: 'iso_limits(25 mm, R7)',
      expect: { upper: -20, lower: -41 },
      tolerance: 0,
      source: 'handbook limits, from memory',
    },
  ],
};

export const FIT_FORMULAS: readonly Formula[] = [fit, isoClass];
