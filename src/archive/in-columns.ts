/** The tables of a markdown page with their columns under each other, for who reads the page as text. */

/** A column is not made wider than this by one long text. */
const WIDEST = 60;

export function inColumns(page: string): string {
  const lines = page.split('\n');
  const made: string[] = [];
  for (let i = 0; i < lines.length;) {
    let end = i;
    while (lines[end]?.startsWith('|')) end++;
    if (end === i) made.push(lines[i++] ?? '');
    else {
      made.push(...table(lines.slice(i, end)));
      i = end;
    }
  }
  return made.join('\n');
}

function table(lines: readonly string[]): readonly string[] {
  const rows = lines.map((line) =>
    line
      .slice(1, -1)
      .split(/(?<!\\)\|/)
      .map((cell) => cell.trim()),
  );
  const widths = (rows[0] ?? []).map((_, i) =>
    Math.min(WIDEST, Math.max(3, ...rows.map((row) => (row[i] ?? '').length))),
  );
  return rows.map((row, at) => {
    // The line below the head is drawn as wide as its columns.
    const cells = row.map((cell, i) => cell.padEnd(widths[i] ?? 0, at === 1 ? '-' : ' '));
    return `| ${cells.join(' | ')} |`;
  });
}
