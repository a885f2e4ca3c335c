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
  parse(src: string, md: unknown, env: object, tokens: FenceToken[]): void;
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
    // Five numbers for a line, as the library has them. Its own arrays would be half of what reading a long note leaves to
    // be cleared away.
    const room = (): number[] => new Int32Array(lines) as ArrayLike<number> as number[];
    let lines = 1;
    for (let at = src.indexOf('\n'); at !== -1; at = src.indexOf('\n', at + 1)) lines++;
    const bMarks = (this.bMarks = room());
    const eMarks = (this.eMarks = room());
    const tShift = (this.tShift = room());
    const sCount = (this.sCount = room());
    this.bsCount = room();
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
      start = end + 1;
    }
    // One more, as the library has it, so that the rules may look past the last.
    bMarks[line] = eMarks[line] = src.length;
    this.lineMax = line;
  }

  /** Lines outside lists and quotes stand together in the text: a fence's content need not be put together from them. */
  override getLines(begin: number, end: number, indent: number, keepLastLF: boolean): string {
    if (this.level > 0 || indent > 0) return super.getLines(begin, end, indent, keepLastLF);
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

/** The blocks of a text. Its last line counts as ended, so that a fence's lines can be counted by its line breaks. */
export function parseBlocks(text: string): readonly FenceToken[] {
  const tokens: FenceToken[] = [];
  block.parse(text.endsWith('\n') ? text : `${text}\n`, md, {}, tokens);
  return tokens;
}
