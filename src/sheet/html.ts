/** Building HTML from text that may hold anything. */
import { isolated } from '../engine/index';

const ESCAPES = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
  ["'", '&#39;'],
]);

/** Marks that turn the direction of text round, so that it reads otherwise than it is stored. They are shown instead. */
const TURNING = /[\u202a-\u202e\u2066-\u2069]/g;

export function plain(text: string): string {
  return text.replace(TURNING, (mark) => `[U+${mark.charCodeAt(0).toString(16).toUpperCase()}]`);
}

export function escape(text: string): string {
  return plain(text).replace(/[&<>"']/g, (char) => ESCAPES.get(char) ?? '');
}

export type Attributes = Readonly<Record<string, string | number | null>>;

/** An element. `inner` is HTML already; attributes are text and are escaped, those that are null are left out. */
export function element(name: string, attributes: Attributes, ...inner: readonly string[]): string {
  const written = Object.entries(attributes)
    .map(([key, value]) => (value === null ? '' : ` ${key}="${escape(String(value))}"`))
    .join('');
  return `<${name}${written}>${inner.join('')}</${name}>`;
}

/** Text of ours that may quote a note: words from right to left in it leave the rest in its order. */
export function mixed(text: string): string {
  return isolated(escape(text), '<bdi>', '</bdi>');
}

/** The same with what stands in backticks as code. */
export function prose(text: string): string {
  return mixed(text).replace(/`([^`]+)`/g, '<code>$1</code>');
}
