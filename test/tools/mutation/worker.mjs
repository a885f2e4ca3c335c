/**
 * Runs tests against one mutant after the other. `at` is shared with the parent, which ends the thread when a test does
 * not come to an end: [0] counts the tests begun.
 */
import vm from 'node:vm';
import { parentPort, workerData } from 'node:worker_threads';
import fc from 'fast-check';
import * as vitest from './vitest.mjs';

const { code, externals, seed, runs, at } = workerData;
const began = new Int32Array(at);

const modules = new Map([['vitest', vitest]]);
for (const name of externals)
  if (!modules.has(name)) modules.set(name, { ...(await import(name)), __esModule: true });
const script = new vm.Script(code, { filename: 'mutants.cjs' });

/** Fresh modules with one mutant chosen. */
const fresh = (mutant) => script.runInThisContext()((name) => modules.get(name), mutant);

// The same random cases every time. Fewer runs than the tests ask for notice less, never more.
let most = runs;
let cut = false;
const { assert } = fc;
function limited(property, options = {}) {
  const wanted = options.numRuns ?? 100;
  if (wanted > most) cut = true;
  return assert(property, { ...options, seed, endOnFailure: true, numRuns: Math.min(wanted, most) });
}
for (const name of ['fast-check'])
  if (modules.has(name))
    modules.set(name, { ...modules.get(name), assert: limited, default: { ...fc, assert: limited } });

const why = (error) =>
  String(error?.message ?? error)
    .split('\n')[0]
    ?.slice(0, 160) ?? '';

/** The tests of a file with what each takes, touches and fails by, without a mutant. */
async function survey(file) {
  let touched = new Set();
  const { load } = fresh((id) => {
    touched.add(id);
    return false;
  });
  const tests = await vitest.collect(load[file]);
  const loading = touched;
  const found = [];
  for (const test of tests) {
    touched = new Set();
    let failed = null;
    let begin = performance.now();
    most = runs;
    cut = false;
    try {
      await vitest.run(test);
    } catch {
      // A test that counts its own random cases needs them all.
      most = Infinity;
      begin = performance.now();
      try {
        await vitest.run(test);
      } catch (error) {
        failed = why(error);
      }
    }
    const ms = performance.now() - begin;
    found.push({ name: test.name, ms, touched: [...touched], failed, full: most === Infinity, cut });
  }
  return { loading: [...loading], tests: found };
}

/** The first of the tests to notice the mutant, or null. `plan` lists files with their tests' numbers. */
async function trial(id, plan) {
  const { load } = fresh((asked) => asked === id);
  const loaded = new Map();
  for (const { file, test, full, more } of plan) {
    Atomics.add(began, 0, 1);
    most = full ? Infinity : more ? 10 * runs : runs;
    try {
      if (!loaded.has(file)) loaded.set(file, await vitest.collect(load[file]));
      const found = loaded.get(file)[test];
      if (found === undefined) return { file, test, why: 'the test is gone' };
      await vitest.run(found);
    } catch (error) {
      return { file, test, why: why(error) };
    }
  }
  return null;
}

parentPort.on('message', async ({ survey: file, id, plan }) => {
  try {
    parentPort.postMessage(
      file === undefined ? { noticed: await trial(id, plan) } : { survey: await survey(file) },
    );
  } catch (error) {
    parentPort.postMessage(file === undefined ? { noticed: { why: why(error) } } : { failed: why(error) });
  }
});
parentPort.postMessage({ ready: true });
