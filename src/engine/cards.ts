/** Cards: what a machine or a material can do, as fields that figures are judged against. */
import {
  type Dimension,
  FEED_PER_TURN,
  LENGTH,
  NUMBER,
  POWER,
  PRESSURE,
  SPEED,
  TURN_RATE,
  DENSITY,
} from '../quantity/dimension';
import { dimension } from '../quantity/dimension';
import type { CardView, List, Quantity, RecordValue, Text } from '../quantity/value';
import type { Block } from '../notation/syntax';
import type { Sheet } from './sheet';

export interface Card extends CardView {
  readonly value: RecordValue;
  /** The card's own sheet: its lines are figures that see only each other. */
  readonly inner: Sheet;
  /** Shop file it stands in; null for the note's own. */
  readonly file: string | null;
  readonly builtIn: boolean;
  /** Where it stands now; a card keeps its identity when it moves. */
  block: Block;
}

export interface KnownField {
  readonly name: string;
  readonly word: 'machine' | 'material';
  readonly dimension: Dimension;
  readonly list: boolean;
  readonly meaning: string;
}

const machine = (name: string, of: Dimension, meaning: string, list = false): KnownField => ({
  name,
  word: 'machine',
  dimension: of,
  list,
  meaning,
});
const material = (name: string, of: Dimension, meaning: string): KnownField => ({
  name,
  word: 'material',
  dimension: of,
  list: false,
  meaning,
});

/** Fields that the notebook acts on. A card may hold others; these must be of the right kind. */
export const KNOWN_FIELDS: readonly KnownField[] = [
  machine('speeds', TURN_RATE, 'spindle speeds of a geared head, in rpm', true),
  machine('min_speed', TURN_RATE, 'lowest spindle speed, in rpm'),
  machine('max_speed', TURN_RATE, 'highest spindle speed, in rpm'),
  machine('feeds', FEED_PER_TURN, 'feeds per revolution that can be set', true),
  machine('max_feed_rate', SPEED, 'highest feed rate, in mm/min'),
  machine('power', POWER, 'rated power of the motor'),
  machine('efficiency', NUMBER, 'part of the power that reaches the cut'),
  machine('ratio', NUMBER, 'crank turns for one turn of the work'),
  machine('plates', NUMBER, 'hole circles of the index plates', true),
  machine('circles_per_plate', NUMBER, 'how many of the circles each plate carries, in their order', true),
  machine('lead_screw', LENGTH, 'pitch of the lead screw'),
  machine('stud_ratio', NUMBER, 'turns of the gear stud for one of the spindle, 1 unless given'),
  machine('gears', NUMBER, 'change gears of the set, by their teeth', true),
  machine('knee_per_turn', LENGTH, 'travel of the knee for one turn of its handle'),
  machine('knee_divisions', NUMBER, 'divisions on the knee dial'),
  machine('knee_backlash', LENGTH, 'travel lost in the knee screw when its handle turns back'),
  machine('table_per_turn', LENGTH, 'travel of the table for one turn of its handle'),
  machine('table_divisions', NUMBER, 'divisions on the table dial'),
  machine('table_backlash', LENGTH, 'travel lost in the table screw when its handle turns back'),
  machine('saddle_per_turn', LENGTH, 'travel of the saddle for one turn of its handle'),
  machine('saddle_divisions', NUMBER, 'divisions on the saddle dial'),
  machine('saddle_backlash', LENGTH, 'travel lost in the saddle screw when its handle turns back'),
  machine('diameter_per_turn', LENGTH, 'change of diameter for one turn of the screw of a boring head'),
  machine('head_divisions', NUMBER, 'divisions on the dial of a boring head'),
  machine('rate', dimension({ money: 1, time: -1 }), 'what an hour on the machine costs'),
  material('density', DENSITY, 'mass per volume'),
  material('expansion', dimension({ temperature: -1 }), 'growth of each metre for each kelvin, in µm/m/K'),
  material('modulus', PRESSURE, 'modulus of elasticity'),
  material('specific_force', PRESSURE, 'specific cutting force kc1.1'),
  material('force_exponent', NUMBER, 'exponent mc of the specific cutting force'),
  material('hss_speed', SPEED, 'starting cutting speed with high-speed steel'),
  material('carbide_speed', SPEED, 'starting cutting speed with carbide'),
];

/** Whether a field's value is of the kind the notebook acts on; `rate` is money per time in any currency. */
export function fieldFits(known: KnownField, value: Quantity | List | Text): boolean {
  if (known.name === 'rate') return value.kind === 'number' && value.dimension.currency !== null;
  if (value.kind === 'number') return value.dimension === known.dimension;
  return (
    known.list && value.kind === 'list' && value.items.every((item) => item.dimension === known.dimension)
  );
}
