/** Texts that a host may say in another language. */

/** `{0}` in the text stands for the first of what is put in, `{1}` for the second. */
export interface Said {
  readonly text: string;
  readonly args: readonly (string | number)[];
}

/** The text as it is gathered for translation, so it is written out where this is called. */
export function said(text: string, ...args: readonly (string | number)[]): Said {
  return { text, args };
}

/** In the words it was written in. */
export function inWords({ text, args }: Said): string {
  return text.replace(/\{(\d)\}/g, (all, index: string) => String(args[Number(index)] ?? all));
}
