// npm start: builds, then opens the examples in real VS Code with the job note showing. Where `code` is on the path and
// there is a display, that is desktop VS Code; else the VS Code Server in the browser, at the printed address, until
// Ctrl+C. Both save to disk.
//   FOLDER, FILE   what to open instead      PORT   a fixed port      NO_OPEN=1   print the address only
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { buildAll } from './build.mjs';
import { startVSCode } from './vscode.mjs';

const root = resolve(import.meta.dirname, '../..');
const folder = resolve(root, process.env.FOLDER ?? 'examples');
const file = process.env.FILE ?? firstNote();
const windows = process.platform === 'win32';
const display = process.platform !== 'linux' || Boolean(process.env.DISPLAY ?? process.env.WAYLAND_DISPLAY);
const open = display && !process.env.NO_OPEN;

function firstNote() {
  const notes = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.md')) : [];
  return ['ball-on-shank.md', ...notes.sort()].find((name) => notes.includes(name)) ?? 'note.md';
}

console.log('Building …');
await buildAll().catch(() => process.exit(1)); // esbuild has said what is wrong
if (open && spawnSync('code', ['--version'], { shell: windows }).status === 0) {
  console.log('Opening desktop VS Code.');
  const args = ['--new-window', `--extensionDevelopmentPath=${root}`, folder, join(folder, file)];
  const quoted = windows ? args.map((word) => `"${word}"`) : args;
  process.exitCode = spawnSync('code', quoted, { stdio: 'inherit', shell: windows }).status ?? 1;
} else {
  await inBrowser();
}

async function inBrowser() {
  const port = Number(process.env.PORT) || undefined;
  const keepData = join(root, '.vscode-data');
  const vscode = await startVSCode({ host: 'node', extension: root, folder, port, keepData });
  const url = vscode.url([['openFile', vscode.fileUri(file)]]);
  console.log(`VS Code is at\n${url}\nCtrl+C ends it.`);
  if (open) {
    const opener = { darwin: 'open', win32: 'explorer' }[process.platform] ?? 'xdg-open';
    spawn(opener, [url], { stdio: 'ignore', detached: true })
      .on('error', () => console.log('Open that address in a browser.'))
      .unref();
  }
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.once(signal, () => void vscode.close().then(() => process.exit(0)));
  }
}
