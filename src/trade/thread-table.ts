/**
 * Screw threads of 60 degrees as tables: sizes, pitches, tap drills, tolerances of grade 6. Read at the first call of a
 * thread's formula.
 *
 * Metric sizes and pitches: a choice from ISO 261 and ISO 262. Tap drills of the coarse row: ISO 2306, from memory, which an
 * open CAD program's list agrees with. Tolerances and positions: ISO 965-1, from memory; limits made from them agree with
 * an open table of ISO 965-2 in 312 of 316 places, and the four others (`DISAGREES`) are slips of that table.
 * Unified sizes and threads per inch: ASME B1.1, agreeing with an open thread table (2 in from memory). Their tap drills are
 * common practice for about three quarters of a thread, from memory; an open CAD program's list gives other holes.
 */

/** Smallest diameter in mm for which the tolerances hold. */
export const SMALLEST_TOLERATED = 1.4;

/** Diameter, pitch and tap drill in mm of the coarse threads, the smallest first. */
export const COARSE: readonly (readonly [diameter: number, pitch: number, drill: number])[] = [
  [1, 0.25, 0.75],
  [1.2, 0.25, 0.95],
  [1.4, 0.3, 1.1],
  [1.6, 0.35, 1.25],
  [1.8, 0.35, 1.45],
  [2, 0.4, 1.6],
  [2.2, 0.45, 1.75],
  [2.5, 0.45, 2.05],
  [3, 0.5, 2.5],
  [3.5, 0.6, 2.9],
  [4, 0.7, 3.3],
  [4.5, 0.75, 3.7],
  [5, 0.8, 4.2],
  [6, 1, 5],
  [7, 1, 6],
  [8, 1.25, 6.8],
  [10, 1.5, 8.5],
  [12, 1.75, 10.2],
  [14, 2, 12],
  [16, 2, 14],
  [18, 2.5, 15.5],
  [20, 2.5, 17.5],
  [22, 2.5, 19.5],
  [24, 3, 21],
  [27, 3, 24],
  [30, 3.5, 26.5],
  [33, 3.5, 29.5],
  [36, 4, 32],
  [39, 4, 35],
  [42, 4.5, 37.5],
  [45, 4.5, 40.5],
  [48, 5, 43],
  [52, 5, 47],
  [56, 5.5, 50.5],
  [60, 5.5, 54.5],
  [64, 6, 58],
];

/** Fine pitches in mm by diameter. Their tap drill is the diameter less the pitch. */
export const FINE: ReadonlyMap<number, readonly number[]> = new Map([
  [3, [0.35]],
  [4, [0.5]],
  [5, [0.5]],
  [6, [0.75]],
  [8, [0.75, 1]],
  [10, [0.75, 1, 1.25]],
  [12, [1, 1.25, 1.5]],
  [14, [1, 1.5]],
  [16, [1, 1.5]],
  [18, [1, 1.5, 2]],
  [20, [1, 1.5, 2]],
  [22, [1, 1.5, 2]],
  [24, [1, 1.5, 2]],
  [27, [1.5, 2]],
  [30, [1.5, 2, 3]],
  [33, [1.5, 2]],
  [36, [1.5, 2, 3]],
  [39, [2, 3]],
  [42, [2, 3]],
  [45, [2, 3]],
  [48, [2, 3]],
]);

/** Position g: how far the screw lies below the basic size, in µm by pitch. */
export const POSITION_G: ReadonlyMap<number, number> = new Map([
  [0.35, 19],
  [0.4, 19],
  [0.45, 20],
  [0.5, 20],
  [0.6, 21],
  [0.7, 22],
  [0.75, 22],
  [0.8, 24],
  [1, 26],
  [1.25, 28],
  [1.5, 32],
  [1.75, 34],
  [2, 38],
  [2.5, 42],
  [3, 48],
  [3.5, 53],
  [4, 60],
  [4.5, 63],
  [5, 71],
  [5.5, 75],
  [6, 80],
]);

/** Tolerance of a screw's outside diameter, grade 6, in µm by pitch. */
export const MAJOR_6: ReadonlyMap<number, number> = new Map([
  [0.35, 85],
  [0.4, 95],
  [0.45, 100],
  [0.5, 106],
  [0.6, 125],
  [0.7, 140],
  [0.75, 140],
  [0.8, 150],
  [1, 180],
  [1.25, 212],
  [1.5, 236],
  [1.75, 265],
  [2, 280],
  [2.5, 335],
  [3, 375],
  [3.5, 425],
  [4, 475],
  [4.5, 500],
  [5, 530],
  [5.5, 560],
  [6, 600],
]);

