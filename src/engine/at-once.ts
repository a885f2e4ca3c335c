/**
 * Figures that have their value at once, as they are read, and need nobody to watch what they look up: most of a note. All
 * that is kept of one is its value by its name, until something changes or somebody asks for more.
 */
import type { Value } from '../quantity/value';
import type { Statement } from '../notation/syntax';
import { type SheetBlock, lineOf } from './blocks';
import { Evaluation, type Scope } from './evaluate';
import type { Entry } from './graph';
import { Node, type NodeBlock } from './node';
import type { Asked } from './results';
import { evaluateNode, figure, nominalOf } from './statement';

/**
 * What such a figure may look at: figures that have their value, and pi. A card, a reading or the job may still come to mean
 * something else while the rest of the note is read; a figure may not, but by another of its name.
 */
export class FiguresOnly implements Scope {
  private readonly evaluation = new Evaluation(this, '');
  private askedForMore = false;
  /** See `valueOf`. */
  limits: Asked | null = null;

  constructor(
    private readonly figureValue: (name: string) => Value | null,
    private readonly isGiven: (name: string) => boolean,
    private readonly whole: Scope,
  ) {}

  get system(): 'mm' | 'in' | null {
    return this.whole.system;
  }

  standsFor(name: string): Value | null | undefined {
    // No line of figures can give pi anything.
    return name === 'pi' && !this.isGiven(name) ? undefined : this.figureValue(name);
  }

  entry(): undefined {
    this.askedForMore = true;
    return undefined;
  }

  hasFigure(): boolean {
    this.askedForMore = true;
    return false;
  }

  /**
   * The value of a figure that looks at nothing else and has nothing to say; null for any other. Limits know it as `input`:
   * those that are still to be put to the value are then in `limits`.
   */
  valueOf(text: string, statement: Statement & { kind: 'figure' }, input: number): Value | null {
    const { evaluation } = this;
    this.askedForMore = false;
    evaluation.begin(text);
    const value = (statement.to ? figure : nominalOf)(statement, evaluation, input);
    this.limits = statement.to ? null : evaluation.asked;
    return this.askedForMore || evaluation.problems.length > 0 ? null : value;
  }
}

/** The node of such a figure, made when somebody asks for it: the limits that it asks for are worked out again. */
export function nodeOfFigure(entry: Entry, block: NodeBlock, index: number, scope: Scope): Node {
  const node = new Node(lineOf(block as SheetBlock, index), [], null, entry.input);
  node.lookups = undefined;
  node.provides = entry;
  node.block = block;
  node.index = index;
  if (entry.input > 0) evaluateNode(node, new Evaluation(scope, ''));
  node.forget(false);
  node.value = entry.figureValue;
  entry.takeNode(node);
  block.lines[index] = node;
  return node;
}
