/** Characters that the notation does not read: look-alikes, hidden marks, quotes, and signs that are typed another way here. */
import { isNamePart } from './characters';
import type { Scanner } from './scanner';

/** Letters of other alphabets that look like a Latin one. */
const LOOK_ALIKES: readonly (readonly [alphabet: string, letters: string, latin: string])[] = [
  ['Cyrillic', 'АВЕЅІЈКМНОРСТУХаеѕіјорсухԁһԛԝѴ', 'ABESIJKMHOPCTYXaesijopcyxdhqwV'],
  ['Greek', 'ΑΒΕΖΗΙΚΜΝΟΡΤΥΧονικρυ', 'ABEZHIKMNOPTYXovikpu'],
];

/** Signs with one clear meaning that is written another way. */
const WRITTEN = new Map<string, readonly string[]>([
  ['–', ['-', '..']],
  ['—', ['-', '..']],
  ['‐', ['-']],
  ['‑', ['-']],
  ['…', ['..']],
  ['⁄', ['/']],
  ['∕', ['/']],
  ['：', [':']],
  ['，', [',']],
  ['；', [',']],
  ['（', ['(']],
  ['）', [')']],
  ['＝', ['=']],
  ['＋', ['+']],
  ['＊', ['*']],
  ['∗', ['*']],
  ['•', ['*']],
  ['∙', ['*']],
  ['✕', ['*']],
  ['✖', ['*']],
  ['º', ['°']],
  ['˚', ['°']],
  ['℃', ['°C']],
  ['℉', ['°F']],
  ['π', ['pi']],
  ['√', ['sqrt']],
  ['≈', ['==']],
  ['⩽', ['<=']],
  ['⩾', ['>=']],
  ['∓', ['±']],
  ['⁰', ['^0']],
  ['¹', ['^1']],
  ['⁴', ['^4']],
  ['⁵', ['^5']],
  ['⁶', ['^6']],
  ['⁻', ['^-1']],
  ['{', ['(']],
  ['}', [')']],
  [';', [',']],
  ['~', ['-']],
  ['µ', ['mu']],
  ['μ', ['mu']],
  ['$', [' USD', ' AUD', ' CAD']],
  ['€', [' EUR']],
  ['£', [' GBP']],
  ['¥', [' JPY', ' CNY']],
]);

const VULGAR = new Map(
  [...'¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞'].map((sign) => [sign, sign.normalize('NFKC').replace('⁄', '/')]),
);
const MONEY = '$€£¥';
const CURLY = new Set([...'“”„‟‘’‚‛«»‹›´`ʹʺ']);

/** Marks that change how a line looks without being seen: control characters, direction and width marks. */
function isHidden(c: number): boolean {
  if (c < 0x20) return c !== 0x09;
  return (
    (c >= 0x7f && c <= 0x9f) ||
    c === 0xad ||
    (c >= 0x200b && c <= 0x200f) ||
    (c >= 0x2028 && c <= 0x202e) ||
    (c >= 0x2060 && c <= 0x206f) ||
    c === 0xfeff
  );
}

/** Marks that turn the direction of text, also of the code before a comment. */
export const TURNS_DIRECTION = /[\u202a-\u202e\u2066-\u2069]/;

export function isCurly(sign: string): boolean {
  return CURLY.has(sign);
}

/** Refuses the character at `pos` when it is no part of the notation at all; false when it is. */
export function refuseOdd(s: Scanner, pos: number): boolean {
  const c = s.at(pos);
  // What a name is made of, and `!=`, are read, or refused for where they stand.
  if (pos >= s.end || isNamePart(c) || /^!\s*=/.test(s.slice(pos, s.end))) return false;
  if (isHidden(c)) {
    let end = pos + 1;
    while (end < s.end && isHidden(s.at(end))) end++;
    s.refuse('hidden-character', pos, end, { character: codePoint(c), offers: ['', ' '] });
    return true;
  }
  const sign = String.fromCodePoint(s.text.codePointAt(pos) ?? 0);
  if (c === 0xfffd || (sign.length === 1 && c >= 0xd800 && c <= 0xdfff)) {
    s.refuse('broken-character', pos, pos + 1, { character: codePoint(c), offers: [''] });
    return true;
  }
  if (CURLY.has(sign)) {
    refuseQuote(s, pos, true);
    return true;
  }
  const vulgar = VULGAR.get(sign);
  if (vulgar !== undefined) {
    const blank = isNamePart(s.at(pos - 1)) ? ' ' : '';
    s.refuse('odd-character', pos, pos + 1, { written: sign, offers: [blank + vulgar] });
    return true;
  }
  if (MONEY.includes(sign)) {
    refuseMoney(s, pos, WRITTEN.get(sign) ?? []);
    return true;
  }
  if (/[\p{L}\p{M}\p{N}]/u.test(sign) && !WRITTEN.has(sign) && !READ.includes(sign)) {
    refuseLetter(s, pos, sign);
    return true;
  }
  const braces = /^\{([^{}]*)\}/.exec(s.slice(pos, s.end));
  if (braces) {
    s.refuse('odd-character', pos, pos + braces[0].length, {
      written: '{ }',
      offers: [`(${braces[1] ?? ''})`],
    });
    return true;
  }
  if (s.text.startsWith('⁻¹', pos)) {
    // `450 min⁻¹`: revolutions, as plates of machines have them.
    const turns = /\d\s*min$/.test(s.slice(0, pos));
    const start = turns ? pos - 'min'.length : pos;
    s.refuse('odd-character', start, pos + 2, {
      written: s.slice(start, pos + 2),
      offers: [turns ? 'rpm' : '^-1'],
    });
    return true;
  }
  const offers = WRITTEN.get(sign) ?? [];
  if (offers.length === 0 && (READ.includes(sign) || /^[ -~](?<![!?@&|\\])$/.test(sign))) return false;
  s.refuse('odd-character', pos, pos + sign.length, { written: sign, offers });
  return true;
}

