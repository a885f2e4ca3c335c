/** Preparing the blank for a ball. */
import { length, mm, must, notNegative, positive, single } from './build';
import type { Formula, Given } from './formula';

const BALL = length('ball', 'diameter of the ball');
const BLANK = length('blank', 'diameter of the blank');
const END = length('end_to_centre', "along the bar, from the blank's end face to the ball's centre");
const ALLOWANCE = length('allowance', 'stock left over the ball at the nearest place of the chamfer');

/** Leg of the chamfer along either face, in mm. */
function leg(given: Given): number {
  const stays = given.number('ball') / 2 + given.number('allowance');
  return given.number('end_to_centre') + given.number('blank') / 2 - Math.SQRT2 * stays;
}

const cornerChamfer: Formula = {
  name: 'corner_chamfer',
  family: 'ball',
  title: 'Largest 45° chamfer that stays outside the ball',
  parameters: [BALL, BLANK, END, ALLOWANCE],
  result: [single('mm', 'leg of the chamfer along the end and along the side')],
  compute: leg,
  working: () => [
    {
      name: '',
      expression: 'end_to_centre + blank / 2 - sqrt(2) * (ball / 2 + allowance)',
      words:
        'out to the sharp corner, along and across, less the way to a 45° line that just clears the ball',
    },
  ],
  why:
    'The corner of the blank stands furthest from the centre and would be struck first, a little at every turn. A 45° ' +
    'chamfer in the lathe takes most of it away in smooth cuts and leaves the ring far less to knock off.',
  conditions: [
    ...positive(BALL, BLANK, END),
    ...notNegative(ALLOWANCE),
    must(
      'blank',
      'the ball fits into the blank',
      (given) => given.number('blank') >= given.number('ball'),
      (given) =>
        `A ball of ${mm(given.number('ball'))} needs a blank of at least ${mm(given.number('ball'))}.`,
    ),
    must(
      'end_to_centre',
      'the blank reaches to the end of the ball',
      (given) => given.number('end_to_centre') >= given.number('ball') / 2,
      (given) =>
        `The ball ends ${mm(given.number('ball') / 2)} from its centre: give \`end_to_centre\` of at least that.`,
    ),
    must(
      'allowance',
      'there is a corner to take off',
      (given) => leg(given) > 0,
      (given) =>
        `The corner lies within ${mm(given.number('allowance'))} of the ball already: leave it, or allow less.`,
    ),
    must(
      'blank',
      'the chamfer ends on both faces',
      (given) => leg(given) < given.number('end_to_centre') && leg(given) < given.number('blank') / 2,
      (given) =>
        `A leg of ${mm(leg(given))} would run off the end of the blank or past the ball's centre: turn the blank to a ` +
        'smaller diameter or face it shorter first.',
    ),
  ],
  source: 'own derivation, plane and sphere geometry; confirmed by a numeric search for the nearest place',
  cautions: ['interrupted_cut', 'lathe'],
  picture: null,
  checks: [
    {
      call: 'corner_chamfer(22 mm, 22 mm, 11 mm, 0 mm)',
      expect: { '': 6.4436508139 },
      tolerance: 1e-6,
      source: 'numeric search for the nearest place of the chamfer',
    },
    {
      call: 'corner_chamfer(22 mm, 24 mm, 11.5 mm, 0.5 mm)',
      expect: { '': 7.23654403271 },
      tolerance: 1e-6,
      source: 'numeric search for the nearest place of the chamfer',
    },
  ],
};

export const BLANK_FORMULAS: readonly Formula[] = [cornerChamfer];
