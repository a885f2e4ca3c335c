/** The plain mathematics of the notation, as data with a function. All take and give units, and limits travel. */
import { made, mismatch, plain } from './arithmetic';
import {
  type Dimension,
  ANGLE,
  NUMBER,
  TEMPERATURE,
  TEMPERATURE_DIFFERENCE,
  dimensionName,
  powerDimension,
} from './dimension';
import { type Spread, failsBetween, spread1, spread2 } from './spread';
import { ONE } from './unit';
import { powerUnit } from './unit-products';
import { DEGREE } from './units';
import { type Fault, type Quantity, fault, isFault } from './value';

export interface MathParameter {
  readonly name: string;
  readonly meaning: string;
  readonly optional?: true;
  /** Any number of these may follow. */
  readonly repeats?: true;
}

export interface MathFunction {
  readonly name: string;
  readonly parameters: readonly MathParameter[];
  /** Least and most arguments; `Infinity` where the last repeats. */
  readonly counts: readonly [least: number, most: number];
  readonly meaning: string;
  /** A call of the notation and what it gives, run by a test. */
  readonly example: readonly [call: string, gives: string];
  /** Takes as many arguments as `counts` allows. */
  compute(given: readonly Quantity[]): Quantity | Fault;
}

/** The ratio of a circle to its diameter: the constant `pi`. */
export const PI: Quantity = plain(Math.PI);

/** Callers keep to `counts`. */
function missing(): never {
  throw new Error('fewer arguments than the function takes');
}

const RADIANS = Math.PI / 180;

/** Sine of an angle in degrees, exact at the quarter turns and at 30°. */
export function sine(degrees: number): number {
  const turned = degrees % 360;
  const folded = turned > 270 ? turned - 360 : turned < -270 ? turned + 360 : turned;
  const x = folded > 90 ? 180 - folded : folded < -90 ? -180 - folded : folded;
  return Math.abs(x) === 30 ? x / 60 : Math.sin(x * RADIANS);
}

export function cosine(degrees: number): number {
  return sine(90 - Math.abs(degrees % 360));
}

/** The first two places of `offset + k * 180` from `low` to `high`: one crest and one trough at the most matter. */
function quarterTurns(low: number, high: number, offset: number): readonly number[] {
  const first = Math.ceil((low - offset) / 180) * 180 + offset;
  return [first, first + 180].filter((x) => x <= high);
}
const crests = (low: number, high: number): readonly number[] => quarterTurns(low, high, 90);
const ends = (low: number, high: number): readonly number[] => quarterTurns(low, high, 0);

function angleOf(q: Quantity, name: string): Fault | null {
  if (q.dimension === ANGLE) return null;
  if (q.dimension === NUMBER) return fault('angle-needed', { function: name });
  return fault('argument-of-wrong-kind', {
    function: name,
    needed: 'an angle',
    given: dimensionName(q.dimension),
  });
}

function numberOf(q: Quantity, name: string): Fault | null {
  if (q.dimension === NUMBER) return null;
  return fault('argument-of-wrong-kind', {
    function: name,
    needed: 'a plain number',
    given: dimensionName(q.dimension),
  });
}

function ofAngle(
  name: string,
  f: (degrees: number) => number,
  turns: (low: number, high: number) => readonly number[],
): (given: readonly Quantity[]) => Quantity | Fault {
  return ([x = missing()]) => angleOf(x, name) ?? made(f(x.value) + 0, NUMBER, ONE, spread1(x, f, turns));
}

/** An angle in degrees from a plain number; `f` gives radians. */
function toAngle(name: string, f: (x: number) => number): (given: readonly Quantity[]) => Quantity | Fault {
  const degrees = (x: number): number => f(x) / RADIANS;
  return ([x = missing()]) => {
    const wrong = numberOf(x, name);
    if (wrong) return wrong;
    const value = degrees(x.value);
    if (Number.isNaN(value))
      return fault('outside-domain', { function: name, value: x.value, lowest: -1, highest: 1 });
    return made(value, ANGLE, DEGREE, spread1(x, degrees));
  };
}

function tangent(x: Quantity): Quantity | Fault {
  const wrong = angleOf(x, 'tan');
  if (wrong) return wrong;
  const tan = (degrees: number): number => sine(degrees) / cosine(degrees);
  if (cosine(x.value) === 0) return fault('no-tangent', { angle: x.value });
  const spread = failsBetween(x, (low, high) => crests(low, high).length > 0) ?? spread1(x, tan);
  return made(tan(x.value) + 0, NUMBER, ONE, spread);
}

