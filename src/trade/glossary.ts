/** Words of the trade, explained in our own words for somebody in the first year. From common practice. */

export interface Term {
  readonly word: string;
  /** Other ways it is written, in small letters. Plurals with `s` need not be listed. */
  readonly also?: readonly string[];
  readonly means: string;
}

export const GLOSSARY: readonly Term[] = [
  {
    word: 'allowance',
    means: 'Metal left on purpose for a later cut, or the gap planned between two parts.',
  },
  {
    word: 'backlash',
    means:
      'The slack of a screw or a worm: the handle turns a little before anything moves. Taken out by always coming to a setting from the same side.',
  },
  { word: 'blank', means: 'The piece of stock cut off for a part, before its shape is made.' },
  {
    word: 'boring head',
    also: ['boring_head'],
    means:
      'A holder in the mill spindle whose tool can be set off centre by a screw, so that its tip describes a circle of any size in its range.',
  },
  { word: 'boss', means: 'A short round stub standing proud of a face.' },
  { word: 'burr', means: 'The sharp lip that a cut pushes up at an edge. Taken off before measuring.' },
  {
    word: 'carbide',
    means:
      'A hard, brittle tool material that bears several times the speed of high-speed steel but dislikes knocks.',
  },
  { word: 'chamfer', means: 'An edge cut off at an angle.' },
  {
    word: 'chatter',
    also: ['sang', 'sing'],
    means:
      'The cut shaking in its own rhythm: it sings and leaves waves. Less overhang, less speed, more feed or more support stop it.',
  },
  { word: 'chord', means: 'The straight line from one point of a circle to another.' },
  { word: 'chuck', means: 'The clamp with jaws that holds work or tool on a spindle.' },
  {
    word: 'climb milling',
    also: ['climb'],
    means: 'The cutter turns the way the work goes and pulls it along. Where there is slack it snatches.',
  },
  {
    word: 'compound slide',
    also: ['compound_slide'],
    means: 'The small upper slide of a lathe, which can be set to an angle.',
  },
  { word: 'crank', means: 'The handle of a dividing head; its pin drops into holes of the plate.' },
  {
    word: 'cross slide',
    also: ['cross_slide'],
    means: 'The slide of a lathe that moves across the bed, square to the spindle.',
  },
  {
    word: 'cutting speed',
    also: ['cutting_speed'],
    means: 'How fast the edge and the metal pass each other, in metres or feet per minute.',
  },
  {
    word: 'dividing head',
    also: ['dividing_head'],
    means:
      'A holder that turns work by exact parts of a circle, through a worm, a crank and a plate with holes.',
  },
  { word: 'dog', means: 'The clamp on work between centres that the face plate drives.' },
  {
    word: 'drawing',
    means: 'The agreed description of the part. Where the note and the drawing differ, ask.',
  },
  {
    word: 'edge finder',
    means: 'A tool in the spindle that shows when it just touches an edge, so that zero can be set.',
  },
  { word: 'facet', means: 'A flat cut on a corner of a blank.' },
  {
    word: 'feed',
    means: 'How far tool or work moves along: for each revolution, for each tooth, or in a minute.',
  },
  { word: 'fillet', means: 'A rounded inner corner.' },
  { word: 'fit', means: 'How two parts go together: with play, with force, or somewhere between.' },
  {
    word: 'high-speed steel',
    also: ['hss', 'hss_speed'],
    means: 'Tool steel that stays hard when hot and bears knocks; slower than carbide.',
  },
  { word: 'hole circle', means: 'One ring of evenly spaced holes on an index plate.' },
  {
    word: 'indexing',
    also: ['indexing_moves', 'plain_indexing', 'differential_indexing'],
    means: 'Turning the work by equal parts of a circle and holding it there for each cut.',
  },
  {
    word: 'interrupted cut',
    means: 'A cut that is in the metal for only a part of each turn, and knocks each time it comes in.',
  },
  { word: 'knee', means: 'The part of the mill that carries the table and is wound up and down.' },
  { word: 'limits', means: 'The largest and the smallest size that a part may have.' },
  { word: 'live centre', means: 'A point in the tailstock that turns with the work and holds its end.' },
  { word: 'neck', means: 'The thinner place where a ball or a head joins its shank.' },
  { word: 'nominal', means: 'The size by which a part is called, from which limits are counted.' },
  { word: 'nose radius', also: ['nose_radius'], means: 'The rounding of a tool at its tip.' },
  {
    word: 'overhang',
    also: ['stick_out'],
    means: 'How far work or tool stands out from what holds it. Stiffness falls with its cube.',
  },
  { word: 'parting', means: 'Cutting a piece off with a narrow tool.' },
  { word: 'pass', means: 'One cut from start to end. Several passes reach a size.' },
  {
    word: 'plate',
    means: 'Of a dividing head: the disc with circles of holes in which the pin of the crank is held.',
  },
  { word: 'quill', means: 'The sleeve that carries the spindle of a mill or drill up and down.' },
  { word: 'ratchet', means: 'A wheel with slanted teeth that a pawl lets turn one way only.' },
  { word: 'ring', means: 'The circle that the tip of a boring-head tool describes.' },
  {
    word: 'roughness',
    also: ['theoretical_roughness'],
    means: 'The height of the ridges that a cut leaves.',
  },
  { word: 'running fit', means: 'A fit with enough play to turn freely with oil between.' },
  {
    word: 'sector arms',
    also: ['sector arm'],
    means:
      'Two arms on an index plate set to span the holes of one move, so that nobody counts them each time.',
  },
  {
    word: 'set-over',
    also: ['tailstock_setover', 'set_over'],
    means:
      'Moving the tailstock sideways so that work between centres is turned tapered, or a taper is taken out.',
  },
  { word: 'shank', means: 'The straight part by which a tool or a part is held.' },
  {
    word: 'sine bar',
    also: ['sine_bar', 'sine_rise'],
    means:
      'A bar on two rollers at an exact distance: raised at one end by blocks it stands at an exact angle.',
  },
  { word: 'spigot', means: 'A short round end that fits into a hole and locates the part.' },
  { word: 'steady', means: 'A support that keeps long work from bending away from the tool.' },
  { word: 'stock', means: 'The material before it is cut; also what is still left on a surface.' },
  {
    word: 'swarf',
    also: ['chips'],
    means: 'What the cut takes off. Sharp and hot: hook or brush, never the hand.',
  },
  { word: 'tailstock', means: 'The part of a lathe that holds the far end of the work.' },
  { word: 'taper', means: 'A diameter that grows evenly along the length.' },
  { word: 'tilt', means: 'The angle to which head or work is leaned over.' },
  { word: 'tolerance', means: 'The difference between the largest and the smallest size allowed.' },
  {
    word: 'touching off',
    also: ['first touch', 'first_touch', 'touched'],
    means: 'Bringing the tool to the work until it only just touches, to know where zero is.',
  },
  {
    word: 'worm',
    means:
      'The screw that drives the wheel of a dividing head; forty turns of it are usually one turn of the work.',
  },
];

