import { describe, expect, it } from 'vitest';
import { type Shop, calculate } from '../../src/engine/index';
import { edited } from '../../src/language/edits';
import { type Fix, type FixSettings, fixes } from '../../src/language/quick-fixes';
import { inWords } from '../../src/language/said';
import { figures } from './cursor';

const SHOPS: readonly Shop[] = [
  {
    file: 'shop.md',
    text: '```machine lathe\nspeeds = [70, 115, 300] rpm\nfeeds = [0.1, 0.2] mm/rev\nmax_feed_rate = 100 mm/min\n```\n',
  },
];
const BELOW: FixSettings = { speedChoice: 'below' };

/** The fixes at the mark `‸`. */
function at(text: string, settings = BELOW): { readonly plain: string; readonly found: readonly Fix[] } {
  const mark = text.indexOf('‸');
  const plain = text.replace('‸', '');
  const line = text.slice(0, mark).split(/\r?\n/).length - 1;
  const column = mark - (text.lastIndexOf('\n', mark) + 1);
  const noted = { sheet: calculate(plain, SHOPS), text: plain, shops: SHOPS };
  const range = { line, column, endLine: line, endColumn: column };
  return { plain, found: fixes(noted, range, settings) };
}
const titles = (text: string, settings = BELOW): readonly string[] =>
  at(text, settings).found.map(({ title }) => inWords(title));

/** The text after the fix of that title; the note has no errors then, with either line end. */
function fixed(title: RegExp, text: string, settings = BELOW): string {
  const results = ['\n', '\r\n'].map((end) => {
    const { plain, found } = at(text.replaceAll('\n', end), settings);
    const fix = found.find((each) => title.test(inWords(each.title)));
    if (!fix)
      throw new Error(`no ${String(title)} among ${found.map((each) => inWords(each.title)).join('; ')}`);
    const after = edited(plain, fix.edits);
    expect(after.replaceAll('\r\n', '').includes('\r')).toBe(false);
    if (end === '\r\n') expect(/(?<!\r)\n/.test(after)).toBe(false);
    const errors = calculate(after, SHOPS)
      .findings()
      .filter(({ severity }) => severity !== 'info');
    expect([after, errors.map(({ code }) => code)]).toEqual([after, []]);
    return after.replaceAll('\r\n', '\n');
  });
  expect(results[1]).toBe(results[0]);
  return (results[0] ?? '').split('\n').slice(1, -2).join('\n');
}
const onLathe = (...lines: readonly string[]): string =>
  `\`\`\`figures on lathe\n${lines.join('\n')}\n\`\`\`\n`;

