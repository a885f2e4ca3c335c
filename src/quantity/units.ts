/** The door to the units: looking them up, naming them, and moving between metric and inch. */
export * from './unit-lookup';
export * from './unit-names';
export * from './unit-systems';
export { currencies } from './currencies';
