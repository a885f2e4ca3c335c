/**
 * npm run mutate: breaks each rule of the notation, each rule of limits and each constant of a formula in turn and reports
 * which breakages no test notices. To be run before a release; what it breaks is in `mutation/scope.mjs`.
 *
 *     --wide        whatever can be broken in the core's rooms, which takes many hours: better room by room, with --near --quick,
 *                   then --near --again with what survived, then --again with what is left
 *     --room trade --file src/trade/ball.ts --kind number    only these (each may be repeated)
 *     --sample N, --seed S    N of them, chosen by S
 *     --all         every value of the ISO 286 tables instead of one in ten; excused mutants are tried too
 *     --near        only the tests of the mutant's own room, which may notice less; --with language  those of that room as
 *                   well (may be repeated)
 *     --quick       only short tests, and each once, which may notice less
 *     --list        names the mutants and tries none
 *     --jobs N      workers, one when left out
 *     --runs N      random cases of a property, 40 when left out; a survivor is tried again with ten times as many
 *     --report F    writes what came of each mutant, and the milliseconds it took, to F as JSON; --again F tries those that survived in F
 *
 * Exit code 0 when every mutant is noticed or excused, 1 when one survives, an excuse fits no mutant or the tests fail
 * without any, 2 for wrong use. What a mutant is: `mutation/mutants.mjs`. The project's files are only read.
 */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { resolve, sep } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { buildScript } from './mutation/build.mjs';
import { mutantsOf } from './mutation/mutants.mjs';
import { Runner } from './mutation/runner.mjs';
import { ALL_FILES, FILES, isInScope, isLayout } from './mutation/scope.mjs';

const root = resolve(import.meta.dirname, '../..');
/** Without the tests that run the tokeniser, the bundler or a browser, and that of solids, which takes half a minute. */
const TESTS =
  /^test\/(quantity|trade|notation|engine|language|sheet|archive)\/(?!grammar|solid|printed|accessible|directions|lean).*\.test\.ts$/;
/** A file for each room: which mutants none need notice, with the reason. */
const EXCUSES = resolve(import.meta.dirname, 'mutation/excused');

const { values: options } = parseArgs({
  options: {
    room: { type: 'string', multiple: true },
    file: { type: 'string', multiple: true },
    kind: { type: 'string', multiple: true },
    sample: { type: 'string' },
    seed: { type: 'string', default: '1' },
    wide: { type: 'boolean', default: false },
    all: { type: 'boolean', default: false },
    near: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
    with: { type: 'string', multiple: true, default: [] },
    list: { type: 'boolean', default: false },
    jobs: { type: 'string', default: '1' },
    runs: { type: 'string', default: '40' },
    report: { type: 'string' },
    again: { type: 'string' },
  },
});

const paths = [
  'src',
  'test/quantity',
  'test/trade',
  'test/notation',
  'test/engine',
  'test/language',
  'test/sheet',
  'test/archive',
]
  .filter((folder) => existsSync(resolve(root, folder)))
  .flatMap((folder) =>
    readdirSync(resolve(root, folder), { recursive: true }).map(
      (path) => `${folder}/${path.split(sep).join('/')}`,
    ),
  )
  .sort();
const change = ({ before, after, nth }) => `${before} → ${after}${nth > 1 ? ` [${nth}]` : ''}`;
const show = (m) => `${m.file}:${m.line}:${m.column} ${m.kind} in ${m.in || 'the file'}: ${change(m)}`;
const name = (m) => [m.file, m.in, change(m)].join('\n');

/** A number from 0 to 1 that depends on seed and id only. */
function chance(seed, id) {
  let h = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(id + 1, 0xc2b2ae35);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39);
  return ((h ^ (h >>> 15)) >>> 0) / 2 ** 32;
}

const files = paths.filter((path) => (options.wide ? ALL_FILES : FILES).test(path));
const testFiles = paths.filter((path) => TESTS.test(path));
const sources = new Map();
const mutants = [];
for (const file of files) {
  const made = mutantsOf(file, readFileSync(resolve(root, file), 'utf8'), mutants.length);
  sources.set(file, made.code);
  mutants.push(...made.mutants);
}

