/**
 * Notes that nobody writes by accident, and some that somebody does. Each has a name; every room is asked about every one.
 * Nothing of Node is used here: the tests inside VS Code open the worst of them as well.
 */

export interface Abuse {
  readonly name: string;
  /** Made when it is asked for: some are megabytes long. */
  readonly text: () => string;
  /** Also opened in real VS Code. */
  readonly worst?: true;
}

/** More lines than any job has. */
const LONG = 20_000;

const FENCE = '```';
const block = (lines: readonly string[]): string => `${FENCE}figures\n${lines.join('\n')}\n${FENCE}\n`;
export const figures = (...lines: readonly string[]): string => block(lines);

function times(count: number, make: (i: number) => string): string[] {
  return Array.from({ length: count }, (_, i) => make(i));
}

/** A line is refused beyond 2,000 characters, so what nests does so just below it and just beyond it, many times over. */
const many = (line: string, count = 100): string => figures(...times(count, (i) => `x${i} = ${line}`));

const OBJECT_NAMES = [
  '__proto__',
  'constructor',
  'prototype',
  'hasOwnProperty',
  'toString',
  'valueOf',
  '__defineGetter__',
  'isPrototypeOf',
];

const SHOP_CARDS = OBJECT_NAMES.map(
  (name) => `${FENCE}machine ${name}\nspeeds = [70, 115, 190] rpm\n${name} = 3 mm\n${FENCE}\n`,
).join('\n');

/** Every alias names the one before ten times: a reader that writes them out needs ten thousand million of them. */
const YAML_BOMB = [
  '---',
  'a: &a [x, x, x, x, x, x, x, x, x, x]',
  ...times(9, (i) => {
    const [now, before] = [String.fromCharCode(98 + i), String.fromCharCode(97 + i)];
    return `${now}: &${now} [${times(10, () => `*${before}`).join(', ')}]`;
  }),
  'job: *j',
  '---',
].join('\n');

const LOOK_ALIKES = ['а', 'ο', 'Ⅿ', 'ｍ', 'mm', 'ｍｍ', 'µ', 'μ', 'ı', 'ſ', 'K', 'Å', 'е', 'l', 'Ι'];
const BIDI = '\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c';
const INVISIBLE = '\u200b\u200c\u200d\u2060\ufeff\u00ad\u180e\u3164';

