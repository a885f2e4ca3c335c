import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Shop, calculate } from '../../src/engine/index';
import { edited } from '../../src/language/edits';
import { alignment } from '../../src/language/format';
import { JOB_KINDS, type JobAnswers, jobPath, newJob, nextNumber } from '../../src/language/new-job';
import { judged } from '../../src/language/record-reading';
import { readNote } from '../../src/notation/note';

const example = readFileSync(fileURLToPath(new URL('../../examples/shop.md', import.meta.url)), 'utf8');
const SHOPS: readonly (readonly Shop[])[] = [
  [{ file: 'shop.md', text: example }],
  [],
  [
    {
      file: 'shop.md',
      text: '```machine small_lathe\nspeeds = [100, 2000] rpm\n```\n```machine drill\nmin_speed = 500 rpm\nmax_speed = 5 rev/min\n```\n```material stone\nkind: granite\n```\n',
    },
  ],
];
/** The slowest and the fastest to cut, one between, and one whose card says nothing. */
const TRIED = new Set(['steel_C45', 'tool_steel_O1', 'stone']);
const JOB: JobAnswers = {
  customer: 'Ostley Ferry Trust',
  part: 'Lever, ball end',
  material: null,
  machine: null,
  kind: 'ball',
  number: '0042',
  units: 'mm',
};

it('a new job is of one of four kinds', () => {
  expect(JOB_KINDS).toEqual(['ball', 'turned', 'indexed', 'empty']);
});

