/** How the inputs of families D01 to D03, G01 to G05, G08 and G09, support, tapers and geometry, go into the formulas. */
import { type Run, numbers } from './ball-checks';
import { materialCard, number } from './given';

const HELD: Readonly<Record<string, readonly [formula: string, length: string]>> = {
  'chuck only': ['deflection_in_chuck', 'overhang'],
  'chuck+centre': ['deflection_with_centre', 'free_length'],
  'between centres': ['deflection_between_centres', 'between_centres'],
};

/** N/mm² of the check values' steel. */
const STEEL = 210000;

export const TAPER_RUN: Readonly<Record<string, Run>> = {
  D01: (at, _, __, inputs) => {
    const [formula = '', length = ''] = HELD[String(inputs['support'])] ?? [];
    const material = materialCard('bar', { modulus: [at('E_N_mm2'), 'N/mm^2'] });
    const work = { material, force: at('F_N'), diameter: at('d_mm'), [length]: at('L_mm') };
    return numbers(formula, { ...work, tool_at: at('x_mm') }, 'deflection');
  },
  D02: (at, _, __, inputs) => {
    const [formula = '', length = ''] = HELD[String(inputs['support'])] ?? [];
    const material = materialCard('bar', { modulus: [STEEL, 'N/mm^2'] });
    const work = { material, force: at('F_N'), diameter: at('d_mm'), [length]: at('L_mm') };
    const worst = number(formula, work, 'worst_oversize');
    if (inputs['support'] !== 'chuck only') return [worst];
    return [worst, number(formula, { ...work, tool_at: at('L_mm') / 2 }, 'oversize')];
  },
  D03: (at) =>
    at('d_head_mm') > 0
      ? numbers(
          'tailstock_correction',
          {
            sizes: [at('d_head_mm'), at('d_tail_mm')],
            places: [0, at('l_mm')],
            between_centres: at('L_mm'),
          },
          'shift',
        )
      : numbers(
          'tailstock_setover',
          {
            large: at('D_mm'),
            small: at('d_mm'),
            taper_length: at('taper_length_mm'),
            between_centres: at('L_mm'),
          },
          'set_over',
        ),
  G01: (at) =>
    numbers(
      'taper',
      { large: at('D_mm'), small: at('d_mm'), taper_length: at('L_mm') },
      'half_angle',
      'per_foot',
      'one_in',
    ),
  G02: (at) => numbers('morse_taper', { number: `MT${at('MT')}` }, 'per_foot', 'gauge_diameter'),
  G03: (at) => numbers('sine_bar', { angle: at('theta_deg'), centre_distance: at('L_mm') }, 'stack'),
  G04: (at) => {
    const balls = { large_ball: 2 * at('r1_mm'), small_ball: 2 * at('r2_mm') };
    const depths = { large_depth: at('t1_mm'), small_depth: at('t2_mm') };
    if (at('r1_mm') > 0) return numbers('taper_over_balls', { ...balls, ...depths }, 'half_angle');
    const over = { over_low: at('M1_mm'), over_high: at('M2_mm'), raised: at('H_mm'), roller: 1 };
    return numbers('taper_over_rollers', over, 'half_angle');
  },
  G05: (at, _, __, inputs) =>
    numbers(
      'dovetail_pins',
      {
        part: String(inputs['kind']),
        sharp_width: at('S_mm') + at('W_mm'),
        pin: at('pin_mm'),
        flank_angle: at('A_deg'),
      },
      'over_pins',
    ),
  G08: (at) => numbers('segment_height', { diameter: at('d_mm'), width: at('w_mm') }, 'height'),
  G09: (at) => numbers('across_corners', { across_flats: at('across_flats_mm'), sides: at('n') }, 'corners'),
};
