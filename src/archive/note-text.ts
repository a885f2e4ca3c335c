/** The words of a note apart from its figures: headings, prose, and what was learnt. */
import { noteLines } from '../notation/blocks';
import { cutFrontMatter } from '../notation/front-matter';
import type { Note } from '../notation/syntax';
import type { Lesson } from './entry';

export interface NoteWords {
  readonly headings: readonly Lesson[];
  readonly lessons: readonly Lesson[];
  readonly prose: string;
}

const HEADING = /^ {0,3}#{1,6}[ \t]+(.*?)[ \t]*#*[ \t]*$/;
/** A line that begins with the word, in a list or a quote or not: `- Lesson: …`, `> **Lesson:** …`. */
const LESSON = /^[ \t]*(?:>[ \t]*)?(?:[-*+][ \t]+)?(?:\*\*)?Lesson:(?:\*\*)?[ \t]+(\S.*?)[ \t]*$/i;

/** How the note's lines end, as told by the first. */
export const lineEndOf = (text: string): string => /\r\n|[\r\n]/.exec(text)?.[0] ?? '\n';

/** The words of a note's text; lines of our fences and of the front matter are left out. */
export function parts(text: string, note: Note): NoteWords {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/);
  const hidden = new Set<number>();
  for (const block of note.blocks) for (const line of noteLines(block)) hidden.add(line);
  const { bodyLine } = cutFrontMatter(lines);
  const headings: Lesson[] = [];
  const lessons: Lesson[] = [];
  const prose: string[] = [];
  lines.forEach((line, i) => {
    if (i < bodyLine || hidden.has(i)) return;
    const heading = HEADING.exec(line)?.[1];
    if (heading) headings.push({ line: i, text: heading });
    const lesson = LESSON.exec(line)?.[1];
    if (lesson) lessons.push({ line: i, text: lesson });
    if (line.trim() !== '') prose.push(line.trim());
  });
  return { headings, lessons, prose: prose.join('\n') };
}
