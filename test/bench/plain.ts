/** The chain of `notes.ts` as somebody would write it in JavaScript for this one note, without a notebook. */

interface Amount {
  readonly value: number;
  /** Exponents of length, mass, time, turn, angle, temperature and money. */
  readonly units: readonly number[];
}

const LENGTH: readonly number[] = [1, 0, 0, 0, 0, 0, 0];
const NONE: readonly number[] = [0, 0, 0, 0, 0, 0, 0];

const mm = (value: number): Amount => ({ value, units: LENGTH });
const number = (value: number): Amount => ({ value, units: NONE });

function alike(a: Amount, b: Amount): void {
  if (!a.units.every((exponent, i) => exponent === b.units[i])) throw new Error('kinds differ');
}

function add(a: Amount, b: Amount): Amount {
  alike(a, b);
  return { value: a.value + b.value, units: a.units };
}

function subtract(a: Amount, b: Amount): Amount {
  alike(a, b);
  return { value: a.value - b.value, units: a.units };
}

function multiply(a: Amount, b: Amount): Amount {
  return { value: a.value * b.value, units: a.units.map((exponent, i) => exponent + (b.units[i] ?? 0)) };
}

function divide(a: Amount, b: Amount): Amount {
  return { value: a.value / b.value, units: a.units.map((exponent, i) => exponent - (b.units[i] ?? 0)) };
}

export interface Chain {
  /** Works the whole chain out from its first figure, in mm; answers the last one. */
  from(first: number): number;
}

/** With units: a closure for each line over a `Map` of names with value and unit exponents. */
export function unitChain(lines: number): Chain {
  const figures = new Map<string, Amount>();
  const get = (name: string): Amount => {
    const found = figures.get(name);
    if (!found) throw new Error(`no ${name}`);
    return found;
  };
  const steps = Array.from({ length: lines - 1 }, (_, i) => {
    const [name, before] = [`c${i + 1}`, `c${i}`];
    switch (i % 4) {
      case 0:
        return () => figures.set(name, add(get(before), mm(0.4)));
      case 1:
        return () => figures.set(name, multiply(get(before), number(1.25)));
      case 2:
        return () => figures.set(name, subtract(get(before), mm(0.5)));
      default:
        return () => figures.set(name, divide(get(before), number(1.25)));
    }
  });
  return {
    from(first) {
      figures.set('c0', mm(first));
      for (const step of steps) step();
      return get(`c${lines - 1}`).value;
    },
  };
}

/** The same with bare numbers, where nothing says that they are millimetres. */
export function bareChain(lines: number): Chain {
  const figures = new Map<string, number>();
  const get = (name: string): number => figures.get(name) ?? NaN;
  const steps = Array.from({ length: lines - 1 }, (_, i) => {
    const [name, before] = [`c${i + 1}`, `c${i}`];
    switch (i % 4) {
      case 0:
        return () => figures.set(name, get(before) + 0.4);
      case 1:
        return () => figures.set(name, get(before) * 1.25);
      case 2:
        return () => figures.set(name, get(before) - 0.5);
      default:
        return () => figures.set(name, get(before) / 1.25);
    }
  });
  return {
    from(first) {
      figures.set('c0', first);
      for (const step of steps) step();
      return get(`c${lines - 1}`);
    },
  };
}
