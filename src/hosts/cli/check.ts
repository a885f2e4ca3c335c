/** `scribeline check`: notes in, values and findings out. */
import { byUnits } from '../../archive/order';
import { type Shop, calculate } from '../../engine/index';
import { type NoteReport, report } from '../../sheet/report';
import { type NoteFile, type Unreadable, ShopFiles, findNotes, readText, reason, shownPath } from './files';
import { type Exit, type Io, FINDINGS, FINE, WRONG } from './io';
import { type Checked, printed, summary } from './print';
import { harmless } from './terminal';

export function check(paths: readonly string[], json: boolean, io: Io): Exit {
  const found = findNotes(paths, io.current);
  const shops = new ShopFiles();
  const unreadable = new Map<string, string>();
  const unread = ({ path, why }: Unreadable): void => void unreadable.set(shownPath(path, io.current), why);
  found.unreadable.forEach(unread);

  const notes: Checked[] = [];
  for (const note of found.notes) {
    try {
      notes.push(checkNote(note, shops.of(note), io.current));
    } catch (error) {
      unread({ path: note.path, why: reason(error) });
    }
  }
  shops.unreadable.forEach(unread);
  notes.sort((a, b) => byUnits(a.report.file, b.report.file));

  const all = notes.flatMap((note) => note.report.findings);
  const errors = all.filter((finding) => finding.severity === 'error').length;
  const warnings = all.filter((finding) => finding.severity === 'warning').length;
  if (json) {
    const files = [...unreadable.keys()].sort(byUnits);
    const whole = {
      version: 1,
      notes: notes.map((note) => note.report),
      unreadable: files,
      errors,
      warnings,
    };
    io.out(`${JSON.stringify(whole, null, 2)}\n`);
  } else {
    for (const note of notes) io.out(printed(note, io.colour));
    io.out(summary(notes.length, errors, warnings, io.colour));
  }
  for (const [file, why] of unreadable)
    io.err(`scribeline: cannot read ${harmless(file)}: ${harmless(why)}\n`);
  return unreadable.size > 0 ? WRONG : errors > 0 ? FINDINGS : FINE;
}

function checkNote(note: NoteFile, shops: readonly Shop[], current: string): Checked {
  const sheet = calculate(readText(note.path), shops);
  const name = (path: string): string => shownPath(path, current);
  const made: NoteReport = report(sheet, name(note.path), name);
  return { sheet, report: made };
}
