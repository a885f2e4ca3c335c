/** What can be wrong with a sheet that is not wrong with its note. */

export interface SheetFinding {
  readonly code: 'image-elsewhere' | 'image-missing' | 'image-kind' | 'image-too-large';
  /** The note's line, from 0. */
  readonly line: number;
  readonly data: { readonly address: string };
}

const SAY: Readonly<Record<SheetFinding['code'], (address: string) => string>> = {
  'image-elsewhere': (address) =>
    `The image \`${address}\` is not a file beside the note, so it is not on the sheet. Copy it into the note's folder.`,
  'image-missing': (address) =>
    `The image \`${address}\` cannot be read in the note's folder or below, so it is not on the sheet.`,
  'image-kind': (address) =>
    `\`${address}\` is no PNG, JPEG, GIF or WebP, so it is not on the sheet. Save it as one of these.`,
  'image-too-large': (address) =>
    `The image \`${address}\` makes the sheet too large to open on a telephone: an image may have 8 MB, all of a note 40 MB.`,
};

export function sentence({ code, data }: SheetFinding): string {
  return SAY[code](data.address);
}
