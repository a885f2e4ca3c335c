/** What a formula that nobody knows was likely meant to be. */
import { describe, expect, it } from 'vitest';
import { calculate } from '../../src/engine/index';
import { alike, sharingWords } from '../../src/engine/near-names';

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

describe('a slip of letters', () => {
  it.each([
    // One slip in a short word: left out, put in, changed.
    ['bal', ['ball'], ['ball']],
    ['balll', ['ball'], ['ball']],
    ['bell', ['ball'], ['ball']],
    ['bill', ['bolt'], []],
    ['rings', ['rods'], []],
    ['shank', ['slack'], []],
    // Two in one of six letters or more, three in none.
    ['shanks', ['slacks'], ['slacks']],
    ['shanks', ['stacky'], []],
    ['shanks', ['shan', 'sha'], ['shan']],
    ['diametre', ['diameter'], ['diameter']],
    ['x', ['y'], ['y']],
    ['x', ['yz'], []],
    ['x', ['yx'], ['yx']],
    ['ab', ['abc', 'a', 'b', 'abcd'], ['a', 'abc', 'b']],
    ['BALL', ['bal', 'ball'], ['ball', 'bal']],
    // The nearest first, then by the alphabet, three at most.
    ['shank_b', ['shank_cd', 'shank_d', 'shank_c', 'shank_b2', 'shank'], ['shank_b2', 'shank_c', 'shank_d']],
    ['a'.repeat(64), ['a'.repeat(63)], ['a'.repeat(63)]],
    ['a'.repeat(63), ['a'.repeat(64)], ['a'.repeat(64)]],
    ['a'.repeat(65), ['a'.repeat(64)], []],
    ['a'.repeat(64), ['a'.repeat(65)], []],
  ])('%s among %j', (word, known, wanted) => {
    expect(alike(word, known)).toEqual(wanted);
  });

  it('is looked for until fifty are near', () => {
    const near = Array.from({ length: 50 }, (_, i) => `hubs_${String.fromCharCode(0x3b1 + i)}`);
    expect(alike('hubs_0', [...near.slice(0, 49), 'hubs_0'])).toContain('hubs_0');
    expect(alike('hubs_0', [...near, 'hubs_0'])).not.toContain('hubs_0');
  });
});

describe('words in common', () => {
  it.each([
    [
      'thread_gears',
      ['change_gears', 'thread_limits', 'gear_blank', 'taper'],
      ['change_gears', 'gear_blank', 'thread_limits'],
    ],
    // A third in common is enough, less is chance.
    ['one_two_six', ['one_ten_red', 'one_ten_red_dry'], ['one_ten_red']],
    ['gear', ['gears_of_it'], ['gears_of_it']],
    ['of_to', ['of_to'], []],
  ])('%s among %j', (name, known, wanted) => {
    expect(sharingWords(name, known)).toEqual(wanted);
  });
});
