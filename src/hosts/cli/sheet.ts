/** `scribeline sheet`: a note in, one HTML file out. */
import { createHash } from 'node:crypto';
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type ImageFile, MOST_IMAGE } from '../../sheet/images';
import { imagesOf, jobSheet } from '../../sheet/job-sheet';
import { sentence } from '../../sheet/sheet-findings';
import { dayOf } from '../../sheet/day';
import type { Command } from './arguments';
import { type NoteFile, ShopFiles, noteAt, readText, reason, shownPath, within } from './files';
import { type Exit, type Io, FINDINGS, FINE, WRONG } from './io';
import { harmless } from './terminal';
import { writeWhole } from './write-whole';

export function sheet({ note, to, how }: Extract<Command, { kind: 'sheet' }>, io: Io): Exit {
  const path = resolve(io.current, note);
  try {
    if (statSync(path).isDirectory()) return fail(note, 'it is a folder; name one note', io);
  } catch (error) {
    return fail(note, reason(error), io);
  }
  let made;
  try {
    made = make(noteAt(note, io.current), how, io);
  } catch (error) {
    return fail(note, reason(error), io);
  }
  for (const finding of made.findings)
    io.err(`scribeline: ${harmless(note)}, line ${finding.line + 1}: ${harmless(sentence(finding))}\n`);
  if (to === null) io.out(made.html);
  else {
    const target = resolve(io.current, to);
    if (isSame(target, path))
      return fail(to, 'it is the note itself; give the sheet another name', io, 'write');
    try {
      writeWhole(target, made.html, { sure: true });
    } catch (error) {
      return fail(to, reason(error, 'write'), io, 'write');
    }
  }
  return made.errors > 0 ? FINDINGS : FINE;
}

/** Whether a file to be written is the note, by whatever name or link. */
function isSame(target: string, note: string): boolean {
  const [a, b] = [target, note].map((path) => statSync(path, { throwIfNoEntry: false, bigint: true }));
  return target === note || (a !== undefined && b !== undefined && a.dev === b.dev && a.ino === b.ino);
}

function make(
  file: NoteFile,
  how: Extract<Command, { kind: 'sheet' }>['how'],
  io: Io,
): ReturnType<typeof jobSheet> {
  const text = readText(file.path);
  const shops = new ShopFiles().of(file);
  const folder = dirname(file.path);
  const images = new Map(imagesOf(text).map((way) => [way, image(folder, way)]));
  const styles = ['preview.css', 'sheet.css'].map((name) => readText(styleFile(name))).join('\n');
  return jobSheet({
    text,
    shops,
    how,
    date: dayOf(new Date()),
    file: shownPath(file.path, io.current),
    images,
    styles,
    styleHash: `sha256-${createHash('sha256').update(styles).digest('base64')}`,
  });
}

/** The package's folder `media`, seen from the bundle, and from the sources when tests run. */
function styleFile(name: string): string {
  const places = ['../../media', '../../../media'].map((way) => join(__dirname, way, name));
  const found = places.find((place) => statSync(place, { throwIfNoEntry: false })?.isFile());
  return found ?? join('media', name);
}

/** A file in the note's folder or below. A link that leads out of it is not followed: a sheet is given away. */
function image(folder: string, way: string): ImageFile {
  const unreadable = (why: string): ImageFile => ({ unreadable: why });
  try {
    const path = realpathSync(resolve(folder, way));
    if (!within(path, realpathSync(folder))) return unreadable('it lies outside');
    const { size } = statSync(path);
    return size > MOST_IMAGE ? { size } : { bytes: readFileSync(path) };
  } catch (error) {
    return unreadable(reason(error));
  }
}

function fail(name: string, why: string, io: Io, what: 'read' | 'write' = 'read'): Exit {
  io.err(`scribeline: cannot ${what} ${harmless(name)}: ${harmless(why)}\n`);
  return WRONG;
}
