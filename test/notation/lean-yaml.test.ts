/** The editor's bundles hold a part of yaml: it reads front matter as the whole library does, whatever stands in it. */
import { build } from 'esbuild';
import fc from 'fast-check';
import { createRequire } from 'node:module';
import { expect, it } from 'vitest';
import * as whole from 'yaml';
import { YAML, readOnly } from '../tools/build.mjs';

type Yaml = typeof whole;

async function lean(): Promise<Yaml> {
  const { outputFiles } = await build({
    stdin: { contents: String(YAML), resolveDir: process.cwd() },
    plugins: [readOnly as never],
    bundle: true,
    format: 'cjs',
    write: false,
    platform: 'browser',
    mainFields: ['module', 'main'],
  });
  const module = { exports: {} };
  new Function('module', 'exports', 'require', outputFiles[0]?.text ?? '')(
    module,
    module.exports,
    createRequire(import.meta.url),
  );
  return module.exports as Yaml;
}

/** Everything front matter is asked for. */
function seen({ parseDocument, isAlias, isMap, isScalar }: Yaml, text: string): string {
  const document = parseDocument(text, {
    schema: 'failsafe',
    resolveKnownTags: false,
    prettyErrors: false,
    uniqueKeys: false,
    logLevel: 'silent',
  });
  const part = (node: unknown): unknown =>
    isAlias(node)
      ? ['alias', node.source]
      : isScalar(node)
        ? [node.value, node.range]
        : isMap(node)
          ? [node.range, node.items.map(({ key, value }) => [part(key), part(value)])]
          : typeof node;
  return JSON.stringify([document.errors.map(({ message, pos }) => [message, pos]), part(document.contents)]);
}

const PARTS = [
  'a',
  'b: ',
  '\n',
  '\n  ',
  '- ',
  '"x"',
  "'y'",
  '&n ',
  '*n',
  ': ',
  '? ',
  '|',
  '>',
  '\t',
  '[',
  ']',
];
const MORE = [
  '{',
  '}',
  ',',
  '#z',
  ' ',
  '!!set ',
  '!!int ',
  '!x ',
  '<<: ',
  '---',
  '...',
  '0815',
  '2020-01-01',
  'é',
];

it('reads the same', async () => {
  const own = await lean();
  expect(seen(own, 'job: 0815\ndue: 2026-11-25\n')).toContain('"0815"');
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...PARTS, ...MORE), { maxLength: 14 }), (parts) => {
      expect(seen(own, parts.join(''))).toBe(seen(whole, parts.join('')));
    }),
    { numRuns: 2000 },
  );
});
