/** Photos of a note, put into the sheet itself, so that it is one file. Only pictures, and only those that lie with the note. */
import { escape, element } from './html';
import type { SheetFinding } from './sheet-findings';

/** What a host found at an image's address; of a file that is too large to read, its size alone. */
export type ImageFile =
  { readonly bytes: Uint8Array } | { readonly size: number } | { readonly unreadable: string };

/** Bytes: a photo of a telephone fits, a film does not; and a sheet that a telephone still opens. */
export const MOST_IMAGE = 8_000_000;
export const MOST_IMAGES = 40_000_000;

/** What names no file beside the note: nothing, or a scheme or a host of its own. */
const ELSEWHERE = /^(?:[a-z][\w+.-]*:|[\\/]|$)/i;

/** The address as a path from the note's folder; null where it is none. */
export function localPath(address: string): string | null {
  const path = address.replace(/[?#].*$/, '');
  try {
    const plain = decodeURIComponent(path);
    return ELSEWHERE.test(plain) || plain.includes('\0') ? null : plain;
  } catch {
    return null;
  }
}

export class Images {
  private total = 0;
  readonly findings: SheetFinding[] = [];

  constructor(private readonly files: ReadonlyMap<string, ImageFile>) {}

  /** The image, or its words with what is wrong. */
  html(address: string, words: string, line: number): string {
    const path = localPath(address);
    if (path === null) return this.without('image-elsewhere', address, words, line);
    const file = this.files.get(path);
    if (!file || 'unreadable' in file) return this.without('image-missing', address, words, line);
    if ('size' in file) return this.without('image-too-large', address, words, line);
    const type = typeOf(file.bytes);
    if (type === null) return this.without('image-kind', address, words, line);
    if (file.bytes.length > MOST_IMAGE || this.total + file.bytes.length > MOST_IMAGES)
      return this.without('image-too-large', address, words, line);
    this.total += file.bytes.length;
    // Nothing in base64 needs escaping, and it is long.
    return `<img src="data:${type};base64,${base64(file.bytes)}" alt="${escape(words)}">`;
  }

  private without(code: SheetFinding['code'], address: string, words: string, line: number): string {
    this.findings.push({ code, line, data: { address } });
    return element('span', { class: 'sheet-no-image' }, `[${escape(words === '' ? address : words)}]`);
  }
}

const SIGNATURES: readonly (readonly [type: string, at: number, bytes: string])[] = [
  ['image/png', 0, '\x89PNG\r\n\x1a\n'],
  ['image/jpeg', 0, '\xff\xd8\xff'],
  ['image/gif', 0, 'GIF8'],
  ['image/webp', 8, 'WEBP'],
];

/** By its first bytes: what a file calls itself proves nothing. */
function typeOf(bytes: Uint8Array): string | null {
  const begins = ([, at, mark]: (typeof SIGNATURES)[number]): boolean =>
    [...mark].every((char, i) => bytes[at + i] === char.charCodeAt(0));
  return SIGNATURES.find(begins)?.[0] ?? null;
}

declare const btoa: (bytes: string) => string;

/** Bytes that make whole digits of base64, few enough to be arguments of one call. */
const PIECE = 3 * 2048;

export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += PIECE)
    text += btoa(String.fromCharCode(...bytes.subarray(i, i + PIECE)));
  return text;
}
