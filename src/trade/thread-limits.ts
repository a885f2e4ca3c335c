/** Limits of screws and nuts by the tolerance class of the call-out. */
import { field } from './build';
import type { Formula, Given, Refusal, Step } from './formula';
import { THREAD, type Thread, stepsOf, withThread } from './thread';
import { type Zone, zoneOf } from './thread-zones';
import { boreDiameter, pitchDiameter } from './threads';

const CLASS = { ...field('tolerance', '', 'class the limits are of'), words: true } as const;
const CHECKED = { ...field('checked', '', 'how far the values were checked'), words: true } as const;

function withZone<T>(
  given: Given,
  side: 'screw' | 'nut',
  make: (thread: Thread, zone: Zone) => T,
): T | Refusal {
  return withThread(given, (thread) => {
    const zone = zoneOf(thread, side);
    return 'refused' in zone ? zone : make(thread, zone);
  });
}

/** Digits of a width in a working; binary rounding is not shown. */
const digits = (mm: number): string => `${Number(mm.toPrecision(12))} mm`;

function zoneSteps(given: Given, side: 'screw' | 'nut', steps: readonly Step[]): readonly Step[] {
  return stepsOf(given, (thread) => {
    const zone = zoneOf(thread, side);
    if ('refused' in zone) return [];
    const width = (name: string, of: string, value: number): Step => ({
      name,
      expression: digits(value),
      words: `${of}, class ${zone.tolerance}; ${zone.checked}`,
    });
    return [
      width('allowance', 'distance kept from the basic sizes', zone.allowance),
      width('crest_tolerance', side === 'screw' ? 'width for the outside' : 'width for the bore', zone.crest),
      width('pitch_tolerance', 'width for the pitch diameter', zone.pitchDiameter),
      ...steps,
    ];
  });
}

const WHY =
  'Screw and nut meet on their flanks, so the pitch diameter decides how they fit; the other diameters only must not ' +
  'touch. A call-out without a class means the usual one: 6g with 6H, 2A with 2B. Measure the pitch diameter over wires ' +
  'or by gauge; a screw that is right outside can still be loose.';
const SOURCE =
  'metric: ISO 965-1, grade 6, from memory, compared with an open table of ISO 965-2; unified: formulas of ASME B1.1, ' +
  'from memory';

const screwLimits: Formula = {
  name: 'screw_limits',
  family: 'threads',
  title: 'Limits of an outside thread',
  parameters: [THREAD],
  result: [
    field('outside_max', 'mm', 'largest outside diameter'),
    field('outside_min', 'mm', 'smallest outside diameter'),
    field('pitch_diameter_max', 'mm', 'largest pitch diameter'),
    field('pitch_diameter_min', 'mm', 'smallest pitch diameter'),
    CLASS,
    CHECKED,
  ],
  compute: (given) =>
    withZone(given, 'screw', ({ diameter, pitch }, zone) => {
      const [outside, flank] = [diameter - zone.allowance, pitchDiameter(diameter, pitch) - zone.allowance];
      return {
        outside_max: outside,
        outside_min: outside - zone.crest,
        pitch_diameter_max: flank,
        pitch_diameter_min: flank - zone.pitchDiameter,
        tolerance: zone.tolerance,
        checked: zone.checked,
      };
    }),
  working: (given) =>
    zoneSteps(given, 'screw', [
      { name: 'outside_max', expression: 'diameter - allowance', words: 'the size less the allowance' },
      { name: 'outside_min', expression: 'outside_max - crest_tolerance', words: 'less the width' },
      {
        name: 'pitch_diameter_max',
        expression: 'diameter - 3 / 8 * sqrt(3) * pitch - allowance',
        words: 'the basic pitch diameter less the allowance',
      },
      {
        name: 'pitch_diameter_min',
        expression: 'pitch_diameter_max - pitch_tolerance',
        words: 'less the width',
      },
    ]),
  why: WHY,
  conditions: [],
  source: SOURCE,
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'screw_limits(M6-6g)',
      expect: {
        outside_max: 5.974,
        outside_min: 5.794,
        pitch_diameter_max: 5.324,
        pitch_diameter_min: 5.212,
        tolerance: '6g',
      },
      tolerance: 0.0012,
      source: 'open table of ISO 965-2 limits, typed independently of the rules',
    },
    {
      call: 'screw_limits(M8)',
      expect: {
        outside_max: 7.972,
        outside_min: 7.76,
        pitch_diameter_max: 7.16,
        pitch_diameter_min: 7.042,
        tolerance: '6g',
      },
      tolerance: 0.0012,
      source: 'open table of ISO 965-2 limits, typed independently of the rules',
    },
    {
      call: 'screw_limits(3/8-16 UNC-2A)',
      expect: {
        outside_max: 9.49198,
        outside_min: 9.25322,
        pitch_diameter_max: 8.46074,
        pitch_diameter_min: 8.34898,
        tolerance: '2A',
      },
      tolerance: 0.0026,
      source: 'handbook limits 0.3737, 0.3643, 0.3331 and 0.3287 in, from memory',
    },
    {
      call: 'screw_limits(1/2-13 UNC-2A)',
      expect: {
        outside_max: 12.6619,
        outside_min: 12.38504,
        pitch_diameter_max: 11.3919,
        pitch_diameter_min: 11.2649,
      },
      tolerance: 0.0026,
      source: 'handbook limits 0.4985, 0.4876, 0.4485 and 0.4435 in, from memory',
    },
  ],
};

