/** All formulas, family by family, in the order of a job. Adding one touches its family's list only. */
import { BALL_FORMULAS } from './ball';
import { BLANK_FORMULAS } from './ball-blank';
import { BOSS_FORMULAS } from './ball-boss';
import { CLEARANCE_FORMULAS } from './ball-clearance';
import { DOUBT_FORMULAS } from './ball-doubt';
import { FEED_FORMULAS } from './ball-feed';
import { KNEE_FORMULAS } from './ball-knee';
import { PASS_FORMULAS } from './ball-passes';
import { RESULT_FORMULAS } from './ball-result';
import { ROUGH_FORMULAS } from './ball-rough';
import { ROUNDNESS_FORMULAS } from './ball-roundness';
import { SEAT_FORMULAS } from './ball-seat';
import { SENSITIVITY_FORMULAS } from './ball-sensitivity';
import { TOUCH_FORMULAS } from './ball-touch';
import { TURNING_FORMULAS } from './ball-turning';
import { CHIP_FORMULAS } from './chip-thickness';
import { CUTTING_FORMULAS } from './cutting';
import { FORCE_FORMULAS } from './cutting-force';
import { FINISH_FORMULAS } from './finish';
import { FIT_FORMULAS } from './fits';
import type { Formula } from './formula';
import { INDEXING_FORMULAS } from './indexing';
import { COMPOUND_FORMULAS } from './indexing-compound';
import { DIFFERENTIAL_FORMULAS } from './indexing-differential';
import { MOVES_FORMULAS } from './indexing-moves';
import { SPACING_FORMULAS } from './indexing-spacing';
import { INTERRUPTED_FORMULAS } from './interrupted';
import { MECHANICS_FORMULAS } from './mechanics';
import { REMOVAL_FORMULAS } from './removal';
import { SETUP_FORMULAS } from './setup';
import { SPEED_FORMULAS } from './speeds';
import { STARTING_FORMULAS } from './starting-feeds';
import { TAPPING_FORMULAS } from './starting-taps';

export const FORMULAS: readonly Formula[] = [
  ...BALL_FORMULAS,
  ...KNEE_FORMULAS,
  ...TOUCH_FORMULAS,
  ...PASS_FORMULAS,
  ...RESULT_FORMULAS,
  ...BLANK_FORMULAS,
  ...ROUGH_FORMULAS,
  ...ROUNDNESS_FORMULAS,
  ...SENSITIVITY_FORMULAS,
  ...DOUBT_FORMULAS,
  ...BOSS_FORMULAS,
  ...CLEARANCE_FORMULAS,
  ...FEED_FORMULAS,
  ...SEAT_FORMULAS,
  ...TURNING_FORMULAS,
  ...SETUP_FORMULAS,
  ...INDEXING_FORMULAS,
  ...DIFFERENTIAL_FORMULAS,
  ...COMPOUND_FORMULAS,
  ...MOVES_FORMULAS,
  ...SPACING_FORMULAS,
  ...SPEED_FORMULAS,
  ...CUTTING_FORMULAS,
  ...FINISH_FORMULAS,
  ...CHIP_FORMULAS,
  ...FORCE_FORMULAS,
  ...REMOVAL_FORMULAS,
  ...STARTING_FORMULAS,
  ...TAPPING_FORMULAS,
  ...INTERRUPTED_FORMULAS,
  ...FIT_FORMULAS,
  ...MECHANICS_FORMULAS,
];

const byName = new Map(FORMULAS.map((formula) => [formula.name, formula]));

export function formulaNamed(name: string): Formula | undefined {
  return byName.get(name);
}
