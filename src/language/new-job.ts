/** A new job's note: its place, its head, and blocks that calculate from the first moment. */
import { type Sheet, type Shop, calculate } from '../engine/index';
import { type Lines, ballJob, emptyJob, indexedJob, turnedJob } from './new-job-kinds';

export const JOB_KINDS = ['ball', 'turned', 'indexed', 'empty'] as const;
export type JobKind = (typeof JOB_KINDS)[number];

export interface JobAnswers {
  readonly customer: string;
  readonly part: string;
  /** Names of cards; null for not decided yet. */
  readonly material: string | null;
  readonly machine: string | null;
  readonly kind: JobKind;
  readonly number: string;
  readonly units: 'mm' | 'in';
}

const KINDS: Record<JobKind, (job: JobAnswers, sheet: Sheet) => Lines> = {
  ball: ballJob,
  turned: turnedJob,
  indexed: indexedJob,
  empty: emptyJob,
};

/**
 * The note, with the shop files in force where it will lie. A machine that cannot run the first values, such as a lathe
 * that turns no slower, is left out of them rather than put a finding into a note that nobody has touched yet.
 */
export function newJob(job: JobAnswers, shops: readonly Shop[]): string {
  const cards = calculate('', shops);
  const note = written(job, cards);
  return calculate(note, shops).findings().length === 0 ? note : written({ ...job, machine: null }, cards);
}

function written(job: JobAnswers, cards: Sheet): string {
  const head = [
    '---',
    `job: ${job.number}`,
    `customer: ${yaml(job.customer)}`,
    `part: ${yaml(job.part)}`,
    'quantity: 1',
    ...(job.material === null ? [] : [`material: ${job.material}`]),
    ...(job.units === 'in' ? ['units: in'] : []),
    'status: planned',
    '---',
  ];
  const title = job.part.trim() === '' ? 'New job' : job.part.trim();
  return [...head, '', `# ${title}`, '', ...KINDS[job.kind](job, cards), ''].join('\n');
}

/** Text as YAML reads it back: in quotes where a sign could mean something. */
function yaml(text: string): string {
  const plain = text.trim().replace(/\s+/g, ' ');
  const safe = /^[\p{L}\p{N}][\p{L}\p{N} .,()/&+-]*$/u.test(plain);
  return plain === '' ? '' : safe ? plain : JSON.stringify(plain);
}

/** Digits of a job's number; it grows when they are used up. */
const DIGITS = 4;

/**
 * The number after the highest with which a file's name begins, or that stands in the number's place of the layout, such as
 * in the folder's name of `jobs/${number}/${part}.md`. Paths are those in the workspace, with `/`.
 */
export function nextNumber(paths: readonly string[], layout = ''): string {
  const placed = numberIn(layout);
  const used = paths.flatMap((path) => {
    const name = path.slice(path.lastIndexOf('/') + 1);
    const digits = placed?.exec(path)?.[1] ?? /^(\d{3,6})(?=\D)/.exec(name)?.[1];
    return digits === undefined ? [] : [Number(digits)];
  });
  return String(Math.max(0, ...used) + 1).padStart(DIGITS, '0');
}

/** What paths by a layout look like, the number in brackets; null where it has none. */
function numberIn(layout: string): RegExp | null {
  const pieces = layout
    .replace(/^[./\\]+/, '')
    .replaceAll('\\', '/')
    .split('${number}');
  if (pieces.length < 2) return null;
  const any = (piece: string): string =>
    piece
      .split(/\$\{\w+\}/)
      .map((words) => words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
      .join('[^/]*');
  const [before = '', ...after] = pieces.map(any);
  return new RegExp(`^${before}(\\d{3,6})${after.join('\\d{3,6}')}`);
}

/** The note's path in the workspace by the layout of the settings. Never leads out of the workspace. */
export function jobPath(
  layout: string,
  { number, part, year }: { number: string; part: string; year: string },
): string {
  const parts = new Map([
    ['number', number],
    ['part', slug(part)],
    ['year', year],
  ]);
  const path = layout
    .replace(/\$\{(\w+)\}/g, (all, name: string) => parts.get(name) ?? all)
    .split(/[\\/]+/)
    .map((piece) => piece.trim().replace(/[<>:"|?*]/g, '-'))
    .filter((piece) => piece !== '' && !/^\.+$/.test(piece))
    .join('/');
  const file = path === '' ? `${number}-${slug(part)}` : path;
  return /\.md$/i.test(file) ? file : `${file}.md`;
}

/** A file's name from words: `Lever, ball end` becomes `lever-ball-end`. */
function slug(words: string): string {
  const made = words
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+/, '');
  return made === '' ? 'job' : made.slice(0, MOST_SLUG).replace(/-+$/, '');
}

const MOST_SLUG = 60;
