/**
 * The block structure of a note, by markdown-it's own block parser: fences in lists and quotes are where every markdown
 * tool sees them. Inline text is not looked at, so the parts of the library that read it are left out.
 */
import ParserBlock from 'markdown-it/lib/parser_block.mjs';
import StateBlock from 'markdown-it/lib/rules_block/state_block.mjs';
import type { FenceToken } from './blocks';
import { linkDestinationAt, linkTitleAt } from './link-definition';

interface BlockParser {
  State: typeof StateBlock;
  parse(src: string, md: unknown, env: Env, tokens: FenceToken[]): void;
}

/** How many lines the text has at most; only for making room. */
interface Env {
  readonly lines?: number;
}

type Tail<T extends readonly unknown[]> = T extends readonly [unknown, ...infer Rest] ? Rest : never;

const SPACE = 0x20;
const TAB = 0x09;
const TAB_STOP = 4;

/**
 * The library's state over a text that ends with a line break. The library finds the lines by looking at every character;
 * only their ends and what they are indented by matter, and most of a note is lines of code.
 */
export class LineState extends StateBlock {
  constructor(src: string, ...rest: Tail<ConstructorParameters<typeof StateBlock>>) {
    super('', ...rest);
    this.src = src;
    const { bMarks, eMarks, tShift, sCount, bsCount } = this;
    // Room for all lines at once: arrays that grow step by step are copied over and over.
    const { lines = 0 } = this.env as Env;
    bMarks.length = eMarks.length = tShift.length = sCount.length = bsCount.length = lines + 1;
    let line = 0;
    for (let start = 0; start < src.length; line++) {
      let pos = start;
      let indent = 0;
      for (let c = src.charCodeAt(pos); c === SPACE || c === TAB; c = src.charCodeAt(++pos))
        indent += c === TAB ? TAB_STOP - (indent % TAB_STOP) : 1;
      bMarks[line] = start;
      const end = src.indexOf('\n', pos);
      eMarks[line] = end;
      tShift[line] = pos - start;
      sCount[line] = indent;
      bsCount[line] = 0;
      start = end + 1;
    }
    // One more, as the library has it, so that the rules may look past the last.
    bMarks[line] = eMarks[line] = src.length;
    tShift[line] = sCount[line] = bsCount[line] = 0;
    this.lineMax = line;
  }

  /** Lines outside lists and quotes stand together in the text: a fence's content need not be put together from them. */
  override getLines(begin: number, end: number, indent: number, keepLastLF: boolean): string {
    if (this.level > 0 || indent > 0 || begin >= end) return super.getLines(begin, end, indent, keepLastLF);
    return this.src.slice(this.bMarks[begin], (this.eMarks[end - 1] ?? 0) + (keepLastLF ? 1 : 0));
  }
}

const block = new ParserBlock() as unknown as BlockParser;
block.State = LineState;

/** What the block rules ask of the library's main object. */
const md = {
  options: { html: true, maxNesting: 100 },
  block,
  helpers: { parseLinkDestination: linkDestinationAt, parseLinkTitle: linkTitleAt },
  normalizeLink: (link: string): string => link,
  validateLink: (): boolean => true,
};

/**
 * The blocks of a text of so many lines. Its last line counts as ended, so that a fence's lines can be counted by its line
 * breaks.
 */
export function parseBlocks(text: string, lines: number): readonly FenceToken[] {
  const tokens: FenceToken[] = [];
  block.parse(text.endsWith('\n') ? text : `${text}\n`, md, { lines }, tokens);
  return tokens;
}
