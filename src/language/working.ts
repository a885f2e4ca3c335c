/** The sheet says the same, so it stands with the engine. */
export { type WorkingStep, type Conversion, workedOut, workingOf, workingOfCall } from '../engine/working';