describe('a speed that the machine has', () => {
  it('takes the place of one that is stated', () => {
    expect(fixed(/^Write 70 rpm/, onLathe('n = ‸100 rpm'))).toBe('n = 70 rpm');
    expect(fixed(/^Write 115 rpm/, onLathe('n = ‸100 rpm'))).toBe('n = 115 rpm');
    expect(fixed(/^Write 300 rpm, the limit/, onLathe('n = ‸900 rpm'))).toBe('n = 300 rpm');
    expect(fixed(/^Write 70 rpm, the limit/, onLathe('n = ‸20 rpm'))).toBe('n = 70 rpm');
    expect(fixed(/^Write 0.1 mm\/rev/, onLathe('f = ‸0.16 mm/rev'))).toBe('f = 0.1 mm/rev');
    expect(fixed(/^Write 100 mm\/min/, onLathe('f = ‸160 mm/min'))).toBe('f = 100 mm/min');
  });

  it('takes the place of a stated one in brackets, and of a feed beyond the machine’s', () => {
    expect(fixed(/^Write 70 rpm/, onLathe('n = ‸(100 rpm)'))).toBe('n = 70 rpm');
    expect(fixed(/^Write 0.2 mm\/rev, the limit/, onLathe('f = ‸0.5 mm/rev'))).toBe('f = 0.2 mm/rev');
  });

  it('is written into a line without a name, in a quote as well', () => {
    const own = (text: string): readonly unknown[] =>
      at(text).found.flatMap(({ mark, title, preferred, edits }) =>
        mark ? [[inWords(title), preferred, edits.map((edit) => edit.text)]] : [],
      );
    const step = ['Take the step of lathe below', true, ['speed_step(100 rpm, lathe)']];
    expect(own(onLathe('‸100 rpm'))).toEqual([step]);
    expect(own('> ```figures on lathe\n> ‸100 rpm\n> ```\n')).toEqual([step]);
    expect(own('> ```figures on lathe\n> ‸900 rpm\n> ```\n')).toEqual([
      ['Keep it within 300 rpm, the limit of lathe', true, ['min(900 rpm, 300 rpm)']],
    ]);
  });

  it('of which two can be run is preferred once, and is no step where it is a feed', () => {
    const own = (text: string): readonly unknown[] =>
      at(text).found.flatMap(({ mark, title, preferred }) => (mark ? [[inWords(title), preferred]] : []));
    expect(own(onLathe('f = ‸0.15 mm/rev * 1'))).toEqual([
      ['Note that 0.1 mm/rev is run', true],
      ['Note that 0.2 mm/rev is run', false],
    ]);
  });

  it('of a result with parts is not noted, since it is one of the parts', () => {
    const found = titles(onLathe('s = ‸interrupted_speed(22 m/min, 60 mm)'));
    expect(found.filter((title) => title.startsWith('Note that'))).toEqual([]);
  });

  it('comes first as the settings say', () => {
    expect(titles(onLathe('n = ‸100 rpm'))[0]).toMatch(/^Write 70 rpm/);
    expect(titles(onLathe('n = ‸100 rpm'), { speedChoice: 'nearest' })[0]).toMatch(/^Write 115 rpm/);
    expect(titles(onLathe('n = ‸80 rpm'), { speedChoice: 'nearest' })[0]).toMatch(/^Write 70 rpm/);
    expect(titles(onLathe('n = ‸92.5 rpm'), { speedChoice: 'nearest' })[0]).toMatch(/^Write 70 rpm/);
  });

  it('keeps the formula that asks for another', () => {
    expect(fixed(/^Take the step/, onLathe('n = ‸spindle_speed(24 m/min, 60 mm)'))).toBe(
      'n = speed_step(spindle_speed(24 m/min, 60 mm), lathe)',
    );
    expect(fixed(/^Note that 115 rpm/, onLathe('n = ‸spindle_speed(24 m/min, 60 mm)'))).toBe(
      'n = spindle_speed(24 m/min, 60 mm)\nn used 115 rpm',
    );
    expect(fixed(/^Keep it within 300 rpm/, onLathe('n = ‸spindle_speed(60 m/min, 20 mm)'))).toBe(
      'n = min(spindle_speed(60 m/min, 20 mm), 300 rpm)',
    );
    expect(fixed(/^Keep it within 70 rpm/, onLathe('n = ‸spindle_speed(1 m/min, 20 mm)'))).toBe(
      'n = max(spindle_speed(1 m/min, 20 mm), 70 rpm)',
    );
  });

  it('is not offered for one that it has', () => {
    expect(titles(onLathe('n = ‸115 rpm')).filter((title) => /step|limit/.test(title))).toEqual([]);
  });
});

