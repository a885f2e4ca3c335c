/** Lines of code that one note may hold, all fences together. */
export const MAX_CODE_LINES = 100_000;
/** UTF-16 units of front matter. */
export const MAX_FRONT_MATTER = 10_000;
/** Brackets in it, marks in one of its lines, or blanks before one: fields within fields. */
export const MAX_FRONT_DEPTH = 100;