/** Tolerance of a nut's bore, grade 6, in µm by pitch. */
export const MINOR_6: ReadonlyMap<number, number> = new Map([
  [0.35, 100],
  [0.4, 112],
  [0.45, 125],
  [0.5, 140],
  [0.6, 160],
  [0.7, 180],
  [0.75, 190],
  [0.8, 200],
  [1, 236],
  [1.25, 265],
  [1.5, 300],
  [1.75, 335],
  [2, 375],
  [2.5, 450],
  [3, 500],
  [3.5, 560],
  [4, 600],
  [4.5, 670],
  [5, 710],
  [5.5, 750],
  [6, 800],
]);

type ByDiameter = readonly (readonly [upto: number, ofPitch: ReadonlyMap<number, number>])[];

/** Tolerance of a screw's pitch diameter, grade 6, in µm: by diameter up to and including, then by pitch. */
export const SCREW_PITCH_6: ByDiameter = [
  [
    2.8,
    new Map([
      [0.35, 63],
      [0.4, 67],
      [0.45, 71],
    ]),
  ],
  [
    5.6,
    new Map([
      [0.35, 67],
      [0.5, 75],
      [0.6, 85],
      [0.7, 90],
      [0.75, 90],
      [0.8, 95],
    ]),
  ],
  [
    11.2,
    new Map([
      [0.75, 100],
      [1, 112],
      [1.25, 118],
      [1.5, 132],
    ]),
  ],
  [
    22.4,
    new Map([
      [1, 118],
      [1.25, 132],
      [1.5, 140],
      [1.75, 150],
      [2, 160],
      [2.5, 170],
    ]),
  ],
  [
    45,
    new Map([
      [1, 125],
      [1.5, 150],
      [2, 170],
      [3, 200],
      [3.5, 212],
      [4, 224],
      [4.5, 236],
    ]),
  ],
  [
    90,
    new Map([
      [1.5, 160],
      [2, 180],
      [3, 212],
      [4, 236],
      [5, 250],
      [5.5, 265],
      [6, 280],
    ]),
  ],
];

/** Tolerance of a nut's pitch diameter, grade 6, in the same form. */
export const NUT_PITCH_6: ByDiameter = [
  [
    2.8,
    new Map([
      [0.35, 85],
      [0.4, 90],
      [0.45, 95],
    ]),
  ],
  [
    5.6,
    new Map([
      [0.35, 90],
      [0.5, 100],
      [0.6, 112],
      [0.7, 118],
      [0.75, 118],
      [0.8, 125],
    ]),
  ],
  [
    11.2,
    new Map([
      [0.75, 132],
      [1, 150],
      [1.25, 160],
      [1.5, 180],
    ]),
  ],
  [
    22.4,
    new Map([
      [1, 160],
      [1.25, 180],
      [1.5, 190],
      [1.75, 200],
      [2, 212],
      [2.5, 224],
    ]),
  ],
  [
    45,
    new Map([
      [1, 170],
      [1.5, 200],
      [2, 224],
      [3, 265],
      [3.5, 280],
      [4, 300],
      [4.5, 315],
    ]),
  ],
  [
    90,
    new Map([
      [1.5, 212],
      [2, 236],
      [3, 280],
      [4, 315],
      [5, 335],
      [5.5, 355],
      [6, 375],
    ]),
  ],
];

/** Where an open table of ISO 965-2 gives other limits than ours, in mm: what, and its largest and smallest. */
export const DISAGREES: ReadonlyMap<string, readonly (readonly [what: string, max: number, min: number])[]> =
  new Map([
    [
      'M33',
      [
        ['6g major', 32.97, 32.54],
        ['6g pitch', 30.7, 30.48],
      ],
    ],
    [
      'M52',
      [
        ['6g pitch', 48.68, 48.45],
        ['6H pitch', 49.067, 48.752],
      ],
    ],
  ]);

export interface UnifiedRow {
  readonly series: 'UNC' | 'UNF';
  readonly size: string;
  /** In inches. */
  readonly diameter: number;
  readonly threads: number;
  readonly drill: string;
  /** In inches for a drill by number or letter; null where its name is its size. */
  readonly drillSize: number | null;
  /** Hole in mm that an open CAD program's list gives. */
  readonly other: number;
}

type Row = readonly [UnifiedRow['series'], string, number, number, string, number | null, number];

