/**
 * Call-outs of threads and tapers, as drawings write them: `M30x1.5-6g`, `3/8-16 UNC-2A`, `1:10`. They stand as one name,
 * which a formula reads as it stands; a plain `M10` is a name like any other.
 */
import { isDigit, skipBlanks } from './characters';
import type { Scanner } from './scanner';
import type { NameNode } from './syntax';

const INCH = /(?:\d+ )?\d+(?:\/\d+|\.\d+)?-\d+(?:\.\d+)? ?UN[A-Z]*(?:-\d[AB])?/y;
const METRIC = /M\d+(?:\.\d+)?(?:x\d+(?:\.\d+)?)?(?:-\d[efghEFGH](?:\d[efghEFGH])?)?/y;
const POINT = 0x2e;
const COLON = 0x3a;

/** A taper: `1:10`, `1:19.212`, `7:24`. Few digits, since a longer number is no taper and costs nothing this way. */
const TAPER = /[1-9]\d{0,2}:(?!0+(?:\.0+)?(?![\d.]))\d{1,4}(?:\.\d{1,4})?(?![\w.:])/y;
const NEARLY_TAPER = /(\d[\d.]*)\s*:\s*(\d[\w.:]*)/y;

/** The inch thread that begins at `start`, in the place of whatever was read or refused there; null for none. */
export function inchCallout(s: Scanner, start: number): NameNode | null {
  INCH.lastIndex = start;
  const found = INCH.exec(s.text);
  if (!found) return null;
  if (s.finding !== null && s.finding.start < start) return null;
  s.finding = null;
  return callout(s, start, start + found[0].length);
}

/** The metric thread that begins at `start`, where a name ends at `end`; undefined when the name is all there is. */
export function metricCallout(s: Scanner, start: number, end: number): NameNode | null | undefined {
  METRIC.lastIndex = start;
  METRIC.test(s.text);
  const last = METRIC.lastIndex;
  if (last > end) return callout(s, start, last);
  const pitch = /^×(\d+(?:\.\d+)?)/.exec(s.slice(end, s.end));
  if (!pitch || !/^M\d+$/.test(s.slice(start, end))) return undefined;
  const [name, size] = [s.slice(start, end), pitch[1] ?? ''];
  const stop = end + pitch[0].length;
  const offers = [`${name}x${size}`, `${name} * ${size}`];
  return s.refuse('thread-or-product', start, stop, { written: s.slice(start, stop), offers });
}

/**
 * The taper that an argument at `start` is; null when it is refused, undefined when no colon is there. Only arguments are
 * tapers: elsewhere `1:10` could be a division as well.
 */
export function taperCallout(s: Scanner, start: number): NameNode | null | undefined {
  let colon = start;
  while (isDigit(s.at(colon)) || s.at(colon) === POINT) colon++;
  if (s.at(skipBlanks(s.text, colon)) !== COLON) return undefined;
  TAPER.lastIndex = NEARLY_TAPER.lastIndex = start;
  const found = TAPER.exec(s.text);
  if (found) return callout(s, start, start + found[0].length);
  const [written, over = '', under = ''] = NEARLY_TAPER.exec(s.text) ?? [];
  if (written === undefined) return undefined;
  const taper = `${over}:${under}`;
  const offers = [taper, `${over} / ${under}`];
  return s.refuse('taper-or-quotient', start, start + written.length, { written, offers });
}

function callout(s: Scanner, start: number, end: number): NameNode {
  s.pos = end;
  return { kind: 'name', start, end, name: s.slice(start, end), callout: true };
}
