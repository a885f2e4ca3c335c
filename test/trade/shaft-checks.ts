/** How the inputs of families D04, E and F, warmth, fits and threads, go into the formulas. */
import { type Inputs, type Run, numbers } from './ball-checks';
import { materialCard, number } from './given';

/** Inches of `3/8`, or the number itself. */
function inches(text: Inputs[string] | undefined): number {
  const [above = NaN, below = 1] = String(text).split('/').map(Number);
  return above / below;
}

/** Names of the threads that have these pitches. */
const OF_PITCH: Readonly<Record<string, string>> = { 1.5: 'M10', 1: 'M8x1', 1.954: '1/2-13 UNC' };

const TAPPED: Readonly<Record<string, string>> = { 6: 'M6', 6.35: '1/4-20 UNC', 12.7: '1/2-13 UNC' };

export const SHAFT_RUN: Readonly<Record<string, Run>> = {
  D04: (at) => {
    const material = materialCard('bar', { expansion: [at('alpha_per_K') * 1e6, 'µm/m/K'] });
    return numbers('thermal_growth', { size: at('L_mm'), temperature: at('T_C'), material }, '');
  },
  E01: (at, _, __, inputs) =>
    numbers('iso_limits', { size: at('nominal_mm'), class: String(inputs['class']) }, 'upper', 'lower'),
  F01: (at) =>
    numbers('thread_sizes', { thread: `M${at('d_mm')}x${at('P_mm')}` }, 'pitch_diameter', 'bore', 'core'),
  F02: (at) => {
    const [pitch, thread_angle, wire] = [at('P_mm'), at('angle_deg'), at('W_mm')];
    if (wire === 0) return numbers('best_wire', { pitch, thread_angle }, 'wire');
    const pitch_diameter = at('d2_mm');
    const over_wires = number('over_wires', { pitch_diameter, pitch, wire, thread_angle });
    const back = number('pitch_diameter_of', { over_wires, pitch, wire, thread_angle });
    // There and back is the same, or the answer is spoilt for the check.
    return [Math.abs(back - pitch_diameter) < 1e-9 ? over_wires : NaN];
  },
  F03: (at) => {
    const thread = OF_PITCH[String(Number(at('P_mm').toFixed(3)))] ?? '';
    return numbers(
      'thread_infeed',
      { thread, compound_angle: at('compound_deg') },
      'straight',
      'by_compound',
    );
  },
  F04: (at) => {
    const thread = TAPPED[String(at('d_mm'))] ?? '';
    return numbers('thread_percent', { thread, drill: at('drill_mm') }, 'handbook', 'engaged');
  },
  F05: (_, __, ___, inputs) => {
    const thread = String(inputs['thread']);
    const diameters = ['pitch_diameter_max', 'pitch_diameter_min'];
    return [
      ...numbers('screw_limits', { thread: `${thread}-6g` }, 'outside_max', 'outside_min', ...diameters),
      ...numbers(
        'nut_limits',
        { thread: `${thread}-6H` },
        'bore_min',
        'bore_max',
        ...[...diameters].reverse(),
      ),
    ];
  },
  F06: (at, _, __, inputs) => {
    const series = inches(inputs['D_in']) === 0.375 ? 'UNF' : 'UNC';
    const thread = `${String(inputs['D_in'])}-${at('tpi')} ${series}`;
    return numbers('thread_sizes', { thread }, 'pitch_diameter', 'bore').map((mm) => mm / 25.4);
  },
};
