/** Text for a terminal: harmless, aligned, wrapped, coloured only where that was allowed. */

export type Paint = (colour: Colour, text: string) => string;
export type Colour = 'bold' | 'dim' | 'red' | 'yellow' | 'blue' | 'green';

const CODES: Readonly<Record<Colour, string>> = {
  bold: '1',
  dim: '2',
  red: '31',
  yellow: '33',
  blue: '34',
  green: '32',
};

export function painter(allowed: boolean): Paint {
  return (colour, text) => (allowed && text !== '' ? `\u001b[${CODES[colour]}m${text}\u001b[0m` : text);
}

/**
 * A note's text with control characters and those that turn the direction of writing made visible, so that no note can
 * move the cursor, change the window or show a line as another.
 */
export function harmless(text: string): string {
  // eslint-disable-next-line no-control-regex
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g, '\ufffd');
}

/** Columns side by side, each as wide as its widest cell but at most what `widest` allows; the last is left as it is. */
export function columns(rows: readonly (readonly string[])[], widest: readonly number[]): readonly string[] {
  const widths: number[] = [];
  for (const row of rows)
    row.slice(0, -1).forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, Math.min(cell.length, widest[i] ?? Infinity));
    });
  return rows.map((row) =>
    row
      .map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0)))
      .join('  ')
      .trimEnd(),
  );
}

/** Words in lines of at most `width`, every line but the first after `indent`. */
export function wrap(text: string, indent: string, width = 100): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && indent.length + line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].join(`\n${indent}`);
}
