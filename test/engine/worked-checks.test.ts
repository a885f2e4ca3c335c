/** Every formula's worked checks as a machinist would write them: in the notation, through the whole engine. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { fromBase } from '../../src/quantity/unit';
import { unit } from '../../src/quantity/units';
import { allFormulas } from '../../src/trade/index';

const shop = readFileSync(new URL('../data/shop.md', import.meta.url), 'utf8');

for (const formula of allFormulas()) {
  describe(formula.name, () => {
    it('has at least two checks', () => expect(formula.checks.length).toBeGreaterThanOrEqual(2));
    for (const { call, expect: wanted, tolerance, source } of formula.checks) {
      it(`${call}, against: ${source}`, () => {
        const sheet = calculate(`\`\`\`figures\nx = ${call}\n\`\`\`\n`, [{ file: 'shop.md', text: shop }]);
        expect(sheet.findings().filter((f) => f.severity === 'error')).toEqual([]);
        const value = sheet.valueOf('x');
        expect(Object.keys(wanted).length).toBeGreaterThan(0);
        for (const [field, is] of Object.entries(wanted)) {
          const part = value?.kind === 'record' ? value.fields.get(field) : value;
          if (part?.kind === 'text') {
            expect(part.text).toBe(is);
            continue;
          }
          const parts = part?.kind === 'list' ? part.items : part?.kind === 'number' ? [part] : [];
          const wants = [is].flat();
          expect(parts.length, field).toBe(wants.length);
          const stated = formula.result.find((f) => f.name === field);
          parts.forEach((one, i) => {
            const got = fromBase(one.value, unit(stated?.unit ?? ''));
            expect(Math.abs(got - Number(wants[i])), `${field} is ${got}`).toBeLessThanOrEqual(
              tolerance + 1e-12 * Math.abs(got),
            );
          });
        }
      });
    }
  });
}
