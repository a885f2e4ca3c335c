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

const DIGITS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'].map((digit) =>
  digit.charCodeAt(0),
);
const PADDING = '='.charCodeAt(0);

/** A multiple of four characters, few enough to be arguments of one call. */
const PIECE = 8192;

export function base64(bytes: Uint8Array): string {
  const out = new Uint8Array(Math.ceil(bytes.length / 3) * 4);
  for (let i = 0, o = 0; i < bytes.length; i += 3, o += 4) {
    const whole = ((bytes[i] ?? 0) << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    for (let digit = 0; digit < 4; digit++) out[o + digit] = DIGITS[(whole >> (18 - 6 * digit)) & 63] ?? 0;
  }
  for (let missing = (3 - (bytes.length % 3)) % 3; missing > 0; missing--)
    out[out.length - missing] = PADDING;
  const pieces: string[] = [];
  for (let i = 0; i < out.length; i += PIECE) pieces.push(String.fromCharCode(...out.subarray(i, i + PIECE)));
  return pieces.join('');
}
