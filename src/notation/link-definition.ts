/**
 * Link definitions (`[label]: <address> "title"`), as far as the block parser asks: whether there is one and where it
 * ends. What an address or title says is of no interest here, which keeps the library's table of HTML entities out.
 */

interface Found {
  readonly ok: boolean;
  readonly pos: number;
  readonly str: string;
}

interface FoundTitle extends Found {
  readonly can_continue: boolean;
  /** Closing character. */
  readonly marker: number;
}

const NOT_FOUND: Found = { ok: false, pos: 0, str: '' };
/** CommonMark's own limit for brackets in an address. */
const MAX_BRACKETS = 32;
const BACKSLASH = 0x5c;
const OPEN = 0x28;
const CLOSE = 0x29;

function found(pos: number): Found {
  return { ok: true, pos, str: '' };
}

/** The address from `start`, in `<>` or up to a blank with its round brackets in pairs. */
export function linkDestinationAt(text: string, start: number, end: number): Found {
  if (text[start] === '<') return inAngles(text, start, end);
  let open = 0;
  let pos = start;
  for (; pos < end; pos++) {
    const c = text.charCodeAt(pos);
    if (c <= 0x20 || c === 0x7f) break;
    if (c === BACKSLASH && pos + 1 < end) {
      // A backslash before a blank is a character like any other.
      if (text[pos + 1] !== ' ') pos++;
    } else if (c === OPEN) {
      if (++open > MAX_BRACKETS) return NOT_FOUND;
    } else if (c === CLOSE && open-- === 0) {
      open = 0;
      break;
    }
  }
  return pos === start || open !== 0 ? NOT_FOUND : found(pos);
}

function inAngles(text: string, start: number, end: number): Found {
  for (let pos = start + 1; pos < end; pos++) {
    const c = text[pos];
    if (c === '>') return found(pos + 1);
    if (c === '<' || c === '\n') return NOT_FOUND;
    if (c === '\\') pos++;
  }
  return NOT_FOUND;
}

/** The title from `start`; `before` is the answer for the line above when it went on past that line's end. */
export function linkTitleAt(text: string, start: number, end: number, before?: FoundTitle): FoundTitle {
  let pos = start;
  let marker = before?.marker ?? 0;
  const answer = (ok: boolean, can_continue: boolean): FoundTitle => ({
    ok,
    can_continue,
    pos: ok ? pos + 1 : 0,
    // A title that is not empty, or the parser would not try again without what stands after it.
    str: ok ? 'title' : '',
    marker,
  });
  if (!before) {
    const c = pos < end ? text.charCodeAt(pos++) : 0;
    if (c !== 0x22 && c !== 0x27 && c !== OPEN) return answer(false, false);
    marker = c === OPEN ? CLOSE : c;
  }
  for (; pos < end; pos++) {
    const c = text.charCodeAt(pos);
    if (c === marker) return answer(true, false);
    if (c === OPEN && marker === CLOSE) return answer(false, false);
    if (c === BACKSLASH) pos++;
  }
  return answer(false, true);
}
