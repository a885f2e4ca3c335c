/**
 * Notes changed at random, for as long as one likes: `npm run fuzz -- --minutes 10 --seed 1`. What reaches code that no
 * note before it reached is kept and changed further. See test/tools/fuzz.mjs.
 */
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { Session } from 'node:inspector';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import Ajv2020 from 'ajv/dist/2020';
import { Sheet, calculate, calculateLines } from '../../src/engine/index';
import schema from '../../src/hosts/cli/schema/check.schema.json';
import { edited } from '../../src/language/edits';
import { alignment } from '../../src/language/format';
import { readNote } from '../../src/notation/note';
import { worked } from '../worked';
import { chance, parts, reported } from './ask';
import { ABUSE } from './notes';

const { values: options } = parseArgs({
  options: {
    minutes: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    out: { type: 'string', default: 'out/fuzz' },
  },
});

const LONGEST = 12_000;
/** Seconds of the processor for all questions about one note of that length; a usual one takes a thirtieth. */
const SLOW = 3;
const BATCH = 10;
const MOST_KEPT = 4000;

const random = chance(Number(options.seed));
const below = (n: number): number => Math.floor(random() * n);
const pick = <T>(of: readonly T[]): T => of[below(of.length)] as T;

const notesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => readFileSync(join(folder, name), 'utf8'));

const corpus = [
  ...['examples', 'test/vscode/notes', 'test/notation/notes'].flatMap(notesIn),
  ...ABUSE.map(({ text }) => text()),
].map((text) => text.slice(0, LONGEST));
const words = [...new Set(corpus.flatMap((text) => text.match(/[\p{L}_]+|\d[\d.]*|[^\s\p{L}\d]+/gu) ?? []))];
const lines = [...new Set(corpus.flatMap((text) => text.split('\n')))].filter((line) => line.length < 400);

function mutated(text: string): string {
  const at = below(text.length + 1);
  const all = text.split('\n');
  const line = below(all.length);
  switch (below(9)) {
    case 0:
      return text.slice(0, at) + pick(words) + text.slice(at);
    case 1:
      return text.slice(0, at) + text.slice(at + below(12));
    case 2:
      all.splice(line, 0, pick(lines));
      return all.join('\n');
    case 3:
      all.splice(line, 1 + below(3));
      return all.join('\n');
    case 4:
      all.splice(line, 1, ...(all[line] ?? '').split(' ').sort(() => random() - 0.5));
      return all.join('\n');
    case 5:
      return text.slice(0, at) + String.fromCharCode(below(random() < 0.8 ? 256 : 65_536)) + text.slice(at);
    case 6:
      return text.slice(0, at) + pick(corpus).slice(below(2000)).slice(0, 300) + text.slice(at);
    case 7:
      return text.replace(/\d+/g, (digits) =>
        random() < 0.1 ? String(below(10 ** (1 + below(12)))) : digits,
      );
    default:
      all.splice(line, 0, ...all.slice(line, line + 1 + below(4)));
      return all.join('\n');
  }
}

const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);
const failures = new Map<string, number>();
mkdirSync(options.out, { recursive: true });
function fail(what: string, text: string, before = ''): void {
  const key = what.replace(/\d+/g, 'n').slice(0, 160);
  const seen = failures.get(key) ?? 0;
  failures.set(key, seen + 1);
  if (seen > 0) return;
  console.log(`FAILED ${what.slice(0, 400)}`);
  writeFileSync(
    join(options.out, `failure-${failures.size}.json`),
    JSON.stringify({ what, before, text }, null, 1),
  );
}

