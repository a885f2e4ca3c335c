/** Small pieces that the families' files are built from, so that a formula reads as its trade content. */
import type { Condition, Field, Given, Parameter } from './formula';

export function quantity(name: string, unit: string, meaning: string): Parameter {
  return { name, kind: 'quantity', unit, meaning };
}

export function length(name: string, meaning: string): Parameter {
  return quantity(name, 'mm', meaning);
}

/** Quantities of one kind, given as a list. */
export function list(name: string, unit: string, meaning: string): Parameter {
  return { name, kind: 'list', unit, meaning };
}

/** One of a few words. */
export function choice(name: string, words: readonly string[], meaning: string): Parameter {
  return { name, kind: 'word', unit: '', meaning, words };
}

/** A whole number of one or more. */
export function count(name: string, meaning: string): Parameter {
  return { name, kind: 'count', unit: '', meaning };
}

export function optional(parameter: Parameter): Parameter {
  return { ...parameter, optional: true };
}

export function field(name: string, unit: string, meaning: string): Field {
  return { name, unit, meaning };
}

/** The only field of a formula with a single result. */
export function single(unit: string, meaning: string): Field {
  return field('', unit, meaning);
}

/** How many items of a list its working shows. */
export const FIRST_ITEMS = 3;

/** A list of numbers. */
export function listed(name: string, unit: string, meaning: string): Field {
  return { name, unit, meaning, list: true };
}

/** The numbers, from one, of what other lists hold. */
export function numbered(name: string, meaning: string): Field {
  return { ...listed(name, '', meaning), counts: true };
}

/** The working of a list: its first items, each by its number from zero. */
export function firstItems(count: number, item: (index: number) => string): string {
  return `[${Array.from({ length: Math.min(count, FIRST_ITEMS) }, (_, i) => item(i)).join(', ')}]`;
}

/** Figures in sentences are rounded to this part of their unit: a thousandth of a millimetre or of a degree. */
const PARTS = 1000;

/** Below this a plain number is shown with as many digits as it takes: a coefficient of 0.0499 is not 0.05. */
const SMALL = 0.1;

/** A figure for a sentence: `29.367 mm`, `11.789°`, `40`, `0.0499`. */
export function shown(value: number, unit: string): string {
  const rounded = Math.round(value * PARTS) / PARTS;
  const text = String(unit === '' && Math.abs(value) < SMALL ? Number(value.toPrecision(3)) : rounded);
  return unit === '' || unit === '°' ? text + unit : `${text} ${unit}`;
}

export function mm(value: number): string {
  return shown(value, 'mm');
}

export function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}

export function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

/** A plain number where a percentage belongs is a hundred times as much: what to write instead. */
export const missingSign = (percent: number): string =>
  percent >= 100 && percent <= 10_000
    ? ` If it was written without its sign, write \`${shown(percent / 100, '')}%\`.`
    : '';

/** Each of these must be more than zero. */
export function positive(...parameters: readonly Parameter[]): readonly Condition[] {
  return parameters.map(({ name, unit }) => ({
    range: `${name} is more than zero`,
    severity: 'error',
    parameter: name,
    holds: (given) => !given.has(name) || given.number(name) > 0,
    says: (given) => `\`${name}\` is ${shown(given.number(name), unit)}: give one of more than zero.`,
  }));
}

/** Each of these must be zero or more. */
export function notNegative(...parameters: readonly Parameter[]): readonly Condition[] {
  return parameters.map(({ name, unit }) => ({
    range: `${name} is zero or more`,
    severity: 'error',
    parameter: name,
    holds: (given) => !given.has(name) || given.number(name) >= 0,
    says: (given) => `\`${name}\` is ${shown(given.number(name), unit)}: give zero or more.`,
  }));
}

/** An error condition on one parameter. */
export function must(
  parameter: string,
  range: string,
  holds: (given: Given) => boolean,
  says: (given: Given) => string,
): Condition {
  return { range, severity: 'error', parameter, holds, says };
}

/** A condition whose breaking is told, but leaves the result standing. */
export function should(
  parameter: string,
  range: string,
  holds: (given: Given) => boolean,
  says: (given: Given) => string,
): Condition {
  return { range, severity: 'warning', parameter, holds, says };
}
