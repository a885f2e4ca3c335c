import { describe, expect, it } from 'vitest';
import { type Shop, calculate } from '../../src/engine/index';
import { type Completion, completions } from '../../src/language/completion';
import type { Question } from '../../src/language/cursor';
import { signature } from '../../src/language/signature-help';
import { parameterHints } from '../../src/language/parameter-hints';
import { figures } from './cursor';

const SHOP: Shop = {
  file: 'shop.md',
  text: '```machine lathe\nspeeds = [70, 115] rpm\n```\n```machine head\nratio = 40\n```\n```material brass\nhss_speed = 60 m/min\n```\n',
};

function asked(text: string, shops: readonly Shop[] = [SHOP]): Question {
  const at = text.indexOf('‸');
  const line = text.slice(0, at).split('\n').length - 1;
  const plain = text.replace('‸', '');
  const column = at - (text.lastIndexOf('\n', at) + 1);
  return { sheet: calculate(plain, shops), line, column, text: plain.split('\n')[line] ?? '' };
}
const answers = (text: string, shops = [SHOP]): readonly Completion[] => completions(asked(text, shops));
const labels = (...lines: readonly string[]): readonly string[] =>
  answers(figures(...lines)).map(({ label }) => label);
const first = (count: number, ...lines: readonly string[]): readonly string[] =>
  labels(...lines).slice(0, count);

/** What the line becomes when the answer of that label is taken. */
function taken(label: string, ...lines: readonly string[]): string {
  const question = asked(figures(...lines));
  const answer = completions(question).find((each) => each.label === label);
  if (!answer) throw new Error(`no ${label}`);
  const { text, column } = question;
  return text.slice(0, answer.from) + answer.insert + text.slice(column);
}

describe('completion keeps away', () => {
  it('from ordinary markdown and other fences', () => {
    for (const text of [
      'neck ‸',
      '# Job 5 ‸',
      '- 30 ‸',
      '```js\nconst a = 30 ‸\n```',
      '```figure\na = 30 ‸\n```',
      '```signed\na = 30 ‸\n```',
      `${figures('a = 1 mm')}\n30 ‸`,
      `30 ‸\n${figures('a = 1 mm')}`,
      '    a = 30 ‸\n',
      `~~~md\n${figures('a = 30 ‸')}~~~\n`,
    ])
      expect([text, answers(text)]).toEqual([text, []]);
  });

  it('from comments, words on cards and the words of a fence', () => {
    expect(labels('a = 30 mm # about 5 ‸')).toEqual([]);
    expect(answers('```machine m\nkind: a lathe 5 ‸\n```')).toEqual([]);
    expect(answers('```machine ‸\n```')).toEqual([]);
    expect(answers('```fig‸ures\n```')).toEqual([]);
  });

  it('from what has its unit, or is no number', () => {
    expect(labels('a = 5 mm x‸')).not.toContain('mm');
    expect(labels('d5‸')).not.toContain('mm');
  });
});

