// The pictures of the walkthrough, light and dark, in real VS Code (after `npm run build`):
//
//   node test/tools/walkthrough.mjs [WORD…]      only those of these names: start, figures, formula, machine, reading
//
// They come to out/pictures, to be looked at, and from there to media/walkthrough as NAME-THEME.png. Whatever takes a PNG down
// to a palette of 96 colours without dither makes each a third of its size, and nobody sees it.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import process from 'node:process';

const root = resolve(import.meta.dirname, '../..');
const fenced = (fence, ...lines) => `# Gate lever\n\n\`\`\`${fence}\n${lines.join('\n')}\n\`\`\`\n`;

/** Each note as somebody would have it at that step, and what the hand does in it. */
const PICTURES = {
  start: {
    // What New Job writes for a ball on the lathe of the examples.
    note: [
      ...['---', 'job: 0148', 'customer: Lock keeper, upper basin', 'part: Gate lever', 'quantity: 1'],
      ...['material: steel_C45', 'status: planned', '---', '', '# Gate lever', ''],
      ...['The sizes are first values: put in what the drawing asks.', '', '## What is asked', ''],
      ...['```figures', 'ball    = 25 mm ± 0.05 mm shaft', 'neck    = 12 mm'],
      ...['overall = 100 mm ± 0.5 mm', 'widest  = ball', '```', '', '## Blank', ''],
      ...['```figures', 'bar    = 28 mm', 'blank  = overall + 2 * 1.5 mm      # to face, each end'],
      'bar > widest',
      'weight = job.quantity * pi / 4 * bar^2 * blank * steel_C45.density to kg',
      ...['```', '', '## Head and ring', ''],
    ].join('\n'),
    steps: `until 24.95; line 1;${' keys Control+ArrowDown;'.repeat(8)} wait 1000; shot start`,
  },
  figures: {
    note: fenced(
      'figures',
      'neck   = 7/16 in ± 0.02 mm shaft',
      'neck to mm',
      'spigot = 12 mm h7',
      'slot   = 3.10 mm .. 3.20 mm hole',
      "tilt   = 12°40'",
      'old_pin measured 12.68 mm, 12.66 mm',
      'spigot - old_pin to µm',
    ).replace('\n\n', '\n\nThe old pin is worn on one side.\n\n'),
    steps: 'until 0.02 mm apart; shot figures',
  },
  formula: {
    note: fenced('figures', 'ball  = 30 mm ± 0.05 shaft', 'neck  = 12 mm'),
    steps: 'until 30.05 mm; line 5; keys End; complete setup = ball_',
  },
  machine: {
    note: fenced(
      'figures on lathe',
      'bar = 28 mm',
      'v = 24 m/min',
      'n = spindle_speed(v, bar)',
      'feed = 0.12 mm/rev',
      'rate = feed_rate(feed, n)',
    ),
    steps: 'until 273 rpm; click spindle; wait 2000; keys Control+.; wait 5000; shot machine',
  },
  reading: {
    note: fenced(
      'figures',
      'ball = 26 mm ± 0.05 mm shaft',
      'neck = 7/16 in ± 0.02 mm shaft',
      'ball measured 26.51 mm',
    ),
    steps:
      'until 0.46 mm left; line 1; keys Alt+m; wait 4000; type ball; keys Enter; wait 1000; keys Enter; wait 1000; type 26.12 mm; wait 1500; shot reading',
  },
};

/** The editor and nothing round it: beside its step a picture is not much wider than a hand. */
const ALONE = {
  'breadcrumbs.enabled': false,
  'editor.fontSize': 13,
  'editor.glyphMargin': false,
  'editor.lineNumbers': 'off',
  'editor.stickyScroll.enabled': false,
  'window.commandCenter': false,
  'window.menuBarVisibility': 'hidden',
  'workbench.activityBar.location': 'hidden',
  'workbench.layoutControl.enabled': false,
  'workbench.statusBar.visible': false,
};

const wanted = process.argv.slice(2);
for (const [name, { note, steps }] of Object.entries(PICTURES)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-'));
  cpSync(join(root, 'examples/shop.md'), join(folder, 'shop.md'));
  writeFileSync(join(folder, `${name}.md`), note);
  const size = ['--width', '560', '--height', '360', '--scale', '1.5', '--theme', 'light,dark'];
  const look = ['--settings', JSON.stringify(ALONE), '--steps', `keys Control+b; ${steps}`];
  const tool = join(import.meta.dirname, 'screenshots.mjs');
  const done = spawnSync('node', [tool, join(folder, `${name}.md`), ...size, ...look], { stdio: 'inherit' });
  rmSync(folder, { recursive: true, force: true });
  if (done.status !== 0) process.exitCode = 1;
}