function squareRoot(x: Quantity): Quantity | Fault {
  const dimension = powerDimension(x.dimension, 0.5);
  if (x.dimension.point) return fault('temperature-scaled', { operator: 'sqrt' });
  if (!dimension) return fault('root-not-whole', { given: dimensionName(x.dimension), unit: x.unit.symbol });
  if (x.value < 0) return fault('root-of-negative');
  return made(Math.sqrt(x.value), dimension, powerUnit(x.unit, 0.5), spread1(x, Math.sqrt));
}

function magnitude(x: Quantity): Quantity | Fault {
  if (x.dimension.point) return fault('temperature-scaled', { operator: 'abs' });
  return made(Math.abs(x.value), x.dimension, x.unit, spread1(x, Math.abs, [0]));
}

type Pair = (a: Quantity, b: Quantity) => Quantity | Fault;

/** One function of two, taken through all arguments from the left. */
function through(pair: Pair): (given: readonly Quantity[]) => Quantity | Fault {
  return ([first = missing(), ...rest]) =>
    rest.reduce<Quantity | Fault>((so, next) => (isFault(so) ? so : pair(so, next)), first);
}

/** Where two arguments that move with one input are equal: there the lesser or greater of them turns round. */
const meeting = (p0: number, p1: number, q0: number, q1: number): number => (q0 - p0) / (p1 - p0 - (q1 - q0));

const lesserOrGreater =
  (name: string, f: (x: number, y: number) => number): Pair =>
  (a, b) =>
    mismatch(a, b, name) ?? made(f(a.value, b.value), a.dimension, a.unit, spread2(a, b, f, meeting));

/** Where the distance of two legs that move with one input is least. */
const nearest = (p0: number, p1: number, q0: number, q1: number): number => {
  const [dp, dq] = [p1 - p0, q1 - q0];
  return -(p0 * dp + q0 * dq) / (dp * dp + dq * dq);
};

const distance: Pair = (a, b) => {
  if (a.dimension.point || b.dimension.point) return fault('temperature-scaled', { operator: 'hypot' });
  const spread = (): Spread => spread2(a, b, Math.hypot, nearest);
  return mismatch(a, b, 'hypot') ?? made(Math.hypot(a.value, b.value), a.dimension, a.unit, spread());
};

const direction: Pair = (y, x) => {
  const wrong = mismatch(y, x, 'atan2');
  if (wrong) return wrong;
  if (y.dimension.point) return fault('temperature-scaled', { operator: 'atan2' });
  if (y.value === 0 && x.value === 0) return fault('no-direction');
  const degrees = (p: number, q: number): number => Math.atan2(p, q) / RADIANS + 0;
  const spread = spread2(y, x, degrees);
  // Behind the origin the angle jumps from -180° to 180°, and at it there is none.
  if (spread !== null && !('kind' in spread))
    for (const { input, at } of spread)
      if (Math.max(...at) - Math.min(...at) >= 180) return fault('fails-at-limit', { input });
  return made(degrees(y.value, x.value), ANGLE, DEGREE, spread);
};

/** A ratio this close to a whole number is one: 0.7 mm is seven steps of 0.1 mm. */
const WHOLE = 1e-9;

function stepped(name: string, whole: (ratio: number) => number) {
  return ([x = missing(), given]: readonly Quantity[]): Quantity | Fault => {
    if (!given && x.dimension !== NUMBER)
      return fault('step-needed', { function: name, unit: x.unit.symbol });
    const step = given ?? { ...plain(1), unit: x.unit };
    const wanted: Dimension = x.dimension === TEMPERATURE ? TEMPERATURE_DIFFERENCE : x.dimension;
    const wrong = mismatch({ ...x, dimension: wanted }, step, name);
    if (wrong) return wrong;
    if (step.value <= 0) return fault('step-not-positive', { function: name });
    const zero = x.unit.offset;
    const f = (value: number, size: number): number => {
      const ratio = (value - zero) / size;
      const near = Math.round(ratio);
      const count = Math.abs(ratio - near) <= WHOLE * Math.max(1, Math.abs(ratio)) ? near : whole(ratio);
      return count * size + zero;
    };
    return made(f(x.value, step.value), x.dimension, x.unit, spread2(x, step, f));
  };
}

/** Half a step goes away from zero, as it is done by hand. */
const nearestWhole = (ratio: number): number => Math.sign(ratio) * Math.round(Math.abs(ratio));

const one = (name: string, meaning: string): readonly MathParameter[] => [{ name, meaning }];
const several = (meaning: string): readonly MathParameter[] => [{ name: 'value', meaning, repeats: true }];
const ROUNDED: readonly MathParameter[] = [
  { name: 'value', meaning: 'what to round' },
  { name: 'step', meaning: 'the step to round to, of the same kind; 1 for a plain number', optional: true },
];