function chosen() {
  const seed = Number(options.seed);
  const again = options.again
    ? new Set(JSON.parse(readFileSync(options.again, 'utf8')).survived.map(name))
    : null;
  let list = mutants.filter(
    (m) =>
      (options.wide ? !isLayout(m) : isInScope(m)) &&
      (!options.room || options.room.includes(m.file.split('/')[1])) &&
      (!options.file || options.file.some((file) => m.file.includes(file))) &&
      (!options.kind || options.kind.includes(m.kind)) &&
      (!again || again.has(name(m))),
  );
  if (options.sample)
    return list
      .sort((a, b) => chance(seed, a.id) - chance(seed, b.id))
      .slice(0, Number(options.sample))
      .sort((a, b) => a.id - b.id);
  if (!options.all) list = list.filter((m) => m.kind !== 'table' || chance(seed, m.id) < 0.1);
  return list;
}

const list = chosen();
if (options.list) console.log([...list.map(show), `${list.length} mutants`].join('\n'));
else await tryThem();

async function tryThem() {
  const start = performance.now();
  const excuses = readdirSync(EXCUSES).flatMap((room) =>
    JSON.parse(readFileSync(resolve(EXCUSES, room), 'utf8')),
  );
  const excused = new Map();
  const unfit = [];
  for (const { file, in: place, changes, reason } of excuses)
    for (const made of changes) {
      const fits = (m) =>
        m.file === file &&
        m.in === place &&
        (made.endsWith('*') ? change(m).startsWith(made.slice(0, -1)) : change(m) === made);
      const found = mutants.filter(fits);
      for (const mutant of found) excused.set(name(mutant), reason);
      if (found.length === 0 && sources.has(file)) unfit.push(`${file} in ${place}: ${made}`);
    }
  const tried = list.filter((m) => options.all || !excused.has(name(m)));

  const rooms = new Set([...tried.map((m) => m.file.split('/')[1]), ...options.with]);
  const surveyed = testFiles.filter((file) => !options.near || rooms.has(file.split('/')[1]));
  const runner = new Runner(await buildScript(root, surveyed, sources), {
    runs: Number(options.runs),
    seed: Number(options.seed),
    quick: options.quick,
  });
  const { failures, tests } = await runner.survey(surveyed);
  for (const failure of failures) console.log(`fails without a mutant: ${failure}`);
  console.log(
    `${tests} tests of ${surveyed.length} files, ${tried.length} mutants of ${new Set(tried.map((m) => m.file)).size} files`,
  );

  let done = 0;
  let told = 0;
  const results = await runner.tryAll(tried, Number(options.jobs), (result) => {
    done++;
    if (result.noticed === null && !excused.has(name(result.mutant)))
      console.log(`survives: ${show(result.mutant)}`);
    const tenth = Math.floor((done / tried.length) * 10);
    if (tenth > told)
      console.log(`${(told = tenth) * 10} % after ${Math.round((performance.now() - start) / 1000)} s`);
  });

  const survivors = results.filter((r) => r.noticed === null);
  const survived = survivors.filter((r) => !excused.has(name(r.mutant)));
  const needless = results.filter((r) => r.noticed !== null && excused.has(name(r.mutant)));
  if (survived.length > 0) console.log('\nNo test notices:');
  for (const { mutant, reached } of survived)
    console.log(`  ${show(mutant)}${reached ? '' : ' (no test comes here)'}`);
  for (const { mutant } of needless) console.log(`excused, but noticed: ${show(mutant)}`);
  for (const excuse of unfit) console.log(`excuse without a mutant: ${excuse}`);

  for (const kind of [...new Set(results.map((r) => r.mutant.kind))].sort()) {
    const of = results.filter((r) => r.mutant.kind === kind);
    console.log(`  ${kind}: ${of.length} tried, ${of.filter((r) => r.noticed !== null).length} noticed`);
  }
  const count = list.filter((m) => excused.has(name(m))).length;
  console.log(
    `${results.length} mutants tried, ${results.length - survivors.length} noticed, ${count} excused, ` +
      `${survived.length} survived, in ${Math.round((performance.now() - start) / 1000)} s`,
  );
  if (options.report)
    writeFileSync(
      options.report,
      JSON.stringify(
        {
          survived: survived.map((r) => ({ ...r.mutant, reached: r.reached, ms: r.ms })),
          noticed: results.filter((r) => r.noticed).map((r) => ({ ...r.mutant, by: r.noticed, ms: r.ms })),
        },
        null,
        1,
      ),
    );
  process.exitCode = survived.length + unfit.length + failures.length + needless.length > 0 ? 1 : 0;
}
