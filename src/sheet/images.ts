/** Photos of a note, put into the sheet itself, so that it is one file. Only pictures, and only those that lie with the note. */
import { escape, element } from './html';
import type { SheetFinding } from './sheet-findings';

/** What a host found at an image's address; of a file that is too large to read, its size alone. */
export type ImageFile =
  { readonly bytes: Uint8Array } | { readonly size: number } | { readonly unreadable: string };

/** Bytes: a photo of a telephone fits, a film does not; and a sheet that a telephone still opens. */
export const MOST_IMAGE = 8_000_000;
export const MOST_IMAGES = 40_000_000;

/** Whether an address names a file beside the note; anything with a scheme or a host of its own does not. */
export function isLocal(address: string): boolean {
  return !/^(?:[a-z][\w+.-]*:|[\\/]|#|$)/i.test(address);
}

/** The address as a path from the note's folder; null where it is none. */
export function localPath(address: string): string | null {
  if (!isLocal(address)) return null;
  const path = address.replace(/[?#].*$/, '');
  try {
    const plain = decodeURIComponent(path);
    return isLocal(plain) && !plain.includes('\0') ? plain : null;
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
    return element('img', { src: `data:${type};base64,${base64(file.bytes)}`, alt: words }).replace(
      '</img>',
      '',
    );
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

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

export function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const [a = 0, b, c] = [bytes[i], bytes[i + 1], bytes[i + 2]];
    const whole = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    const digit = (shift: number): string => DIGITS.charAt((whole >> shift) & 63);
    parts.push(digit(18), digit(12), b === undefined ? '=' : digit(6), c === undefined ? '=' : digit(0));
  }
  return parts.join('');
}