/** Signs beyond the keyboard that have a place in a line; where they stand wrongly is another question. */
const READ = '×÷·⋅−Ø⌀ø²³≤≥≠°′″±';

export function codePoint(c: number): string {
  return `U+${c.toString(16).toUpperCase().padStart(4, '0')}`;
}

/** A letter that no name may hold: the whole word is marked, and the letter named. */
function refuseLetter(s: Scanner, pos: number, letter: string): void {
  const part = /[\p{L}\p{M}\p{Nd}_]/u;
  let start = pos;
  while (part.test(s.text.charAt(start - 1))) start--;
  let end = pos + letter.length;
  while (part.test(String.fromCodePoint(s.text.codePointAt(end) ?? 0))) end++;
  const written = s.slice(start, end);
  const made = latin(written);
  const like = LOOK_ALIKES.find(([, letters]) => letters.includes(letter));
  s.refuse('foreign-letter', start, end, {
    written,
    letter,
    alphabet: like?.[0] ?? '',
    latin: latin(letter),
    offers: [made],
  });
}

/** The word in letters that a name may hold, as far as there are any that look the same. */
function latin(word: string): string {
  let out = '';
  for (const letter of word.normalize('NFC')) {
    const found = LOOK_ALIKES.find(([, letters]) => letters.includes(letter));
    out += found ? found[2].charAt([...found[1]].indexOf(letter)) : letter.normalize('NFKC');
  }
  return out;
}

/** `€85`, `85 €`: money is told by its ISO 4217 code after the amount. */
function refuseMoney(s: Scanner, pos: number, codes: readonly string[]): void {
  const after = /^[\s\u00a0]*([\d.]+)/.exec(s.slice(pos + 1, s.end));
  if (after) {
    const end = pos + 1 + after[0].length;
    const offers = codes.map((code) => `${after[1] ?? ''}${code}`);
    s.refuse('odd-character', pos, end, { written: s.slice(pos, end), offers });
    return;
  }
  s.refuse('odd-character', pos, pos + 1, { written: s.slice(pos, pos + 1), offers: codes });
}

/** A quote where none is read: curly, apart from its number, or for feet. */
export function refuseQuote(s: Scanner, pos: number, curly: boolean): null {
  const before = s.slice(0, pos);
  const number = /(\d+(?:[./]\d+)*|°\s*\d+(?:\.\d+)?(?:['′]\s*\d+(?:\.\d+)?)?)([\s\u00a0]*)$/.exec(before);
  const written = s.slice(pos, pos + 1);
  const doubled = /["”“„‟»«″ʺ]/.test(written) || s.at(pos + 1) === s.at(pos);
  const end = doubled && !/["”“„‟»«″ʺ]/.test(written) ? pos + 2 : pos + 1;
  const data = { written, curly };
  if (!number) {
    // `"30 mm"`: what is between a pair of them may be right.
    const pair = /^["'“”„‟‘’‚‛«»‹›´`](.*?)["'“”„‟‘’‚‛«»‹›´`]/.exec(s.slice(pos, s.end));
    if (!pair) return s.refuse('quote-mark', pos, end, { ...data, offers: [''] });
    return s.refuse('quote-mark', pos, pos + pair[0].length, { ...data, offers: [(pair[1] ?? '').trim()] });
  }
  const [, amount = '', blanks = ''] = number;
  const gap = pos - blanks.length;
  if (amount.startsWith('°')) {
    const seconds = doubled
      ? null
      : /^[\s\u00a0]*(\d+(?:\.\d+)?)[\s\u00a0]*(?:["”“″ʺ]|['’´ʹ]{2})/.exec(s.slice(end, s.end));
    if (seconds)
      return s.refuse('quote-mark', gap, end + seconds[0].length, {
        ...data,
        offers: [`′${seconds[1] ?? ''}″`],
      });
    return s.refuse('quote-mark', gap, end, { ...data, offers: [doubled ? '″' : '′'] });
  }
  if (doubled) {
    const seconds = /[/]/.test(amount) || curly ? [] : [' arcsec'];
    return s.refuse('quote-mark', gap, end, { ...data, offers: ['"', ' in', ...seconds] });
  }
  // `6'` and `6'2"`: feet, or minutes without their degrees.
  const start = gap - amount.length;
  const inches = /^[\s\u00a0]*(\d+(?:\.\d+)?|\d+[ -]\d+\/\d+|\d+\/\d+)[\s\u00a0]*(?:["”″]|''|’’)/.exec(
    s.slice(end, s.end),
  );
  if (inches) {
    const last = end + inches[0].length;
    const rest = (inches[1] ?? '').replace('-', ' ');
    const offers = [`${amount} ft ${rest} in`, `0°${amount}′${rest}″`];
    return s.refuse('quote-mark', start, last, { ...data, written: s.slice(start, last), offers });
  }
  const offers = [`${amount} ft`, `${amount} arcmin`];
  return s.refuse('quote-mark', start, end, { ...data, written: s.slice(start, end), offers });
}
