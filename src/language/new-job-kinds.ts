/**
 * What the note of a new job begins with, by the kind of work. Sizes are first values to be replaced by the drawing's; the
 * figures that follow from them are worked out, and blocks on a machine ask only for what its card has.
 */
import type { Sheet } from '../engine/index';
import { type Dimension, SPEED, TURN_RATE } from '../quantity/dimension';
import type { CardView } from '../quantity/value';
import type { JobAnswers } from './new-job';

export type Lines = readonly string[];

const FENCE = '```';
const FIRST_VALUES = 'The sizes are first values: put in what the drawing asks.';

function section(title: string, ...lines: Lines): Lines {
  return [`## ${title}`, '', ...lines, ''];
}

function block(on: string | null, ...lines: Lines): Lines {
  return [`${FENCE}figures${on === null ? '' : ` on ${on}`}`, ...lines, FENCE];
}

/** The cutting speed of the job's material with high-speed steel, or one for mild steel (common practice) to begin with. */
function cuttingSpeed({ material }: JobAnswers, sheet: Sheet): string {
  return has(sheet, material, 'hss_speed', SPEED)
    ? `${material}.hss_speed`
    : '25 m/min            # mild steel with high-speed steel';
}

type Fields = CardView['fields'];

function fieldOf(sheet: Sheet, card: string | null, field: string): ReturnType<Fields['get']> {
  return card === null ? undefined : sheet.card(card)?.fields.get(field);
}

function has(sheet: Sheet, card: string | null, field: string, dimension: Dimension): card is string {
  const value = fieldOf(sheet, card, field);
  const first = value?.kind === 'list' ? value.items[0] : value;
  return first?.kind === 'number' && first.dimension === dimension;
}

/** Speed lines for a diameter: held to the machine's steps where it has some. */
function speeds(job: JobAnswers, sheet: Sheet, diameter: string, part = ''): Lines {
  const machine = onMachine(job, sheet);
  const wish = [`cut    = ${cuttingSpeed(job, sheet)}`, `wish   = spindle_speed(${part}cut, ${diameter})`];
  return machine === null ? wish : [...wish, `speed  = speed_step(wish, ${machine})`];
}

/** The block may stand `on` the machine only if every wish can be brought within what it has. */
function onMachine(job: JobAnswers, sheet: Sheet): string | null {
  return has(sheet, job.machine, 'speeds', TURN_RATE) ? job.machine : null;
}

function weight({ material }: JobAnswers, sheet: Sheet): Lines {
  if (material === null || !fieldOf(sheet, material, 'density')) return [];
  return [`weight = job.quantity * pi / 4 * bar^2 * blank * ${material}.density to kg`];
}

function blank(job: JobAnswers, sheet: Sheet, bar: string): Lines {
  return section(
    'Blank',
    ...block(
      null,
      `bar    = ${bar}`,
      'blank  = overall + 2 * 1.5 mm      # to face, each end',
      'bar > widest',
      ...weight(job, sheet),
    ),
  );
}

const INSPECTION = section(
  'Measured and inspected',
  'Readings go below: `ball measured 25.32 mm` says what is left to take off, `ball final 25.01 mm` whether it is inside.',
  '',
  ...block(null, '# readings'),
);

export function ballJob(job: JobAnswers, sheet: Sheet): Lines {
  return [
    FIRST_VALUES,
    '',
    ...section(
      'What is asked',
      ...block(
        null,
        'ball    = 25 mm ± 0.05 mm shaft',
        'neck    = 12 mm',
        'overall = 100 mm ± 0.5 mm',
        'widest  = ball',
      ),
    ),
    ...blank(job, sheet, '28 mm'),
    ...section(
      'Head and ring',
      'The work is tilted in the dividing head, free end up; the cutter in the boring head runs in a ring.',
      '',
      ...block(
        onMachine(job, sheet),
        'setup  = ball_on_shank(25 mm, neck)',
        'ring   = setup.ring ± 0.05 mm',
        'height = ball_height(25 mm, setup.ring)',
        'rise   = sine_rise(setup.tilt, 100 mm)   # over 100 mm, to set the head with an indicator',
        ...speeds(job, sheet, 'setup.ring', '0.65 * '),
      ),
    ),
    ...INSPECTION,
  ];
}

export function turnedJob(job: JobAnswers, sheet: Sheet): Lines {
  return [
    FIRST_VALUES,
    '',
    ...section(
      'What is asked',
      ...block(null, 'seat    = 25 mm h7', 'overall = 120 mm ± 0.3 mm', 'widest  = seat'),
    ),
    ...blank(job, sheet, '30 mm'),
    ...section(
      'Turning',
      ...block(
        onMachine(job, sheet),
        ...speeds(job, sheet, 'bar'),
        `feed   = ${feed(job, sheet)}`,
        `rate   = feed_rate(feed, ${onMachine(job, sheet) === null ? 'wish' : 'speed'})`,
        'time   = cutting_time(blank, rate)',
        'cuts   = cutting_passes((bar - 25 mm) / 2, 1 mm)',
      ),
    ),
    ...INSPECTION.map((line) => line.replaceAll('ball', 'seat').replace('25.01', '24.99')),
  ];
}

/** The machine's feed in the middle of its steps; a fine one for turning (common practice) where it names none. */
function feed({ machine }: JobAnswers, sheet: Sheet): string {
  const feeds = fieldOf(sheet, machine, 'feeds');
  const items = feeds?.kind === 'list' ? feeds.items : [];
  const middle = items[Math.floor((items.length - 1) / 2)];
  return middle
    ? `${Number((middle.value / middle.unit.factor).toPrecision(12))} ${middle.unit.symbol}`
    : '0.1 mm/rev';
}

export function indexedJob(job: JobAnswers, sheet: Sheet): Lines {
  const head = dividingHead(job, sheet);
  const indexing =
    head === null
      ? ['# write the card of the dividing head in shop.md: `ratio` and `plates`', 'part_turn = 360° / slots']
      : [`plate     = plain_indexing(slots, ${head})`, `moves     = indexing_moves(slots, ${head})`];
  return [
    FIRST_VALUES,
    '',
    ...section(
      'What is asked',
      ...block(
        null,
        'slots   = 6',
        'outside = 60 mm ± 0.1 mm shaft',
        'overall = 20 mm ± 0.2 mm',
        'widest  = outside',
      ),
    ),
    ...blank(job, sheet, '65 mm'),
    ...section(
      'Indexing',
      ...block(null, ...indexing, 'over      = division_chord(60 mm, slots)   # from slot to slot'),
    ),
    ...section(
      'Cutter',
      ...block(onMachine(job, sheet), 'cutter = 50 mm', ...speeds(job, sheet, 'cutter', '0.7 * ')),
    ),
    ...INSPECTION.map((line) => line.replaceAll('ball', 'outside').replaceAll('25.', '60.')),
  ];
}

/** The machine itself when it divides, else the shop's first card that does. */
function dividingHead({ machine }: JobAnswers, sheet: Sheet): string | null {
  const heads = sheet.cards().filter(({ fields }) => fields.has('ratio') && fields.has('plates'));
  return (heads.find(({ name }) => name === machine) ?? heads[0])?.name ?? null;
}

export function emptyJob(job: JobAnswers, sheet: Sheet): Lines {
  return section('Figures', ...block(onMachine(job, sheet), 'size = 25 mm ± 0.05', 'size to in'));
}
