/** Repeating, comparing and signing jobs, and what was used last time. */
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compareJobs, comparisonPage } from '../../src/archive/compare';
import { type JobEntry, entryOf } from '../../src/archive/entry';
import { JobIndex } from '../../src/archive/job-index';
import { pastUse } from '../../src/archive/past-use';
import { repeatOf } from '../../src/archive/repeat';
import { errorsOf, signedNote } from '../../src/archive/sign';
import { type Sheet, calculate } from '../../src/engine/index';
import { MemoryNotes, jobNote } from './workshop';

const EXAMPLES = ['ball-on-shank', 'index-plate', 'doubtful-setup', 'typical-mistakes'];
const example = (name: string): string => readFileSync(`examples/${name}.md`, 'utf8');
const SHOPS = [{ file: 'shop.md', text: example('shop') }];
const findings = (sheet: Sheet): readonly string[] => sheet.findings().map(({ code }) => code);

const NOTE = `---
job: 0147
due: 2026-12-11
status: done
part: Lever
---

# Lever

- [x] turned
> **Lesson:** hold it short

\`\`\`figures
ball  = 26 mm ± 0.05 mm   # runs in the socket
speed = 225 rpm
feed  = 0.1 mm/rev
setup = ball_on_shank(ball, 12 mm)
old measured 25.9 mm      # three places
worn  = ball - old
ball measured 26.4 mm
ball final 26.01 mm
speed used 140 rpm        # sang on the corners
feed used 0.1 mm/rev
setup.ring used 25.34 mm
\`\`\`

\`\`\`signed
date: 2026-01-02
ball = 26 mm
\`\`\`

after
`;