describe('the note of a new job', () => {
  it('calculates without a finding, with every machine, material, kind and system', () => {
    for (const shops of SHOPS) {
      const cards = calculate('', shops);
      const named = (word: string): readonly (string | null)[] => [
        null,
        ...cards.cards().flatMap((card) => (card.word === word ? [card.name] : [])),
      ];
      for (const machine of named('machine'))
        for (const material of named('material').filter((name) => name === null || TRIED.has(name)))
          for (const kind of JOB_KINDS)
            for (const units of ['mm', 'in'] as const) {
              const note = newJob({ ...JOB, machine, material, kind, units }, shops);
              const sheet = calculate(note, shops);
              const found = sheet.findings().map(({ code, message }) => `${code}: ${message}`);
              expect([machine, material, kind, units, found]).toEqual([machine, material, kind, units, []]);
              expect(sheet.rows().some(({ value }) => value !== null)).toBe(true);
            }
    }
  });

  it('says in its head what was answered, and begins with the part', () => {
    const start = (job: Partial<JobAnswers>): readonly string[] =>
      newJob({ ...JOB, ...job }, [])
        .split('\n')
        .slice(0, 11);
    expect(start({ material: 'steel_C45', units: 'in' })).toEqual([
      ...['---', 'job: 0042', 'customer: Ostley Ferry Trust', 'part: Lever, ball end', 'quantity: 1'],
      ...['material: steel_C45', 'units: in', 'status: planned', '---', '', '# Lever, ball end'],
    ]);
    expect(start({ customer: '', part: '  ' })).toEqual([
      ...[
        '---',
        'job: 0042',
        'customer: ',
        'part: ',
        'quantity: 1',
        'status: planned',
        '---',
        '',
        '# New job',
      ],
      ...['', 'The sizes are first values: put in what the drawing asks.'],
    ]);
  });

  it('has its head read back as it was answered', () => {
    for (const words of [
      'Ostley & Sons',
      'a: b',
      '"x"',
      "'",
      '# no',
      '- 5',
      '',
      '  two  lines\nof words ',
      'null',
      '{}',
      'Größe µ',
    ]) {
      const { front, findings } = readNote(newJob({ ...JOB, customer: words, part: words }, []));
      expect([words, front.get('customer')?.text, findings]).toEqual([
        words,
        words.trim().replace(/\s+/g, ' '),
        [],
      ]);
    }
  });

  it('is held to the machine where that can run it', () => {
    const [shops = []] = SHOPS;
    const made = (machine: string, material: string): string =>
      newJob({ ...JOB, machine, material, kind: 'indexed' }, shops);
    expect(made('mill', 'steel_C45')).toContain('figures on mill');
    expect(made('mill', 'steel_C45')).toContain('speed_step(wish, mill)');
    // 0.7 of 13 m/min on 50 mm is 58 rpm, and the lathe turns no slower than 60.
    expect(made('lathe', 'tool_steel_O1')).not.toContain('on lathe');
  });

  describe('takes from the cards', () => {
    const CARDS: readonly Shop[] = [
      {
        file: 'shop.md',
        text: [
          ...[
            '```machine lathe',
            'speeds = [40, 100, 300] rpm',
            'feeds = [0.05, 0.1, 0.2, 0.4] mm/rev',
            '```',
          ],
          ...[
            '```machine inch_lathe',
            'speeds = [40, 100, 300] rpm',
            'feeds = [0.002, 0.005, 0.01] in/rev',
            '```',
          ],
          ...['```machine drill', 'speeds = 300 rpm', '```', '```machine table', 'ratio = 90', '```'],
          ...[
            '```machine plain',
            'plates = [12]',
            '```',
            '```machine big_head',
            'ratio = 40',
            'plates = [15, 16, 18]',
            '```',
          ],
          ...['```machine small_head', 'ratio = 60', 'plates = [21, 24]', 'speeds = [2, 3] kg', '```'],
          ...['```material bar_5', 'hss_speed = 20 m/min', 'density = 7.8 g/cm^3', '```'],
          ...['```material odd', 'hss_speed = 20 kg', '```', ''],
        ].join('\n'),
      },
    ];
    const lines = (job: Partial<JobAnswers>): readonly string[] =>
      newJob({ ...JOB, ...job }, CARDS).split('\n');
    const line = (job: Partial<JobAnswers>, start: string): string | undefined =>
      lines(job).find((each) => each.startsWith(start));

    it('the cutting speed of the material, else one for mild steel', () => {
      const mild = 'cut    = 25 m/min            # mild steel with high-speed steel';
      expect(line({ material: 'bar_5' }, 'cut ')).toBe('cut    = bar_5.hss_speed');
      for (const material of [null, 'odd', 'unheard_of']) expect(line({ material }, 'cut ')).toBe(mild);
    });

    it('the weight of the blank where the material has a density', () => {
      expect(line({ material: 'bar_5' }, 'weight')).toBe(
        'weight = job.quantity * pi / 4 * bar^2 * blank * bar_5.density to kg',
      );
      for (const material of [null, 'odd']) expect(line({ material }, 'weight')).toBeUndefined();
    });

    it('the steps of the machine, where it has any', () => {
      const turned = (machine: string | null): readonly unknown[] =>
        ['```figures on', 'speed ', 'rate '].map((start) => line({ kind: 'turned', machine }, start));
      expect(turned('lathe')).toEqual([
        '```figures on lathe',
        'speed  = speed_step(wish, lathe)',
        'rate   = feed_rate(feed, speed)',
      ]);
      for (const machine of [null, 'table', 'small_head', 'drill'])
        expect(turned(machine)).toEqual([undefined, undefined, 'rate   = feed_rate(feed, wish)']);
    });

    it('the feed in the middle of the machine’s, else a fine one', () => {
      const feed = (machine: string | null): unknown => line({ kind: 'turned', machine }, 'feed ');
      expect(feed('lathe')).toBe('feed   = 0.1 mm/rev');
      expect(feed('inch_lathe')).toBe('feed   = 0.005 in/rev');
      for (const machine of [null, 'drill', 'table']) expect(feed(machine)).toBe('feed   = 0.1 mm/rev');
    });

    it('the dividing head: the machine itself, else the first of the shop', () => {
      const moves = (machine: string | null): unknown => line({ kind: 'indexed', machine }, 'moves ');
      expect(moves('small_head')).toBe('moves     = indexing_moves(slots, small_head)');
      for (const machine of [null, 'lathe', 'table', 'plain'])
        expect(moves(machine)).toBe('moves     = indexing_moves(slots, big_head)');
      const without = newJob({ ...JOB, kind: 'indexed' }, []);
      expect(without).toContain('\npart_turn = 360° / slots\n');
      expect(without).not.toContain('indexing_moves');
    });
  });

  it('is judged by the first reading', () => {
    const text = newJob({ ...JOB, machine: 'mill', material: 'steel_C45' }, SHOPS[0] ?? []);
    const shops = SHOPS[0] ?? [];
    const found = judged({ sheet: calculate(text, shops), text, shops }, 'ball', 'measured', '25.35');
    expect(found.verdict).toBe('0.3 mm left, 0.15 on radius');
  });

  it('loses nothing when it is aligned', () => {
    const text = newJob({ ...JOB, kind: 'turned' }, []);
    const once = edited(text, alignment(readNote(text), text));
    expect(once.replace(/ +/g, '')).toBe(text.replace(/ +/g, ''));
  });
});