describe('what was likely meant', () => {
  it('is offered in the order of the finding, for the place asked about', () => {
    const text = figures('a = ‸1-3/8 in', 'b = 2 mm');
    expect(titles(text).slice(0, 2)).toEqual(['Write 1 3/8 in', 'Write 1 in - 3/8 in']);
    expect(titles(figures('a = 1-3/8 in', 'b = ‸2 mm')).some((title) => title.startsWith('Write'))).toBe(
      false,
    );
    expect(fixed(/^Write 1 in - 3\/8 in$/, text)).toBe('a = 1 in - 3/8 in\nb = 2 mm');
  });

  it('is offered for the whole line where the cursor touches no mark', () => {
    expect(titles(figures('‸d = 1-3/8 in'))[0]).toBe('Write 1 3/8 in');
    // Where it touches one, only that one is meant.
    const both = ['ring = 29 mm', 'width = 2 mm', 'a = rang + wodth'];
    const writes = (text: string): readonly string[] =>
      titles(text).filter((title) => title.startsWith('Write'));
    expect(writes(figures(...both).replace('rang', '‸rang'))).toEqual(['Write ring']);
    expect(writes(figures(...both).replace('a =', '‸a ='))).toEqual(['Write ring', 'Write width']);
    expect(titles(figures('a = 1-3/8 in', '‸b = 2 mm')).some((title) => title.startsWith('Write'))).toBe(
      false,
    );
  });

  it('is written in its place', () => {
    expect(fixed(/^Write 1 3\/8 in$/, figures('d = ‸1-3/8 in'))).toBe('d = 1 3/8 in');
    expect(fixed(/^Write ring$/, figures('ring = 29 mm', 'gap = ‸rang + 1 mm'))).toBe(
      'ring = 29 mm\ngap = ring + 1 mm',
    );
    expect(fixed(/^Write 10 mm$/, figures('a = ball_on_shank(30 mm, ‸10)'))).toBe(
      'a = ball_on_shank(30 mm, 10 mm)',
    );
    expect(fixed(/^Write 11.98 mm$/, figures('d = 12 mm ± 0.05', 'd measured ‸11.98'))).toBe(
      'd = 12 mm ± 0.05\nd measured 11.98 mm',
    );
    expect(
      titles(figures('d = 12 mm', 'd measured ‸12 kg')).filter((title) => title.startsWith('Write')),
    ).toEqual([]);
    const quoted = at('> ```figures\n> d = 12 mm\n> d measured ‸12\n> ```\n').found[0];
    expect(quoted?.edits).toMatchObject([{ text: '12 mm', range: { line: 2, column: 13, endColumn: 15 } }]);
    expect(fixed(/^Write 300 rpm$/, figures('n = 350 rpm', 'n used ‸300'))).toBe(
      'n = 350 rpm\nn used 300 rpm',
    );
    expect(fixed(/^Write 12°$/, figures('t = 11° ± 2°', 't measured ‸12'))).toBe(
      't = 11° ± 2°\nt measured 12°',
    );
  });

  it('may be nothing', () => {
    expect(titles('```figures ‸!\na = 1\n```\n')).toEqual(['Write nothing here']);
  });

  it('that mends the line is offered alone, and all where none does', () => {
    const writes = (text: string): readonly string[] =>
      titles(text).filter((title) => title.startsWith('Write'));
    expect(writes(figures('a = 5 + ‸1-3/8 in'))).toEqual(['Write 1 3/8 in', 'Write 1 in - 3/8 in']);
    expect(writes(figures('ring = 3 mm', 'rink = 3 kg', 'a = ‸rinf + 1 mm'))).toEqual(['Write ring']);
    const preferred = at(figures('ring = 3 mm', 'a = ‸rang + 1 mm')).found.map((fix) => fix.preferred);
    expect(preferred.slice(0, 2)).toEqual([true, false]);
  });

  it('of several kinds or with several meanings is not written everywhere at once', () => {
    const all = (...lines: string[]): readonly string[] =>
      titles(figures(...lines)).filter((title) => title.startsWith('Mend all'));
    expect(all('a = ‸1-3/8 in', 'b = 1-3/4 in')).toEqual([]);
    expect(all('ring = 2 mm', 'a = ‸rang', 'b = 10 mm + 5', 'n used 5')).toEqual([]);
    expect(all('ring = 2 mm', 'a = ‸rang', 'b = rang + 1 mm')).toEqual(['Mend all 2 of this kind']);
    expect(all('ring = 2 mm', 'a = ‸nothing_alike', 'b = rang', 'c = rang')).toEqual([]);
    // Here it would not mend: as a mass a ring cannot be written.
    expect(all('ring = 2 mm', 'a = ‸rang + 1 kg', 'b = rang + 1 kg')).toEqual([]);
  });

  it('is preferred when it is the only meaning', () => {
    const [only] = at(figures('d = ‸1-3/8 in')).found;
    expect(only?.preferred).toBe(
      at(figures('d = ‸1-3/8 in')).found.filter(({ kind, mark }) => kind === 'fix' && mark).length === 1,
    );
  });

  it('is written everywhere at once', () => {
    const note = figures('ring = 29 mm', 'a = ‸rang + 1 mm', 'b = 2 * rang', 'c = 1 mm');
    expect(fixed(/^Mend all 2/, note)).toBe('ring = 29 mm\na = ring + 1 mm\nb = 2 * ring\nc = 1 mm');
    expect(
      titles(figures('ring = 29 mm', 'a = ‸rang + 1 mm')).some((title) => title.startsWith('Mend all')),
    ).toBe(false);
  });
});