describe('repeating a job', () => {
  const made = repeatOf(NOTE, calculate(NOTE), { job: '0201', of: '0147' });

  it('keeps the plan, clears readings, offers what was used, carries lessons', () => {
    expect(made).toBe(`---
job: 0201
status: planned
part: Lever
repeat_of: 0147
---

# Lever

- Lesson: hold it short

- [ ] turned

\`\`\`figures
ball  = 26 mm ± 0.05 mm   # runs in the socket
# planned in 0147: speed = 225 rpm
speed = 140 rpm   # used in 0147, planned 225 rpm: sang on the corners
feed = 0.1 mm/rev   # used in 0147
setup = ball_on_shank(ball, 12 mm)
old measured 25.9 mm   # from 0147: measure again; three places
worn  = ball - old
setup.ring used 25.34 mm   # used in 0147, planned 25.256 mm; set it again
\`\`\`


after
`);
  });

  it('gives a note that calculates, and once more the same plan', () => {
    expect(findings(calculate(made))).toEqual([]);
    const again = repeatOf(made, calculate(made), { job: '0300', of: '0201' });
    expect(again).toContain('repeat_of: 0201');
    expect(again.match(/hold it short/g)).toHaveLength(1);
    expect(again).toContain('speed = 140 rpm');
  });

  it.each(['\n', '\r\n', '\r'])('is told whole, with any line end (%j)', (end) => {
    const before = [
      ...[
        '\ufeff---',
        'job: 12',
        'due:',
        '  2026-01-02',
        '  or later',
        'customer: Hallow Mill',
        '  and sons',
      ],
      ...[
        'repeat_of: 7',
        '---',
        '',
        '# Pin',
        '1. [x] turned',
        '  > * [X] faced',
        '- [x]not a task',
        '[x] nor this',
      ],
      ...['Lesson: hold it short', '- Lesson: hold it short', ''],
      ...['> ```figures', '> pin = 12 mm ± 0.02 mm shaft # as drawn', '> bore = 25 mm H7', '> n = 500 rpm'],
      ...[
        '> pin measured 12.1 mm',
        '> bore final 25.01 mm',
        '> old measured 11.8 mm # worn',
        '> pin used 12.1 mm',
      ],
      ...['> n used 450 rpm # sang', '> bore used 25.0 mm', '> tip used 0.4 mm', '> ```', ''],
      ...[
        '```machine lathe',
        'power = 2 kW',
        '```',
        '```signed',
        'date: 2026-01-01',
        'pin = 12 mm',
        '```',
        'End.',
      ],
    ].join(end);
    const again = repeatOf(before, calculate(before), { job: '13 #2', of: '12' });
    expect(again.split(end)).toEqual([
      ...[
        '---',
        'job: "13 #2"',
        'customer: Hallow Mill',
        '  and sons',
        'repeat_of: 12',
        'status: planned',
        '---',
      ],
      ...['', '# Pin', '', '- Lesson: hold it short', '1. [ ] turned', '  > * [ ] faced', '- [x]not a task'],
      ...['[x] nor this', ''],
      '> ```figures',
      '> # planned in 12: pin = 12 mm ± 0.02 mm shaft',
      '> pin = 12.1 mm ± 0.02 mm shaft   # used in 12, planned 12 mm',
      '> bore = 25.0 mm   # used in 12',
      '> # planned in 12: n = 500 rpm',
      '> n = 450 rpm   # used in 12, planned 500 rpm: sang',
      '> old measured 11.8 mm   # from 12: measure again; worn',
      '> tip used 0.4 mm   # used in 12; set it again',
      ...['> ```', '', '```machine lathe', 'power = 2 kW', '```', 'End.'],
    ]);
  });

  it.each([
    [
      ['Lesson: a', '# Pin', 'words'],
      ['# Pin', '', '- Lesson: a', 'words'],
    ],
    [
      ['Lesson: a', '', '', '# Pin', 'words'],
      ['', '', '# Pin', '', '- Lesson: a', 'words'],
    ],
    // A heading far down is not that of the job.
    [
      ['1', '2', '3', '4', '# Pin', 'Lesson: a'],
      ['', '- Lesson: a', '1', '2', '3', '4', '# Pin'],
    ],
    [
      ['1', '2', '3', '# Pin', 'Lesson: a'],
      ['1', '2', '3', '# Pin', '', '- Lesson: a'],
    ],
    [
      ['words', 'Lesson: a'],
      ['', '- Lesson: a', 'words'],
    ],
    [['words'], ['words']],
    [
      ['\ufeff# Pin', 'Lesson: a', 'words'],
      ['# Pin', '', '- Lesson: a', 'words'],
    ],
    // What begins like a heading within figures is none.
    [
      ['```figures', '# by eye', 'a = 1 mm', '```', '- Lesson: a'],
      ['', '- Lesson: a', '```figures', '# by eye', 'a = 1 mm', '```'],
    ],
  ])('lessons of %j come first', (lines, wanted) => {
    const text = lines.join('\n');
    const out = repeatOf(text, calculate(text), { job: '2', of: '1' }).split('\n');
    expect(out).toEqual(['---', 'job: 2', 'status: planned', 'repeat_of: 1', '---', ...wanted]);
  });

  it('gives fields anew with all that the old ones ran on over, and leaves what stands between them', () => {
    const text = [
      ...[
        '---',
        '# as agreed',
        'due:',
        '- 2026-01-02',
        '',
        '- or later',
        'status: |',
        '  done',
        '',
        '  well',
      ],
      ...['customer: Mill', '# by hand', 'repeat_of: 7', 'my-own: 5', '  too', '---', '', '# Pin'],
      ...['Lesson: hold it short', ''],
    ].join('\n');
    const out = repeatOf(text, calculate(text), { job: '2', of: '1' });
    expect(out.split('\n')).toEqual([
      ...[
        '---',
        '# as agreed',
        'status: planned',
        'customer: Mill',
        '# by hand',
        'repeat_of: 1',
        'my-own: 5',
      ],
      ...['  too', 'job: 2', '---', '', '# Pin', '', '- Lesson: hold it short', ''],
    ]);
    expect(findings(calculate(out))).toEqual([]);
  });

  it('gives a figure what was used though its plan had no value or was of another kind, and leaves cards alone', () => {
    const text = [
      ...['```figures', 'speed = lost', 'speed used 140 rpm', 'pin = 5 mm', 'pin used 5 kg', '```'],
      ...['```machine lathe', 'power measured 2 kW', '```', ''],
    ].join('\n');
    expect(repeatOf(text, calculate(text), { job: '2', of: '1' }).split('\n').slice(5)).toEqual([
      ...['```figures', 'speed = 140 rpm   # used in 1', '# planned in 1: pin = 5 mm'],
      ...['pin = 5 kg   # used in 1, planned 5 mm', '```'],
      ...['```machine lathe', 'power measured 2 kW', '```', ''],
    ]);
  });

  it('ends all lines as the first one ends', () => {
    const text = 'a\nb\r\nc\rd';
    const made = ['---', 'job: 2', 'status: planned', 'repeat_of: 1', '---', 'a', 'b', 'c', 'd'];
    expect(repeatOf(text, calculate(text), { job: '2', of: '1' })).toBe(made.join('\n'));
  });

  it.each(['0147', 'a b', 'ä/1-2.x', 'ends ', ' begins', '# no', 'a: b', '"', '-', ''])(
    'a job called %j is called so',
    (job) => {
      const out = repeatOf('words', calculate('words'), { job, of: '1' });
      expect(calculate(out).job().get('job')).toBe(job);
      expect(out).toContain(
        /^[\wä/. -]*[\w.]$/u.test(job) && /^[\wä]/u.test(job) ? `job: ${job}\n` : 'job: "',
      );
    },
  );

  it('keeps line ends, and limits that were asked', () => {
    const text = '```figures\r\nring = 29 mm ± 0.05 mm\r\nring used 28.9 mm\r\n```\r\n';
    const out = repeatOf(text, calculate(text), { job: '2', of: '1' });
    expect(out).toContain('ring = 28.9 mm ± 0.05 mm   # used in 1, planned 29 mm\r\n');
    expect(out.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('keeps limits of a figure only where they fit the new nominal', () => {
    const text = '```figures\nslot = 3.1 mm .. 3.2 mm hole\nslot used 3.12 mm\n```\n';
    expect(repeatOf(text, calculate(text), { job: '2', of: '1' })).toContain('slot = 3.12 mm   # used in 1');
  });

  it.each(EXAMPLES)('makes no new errors of %s', (name) => {
    const text = example(name);
    const before = calculate(text, SHOPS);
    const after = calculate(repeatOf(text, before, { job: '9', of: '8' }), SHOPS);
    const errors = (sheet: Sheet): number => errorsOf(sheet).length;
    expect(errors(after)).toBeLessThanOrEqual(errors(before));
  });

  it('never throws, and leaves words of any note standing', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (text, job) => {
        const out = repeatOf(text, calculate(text), { job, of: 'x' });
        expect(out.startsWith('---\njob: ') || /^---\r?\n?/.test(out)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

describe('signing', () => {
  const signature = { date: '2026-11-25', version: '0.1.0', by: 'M. Orrin' };

  it.each(EXAMPLES)('what was signed in %s comes out the same on opening it again', (name) => {
    const text = example(name);
    const before = calculate(text, SHOPS);
    const signed = signedNote(text, before, signature);
    expect(signed.startsWith(text)).toBe(true);
    expect(findings(calculate(signed, SHOPS))).toEqual(findings(before));
  });

  it('shows both when a card changes, and keeps the earlier record when signed again', () => {
    const text = '```figures\nbar = 10 mm\nweight = bar^3 * steel.density to kg\n```\n';
    const shop = (density: number): { file: string; text: string } => ({
      file: 'shop.md',
      text: `\`\`\`material steel\ndensity = ${density} kg/m^3\n\`\`\`\n`,
    });
    const signed = signedNote(text, calculate(text, [shop(7850)]), signature);
    expect(findings(calculate(signed, [shop(7850)]))).toEqual([]);
    const [finding] = calculate(signed, [shop(7900)]).findings();
    // 1 cm³ of steel: 7.85 g and 7.9 g, by hand.
    expect(finding?.data).toMatchObject({
      name: 'weight',
      then: '0.00785 kg',
      now: '0.0079 kg',
      date: '2026-11-25',
    });
    expect(finding?.severity).toBe('warning');
    expect(finding?.related).toHaveLength(1);
    const twice = signedNote(signed, calculate(signed, [shop(7900)]), { ...signature, date: '2026-12-01' });
    expect(twice.startsWith(signed)).toBe(true);
    expect(findings(calculate(twice, [shop(7900)]))).toEqual([]);
  });

  it('records the errors it was signed with', () => {
    const text = '```figures\na = b\n```\n';
    const sheet = calculate(text);
    expect(errorsOf(sheet)).toHaveLength(1);
    const signed = signedNote(text, sheet, { ...signature, by: '' });
    expect(signed).toContain('\nerrors: 1\nerror_1: line 2: There is no figure `b`');
    expect(signed).not.toContain('by:');
    expect(findings(calculate(signed))).toEqual(['unknown-name']);
  });

  it('writes figures of any size so that they read back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e12, max: 1e12, noNaN: true }),
        fc.constantFrom('mm', 'in', 'rpm', 'kg', 'deg', 'AUD', ''),
        (amount, unit) => {
          const number = Math.abs(amount).toFixed(6);
          const text = `\`\`\`figures\na = ${amount < 0 ? '-' : ''}${number} ${unit}\n\`\`\`\n`;
          const signed = signedNote(text, calculate(text), signature);
          expect(findings(calculate(signed))).toEqual(findings(calculate(text)));
        },
      ),
      { numRuns: 300 },
    );
  });

  it.each([
    ['0.0000001 mm', '0.0000001 mm'],
    ['0.000000123456789123 mm', '0.000000123456789 mm'],
    ['-0.0000025 kg', '-0.0000025 kg'],
    ['12345678901.5 mm', '12345678900 mm'],
    ['2 mm / 3', '0.666666667 mm'],
    ['0.1 mm + 0.2 mm - 0.3 mm', '0 mm'],
    ['1000000000000 mm * 1000000000 * 123', '123000000000000000000000 mm'],
    ['-1000000000000 mm * 1000000000 * 100', '-100000000000000000000000 mm'],
    ['30°', '30 deg'],
    ['20 °C', '20 °C'],
    ['5%', '5%'],
  ])('writes %s as %s, with no exponent', (amount, written) => {
    const text = `\`\`\`figures\na = ${amount}\n\`\`\`\n`;
    const signed = signedNote(text, calculate(text), signature);
    expect(signed.split('```signed')[1]).toContain(`\na = ${written}\n\`\`\`\n`);
    expect(findings(calculate(signed))).toEqual([]);
  });

  it.each(['\n', '\r\n', '\r'])('is told whole, with any line end (%j)', (end) => {
    const lines = [
      ...[
        '# Pin',
        '```figures',
        'pin = 12 mm ± 0.02 mm shaft',
        'hole = 1 in +0.001/0 in',
        'far = 3 m 0/-2 mm',
      ],
      ...[
        'setup = ball_on_shank(30 mm, 12 mm)',
        'moves = bolt_circle(40 mm, 4)',
        '2 * pin',
        'none = pin - pin',
      ],
      ...['ratio = 5', 'pin measured 12.01 mm', '```', '```machine lathe', 'power = 2 kW', '```', 'End.'],
    ];
    const text = lines.join(end);
    const signed = signedNote(text, calculate(text), signature);
    // asin(12 / 30) / 2 in degrees, to nine figures.
    const block = [
      ...[
        '',
        '```signed',
        'date: 2026-11-25',
        'version: 0.1.0',
        'by: M. Orrin',
        'pin = 12 mm +0.02/-0.02 mm',
      ],
      ...['hole = 1 in +0.001/0 in', 'far = 3 m 0/-0.002 m', 'setup.tilt = 11.7890892 deg'],
    ];
    expect(signed.split(end).slice(0, lines.length + block.length)).toEqual([...lines, ...block]);
    expect(signed.endsWith(['', 'none = 0 mm', 'ratio = 5', '```', ''].join(end))).toBe(true);
    expect(signed.split('```signed')[1]).not.toMatch(/power|measured|2 \* pin|\[/);
    expect(signedNote(`${text}${end}`, calculate(text), signature)).toBe(signed);
    expect(signedNote(`a${end}b\r\nc\n`, calculate(''), signature).split('signed')[1]).toBe(
      [...['', 'date: 2026-11-25', 'version: 0.1.0', 'by: M. Orrin', '```', '']].join(end),
    );
  });

  it('lists twenty errors and counts the others', () => {
    const text = `\`\`\`figures\n${Array.from({ length: 22 }, (_, i) => `a${i} = none`).join('\n')}\n\`\`\`\n`;
    const sheet = calculate(text);
    expect(errorsOf(sheet)).toHaveLength(22);
    const signed = signedNote(text, sheet, signature);
    expect(signed).toContain('\nerrors: 22\nerror_1: line 2: ');
    expect(signed).toContain('\nerror_20: line 21: ');
    expect(signed).not.toContain('error_21');
  });

  it('gives a name one line whatever is typed', () => {
    const signed = signedNote('', calculate(''), { ...signature, by: 'A\n```\nB # C' });
    expect(signed).toContain('by: A ``` B no. C\n');
    const long = signedNote('', calculate(''), { ...signature, by: 'x'.repeat(500) });
    expect(long.split('by: ')[1]).toBe(`${'x'.repeat(400)}\n\`\`\`\n`);
  });
});

describe('comparing', () => {
  const [a, b] = [
    entryOf(
      '---\npart: Pin\n---\n```figures\nball = 25 mm ± 0.1 mm\nneck = 3/8 in\nold = 1 mm\nspeed used 200 rpm\n```\n',
    ),
    entryOf(
      '---\npart: Pin\njob: 7\n---\n```figures\nball = 25.05 mm ± 0.1 mm\nneck = 9.525 mm\nnew = lost\nspeed used 180 rpm\n```\n',
    ),
  ];
  const c = compareJobs(a, b);

  it('tells what differs and by how much, and what only one has', () => {
    expect(c.differ.map((pair) => [pair.name, pair.how, pair.change])).toEqual([
      ['ball', 'figure', '+0.05 mm'],
      ['speed', 'used', '−20 rpm'],
    ]);
    expect(c.same.map((pair) => pair.name)).toEqual(['neck']);
    expect(c.onlyBefore.map((pair) => pair.name)).toEqual(['old']);
    expect(c.onlyAfter).toEqual([]);
    expect(c.fields).toEqual([{ name: 'job', before: null, after: '7' }]);
    expect([c.newFindings.length, c.goneFindings.length]).toEqual([1, 0]);
  });

  it('notices limits alone', () => {
    const with_ = (limits: string): ReturnType<typeof entryOf> =>
      entryOf(`\`\`\`figures\na = 1 mm ${limits}\n\`\`\`\n`);
    expect(compareJobs(with_('± 0.1 mm'), with_('± 0.2 mm')).differ).toHaveLength(1);
    expect(compareJobs(with_('± 0.1 mm'), with_('± 0.1 mm')).differ).toHaveLength(0);
    // One band about another middle.
    const other = entryOf('```figures\na = 1.05 mm +0.05/-0.15 mm\n```\n');
    expect(compareJobs(with_('± 0.1 mm'), other).differ.map(({ change }) => change)).toEqual(['+0.05 mm']);
  });

  it('is told whole on a page', () => {
    const block = (...lines: readonly string[]): string => ['```figures', ...lines, '```', ''].join('\n');
    const one = entryOf(
      `---\npart: Pin\njob: 6\ndue: 2026-01-02\n---\n${block(
        ...[
          'ball = 25 mm ± 0.1 mm',
          'neck = 3/8 in',
          'old = 1 mm',
          'lost = none_1 + 1 mm',
          'far = 1000000 mm',
        ],
        ...[
          'warm = 20 °C',
          'kind = 7 mm',
          'sort = 7 mm',
          'upper = 8 mm +0.1/0 mm',
          'lower = 8 mm 0/-0.1 mm',
          'zero = 1 mm',
        ],
        ...['eye measured 5 mm', 'eye measured 6 mm', 'speed used 200 rpm'],
      )}`,
    );
    const other = entryOf(
      `---\npart: Pin\njob: "7  |"\ncustomer: Hallow Mill\n---\n${block(
        ...[
          'ball = 25.05 mm ± 0.1 mm',
          'neck = 9.525 mm',
          'fresh = 2 kg',
          'fail = 1 mm + 1 kg',
          'far = 1000000.0001 mm',
        ],
        ...[
          'warm = 25 °C',
          'kind = 7 kg',
          'sort = 8 kg',
          'upper = 8 mm +0.2/0 mm',
          'lower = 8 mm 0/-0.2 mm',
          'zero = 1.0000000001 mm',
        ],
        ...['eye measured 6.5 mm', 'speed used 180 rpm'],
      )}`,
    );
    expect(comparisonPage(compareJobs(one, other), 'A', 'B').split('\n')).toEqual([
      '# A and B',
      '',
      '## The job',
      '',
      '|  | A | B |',
      '| --- | --- | --- |',
      '| job | 6 | 7 \\| |',
      '| due | 2026-01-02 |  |',
      '| customer |  | Hallow Mill |',
      '',
      '## Different',
      '',
      '| figure | A | B | by |',
      '| --- | --- | --- | --- |',
      '| ball | 25 mm | 25.05 mm | +0.05 mm |',
      '| warm | 20 °C | 25 °C | +5 K |',
      '| kind | 7 mm | 7 kg | another kind |',
      '| sort | 7 mm | 8 kg | another kind |',
      '| upper | 8 mm (8 mm … 8.1 mm) | 8 mm (8 mm … 8.2 mm) | limits |',
      '| lower | 8 mm (7.9 mm … 8 mm) | 8 mm (7.8 mm … 8 mm) | limits |',
      '| eye measured | 6 mm | 6.5 mm | +0.5 mm |',
      '| speed used | 200 rpm | 180 rpm | −20 rpm |',
      '',
      '## Only in A',
      '',
      '| figure | value |',
      '| --- | --- |',
      '| old | 1 mm |',
      '',
      '## Only in B',
      '',
      '| figure | value |',
      '| --- | --- |',
      '| fresh | 2 kg |',
      '',
      '## Findings that are new',
      '',
      '| finding |',
      '| --- |',
      `| ${other.findings[0] ?? ''} |`,
      '',
      '## Findings that are gone',
      '',
      '| finding |',
      '| --- |',
      `| ${one.findings[0] ?? ''} |`,
      '',
      '3 figures are the same in both.',
      '',
    ]);
    const alone = entryOf(block('a = 1 mm'));
    expect(comparisonPage(compareJobs(alone, alone), 'A', 'B')).toBe(
      '# A and B\n\nOne figure is the same in both.\n',
    );
    const none = entryOf('# A plan\n');
    expect(comparisonPage(compareJobs(none, none), 'A', 'B')).toBe(
      '# A and B\n\nNo figure is the same in both.\n',
    );
  });

  it('tells each finding as often as it stands there', () => {
    const lost = (...names: readonly string[]): JobEntry =>
      entryOf(`\`\`\`figures\n${names.map((name) => `${name} * 2`).join('\n')}\n\`\`\`\n`);
    const c = compareJobs(lost('x', 'x', 'y', 'z'), lost('y', 'x', 'w'));
    const names = (texts: readonly string[]): unknown => texts.map((text) => /`(\w)`/.exec(text)?.[1]);
    expect([names(c.goneFindings), names(c.newFindings)]).toEqual([['x', 'z'], ['w']]);
    const once = compareJobs(lost('x', 'x', 'y'), lost('x', 'y'));
    expect([names(once.goneFindings), names(once.newFindings)]).toEqual([['x'], []]);
  });

  it('makes a page whose cells cannot break out', () => {
    const odd = entryOf('---\npart: "a | b"\n---\n');
    expect(comparisonPage(compareJobs(a, odd), 'one|two', 'b')).toContain('| part | Pin | a \\| b |');
    expect(comparisonPage(c, 'A', 'B')).toContain('| speed used | 200 rpm | 180 rpm | −20 rpm |');
  });

  it('is the same either way round, with signs changed', () => {
    fc.assert(
      fc.property(fc.nat(200), fc.nat(200), (i, j) => {
        const [x, y] = [entryOf(jobNote(i)), entryOf(jobNote(j))];
        const [there, back] = [compareJobs(x, y), compareJobs(y, x)];
        expect(there.differ.length).toBe(back.differ.length);
        expect(there.newFindings).toEqual(back.goneFindings);
        expect(compareJobs(x, x).differ).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });
});

describe('what was used last time', () => {
  it('comes from other jobs, those with more in common first, then the newest', async () => {
    const notes = new MemoryNotes();
    const note = (material: string, due: string, speed: number): string =>
      `---\nmaterial: ${material}\ndue: ${due}\n---\n\`\`\`figures\nspeed = 500 rpm\nspeed used ${speed} rpm # why ${speed}\n\`\`\`\n`;
    notes.texts.set('brass.md', note('brass', '2026-05-01', 900));
    notes.texts.set('steel-old.md', note('steel', '2020-05-01', 300));
    notes.texts.set('steel-new.md', note('Steel', '2024-05-01', 310));
    notes.texts.set('own.md', note('steel', '2026-06-01', 320));
    const index = new JobIndex();
    await index.refresh(notes);
    const job = { material: 'steel' };
    const found = pastUse(index, {
      path: 'own.md',
      name: 'speed',
      job,
      value: { base: 300, kind: 'turning speed' },
      machines: [],
    });
    expect(found.map(({ path, amount, alike }) => [path, amount.comment, alike])).toEqual([
      ['steel-new.md', 'why 310', ['same material', 'like size']],
      ['steel-old.md', 'why 300', ['same material', 'like size']],
      ['brass.md', 'why 900', []],
    ]);
    expect(
      pastUse(index, {
        path: 'own.md',
        name: 'speed',
        job,
        value: { base: 3, kind: 'length' },
        machines: [],
      }),
    ).toEqual([]);
    expect(pastUse(index, { path: 'own.md', name: 'feed', job, value: null, machines: [] })).toEqual([]);
  });

  const put = (index: JobIndex, path: string, head: string, ...lines: readonly string[]): void =>
    index.put({
      path,
      mark: '',
      entry: entryOf(`---\n${head}\n---\n\`\`\`figures\n${lines.join('\n')}\n\`\`\`\n`),
    });
  const ask = (
    index: JobIndex,
    job: Readonly<Record<string, string>>,
    base: number | null,
  ): readonly unknown[] =>
    pastUse(index, {
      path: 'own.md',
      name: 'Pin',
      job,
      value: base === null ? null : { base, kind: 'length' },
      machines: [],
    }).map(({ path, amount, alike }) => `${path} ${amount.shown}: ${alike.join(', ')}`);

  it('is alike by material, customer, part and size within a quarter', () => {
    const index = new JobIndex();
    put(index, 'a.md', 'customer: Mill\npart: Pin', 'pin used 125 mm');
    put(index, 'b.md', 'customer: mill', 'pin used 125.02 mm');
    put(index, 'c.md', 'part: pin', 'pin used 75 mm');
    put(index, 'd.md', 'job: 1', 'pin used 74.9 mm', 'old_pin used 100 mm', 'pin = 100 mm');
    put(index, 'own.md', 'customer: Mill', 'pin used 100 mm');
    expect(ask(index, { customer: 'Mill', part: 'PIN' }, 100)).toEqual([
      'a.md 125 mm: same customer, same part, like size',
      'c.md 75 mm: same part, like size',
      'b.md 125.02 mm: same customer',
      'd.md 74.9 mm: ',
    ]);
    expect(ask(index, {}, 0)).toEqual([
      'a.md 125 mm: ',
      'b.md 125.02 mm: ',
      'c.md 75 mm: ',
      'd.md 74.9 mm: ',
    ]);
    expect(ask(index, {}, null)).toHaveLength(4);
    index.remove('c.md');
    expect(ask(index, {}, null)).toEqual(['a.md 125 mm: ', 'b.md 125.02 mm: ', 'd.md 74.9 mm: ']);
  });

  it('was run rather than measured, then by path and line, the first twenty', () => {
    const index = new JobIndex();
    put(index, 'b.md', 'due: 2026-01-01', 'pin used 3 mm', 'pin measured 4 mm', 'pin used 2 mm');
    put(index, 'a.md', 'due: 2026-01-01', 'pin final 5 mm');
    put(index, 'c.md', 'due: 2026-02-01', 'pin final 6 mm');
    const found = ['c.md 6 mm: ', 'b.md 3 mm: ', 'b.md 2 mm: ', 'a.md 5 mm: ', 'b.md 4 mm: '];
    expect(ask(index, {}, null)).toEqual(found);
    for (let i = 0; i < 30; i++) put(index, `z${i}.md`, 'due: 2025-01-01', 'pin used 1 mm');
    expect(ask(index, {}, null)).toHaveLength(20);
    expect(ask(index, {}, null).slice(0, 5)).toEqual(found);
  });

  it('was on the same machine where its block is tied to one of those asked', async () => {
    const notes = new MemoryNotes();
    for (const on of ['', ' on lathe', ' on lathe, steady', ' on latheling'])
      notes.texts.set(`a${on}.md`, `\`\`\`figures${on}\nspeed used 300 rpm\n\`\`\`\n`);
    const index = new JobIndex();
    await index.refresh(notes);
    const again = new JobIndex();
    await again.load(await index.save('1'), '1');
    for (const one of [index, again]) {
      const found = pastUse(one, {
        path: '',
        name: 'speed',
        job: {},
        value: null,
        machines: ['mill', 'lathe'],
      });
      expect(found.map(({ path, alike }) => [path, alike])).toEqual([
        ['a on lathe, steady.md', ['same machine']],
        ['a on lathe.md', ['same machine']],
        ['a on latheling.md', []],
        ['a.md', []],
      ]);
    }
  });
});
