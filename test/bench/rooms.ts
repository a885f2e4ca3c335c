/**
 * What the benchmarks run, bundled and minified as it ships, the plain JavaScript beside it: through a test runner's own
 * module loading every call from file to file would cost more than it does for a machinist.
 */
export { Sheet, calculate } from '../../src/engine/index';
export { marks } from '../../src/language/diagnostics';
export { hint } from '../../src/language/hints';
export { readNote } from '../../src/notation/note';
export { siFactor } from '../../src/quantity/units';
export { bareChain, unitChain } from './plain';