describe('a missing figure', () => {
  it('gets a line whose unit fits where it is used', () => {
    expect(fixed(/^Give depth/, figures('a = ‸depth + 1 mm'))).toBe(
      'depth = 1 mm   # fill in\na = depth + 1 mm',
    );
    expect(fixed(/^Give cut/, figures('n = spindle_speed(‸cut, 20 mm)'))).toBe(
      'cut = 20 m/min   # fill in\nn = spindle_speed(cut, 20 mm)',
    );
    expect(fixed(/^Give slope/, figures('h = 10 mm * sin(‸slope)'))).toBe(
      'slope = 10°   # fill in\nh = 10 mm * sin(slope)',
    );
  });

  it.each([
    ['x + 1 mm', '1 mm'],
    ['x + 1 rpm', '100 rpm'],
    ['x + 1 mm/min', '20 m/min'],
    ['x + 1 mm/rev', '0.1 mm/rev'],
    ['x + 1°', '10°'],
    ['x + 1', '1'],
    ['x + 1 kg', '1 kg'],
    ['x + 1 s', '10 min'],
    ['x + 1 W', '1 kW'],
    ['20 °C - x', '20 °C'],
    ['x + 1 N', '100 N'],
    ['x + 1 AUD', '1 AUD'],
  ])('in %s is begun with %s', (expression, value) => {
    expect(fixed(/^Give größe/, figures(`a = ‸${expression.replace('x', 'größe')}`)).split('\n')[0]).toBe(
      `größe = ${value}   # fill in`,
    );
  });

  it('is no help on a card, nor where no value would mend', () => {
    const gives = (text: string): readonly string[] =>
      titles(text).filter((title) => title.startsWith('Give'));
    expect(gives('```machine m\npower = ‸depth + 1 kW\n```\n')).toEqual([]);
    expect(gives(figures('a = ‸depth + 1 kg * 1 kg * 1 kg'))).toEqual([]);
    expect(gives(figures('a = ‸depth.part + 1 mm'))).toEqual([]);
  });

  it('in a quote or a list stands behind the same marks', () => {
    const { plain, found } = at('> ```figures\n> a = ‸depth + 1 mm\n> ```\n');
    const fix = found.find(({ title }) => inWords(title).startsWith('Give depth'));
    expect(edited(plain, fix?.edits ?? [])).toBe(
      '> ```figures\n> depth = 1 mm   # fill in\n> a = depth + 1 mm\n> ```\n',
    );
  });
});

it('of a line with many marks the first four are looked into, and each of them where it stands', () => {
  const names = ['aa', 'bb', 'cc', 'dd', 'ee', 'ff'];
  const lines = (mark: string): string => figures(`x = ${names.join(' + ').replace('ff', `${mark}ff`)}`);
  expect(titles(lines('').replace('x =', '‸x ='))).toEqual(
    names.slice(0, 4).map((name) => `Give ${name} a line of its own`),
  );
  expect(titles(lines('‸'))).toEqual(['Give ff a line of its own']);
});

