/** What is measured: each side of each row, ready to run. Sides with a partner check first that both come to the same. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { all, create, isUnit } from 'mathjs';
import { Sheet, calculate } from '../../src/engine/index';
import { marks } from '../../src/language/diagnostics';
import { hint } from '../../src/language/hints';
import { readNote } from '../../src/notation/note';
import type { Note } from '../../src/notation/syntax';
import { siFactor } from '../../src/quantity/units';
import {
  allSlices,
  changedFile,
  firstIndex,
  indexInMemory,
  longestSlice,
  reading,
  restart,
  textSearch,
  textsInMemory,
  valueQuery,
} from './archive-sides';
import { GROUP, chain, groups, independent, mixed, note, toleranced } from './notes';
import { type Chain, bareChain, unitChain } from './plain';

export interface Side<T = unknown> {
  /** Not timed; comes before each run. */
  readonly before?: () => void;
  readonly run: () => T;
  /** What a run answers is what is measured, not how long it takes. */
  readonly measures?: true;
}

/** Runs through a list over and over, so that every run has a change to deal with. */
function turns<T>(items: readonly [T, ...T[]]): () => T {
  let turn = 0;
  return () => items[turn++ % items.length] ?? items[0];
}

// --- whole notes --------------------------------------------------------------------------------------------------

function whole(lines: readonly string[]): Side {
  const text = note(lines);
  return { run: () => calculate(text) };
}

/** What a thousand pieces take, in ms, of a side that deals with so many. */
function perThousand(count: number, { before, run }: Side): Side<Promise<number>> {
  return {
    ...(before && { before }),
    measures: true,
    async run() {
      const start = performance.now();
      const answer = run();
      if (answer instanceof Promise) await (answer as Promise<unknown>);
      return ((performance.now() - start) * 1000) / count;
    },
  };
}

function byMathjs(lines: readonly string[]): Side {
  const math = create(all ?? {});
  const run = (): Map<string, unknown> => {
    const scope = new Map<string, unknown>();
    for (const line of lines) math.parse(line).evaluate(scope);
    return scope;
  };
  const sheet = calculate(note(lines));
  const theirs = run();
  if (sheet.findings().length > 0) throw new Error(sheet.findings()[0]?.message);
  for (const line of lines) {
    const [name = ''] = line.split(' ');
    const own = sheet.valueOf(name);
    const other = theirs.get(name);
    const mine = own?.kind === 'number' ? own.value * (siFactor(own.dimension) ?? NaN) : NaN;
    const its = isUnit(other) ? other.toSI().toNumeric() : other;
    if (typeof its !== 'number' || !(Math.abs(mine - its) <= 1e-12 * Math.abs(its)))
      throw new Error(`${line}: ${mine} here, ${String(its)} in mathjs`);
  }
  return { run };
}

// --- a chain worked out again after an edit of its first line ------------------------------------------------------

const CHAIN = 10_000;

function chainEdits(): Side<number> {
  const read = (first: string): Note => readNote(note(chain(CHAIN, first)));
  const next = turns([read('25 mm'), read('25.5 mm')]);
  const sheet = new Sheet();
  return {
    run() {
      sheet.update(next());
      const last = sheet.valueOf(`c${CHAIN - 1}`);
      return last?.kind === 'number' ? last.value : NaN;
    },
  };
}

function plainEdits(make: (lines: number) => Chain): Side {
  const { from } = make(CHAIN);
  const [theirs, ours] = [from(25), chainEdits().run()];
  if (!(Math.abs(ours - theirs) <= 1e-9 * ours))
    throw new Error(`${ours} here, ${theirs} in plain JavaScript`);
  const next = turns([25, 25.5]);
  return { run: () => from(next()) };
}

// --- an edit of a line with a hundred dependents -------------------------------------------------------------------

type Place = 'top' | 'middle' | 'end';

/** Changes one group's size, or puts its line in where it was missing; the note has a finding, as notes do. */
function groupEdits(count: number, place: Place, inserting: boolean): Side {
  const last = Math.ceil(count / GROUP) - 1;
  const group = { top: 1, middle: Math.floor(last / 2), end: last }[place];
  const read = (size: string | null): Note =>
    readNote(note([...groups(count, group, size), 'odd = 10 mm + 1']));
  const away = read(inserting ? null : '31 mm');
  const next = turns([read('33 mm'), read('35 mm')]);
  const sheet = new Sheet();
  return {
    before() {
      sheet.update(away);
      sheet.findings();
    },
    run() {
      sheet.update(next());
      return sheet.findings();
    },
  };
}

