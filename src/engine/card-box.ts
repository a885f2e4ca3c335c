/** The cards in force for a note: its own, then those of the shop files from the nearest out, then the starter cards. */
import { readNote } from '../notation/note';
import type { Block, Note } from '../notation/syntax';
import type { List, Quantity, Text } from '../quantity/value';
import type { Card } from './cards';
import type { Shop } from './results';
import type { Sheet } from './sheet';
import { STARTER_CARDS, STARTER_NAMES } from './starter-cards';

type CardBlock = Block & { readonly word: 'machine' | 'material' };

function isCard(block: Block): block is CardBlock {
  return block.word === 'machine' || block.word === 'material';
}

export class CardBox {
  private inForce = new Map<string, Card>();
  private byBlock = new Map<Block, Card>();
  /** Cards made so far by where and what they are, so that an unchanged card stays the same object. */
  private made = new Map<string, Card[]>();
  private readonly shopNotes = new Map<string, { readonly text: string; readonly note: Note }>();
  private starters: ReadonlyMap<string, Card> | null = null;
  twice: readonly Card[] = [];

  constructor(private readonly newSheet: () => Sheet) {}

  /** Takes in the cards; answers the names that now stand for another card, or for none. */
  update(blocks: readonly Block[], shops: readonly Shop[]): readonly string[] {
    const before = this.inForce;
    const made = new Map<string, Card[]>();
    this.byBlock = new Map();
    this.inForce = new Map();
    const own = blocks.filter(isCard).map((block) => this.take(block, null, made));
    const first = new Map<string, Card>();
    const twice = new Set<Card>();
    // Nothing can ask for one without a name.
    for (const card of own.filter(({ name }) => name !== '')) {
      const other = first.get(card.name);
      if (other) twice.add(other).add(card);
      else first.set(card.name, card);
    }
    this.twice = [...twice];
    const enforce = (card: Card): void => {
      if (card.name !== '' && !this.inForce.has(card.name)) this.inForce.set(card.name, card);
    };
    own.forEach(enforce);
    const seen = new Set(shops.map((shop) => shop.file));
    for (const file of this.shopNotes.keys()) if (!seen.has(file)) this.shopNotes.delete(file);
    for (const shop of shops) {
      for (const block of this.read(shop).blocks.filter(isCard)) enforce(this.take(block, shop.file, made));
    }
    this.made = made;
    const names = new Set([...before.keys(), ...this.inForce.keys()]);
    return [...names].filter((name) => before.get(name) !== this.inForce.get(name));
  }

  named(name: string): Card | null {
    const own = this.inForce.size === 0 ? undefined : this.inForce.get(name);
    return own ?? (STARTER_NAMES.has(name) ? (this.starterCards().get(name) ?? null) : null);
  }

  of(block: Block): Card | null {
    return this.byBlock.get(block) ?? null;
  }

  all(): readonly Card[] {
    return [...new Map([...this.starterCards(), ...this.inForce]).values()];
  }

  private read(shop: Shop): Note {
    const known = this.shopNotes.get(shop.file);
    if (known?.text === shop.text) return known.note;
    const note = readNote(shop.text);
    this.shopNotes.set(shop.file, { text: shop.text, note });
    return note;
  }

  private take(block: CardBlock, file: string | null, made: Map<string, Card[]>): Card {
    const key = JSON.stringify([file, block.word, block.name?.text, block.content]);
    // The same card twice in one file is two cards.
    let alike = made.get(key);
    if (!alike) made.set(key, (alike = []));
    const card = this.made.get(key)?.[alike.length] ?? this.make(block, file);
    card.block = block;
    alike.push(card);
    this.byBlock.set(block, card);
    return card;
  }

  private make(block: CardBlock, file: string | null, builtIn = false): Card {
    const name = block.name?.text ?? '';
    const inner = this.newSheet();
    inner.update({
      blocks: [{ ...block, column: () => 0, firstLine: 0, fenceLine: -1, on: [], findings: [] }],
      front: new Map(),
      findings: [],
    });
    const fields = new Map<string, Quantity | List | Text>();
    for (const field of inner.names()) {
      const value = inner.valueOf(field);
      if (value && value.kind !== 'record') fields.set(field, value);
    }
    return {
      name,
      word: block.word,
      fields,
      value: { kind: 'record', of: name, fields },
      inner,
      file,
      builtIn,
      block,
    };
  }

  private starterCards(): ReadonlyMap<string, Card> {
    if (!this.starters) {
      const blocks = readNote(STARTER_CARDS).blocks.filter(isCard);
      const cards = blocks.map((block) => this.make(block, null, true));
      this.starters = new Map(cards.map((card) => [card.name, card]));
    }
    return this.starters;
  }
}