describe('beside readings', () => {
  it('limits are proposed where there are none', () => {
    // ISO 2768-1, class m: 6 to 30 mm is ± 0.2 mm.
    expect(fixed(/^Ask for limits: ± 0.2 mm/, figures('d = ‸30 mm   # outside', 'd measured 30.1 mm'))).toBe(
      'd = 30 mm ± 0.2 mm   # outside\nd measured 30.1 mm',
    );
    expect(fixed(/^Ask for limits: ± 0.3 mm/, figures('d = 30.5 mm', 'd measured ‸30.6 mm'))).toBe(
      'd = 30.5 mm ± 0.3 mm\nd measured 30.6 mm',
    );
    expect(titles(figures('d = ‸30 mm')).some((title) => title.startsWith('Ask'))).toBe(false);
    expect(
      titles(figures('d = ‸30 mm h7', 'd measured 30 mm')).some((title) => title.startsWith('Ask')),
    ).toBe(false);
  });

  // ISO 2768-1, class m.
  it.each([
    ['6 mm', '0.1 mm'],
    ['6.1 mm', '0.2 mm'],
    ['30 mm', '0.2 mm'],
    ['30.1 mm', '0.3 mm'],
    ['120 mm', '0.3 mm'],
    ['120.1 mm', '0.5 mm'],
    ['400 mm', '0.5 mm'],
    ['400.1 mm', '0.8 mm'],
    ['-1000 mm', '0.8 mm'],
    ['11°', '0.5°'],
    ['1000.1 mm', null],
    ['2 kg', null],
    ['2 kg + 1 mm', null],
  ])('limits proposed for %s are ± %s', (size, wanted) => {
    const asks = titles(figures(`d = ${size}`, `d measured ‸${size.split(' + ')[0] ?? ''}`)).filter((title) =>
      title.startsWith('Ask'),
    );
    expect(asks.map((title) => /± ([^,]*)/.exec(title)?.[1])).toEqual(wanted === null ? [] : [wanted]);
  });

  it('of a sample, or of another kind than the figure, nothing is left', () => {
    for (const lines of [['old measured ‸5 mm'], ['d = 2 kg + 1 mm', 'd measured ‸5 mm']])
      expect(titles(figures(...lines)).filter((title) => !title.startsWith('Convert'))).toEqual([]);
  });

  it('which side is metal can be said', () => {
    expect(fixed(/hole$/, figures('d = 30 mm ± 0.1', 'd measured ‸29.4 mm'))).toBe(
      'd = 30 mm ± 0.1 hole\nd measured 29.4 mm',
    );
    expect(fixed(/shaft$/, figures('d = 30 mm ± 0.1', 'd measured ‸30.4 mm'))).toBe(
      'd = 30 mm ± 0.1 shaft\nd measured 30.4 mm',
    );
  });

  it('what is left becomes a line', () => {
    expect(fixed(/^Write what is left/, figures('d = 30 mm ± 0.1 shaft', 'd measured ‸30.4 mm'))).toBe(
      'd = 30 mm ± 0.1 shaft\nd measured 30.4 mm\nd_left = d.reading - d   # on the diameter',
    );
    expect(
      fixed(/^Write what is left/, figures('d = 30 mm H7', 'd_left = 1 mm', 'd measured ‸29.4 mm')),
    ).toBe('d = 30 mm H7\nd_left = 1 mm\nd measured 29.4 mm\nd_left_2 = d - d.reading   # on the diameter');
  });

  it('what is left has a name of its own, and no diameter where nothing is one', () => {
    const left = (...lines: string[]): string | undefined =>
      fixed(/^Write what is left/, figures(...lines))
        .split('\n')
        .at(-1);
    expect(left('w = 5 kg', 'w measured ‸5.2 kg')).toBe('w_left = w.reading - w');
    expect(left('s = ball_on_shank(30 mm, 12 mm)', 's.ring measured ‸30 mm')).toBe(
      's_ring_left = s.ring.reading - s.ring   # on the diameter',
    );
    const taken = ['d = 30 mm H7', 'd_left measured 1 mm', 'd_left_2 = 4', 'd measured ‸29.4 mm'];
    expect(left(...taken)).toBe('d_left_3 = d - d.reading   # on the diameter');
    const text = figures('d = 30 mm H7', 'd_left = 1 +', 'd measured ‸29.4 mm');
    const offered = at(text).found.find(({ title }) => inWords(title).startsWith('Write what is left'));
    expect(offered?.edits[0]?.text).toBe('\nd_left_2 = d - d.reading   # on the diameter');
  });

  it('the knee is moved by set-ups of a ball of that size only', () => {
    const lines = [
      'ball = 26 mm',
      's = ball_on_shank(25 mm, 12 mm)',
      'twice = 2 * ball',
      'h = ball_height(26 mm, 20 mm)',
      'q = ball_on_shank(neck: 12 mm)',
      'p = ball_on_shank(nothing, 12 mm)',
      'o = ball_on_shank([26, 27] mm, 12 mm)',
      'u = ball_on_shank(26 mm, 12 mm)',
      'v = ball_on_shank(fillet: 1 mm, ball: ball, neck: 12 mm)',
      'ball measured ‸26.3 mm',
    ];
    expect(titles(figures(...lines)).filter((title) => title.startsWith('Work out'))).toEqual([
      'Work out how far the knee still goes up with u',
      'Work out how far the knee still goes up with v',
    ]);
  });

  it.each(['ball, 11 mm', 'neck: 11 mm, ball: ball'])(
    'how far the knee still goes up is worked out for a ball cut with %s',
    (given) => {
      const lines = ['ball = 26 mm', `setup = ball_on_shank(${given})`];
      expect(fixed(/^Work out how far the knee/, figures(...lines, 'ball measured ‸26.4 mm'))).toBe(
        [...lines, 'ball measured 26.4 mm', 'ball_raise = knee_raise(ball.reading, ball, setup.ring)'].join(
          '\n',
        ),
      );
    },
  );
});

