/**
 * What the tests import as `vitest` inside a mutation run: vitest's own `expect`, and a `describe` and `it` that only
 * collect, so that a test can be run again and alone without starting anything.
 */
import { readFileSync } from 'node:fs';
import { format } from 'node:util';
import { expect as own } from 'vitest';

const flat = (text) => text.replace(/[\s`"[\],]+/g, ' ').trim();

/** Without a snapshot file: the words of the text in their order. */
const snapshot = (received) => ({
  toMatchInlineSnapshot: (wanted) => own(flat(String(received))).toBe(flat(wanted)),
  toMatchFileSnapshot: (file) => own(received).toBe(readFileSync(file, 'utf8')),
});
export const expect = Object.assign(
  (received, message) => Object.assign(own(received, message), snapshot(received)),
  own,
);

/** The suite being collected; one file at a time. */
let collected = [];
let path = [];
let finished = [];

const add = (name, fn) => collected.push({ name: [...path, name].join(' › '), fn });

function suite(name, fn) {
  path.push(name);
  fn();
  path.pop();
}

function each(run) {
  return (cases) => (name, fn) =>
    cases.forEach((values, i) => {
      const args = Array.isArray(values) ? values : [values];
      run(`${format(name.replaceAll('%#', String(i)), ...args)} [${i}]`, () => fn(...args));
    });
}

export const it = Object.assign((name, fn) => add(name, fn), { each: each(add) });
export const describe = Object.assign(suite, { each: each(suite) });
export const test = it;
export const onTestFinished = (fn) => finished.push(fn);

/** The tests that `load` defines. */
export async function collect(load) {
  collected = [];
  path = [];
  await load();
  return collected;
}

/** Runs one test; what it throws comes through. */
export async function run({ fn }) {
  finished = [];
  try {
    await fn();
  } finally {
    for (const last of finished.reverse()) await last();
  }
}

/** Time limits are the run's own here. */
export const vi = { setConfig() {} };
