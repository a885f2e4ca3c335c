/**
 * The job sheet: what goes on the clipboard at the machine. One HTML file that needs nothing else, runs nothing and asks
 * for nothing. This file says what it is made of.
 */
import { type Shop, Sheet } from '../engine/index';
import { cutFrontMatter } from '../notation/front-matter';
import { readNote } from '../notation/note';
import { inUsualUnits } from '../notation/usual-units';
import { blockTable } from './block-table';
import type { How } from './how';
import { element, escape } from './html';
import { type ImageFile, Images } from './images';
import { inspection } from './inspection';
import { imagePaths, noteHtml } from './note-html';
import { alert, glossary, signOff, titleBlock } from './sheet-parts';
import type { SheetFinding } from './sheet-findings';
import { view } from './view';

export interface Order {
  readonly text: string;
  /** The shop files in force for the note, nearest first. */
  readonly shops: readonly Shop[];
  /** Of notes whose head does not say; mm when left out. */
  readonly usualUnits?: 'mm' | 'in';
  readonly how: Omit<How, 'paper'>;
  /** Day on which the sheet is made, as it is to be printed. */
  readonly date: string;
  /** How the sheet names the note it was made from. */
  readonly file: string;
  /** Images by their path from the note's folder; see `imagesOf`. */
  readonly images: ReadonlyMap<string, ImageFile>;
  /** The style sheet, and `sha256-…` of it: the only style that the page then allows. */
  readonly styles: string;
  readonly styleHash: string;
}

export interface JobSheet {
  readonly html: string;
  /** Errors of the note, which stand at the sheet's top. */
  readonly errors: number;
  readonly findings: readonly SheetFinding[];
}

/** Paths of the images that a host should read for a note. */
export function imagesOf(text: string): readonly string[] {
  return imagePaths(bodyOf(text).body);
}

export function jobSheet(order: Order): JobSheet {
  const note = inUsualUnits(readNote(order.text), order.usualUnits ?? 'mm');
  const sheet = new Sheet();
  sheet.update(note, order.shops);
  const how: How = { ...order.how, paper: true };
  const seen = view(sheet, how);
  const blocks = new Map(note.blocks.map((block) => [block.fenceLine, block]));
  const images = new Images(order.images);
  const { body, bodyLine } = bodyOf(order.text);
  const text = noteHtml(body, bodyLine, {
    images,
    fence: (line) => {
      const block = blocks.get(line);
      return block && block.word !== 'signed' ? blockTable(block, seen) : null;
    },
  });
  const findings = sheet.findings();
  const job = sheet.job();
  const title = [job.get('job'), job.get('part')].filter((it) => it !== undefined && it !== '').join(' · ');
  const html = page(
    title === '' ? order.file : title,
    order,
    titleBlock(job, order),
    alert(findings, images.findings),
    element('main', {}, text),
    inspection(seen),
    glossary(body, seen),
    signOff(),
  );
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  return { html, errors, findings: images.findings };
}

function page(title: string, { styles, styleHash }: Order, ...inner: readonly string[]): string {
  const policy = [
    "default-src 'none'",
    'img-src data:',
    `style-src '${styleHash}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const head = [
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${escape(policy)}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="referrer" content="no-referrer">',
    '<meta name="color-scheme" content="light dark">',
    element('title', {}, escape(title)),
    `<style>${styles}</style>`,
  ];
  return `<!doctype html>\n<html lang="en">\n<head>\n${head.join('\n')}\n</head>\n<body class="sheet">\n${inner.join('\n')}\n</body>\n</html>\n`;
}

/** The note without its front matter, lines ended by `\n`, and the line it begins at. */
function bodyOf(text: string): { readonly body: string; readonly bodyLine: number } {
  const lines = text.replace(/\r\n?/g, '\n').split('\n');
  const { bodyLine } = cutFrontMatter(lines);
  return { body: lines.slice(bodyLine).join('\n'), bodyLine };
}