const FUNCTIONS: readonly Omit<MathFunction, 'counts'>[] = [
  {
    name: 'sqrt',
    parameters: one('value', 'a plain number, an area, …'),
    meaning: 'the square root; of an area, a length',
    example: ['sqrt(900 mm^2)', '30 mm'],
    compute: ([x = missing()]) => squareRoot(x),
  },
  {
    name: 'abs',
    parameters: one('value', 'any figure'),
    meaning: 'the size without its sign',
    example: ['abs(12 mm - 20 mm)', '8 mm'],
    compute: ([x = missing()]) => magnitude(x),
  },
  {
    name: 'min',
    parameters: several('figures of one kind'),
    meaning: 'the smallest',
    example: ['min(12 mm, 0.5 in)', '12 mm'],
    compute: through(lesserOrGreater('min', Math.min)),
  },
  {
    name: 'max',
    parameters: several('figures of one kind'),
    meaning: 'the largest',
    example: ['max(12 mm, 0.5 in)', '12.7 mm'],
    compute: through(lesserOrGreater('max', Math.max)),
  },
  {
    name: 'hypot',
    parameters: [
      { name: 'leg', meaning: 'one leg' },
      { name: 'other', meaning: 'the others, of the same kind and square to it', repeats: true },
    ],
    meaning: 'the long side of a right triangle, from its legs',
    example: ['hypot(30 mm, 40 mm)', '50 mm'],
    compute: through(distance),
  },
  {
    name: 'sin',
    parameters: one('angle', 'an angle, with its unit'),
    meaning: 'the sine',
    example: ['sin(30°)', '0.5'],
    compute: ofAngle('sin', sine, crests),
  },
  {
    name: 'cos',
    parameters: one('angle', 'an angle, with its unit'),
    meaning: 'the cosine',
    example: ['cos(60°)', '0.5'],
    compute: ofAngle('cos', cosine, ends),
  },
  {
    name: 'tan',
    parameters: one('angle', 'an angle, with its unit'),
    meaning: 'the tangent',
    example: ['tan(45°)', '1'],
    compute: ([x = missing()]) => tangent(x),
  },
  {
    name: 'asin',
    parameters: one('ratio', 'a plain number from -1 to 1'),
    meaning: 'the angle with this sine, -90° to 90°',
    example: ['asin(0.5)', '30°'],
    compute: toAngle('asin', Math.asin),
  },
  {
    name: 'acos',
    parameters: one('ratio', 'a plain number from -1 to 1'),
    meaning: 'the angle with this cosine, 0° to 180°',
    example: ['acos(0.5)', '60°'],
    compute: toAngle('acos', Math.acos),
  },
  {
    name: 'atan',
    parameters: one('ratio', 'a plain number'),
    meaning: 'the angle with this tangent, -90° to 90°',
    example: ['atan(1)', '45°'],
    compute: toAngle('atan', Math.atan),
  },
  {
    name: 'atan2',
    parameters: [
      { name: 'rise', meaning: 'how far up' },
      { name: 'run', meaning: 'how far along, of the same kind' },
    ],
    meaning: 'the angle of a slope from its rise and run, -180° to 180°',
    example: ['atan2(5 mm, 5 mm)', '45°'],
    compute: through(direction),
  },
  {
    name: 'round',
    parameters: ROUNDED,
    meaning: 'the nearest whole number of steps',
    example: ['round(29.367 mm, 0.05 mm)', '29.35 mm'],
    compute: stepped('round', nearestWhole),
  },
  {
    name: 'round_up',
    parameters: ROUNDED,
    meaning: 'the next whole number of steps upwards',
    example: ['round_up(29.367 mm, 0.05 mm)', '29.4 mm'],
    compute: stepped('round_up', Math.ceil),
  },
  {
    name: 'round_down',
    parameters: ROUNDED,
    meaning: 'the next whole number of steps downwards',
    example: ['round_down(29.367 mm, 0.05 mm)', '29.35 mm'],
    compute: stepped('round_down', Math.floor),
  },
];

function withCounts(made: Omit<MathFunction, 'counts'>): MathFunction {
  const least = made.parameters.filter((parameter) => !parameter.optional).length;
  const repeats = made.parameters.some((parameter) => parameter.repeats);
  return { ...made, counts: [least, repeats ? Infinity : made.parameters.length] };
}

/** The plain mathematics by name. */
export const MATHEMATICS: ReadonlyMap<string, MathFunction> = new Map(
  FUNCTIONS.map((made) => [made.name, withCounts(made)]),
);
