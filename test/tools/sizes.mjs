// How much code runs before a first value, and how large the bundles are. In kB of minified code.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';

const root = resolve(import.meta.dirname, '../..');
const ENTRIES = ['dist/node/extension.js', 'dist/web/extension.js', 'dist/cli/program.js'];

/** Characters of the command line that ran, by V8's own account, until it had printed the value of a one-line note. */
function thatRan() {
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-'));
  try {
    writeFileSync(join(folder, 'one.md'), '```figures\n30 mm * 2\n```\n');
    const program = resolve(root, 'dist/cli/program.js');
    const env = { ...process.env, NODE_V8_COVERAGE: join(folder, 'coverage') };
    spawnSync(process.execPath, [program, 'check', 'one.md'], { cwd: folder, env });
    const [report = ''] = readdirSync(env.NODE_V8_COVERAGE);
    const { result } = JSON.parse(readFileSync(join(env.NODE_V8_COVERAGE, report), 'utf8'));
    const { functions } = result.find(({ url }) => url.endsWith('/dist/cli/program.js'));
    // Ranges lie in one another: the innermost says whether a character ran.
    const ranges = functions
      .flatMap((each) => each.ranges)
      .sort((a, b) => a.startOffset - b.startOffset || b.endOffset - a.endOffset);
    const ran = new Uint8Array(ranges[0].endOffset);
    for (const { startOffset, endOffset, count } of ranges)
      ran.fill(count > 0 ? 1 : 0, startOffset, endOffset);
    return ran.reduce((sum, each) => sum + each, 0);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function row(name, measured, bytes, most) {
  return {
    row: name,
    measured,
    against: `${most} kB of minified code`,
    wanted: ['at most', 1],
    ratio: bytes / 1000 / most,
    first: bytes / 1000,
    second: most,
    unit: 'kB',
  };
}

export function sizes() {
  return [
    row('e2', 'code that runs until the first value is there', thatRan(), 250),
    ...ENTRIES.map((file, i) => row(`e${i + 3}`, file, statSync(resolve(root, file)).size, 1000)),
  ];
}
