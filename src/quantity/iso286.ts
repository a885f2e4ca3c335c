/** ISO 286 limits: what a code such as `H7` means at a size. Sizes in mm, deviations in µm. */
import { CHECKED_HOLES, FINE_STEPS, GRADES, type Row, SHAFTS, STEPS } from './iso286-table';
import { type Fault, fault } from './value';

export interface IsoLimits {
  /** Deviations from the nominal size in µm, upper not below lower. */
  readonly upper: number;
  readonly lower: number;
  readonly sense: 'hole' | 'shaft';
  /** How far the values were checked, in words for the source line. */
  readonly check: string;
}

export const LARGEST_SIZE = 500;
const LOWEST_GRADE = 5;
const HIGHEST_GRADE = 13;
/** Holes K, M, N, P, R and S are held to this grade. */
const HIGHEST_TRANSITION_GRADE = 11;

export const SHAFT_LETTERS = 'd e f g h js k m n p r s';
export const HOLE_LETTERS = 'D E F G H JS K M N P R S';

const CODE = /^([A-Za-z]{1,2})(\d{1,2})$/;

/** The limits of a code at a nominal size in mm, or why there are none: letter, grade or size not in the table. */
export function isoLimits(nominal: number, code: string): IsoLimits | Fault {
  const [, letter = '', digits = ''] = CODE.exec(code) ?? [];
  const grade = Number(digits);
  const hole = letter !== '' && letter === letter.toUpperCase();
  const letters = hole ? HOLE_LETTERS : SHAFT_LETTERS;
  if (!letters.split(' ').includes(letter)) return fault('iso-letter-unknown', { code, letter, letters });
  const transition = 'KMNPRS'.includes(letter);
  const highest = transition ? HIGHEST_TRANSITION_GRADE : HIGHEST_GRADE;
  if (grade < LOWEST_GRADE || grade > highest || String(grade) !== digits)
    return fault('iso-grade-unknown', { code, letter, lowest: LOWEST_GRADE, highest });
  if (!(nominal > 0) || beyond(nominal, LARGEST_SIZE))
    return fault('iso-size-out-of-range', { code, size: nominal, largest: LARGEST_SIZE });
  if (letter === 'K' && grade > 8 && beyond(nominal, 3))
    return fault('iso-hole-undefined', { code, size: nominal, highest: 8, offers: ['K8', `N${grade}`] });
  return hole ? holeLimits(nominal, letter, grade) : shaftLimits(nominal, letter, grade);
}

/** Whether a size lies above the end of a step; an end computed from inches may miss it by rounding. */
function beyond(nominal: number, end: number): boolean {
  return nominal > end * (1 + 1e-12);
}

interface Found {
  readonly value: number;
  readonly check: string;
}

function find(row: Row | undefined, nominal: number): Found {
  const steps = row?.values.length === STEPS.length ? STEPS : FINE_STEPS;
  const step = steps.findIndex((end) => !beyond(nominal, end));
  return { value: row?.values[step] ?? NaN, check: row?.checks[step] ?? 'm' };
}

const toleranceOf = (nominal: number, grade: number): Found => find(GRADES.get(grade), nominal);

/** The fundamental deviation of a shaft. k has one only for the middle grades. */
function deviationOf(nominal: number, letter: string, grade: number): Found {
  if (letter === 'k' && grade > 7) return { value: 0, check: 'd' };
  return find(SHAFTS.get(letter), nominal);
}

function shaftLimits(nominal: number, letter: string, grade: number): IsoLimits {
  const { value: width, check } = toleranceOf(nominal, grade);
  if (letter === 'js') return symmetric('shaft', width, check);
  const deviation = deviationOf(nominal, letter, grade);
  const checks = check + deviation.check;
  return letter <= 'h'
    ? limits('shaft', deviation.value, deviation.value - width, checks)
    : limits('shaft', deviation.value + width, deviation.value, checks);
}

function holeLimits(nominal: number, letter: string, grade: number): IsoLimits {
  const { value: width, check } = toleranceOf(nominal, grade);
  if (letter === 'JS') return symmetric('hole', width, check);
  if (letter <= 'H') {
    const deviation = deviationOf(nominal, letter.toLowerCase(), grade);
    return limits('hole', width - deviation.value, -deviation.value, check + deviation.check);
  }
  const upper = upperOfTransition(nominal, letter, grade);
  return limits('hole', upper.value, upper.value - width, check + upper.check);
}

/**
 * ES of the holes K, M, N, P, R and S. The shaft's deviation mirrored, and up to grade 8 (from P on: 7) raised by the
 * difference of two neighbouring grades, so that H6/k5 and K6/h5 fit alike; nothing is raised up to 3 mm. R and S have no
 * table of their own here: they follow from the shafts r and s by the standard's rule.
 */
function upperOfTransition(nominal: number, letter: string, grade: number): Found {
  const small = !beyond(nominal, 3);
  const [from = 0, to = -1] = CHECKED_HOLES.get(letter) ?? [];
  const digitChecked = grade >= from && grade <= to;
  if (letter === 'N' && grade > 8 && !small) return { value: 0, check: 'd' };
  // The one value the standard sets apart from its rule, which would give -11. From memory.
  if (letter === 'M' && grade === 6 && beyond(nominal, 250) && !beyond(nominal, 315))
    return { value: -9, check: 'm' };
  const shaft = find(SHAFTS.get(letter.toLowerCase()), nominal);
  const raised = !small && grade <= (letter >= 'P' ? 7 : 8);
  const finer = toleranceOf(nominal, grade - 1);
  const raise = raised ? toleranceOf(nominal, grade).value - finer.value : 0;
  return {
    value: raise - shaft.value,
    check: digitChecked ? 'd' : shaft.check + (raised ? finer.check : '') + 'r',
  };
}

function symmetric(sense: 'hole' | 'shaft', width: number, check: string): IsoLimits {
  // Half micrometres are kept; older editions and many charts round them down.
  return limits(sense, width / 2, -width / 2, check);
}

function limits(sense: 'hole' | 'shaft', upper: number, lower: number, checks: string): IsoLimits {
  const check = checks.includes('m')
    ? 'partly from memory, not cross-checked'
    : checks.includes('f')
      ? "agrees with the standard's formula, not checked digit for digit"
      : checks.includes('r')
        ? "by the standard's rule from values checked digit for digit"
        : 'checked digit for digit against open tables';
  return { upper, lower: lower + 0, sense, check: `ISO 286-1:2010; ${check}` };
}