describe('another unit', () => {
  it('takes the place of a size, exactly', () => {
    expect(titles('> > > ```figures\n> > > d = ‸5 mm * 20\n> > > ```\n')).toEqual([
      'Convert to 0.196850394 in',
    ]);
    expect(fixed(/^Convert to 34.925 mm$/, figures('d = ‸1 3/8 in'))).toBe('d = 34.925 mm');
    expect(fixed(/^Convert to 1 in$/, figures('d = ‸25.4 mm ± 0.1 mm'))).toBe('d = 1 in ± 0.1 mm');
    expect(titles(figures('d = ‸5 AUD')).some((title) => title.startsWith('Convert'))).toBe(false);
    expect(titles(figures('d = ‸40')).some((title) => title.startsWith('Convert'))).toBe(false);
  });

  // An inch is 25.4 mm, a foot 12 in, a pound 0.45359237 kg (1959), to nine figures.
  it.each([
    ['25.4 mm', ['1 in']],
    ['2 cm', ['0.787401575 in', '20 mm']],
    ['3 thou', ['76.2 µm', '0.0762 mm', '0.003 in']],
    ['90 m/min', ['295.275591 ft/min', '90000 mm/min', '3543.30709 in/min']],
    ['300 ft/min', ['91.44 m/min', '91440 mm/min', '3600 in/min']],
    ['0.2 mm/rev', ['0.00787401575 in/rev']],
    ['0.01 in/rev', ['0.254 mm/rev']],
    ['5 in/min', ['127 mm/min', '0.127 m/min', '0.416666667 ft/min']],
    ['2 kg', ['4.40924524 lb']],
    ['2 lb', ['0.90718474 kg']],
    ['500 g', ['1.10231131 lb', '0.5 kg']],
    ['2 m/s', ['6.56167979 ft/s', '120 m/min', '120000 mm/min']],
    ['90 min', ['1.5 h']],
    ['2 h', ['120 min']],
    ['20 °C', []],
    ['30°', []],
    ['5 AUD/h', []],
    ['5%', []],
  ])('of %s is one of %j', (size, wanted) => {
    const offered = titles(figures(`d = ‸${size}`)).filter((title) => title.startsWith('Convert'));
    expect(offered).toEqual(wanted.map((other) => `Convert to ${other}`));
  });

  it('is of no line that has a unit to show in, nor of a check', () => {
    const shown = (text: string): boolean => titles(text).some((title) => title.startsWith('Show'));
    expect(shown(figures('25 mm ‸* 2'))).toBe(true);
    expect(shown(figures('a = 25 mm', 'a ‸<= 26 mm'))).toBe(false);
    expect(shown(figures('a = 25 mm', 'a‸ measured 26 mm'))).toBe(false);
    expect(shown(figures('a = 2 ‸* 3'))).toBe(false);
  });

  it('is what a result is shown in', () => {
    expect(fixed(/^Show it in in$/, figures('a = 25 mm', 'b = a ‸* 2   # twice'))).toBe(
      'a = 25 mm\nb = a * 2 to in   # twice',
    );
    expect(titles(figures('a = 25 mm', 'b = a ‸* 2 to in')).some((title) => title.startsWith('Show'))).toBe(
      false,
    );
  });
});

it('outside our blocks nothing is offered', () => {
  expect(titles(`some ‸words\n\n${figures('a = 1 mm')}`)).toEqual([]);
});
