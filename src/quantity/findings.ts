/** What this room refuses, in words: arithmetic, conversion, the plain mathematics and ISO 286. */
import { type FindingKind, a, offers, word } from './finding';
import type { FaultData } from './value';

/** An error. Every refusal here leaves the line without a value, so there are no milder ones. */
function refusal(say: (data: FaultData) => string, why: string): FindingKind {
  return { severity: 'error', say, why };
}

/** The offered text as a sentence of its own, else the fallback. */
function write(data: FaultData, otherwise: string): string {
  const list = offers(data);
  return list === '' ? otherwise : `Write ${list}.`;
}

/** Both sides, as written where the engine knows how. */
function sides(d: FaultData): string {
  const [left, right] = [word(d, 'leftText'), word(d, 'rightText')];
  const kinds = [a(word(d, 'left')), a(word(d, 'right'))] as const;
  if (left === '' || right === '') return `here ${kinds[0]} meets ${kinds[1]}`;
  return `\`${left}\` is ${kinds[0]} and \`${right}\` is ${kinds[1]}`;
}

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

function kindsDiffer(d: FaultData): string {
  const operator = word(d, 'operator');
  if (operator === 'to')
    return `${capital(a(word(d, 'left')))} cannot be shown in \`${word(d, 'rightUnit')}\`, which is a unit for ${a(word(d, 'right'))}. ${write(d, `Write a unit for ${a(word(d, 'left'))} after \`to\`.`)}`;
  const needs =
    operator === '+' || operator === '-'
      ? `\`${operator}\` needs two of one kind`
      : operator === '±' || operator === '..'
        ? 'limits are of the same kind as the figure'
        : /^[a-z]/.test(operator)
          ? `\`${operator}\` needs figures of one kind`
          : 'only figures of one kind compare';
  return `${capital(sides(d))}, but ${needs}. ${write(d, 'Give both the same kind of unit.')}`;
}

const TURN_WHY =
  'A turn and an angle are kinds of their own and are never dropped on the way, because that is where a factor of 2 pi gets lost. A formula that says so takes the step properly.';

function useFormula(d: FaultData, otherwise: string): string {
  const formula = word(d, 'formula');
  return write(d, formula === '' ? otherwise : `Use the formula \`${formula}\`.`);
}

const SCALE_WHY =
  'Zero on a temperature scale is a convention, so twice 20 °C or 20 °C plus 20 °C means nothing; only differences add and multiply.';