/** How each term is written, the longest first, so that `sector arms` is not found as something shorter. */
const FORMS: readonly (readonly [form: string, term: Term])[] = GLOSSARY.flatMap((term) =>
  [term.word, ...(term.also ?? [])].map((form) => [form, term] as const),
).sort(([a], [b]) => b.length - a.length);

const PATTERN = new RegExp(
  `(?<![\\p{L}\\p{N}_])(?:${FORMS.map(([form]) => form).join('|')})(?:e?s)?(?![\\p{L}\\p{N}_])`,
  'giu',
);

/** Terms that a text uses, each once, by the alphabet. */
export function wordsUsed(text: string): readonly Term[] {
  const found = new Set<Term>();
  for (const [match] of text.matchAll(PATTERN)) {
    const term = termOf(match);
    if (term) found.add(term);
  }
  return [...found].sort((a, b) => (a.word < b.word ? -1 : 1));
}

export interface TermAt {
  readonly term: Term;
  readonly start: number;
  readonly end: number;
}

/** The term that stands at an offset of a text. */
export function termAt(text: string, offset: number): TermAt | null {
  for (const match of text.matchAll(PATTERN)) {
    const [start, end] = [match.index, match.index + match[0].length];
    const term = start <= offset && offset <= end ? termOf(match[0]) : undefined;
    if (term) return { term, start, end };
  }
  return null;
}

function termOf(written: string): Term | undefined {
  const small = written.toLowerCase();
  return FORMS.find(([form]) => small === form || small === `${form}s` || small === `${form}es`)?.[1];
}
