/** Every fix that is offered anywhere in the fixtures of findings and in the examples, applied; with either line end. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Sheet, type Shop, calculate } from '../../src/engine/index';
import { mark } from '../../src/language/diagnostics';
import { edited } from '../../src/language/edits';
import { type Fix, fixes } from '../../src/language/quick-fixes';
import { inWords } from '../../src/language/said';
import { readFixtures } from '../notation/fixture';
import { figures } from './cursor';

const here = (path: string): URL => new URL(path, import.meta.url);
const read = (path: string): string => readFileSync(here(path), 'utf8');

interface Case {
  readonly name: string;
  readonly text: string;
  readonly shops: readonly Shop[];
}

const raising = [...read('../engine/findings.md').matchAll(/^## (\S+)[^]*?~~~md\n([^]*?)~~~/gm)].map(
  ([, name = '', text = '']): Case => ({ name, text, shops: [] }),
);
const refused = readFixtures(here('../notation/fixtures/'))
  .filter(({ finding }) => finding !== null)
  .map(({ word, code }): Case => {
    const fence = word === 'machine' || word === 'material' ? `${word} own` : word;
    return { name: code.trim(), text: figures(code).replace('figures', fence), shops: [] };
  });
const shop: Shop = { file: 'shop.md', text: read('../../examples/shop.md') };
const examples = readdirSync(here('../../examples/'))
  .filter((name) => name.endsWith('.md') && name !== 'shop.md')
  .map((name): Case => ({ name, text: read(`../../examples/${name}`), shops: [shop] }));

/** Codes only: a fix may put a line in. What a line still wants that its note never stated counts for nothing. */
const UNSTATED = /^(?:unknown-|card-needed|not-measured-yet|not-used-yet|no-fields)/;
const errors = (of: Sheet): readonly string[] =>
  of.findings().flatMap(({ severity, code }) => (severity === 'error' && !UNSTATED.test(code) ? [code] : []));
/** Lines with a second slip beside the one that the fix is for: what is left is that one. */
const SECOND_SLIP: ReadonlySet<string> = new Set([
  'speeds = [1 3/8, 2]', // lacks rpm
  'ball_on_shank(30 mm, fillet = 2 mm)', // lacks the neck
  'x = 25 mm shft', // asks for no limits
  'a = 5 + 1-3/8 in', // adds a number to a length
  'a = taper_callout(1:10000)', // these last are no tapers, whichever way they are written
  'a = taper_callout(1000:10)',
  'a = taper_callout(1:1e9)',
  'a = taper_callout(1:0)',
  'a = taper_callout(1:0.00)',
  'a = taper_callout(0:10)',
  'a = taper_callout(1.5:10)',
  'a = taper_callout(1:10mm)',
]);

const withoutEnds = (text: string): string => text.replaceAll('\r\n', '\n');

/** The fix offered at the same place of the note with other line ends, applied there: the same note comes out. */
function sameWithCrlf({ text, shops }: Case, range: Fix['edits'][number]['range'], fix: Fix): void {
  const crlf = withoutEnds(text).replaceAll('\n', '\r\n');
  const sheet = calculate(crlf, shops);
  const other = fixes({ sheet, text: crlf, shops }, range, { speedChoice: 'below' }).find(
    ({ title, mark }) => inWords(title) === inWords(fix.title) && mark?.code === fix.mark?.code,
  );
  const after = other && edited(crlf, other.edits);
  expect(after).toBe(edited(withoutEnds(text), fix.edits).replaceAll('\n', '\r\n'));
}

interface Tried {
  readonly said: string;
  /** True when the note has an error less, or, of a remark or warning, no more than before. */
  readonly mended: boolean;
}

/** Each fix of each finding, applied: its finding is gone there and then. */
function applyAll(each: Case): readonly Tried[] {
  const { text, shops, name } = each;
  const sheet = calculate(text, shops);
  return sheet.findings().flatMap((finding) => {
    const { range } = mark(finding);
    const own = fixes({ sheet, text, shops }, range, { speedChoice: 'below' }).filter(
      (fix) => fix.mark?.code === finding.code,
    );
    const tried = own.map((fix): Tried => {
      const after = calculate(edited(text, fix.edits), shops);
      const said = `${name}: ${inWords(fix.title)}`;
      const alike = (of: Sheet): number => of.findings().filter(({ code }) => code === finding.code).length;
      expect([said, alike(after) < alike(sheet)]).toEqual([said, true]);
      expect([said, errors(after).length <= errors(sheet).length]).toEqual([said, true]);
      sameWithCrlf(each, range, fix);
      const unstated = UNSTATED.test(finding.code) || finding.severity !== 'error';
      return { said, mended: errors(after).length <= errors(sheet).length - (unstated ? 0 : 1) };
    });
    // Where a line has more than one slip, what mends none of it is not offered beside what mends it all.
    const [best] = tried.filter(({ mended }) => mended);
    if (best) expect(tried.filter(({ mended }) => !mended)).toEqual([]);
    return tried;
  });
}

describe('every fix', () => {
  it('of a finding of values and formulas mends it and leaves no other error, with either line end', () => {
    expect(raising.length).toBeGreaterThan(60);
    const tried = raising.flatMap(applyAll);
    expect(tried.length).toBeGreaterThan(30);
    // A list alone does not yet say on which machine's dial.
    expect(tried.filter(({ mended }) => !mended).map(({ said }) => said)).toEqual([]);
  });

  it('of a line that the notation refuses mends it, but where the line has another slip besides', () => {
    expect(refused.length).toBeGreaterThan(100);
    const tried = refused.flatMap(applyAll);
    expect(tried.length).toBeGreaterThan(100);
    const left = tried
      .filter(({ mended }) => !mended)
      .map(({ said }) => said.slice(0, said.lastIndexOf(': ')));
    expect(left.filter((line) => !SECOND_SLIP.has(line))).toEqual([]);
  });

  it('in the examples mends what it is for, and what is offered without a finding brings none', () => {
    const tried = examples.flatMap(applyAll);
    expect(tried.length).toBeGreaterThan(10);
    expect(tried.filter(({ mended }) => !mended)).toEqual([]);
    let count = 0;
    for (const { text, shops, name } of examples) {
      const sheet = calculate(text, shops);
      const doubtful = (of: Sheet): number =>
        of.findings().filter(({ severity }) => severity !== 'info').length;
      for (const row of sheet.rows()) {
        const column = row.column + Math.max(0, row.text.search(/\d/));
        const range = { line: row.line, column, endLine: row.line, endColumn: column };
        for (const fix of fixes({ sheet, text, shops }, range, { speedChoice: 'below' })) {
          if (fix.mark) continue;
          count++;
          const after = calculate(edited(text, fix.edits), shops);
          const said = `${name}:${row.line + 1} ${inWords(fix.title)}`;
          expect([said, errors(after).length <= errors(sheet).length]).toEqual([said, true]);
          expect([said, doubtful(after) <= doubtful(sheet)]).toEqual([said, true]);
        }
      }
    }
    expect(count).toBeGreaterThan(100);
  });
});
