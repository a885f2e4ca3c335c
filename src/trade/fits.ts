/** Fits of a hole and a shaft of one size by ISO 286. */
import { type IsoLimits, isoLimits } from '../quantity/iso286';
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

function limitsOf(given: Given, part: 'hole' | 'shaft'): IsoLimits | Refusal {
  const [size, code] = [given.number('size'), given.code(part)];
  const found = isoLimits(size, code);
  if (!('upper' in found))
    return {
      refused: `ISO 286 gives no limits for ${mm(size)} \`${code}\` here: take another class.`,
      parameter: part,
      code: found.code,
      data: found.data,
    };
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
    field('clearance_max', 'µm', 'largest hole less smallest shaft; negative is interference'),
    field('clearance_min', 'µm', 'smallest hole less largest shaft; negative is interference'),
    { ...field('kind', '', 'clearance, transition or interference fit'), words: true },
  ],
  compute: (given) => {
    const parts = both(given);
    if ('refused' in parts) return parts;
    const { hole, shaft } = parts;
    const [clearance_max, clearance_min] = [hole.upper - shaft.lower, hole.lower - shaft.upper];
    return { clearance_max, clearance_min, kind: kindOf(clearance_max, clearance_min) };
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
    ];
  },
  why:
    'Each class is a letter for where its limits lie about the nominal size and a number for how wide they are. The ' +
    'loosest pair is the largest hole with the smallest shaft, the tightest the other way round; most pairs made fall ' +
    'near the middle. Measure both parts at 20 °C.',
  conditions: positive(SIZE),
  source: 'ISO 286-1:2010, tables 1 to 5; ISO 286-2',
  cautions: ['fits_and_heat'],
  picture: null,
  checks: [
    {
      call: 'fit(25 mm, H7, h6)',
      expect: { clearance_max: 34, clearance_min: 0, kind: 'clearance fit' },
      tolerance: 0,
      source: 'hand arithmetic on handbook limits, from memory',
    },
    {
      call: 'fit(16 mm, H7, k6)',
      expect: { clearance_max: 17, clearance_min: -12, kind: 'transition fit' },
      tolerance: 0,
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

export const FIT_FORMULAS: readonly Formula[] = [fit];
