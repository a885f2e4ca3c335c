/** Units of a note whose head does not name them. */
import type { Note } from './syntax';

/** The note as if its head named these units, unless it names some. Millimetres are what is meant anyway. */
export function inUsualUnits<N extends Pick<Note, 'front'>>(note: N, units: 'mm' | 'in'): N {
  if (units === 'mm' || note.front.has('units')) return note;
  const field = { key: 'units', text: units, line: 0, column: 0, endColumn: 0 };
  return { ...note, front: new Map([...note.front, ['units', field]]) };
}