export const quantityFindings: Readonly<Record<string, FindingKind>> = {
  // --- arithmetic ------------------------------------------------------------------------------------------------
  'unit-mismatch': refusal(
    kindsDiffer,
    'Adding or comparing different kinds of thing is always a slip, often a unit that was left out.',
  ),
  'percent-of-what': refusal(
    (d) =>
      `A percentage cannot stand beside \`${word(d, 'operator')}\`: percent of what? ${write(d, 'Multiply instead: `200 mm * 105%`.')}`,
    'Adding 5% can mean five hundredths or five hundredths of the other side; only the writer knows which.',
  ),
  'temperatures-added': refusal(
    (d) => `Two temperatures do not add. ${write(d, 'Add a difference in K: `20 °C + 5 K`.')}`,
    SCALE_WHY,
  ),
  'temperature-scaled': refusal(
    (d) =>
      `A temperature on a scale has no \`${word(d, 'operator')}\`. ${write(d, 'Take a difference first, in brackets: `(t - 20 °C)`.')}`,
    SCALE_WHY,
  ),
  'currencies-mixed': refusal(
    (d) =>
      `${word(d, 'left')} and ${word(d, 'right')} are different money. Write the amount in ${word(d, 'left')}, or multiply by a rate of your own such as \`1.5 ${word(d, 'left')}/${word(d, 'right')}\`.`,
    'There are no exchange rates here: a rate changes daily, and the note must say the same next year.',
  ),
  'division-by-zero': refusal(
    () =>
      'This divides by zero. Check the figures under the line: one of them, or a difference of two, is 0.',
    'Nothing can be shared among none, so there is no result.',
  ),
  'no-finite-result': refusal(
    () => 'The result is too large to be a number. Check the exponents and the units.',
    'Figures beyond about 1e308 cannot be held, and no shop needs them.',
  ),
  'dimension-out-of-range': refusal(
    () => 'The units multiply up to a power above 12. Check for a factor that was multiplied in too often.',
    'No figure of a shop needs such a power, so this is a slip.',
  ),
  'exponent-with-unit': refusal(
    (d) =>
      `An exponent is a plain number, not one in \`${word(d, 'unit')}\`. ${write(d, 'Write it without a unit.')}`,
    'Raising to the power of a length means nothing.',
  ),
  'exponent-with-limits': refusal(
    () =>
      'The exponent of a figure with a unit cannot have limits, as the result would change its unit. Write a plain number.',
    'The power decides what kind of thing the result is, so it must be fixed.',
  ),
  'exponent-not-whole': refusal(
    () =>
      'This power leaves a unit with a broken exponent. Write a whole number, or one that divides the unit: `(9 mm^2)^0.5`.',
    'There are areas and volumes, but no mm to the power of 1.3.',
  ),
  'root-of-negative': refusal(
    () =>
      'This is the root of a negative figure, which does not exist. Check the order of the difference under it.',
    'No number multiplied by itself is negative; usually two sizes were swapped.',
  ),
  'root-not-whole': refusal(
    (d) =>
      `${capital(a(word(d, 'given')))} in \`${word(d, 'unit')}\` has no square root. Take it of an area or a plain number.`,
    'The root of a length is no kind of thing a shop measures.',
  ),
  'fails-at-limit': refusal(
    (d) =>
      `Within the limits of ${word(d, 'name') === '' ? 'one of its inputs' : `\`${word(d, 'name')}\``} this has no result${word(d, 'says') === '' ? '' : `: ${word(d, 'says')}`}. Narrow those limits or change the nominal.`,
    'A figure that exists at the nominal but not at a permitted size cannot be promised.',
  ),
  'too-many-inputs': refusal(
    (d) =>
      `${word(d, 'count')} figures with limits reach this result; at most 64 may. Give some of them no limits, or state limits for a figure on the way.`,
    'A share of the tolerance below two per cent tells nobody anything, and the work must stay bounded.',
  ),
  // --- to --------------------------------------------------------------------------------------------------------
  'turn-would-change': refusal(
    (d) =>
      `${capital(a(word(d, 'from')))} shown in \`${word(d, 'unit')}\` would have a turn ${word(d, 'change')}. ${useFormula(d, word(d, 'change') === 'lost' ? 'Divide by `1 rev` if one turn is meant.' : 'Multiply by `1 rev` if one turn is meant.')}`,
    TURN_WHY,
  ),
  'angle-would-change': refusal(
    (d) =>
      `${capital(a(word(d, 'from')))} shown in \`${word(d, 'unit')}\` would have an angle ${word(d, 'change')}. ${useFormula(d, 'State the angle as a ratio, or divide by `1 rad` where the arc counts as a length.')}`,
    TURN_WHY,
  ),
  'angle-to-turns': refusal(
    (d) => `An angle does not become turns by \`to\`. ${write(d, 'Divide by `(360 deg/rev)`.')}`,
    TURN_WHY,
  ),
  'temperature-to-difference': refusal(
    (d) =>
      `A temperature on a scale cannot be shown in \`${word(d, 'unit')}\`, which is for differences. ${write(d, 'Take a difference: `t - 20 °C`.')}`,
    SCALE_WHY,
  ),
  'difference-to-temperature': refusal(
    (d) =>
      `A temperature difference cannot be shown in \`${word(d, 'unit')}\`, which is a scale. ${write(d, 'Add it to a temperature: `20 °C + dt`.')}`,
    SCALE_WHY,
  ),
  // --- the plain mathematics -------------------------------------------------------------------------------------
  'angle-needed': refusal(
    (d) =>
      `\`${word(d, 'function')}\` takes an angle with its unit. ${write(d, 'Write `30°` or `0.5 rad`.')}`,
    'Degrees or radians: a bare number could be either, and the results differ wildly.',
  ),
  'argument-of-wrong-kind': refusal(
    (d) =>
      `\`${word(d, 'function')}\` takes ${word(d, 'needed')}, not ${a(word(d, 'given'))}. ${write(d, 'Divide by a figure of the same kind, or check which figure was meant.')}`,
    'A sine is of an angle, and an angle comes from a ratio of two lengths.',
  ),
  'outside-domain': refusal(
    (d) =>
      `\`${word(d, 'function')}\` takes a ratio from ${word(d, 'lowest')} to ${word(d, 'highest')}; this is ${Number(Number(d['value']).toPrecision(6))}. Check whether the two sizes were swapped.`,
    'The short side of a triangle is never longer than its long side.',
  ),
  'no-tangent': refusal(
    () => 'There is no tangent at 90°. Check the angle, or work with its sine and cosine.',
    'At a right angle the slope runs away.',
  ),
  'no-direction': refusal(
    () => 'A rise of 0 over a run of 0 has no direction. Give one of them a size.',
    'Without any length there is no slope to measure.',
  ),
  'step-needed': refusal(
    (d) =>
      `\`${word(d, 'function')}\` needs the step to round to. Add it after a comma, such as \`0.05 ${word(d, 'unit')}\`.`,
    'Whole millimetres or whole hundredths: only the writer knows what the dial shows.',
  ),
  'step-not-positive': refusal(
    (d) => `The step of \`${word(d, 'function')}\` must be above 0. Write one such as \`0.05 mm\`.`,
    'Nothing can be rounded to steps of no size.',
  ),
  // --- ISO 286 ---------------------------------------------------------------------------------------------------
  'iso-letter-unknown': refusal(
    (d) =>
      `\`${word(d, 'code')}\`: the table has no \`${word(d, 'letter')}\`. It has ${word(d, 'letters')}. Write one of these, or the limits themselves: \`+0.02/-0.01 mm\`.`,
    'Only zones whose values could be checked are in the table; others are written as limits.',
  ),
  'iso-grade-unknown': refusal(
    (d) =>
      `\`${word(d, 'code')}\`: for \`${word(d, 'letter')}\` the table has grades ${word(d, 'lowest')} to ${word(d, 'highest')}. Write one of these, or the limits themselves.`,
    'Only grades whose values could be checked are in the table.',
  ),
  'iso-size-out-of-range': refusal(
    (d) =>
      `\`${word(d, 'code')}\`: the table is for sizes above 0 up to ${word(d, 'largest')} mm, and this is ${Number(Number(d['size']).toPrecision(9))} mm. Write the limits themselves: \`+0.1/0 mm\`.`,
    'Beyond 500 mm the standard has other rows, which are not in the table.',
  ),
  'iso-hole-undefined': refusal(
    (d) =>
      `\`${word(d, 'code')}\`: above 3 mm the standard has \`K\` up to grade ${word(d, 'highest')} only. ${write(d, 'Write `K8`, or the limits themselves.')}`,
    'The standard leaves coarse K holes out, since such a fit would neither slide nor hold.',
  ),
};
