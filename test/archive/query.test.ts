/** How a query is read, part by part, and where the mark of what cannot be read stands. */
import { describe, expect, it } from 'vitest';
import { type Term, readQuery } from '../../src/archive/query';

/** A term in short; ends in base units, `(` and `)` where they are themselves outside. */
function short(term: Term): string {
  if (term.kind === 'word') return `word ${term.word}`;
  if (term.kind === 'field') return `${term.field} holds ${term.words}`;
  if (term.kind === 'date') return `${term.field} ${term.relation} ${term.date}`;
  const { how, name, of, low, high, lowOpen, highOpen } = term;
  const [from, to] = [low, high].map((end) => Number(end.toFixed(5)));
  return `${how ?? 'any'} ${name}, ${of}: ${lowOpen ? '(' : '['}${from ?? ''} ${to ?? ''}${highOpen ? ')' : ']'}`;
}

describe('a query', () => {
  it.each<[string, readonly string[]]>([
    ['chatter winch', ['word chatter', 'word winch']],
    ['  chatter ,winch', ['word chatter', 'word winch']],
    [', chatter,', ['word chatter']],
    ['chatter used', ['word chatter', 'word used']],
    // What shows alike is equal: half of the last digit shown, 0.001 mm.
    ['ball 20 mm', ['any ball, length: [19.9995 20.0005]']],
    ['ball = 20 mm', ['any ball, length: [19.9995 20.0005]']],
    ['ball == 20 mm', ['any ball, length: [19.9995 20.0005]']],
    ['ball 1 in', ['any ball, length: [25.39873 25.40127]']],
    ['speed 1000 rpm', ['any speed, turning speed: [999.5 1000.5]']],
    ['ball < 20 mm', ['any ball, length: [-Infinity 20)']],
    ['ball > 20 mm', ['any ball, length: (20 Infinity]']],
    ['ball <= 20 mm', ['any ball, length: [-Infinity 20.0005]']],
    ['ball ≤ 20 mm', ['any ball, length: [-Infinity 20.0005]']],
    ['ball >= 20 mm', ['any ball, length: [19.9995 Infinity]']],
    ['ball ≥ 20 mm', ['any ball, length: [19.9995 Infinity]']],
    ['ball>=20 mm', ['any ball, length: [19.9995 Infinity]']],
    ['ball >=20 mm', ['any ball, length: [19.9995 Infinity]']],
    ['Setup.Ring 1 in .. 30 mm', ['any setup.ring, length: [25.4 30]']],
    ['ball 30 mm .. 1 in', ['any ball, length: [25.4 30]']],
    ['ball = 25 mm ± 0.1', ['any ball, length: [24.9 25.1]']],
    ['ball 25 mm +0.2/-0.1 mm', ['any ball, length: [24.9 25.2]']],
    ['off = -2 mm', ['any off, length: [-2.0005 -1.9995]']],
    ['used speed > 1000 rpm', ['used speed, turning speed: (1000 Infinity]']],
    ['USED speed > 1000 rpm', ['used speed, turning speed: (1000 Infinity]']],
    ['measured pin 5 mm .. 6 mm', ['measured pin, length: [5 6]']],
    ['chatter ball 5 mm .. 6 mm', ['word chatter', 'any ball, length: [5 6]']],
    ['customer: Ostley  Ferry ', ['customer holds ostley  ferry']],
    ['Customer:ferry, status: done', ['customer holds ferry', 'status holds done']],
    ['due < 2026-12', ['due < 2026-12']],
    ['due 2026', ['due = 2026']],
    ['due = 2026-12-31', ['due = 2026-12-31']],
    ['due >= 2026', ['due >= 2026']],
    ['due == 2026', ['due = 2026']],
    ['used due > 5 mm', ['used due, length: (5 Infinity]']],
    ['chatter due ≤ 2026', ['word chatter', 'due <= 2026']],
  ])('%s', (text, wanted) => {
    const query = readQuery(text);
    expect('terms' in query ? query.terms.map(short) : query.problem.says).toEqual(wanted);
  });
});

describe('the mark of what cannot be read', () => {
  it.each([
    ['chatter, colour: red', 'colour'],
    ['chatter,  customer:', 'customer:'],
    ['chatter, ball > 20 kgs', '> 20 kgs'],
    ['ball > 20 kgs , chatter', '> 20 kgs'],
    ['used speed', ''],
    ['chatter, winch ball > fast', '> fast'],
    ['a, b, > 20 mm', '>'],
    ['a, up .. down', '..'],
    ['due < tomorrow', '< tomorrow'],
    ['x, ball > 20 mm .. 25 mm', '> 20 mm .. 25 mm'],
    ['ball 25 mm H7', '25 mm H7'],
    ['ball 25 mm to in', '25 mm to in'],
    ['ball 25 mm hole', '25 mm hole'],
    ['ball 25 mm # worn', '25 mm # worn'],
    // Commas within brackets part nothing.
    ['ball > [1, 2] mm, x', '> [1, 2] mm'],
    ['ball > max(1 mm, 2 mm), x', '> max(1 mm, 2 mm)'],
    ['a) b, ball > fast', '> fast'],
    ['used speed fast', 'fast'],
    ['x'.repeat(1001), 'x'],
  ])('%s', (text, marked) => {
    const query = readQuery(text);
    if (!('problem' in query)) throw new Error(JSON.stringify(query.terms));
    expect(text.slice(query.problem.start, query.problem.end)).toBe(marked);
  });

  it('stands nowhere in a thousand letters', () => {
    expect(readQuery('x'.repeat(1000))).toMatchObject({ terms: [{ kind: 'word' }] });
  });
});
