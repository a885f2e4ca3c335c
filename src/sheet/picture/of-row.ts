/** The pictures that belong to a line. */
import type { Row } from '../../engine/index';
import type { View } from '../view';

export function pictureHtml(_row: Row, _view: View): string {
  return '';
}
