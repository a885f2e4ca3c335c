/** The nearest fraction of an inch. */
import { count, field, length, must, optional, positive } from './build';
import type { Formula, Given } from './formula';

const SIZE = length('size', 'size to write as a fraction');
const PARTS = optional(count('parts', 'finest part of the inch that may be used; 64 when left out'));

const INCH = 25.4;
const USUAL_PARTS = 64;
/** Fractions are halved and halved again. */
const FINEST = 128;

const partsOf = (given: Given): number => given.numberOr('parts', USUAL_PARTS);

/** So many parts of the inch; half way it goes up. */
const nearest = (given: Given): number => Math.floor((given.number('size') / INCH) * partsOf(given) + 0.5);

/** `55/64 in`, `1 3/8 in`, `2 in`, in lowest terms. */
export function inchFraction(parts: number, of: number): string {
  let [above, below] = [parts % of, of];
  while (above % 2 === 0 && below % 2 === 0) [above, below] = [above / 2, below / 2];
  const whole = Math.floor(parts / of);
  const words = [whole > 0 || above === 0 ? String(whole) : '', above > 0 ? `${above}/${below}` : ''];
  return `${words.filter((word) => word !== '').join(' ')} in`;
}

const nearestFraction: Formula = {
  name: 'nearest_fraction',
  family: 'worn',
  title: 'Nearest fraction of an inch',
  parameters: [SIZE, PARTS],
  result: [
    { ...field('fraction', '', 'the fraction'), words: true },
    { ...field('exactly', 'in', 'its size'), choice: true },
    field('off', 'mm', 'by how much the fraction is larger than the size'),
  ],
  compute: (given) => {
    const [above, of] = [nearest(given), partsOf(given)];
    return {
      fraction: inchFraction(above, of),
      exactly: above / of,
      off: (above / of) * INCH - given.number('size'),
    };
  },
  working: (given) => [
    {
      name: 'exactly',
      expression: `round_down(size / 1 in * ${partsOf(given)} + 0.5, 1) / ${partsOf(given)} * 1 in`,
      words: 'the size in parts of the inch, to the nearest; half way it goes up',
    },
    { name: 'off', expression: 'exactly - size', words: 'the fraction less the size' },
  ],
  why:
    'Fractions of the inch are halved again and again, so any size lies within half a part of one: within 0.2 mm for a ' +
    'sixty-fourth. That a fraction is near says nothing by itself; that a coarse one is near does.',
  conditions: [
    ...positive(SIZE),
    must(
      'parts',
      'parts of the inch are 1, 2, 4 and so on to 128',
      (given) => partsOf(given) <= FINEST && Number.isInteger(Math.log2(partsOf(given))),
      (given) => `No rule is divided in parts of 1/${partsOf(given)}: give 8, 16, 32 or 64.`,
    ),
  ],
  source: 'arithmetic; the inch is 25.4 mm exactly (ISO 80000-3)',
  cautions: [],
  picture: null,
  checks: [
    {
      call: 'nearest_fraction(22 mm)',
      expect: { fraction: '55/64 in', exactly: 0.859375, off: -0.171875 },
      tolerance: 1e-9,
      source: 'exact search over all 64ths',
    },
    {
      call: 'nearest_fraction(3 mm)',
      expect: { fraction: '1/8 in', exactly: 0.125, off: 0.175 },
      tolerance: 1e-9,
      source: 'exact search over all 64ths',
    },
    {
      call: 'nearest_fraction(35 mm, parts: 8)',
      expect: { fraction: '1 3/8 in', exactly: 1.375, off: -0.075 },
      tolerance: 1e-9,
      source: 'read off an inch rule with a millimetre edge, and 34.925 mm by hand',
    },
  ],
};

export const FRACTION_FORMULAS: readonly Formula[] = [nearestFraction];
