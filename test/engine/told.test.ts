/** What the findings of a note point to, in which order they are told, and how many of a kind. */
import { describe, expect, it } from 'vitest';
import { type Finding, type Shop, Sheet, calculate } from '../../src/engine/index';
import { readNote } from '../../src/notation/note';

const fenced = (lines: readonly string[], fence = 'figures'): string =>
  `\`\`\`${fence}\n${lines.join('\n')}\n\`\`\`\n`;
const findings = (text: string, shops: readonly Shop[] = []): readonly Finding[] =>
  calculate(text, shops).findings();
/** Each place a finding points to, by line and columns, with what it says there. */
const pointsTo = (finding: Finding | undefined): readonly unknown[] | undefined =>
  finding?.related.map(({ line, column, endColumn, message }) => [line, column, endColumn, message]);

describe('a name given twice', () => {
  it('points to the other lines that give it, broken ones as a whole', () => {
    const [first, , last] = findings(fenced(['a = 1', '  a = (', 'b = 1', 'a = 2']));
    expect(first).toMatchObject({ code: 'name-twice', line: 1, column: 0, endColumn: 1 });
    expect(pointsTo(first)).toEqual([
      [2, 2, 7, 'a = (: given here too'],
      [4, 0, 1, 'a: given here too'],
    ]);
    expect(pointsTo(last)).toEqual([
      [1, 0, 1, 'a: given here too'],
      [2, 2, 7, 'a = (: given here too'],
    ]);
  });

  it('has no value in any of its lines, nor where it is used', () => {
    const rows = calculate(fenced(['a = 1', 'a = 2', 'b = a'])).rows();
    expect(rows.map((row) => row.value)).toEqual([null, null, null]);
  });

  it('is asked for by its first line, whatever was edited when', () => {
    const sheet = calculate(fenced(['b = 1', 'a = 1']));
    expect(sheet.figure('a')?.text).toBe('a = 1');
    sheet.update(readNote(fenced(['b = 1', 'a = 1', 'a = 2'])));
    expect(sheet.figure('a')?.text).toBe('a = 1');
    sheet.update(readNote(fenced(['a = 0', 'b = 1', 'a = 1', 'a = 2'])));
    expect(sheet.figure('a')?.text).toBe('a = 0');
  });

  it('is found among the words of a card, too', () => {
    const [first, second] = findings(fenced(['remark: x', 'remark: y'], 'machine mill'));
    expect(pointsTo(first)).toEqual([[2, 0, 9, 'remark: y: given here too']]);
    expect(second).toMatchObject({ code: 'name-twice', column: 0, endColumn: 6 });
    expect(pointsTo(second)).toEqual([[1, 0, 9, 'remark: x: given here too']]);
  });

  it('points to them in the order of the note, whatever was edited when', () => {
    const sheet = new Sheet();
    for (const lines of [
      ['a = 1', 'a = 3'],
      ['a = 1', 'a = 2', 'a = 3'],
      ['a = 0', 'a = 1', 'a = 2', 'a = 3'],
    ])
      sheet.update(readNote(fenced(lines)));
    expect(sheet.findings().map((finding) => finding.related.map(({ line }) => line))).toEqual([
      [2, 3, 4],
      [1, 3, 4],
      [1, 2, 4],
      [1, 2, 3],
    ]);
  });

  it('points to ten others at most', () => {
    const first = findings(fenced(Array.from({ length: 13 }, (_, i) => `a = ${i}`))).slice(0, 2);
    expect(first.map((finding) => finding.related.map(({ line }) => line))).toEqual([
      [2, 3, 4, 5, 6, 7, 8, 9, 10],
      [1, 3, 4, 5, 6, 7, 8, 9, 10],
    ]);
    const last = findings(fenced(Array.from({ length: 13 }, (_, i) => `a = ${i}`))).at(-1);
    expect(last?.related.map(({ line }) => line)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  });

  it('points to 2000 others in the whole note, and of a line that is asked for by itself again to ten', () => {
    const sheet = calculate(fenced(Array.from({ length: 240 }, (_, i) => `a = ${i}`)));
    const related = (): readonly number[] => sheet.findings().map((finding) => finding.related.length);
    expect(related().reduce((sum, count) => sum + count)).toBe(2000);
    expect(related().at(-1)).toBe(0);
    expect(sheet.rowAt(240)?.findings.map((finding) => finding.related.length)).toEqual([10]);
  });
});

describe('a circle', () => {
  it('names ten of its members, says how many more there are, and points to the others', () => {
    const found = findings(fenced(Array.from({ length: 11 }, (_, i) => `c${i} = c${(i + 1) % 11} + 1`)));
    const names = Array.from({ length: 10 }, (_, i) => `c${i}`);
    expect(found).toHaveLength(11);
    for (const finding of found) expect(finding).toMatchObject({ code: 'cycle', data: { names, more: 1 } });
    expect(found[0]?.message).toContain('`c9` and 1 more. Give');
    expect(pointsTo(found[1])?.slice(0, 2)).toEqual([
      [1, 0, 2, 'c0: takes part'],
      [3, 0, 2, 'c2: takes part'],
    ]);
  });
});

describe('names that an unknown one may be a slip for', () => {
  const slips = (count: number): readonly string[] =>
    Array.from({ length: count }, (_, i) => `x${i} = rink${i} + 1 mm`);
  const rings = Array.from({ length: 60 }, (_, i) => `ring${i} = 3 mm`);
  const offered = (found: readonly Finding[]): readonly boolean[] =>
    found.map((finding) => (finding.data['offers'] as readonly string[]).length > 0);

  it('are offered for the first fifty, and again where those are used again', () => {
    const found = offered(findings(fenced([...rings, ...slips(53), 'again = rink0 + 1 mm'])));
    expect(found).toEqual([...Array<boolean>(50).fill(true), false, false, false, true]);
  });

  it('are offered for a line that is asked for by itself', () => {
    for (const count of [50, 53]) {
      const sheet = calculate(fenced([...rings, ...slips(count)]));
      expect(offered(sheet.findings()).filter(Boolean)).toHaveLength(50);
      expect(offered(sheet.rowAt(60 + count)?.findings ?? [])).toEqual([true]);
    }
  });

  it('are offered in the order of the note, whatever was edited when', () => {
    const sheet = new Sheet();
    sheet.update(readNote(fenced([...rings, ...slips(50)])));
    sheet.update(readNote(fenced([...rings, 'first = rink55', ...slips(50)])));
    expect(offered(sheet.findings())).toEqual([...Array<boolean>(50).fill(true), false]);
  });
});

describe('a line that is asked for by itself', () => {
  const note = [
    fenced(['a = 1 mm', 'b = none'], 'figures'),
    fenced(['speeds = [70, 115] rpm', 'max_sped = 3 rpm'], 'machine mill'),
    fenced(['a = 1 mm'], 'signed'),
  ].join('\nWords.\n');
  it('is the one that stands there among all, with its findings where it stands', () => {
    const sheet = calculate(note);
    const rows = sheet.rows();
    expect(rows.map(({ line }) => line)).toEqual([1, 2, 7, 8]);
    for (let line = -1; line < 20; line++) {
      const row = rows.find((each) => each.line === line);
      const alone = sheet.rowAt(line);
      expect([line, alone?.text, alone?.column]).toEqual([line, row?.text, row?.column]);
      expect(alone?.findings).toEqual(row?.findings);
    }
    for (const finding of sheet.findings()) expect(finding.endLine).toBe(finding.line);
    expect(sheet.findings().map(({ line }) => line)).toEqual([2, 8]);
  });
});

describe('machines', () => {
  const mill = fenced(['feeds = [0.1, 0.2] mm/rev'], 'machine mill');
  const lathe = fenced(['feeds = [0.12, 0.19] mm/rev'], 'machine lathe');
  it.each([['mill, lathe'], ['lathe, mill']])('are told in the order of the fence: %s', (machines) => {
    const found = findings(mill + lathe + fenced(['f = 0.15 mm/rev'], `figures on ${machines}`));
    expect(found.map((finding) => finding.data['machine'])).toEqual(machines.split(', '));
  });

  it('point to the line of the card that limits them', () => {
    const [finding] = findings(mill + fenced(['f = 0.3 mm/rev'], 'figures on mill'));
    expect(pointsTo(finding)).toEqual([[1, 0, 25, 'mill: machine limit `feeds`']]);
  });

  it('are offered for an unknown one, and no materials', () => {
    const [unknown, material] = findings(
      mill + fenced(['density = 7.85 g/cm^3'], 'material my') + fenced(['a = 1'], 'figures on milll, my'),
    );
    expect(unknown).toMatchObject({ code: 'unknown-machine', data: { offers: ['mill'], known: ['mill'] } });
    expect(material).toMatchObject({ code: 'not-a-machine', data: { name: 'my' } });
  });
});

describe('a card', () => {
  it('given twice in one file points to all the others, ten at most', () => {
    const cards = (count: number): string =>
      Array.from({ length: count }, () => fenced(['ratio = 40'], 'machine head')).join('');
    expect(findings(cards(2)).map(pointsTo)).toEqual([
      [[3, 11, 15, 'head: given here too']],
      [[0, 11, 15, 'head: given here too']],
    ]);
    const found = findings(cards(13)).map((finding) => finding.related.map(({ line }) => line / 3));
    expect(found[0]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(found[5]).toEqual([0, 1, 2, 3, 4, 6, 7, 8, 9, 10]);
    expect(found[12]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
    // Two that say the same stay two.
    const sheet = new Sheet();
    for (const text of [cards(2), `${cards(2)}\nMore words.\n`]) {
      sheet.update(readNote(text));
      expect(sheet.findings().map(({ line }) => line)).toEqual([0, 3]);
    }
  });

  it('holds figures and words, remarks and nothing else', () => {
    const found = findings(
      fenced(['# words', '', 'x = (', 'max_speed = 300 rpm', '3 mm < 4 mm  '], 'machine mill'),
    );
    expect(found.map(({ code, line, column, endColumn }) => [code, line, column, endColumn])).toEqual([
      ['value-missing', 3, 4, 5],
      ['not-in-card', 5, 0, 11],
    ]);
  });

  it('of a material may say anything where that of a machine has to say one of two things', () => {
    const said = (word: string): readonly string[] =>
      findings(fenced(['compound_zero: somewhere'], `${word} thing`)).map(({ code }) => code);
    expect(said('machine')).toEqual(['card-words-unclear']);
    expect(said('material')).toEqual([]);
  });

  it('without a name is asked for one, and stands among no others', () => {
    const shop = { file: 'shop.md', text: fenced(['speeds = [70, 115] rpm'], 'machine') };
    const note = fenced(['speeds = [70, 115] rpm'], 'machine') + fenced(['ratio = 40'], 'machine');
    const sheet = calculate(note, [shop]);
    expect(sheet.findings().map(({ code }) => code)).toEqual(['card-name-missing', 'card-name-missing']);
    expect(sheet.cards().filter(({ word }) => word === 'machine')).toEqual([]);
    expect(sheet.rows().map(({ line, text }) => [line, text])).toEqual([
      [1, 'speeds = [70, 115] rpm'],
      [4, 'ratio = 40'],
    ]);
  });

  it('gives its figures, lists and words, but neither records nor what has no value', () => {
    const found = findings(
      fenced(['x = none', 's = ball_on_shank(30 mm, 12 mm)', 't: words', 'u = 3 mm'], 'machine mill') +
        fenced(['a = mill.x', 'b = mill.s', 'c = mill.u']),
    );
    expect(found.map(({ code, line }) => [code, line])).toEqual([
      ['unknown-name', 1],
      ['unknown-field', 7],
      ['unknown-field', 8],
    ]);
    expect(found[1]?.data['known']).toEqual(['t', 'u']);
  });

  it('that is built in has its name and no lines in a file', () => {
    expect(calculate('').card('steel_C45')?.name).toBe('steel_C45');
    expect(calculate('').card('steel_C45')?.fieldPlaces.size).toBe(0);
    expect(
      calculate(fenced(['density = 7.85 g/cm^3'], 'material my'))
        .card('my')
        ?.fieldPlaces.get('density'),
    ).toMatchObject({ file: null, line: 1, column: 0, endColumn: 21 });
  });
});

describe('limits of a card', () => {
  it('are told by its field, also on a line without a name', () => {
    const card = fenced(['knee_per_turn = 2.5 mm ± 3'], 'machine mill');
    for (const line of ['x = sqrt(mill.knee_per_turn * 1 mm)', 'sqrt(mill.knee_per_turn * 1 mm)']) {
      const input = 'mill.knee_per_turn';
      expect(findings(card + fenced([line]))).toMatchObject([
        { code: 'fails-at-limit', data: { name: input, input } },
      ]);
    }
  });
});

describe('what was signed', () => {
  it('points to the line as it is now', () => {
    const quoted = fenced(['a = 3 mm # thicker  '])
      .trimEnd()
      .split('\n')
      .map((line) => `> ${line}\n`)
      .join('');
    const note = `${quoted}\n${fenced(['date: 2026-01-02', 'a = 4 mm'], 'signed')}`;
    expect(findings(note).map(pointsTo)).toEqual([[[1, 2, 20, 'a: as it is now']]]);
    // Its own lines are none of the note's figures.
    expect(calculate(note).rows()).toHaveLength(1);
  });
  it('of a figure that is gone points nowhere', () => {
    expect(findings(fenced(['a = 4 mm'], 'signed'))).toMatchObject([{ code: 'signed-gone', related: [] }]);
  });
});