describe('units', () => {
  it('of the kind that the argument takes come first', () => {
    expect(first(2, 'n = spindle_speed(24 ‸')).toEqual(['m/min', 'mm/min']);
    expect(first(2, 'n = spindle_speed(24 m/min, 28 ‸')).toEqual(['mm', 'µm']);
    expect(first(1, 'n = spindle_speed(diameter: 28 mm, cutting_speed: 24 ‸')).toEqual(['m/min']);
  });

  it('of what the other side of a sum, a comparison or limits is come first', () => {
    expect(first(1, 'a = 20 °C + 5 ‸')[0]).toMatch(/°C|K/);
    expect(first(1, 'w = 5 kg', 'w > 3 ‸')).toEqual(['kg']);
    expect(first(1, 'w = 5 kg ± 0.1 ‸')).toEqual(['kg']);
    expect(first(1, 'n = 300 rpm', 'm = n - 5 ‸')).toEqual(['rpm']);
    // Inside brackets the other side is what stands in them.
    expect(first(1, 'a = 3 mm', 'x = 2 kg * (a + 5 ‸')).toEqual(['mm']);
    expect(first(1, 'x = hypot(2 kg, max(1 kg, 3 kg) + 5 ‸')).toEqual(['kg']);
  });

  it('stand in an order of their own: the usual, then the system of the note', () => {
    expect(labels('30° to ‸')).toEqual(['°', 'arcmin', 'arcsec', 'rad']);
    expect(labels('3 h to ‸')).toEqual(['min', 'h', 's']);
    expect(labels('24 m/min to ‸')).toEqual(['m/min', 'mm/min', 'm/s', 'ft/min', 'in/min']);
    expect(labels('2 kW to ‸')).toEqual(['kW', 'W', 'hp_metric', 'hp_imperial']);
    expect(labels('3 rev to ‸')).toEqual(['rev']);
    expect(labels('a = 5 kg + 3 ‸').slice(0, 4)).toEqual(['kg', 'g', 'lb', 'mm']);
  });

  it('of an operand before a sign come first, whatever it stands in', () => {
    for (const line of [
      ...[
        'w == 3 ‸',
        'w != 3 ‸',
        '(w + 5 ‸',
        'x=w + 5 ‸',
        'x = [w + 5 ‸',
        'max(2 * w, w - 1 ‸',
        'x = max(w) + 5 ‸',
      ],
      ...['x = 2 * w ± 1 ‸', 'x = 2 * w +/- 1 ‸', 'x = w * 1 .. 6 ‸', 'x = 5 kg ± 1 kg + 6 ‸'],
    ])
      expect([line, ...first(1, 'w = 5 kg', line)]).toEqual([line, 'kg']);
    for (const line of ['x = ) + 5 ‸', 'x = nothing + 5 ‸', 'x = [1, 2] kg + 5 ‸', 'x = 2 * 5 ‸'])
      expect([line, ...first(1, 'v measured 5 kg', line)]).toEqual([line, 'mm']);
    expect(first(1, 'x measured 5 kg', 'x = 2 * 5 ‸')).toEqual(['mm']);
    const inches =
      '---\nunits: in\n---\n```figures\nx = circle_from_touches([25, 10, -5] mm, [12, 27, 12] mm, 6 mm, hole).diameter + 3 ‸\n```';
    expect(answers(inches)[0]?.label).toBe('in');
  });

  it('of the figure that is read or was run come first', () => {
    expect(first(1, 'w = 5 kg', 'w final 3 ‸')).toEqual(['kg']);
    expect(first(1, 'w measured 5 kg', 'w measured 3 ‸')).toEqual(['kg']);
    expect(first(1, 'w measured 5 kg', 'w = 3 ‸')).toEqual(['kg']);
    expect(first(1, 'w = 3 ‸', 'v used 2 rpm', 'w used 5 kg')).toEqual(['kg']);
    expect(first(1, 'v used 2 rpm', 'w used 3 ‸')).toEqual(['mm']);
    // The first that has a unit says it, and a part of a record is asked by its own name.
    expect(first(1, 'w measured 4, 5 kg', 'w used 2 rpm', 'w = 3 ‸')).toEqual(['kg']);
    expect(first(1, 's.ring used 5 kg', 's.ring measured 3 ‸')).toEqual(['kg']);
    expect(first(1, 's.ring used 5 kg', 's measured 3 ‸')).toEqual(['mm']);
    expect(first(1, 'w = 5 kg', 'w measured 3 ‸')).toEqual(['kg']);
    expect(first(1, 'n = 300 rpm', 'n used 2 ‸')).toEqual(['rpm']);
    expect(first(1, 'ball = ball_on_shank(30 mm, 12 mm)', 'ball.tilt used 11 ‸')).toEqual(['°']);
  });

  it('after `to` are those of the value and no others', () => {
    const found = labels('t = 3 h to ‸');
    expect(found).toContain('min');
    expect(found).not.toContain('mm');
    expect(labels('30 mm to ‸')).toContain('in');
    expect(labels('30 mm to ‸')).not.toContain('kg');
    expect(labels('30 mm to ‸').slice(0, 4)).toEqual(['mm', 'µm', 'cm', 'm']);
    expect(labels('x = unknown to ‸').slice(0, 3)).toEqual(['mm', 'in', '°']);
  });

  it('follow the system of the note', () => {
    const text = '---\nunits: in\n---\n```figures\na = 2 in + 3 ‸\n```\n';
    expect(answers(text)[0]?.label).toBe('in');
    expect(first(1, 'a = 2 in + 3 ‸')).toEqual(['mm']);
  });

  it('get the blank that drawings leave, but not a degree', () => {
    expect(taken('mm', 'a = 30‸')).toBe('a = 30 mm');
    expect(taken('mm', 'a = 30m‸')).toBe('a = 30 mm');
    expect(taken('mm', 'a = 30 m‸')).toBe('a = 30 mm');
    expect(taken('°', 'a = 30‸')).toBe('a = 30°');
    expect(taken('in', 'a = 1 3/8 ‸')).toBe('a = 1 3/8 in');
    expect(taken('m/min', 'v = 90 m/m‸')).toBe('v = 90 m/min');
  });

  it('follow a number wherever it stands', () => {
    for (const line of ['5 ‸', '.5 ‸', 'a = .5 ‸', 'x = 2 * 3/8 ‸', '1 3/8 ‸'])
      expect([line, ...first(1, line)]).toEqual([line, 'mm']);
    expect(taken('%', 'a = 30‸')).toBe('a = 30%');
    for (const line of ['d5 ‸', 'a = d5‸', 'a = d.5‸'])
      expect([line, labels(line).includes('rpm')]).toEqual([line, false]);
  });

  it('of a list follow its bracket', () => {
    expect(labels('l = [70, 115] ‸')).toContain('rpm');
  });
});

