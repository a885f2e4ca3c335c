/** What the engine finds wrong or worth knowing, in words. */
import { type FindingKind, a, offers, word } from '../quantity/finding';
import { readingFindings } from './findings-readings';
import { kind, write, maybe, list, figure, withUnit, on } from './findings-text';

export const engineFindings: Readonly<Record<string, FindingKind>> = {
  // --- names -----------------------------------------------------------------------------------------------------
  'unknown-name': kind(
    'error',
    (d) =>
      `There is no figure \`${word(d, 'name')}\` in this note.${maybe(d, ` Give it one: \`${word(d, 'name')} = …\`.`)}`,
    'A figure is only as good as what it is worked out from, so every name must stand for something.',
  ),
  'unit-without-number': kind(
    'error',
    (d) => `\`${word(d, 'name')}\` is a unit and stands only after a number.${write(d)}`,
    'Units never act as figures, so that a name and a unit can never be taken for each other.',
  ),
  'thread-not-a-figure': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` names a thread, which is not one size. Write the size or the pitch that is meant as a length.`,
    'A thread has several diameters and a pitch; only a formula can say which of them is asked for.',
  ),
  'taper-not-a-figure': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` is a taper's call-out, not a figure. Give it to a formula that takes a taper, such as \`taper_callout(${word(d, 'name')})\`.`,
    'A taper stands for a slope, not for a size; only a formula can say which of its figures is asked for.',
  ),
  'unit-or-figure': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` is a unit and also a figure of this note: this can be read two ways. Write ${offers(d)}.`,
    'Dividing by a figure and stating a unit look alike here; only the writer knows which is meant.',
  ),
  'name-twice': kind(
    'error',
    (d) => `\`${word(d, 'name')}\` is given more than once in this note. Give one of them another name.`,
    'With two values for one name nobody can tell which one the rest of the note used.',
  ),
  cycle: kind(
    'error',
    (d) => {
      const names = list(d, 'names');
      if (!names.includes(',')) return `${names} needs itself. Give it a value that does not.`;
      const more = Number(d['more'] ?? 0);
      return `These figures need each other: ${names}${more > 0 ? ` and ${more} more` : ''}. Give one of them a value of its own.`;
    },
    'A figure that is worked out from itself has no value.',
  ),
  // --- signed results --------------------------------------------------------------------------------------------
  'signed-differs': kind(
    'warning',
    (d) =>
      `\`${word(d, 'name')}\` was signed${on(d)} as ${word(d, 'then')} and now comes out as ${word(d, 'now')}. Find what changed, then sign again.`,
    'What was signed is what the part was made to; a figure that moved since may mean a changed card, formula or plan.',
  ),
  'signed-gone': kind(
    'warning',
    (d) =>
      `\`${word(d, 'name')}\` was signed${on(d)} as ${word(d, 'then')} and has no value in this note any more. Put the figure back, or sign again.`,
    'A signed result must be found again in the note that it was signed for.',
  ),
  // --- fields and records ----------------------------------------------------------------------------------------
  'no-fields': kind(
    'error',
    (d) => `\`${word(d, 'of')}\` is a single value and has no \`.${word(d, 'field')}\`. Leave the field out.`,
    'Only the results of some formulas, cards and the job have parts.',
  ),
  'unknown-field': kind(
    'error',
    (d) => `\`${word(d, 'of')}\` has no \`.${word(d, 'field')}\`. It has ${list(d, 'known')}.${maybe(d)}`,
    'The parts of a result have fixed names.',
  ),
  'job-field-missing': kind(
    'error',
    (d) =>
      `The head of this note has no \`${word(d, 'field')}\`. Add \`${word(d, 'field')}: …\` between the \`---\` lines at its top.`,
    'Figures see the front matter as `job`.',
  ),
  'field-needed': kind(
    'error',
    (d) =>
      list(d, 'known') === ''
        ? `\`${word(d, 'text')}\` has no values yet: write one on its card.`
        : `\`${word(d, 'text')}\` has several values: ${list(d, 'known')}. Say which, for example ${offers(d)}.`,
    'A result with parts cannot be calculated with as a whole.',
  ),
  'words-do-not-calculate': kind(
    'error',
    (d) => `"${word(d, 'text')}" is words, not a number. Write the figure here instead.`,
    'Words are kept as they are and never read as numbers.',
  ),
  'list-does-not-calculate': kind(
    'error',
    (d) =>
      `\`${word(d, 'text')}\` is a list and cannot be calculated with as a whole. Use one of its values.`,
    'A list holds what a machine offers; arithmetic works on single figures.',
  ),
  'list-unit-twice': kind(
    'error',
    (d) =>
      `\`${word(d, 'item')}\` has a unit already. Leave out \`${word(d, 'unit')}\` after the list, or the units inside.`,
    'A list states its unit once: at each item or after the bracket.',
  ),
  'list-kinds-mixed': kind(
    'error',
    (d) =>
      `This is ${a(word(d, 'right'))} in a list where the first is ${a(word(d, 'left'))}. Give all items the same kind of unit.`,
    'A list is one kind of thing, such as the speeds of a machine.',
  ),
  ...readingFindings,
  // --- formulas --------------------------------------------------------------------------------------------------
  'unknown-formula': kind(
    'error',
    (d) =>
      `There is no formula \`${word(d, 'name')}\`.${maybe(d, ` For a product write \`${word(d, 'name')} * (…)\`.`)}`,
    'A name with a bracket straight after it is always a formula.',
  ),
  'argument-name-unknown': kind(
    'error',
    (d) =>
      `\`${word(d, 'formula')}\` has no \`${word(d, 'name')}\`.${list(d, 'known') === '' ? ' Leave the name out.' : ` It takes ${list(d, 'known')}.`}${maybe(d)}`,
    'Named arguments use the names of the formula.',
  ),
  'argument-count': kind(
    'error',
    (d) => {
      const [least, most] = [word(d, 'least'), word(d, 'most')];
      const wants = most === '' ? `${least} or more` : least === most ? least : `${least} to ${most}`;
      return `\`${word(d, 'formula')}\` takes ${wants} ${wants === '1' ? 'value' : 'values'}, not ${word(d, 'given')}. Add or take away what is too much or too little.`;
    },
    'A formula needs all its inputs and knows no others.',
  ),
  'argument-twice': kind(
    'error',
    (d) => `\`${word(d, 'name')}\` is given twice in this call. Take one away.`,
    'One input, one value.',
  ),
  'argument-missing': kind(
    'error',
    (d) =>
      `\`${word(d, 'formula')}\` still needs \`${word(d, 'name')}\`: ${word(d, 'meaning')}${word(d, 'unit') === '' ? '' : `, in ${word(d, 'unit')}`}. Add it.`,
    'A formula needs all its inputs.',
  ),
  'argument-kind': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` takes ${a(word(d, 'wanted'))}${word(d, 'unit') === '' ? '' : `, such as in ${word(d, 'unit')}`}, not ${a(word(d, 'given'))}.${write(d, ' Change it.')}`,
    'A formula works only on the kinds of things it was made for.',
  ),
  'whole-number-needed': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` is a count: write a whole number of one or more, not ${figure(d, 'value')}.`,
    'Teeth and divisions come in whole numbers.',
  ),
  'code-needed': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` takes a code (${word(d, 'meaning')}), not \`${word(d, 'text')}\`.${maybe(d, ' Write it alone.')}`,
    'A code or call-out stands for a line of a standard and has no unit.',
  ),
  'list-needed': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` takes a list such as \`[12.5, 40] ${word(d, 'unit')}\`, not \`${word(d, 'text')}\`.${write(d)}`,
    'Several readings that belong together stand in one list, in the order they were taken.',
  ),
  'word-needed': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` takes ${list(d, 'words').replace(/, (?=[^,]*$)/, ' or ')}, not \`${word(d, 'text')}\`.${maybe(d)}`,
    'The formula goes one of these ways and knows no other.',
  ),
  'card-needed': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` takes the name of a ${word(d, 'kind')} card; \`${word(d, 'text')}\` is none. Write the name of one from this note or from \`shop.md\`.`,
    'What a machine or material can do stands on its card.',
  ),
  'choice-at-limit': kind(
    'warning',
    (d) =>
      `\`${word(d, 'input')}\` at its limits would change \`.${word(d, 'field')}\` to ${list(d, 'choices')}. Check which one you will set.`,
    'A choice that depends on a tolerance is not settled yet.',
  ),
  // --- units and limits ------------------------------------------------------------------------------------------
  'to-needs-a-figure': kind(
    'error',
    (d) =>
      `Only a single figure can be shown in ${word(d, 'unit')}. Name one of its values, or leave out \`to\`.`,
    '`to` changes the unit of one value.',
  ),
  'sense-without-limits': kind(
    'error',
    (d) =>
      `\`${word(d, 'sense')}\` says which side of the limits has metal, but this line has no limits. Add them, for example \`± 0.05 mm\`.`,
    'Hole or shaft only matters for judging a reading.',
  ),
  'limits-need-a-figure': kind(
    'error',
    () => 'Limits belong to a single figure. Name one of its values, or leave the limits out.',
    'A result with several parts has no one size.',
  ),
  'limits-reversed': kind(
    'error',
    (d) => `The lower limit is above the upper one.${write(d, ' Write the upper deviation first.')}`,
    'Drawings state the upper deviation first; the other way round is usually a slip.',
  ),
  'limits-without-slash': kind(
    'error',
    (d) => `Two limits stand with a slash between them.${write(d)}`,
    'Without the slash these are a sum and a difference, and one number has no unit.',
  ),
  'limit-without-unit': kind(
    'error',
    (d) => `This limit has no unit and the size before it is worked out.${write(d)}`,
    'A limit may leave out its unit only behind a size that is written out.',
  ),
  'code-needs-length': kind(
    'error',
    (d) => `\`${word(d, 'code')}\` is a code for lengths. Write limits with a unit, for example \`± 0.5°\`.`,
    'ISO 286 covers lengths only.',
  ),
  'sense-contradicts-code': kind(
    'error',
    (d) =>
      `\`${word(d, 'code')}\` is a ${word(d, 'meant')}, not a ${word(d, 'sense')}: capital letters mean holes, small ones shafts. Take away \`${word(d, 'sense')}\` or change the letter.`,
    'In ISO 286 the letter says which of the two it is.',
  ),
  'code-on-inch-size': kind(
    'info',
    (d) =>
      `\`${word(d, 'code')}\` was looked up for ${figure(d, 'size')} mm: ${figure(d, 'upper')} and ${figure(d, 'lower')} µm.`,
    'ISO 286 is a metric table; on an inch size the millimetres used are worth a look.',
  ),
  'band-wider-than-asked': kind(
    'warning',
    (d) =>
      `The figures behind this scatter over ${withUnit(d, 'is')}, more than the ${withUnit(d, 'wanted')} asked here. Most comes from \`${word(d, 'input')}\` (${Math.round(Number(d['share'] ?? 0) * 100)} %).`,
    'Limits that the inputs cannot keep are a promise that cannot be kept.',
  ),
  // --- checks ----------------------------------------------------------------------------------------------------
  'check-fails': kind(
    'error',
    (d) =>
      `${word(d, 'comment') || `\`${word(d, 'text')}\` does not hold`}: ${withUnit(d, 'left')} ${word(d, 'comparison')} ${withUnit(d, 'right')} is false. Change a figure behind it.`,
    'The note itself asked for this to hold.',
  ),
  'check-not-over-band': kind(
    'warning',
    (d) =>
      `${word(d, 'comment') || `\`${word(d, 'text')}\``}: holds as planned (${withUnit(d, 'left')} ${word(d, 'comparison')} ${withUnit(d, 'right')}) but not over the whole of the limits.`,
    'Somewhere within what the limits allow this would fail.',
  ),
  // --- machines --------------------------------------------------------------------------------------------------
  'unknown-machine': kind(
    'error',
    (d) =>
      `There is no machine card \`${word(d, 'name')}\`.${maybe(d, list(d, 'known') === '' ? ' Write one in `shop.md`: a fence `machine NAME` with its limits.' : ` There is ${list(d, 'known')}.`)}`,
    'Figures on a machine are checked against its card.',
  ),
  'not-a-machine': kind(
    'error',
    (d) => `\`${word(d, 'name')}\` is a material card. Write the name of a machine after \`on\`.`,
    'Only a machine has speeds and feeds to check against.',
  ),
  'speed-outside-machine': kind(
    'error',
    (d) =>
      `${withUnit(d, 'value')} is ${d['over'] === true ? 'faster than the highest' : 'slower than the lowest'} speed of \`${word(d, 'machine')}\`, ${withUnit(d, 'limit')}. Change the cutting speed or the diameter, or use another machine.`,
    'A speed the machine does not have cannot be run; one above its limit is dangerous.',
  ),
  'speed-between-steps': kind(
    'warning',
    (d) =>
      `\`${word(d, 'machine')}\` has no ${withUnit(d, 'value')}: it runs ${withUnit(d, 'below')} or ${withUnit(d, 'above')}. Take the step with \`speed_step(…, ${word(d, 'machine')})\`, or note what was run with \`used\`.`,
    'A geared head runs only at its steps, so one of them has to be chosen.',
  ),
  'feed-outside-machine': kind(
    'error',
    (d) =>
      `${withUnit(d, 'value')} is ${d['over'] === true ? 'coarser than the coarsest' : 'finer than the finest'} feed of \`${word(d, 'machine')}\`, ${withUnit(d, 'limit')}. Choose a feed it has.`,
    'A feed the machine does not have cannot be set.',
  ),
  'feed-between-steps': kind(
    'warning',
    (d) =>
      `\`${word(d, 'machine')}\` has no feed of ${withUnit(d, 'value')}: it has ${withUnit(d, 'below')} and ${withUnit(d, 'above')}. Choose one, or note what was run with \`used\`.`,
    'A feed gearbox has only its steps.',
  ),
  'feed-rate-over-machine': kind(
    'error',
    (d) =>
      `${withUnit(d, 'value')} is more than the highest feed rate of \`${word(d, 'machine')}\`, ${withUnit(d, 'limit')}. Choose a smaller feed or speed.`,
    'A table that cannot move that fast will not.',
  ),
  'power-over-machine': kind(
    'error',
    (d) =>
      `${withUnit(d, 'value')} is more than \`${word(d, 'machine')}\` has at the ${d['atMotor'] === true ? 'motor' : 'cut'}, ${withUnit(d, 'limit')}. Take a lighter cut.`,
    'The motor stalls or the belt slips when the cut asks for more than the motor has after losses.',
  ),
  // --- cards -----------------------------------------------------------------------------------------------------
  'card-twice': kind(
    'error',
    (d) => `There are two cards \`${word(d, 'name')}\` in this file. Rename one or take it away.`,
    'With two cards of one name nobody can tell which limits apply.',
  ),
  'card-field-kind': kind(
    'error',
    (d) =>
      `\`${word(d, 'name')}\` on a card is ${word(d, 'meaning')}${d['list'] === true ? ', a list in square brackets' : ''}. Give it a value of that kind.`,
    'The notebook acts on this field and cannot use a value of another kind.',
  ),
  'card-field-unlikely': kind(
    'warning',
    (d) => `The notebook takes no limit from \`${word(d, 'name')}\`.${maybe(d)}`,
    'A limit with a slip in its name would quietly not apply.',
  ),
  'card-words-unclear': kind(
    'warning',
    (d) => `\`${word(d, 'name')}\` should say one of ${list(d, 'words')}, as in ${list(d, 'lines')}.`,
    'Formulas read these words off the card; a slide taken for the other kind spoils the work.',
  ),
  'not-in-card': kind(
    'error',
    () =>
      'A card holds only its own fields, `name = value` or `name: words`. Write this in a `figures` block.',
    'Cards state what a machine or material can do, for many notes.',
  ),
};
