/**
 * Morse tapers 0 to 6 (ISO 296). Taper for each foot and gauge-line diameter as printed tables of shanks have them; the
 * 1:x of the standard and the inch diameters, both from memory, agree within the last digit. Each number has its own angle.
 */
export interface MorseRow {
  /** Taper in inches for each foot. */
  readonly per_foot: number;
  /** Diameter at the gauge line, mm. */
  readonly gauge: number;
}

export const MORSE: readonly MorseRow[] = [
  { per_foot: 0.6246, gauge: 9.045 },
  { per_foot: 0.59858, gauge: 12.065 },
  { per_foot: 0.59941, gauge: 17.78 },
  { per_foot: 0.60235, gauge: 23.825 },
  { per_foot: 0.62326, gauge: 31.267 },
  { per_foot: 0.63151, gauge: 44.399 },
  { per_foot: 0.62565, gauge: 63.348 },
];
