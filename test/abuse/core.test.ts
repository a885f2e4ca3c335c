/** No note, however it was made, brings a room to throw, to take its time or to fill the memory; as ratios. Times are the processor's. */
import process from 'node:process';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { worked } from '../worked';
import { parts } from './ask';
import { benign } from './benign';
import { ABUSE } from './notes';

/** Times as long as for an ordinary note of the same length that any part may take. */
const MOST = 10;
/** Milliseconds added to both sides: below that the ratio would be one of chance. */
const FLOOR = 40;

function spent(run: () => void): number {
  const before = worked();
  run();
  return worked() - before;
}

const PLACES = 3;
/** Of a note of megabytes only what an editor asks for by itself, so that the test is over one day. */
const BIG = 600_000;
const BY_ITSELF = new Set(['calculating', 'looking', 'completing', 'explaining', 'previewing', 'reporting']);

const costs = (text: string): ReadonlyMap<string, number> =>
  new Map(
    parts(text, PLACES)
      .filter(([name]) => text.length < BIG || BY_ITSELF.has(name))
      .map(([name, run]) => [name, spent(run)]),
  );

/** An ordinary note beyond this length is taken to cost in proportion to its length, which is the least it can. */
const MEASURED = 2 ** 20;

const ordinary = new Map<number, ReadonlyMap<string, number>>();
function ordinaryCosts(length: number): ReadonlyMap<string, number> {
  // Notes nearly as long share one measure, and short ones that of a short note.
  const size = Math.round(2 ** Math.round(Math.log2(Math.max(length, 20_000))));
  let known = ordinary.get(size);
  if (known) return known;
  if (size <= MEASURED) known = costs(benign(size));
  else {
    const part = ordinaryCosts(MEASURED);
    known = new Map([...part].map(([name, took]) => [name, (took * size) / MEASURED]));
  }
  ordinary.set(size, known);
  return known;
}

/** Some places of an ordinary note have nothing to rename or to mend; where there is something, the note is tried again. */
function usualFor(usual: ReadonlyMap<string, number>, part: string): number {
  const again = part === 'renaming' || part === 'mending' ? PLACES * (usual.get('calculating') ?? 0) : 0;
  return Math.max(usual.get(part) ?? 0, again);
}

describe.each(ABUSE.map(({ name, text }) => [name, text] as const))('%s', (_, make) => {
  it('is answered by every room, in the time of an ordinary note', () => {
    const text = make();
    const usual = ordinaryCosts(text.length);
    const slow = (cost: ReadonlyMap<string, number>): string[] =>
      [...cost].flatMap(([part, took]) => {
        const ratio = (took + FLOOR) / (usualFor(usual, part) + FLOOR);
        return ratio > MOST ? [`${part}: ${ratio.toFixed(1)} ×`] : [];
      });
    let found = slow(costs(text));
    for (let again = 0; again < 2 && found.length > 0; again++) found = slow(costs(text));
    expect(found).toEqual([]);
  });
});

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** Bytes that a note's sheet holds, with all that was answered about it. */
function held(text: string): number {
  collect();
  const before = process.memoryUsage().heapUsed;
  const sheet = calculate(text);
  const answers = [sheet.rows(), sheet.findings()];
  collect();
  const after = process.memoryUsage().heapUsed;
  return answers.length > 0 ? after - before : NaN;
}

/** Bytes added to both sides, as with the times. */
const LITTLE = 2_000_000;
/** Bytes that a character of an ordinary note holds. */
let perCharacter = 0;

it.each(ABUSE.filter(({ worst }) => worst).map(({ name, text }) => [name, text] as const))(
  '%s holds as much memory as an ordinary note of its length',
  (_, make) => {
    const text = make();
    perCharacter ||= held(benign(MEASURED)) / MEASURED;
    const ratio = (): number => (held(text) + LITTLE) / (perCharacter * text.length + LITTLE);
    let least = ratio();
    for (let again = 0; again < 2 && least >= MOST; again++) least = Math.min(least, ratio());
    expect(least).toBeLessThan(MOST);
  },
);
