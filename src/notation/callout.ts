/**
 * Call-outs of threads, as drawings write them: `M30x1.5-6g`, `3/8-16 UNC-2A`. They stand as one name, which a formula
 * reads as it stands; a plain `M10` is a name like any other.
 */
import type { Scanner } from './scanner';
import type { NameNode } from './syntax';

const INCH = /(?:\d+ )?\d+(?:\/\d+|\.\d+)?-\d+ ?UN[A-Z]*(?:-\d[AB])?/y;
const METRIC = /M\d+(?:\.\d+)?(?:x\d+(?:\.\d+)?)?(?:-\d[efghEFGH](?:\d[efghEFGH])?)?/y;
const TIMES = 0xd7;

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
  const last = start + (METRIC.exec(s.text)?.[0].length ?? 0);
  if (last > end) return callout(s, start, last);
  const pitch = /^×(\d+(?:\.\d+)?)/.exec(s.slice(end, s.end));
  if (!pitch || s.at(end) !== TIMES || !/^M\d+$/.test(s.slice(start, end))) return undefined;
  const [name, size] = [s.slice(start, end), pitch[1] ?? ''];
  const stop = end + pitch[0].length;
  const offers = [`${name}x${size}`, `${name} * ${size}`];
  return s.refuse('thread-or-product', start, stop, { written: s.slice(start, stop), offers });
}

function callout(s: Scanner, start: number, end: number): NameNode {
  s.pos = end;
  return { kind: 'name', start, end, name: s.slice(start, end), callout: true };
}