const ROWS: readonly Row[] = [
  ['UNC', '#1', 0.073, 64, '#53', 0.0595, 1.5],
  ['UNC', '#2', 0.086, 56, '#50', 0.07, 1.85],
  ['UNC', '#3', 0.099, 48, '#47', 0.0785, 2.1],
  ['UNC', '#4', 0.112, 40, '#43', 0.089, 2.35],
  ['UNC', '#5', 0.125, 40, '#38', 0.1015, 2.65],
  ['UNC', '#6', 0.138, 32, '#36', 0.1065, 2.85],
  ['UNC', '#8', 0.164, 32, '#29', 0.136, 3.5],
  ['UNC', '#10', 0.19, 24, '#25', 0.1495, 3.9],
  ['UNC', '#12', 0.216, 24, '#16', 0.177, 4.5],
  ['UNC', '1/4', 0.25, 20, '#7', 0.201, 5.1],
  ['UNC', '5/16', 0.3125, 18, 'F', 0.257, 6.6],
  ['UNC', '3/8', 0.375, 16, '5/16', null, 8],
  ['UNC', '7/16', 0.4375, 14, 'U', 0.368, 9.4],
  ['UNC', '1/2', 0.5, 13, '27/64', null, 10.8],
  ['UNC', '9/16', 0.5625, 12, '31/64', null, 12.2],
  ['UNC', '5/8', 0.625, 11, '17/32', null, 13.5],
  ['UNC', '3/4', 0.75, 10, '21/32', null, 16.5],
  ['UNC', '7/8', 0.875, 9, '49/64', null, 19.5],
  ['UNC', '1', 1, 8, '7/8', null, 22.25],
  ['UNC', '1 1/8', 1.125, 7, '63/64', null, 25],
  ['UNC', '1 1/4', 1.25, 7, '1 7/64', null, 28],
  ['UNC', '1 3/8', 1.375, 6, '1 7/32', null, 30.75],
  ['UNC', '1 1/2', 1.5, 6, '1 11/32', null, 34],
  ['UNC', '1 3/4', 1.75, 5, '1 9/16', null, 39.5],
  ['UNC', '2', 2, 4.5, '1 25/32', null, 45],
  ['UNF', '#0', 0.06, 80, '3/64', null, 1.2],
  ['UNF', '#1', 0.073, 72, '#53', 0.0595, 1.55],
  ['UNF', '#2', 0.086, 64, '#50', 0.07, 1.85],
  ['UNF', '#3', 0.099, 56, '#45', 0.082, 2.1],
  ['UNF', '#4', 0.112, 48, '#42', 0.0935, 2.4],
  ['UNF', '#5', 0.125, 44, '#37', 0.104, 2.7],
  ['UNF', '#6', 0.138, 40, '#33', 0.113, 2.95],
  ['UNF', '#8', 0.164, 36, '#29', 0.136, 3.5],
  ['UNF', '#10', 0.19, 32, '#21', 0.159, 4.1],
  ['UNF', '#12', 0.216, 28, '#14', 0.182, 4.7],
  ['UNF', '1/4', 0.25, 28, '#3', 0.213, 5.5],
  ['UNF', '5/16', 0.3125, 24, 'I', 0.272, 6.9],
  ['UNF', '3/8', 0.375, 24, 'Q', 0.332, 8.5],
  ['UNF', '7/16', 0.4375, 20, '25/64', null, 9.9],
  ['UNF', '1/2', 0.5, 20, '29/64', null, 11.5],
  ['UNF', '9/16', 0.5625, 18, '33/64', null, 12.9],
  ['UNF', '5/8', 0.625, 18, '37/64', null, 14.5],
  ['UNF', '3/4', 0.75, 16, '11/16', null, 17.5],
  ['UNF', '7/8', 0.875, 14, '13/16', null, 20.4],
  ['UNF', '1', 1, 12, '59/64', null, 23.25],
  ['UNF', '1 1/8', 1.125, 12, '1 3/64', null, 26.5],
  ['UNF', '1 1/4', 1.25, 12, '1 11/64', null, 29.5],
  ['UNF', '1 3/8', 1.375, 12, '1 19/64', null, 32.75],
  ['UNF', '1 1/2', 1.5, 12, '1 27/64', null, 36],
];

/** Unified threads, series by series, the smallest first. */
export const UNIFIED: readonly UnifiedRow[] = ROWS.map(
  ([series, size, diameter, threads, drill, drillSize, other]) => ({
    series,
    size,
    diameter,
    threads,
    drill,
    drillSize,
    other,
  }),
);
