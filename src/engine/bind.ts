/** Finds the names a line looks up, before anything is evaluated. */
import type { CallNode, Expression, Statement } from '../notation/syntax';
import type { Entry, Lookup } from './graph';

/** Fields that ask for what was measured or used, not for a part of the value. */
const RECORD_FIELDS: ReadonlySet<string> = new Set(['reading', 'readings', 'mean', 'used']);

export function isRecordField(field: string): boolean {
  return RECORD_FIELDS.has(field);
}

export interface Binding {
  readonly lookups: readonly Lookup[];
  readonly steps: readonly Entry[];
}

const NONE: readonly never[] = [];
const NOTHING: Binding = { lookups: NONE, steps: NONE };

/** The name and fields of a chain such as `setup.ring.used`, or null when its root is not a plain name. */
export function chainOf(expression: Expression): readonly string[] | null {
  if (expression.kind === 'name') return [expression.name];
  if (expression.kind !== 'field') return null;
  const inner = chainOf(expression.of);
  return inner && [...inner, expression.field];
}

/** A list that is kept for as long as its line: without the room to grow that a list filled step by step has. */
function kept<T>(list: readonly T[]): readonly T[] {
  return list.length === 0 ? NONE : list.slice();
}

/** What the line looks up. `entryOf` gives the entry of a name, made on first mention. */
export function bind(statement: Statement, entryOf: (name: string) => Entry): Binding {
  const lookups: Lookup[] = [];
  const steps: Entry[] = [];
  const visit = (e: Expression): void => {
    switch (e.kind) {
      case 'quantity':
        for (const word of e.tail)
          lookups.push({ entry: entryOf(word.text), field: null, want: 'existence' });
        return;
      case 'name':
        lookups.push({ entry: entryOf(e.name), field: null, want: 'value' });
        return;
      case 'field':
        visitField(e);
        return;
      case 'call':
        visitCall(e);
        return;
      case 'negate':
      case 'group':
        visit(e.of);
        return;
      case 'binary':
        visit(e.left);
        visit(e.right);
        return;
      case 'list':
        e.items.forEach(visit);
    }
  };
  const visitField = (e: Expression & { kind: 'field' }): void => {
    const chain = isRecordField(e.field) ? chainOf(e.of) : null;
    if (chain) lookups.push({ entry: entryOf(chain.join('.')), field: e.field, want: 'records' });
    else if (e.of.kind === 'name') lookups.push({ entry: entryOf(e.of.name), field: e.field, want: 'value' });
    else visit(e.of);
  };
  const visitCall = (e: CallNode): void => {
    const first = e.arguments[0];
    if (e.name.text === 'speed_step') {
      const speed = e.arguments.find((a) => a.name?.text === 'spindle_speed') ?? first;
      if (speed?.value.kind === 'name') steps.push(entryOf(speed.value.name));
    }
    for (const argument of e.arguments) visit(argument.value);
  };
  switch (statement.kind) {
    case 'figure':
    case 'show':
      visit(statement.expression);
      break;
    case 'check':
      statement.terms.forEach(visit);
      break;
    case 'reading':
    case 'used':
      // Judged against the plan, which their own value does not depend on.
      return NOTHING;
    default:
      return NOTHING;
  }
  return lookups.length === 0 ? NOTHING : { lookups: kept(lookups), steps: kept(steps) };
}