describe('its place', () => {
  const parts = { number: '0042', part: 'Lever, ball end', year: '2026' };
  it('follows the layout', () => {
    expect(jobPath('jobs/${year}/${number}-${part}.md', parts)).toBe('jobs/2026/0042-lever-ball-end.md');
    expect(jobPath('${part}', parts)).toBe('lever-ball-end.md');
    expect(jobPath('', parts)).toBe('0042-lever-ball-end.md');
    expect(jobPath('${number}/${other}.md', { ...parts, part: '§$%' })).toBe('0042/${other}.md');
  });

  it('is as short as a file’s name should be, and ends in .md once', () => {
    const part = (words: string): string => jobPath('${part}', { ...parts, part: words });
    expect(part('a'.repeat(61))).toBe(`${'a'.repeat(60)}.md`);
    expect(part(`${'a'.repeat(59)} b`)).toBe(`${'a'.repeat(59)}.md`);
    expect(part(' --Größe: Ø 5-- ')).toBe('größe-ø-5.md');
    expect(part('!')).toBe('job.md');
    expect(jobPath('a/${part}.MD', parts)).toBe('a/lever-ball-end.MD');
    expect(jobPath('a.md/${part}', parts)).toBe('a.md/lever-ball-end.md');
    expect(jobPath('. /a. b/${number}', parts)).toBe('a. b/0042.md');
  });

  it('never leads out of the workspace', () => {
    expect(jobPath('../../${part}.md', parts)).toBe('lever-ball-end.md');
    expect(jobPath('/etc/${part}.md', parts)).toBe('etc/lever-ball-end.md');
    expect(jobPath('a\\..\\..\\${part}.md', { ...parts, part: '../../x' })).toBe('a/x.md');
    expect(jobPath('C:/${part}.md', parts)).toBe('C-/lever-ball-end.md');
  });

  it('has the number after the highest', () => {
    expect(nextNumber([])).toBe('0001');
    expect(nextNumber(['0041-lever.md', '0007-x.md', 'shop.md', '12-no.md'])).toBe('0042');
    expect(nextNumber(['9999-x.md'])).toBe('10000');
    expect(nextNumber(['123-x.md', '1234567-x.md', '0500', 'a/456 x.md'])).toBe('0457');
    expect(nextNumber(['123456-x.md'])).toBe('123457');
    expect(
      nextNumber(['jobs/2026/0041-lever.md', 'old/0007-x.md'], 'jobs/${year}/${number}-${part}.md'),
    ).toBe('0042');
  });

  it('has the number after the highest where the layout puts it', () => {
    const used = ['orders/0002/lever.md', 'orders/0012/bush-2026.md', 'notes/0900/no.md', '2026/lever.md'];
    expect(nextNumber(used, 'orders/${number}/${part}.md')).toBe('0013');
    expect(nextNumber(used, '/orders\\${number}\\${part}.md')).toBe('0013');
    expect(nextNumber(['a/lever-0031.md', 'a/lever-31.md'], 'a/${part}-${number}.md')).toBe('0032');
    expect(nextNumber(['x/0100+lever.md'], '${year}/${number}+${part}.md')).toBe('0101');
    expect(nextNumber(used, '${part}.md')).toBe('0001');
    expect(nextNumber(['a/0031-0032.md'], 'a/${number}-${number}.md')).toBe('0032');
    expect(nextNumber(['a/12-x.md', 'a/0012345.md'], 'a/${number}-${part}.md')).toBe('0001');
    // What stands in the layout is text, not a pattern.
    expect(nextNumber(['aXb(c/0007-x.md'], 'a.b(c/${number}-${part}.md')).toBe('0008');
    expect(nextNumber(['a.b(c/7-0007.md'], 'a.b(c/7-${number}.md')).toBe('0008');
  });
});
