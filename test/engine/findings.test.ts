import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CATALOGUE, calculate } from '../../src/engine/index';
import { notationFindings } from '../../src/notation/findings';

interface Section {
  readonly code: string;
  readonly raises: string;
  readonly miss: string;
}

const page = readFileSync(new URL('findings.md', import.meta.url), 'utf8');
const sections: Section[] = page
  .split(/^## /m)
  .slice(1)
  .map((text) => {
    const [, raises = '', miss = ''] =
      /Raises:\n\n~~~md\n([^]*?)~~~\n\nNear miss:\n\n~~~md\n([^]*?)~~~/.exec(text) ?? [];
    return { code: text.slice(0, text.indexOf('\n')).trim(), raises, miss };
  });

const ofCode = (note: string, code: string) =>
  calculate(note)
    .findings()
    .filter((f) => f.code === code);

describe('findings of the engine, the quantities and the formulas', () => {
  it('has a section for every code that the notation does not raise', () => {
    const wanted = [...CATALOGUE.keys()].filter((code) => !Object.hasOwn(notationFindings, code));
    expect(sections.map((s) => s.code).sort()).toEqual(wanted.sort());
  });

  for (const { code, raises, miss } of sections) {
    it(`${code} is raised, and not by the near miss`, () => {
      expect(raises).not.toBe('');
      expect(miss).not.toBe('');
      expect(ofCode(raises, code).length, 'raised').toBeGreaterThan(0);
      expect(ofCode(miss, code), 'near miss').toEqual([]);
      const errors = calculate(miss)
        .findings()
        .filter((f) => f.severity === 'error');
      expect(errors, 'the near miss is a sound note').toEqual([]);
    });

    it(`${code}: its sentence is whole and each offer mends it`, () => {
      for (const finding of ofCode(raises, code)) {
        expect(finding.message).not.toMatch(/undefined|NaN|\[object|``| {2}/);
        expect(finding.message).toMatch(/[.?]$/);
        expect(finding.line).toBeLessThan(raises.split('\n').length);
        const offers = (finding.data['offers'] ?? []) as readonly string[];
        for (const offer of offers) {
          const lines = raises.split('\n');
          const line = lines[finding.line] ?? '';
          lines[finding.line] = line.slice(0, finding.column) + offer + line.slice(finding.endColumn);
          const left = ofCode(lines.join('\n'), code).filter(
            (f) => f.line === finding.line && f.column === finding.column,
          );
          expect(left, `after writing ${offer}`).toEqual([]);
        }
      }
    });
  }
});
