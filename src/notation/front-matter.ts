/** The YAML front matter of a note: `job: 0815`, each field as the text that stands there. */
import { MAX_FRONT_DEPTH, MAX_FRONT_MATTER } from './caps';
import type { FrontField, NoteFinding } from './syntax';

declare const require: (id: string) => unknown;

/** A note's lines with the front matter found among them. */
export interface CutFrontMatter {
  /** The note's line after the front matter; 0 without one. */
  readonly bodyLine: number;
  /** The lines between the marks, without them; they begin in the note's line 1. Null without front matter. */
  readonly lines: readonly string[] | null;
  /** True when it begins and never ends. */
  readonly open: boolean;
}

interface FrontMatter {
  readonly front: ReadonlyMap<string, FrontField>;
  readonly findings: readonly NoteFinding[];
}

const MARK = /^---[ \t]*$/;
const NO_FRONT_MATTER: CutFrontMatter = { bodyLine: 0, lines: null, open: false };

export function cutFrontMatter(lines: readonly string[]): CutFrontMatter {
  const first = lines[0] ?? '';
  if (!MARK.test(first.charCodeAt(0) === 0xfeff ? first.slice(1) : first)) return NO_FRONT_MATTER;
  for (let line = 1; line < lines.length; line++)
    if (MARK.test(lines[line] ?? '')) return { bodyLine: line + 1, lines: lines.slice(1, line), open: false };
  // A note may also begin with a rule; only what looks like a field tells that front matter was meant.
  const meant = /^(job|customer|part|drawing|revision|quantity|material|due|status|units|repeat_of)\s*:/;
  return { ...NO_FRONT_MATTER, open: meant.test(lines[1] ?? '') };
}

type Yaml = typeof import('yaml');
type YamlNode = import('yaml').Node;

/** Most notes of a folder are read without need for the library. */
function yaml(): Yaml {
  return require('yaml') as Yaml;
}

const FIRST_LINE = 1;
const UNITS = ['mm', 'in'];

/** The front matter read last: while a note is typed in, it is most often the same again. */
let last: { readonly text: string; readonly read: FrontMatter } | null = null;

export function readFrontMatter(cut: CutFrontMatter): FrontMatter {
  const { lines } = cut;
  const mark = (code: string, data: NoteFinding['data']): FrontMatter => ({
    front: new Map(),
    findings: [{ code, line: 0, start: 0, end: 3, data }],
  });
  if (cut.open) return mark('front-matter-open', { offers: [] });
  if (lines === null) return { front: new Map(), findings: [] };
  const text = lines.join('\n');
  if (text.length > MAX_FRONT_MATTER) return mark('front-matter-too-long', { most: MAX_FRONT_MATTER });
  if (isDeep(text, lines)) return mark('front-matter-unreadable', { reason: 'it is nested too deeply.' });
  if (last?.text !== text) last = { text, read: readFields(text, lines) };
  return last.read;
}

/**
 * Whether fields may stand within fields deeper than anybody writes. Looked at before the library reads it, since that
 * calls itself for each level, and a regular expression that is first used where little of the stack is left ends the
 * whole process: nothing can catch that. Each level costs a bracket, a mark such as `- ` or `a: `, or a blank before it.
 */
function isDeep(text: string, lines: readonly string[]): boolean {
  if ((text.match(/[[{]/g) ?? []).length > MAX_FRONT_DEPTH) return true;
  return lines.some((line) => {
    const marks = line.match(/[-?:](?=\s|$)/g) ?? [];
    return marks.length > MAX_FRONT_DEPTH || line.length - line.trimStart().length > MAX_FRONT_DEPTH;
  });
}

interface Position {
  readonly line: number;
  readonly column: number;
}

function readFields(text: string, lines: readonly string[]): FrontMatter {
  const front = new Map<string, FrontField>();
  const findings: NoteFinding[] = [];
  const { LineCounter, isAlias, isMap, isScalar, parseDocument } = yaml();
  const counter = new LineCounter();
  const document = parseDocument(text, {
    schema: 'failsafe',
    // Tags of the other schemas are not known either: all is text.
    resolveKnownTags: false,
    lineCounter: counter,
    prettyErrors: false,
    uniqueKeys: false,
    logLevel: 'silent',
  });
  const place = (offset: number): Position => {
    const { line, col } = counter.linePos(offset);
    return { line: line - 1 + FIRST_LINE, column: col - 1 };
  };
  /** Where something that begins at `start` ends in its own line. */
  const endColumn = (start: Position, end: Position): number =>
    end.line === start.line ? end.column : (lines[start.line - FIRST_LINE] ?? '').length;
  const refuse = (code: string, from: number, to: number, data: NoteFinding['data']): void => {
    const [start, end] = [place(from), place(Math.max(to, from))];
    const { length } = lines[start.line - FIRST_LINE] ?? '';
    const first = Math.min(start.column, Math.max(0, length - 1));
    const last = Math.min(length, Math.max(endColumn(start, end), first + 1));
    findings.push({ code, line: start.line, start: first, end: last, data });
  };
  const error = document.errors[0];
  if (error) refuse('front-matter-unreadable', error.pos[0], error.pos[1], { reason: error.message });
  const { contents } = document;
  // Words between two rules are no fields; nothing is wrong with them.
  if (!isMap(contents)) return { front, findings };
  for (const pair of contents.items) {
    const { key } = pair;
    const value = pair.value as YamlNode | null;
    if (!isScalar(key) || !key.range) {
      const range = (key as YamlNode | null)?.range ?? [0, 0];
      refuse('front-matter-not-text', range[0], range[1], { field: '' });
      continue;
    }
    const name = String(key.value);
    const target = isAlias(value) ? value.resolve(document) : value;
    if (value !== null && !isScalar(target)) {
      const range = value.range ?? key.range;
      refuse('front-matter-not-text', range[0], range[1], { field: name });
      continue;
    }
    if (front.has(name)) {
      refuse('front-matter-twice', key.range[0], key.range[1], { field: name });
      continue;
    }
    const words = isScalar(target) ? String(target.value) : '';
    const range = value?.range ?? ([key.range[1], key.range[1]] as const);
    const [start, end] = [place(range[0]), place(range[1])];
    if (name === 'units' && !UNITS.includes(words)) {
      refuse('front-matter-units', range[0], range[1], { written: words, offers: UNITS });
      continue;
    }
    const { line, column } = start;
    front.set(name, { key: name, text: words, line, column, endColumn: endColumn(start, end) });
  }
  return { front, findings };
}