export const ABUSE: readonly Abuse[] = [
  // nesting
  { name: 'brackets to the limit', text: () => many(`${'('.repeat(99)}1 mm${')'.repeat(99)}`), worst: true },
  { name: 'brackets beyond the limit', text: () => many(`${'('.repeat(990)}1${')'.repeat(990)}`) },
  { name: 'brackets never closed', text: () => many('('.repeat(1900)) },
  { name: 'brackets never opened', text: () => many(`1${')'.repeat(1900)}`) },
  { name: 'calls within calls', text: () => many(`${'sqrt('.repeat(300)}4${')'.repeat(300)}`) },
  { name: 'lists within lists', text: () => many(`${'['.repeat(900)}1${']'.repeat(900)} mm`) },
  { name: 'minus signs', text: () => many(`${'-'.repeat(1900)}1`) },
  { name: 'powers of powers', text: () => many(times(600, () => '9').join('^')) },
  { name: 'fields of fields', text: () => many(`job${'.quantity'.repeat(200)}`) },
  { name: 'unit of units', text: () => many(`1 ${times(600, () => 'mm').join('*')}`) },
  { name: 'unit over units', text: () => many(`1 ${times(600, () => 'mm').join('/')}`) },
  { name: 'comparisons in a row', text: () => figures(...times(100, () => times(600, () => '1').join('<'))) },
  {
    name: 'words of a fence',
    text: () => `${FENCE}figures on ${times(20_000, (i) => `m${i}`).join(', ')}\n1\n${FENCE}\n`,
  },
  {
    name: 'fences in quotes in lists',
    text: () => `${'> - '.repeat(60)}${FENCE}figures\n${'> - '.repeat(60)}a = 1\n`.repeat(20),
    worst: true,
  },
  {
    name: 'quotes',
    text: () => `${'>'.repeat(5000)} ${FENCE}figures\n${'>'.repeat(5000)} a = 1\n`.repeat(10),
  },
  { name: 'lists', text: () => times(300, (i) => `${' '.repeat(2 * i)}- a`).join('\n') },
  { name: 'list of one line', text: () => `${'- '.repeat(5000)}a\n`.repeat(10) },
  { name: 'emphasis', text: () => `${'*a_'.repeat(30_000)}\n\n${figures('a = 1')}` },
  { name: 'links', text: () => `${'['.repeat(40_000)}a${']('.repeat(40_000)}\n\n${figures('a = 1')}` },
  { name: 'backticks', text: () => `${times(600, (i) => '`'.repeat(i)).join(' ')}\n\n${figures('a = 1')}` },
  {
    name: 'tables of pipes',
    text: () => `|${'a|'.repeat(20_000)}\n|${'-|'.repeat(20_000)}\n${'|\n'.repeat(200)}`,
  },
  { name: 'link definitions', text: () => times(5000, (i) => `[a${i % 7}]: <x "y\n"z" '(`).join('\n') },
  { name: 'entities', text: () => `${'&amp;&#0;&#x202e;&bogus;'.repeat(8000)}\n` },

  // numbers and lists
  { name: 'digits', text: () => many('9'.repeat(1900)) },
  { name: 'digits after the point', text: () => many(`0.${'0'.repeat(1800)}1 mm ± 0.${'0'.repeat(60)}1`) },
  {
    name: 'enormous and tiny',
    text: () =>
      figures(
        'a = 1e308 mm * 1e308',
        'b = 1e-320 mm',
        'c = a - a',
        'd = 1 mm / (b - b)',
        'e = 9^999',
        'f = (-8)^0.333',
        'g = 1e999 mm',
        'h = sqrt(-1)',
        'i = tan(90°)',
        'j = round(1e308 mm, 1e-308 mm)',
        'k = 1e308 mm ± 1e308',
        'l = 0 / 0',
        'n = 1e400',
        'o = 1e308 km to mm',
      ),
  },
  {
    name: 'powers of limits',
    text: () => figures('a = 2 mm ± 1', ...times(300, (i) => `x${i} = (a / 1 mm)^${i * 40}`)),
  },
  { name: 'a list to the limit', text: () => many(`[${times(600, (i) => String(i % 9)).join(', ')}] mm`) },
  { name: 'hole grids', text: () => many('hole_grid(1000000000, 1000000000, 1 mm, 1 mm)') },
  { name: 'many passes', text: () => many('passes(30 mm, 0.000000001 mm)') },
  { name: 'fractions', text: () => many(times(300, () => '1 3/8 in').join(' + ')) },
  { name: 'fractions over nothing', text: () => many('1/0 in + 0/0 in + 1 1/0 in') },
  {
    name: 'every dimension at once',
    text: () =>
      many(times(180, (i) => `3 ${['mm', 'kg', 's', '°C', 'AUD', 'rev', 'deg'][i % 7] ?? ''}`).join(' * ')),
  },
  {
    name: 'more inputs than one result may have',
    text: () =>
      figures(
        ...times(200, (i) => `i${i} = ${i + 1} mm ± 0.1`),
        `s = ${times(200, (i) => `i${i}`).join(' + ')}`,
      ),
  },
  {
    name: 'limits through everything',
    text: () =>
      figures(
        ...times(60, (i) => `i${i} = ${i + 1} mm ± 0.1`),
        ...times(800, (i) => `s${i} = ${times(60, (j) => `i${j}`).join(' + ')} + ${i} mm`),
      ),
  },

  // names
  {
    name: 'names that objects have',
    text: () =>
      `${figures(...OBJECT_NAMES.flatMap((name) => [`${name} = 3 mm ± 0.1`, `${name} measured 3.02 mm`, `${name}.${name}`, `${name}.reading`, `job.${name}`, `${name}(2)`, `x = ${name}(${name}: ${name})`, `1 ${name}`, `spindle_speed(${name}: 3, constructor: 4)`]))}\n${SHOP_CARDS}`,
    worst: true,
  },
  {
    name: 'front matter keys that objects have',
    text: () =>
      `---\n${OBJECT_NAMES.map((name) => `${name}: {${name}: 1}`).join('\n')}\nunits: __proto__\nmaterial: __proto__\nrepeat_of: constructor\n---\n${figures(...OBJECT_NAMES.map((name) => `job.${name}`))}`,
  },
  {
    name: 'machines that objects have',
    text: () =>
      `${SHOP_CARDS}\n${FENCE}figures on ${OBJECT_NAMES.join(', ')}\nspindle_speed(60 m/min, 30 mm)\n${FENCE}\n`,
  },
  {
    name: 'circular figures',
    text: () => figures(...times(3000, (i) => `c${i} = c${(i + 1) % 3000} + 1 mm`)),
    worst: true,
  },
  { name: 'names of themselves', text: () => figures(...times(500, (i) => `s${i} = s${i} + s${i}.reading`)) },
  {
    name: 'every name needs every name',
    text: () => figures(...times(120, (i) => `k${i} = ${times(120, (j) => `k${j}`).join(' + ')}`)),
  },
  {
    name: 'one name a thousand times',
    text: () => figures(...times(1000, (i) => `a = ${i} mm`), ...times(1000, () => 'a + 1 mm')),
  },
  {
    name: 'one name read a thousand times',
    text: () =>
      figures(
        'a = 5 mm ± 0.1',
        ...times(2000, (i) => `a measured ${5 + i / 1e4} mm`),
        'a.mean',
        'a.readings',
      ),
  },
  {
    name: 'circular cards',
    text: () =>
      `${FENCE}machine one\nmax_speed = two.max_speed\n${FENCE}\n${FENCE}machine two\nmax_speed = one.max_speed\n${FENCE}\n${FENCE}machine self\nmax_speed = self.max_speed + max_speed\nbelow = above\nabove = below\n${FENCE}\n${FENCE}figures on one, two, self\nspindle_speed(60 m/min, 30 mm)\none.max_speed\n${FENCE}\n`,
    worst: true,
  },
  {
    name: 'a thousand cards of one name',
    text: () => `${FENCE}machine same\nspeeds = [1, 2] rpm\n${FENCE}\n`.repeat(1000),
  },
  {
    name: 'a card of a thousand fields',
    text: () => `${FENCE}machine wide\n${times(3000, (i) => `f${i} = ${i} mm`).join('\n')}\n${FENCE}\n`,
  },
  { name: 'a note that repeats itself', text: () => '---\njob: 7\nrepeat_of: 7\n---\n' + figures('a = 1') },
  {
    name: 'a chain forwards',
    text: () => block(['c0 = 1 mm', ...times(LONG, (i) => `c${i + 1} = c${i} + 1 mm`)]),
  },
  {
    name: 'a chain backwards',
    text: () => block([...times(LONG, (i) => `c${i} = c${i + 1} + 1 mm`), `c${LONG} = 1 mm ± 0.1`]),
    worst: true,
  },
  {
    name: 'other names for other names',
    text: () =>
      block([
        ...times(LONG, (i) => `n${i} = n${i + 1}`),
        `n${LONG} = ball_on_shank(30 mm, 12 mm)`,
        'n0.ring',
        'n5.ring used 3 mm',
      ]),
  },
  {
    name: 'a name longer than its line may be',
    text: () => figures(`${'n'.repeat(3000)} = 1`, `${'n'.repeat(1900)} = 1`, 'n'.repeat(1900)),
  },

  // characters
  {
    name: 'look-alike letters',
    text: () =>
      figures(
        ...LOOK_ALIKES.flatMap((sign) => [
          `${sign} = 1 ${sign}`,
          `${sign}m + m${sign}`,
          `1 m${sign}`,
          `${sign}`,
        ]),
      ),
  },
  {
    name: 'turned and invisible',
    text: () =>
      `---\njob: "${BIDI}7${INVISIBLE}"\n---\n# ${BIDI} ${INVISIBLE}\n${figures(...[...BIDI, ...INVISIBLE].flatMap((sign) => [`a${sign} = 1 mm # ${sign}`, `${sign}b = 1${sign} mm`, `c = 1 mm${sign}`]))}\n${FENCE}figures on ${BIDI}\n1\n${FENCE}\n`,
  },
  {
    name: 'NUL everywhere',
    text: () => `\0---\0\njob\0: 7\n---\n\0${FENCE}figures\n\0a\0 = \0 1 \0mm\n${FENCE}\0\n`.repeat(50),
  },
  {
    name: 'lone surrogates',
    text: () =>
      `---\njob: \ud800\n---\n# \udfff\n${figures('a = 1 \ud800', '\udc00 = 2', 'b = 3 # \ud83d', '"\ud800"')}\n\ud800${FENCE}figures\n`,
    worst: true,
  },
  {
    name: 'letters outside the plane',
    text: () =>
      figures('𝑎 = 1 mm', 'b = 𝑎', '𝟙 mm', '1 𝐦𝐦', 'a\u0301\u0302 = 1', `z${'\u0301'.repeat(1900)} = 1`),
  },
  {
    name: 'control characters',
    text: () =>
      figures(
        ...times(32, (i) => `a${i} = 1${String.fromCharCode(i)}mm # ${String.fromCharCode(i, 0x80 + i)}`),
      ),
  },
  {
    name: 'CRLF',
    text: () =>
      `---\njob: 7\n---\n${figures('a = 1 mm', 'b = a + 1 in', 'c = b + 1')}`.replaceAll('\n', '\r\n'),
  },
  {
    name: 'lone CR',
    text: () =>
      `---\njob: 7\n---\n${figures('a = 1 mm', 'b = a + 1 in', 'c = b + 1')}`.replaceAll('\n', '\r'),
  },
  {
    name: 'mixed ends',
    text: () =>
      times(
        3000,
        (i) =>
          `${i % 50 === 0 ? `${FENCE}figures` : i % 50 === 49 ? FENCE : `a${i} = ${i} mm`}${['\n', '\r\n', '\r', '\n\r', '\u2028', '\u0085', '\v', '\f'][i % (i % 50 === 49 || i % 50 === 0 ? 3 : 8)] ?? ''}`,
      ).join(''),
  },
  {
    name: 'a byte order mark',
    text: () => `\ufeff---\njob: 7\n---\n\ufeff${figures('\ufeffa = 1 mm', 'b = a\ufeff + 1')}`,
  },
  { name: 'nothing but marks', text: () => `\ufeff\ufeff${FENCE}figures\n\ufeff\n${FENCE}` },
  { name: 'nothing', text: () => '' },

  // size
  {
    name: 'one line of five megabytes',
    text: () => `${'wörter und Zahlen 12,5 mm '.repeat(200_000)}\n${figures('a = 1 mm')}`,
    worst: true,
  },
  {
    name: 'one line of figures of five megabytes',
    text: () => figures(`a = ${'1 mm + '.repeat(700_000)}1 mm`, 'b = 1 mm'),
    worst: true,
  },
  {
    name: 'one comment of five megabytes',
    text: () => figures(`a = 1 mm # ${'why '.repeat(1_250_000)}`, 'b = a'),
  },
  {
    name: 'one fence line of five megabytes',
    text: () => `${FENCE}figures ${'on '.repeat(1_700_000)}\nb = 1\n${FENCE}\n`,
  },
  {
    name: 'a hundred thousand lines',
    text: () => block(times(100_000, (i) => `p${i} = ${i} mm + 0.5 in`)),
    worst: true,
  },
  { name: 'more lines than there may be', text: () => block(times(140_000, (i) => `${i} mm`)) },
  {
    name: 'a hundred thousand mistakes',
    text: () => block(times(100_000, (i) => `p${i} = ${i} mm + 1 kg`)),
  },
  {
    name: 'lines of no sense',
    text: () => block(times(LONG, () => 'this is no figure at all, is it?')),
  },
  { name: 'a hundred thousand blank lines', text: () => block(times(100_000, () => '')) },
  { name: 'thousands of blocks', text: () => times(5000, (i) => figures(`a${i} = ${i}`)).join('') },
  { name: 'fences never closed', text: () => `${FENCE}figures\n`.repeat(LONG) },
  {
    name: 'a hundred thousand lines of prose',
    text: () => times(100_000, (i) => `Line ${i} says nothing.`).join('\n'),
  },
  { name: 'tasks', text: () => times(LONG, (i) => `- [ ] task ${i}`).join('\n') },

  // front matter
  { name: 'a YAML bomb', text: () => `${YAML_BOMB}\n${figures('a = job.quantity')}`, worst: true },
  {
    name: 'a YAML alias of itself',
    text: () => `---\njob: &a [*a]\npart: *b\ncustomer: &c *c\nx: &x {x: *x}\n---\n${figures('a = 1')}`,
  },
  {
    name: 'YAML tags',
    text: () =>
      `---\njob: !!js/function "function () { throw 1 }"\npart: !!binary aGVsbG8=\ncustomer: !<tag:yaml.org,2002:python/object> x\nmaterial: !!set {a, b}\ndue: !!timestamp 2001-01-01\n? [complex, {key: 1}]\n: value\n<<: {merged: 1}\nquantity: !!int "0x10"\n---\n${figures('job.quantity', 'job.merged')}`,
  },
  {
    name: 'YAML deep down',
    text: () => `---\njob: ${'['.repeat(4000)}${']'.repeat(4000)}\n---\n${figures('a = 1')}`,
  },
  {
    name: 'YAML deep in blocks',
    text: () =>
      `---\njob:\n${times(130, (i) => `${' '.repeat(i + 1)}a:`).join('\n')}\n---\n${figures('a = 1')}`,
  },
  { name: 'YAML sequences of sequences', text: () => `---\n${'- '.repeat(4900)}x\n---\n${figures('a = 1')}` },
  { name: 'YAML keys of keys', text: () => `---\n${'? '.repeat(4900)}x\n---\n${figures('a = 1')}` },
  {
    name: 'YAML maps never closed',
    text: () => `---\njob: ${'{a: '.repeat(2400)}\n---\n${figures('a = 1')}`,
  },
  {
    name: 'YAML of many documents',
    text: () => `---\njob: 1\n...\n%YAML 9.9\n%TAG ! tag:x,\n--- !x\npart: 2\n---\n${figures('a = 1')}`,
  },
  {
    name: 'YAML fields of fields',
    text: () =>
      `---\n${times(900, (i) => `k${i}: v`).join('\n')}\n---\n${figures(...times(900, (i) => `job.k${i}`))}`,
  },
  {
    name: 'front matter beyond the limit',
    text: () => `---\njob: ${'x'.repeat(400_000)}\n---\n${figures('a = 1')}`,
  },
  { name: 'front matter never closed', text: () => `---\n${'job: 7\n'.repeat(50_000)}` },
  {
    name: 'front matter of quotes',
    text: () =>
      `---\njob: "${'\\x41\\u0000\\ud800'.repeat(300)}"\npart: '${"''".repeat(800)}'\nnote: |9\n  x\nfold: >-\n${'  y\n'.repeat(300)}---\n`,
  },

  // what looks like ours
  {
    name: 'tildes in backticks in tildes',
    text: () =>
      `~~~~figures\n${FENCE}figures\na = 1\n${FENCE}\n~~~\n~~~~\n${FENCE} figures\nb = 2\n${FENCE}figures\nc = 3\n`,
  },
  {
    name: 'fences nearly',
    text: () =>
      [
        '``figures\na = 1\n``',
        '    ```figures\n    a = 1\n    ```',
        '`` `figures\na = 1',
        '```Figures\na = 1\n```',
        '```figures`\na = 1\n```',
        '\t```figures\n\ta = 1\n\t```',
        '```figures{.x}\na = 1\n```',
        '<pre>\n```figures\na = 1\n```\n</pre>',
        '<!--\n```figures\na = 1\n```\n-->',
        '```\n```figures\na = 1\n```\n```',
        '[^1]: ```figures\n    a = 1',
        '| ```figures | a = 1 |\n|---|---|',
        '1) ```figures\n   a = 1\n   ```',
        '-\t```figures\n\ta = 1\n\t```',
        '```` figures\na = 1\n```\n````',
      ].join('\n\n'),
  },
  {
    name: 'a fence never closed',
    text: () =>
      `${FENCE}figures\na = 1 mm\n\nThen prose, and more prose.\n\n${'more prose\n'.repeat(20_000)}`,
  },
  {
    name: 'HTML that looks like a table of figures',
    text: () =>
      `<table class="scribeline-table"><tr data-line="3"><td>a</td><td>= 1 mm</td></tr></table>\n<section class="scribeline-block scribeline-figures"><script>x</script></section>\n\n${figures('</table><script>alert(1)</script> = 1', 'a = 1 # </td></tr></table>')}\n<code class="figures">a = 1</code>\n`,
  },
  {
    name: 'signed by nobody',
    text: () =>
      `${FENCE}signed\n${'a = 1 mm\nball.tilt = 12°\n__proto__ = 1\n'.repeat(300)}${FENCE}\n${FENCE}signed 2020-01-01 by "x\n${'x'.repeat(3000)}\n${FENCE}\n${figures('a = 2 mm')}`,
  },
  {
    name: 'code that replaces itself',
    text: () => figures(...times(100, (i) => `x${i} = $& $1 $\` $' \${1:a|b|} {0} %s %n \\u0041`)),
  },
  {
    name: 'a line for a slow pattern',
    text: () =>
      figures(
        ...times(30, () => `a = ${' '.repeat(1900)}x`),
        ...times(30, () => `1 to ${'m/'.repeat(900)}`),
        ...times(30, () => `${'a.'.repeat(950)}`),
        ...times(30, () => `${'1/'.repeat(950)}`),
        ...times(30, () => `${'1 '.repeat(950)}`),
        ...times(30, () => `a = 1 mm ${'± '.repeat(900)}`),
        ...times(30, () => `${'1,'.repeat(950)}`),
        ...times(30, () => `${'"'.repeat(1900)}`),
        ...times(30, () => `${'5′'.repeat(900)}`),
        ...times(30, () => `${'3-16 '.repeat(380)}`),
        ...times(30, () => `a measured ${'1 mm at 2 mm, '.repeat(130)}`),
      ),
  },
  {
    name: 'prose for a slow pattern',
    text: () =>
      [
        `${' '.repeat(50_000)}x`,
        `${'a '.repeat(50_000)}`,
        `${'# '.repeat(25_000)}`,
        `- [ ${' '.repeat(50_000)}`,
        `![${'!['.repeat(20_000)}`,
        `<${'a '.repeat(30_000)}`,
        `${'~'.repeat(50_000)}`,
        `${'=\n'.repeat(9000)}`,
        `${'\\'.repeat(50_000)}`,
        `http://${'a.'.repeat(30_000)}`,
        `${'<!--'.repeat(20_000)}`,
        `${'<?'.repeat(20_000)}`,
      ].join('\n\n'),
  },
];
