/** The sheet says the same, so it stands with the engine. */
export { type Put, substituted } from '../engine/substitute';
