/** What a formula that nobody knows was likely meant to be. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';

const offers = (call: string): unknown =>
  calculate(`\`\`\`figures\na = ${call}\n\`\`\`\n`).findings()[0]?.data?.['offers'];

describe('an unknown formula', () => {
  it.each([
    // A slip of letters comes before all.
    ['ball_on_shenk(30 mm, 12 mm)', ['ball_on_shank']],
    ['change_gears(1.5 mm, lathe)', ['thread_gears', 'gear_blank', 'gear_blank_by_pitch']],
    ['three_wires(M30)', ['best_wire', 'over_wires', 'screw_over_wires']],
    ['thread_limits(M30)', ['iso_limits', 'nut_limits', 'screw_limits']],
    ['Tailstock_Correct(1 mm)', ['tailstock_correction', 'tailstock_setover']],
    ['taper_setover(1 mm)', ['tailstock_setover', 'morse_taper', 'taper']],
    ['widget(1 mm)', []],
    ['of_on_at(1 mm)', []],
  ])('%s', (call, names) => {
    expect(offers(call)).toEqual(names);
  });
});
