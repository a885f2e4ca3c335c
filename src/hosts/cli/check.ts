/** `scribeline check`: notes in, values and findings out. */
import { byUnits } from '../../archive/order';
import { type Shop, calculate } from '../../engine/index';
import { type NoteReport, report } from '../../sheet/report';
import { type NoteFile, type Unreadable, ShopFiles, findNotes, readText, reason, shownPath } from './files';
import { type Exit, type Io, FINDINGS, FINE, WRONG } from './io';
import { type Checked, printed, summary } from './print';
import { harmless } from './terminal';

export async function check(paths: readonly string[], json: boolean, io: Io): Promise<Exit> {
  const found = findNotes(paths, io.current);
  const shops = new ShopFiles();
  const unreadable = new Map<string, string>();
  const unread = ({ path, why }: Unreadable): void => void unreadable.set(shownPath(path, io.current), why);
  found.unreadable.forEach(unread);

  // Each note is said and let go before the next is read: a folder may hold more than the memory does.
  const files = found.notes.map((note) => ({ note, name: shownPath(note.path, io.current) }));
  files.sort((a, b) => byUnits(a.name, b.name));
  const count = { notes: 0, error: 0, warning: 0, info: 0 };
  if (json) io.out('{\n  "version": 1,\n  "notes": [');
  for (const { note } of files) {
    let checked: Checked;
    try {
      checked = checkNote(note, shops.of(note), io.current);
    } catch (error) {
      unread({ path: note.path, why: reason(error) });
      continue;
    }
    for (const { severity } of checked.report.findings) count[severity]++;
    if (json) io.out(`${count.notes > 0 ? ',' : ''}\n    ${indented(checked.report, '    ')}`);
    else io.out(printed(checked, io.colour));
    count.notes++;
    if (io.taken) await io.taken();
  }
  shops.unreadable.forEach(unread);

  if (json) {
    const unreadableFiles = indented([...unreadable.keys()].sort(byUnits), '  ');
    io.out(`${count.notes > 0 ? '\n  ' : ''}],\n  "unreadable": ${unreadableFiles},\n`);
    io.out(`  "errors": ${count.error},\n  "warnings": ${count.warning}\n}\n`);
  } else io.out(summary(count.notes, count.error, count.warning, io.colour));
  for (const [file, why] of unreadable)
    io.err(`scribeline: cannot read ${harmless(file)}: ${harmless(why)}\n`);
  return unreadable.size > 0 ? WRONG : count.error > 0 ? FINDINGS : FINE;
}

/** As JSON that stands this far in. Texts hold no line ends in it, so only its own are moved. */
function indented(value: unknown, by: string): string {
  return JSON.stringify(value, null, 2).replaceAll('\n', `\n${by}`);
}

function checkNote(note: NoteFile, shops: readonly Shop[], current: string): Checked {
  const sheet = calculate(readText(note.path), shops);
  const name = (path: string): string => shownPath(path, current);
  const made: NoteReport = report(sheet, name(note.path), name);
  return { sheet, report: made };
}
