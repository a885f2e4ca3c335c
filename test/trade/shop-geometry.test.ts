/** Flats, keyways, chords, dovetails, gear blanks: every limit broken and just missed, and laws that hold by themselves. */
import { describe, expect, it } from 'vitest';
import { answer, broken, callOf, given, number } from './given';

const says = (call: string, severity: 'error' | 'warning' = 'error'): string => {
  const { formula, args } = callOf(call);
  return broken(formula, args, severity).join(' ');
};

describe('errors', () => {
  it.each([
    ['segment_height(25 mm, 25.01 mm)', 'at most 25 mm', 'segment_height(25 mm, 25 mm)'],
    ['segment_height(25 mm, -1 mm)', 'zero or more', 'segment_height(25 mm, 0 mm)'],
    ['flat_width(25 mm, 25.01 mm)', 'at most 25 mm', 'flat_width(25 mm, 25 mm)'],
    ['flat_width(25 mm, -1 mm)', 'zero or more', 'flat_width(25 mm, 0 mm)'],
    ['keyway(10 mm, 10.01 mm, 6 mm)', 'at most 10 mm', 'keyway(10 mm, 10 mm, 6 mm)'],
    ['keyway(10 mm, 6 mm, 1 mm)', 'more than 1 mm and less than 10 mm', 'keyway(10 mm, 6 mm, 1.001 mm)'],
    ['keyway(10 mm, 6 mm, 10 mm)', 'less than 10 mm', 'keyway(10 mm, 6 mm, 9.99 mm)'],
    // From the side the crown of 1 mm comes on top: triangle of sides 3, 4 and 5.
    [
      'keyway(10 mm, 6 mm, 0 mm, side)',
      'more than 0 mm and less than 9 mm',
      'keyway(10 mm, 6 mm, 0.001 mm, side)',
    ],
    ['keyway(10 mm, 6 mm, 9 mm, side)', 'less than 9 mm', 'keyway(10 mm, 6 mm, 8.99 mm, side)'],
    ['keyway(10 mm, 6 mm, 1 mm, crown)', 'more than 1 mm', 'keyway(10 mm, 6 mm, 1 mm, side)'],
    ['chord_length(80 mm, -1°)', '0° to 360°', 'chord_length(80 mm, 0°)'],
    ['chord_length(80 mm, 360.1°)', '0° to 360°', 'chord_length(80 mm, 360°)'],
    ['radius_from_chord(120 mm, 0 mm)', 'more than zero', 'radius_from_chord(120 mm, 0.1 mm)'],
    ['across_corners(17 mm, 5)', 'such as 6', 'across_corners(17 mm, 6)'],
    ['across_corners(17 mm, 2)', 'such as 4', 'across_corners(17 mm, 4)'],
    ['largest_flats(17 mm, 7)', 'such as 8', 'largest_flats(17 mm, 8)'],
    ['dovetail_pins(male, 30 mm, 6 mm, 90°)', 'less than 90°', 'dovetail_pins(male, 30 mm, 6 mm, 89°)'],
    ['dovetail_pins(male, 30 mm, 6 mm, 0°)', 'more than 0°', 'dovetail_pins(male, 30 mm, 6 mm, 1°)'],
    // Two pins at 60° take 2.7320508 of their diameter.
    [
      'dovetail_pins(female, 16.392 mm, 6 mm, 60°)',
      'pins below 6 mm',
      'dovetail_pins(female, 16.393 mm, 6 mm, 60°)',
    ],
    ['gear_blank(2 mm, 4)', '5 or more', 'gear_blank(2 mm, 5)'],
    ['gear_blank_by_pitch(0, 30)', 'more than zero', 'gear_blank_by_pitch(0.5, 30)'],
  ])('%s', (call, text, near) => {
    expect(says(call)).toContain(text);
    expect(says(near)).toBe('');
  });

  it('a tongue may be narrower than its pins', () =>
    expect(says('dovetail_pins(male, 10 mm, 6 mm, 60°)')).toBe(''));
});

it('offers whole numbers of sides', () => {
  expect(says('across_corners(17 mm, 5)')).toMatch(/such as 6\.$/);
  expect(says('across_corners(17 mm, 2)')).toMatch(/such as 4\.$/);
});

it('knows the turning points: half a circle, and half of the chord', () => {
  const turns = (call: string, parameter: string): readonly number[] => {
    const { formula, args } = callOf(call);
    return formula.extremes?.[parameter]?.(given(args)) ?? [];
  };
  expect(turns('flat_width(10 mm, 2 mm)', 'depth')).toEqual([5]);
  expect(turns('chord_length(80 mm, 60°)', 'angle')).toEqual([180]);
  expect(turns('radius_from_chord(8 mm, 2 mm)', 'height')).toEqual([4]);
});

it('warns of a root that is undercut', () => {
  // 2 over the square of the sine of 20° is 17.1.
  expect(2 / Math.sin((20 * Math.PI) / 180) ** 2).toBeCloseTo(17.097, 3);
  expect(says('gear_blank(2 mm, 17)', 'warning')).toContain('18 or more');
  expect(says('gear_blank(2 mm, 18)', 'warning')).toBe('');
});

describe('laws', () => {
  it('a flat has the width that its depth was worked out from', () => {
    for (const width of [0.5, 8, 24.9]) {
      const depth = number('segment_height', { diameter: 25, width }, 'height');
      expect(number('flat_width', { diameter: 25, depth }, 'flat')).toBeCloseTo(width, 9);
    }
  });
  it('a chord and its rise give the circle back', () => {
    for (const angle of [5, 90, 180, 250]) {
      const { across = NaN, rise = NaN } = answer('chord_length', { diameter: 218, angle });
      const back = answer('radius_from_chord', { chord: Number(across), height: Number(rise) });
      expect(back['whole_diameter']).toBeCloseTo(218, 9);
      expect(back['arc']).toBeCloseTo(angle, 9);
    }
  });
  it('the largest flats out of a round have it across their corners', () => {
    for (const sides of [4, 6, 8, 12]) {
      const across_flats = number('largest_flats', { stock: 20, sides }, 'flats');
      const { corners, side } = answer('across_corners', { across_flats, sides });
      expect(corners).toBeCloseTo(20, 9);
      expect(side).toBeCloseTo(number('chord_length', { diameter: 20, angle: 360 / sides }, 'across'), 9);
    }
  });
  it('an inch pitch is the module of 25.4 over it', () => {
    const inch = answer('gear_blank_by_pitch', { diametral_pitch: 8, teeth: 24 });
    const metric = answer('gear_blank', { module: 3.175, teeth: 24 });
    for (const [field, value] of Object.entries(inch)) expect(value).toBeCloseTo(Number(metric[field]), 9);
  });
});