// --- a key press ---------------------------------------------------------------------------------------------------

const VISIBLE = 60;

/** All of our work from a key press in the middle of a 1,000-line note to what the editor draws. */
function keyPress(): Side {
  const text = (size: string): string => {
    const lines = mixed(1000);
    lines[500] = `bore50 = ${size} mm`;
    return note(lines);
  };
  const next = turns([text('12.5'), text('12.55')]);
  const sheet = new Sheet();
  return {
    run() {
      sheet.update(readNote(next()));
      const visible = sheet.rows().filter(({ line }) => line >= 480 && line < 480 + VISIBLE);
      return [visible.map((row) => hint(sheet, row)), marks(sheet)];
    },
  };
}

// --- starting ------------------------------------------------------------------------------------------------------

function command(...words: string[]): Side {
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-'));
  process.on('exit', () => rmSync(folder, { recursive: true }));
  writeFileSync(join(folder, 'one.md'), note(['30 mm * 2']));
  return {
    run() {
      // Without the caller's environment, which can make Node itself slow to start.
      const { status, stderr } = spawnSync(process.execPath, words, {
        cwd: folder,
        encoding: 'utf8',
        env: {},
      });
      if (status !== 0) throw new Error(stderr);
    },
  };
}

export const SIDES = {
  mixed: () => whole(mixed(1000)),
  mathjs: () => byMathjs(mixed(1000)),
  chain: chainEdits,
  chainWithUnits: () => plainEdits(unitChain),
  chainBare: () => plainEdits(bareChain),
  replaceTopLong: () => groupEdits(20_000, 'top', false),
  replaceTopShort: () => groupEdits(1000, 'top', false),
  replaceMiddleLong: () => groupEdits(20_000, 'middle', false),
  replaceMiddleShort: () => groupEdits(1000, 'middle', false),
  replaceEndLong: () => groupEdits(20_000, 'end', false),
  replaceEndShort: () => groupEdits(1000, 'end', false),
  insertTopLong: () => groupEdits(20_000, 'top', true),
  insertTopShort: () => groupEdits(1000, 'top', true),
  insertMiddleLong: () => groupEdits(20_000, 'middle', true),
  insertMiddleShort: () => groupEdits(1000, 'middle', true),
  insertEndLong: () => groupEdits(20_000, 'end', true),
  insertEndShort: () => groupEdits(1000, 'end', true),
  independentLong: () => whole(independent(20_000)),
  independentShort: () => whole(independent(2000)),
  chainedLong: () => whole(chain(20_000)),
  chainedShort: () => whole(chain(2000)),
  tolerancedLong: () => whole(toleranced(20_000)),
  tolerancedShort: () => whole(toleranced(2000)),
  check: () => command(resolve('dist/cli/scribeline.js'), 'check', 'one.md'),
  nothing: () => command('-e', '0'),
  keyPress,
  valueQuery: () => valueQuery(),
  valueQueryOfFew: () => valueQuery(100),
  reading,
  textSearch,
  firstIndex: () => firstIndex(10_000),
  firstIndexOfFew: () => firstIndex(100),
  restart: () => restart(0),
  restartWithOneChanged: () => restart(1),
  indexInMemory,
  textsInMemory,
  longestSlice,
  allSlices,
  changedInMany: () => changedFile(10_000),
  changedInFew: () => changedFile(100),
  lines100: () => perThousand(100, whole(mixed(100))),
  lines1000: () => perThousand(1000, whole(mixed(1000))),
  lines5000: () => perThousand(5000, whole(mixed(5000))),
  lines20000: () => perThousand(20_000, whole(mixed(20_000))),
  notes100: () => perThousand(100, firstIndex(100)),
  notes1000: () => perThousand(1000, firstIndex(1000)),
  notes10000: () => perThousand(10_000, firstIndex(10_000)),
  asked100: () => perThousand(100, valueQuery(100)),
  asked1000: () => perThousand(1000, valueQuery(1000)),
  asked10000: () => perThousand(10_000, valueQuery(10_000)),
} satisfies Record<string, () => Side | Promise<Side>>;

export type SideName = keyof typeof SIDES;