describe('limits', () => {
  it('by ISO 286 follow a length, each with what it allows', () => {
    const answer = answers(figures('a = 25 mm H‸')).find(({ label }) => label === 'H7');
    // ISO 286-2: 25 H7 is +21/0 µm.
    expect(answer?.detail).toBe('+21/0 µm  hole');
    expect(taken('H7', 'a = 25 mm H‸')).toBe('a = 25 mm H7');
    // 25 g6 is −7/−20 µm, 25 k6 +15/+2 µm.
    const detail = (code: string): string | undefined =>
      answers(figures('a = 25 mm ‸')).find(({ label }) => label === code)?.detail;
    expect([detail('g6'), detail('k6')]).toEqual(['−7/−20 µm  shaft', '+15/+2 µm  shaft']);
    expect(detail('g13')).toBeDefined();
    expect([detail('g4'), detail('g14')]).toEqual([undefined, undefined]);
    // 8 k6 is +10/+1 µm.
    expect(answers(figures('a = 8 mm ‸')).find(({ label }) => label === 'k6')?.detail).toBe(
      '+10/+1 µm  shaft',
    );
    expect([detail('h6'), detail('H5')]).toEqual(['0/−13 µm  shaft', '+9/0 µm  hole']);
    expect(labels('a = 25 mm + ‸')).not.toContain('H7');
    for (const none of ['25 mm H7 ‸', '25 mm to ‸', '25 mm to in ‸', '25 mm ± 0.1 mm ‸'])
      expect(labels(`a = ${none}`), none).not.toContain('h6');
    expect(labels('25 mm ‸')).not.toContain('H7');
    expect(labels('a = 2 kg ‸')).not.toContain('H7');
    expect(labels('a = 600 mm ‸')).not.toContain('H7');
    expect(labels('a = b + 25 mm ‸')).not.toContain('H7');
  });

  it('come from `+-`', () => {
    expect(taken('±', 'a = 25 mm +-‸')).toBe('a = 25 mm ± ${1:0.05 mm}');
    const inOrder = (line: string): readonly string[] =>
      [...answers(figures(line))].sort((x, y) => x.sort - y.sort).map(({ label }) => label);
    // Signs first where one was begun, else behind all codes.
    expect(inOrder('a = 25 mm +‸').slice(0, 3)).toEqual(['±', '+0.02/-0.01 mm', 'H7']);
    expect(inOrder('a = 25 mm ‸').slice(-2)).toEqual(['±', '+0.02/-0.01 mm']);
    expect(inOrder('a = 25 mm ‸').slice(0, 3)).toEqual(['H7', 'h6', 'H8']);
    expect(inOrder('a = b +-‸')).toEqual(['±', '+0.02/-0.01 mm']);
    expect(answers(figures('a = b +-‸')).find(({ label }) => label === '±')?.typed).toBe('+-');
  });
});

