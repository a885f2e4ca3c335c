import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { add, divide, power, subtract } from '../../src/quantity/arithmetic';
import { convert } from '../../src/quantity/convert';
import { quantityFindings } from '../../src/quantity/findings';
import { isoLimits } from '../../src/quantity/iso286';
import { MATHEMATICS } from '../../src/quantity/mathematics';
import { unit } from '../../src/quantity/units';
import { type Fault, isFault } from '../../src/quantity/value';
import { q } from './make';

const ROOM = new URL('../../src/quantity/', import.meta.url);

function say(made: object | Fault): string {
  if (!('kind' in made) || !isFault(made as { kind: string })) return expect.fail('no fault');
  const { code, data } = made as Fault;
  return quantityFindings[code]?.say(data) ?? expect.fail(code);
}

describe('findings', () => {
  it('have a sentence for every code the room raises, and no more', () => {
    const raised = new Set<string>();
    for (const name of readdirSync(ROOM)) {
      const text = readFileSync(new URL(name, ROOM), 'utf8');
      for (const [, inside = ''] of text.matchAll(/\bfault\(([^,)]*)/g))
        for (const [, code = ''] of inside.matchAll(/'([a-z0-9-]+)'/g)) raised.add(code);
    }
    expect([...raised].sort()).toEqual(Object.keys(quantityFindings).sort());
  });

  it('say what is wrong and what to write', () => {
    const sin = MATHEMATICS.get('sin');
    const said = [
      say(add(q(10, 'mm'), q(1))),
      say(add(q(200, 'mm'), q(5, '%'))),
      say(convert(q(450, 'rpm'), unit('kg'))),
      say(convert({ ...q(1, 'N*m*rev/min') }, unit('W'))),
      say(convert(q(1, 'mm*deg'), unit('mm'))),
      say(sin?.compute([q(30)]) ?? {}),
      say(isoLimits(600, 'H7')),
      say(isoLimits(25, 'T7')),
      say(divide(q(1), q(0))),
      say(power(q(2, 'mm'), q(0.5))),
      say(subtract(q(1, 'AUD'), q(1, 'NZD'))),
    ];
    expect(said).toMatchInlineSnapshot(`
      [
        "Here a length meets a plain number, but \`+\` needs two of one kind. Give both the same kind of unit.",
        "A percentage cannot stand beside \`+\`: percent of what? Multiply instead: \`200 mm * 105%\`.",
        "A turning speed cannot be shown in \`kg\`, which is a unit for a mass. Write a unit for a turning speed after \`to\`.",
        "A power × turn shown in \`W\` would have a turn lost. Use the formula \`shaft_power\`.",
        "A length × angle shown in \`mm\` would have an angle lost. Use the formula \`arc_length\`.",
        "\`sin\` takes an angle with its unit. Write \`30°\` or \`0.5 rad\`.",
        "\`H7\`: the table is for sizes above 0 up to 500 mm, and this is 600 mm. Write the limits themselves: \`+0.1/0 mm\`.",
        "\`T7\`: the table has no \`T\`. It has D E F G H JS K M N P R S. Write one of these, or the limits themselves: \`+0.02/-0.01 mm\`.",
        "This divides by zero. Check the figures under the line: one of them, or a difference of two, is 0.",
        "This power leaves a unit with a broken exponent. Write a whole number, or one that divides the unit: \`(9 mm^2)^0.5\`.",
        "Here money in AUD meets money in NZD, but \`-\` needs two of one kind. Give both the same kind of unit.",
      ]
    `);
  });

  it('take up what the engine adds', () => {
    const data = {
      operator: '+',
      left: 'length',
      right: 'plain number',
      leftText: '10 mm',
      rightText: '1',
      offers: ['10 mm + 1 mm'],
    };
    expect(quantityFindings['unit-mismatch']?.say(data)).toBe(
      '`10 mm` is a length and `1` is a plain number, but `+` needs two of one kind. Write `10 mm + 1 mm`.',
    );
    expect(quantityFindings['angle-needed']?.say({ function: 'sin', offers: ['30°', '30 rad'] })).toBe(
      '`sin` takes an angle with its unit. Write `30°` or `30 rad`.',
    );
  });

  it('never leave a gap where data is missing', () => {
    for (const [code, kind] of Object.entries(quantityFindings)) {
      expect(kind.severity, code).toBe('error');
      expect(kind.why, code).toMatch(/^[A-Z].*\.$/s);
      const sentence = kind.say({});
      expect(sentence, code).not.toMatch(/undefined|null|\[object|NaN(?! mm|\.)/);
      expect(sentence, code).toMatch(/\.$/);
    }
  });
});
