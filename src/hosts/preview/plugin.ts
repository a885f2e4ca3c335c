/**
 * The preview's part of the notebook: our fences as tables with their results. A markdown-it plugin; the host passes
 * its own markdown-it, so only types of that library are used here.
 *
 * Parsing happens without the document's identity, which arrives with rendering only. So the sheet is worked out in the
 * fence renderer: all fences of a note share one array of tokens, and the sheet is kept with that array.
 */
import type MarkdownIt from 'markdown-it';
import { type Shop, Sheet } from '../../engine/index';
import type { Block } from '../../notation/syntax';
import { inUsualUnits } from '../../notation/usual-units';
import { type Display, USUAL_DISPLAY, displayed } from '../../quantity/display';
import { blockTable, blockWaiting } from '../../sheet/block-table';
import { PREVIEW } from '../../sheet/how';
import type { Attributes } from '../../sheet/html';
import { type View, view } from '../../sheet/view';
import { noteOf } from './note-of';

type Rule = NonNullable<MarkdownIt['renderer']['rules']['fence']>;
export type Token = Parameters<Rule>[0][number];

export interface CardsInForce {
  /** The shop files in force for the note, nearest first. */
  readonly shops: readonly Shop[];
  /** True while they are still being read: then nothing is worked out yet. */
  readonly loading: boolean;
}

export interface PreviewHost {
  /** Answers at once; `uri` is the host's `currentDocument`, undefined where the host names none. */
  cardsFor(uri: unknown): CardsInForce;
  /** Whether workings stand unfolded under every line; `uri` as above. */
  workings?(uri: unknown): boolean;
  /** How the reader wants figures shown; null for the usual way. */
  reader?(uri: unknown): Reader | null;
}

export interface Reader {
  /** Of notes whose head does not say. */
  readonly units: 'mm' | 'in';
  readonly display: Display;
}

const USUAL_READER: Reader = { units: 'mm', display: USUAL_DISPLAY };

/** What is known about one array of tokens. */
interface Known {
  readonly note: ReturnType<typeof noteOf>;
  readonly blocks: ReadonlyMap<number, Block>;
  worked: {
    readonly workings: boolean;
    readonly units: Reader['units'];
    readonly shops: readonly Shop[];
    readonly view: View;
  } | null;
}

/** Fences that become tables. What was signed is shown as it is written. */
const OURS = /^[ \t]*(?:figures|machine|material)(?:[ \t]|$)/;

export function figuresPlugin(host: PreviewHost): (md: MarkdownIt) => void {
  return (md) => {
    const before = md.renderer.rules.fence;
    const memory = new WeakMap<readonly Token[], Known>();
    md.renderer.rules.fence = (tokens, index, options, env, self) => {
      const token = tokens[index];
      if (token && OURS.test(token.info)) {
        try {
          const html = rendered(tokens, token, env, host, memory);
          if (html !== null) return html;
        } catch {
          // Whatever went wrong, the reader gets the text itself, below.
        }
      }
      return before ? before(tokens, index, options, env, self) : self.renderToken(tokens, index, options);
    };
  };
}

function rendered(
  tokens: readonly Token[],
  token: Token,
  env: unknown,
  host: PreviewHost,
  memory: WeakMap<readonly Token[], Known>,
): string | null {
  let known = memory.get(tokens);
  if (!known) memory.set(tokens, (known = read(tokens)));
  const block = known.blocks.get(token.map?.[0] ?? -1);
  if (!block) return null;
  const document = documentOf(env);
  const { shops, loading } = host.cardsFor(document);
  const attributes = attributesOf(token);
  if (loading) return blockWaiting(block, attributes);
  const lineClass = 'data-line' in attributes ? 'code-line' : null;
  const reader = host.reader?.(document) ?? USUAL_READER;
  return displayed(reader.display, () =>
    blockTable(block, viewOf(known, shops, host.workings?.(document) ?? false, reader.units), {
      attributes,
      lineClass,
    }),
  );
}

function read(tokens: readonly Token[]): Known {
  const note = noteOf(tokens);
  return { note, blocks: new Map(note.blocks.map((block) => [block.fenceLine, block])), worked: null };
}

function viewOf(known: Known, shops: readonly Shop[], workings: boolean, units: Reader['units']): View {
  const { worked } = known;
  if (worked && worked.workings === workings && worked.units === units && sameShops(worked.shops, shops))
    return worked.view;
  const sheet = new Sheet();
  sheet.update(inUsualUnits(known.note, units), shops);
  known.worked = { workings, units, shops, view: view(sheet, { ...PREVIEW, workings }) };
  return known.worked.view;
}

function sameShops(a: readonly Shop[], b: readonly Shop[]): boolean {
  if (a === b) return true;
  return a.length === b.length && a.every((shop, i) => shop.file === b[i]?.file && shop.text === b[i].text);
}

function documentOf(env: unknown): unknown {
  return typeof env === 'object' && env !== null && 'currentDocument' in env
    ? env.currentDocument
    : undefined;
}

/** What a host puts on tokens for its own use: the line for scrolling along, classes, direction. Nothing that acts. */
const HARMLESS = /^(?:id|class|dir|lang|data-[\w-]+)$/;

function attributesOf(token: Token): Attributes {
  return Object.fromEntries((token.attrs ?? []).filter(([name]) => HARMLESS.test(name)));
}