describe('names', () => {
  it('of the kind that fits come first', () => {
    const lines = ['w = 5 kg', 'bar = 28 mm', 'n = spindle_speed(24 m/min, ‸'];
    expect(first(2, ...lines)).toEqual(['bar', 'w']);
  });

  it('keep the order of the note where no kind is wanted, and say that they have no value yet', () => {
    const found = answers(figures('b = 2 mm', 's = ball_on_shank(30 mm, 12 mm)', 'c = 1 mm + 1 kg', 'x = ‸'));
    expect(found.slice(0, 3).map(({ label, detail }) => [label, detail])).toEqual([
      ['b', '2 mm'],
      ['s', expect.stringMatching(/^tilt/)],
      ['c', 'no value yet'],
    ]);
  });

  it('are not offered their own line', () => {
    expect(labels('ring = ‸', 'b = 2 mm')).not.toContain('ring');
  });

  it('of formulas bring places for their parameters', () => {
    expect(taken('ball_on_shank', 'neck = 12 mm', 'a = ball_on‸')).toBe(
      'a = ball_on_shank(${1:ball}, ${2:neck})',
    );
    expect(taken('speed_step', 'a = speed_s‸')).toBe('a = speed_step(${1:spindle_speed}, ${2|lathe,head|})');
    // The shop's own before the starter cards.
    expect(taken('shrink_grip', 'a = shrink_g‸')).toMatch(/\$\{\d\|brass,steel_/);
    expect(taken('circle_from_touches', 'a = circle_f‸')).toBe(
      'a = circle_from_touches(${1:x}, ${2:y}, ${3:stylus}, ${4|hole,boss|})',
    );
    const mill = { file: 'shop.md', text: '```machine mill\nspeeds = [90] rpm\n```\n' };
    expect(answers(figures('a = speed_s‸'), [mill]).find(({ label }) => label === 'speed_step')?.insert).toBe(
      'speed_step(${1:spindle_speed}, ${2|mill|})',
    );
    expect(taken('fit', 'a = fi‸')).toBe('a = fit(${1:size}, ${2:H7}, ${3:H7})');
    expect(taken('hypot', 'a = hyp‸')).toBe('a = hypot(${1:leg}, ${2:other})');
    expect(taken('round', 'a = rou‸')).toBe('a = round(${1:value})');
    // A figure of the parameter's name is meant only when it is of its kind.
    expect(taken('spindle_speed', 'diameter = 30 mm', 'cutting_speed = 5 kg', 'a = spi‸')).toBe(
      'a = spindle_speed(${1:cutting_speed}, ${2:diameter})',
    );
    const answer = answers(figures('a = ball_on‸')).find(({ label }) => label === 'ball_on_shank');
    expect(answer).toMatchObject({
      detail: 'Tilt, ring and height for a ball on one shank',
      kind: 'formula',
    });
  });

  it('of cards stand where a card belongs, and nothing else does', () => {
    expect(labels('a = speed_step(300 rpm, ‸')).toEqual(['lathe', 'head']);
    expect(labels('a = speed_step(300 rpm, mach: ‸')).toContain('hypot');
    const materials = labels('a = cutting_force(‸');
    expect([materials[0], materials.includes('lathe'), materials.includes('hypot')]).toEqual([
      'brass',
      false,
      false,
    ]);
    expect(answers('```figures on ‸\na = 1\n```').map(({ label }) => label)).toEqual(['lathe', 'head']);
    expect(answers('```figures on lathe, ‸\na = 1\n```').map(({ label }) => label)).toEqual(['head']);
    expect(answers('```figures ‸\na = 1\n```').map(({ insert }) => insert)).toEqual(['on ']);
    expect(answers('```figures on‸\n```').map(({ insert }) => insert)).toEqual(['on ']);
    expect(answers('```figures o‸\n```')[0]).toMatchObject({ insert: 'on ', from: 11 });
    expect(answers('```figures on lathe‸\n```').map(({ label }) => label)).toEqual(['lathe', 'head']);
    for (const none of ['```figures off ‸\n```', '```machine on ‸\n```', '```material figures on ‸\n```'])
      expect(answers(none)).toEqual([]);
    expect(answers('```figures on l‸\n```').map(({ label }) => label)).toEqual(['lathe', 'head']);
  });

  it('of parameters that may be left out can be named', () => {
    expect(taken('fillet:', 'a = ball_on_shank(30 mm, 12 mm, f‸)')).toBe(
      'a = ball_on_shank(30 mm, 12 mm, fillet: )',
    );
    expect(labels('a = ball_on_shank(30 mm, ‸)')).not.toContain('neck:');
    const left = (line: string): readonly string[] => labels(line).filter((label) => label.endsWith(':'));
    expect(left('ball_on_shank(‸')).toEqual(['neck:', 'fillet:', 'nose_radius:']);
    expect(left('ball_on_shank(fillet: 2 mm, ‸')).toEqual(['nose_radius:']);
    expect(left('ball_on_shank(30 mm, 12 mm, ‸')).toEqual(['fillet:', 'nose_radius:']);
    for (const none of ['ball_on_shank(30 mm, fillet: ‸', 'hypot(‸', 'nothing(‸', 'a = ‸'])
      expect(left(none)).toEqual([]);
    expect(labels('a = ball_on_shank(30 mm, 12 mm, fillet: 2 mm, ‸)')).not.toContain('fillet:');
  });

  it('of codes stand where a code belongs', () => {
    const codes = labels('a = fit(25 mm, ‸');
    expect([codes[0], codes.includes('h13'), codes.includes('h14')]).toEqual(['H7', true, false]);
  });

  it('of the words that an argument may be stand there, and nothing else does', () => {
    expect(labels('a = drill_size(6 mm, ‸')).toEqual(['metric', 'fraction', 'number', 'letter', 'any']);
  });

  it('show what they are in 48 letters at most', () => {
    const details = answers(figures('a = bolt_circle(40 mm, 12)', 'b = bolt_circle(40 mm, 2)', 'c = ‸'))
      .slice(0, 2)
      .map(({ detail }) => detail);
    expect(details[0]).toMatch(/^hole \[1, 2, 3, 4.{31}…$/);
    expect(details[0]).toHaveLength(48);
    const list = (last: string): string | undefined =>
      answers(figures(`a = [${'1, '.repeat(13)}${last}] mm`, 'c = ‸'))[0]?.detail;
    expect(list('123')).toBe(`[${'1, '.repeat(13)}123] mm`);
    expect(list('123')).toHaveLength(47);
    expect(list('1234')).toHaveLength(48);
    expect(list('1234')).not.toContain('…');
    expect(list('12345')).toBe(`[${'1, '.repeat(13)}12345] …`);
  });

  it('with letters beyond the alphabet are names like all others', () => {
    expect(taken('größe', 'größe = 3 kg', 'a = grö‸')).toBe('a = größe');
    expect(first(1, 'größe = 3 kg', 'größe measured 3 ‸')).toEqual(['kg']);
    expect(first(1, 'höhe measured 5 kg', 'höhe = 3 ‸')).toEqual(['kg']);
    expect(labels('größe = 3 kg', 'größe mea‸')).toEqual(['measured', 'final', 'used', 'to']);
    expect(first(1, 'größe = ball_on_shank(30 mm, 12 mm)', 'a = größe.‸')).toEqual(['tilt']);
    expect(taken('tilt', 'größe = ball_on_shank(30 mm, 12 mm)', 'a = größe.ti‸')).toBe('a = größe.tilt');
    expect(labels('größe = 25 mm H‸')).toContain('H7');
    expect(labels('größe = ‸', 'b = 3 mm')).not.toContain('größe');
    expect(labels('a = ö5‸')).not.toContain('mm');
    expect(first(1, 'größe = 3 kg', 'größer = größe to ‸')).toEqual(['kg']);
    expect(answers('```machine m\nmaß_5‸\n```').length).toBeGreaterThan(5);
    expect(answers('```machine m\nmaß: ‸\n```')).toEqual([]);
  });

  it('stand at the beginning of a line', () => {
    expect(labels('hyp‸')).toContain('hypot');
    expect(taken('hypot', 'hyp‸')).toBe('hypot(${1:leg}, ${2:other})');
    expect(labels('a: ‸')).toEqual([]);
  });

  it('on a card make no record', () => {
    expect(answers('```machine m\npower ‸\n```').map(({ label }) => label)).not.toContain('measured');
  });

  it('after a figure make it a record', () => {
    expect(labels('neck = 12 mm', 'neck ‸')).toEqual(['measured', 'final', 'used', 'to']);
    expect(taken('measured', 'neck = 12 mm', 'neck mea‸')).toBe('neck measured ');
  });
});

describe('fields', () => {
  it('of results, cards and the job, with their values', () => {
    expect(first(1, 'a = ball_on_shank(30 mm, 12 mm)', 'a.‸')).toEqual(['tilt']);
    expect(labels('ball_on_shank(30 mm, 12 mm).ri‸')).toContain('ring');
    const lathe = answers(figures('lathe.‸'));
    expect(lathe[0]).toMatchObject({ label: 'speeds', kind: 'field' });
    expect(lathe[0]?.detail).toContain('[70, 115] rpm');
    expect(answers('---\nquantity: 2\n---\n```figures\njob.‸\n```').map(({ label }) => label)).toContain(
      'quantity',
    );
  });

  it('are told with their value and what they mean', () => {
    const ring = "29.367 mm  diameter of the tip's circle, as a boss cut with it measures";
    for (const before of ['(ball_on_shank(30 mm, 12 mm))', '2 * ball_on_shank(30 mm, (12 mm))'])
      expect(answers(figures(`${before}.‸`))[1]).toMatchObject({ label: 'ring', detail: ring });
    const power = 'power = 2 kW  # of the motor';
    expect(answers(`\`\`\`machine m\n${power}\nspare = 3 kg\n\`\`\`\n${figures('m.‸')}`)).toMatchObject([
      { label: 'power', detail: '2 kW  rated power of the motor' },
      { label: 'spare', detail: '3 kg' },
    ]);
    for (const none of [').‸', '(2 + (3)).‸']) expect(labels(none)).toEqual([]);
  });

  it('of the head are told as they are, whatever a card’s field of that name means', () => {
    const text = `---\npower: by hand\n---\n${figures('a = job.‸')}`;
    expect(answers(text).map(({ label, detail }) => [label, detail])).toEqual([['power', 'by hand']]);
  });

  it('of a figure that is called as a card are the figure’s', () => {
    expect(first(1, 'lathe = ball_on_shank(30 mm, 12 mm)', 'lathe.‸')).toEqual(['tilt']);
  });

  it('of what was measured and used, once it was', () => {
    const read = 'a measured 12 mm at 3 mm, 12.1 mm at 5 mm';
    expect(answers(figures(read, 'a.‸')).map(({ label, detail }) => [label, detail])).toEqual([
      ['reading', '12.1 mm  the last reading'],
      ['mean', '12.05 mm  mean of the last readings'],
      ['readings', '[12, 12.1] mm  the last readings'],
      ['positions', '[3, 5] mm  where the last readings were taken'],
    ]);
    expect(labels('a = 12 mm', 'a measured 12.1 mm', 'a.‸')).toEqual(['reading', 'mean', 'readings']);
    expect(labels('a = 12 mm', 'a.‸')).toEqual([]);
    expect(labels('n = 300 rpm', 'n used 250 rpm', 'n.‸')).toEqual(['used']);
  });

  it('that the notebook acts on begin the lines of a card', () => {
    const found = answers('```machine m\nspeeds = [70] rpm\n‸\n```');
    expect(found.map(({ label }) => label)).not.toContain('speeds');
    expect(found.find(({ label }) => label === 'power')?.insert).toBe('power = $1 kW');
    expect(answers('```material m\n‸\n```').map(({ label }) => label)).toContain('hss_speed');
    const unit = (line: string): string | undefined => answers(`\`\`\`machine m\n${line}\n\`\`\``)[0]?.label;
    expect(['max_speed = 5 ‸', 'power = 2 ‸', 'max_feed_rate = 2 ‸', 'spare = 2 ‸'].map(unit)).toEqual([
      ...['rpm', 'kW', 'mm/min', 'mm'],
    ]);
  });

  it('are offered the unit that they are begun with', () => {
    const first = (fence: string, line: string): string | undefined =>
      answers(`\`\`\`${fence}\n${line} = 11 ‸\n\`\`\``)[0]?.label;
    for (const { insert } of answers('```material m\n‸\n```')) {
      const [name = '', unit = ''] = insert.split(' = $1 ');
      if (unit !== '') expect([name, first('material m', name)]).toEqual([name, unit]);
    }
    expect(first('machine m', 'ratio')).toBe('%');
    // A figure of that name is no field.
    expect(first('figures', 'expansion')).toBe('mm');
  });
});

describe('fields of a card', () => {
  const inserts = (card: string): readonly string[] => answers(card).map(({ insert }) => insert);

  it.each([
    [
      'machine',
      [
        ...['speeds = [$1] rpm', 'min_speed = $1 rpm', 'max_speed = $1 rpm', 'feeds = [$1] mm/rev'],
        ...['max_feed_rate = $1 mm/min', 'power = $1 kW', 'efficiency = $1%', 'ratio = $1', 'plates = [$1]'],
        'rate = $1 AUD/h',
      ],
    ],
    [
      'material',
      [
        ...['density = $1 kg/m^3', 'expansion = $1 µm/m/K', 'modulus = $1 N/mm^2'],
        'specific_force = $1 N/mm^2',
        'force_exponent = $1',
        'hss_speed = $1 m/min',
        'carbide_speed = $1 m/min',
      ],
    ],
  ])('of a %s bring units that a shop writes, and make sound cards', (word, wanted) => {
    const found = inserts(`\`\`\`${word} m\n‸\n\`\`\``);
    expect(found).toEqual(expect.arrayContaining(wanted));
    // Those of the other kind of card are none of its own.
    expect(
      found.some(
        (insert) =>
          /^(?:ratio|density) /.test(insert) && !insert.startsWith(word === 'machine' ? 'ratio' : 'density'),
      ),
    ).toBe(false);
    const card = found.map((insert) => insert.replace('$1', '1')).join('\n');
    expect(calculate(`\`\`\`${word} m\n${card}\n\`\`\`\n`).findings()).toEqual([]);
  });

  it('count as given, but for the one being written', () => {
    const card = (typed: string): string => `\`\`\`machine m\npower = 2 kW\n${typed}\n\`\`\``;
    expect(inserts(card('‸'))).not.toContain('power = $1 kW');
    expect(inserts(card('ratio‸ = 40'))).toContain('ratio = $1');
    // A field of another card is no matter of this one.
    expect(inserts(`${card('')}\n\n\`\`\`machine n\n‸\n\`\`\``)).toContain('power = $1 kW');
  });

  it('see only their own card', () => {
    const found = answers('```machine m\nx = 5 mm\ny = 2 * ‸\n```').map(({ label }) => label);
    for (const none of ['job', 'lathe', 'brass']) expect(found).not.toContain(none);
    expect(labels('y = 2 * ‸')).toEqual(expect.arrayContaining(['job', 'lathe', 'head', 'brass', 'hypot']));
    expect(answers('```machine m\nmaker: ‸\n```')).toEqual([]);
    expect(answers('```machine m‸\n```')).toEqual([]);
  });
});

describe('places', () => {
  it('in quotes and lists count as everywhere', () => {
    const found = answers('> ```figures\n> a = 30 ‸\n> ```\n');
    expect(found[0]?.from).toBe('> a = 30 '.length);
    expect(answers('- ```figures\n  a = 30‸\n  ```\n')[0]?.from).toBe('  a = 30'.length);
    const second = answers('Words.\n\n> ```figures\n> b = 2 mm\n> a = 3‸\n> ```\n');
    expect(second[0]?.from).toBe('> a = 3'.length);
    expect(answers('> ```figures on ‸\n> a = 1\n> ```\n')[0]).toMatchObject({ label: 'lathe', from: 16 });
    for (const outside of ['>‸ ```figures\n> a = 30\n> ```\n', '> ```figures\n‸> a = 30\n> ```\n'])
      expect(answers(outside)).toEqual([]);
    expect(answers('```fig‸ures\na = 1\n```\n')).toEqual([]);
    expect(answers('```figures on lathe\na = 1\n```‸\n')).toEqual([]);
  });

  it('in a block that is still open count, in what follows it they do not', () => {
    expect(answers('```figures\nn = 300 rpm\nm = n - 5 ‸').map(({ label }) => label)).toContain('rpm');
    expect(answers('```figures\nn = 300 rpm\n‸').map(({ label }) => label)).toContain('n');
    expect(answers('```figures\nn = 300 rpm\nsome words\nmore 5 ‸')).toEqual([]);
  });
});

describe('signature help', () => {
  const help = (line: string): ReturnType<typeof signature> => signature(asked(figures(line)));
  const active = (line: string): string | undefined => {
    const found = help(line);
    const parameter = found?.parameters[found.active ?? -1];
    return parameter && found?.label.slice(parameter.start, parameter.end);
  };

  it('marks the parameter at hand, by place or by name', () => {
    expect(help('a = ball_on_shank(‸')?.label).toBe('ball_on_shank(ball, neck, fillet?, nose_radius?)');
    expect(active('a = ball_on_shank(‸')).toBe('ball');
    expect(active('a = ball_on_shank(30 mm, ‸')).toBe('neck');
    expect(active('a = ball_on_shank(max(1 mm, 2 mm), ‸')).toBe('neck');
    expect(active('a = ball_on_shank(30 mm, 12 mm, nose_radius: 1‸')).toBe('nose_radius?');
    expect(active('a = circle_from_touches([1 mm, 2 mm, ‸')).toBe('x');
    expect(active('a = circle_from_touches([1 mm, 2 mm, 3 mm], ‸')).toBe('y');
    expect(active('a = ball_on_shank(1, 2, 3, 4, ‸')).toBeUndefined();
    expect(active('a = max(1, 2, 3, ‸')).toBe('value');
    expect(active('a = 2 * (3 + ‸')).toBeUndefined();
  });

  it('tells of plain mathematics what it takes as well', () => {
    expect(help('a = hypot(3 mm, ‸')).toMatchObject({
      label: 'hypot(leg, other, …)',
      words: 'The long side of a right triangle, from its legs.',
      parameters: [
        { start: 6, end: 9, words: 'One leg.' },
        { start: 11, end: 16 },
      ],
      active: 1,
    });
    expect(help('a = round(3.2 mm, ‸')?.label).toBe('round(value, step?)');
    expect(help('a = max(1, 2, ‸')?.label).toBe('max(value, …)');
    expect(active('a = max(‸')).toBe('value');
    expect(active('a = hypot(1, 2, ‸')).toBe('other');
    expect(active('a = sqrt(1, ‸')).toBeUndefined();
    expect(active('a = hypot(leg: 1‸')).toBe('leg');
    for (const none of ['ball_on_shank(filet: 1‸', 'ball_on_shank(1, 2, 3, 4, ‸', 'sqrt(1, ‸'])
      expect([none, help(none)?.active]).toEqual([none, null]);
    expect(help('a = nothing(‸')).toBeNull();
    expect(signature(asked('```figures on max(‸\n```'))).toBeNull();
    expect(signature(asked('```figures\n# max(‸\n```'))).toBeNull();
  });

  it('says what it means and its usual unit', () => {
    expect(help('a = ball_on_shank(‸')?.words).toBe('Tilt, ring and height for a ball on one shank.');
    expect(help('a = spindle_speed(‸')?.parameters[0]?.words).toMatch(/\. In m\/min\.$/);
    expect(help('a = ball_on_shank(1 mm)‸')).toBeNull();
    expect(signature(asked('ball_on_shank(‸'))).toBeNull();
  });
});

describe('names of parameters', () => {
  const hints = (line: string): readonly string[] => {
    const row = calculate(figures(line)).rows()[0];
    return row ? parameterHints(row).map(({ offset, text }) => `${text}${row.text.slice(offset)}`) : [];
  };

  it('stand before arguments that do not say them', () => {
    expect(hints('a = ball_on_shank(30 mm, 12 mm)')).toEqual(['ball:30 mm, 12 mm)', 'neck:12 mm)']);
    expect(hints('a = ball_on_shank(size, neck)')).toEqual(['ball:size, neck)']);
    expect(hints('a = ball_on_shank(old_ball, p.neck, fillet: 1 mm)')).toEqual([]);
  });

  it('stand in the order of the line, in calls within calls as well, and none for what is too much', () => {
    expect(hints('a = ball_on_shank(arc_length(30 mm, 20°), 12 mm)')).toEqual([
      'ball:arc_length(30 mm, 20°), 12 mm)',
      'radius:30 mm, 20°), 12 mm)',
      'angle:20°), 12 mm)',
      'neck:12 mm)',
    ]);
    expect(hints('arc_length(1 mm, 2°, 3) < arc_length(4 mm, my_angle)')).toEqual([
      ...['radius:1 mm, 2°, 3) < arc_length(4 mm, my_angle)', 'angle:2°, 3) < arc_length(4 mm, my_angle)'],
      'radius:4 mm, my_angle)',
    ]);
    expect(hints('a = nothing(3 mm, 4 mm)')).toEqual([]);
    expect(hints('ball_on_shank(2 * ball, 12 mm, 1 mm, tip_nose)')).toEqual([
      ...['ball:2 * ball, 12 mm, 1 mm, tip_nose)', 'neck:12 mm, 1 mm, tip_nose)', 'fillet:1 mm, tip_nose)'],
    ]);
  });

  it('are left out of calls with one argument and of plain mathematics', () => {
    expect(hints('a = arc_length(1 mm)')).toEqual([]);
    expect(hints('a = max(1 mm, 2 mm)')).toEqual([]);
  });
});
