/** The engine's door: what the rooms above may use. */
export { CATALOGUE } from './catalogue';
export { KNOWN_FIELDS, type KnownField } from './cards';
export { parameterDimension } from './call';
export type {
  Asked,
  CardInForce,
  CheckResult,
  Finding,
  Place,
  Range,
  ReadingResult,
  Related,
  Row,
  Shop,
} from './results';
export { Sheet, calculate, calculateLines } from './sheet';
export { isolated } from './direction';
export { machineCautions } from './machine-cautions';
export { planned, recordedOf, valueNow } from './planned';
export { NOTHING, lastSigned, signedLines } from './signed';
export { literalOf } from './statement';
export { STARTER_CARDS } from './starter-cards';
