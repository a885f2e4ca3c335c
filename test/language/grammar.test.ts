/** The grammar that colours our fences, run by the editor's own tokeniser on the editor's own markdown grammar. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { NODE_HOST, ensureHost } from '../tools/install.mjs';

interface Token {
  readonly startIndex: number;
  readonly endIndex: number;
  readonly scopes: readonly string[];
}
interface Tokeniser {
  tokenizeLine(
    line: string,
    state: unknown,
  ): { readonly tokens: readonly Token[]; readonly ruleStack: unknown };
}
interface TextMate {
  readonly INITIAL: unknown;
  parseRawGrammar(text: string, path: string): unknown;
  readonly Registry: new (options: object) => { loadGrammar(scope: string): Promise<Tokeniser> };
}
interface Oniguruma {
  loadWASM(data: ArrayBufferLike): Promise<void>;
  readonly OnigScanner: new (patterns: string[]) => unknown;
  readonly OnigString: new (text: string) => unknown;
}

const OURS = 'markdown.figures.codeblock';
let markdown: Tokeniser;
let initial: unknown;

beforeAll(async () => {
  ensureHost('node');
  const require = createRequire(join(NODE_HOST, 'package.json'));
  const textmate = require('vscode-textmate') as TextMate;
  const oniguruma = require('vscode-oniguruma') as Oniguruma;
  const wasm = readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm'));
  await oniguruma.loadWASM(wasm.buffer);
  const files = new Map([
    ['text.html.markdown', join(NODE_HOST, 'extensions/markdown-basics/syntaxes/markdown.tmLanguage.json')],
    [OURS, new URL('../../syntaxes/figures.tmLanguage.json', import.meta.url).pathname],
  ]);
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns: string[]) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text: string) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async (scope: string) => {
      const file = files.get(scope);
      return file ? textmate.parseRawGrammar(readFileSync(file, 'utf8'), file) : null;
    },
    getInjections: (scope: string) => (scope === 'text.html.markdown' ? [OURS] : undefined),
  });
  markdown = await registry.loadGrammar('text.html.markdown');
  initial = textmate.INITIAL;
});

/** Each coloured piece of a note as `text=scope`, our endings left out, line by line. */
function coloured(text: string): readonly string[] {
  let state = initial;
  return text.split('\n').map((line) => {
    const { tokens, ruleStack } = markdown.tokenizeLine(line, state);
    state = ruleStack;
    return tokens
      .flatMap(({ startIndex, endIndex, scopes }) => {
        const last = scopes.at(-1) ?? '';
        return last.endsWith('.figures') && !last.startsWith('meta.')
          ? [`${line.slice(startIndex, endIndex)}=${last.replace('.figures', '')}`]
          : [];
      })
      .join(' ');
  });
}

/** The pieces of one line in a block of ours. */
function inBlock(line: string): string {
  return coloured(`\`\`\`figures\n${line}\n\`\`\``)[1] ?? '';
}

const VARIABLE = 'entity.name.variable';
const NUMBER = 'constant.numeric';
const UNIT = 'keyword.other.unit';
const WORD = 'keyword.control';

describe('lines', () => {
  it.each([
    [
      'ball = 30 mm # runs',
      `ball=${VARIABLE} ==keyword.operator.assignment 30=${NUMBER} mm=${UNIT} # runs=comment.line.number-sign`,
    ],
    ['1 3/8 in', `1 3/8=${NUMBER} in=${UNIT}`],
    ['3/8"', `3/8=${NUMBER} "=${UNIT}`],
    ['15°30′', `15=${NUMBER} °=${UNIT} 30=${NUMBER} ′=${UNIT}`],
    ['24 m/min', `24=${NUMBER} m/min=${UNIT}`],
    ['5 mm^2', `5=${NUMBER} mm^2=${UNIT}`],
    ['25 mm H7', `25=${NUMBER} mm=${UNIT} H7=constant.language.tolerance`],
    [
      '30 mm ± 0.05 shaft',
      `30=${NUMBER} mm=${UNIT} ±=keyword.operator.tolerance 0.05=${NUMBER} shaft=${WORD}`,
    ],
    [
      'neck measured 12 mm at 10 mm',
      `neck=${VARIABLE} measured=${WORD} 12=${NUMBER} mm=${UNIT} at=${WORD} 10=${NUMBER} mm=${UNIT}`,
    ],
    ['s.ring used 29 mm', `s.ring=${VARIABLE} used=${WORD} 29=${NUMBER} mm=${UNIT}`],
    ['s.ring final 29 mm', `s.ring=${VARIABLE} final=${WORD} 29=${NUMBER} mm=${UNIT}`],
    ['d to in', `to=${WORD} in=${UNIT}`],
    ['sqrt(h7)', 'sqrt=entity.name.function'],
    [
      'f(fillet: 2 mm)',
      `f=entity.name.function fillet=variable.parameter :=punctuation.separator.key-value 2=${NUMBER} mm=${UNIT}`,
    ],
    ['a <= 40 mm', `<==keyword.operator.comparison 40=${NUMBER} mm=${UNIT}`],
    ['maker: Two Rivers', `maker=${VARIABLE} :=punctuation.separator.key-value Two Rivers=string.unquoted`],
  ])('%s', (line, wanted) => expect(inBlock(line)).toBe(wanted));
});

describe('fences', () => {
  const line = `a=${VARIABLE} ==keyword.operator.assignment 3=${NUMBER} mm=${UNIT}`;

  it('are ours in quotes and lists, with ticks or waves, and end where they should', () => {
    for (const [open, inside, close] of [
      ['```figures', 'a = 3 mm', '```'],
      ['~~~~ machine lathe', 'a = 3 mm', '~~~~'],
      ['> ```material steel', '> a = 3 mm', '> ```'],
      ['- ```signed', '  a = 3 mm', '  ```'],
      ['1. x\n\n   ```figures', '   a = 3 mm', '   ```'],
      ['> - ```figures', '>   a = 3 mm', '>   ```'],
    ]) {
      const [lines, after] = [
        coloured(`${open}\n${inside}\n${close}\n\na = 3 mm`),
        5 + (open?.split('\n').length ?? 1) - 1,
      ];
      expect(
        lines.filter((each) => each === line),
        open,
      ).toHaveLength(1);
      expect(lines[after - 1], open).toBe('');
    }
  });

  it('end with the quote they stand in', () => {
    expect(coloured('> ```figures\n> a = 3 mm\na = 3 mm')).toEqual(['', line, '']);
  });

  it('of others are left alone', () => {
    const others = [
      '```js\na = 3 mm\n```',
      '````text\n```figures\na = 3 mm\n```\n````',
      '```figurehead\na = 3 mm\n```',
      '<!--\n```figures\na = 3 mm\n```\n-->',
      'a = 3 mm',
    ];
    for (const text of others) expect(coloured(text).join(''), text).toBe('');
  });

  it('name their machines', () => {
    expect(coloured('```figures on mill, boring_head')[0]).toBe(
      'on=keyword.other mill=entity.name.type.machine boring_head=entity.name.type.machine',
    );
  });
});
