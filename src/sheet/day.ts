/** The day at the place where this runs, as notes write it: `2026-11-25`. */
export function dayOf(now: Date): string {
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
