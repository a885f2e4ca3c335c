/** All formulas, family by family, in the order of a job. Adding one touches its family's list only. */
import { BALL_FORMULAS } from './ball';
import { KNEE_FORMULAS } from './ball-knee';
import { CUTTING_FORMULAS } from './cutting';
import { SPEED_FORMULAS } from './speeds';
import type { Formula } from './formula';

export const FORMULAS: readonly Formula[] = [
  ...BALL_FORMULAS,
  ...KNEE_FORMULAS,
  ...SPEED_FORMULAS,
  ...CUTTING_FORMULAS,
];

const byName = new Map(FORMULAS.map((formula) => [formula.name, formula]));

export function formulaNamed(name: string): Formula | undefined {
  return byName.get(name);
}
