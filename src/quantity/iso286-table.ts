/**
 * ISO 286-1:2010, tables 1, 4 and 5, up to 500 mm, in micrometres: written down from memory of the printed tables and
 * cross-checked value by value. Each row carries a letter per value:
 *
 * - `d`: agrees digit for digit with an open table (the limits table of an open general-purpose CAD program, or open
 *   numeric table files of ISO 286-2);
 * - `f`: agrees with the standard's own formula before its rounding (within 6 % or 1 µm), which is a plausibility check
 *   and no digit check. i = 0.45 D^(1/3) + 0.001 D with D the geometric mean of the step in mm; IT5 = 7i, IT12 = 160i,
 *   IT13 = 250i; m = IT7 - IT6;
 * - `m`: memory only.
 *
 * Where an open table disagreed (n of some sizes in the CAD program, n and p of some sizes in the files) another source
 * or the formula backs the value kept here.
 */

export interface Row {
  readonly values: readonly number[];
  /** One letter per value, see above. */
  readonly checks: string;
}

const row = (values: readonly number[], checks: string): Row => ({ values, checks });

/** Upper ends of the main steps in mm; a step reaches from just above the one before up to and including its end. */
export const STEPS: readonly number[] = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500];

/** Upper ends of the finer steps, for r and s. */
export const FINE_STEPS: readonly number[] = [
  3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450,
  500,
];

/** Tolerance grades, table 1. */
export const GRADES: ReadonlyMap<number, Row> = new Map([
  [4, row([3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20], 'mmmmmmmmmmmmm')],
  [5, row([4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27], 'fffffffffffff')],
  [6, row([6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40], 'ddddddddddddd')],
  [7, row([10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63], 'ddddddddddddd')],
  [8, row([14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97], 'ddddddddddddd')],
  [9, row([25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155], 'ddddddddddddd')],
  [10, row([40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250], 'ddddddddddddd')],
  [11, row([60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400], 'ddddddddddddd')],
  [12, row([100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630], 'mffffffffffff')],
  [13, row([140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970], 'fffffffffffff')],
]);

/**
 * Fundamental deviations of shafts, tables 4 and 5: the upper deviation es for d to h, the lower one ei for k to s. The
 * k row holds for grades 4 to 7; for others ei is 0. Holes follow from these, see `iso286.ts`.
 */
export const SHAFTS: ReadonlyMap<string, Row> = new Map([
  ['d', row([-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230], 'ddddddddddddd')],
  ['e', row([-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135], 'ddddddddddddd')],
  ['f', row([-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68], 'ddddddddddddd')],
  ['g', row([-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20], 'ddddddddddddd')],
  ['h', row([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0], 'ddddddddddddd')],
  ['k', row([0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5], 'ddddddddddddd')],
  ['m', row([2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23], 'mffffffffffff')],
  ['n', row([4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40], 'ddddddddddddd')],
  ['p', row([6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68], 'ddddddddddddd')],
  [
    'r',
    row(
      [
        10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126,
        132,
      ],
      'ddddddddddddddddddddddddd',
    ),
  ],
  [
    's',
    row(
      [
        14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208,
        232, 252,
      ],
      'ddddddddddddddddddddddddd',
    ),
  ],
]);

/**
 * Grades whose hole values themselves were compared digit for digit with the files of ISO 286-2 (K7 and N7 with the CAD
 * program too). Other holes are the standard's rule applied to the rows above.
 */
export const CHECKED_HOLES: ReadonlyMap<string, readonly [from: number, to: number]> = new Map([
  ['K', [5, 8]],
  ['N', [5, 11]],
  ['P', [5, 9]],
]);
