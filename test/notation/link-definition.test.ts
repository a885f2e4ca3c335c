/** Where link definitions end, against the library's own helpers, which also read what the address says. */
import fc from 'fast-check';
import parseLinkDestination from 'markdown-it/lib/helpers/parse_link_destination.mjs';
import parseLinkTitle from 'markdown-it/lib/helpers/parse_link_title.mjs';
import { expect, it } from 'vitest';
import { linkDestinationAt, linkTitleAt } from '../../src/notation/link-definition';

const FIXED = [
  '<a>',
  '<a',
  '<a\\>b>',
  '<a\\',
  '<a<b>',
  '<a\n>',
  '<>',
  'a b',
  'a\tb',
  'a\u007fb',
  'a\\ b',
  'a\\(b',
  'a\\)b',
  'a\\)',
  'a!b',
  '<a\\>',
  '"a\\"',
  'a\\',
  '(a)',
  '(a))b',
  '(a',
  ')',
  '',
  'a',
  ' a',
  `${'('.repeat(32)}${')'.repeat(32)}`,
  `${'('.repeat(33)}${')'.repeat(33)}`,
  '"a"',
  "'a'",
  '(a)',
  '(a(b)',
  '"a(b"',
  '"a\\"b"',
  '"a\\',
  '"a',
  '""',
  '"',
  '\'a"',
  'x"a"',
];
const piece = fc.constantFrom(...'<>()\\"\' \nab\t\u007f'.split(''), '\\)', '((', '))');
const anyText = fc.array(piece, { maxLength: 20 }).map((pieces) => pieces.join(''));

/** Wrapped so that neither the beginning nor the end of the text is that of what is read. */
function same(text: string): void {
  for (const after of ['>', '"', "'", ')']) sameBefore(text, after);
}

function sameBefore(text: string, after: string): void {
  const [whole, end] = [`<"${text}${after}`, 2 + text.length];
  const address = parseLinkDestination(whole, 2, end);
  expect([text, linkDestinationAt(whole, 2, end)]).toMatchObject([
    text,
    { ok: address.ok, pos: address.pos },
  ]);
  const first = parseLinkTitle(whole, 2, end);
  const title = linkTitleAt(whole, 2, end);
  const place = ({ ok, pos, can_continue, marker }: typeof title) => ({ ok, pos, can_continue, marker });
  expect([text, place(title)]).toEqual([text, place(first)]);
  // The parser goes on to the next line with the answer for the one above.
  if (first.can_continue)
    for (const next of [text, `${text}"`, `a)${text}`])
      expect([text, next, place(linkTitleAt(next, 0, next.length, title))]).toEqual([
        text,
        next,
        place(parseLinkTitle(next, 0, next.length, first)),
      ]);
  if (title.ok) expect(title.str).not.toBe('');
  else expect(title.str).toBe('');
}

it.each(FIXED)('%j', (text) => {
  same(text);
});

it('end where the library sees their ends', () => {
  fc.assert(fc.property(anyText, same), { numRuns: 2000 });
});
