// A folder of past jobs for tests of the real thing and for pictures: fourteen from the generator of made-up notes, two
// turned pins that stand on the card of a lathe, a signed one, one with mistakes and one with very long names.
//   node test/tools/example-jobs.mjs FOLDER
import { transformSync } from 'esbuild';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import process from 'node:process';

const root = resolve(import.meta.dirname, '../..');

/** The lathe's steps; with another list the pins can no longer be turned as planned. */
export const shop = (speeds = '115, 190, 300, 475, 790') =>
  `# The shop\n\n\`\`\`machine lathe\nkind: centre lathe\nspeeds = [${speeds}] rpm\n\`\`\`\n`;

const pin = (job, size, speed, why) => `---
job: ${job}
customer: Fennick Locks
part: Hinge pin
material: steel_C45
due: 2026-0${Number(job) - 9000}-20
status: done
---

# Hinge pin of ${size} mm

\`\`\`figures on lathe
pin   = ${size} mm h7
speed = ${speed} rpm
pin final ${size - 0.01} mm
speed used ${speed} rpm   # ${why}
\`\`\`

- Lesson: ${why}
`;

const OWN = {
  'shop.md': shop(),
  'jobs/9001.md': pin('9001', 16, 475, 'no chatter with the long centre'),
  'jobs/9002.md': pin('9002', 18, 300, 'the thin end whips'),
  'jobs/9003.md': `${pin('9003', 20, 190, 'slow, as planned')}
\`\`\`signed
date: 2026-03-20
version: 0.1.0
by: M. Orrin
pin = 20 mm 0/-0.021 mm
speed = 190 rpm
\`\`\`
`,
  'jobs/9004.md': `---
job: 9004
customer: Hallow Mill
part: Stub shaft
due: 2026-04-02
status: planned
---

# Stub shaft with two mistakes

\`\`\`figures
stub   = 24 mm
length = 10 mm + 1
flange = stub / no_such_figure
\`\`\`
`,
  'jobs/9005.md': `---
job: 2026-9005-B
customer: The Worshipful Trust of Ferrymen and Lock Keepers of Ostley Upper Reach
part: Gudgeon
due: 2026-12-24
status: waiting for the drawing of the second revision
---

# Gudgeon for the lower gate of the eastern chamber, remade after the old drawing with the wear taken out

\`\`\`figures
gudgeon_of_the_lower_gate = 62.5 mm ± 0.02 mm
\`\`\`
`,
  'README.md': '# Our jobs\n\nNo figures here, so this page is no job.\n',
};

/** The notes by their paths. */
export async function exampleJobs(count = 14) {
  const source = readFileSync(join(root, 'test/archive/job-note.ts'), 'utf8');
  const { code } = transformSync(source, { loader: 'ts', format: 'esm' });
  const { jobNote } = await import(`data:text/javascript,${encodeURIComponent(code)}`);
  const made = Array.from({ length: count }, (_, i) => [
    `jobs/${String(i + 1).padStart(4, '0')}.md`,
    jobNote(i + 1),
  ]);
  return new Map([...made, ...Object.entries(OWN)]);
}

export async function writeJobs(folder, count) {
  for (const [path, text] of await exampleJobs(count)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

if (process.argv[1] === import.meta.filename) await writeJobs(resolve(process.argv[2] ?? 'out/jobs'));
