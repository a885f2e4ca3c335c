/**
 * What is drawn is held against the order of the Unicode bidirectional algorithm (UAX #9) as a browser draws it, in
 * test/sheet/directions.test.ts; here is which part of a text is set apart.
 */
import { describe, expect, it } from 'vitest';
import { isolated } from '../../src/engine/index';

const apart = (text: string): string => isolated(text, '<', '>');

describe('words from right to left', () => {
  it.each([
    ['Ball 26 mm ± 0.05 (26 mm)', 'Ball 26 mm ± 0.05 (26 mm)'],
    ['כדור = 3 mm', '<כדור> = 3 mm'],
    ['צוואר קצר מדי: 10 mm לכל היותר: 11.1 mm', '<צוואר קצר מדי>: 10 mm <לכל היותר>: 11.1 mm'],
    ['חיפה, 12 · 2026-12-01', '<חיפה>, 12 · 2026-12-01'],
    ['3 مرات 4 ثم', '3 <مرات 4 ثم>'],
    ['לפני העבודה (2 פעמים) 5', '<לפני העבודה (2 פעמים)> 5'],
    ['measured (חם!) 3', 'measured <(חם!)> 3'],
    ['as seen (see חם) 3', 'as seen (see <חם>) 3'],
    ['(חם and cold) 3', '(<חם> and cold) 3'],
    ['as seen [see חם] 3', 'as seen [see <חם>] 3'],
    ['as seen {see חם} 3', 'as seen {see <חם>} 3'],
    ['as seen «see חם» 3', 'as seen «see <חם>» 3'],
    ['measured [חם] 3', 'measured <[חם]> 3'],
    ['measured {חם} 3', 'measured <{חם}> 3'],
    ['measured «חם» 3', 'measured <«חם»> 3'],
    ['[חם and cold] 3', '[<חם> and cold] 3'],
    ['{חם and cold} 3', '{<חם> and cold} 3'],
    ['«חם and cold» 3', '«<חם> and cold» 3'],
    ['((חם) and cold) 3', '(<(חם)> and cold) 3'],
    // Brackets without their other half, but not at an end.
    ['חם (קר 3', '<חם (קר> 3'],
    ['חם) קר 3', '<חם) קר> 3'],
    ['', ''],
  ])('%s', (text, wanted) => expect(apart(text)).toBe(wanted));

  it('are set apart by marks that turn nothing else round, and are else as they were', () => {
    const text = 'ball: כדור, 26 mm';
    expect(isolated(text)).toBe('ball: \u2067כדור\u2069, 26 mm');
    expect(isolated(text).replace(/[\u2067\u2069]/g, '')).toBe(text);
  });
});
