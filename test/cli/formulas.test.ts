import { describe, expect, it } from 'vitest';
import { formulas } from '../../src/hosts/cli/formulas';
import { allFormulas } from '../../src/trade/index';
import { world } from './folder';
import { valid } from './schema';

interface Listed {
  formulas: {
    name: string;
    parameters: { name: string; dimension: string | null; unit: string | null; optional: boolean }[];
    result: { name: string | null; dimension: string | null }[];
    source: string;
    checks: { call: string; expect: { name: string | null; value: unknown; unit: string | null }[] }[];
  }[];
}

function printed(json: boolean): string {
  const io = world('/');
  expect(formulas(json, io)).toBe(0);
  expect(io.printed.err).toBe('');
  return io.printed.out;
}

describe('formulas --json', () => {
  const listed = valid<Listed>('formulas', printed(true)).formulas;

  it('lists every formula once', () => {
    expect(listed.map((it) => it.name)).toEqual(allFormulas().map((it) => it.name));
    expect(new Set(listed.map((it) => it.name)).size).toBe(listed.length);
  });

  it('tells a parameter whole', () => {
    const ball = listed.find((it) => it.name === 'ball_on_shank');
    expect(ball?.parameters).toMatchObject([
      { name: 'ball', dimension: 'length', unit: 'mm', optional: false },
      { name: 'neck', dimension: 'length', unit: 'mm', optional: false },
      { name: 'fillet', dimension: 'length', unit: 'mm', optional: true },
      { name: 'nose_radius', dimension: 'length', unit: 'mm', optional: true },
    ]);
    expect(ball?.result.map((field) => field.name)).toEqual(['tilt', 'ring', 'height', 'neck_to_end']);
    expect(ball?.source).not.toBe('');
    expect(ball?.checks.length).toBeGreaterThan(0);
  });

  it('knows the dimension of every unit it names, and gives every expected figure its unit', () => {
    for (const formula of listed) {
      for (const it of [...formula.parameters, ...formula.result])
        if ('unit' in it && it.unit !== null)
          expect([formula.name, it.name, it.dimension]).not.toContain(null === it.dimension);
      for (const { expect: expected } of formula.checks)
        for (const { name } of expected) expect(formula.result.map((field) => field.name)).toContain(name);
    }
  });
});

describe('formulas for reading', () => {
  const text = printed(false);

  it('shows each with what it takes, gives, holds for and is checked by', () => {
    for (const { name, title } of allFormulas()) {
      expect(text).toContain(`${name}(`);
      expect(text.replace(/\s+/g, ' ')).toContain(title);
    }
    expect(text).toContain('ball_on_shank(ball, neck, fillet?, nose_radius?)');
    expect(text).toContain('holds where');
    expect(text).toContain('checked');
  });

  it('keeps to the width of a terminal', () => {
    const long = text.split('\n').filter((line) => line.length > 130);
    expect(long).toEqual([]);
  });
});
