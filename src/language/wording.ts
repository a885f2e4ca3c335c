/** The sheet says the same, so it stands with the engine. */
export {
  shown,
  shownIn,
  valueText,
  otherWays,
  differenceOf,
  bare,
  deviations,
  limitsOfSize,
  pair,
  capital,
} from '../engine/wording';