/** Everything that must hold for a note, whatever stands in it. */
function tried(text: string, before: string): void {
  const begun = worked();
  for (const [part, run] of parts(text, 2)) {
    try {
      run();
    } catch (error) {
      fail(`${part}: ${error instanceof Error ? (error.stack ?? '') : String(error)}`, text);
    }
  }
  const took = (worked() - begun) / 1000;
  if (took > SLOW) fail(`slow: ${took.toFixed(1)} s`, text);

  const fresh = calculate(text);
  const report = reported(fresh);
  const json = JSON.stringify(report);
  const grown = new Sheet();
  grown.update(readNote(before));
  grown.findings();
  grown.update(readNote(text));
  const other = JSON.stringify(reported(grown));
  if (other !== json && !alike(json, other)) fail('an edited note is not as a fresh one', text, before);

  const whole = { version: 1, notes: [JSON.parse(json)], unreadable: [], errors: 0, warnings: 0 };
  if (!validate(whole)) fail(`schema: ${JSON.stringify(validate.errors?.[0])}`, text);

  const aligned = edited(text, alignment(fresh.note, text));
  const twice = edited(aligned, alignment(readNote(aligned), aligned));
  if (twice !== aligned) fail('aligning twice is not aligning once', text);
  const values = (of: typeof report): string =>
    JSON.stringify(of.values.map(({ name, shown }) => [name, shown]));
  if (values(reported(calculate(aligned))) !== values(report))
    fail('aligned figures come to something else', text);

  for (const { shown, value, unit, kind } of report.values.slice(0, 10)) {
    if (kind !== 'number' || typeof value !== 'number' || unit === null || shown === null) continue;
    const again = calculateLines(`x = ${shown}`).figure('x')?.value;
    if (again?.kind !== 'number') fail(`what is shown cannot be read: ${shown}`, text);
  }
}

/** Sums of the same figures in another order differ in their last digits. */
function alike(a: string, b: string): boolean {
  const rounded = (json: string): string =>
    json.replace(/-?\d+\.\d{6,}(?:e[+-]\d+)?/g, (digits) => Number(digits).toPrecision(9));
  return rounded(a) === rounded(b);
}

const session = new Session();
session.connect();
session.post('Profiler.enable');
session.post('Profiler.startPreciseCoverage', { callCount: false, detailed: true });
const reached = new Set<string>();

/** How many pieces of code were reached that never were before. */
function newlyReached(): number {
  const before = reached.size;
  session.post('Profiler.takePreciseCoverage', (_error, answer) => {
    for (const { url, functions } of answer?.result ?? []) {
      if (!url.endsWith('fuzz.cjs')) continue;
      for (const { ranges } of functions)
        for (const { startOffset, endOffset, count } of ranges)
          if (count > 0) reached.add(`${startOffset}-${endOffset}`);
    }
  });
  return reached.size - before;
}

const end = Date.now() + Number(options.minutes) * 60_000;
let inputs = 0;
let told = Date.now();
const given = corpus.length;
for (const text of corpus) tried(text, '');
newlyReached();
const atFirst = reached.size;
while (Date.now() < end) {
  const batch: string[] = [];
  for (let i = 0; i < BATCH && Date.now() < end; i++) {
    const before = pick(corpus);
    let text = before;
    for (let changes = 1 + below(4); changes > 0; changes--) text = mutated(text);
    text = text.slice(0, LONGEST);
    tried(text, before);
    batch.push(text);
    inputs++;
  }
  if (newlyReached() > 0 && corpus.length < MOST_KEPT) corpus.push(...batch);
  if (Date.now() - told > 60_000) {
    told = Date.now();
    console.log(`${inputs} notes, ${corpus.length - given} kept, ${reached.size} pieces of code reached`);
  }
}
console.log(
  `${given} notes as given and ${inputs} changed ones tried, seed ${options.seed}: ${corpus.length - given} kept, ` +
    `${atFirst} pieces of code reached at first and ${reached.size} at the end; ${failures.size} kinds of failure`,
);
for (const [what, count] of failures) console.log(`  ${count} × ${what.split('\n')[0] ?? ''}`);
process.exitCode = failures.size > 0 ? 1 : 0;