const nutLimits: Formula = {
  name: 'nut_limits',
  family: 'threads',
  title: 'Limits of an inside thread',
  parameters: [THREAD],
  result: [
    field('bore_min', 'mm', 'smallest bore'),
    field('bore_max', 'mm', 'largest bore'),
    field('pitch_diameter_min', 'mm', 'smallest pitch diameter'),
    field('pitch_diameter_max', 'mm', 'largest pitch diameter'),
    CLASS,
    CHECKED,
  ],
  compute: (given) =>
    withZone(given, 'nut', ({ diameter, pitch }, zone) => {
      const bore = boreDiameter(diameter, pitch) + zone.allowance;
      const flank = pitchDiameter(diameter, pitch) + zone.allowance;
      return {
        bore_min: bore,
        bore_max: bore + zone.crest,
        pitch_diameter_min: flank,
        pitch_diameter_max: flank + zone.pitchDiameter,
        tolerance: zone.tolerance,
        checked: zone.checked,
      };
    }),
  working: (given) =>
    zoneSteps(given, 'nut', [
      {
        name: 'bore_min',
        expression: 'diameter - 5 / 8 * sqrt(3) * pitch + allowance',
        words: 'the basic bore and the allowance',
      },
      { name: 'bore_max', expression: 'bore_min + crest_tolerance', words: 'and the width' },
      {
        name: 'pitch_diameter_min',
        expression: 'diameter - 3 / 8 * sqrt(3) * pitch + allowance',
        words: 'the basic pitch diameter and the allowance',
      },
      {
        name: 'pitch_diameter_max',
        expression: 'pitch_diameter_min + pitch_tolerance',
        words: 'and the width',
      },
    ]),
  why: WHY,
  conditions: [],
  source: SOURCE,
  cautions: ['measuring'],
  picture: null,
  checks: [
    {
      call: 'nut_limits(M3-6H)',
      expect: {
        bore_min: 2.459,
        bore_max: 2.599,
        pitch_diameter_min: 2.675,
        pitch_diameter_max: 2.775,
        tolerance: '6H',
      },
      tolerance: 0.0012,
      source: 'open table of ISO 965-2 limits, typed independently of the rules',
    },
    {
      call: 'nut_limits(M10x1)',
      expect: { bore_min: 8.917, bore_max: 9.153, pitch_diameter_min: 9.35, pitch_diameter_max: 9.5 },
      tolerance: 0.0012,
      source: 'open table of ISO 965-2 limits, typed independently of the rules',
    },
    {
      call: 'nut_limits(1/4-20 UNC-2B)',
      expect: { bore_min: 4.9784, bore_max: 5.2578, pitch_diameter_min: 5.5245, pitch_diameter_max: 5.64896 },
      tolerance: 0.013,
      source:
        'handbook limits 0.196, 0.207, 0.2175 and 0.2224 in, from memory; bores are printed to 0.001 in',
    },
    {
      call: 'nut_limits(10-32 UNF-2B)',
      expect: { bore_min: 3.9624, bore_max: 4.1656, pitch_diameter_min: 4.31038 },
      tolerance: 0.013,
      source: 'handbook limits 0.156, 0.164 and 0.1697 in, from memory; bores are printed to 0.001 in',
    },
  ],
};

export const THREAD_LIMIT_FORMULAS: readonly Formula[] = [screwLimits, nutLimits];
