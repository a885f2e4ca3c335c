/** Edits of a note whose sheet is there already. */
import { GROUP, chain, groups, mixed, note } from './notes';
import type { Value } from '../../src/quantity/value';
import { type Side, comparePair, rooms } from './pairs';

const { Sheet, bareChain, hint, marks, readNote, unitChain } = rooms;

// --- a chain worked out again from its first line ---------------------------------------------------------------

const CHAIN = 10_000;

/** Edits the first line of a chain to and fro. */
function chainEdits(): Side {
  const notes = ['25 mm', '25.5 mm'].map((first) => readNote(note(chain(CHAIN, first))));
  const sheet = new Sheet();
  let edit = 0;
  return {
    run() {
      const next = notes[edit++ % 2];
      if (next) sheet.update(next);
      return sheet.valueOf(`c${CHAIN - 1}`);
    },
  };
}

function plainEdits({ from }: ReturnType<typeof unitChain>): Side {
  let edit = 0;
  return { run: () => from(edit++ % 2 === 0 ? 25 : 25.5) };
}

function sameEnd(): void {
  const ours = chainEdits().run() as Value | null;
  const theirs = [unitChain(CHAIN), bareChain(CHAIN)].map((each) => plainEdits(each).run());
  const value = ours?.kind === 'number' ? ours.value : NaN;
  if (!theirs.every((other) => Math.abs(value - Number(other)) <= 1e-9 * value))
    throw new Error(`${value} here, ${theirs.join()} in plain JavaScript`);
}
sameEnd();

comparePair({
  row: 'b1',
  measured: 'a chain of 10,000 lines again after an edit of its first line',
  against: 'plain JavaScript: a closure a line over a Map of names with {value, unit exponents}',
  wanted: ['at most', 10],
  first: chainEdits(),
  second: plainEdits(unitChain(CHAIN)),
});
comparePair({
  row: 'b2',
  measured: 'the same',
  against: 'plain JavaScript with bare numbers (for information)',
  wanted: null,
  first: chainEdits(),
  second: plainEdits(bareChain(CHAIN)),
});

// --- an edit with a hundred dependents, in a long note and in a short one ---------------------------------------

const PLACES = [
  ['top', (last: number) => Math.min(1, last)],
  ['middle', (last: number) => Math.floor(last / 2)],
  ['end', (last: number) => last],
] as const;

/** Changes the group's size; `inserted` puts its line in, which was missing before. */
function groupEdits(lines: number, where: (last: number) => number, inserted: boolean): Side {
  const group = where(Math.ceil(lines / GROUP) - 1);
  const read = (size: string | null): ReturnType<typeof readNote> =>
    readNote(note(groups(lines, group, size)));
  const [away, ...sizes] = [inserted ? null : '31 mm', '33 mm', '35 mm'].map(read);
  const sheet = new Sheet();
  let edit = 0;
  return {
    before() {
      if (away) sheet.update(away);
      sheet.findings();
    },
    run() {
      const next = sizes[edit++ % 2];
      if (next) sheet.update(next);
      return sheet.findings();
    },
  };
}

PLACES.forEach(([place, where], i) => {
  for (const [row, what, inserted] of [
    [`c${i + 1}`, 'replacing', false],
    [`c${i + 4}`, 'inserting', true],
  ] as const)
    comparePair({
      row,
      measured: `${what} a line with 100 dependents near the ${place} of 20,000 lines (without finding the fences)`,
      against: 'in 1,000 lines',
      wanted: ['at most', 3],
      pairs: 200,
      first: groupEdits(20_000, where, inserted),
      second: groupEdits(1000, where, inserted),
    });
});

// --- a key press ------------------------------------------------------------------------------------------------

const VISIBLE = 60;

/** All of our work from a key press in the middle of a 1,000-line note to what the editor draws. */
function keyPress(): Side {
  const texts = ['12.5', '12.55'].map((size) => {
    const lines = mixed(1000);
    lines[500] = `bore50 = ${size} mm`;
    return note(lines);
  });
  const sheet = new Sheet();
  let edit = 0;
  return {
    run() {
      sheet.update(readNote(texts[edit++ % 2] ?? ''));
      const drawn: (string | null)[] = [];
      for (const row of sheet.rows())
        if (row.line >= 480 && row.line < 480 + VISIBLE) drawn.push(hint(sheet, row));
      return [drawn, marks(sheet)];
    },
  };
}

const FRAME_MS = 1000 / 60;

comparePair({
  row: 'f1',
  measured: 'key press in a 1,000-line note: note read, sheet updated, hints of 60 lines, diagnostics',
  against: 'one frame of a screen with 60 a second',
  wanted: ['at most', 1],
  pairs: 100,
  ratio: (first) => first / FRAME_MS,
  first: keyPress(),
  second: { run: () => undefined },
});
