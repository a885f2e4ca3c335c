/** What changed cards did to notes: only what is new, only while it is so, and only where the note is the same. */
import { describe, expect, it } from 'vitest';
import { CardChanges, markOf } from '../../src/archive/card-changes';
import { entryOf } from '../../src/archive/entry';
import type { Kept } from '../../src/archive/store';

const NOTE = '```figures on lathe\nspeed = 475 rpm\nwrong = 1 mm + 2\n```\n';
const shop = (speeds: string): string => `\`\`\`machine lathe\nspeeds = [${speeds}] rpm\n\`\`\`\n`;
const [WIDE, NARROW, GAP] = ['115, 475, 790', '115, 300', '115, 300, 790'];

function kept(path: string, text: string, speeds: string): Kept {
  return {
    path,
    mark: markOf(`1000 ${text.length}`, speeds),
    entry: entryOf(text, [{ file: 'shop.md', text: shop(speeds) }]),
  };
}

function changed(changes: CardChanges, from: readonly Kept[], to: readonly Kept[]): [string, string[]][] {
  changes.before(from);
  changes.after(to);
  return [...changes.found].map(([path, found]) => [
    path,
    found.map((it) => /\[([a-z-]+)\]$/.exec(it)?.[1] ?? it),
  ]);
}

describe('changed cards', () => {
  it('are told where a note has findings now that it did not have before', () => {
    const changes = new CardChanges();
    const plain = kept('plain.md', '```figures\na = 1 mm\n```\n', WIDE);
    expect(
      changed(
        changes,
        [kept('pin.md', NOTE, WIDE), plain],
        [kept('pin.md', NOTE, NARROW), { ...plain, mark: kept('plain.md', '', NARROW).mark }],
      ),
    ).toEqual([['pin.md', ['speed-outside-machine']]]);
  });

  it('are held against the cards before the first change, so that one set right again leaves nothing', () => {
    const changes = new CardChanges();
    const pin = (speeds: string): Kept[] => [kept('pin.md', NOTE, speeds)];
    expect(changed(changes, pin(WIDE), pin(NARROW))).toHaveLength(1);
    expect(changed(changes, pin(NARROW), pin(GAP))).toEqual([['pin.md', ['speed-between-steps']]]);
    expect(changed(changes, pin(GAP), pin(GAP))).toEqual([['pin.md', ['speed-between-steps']]]);
    expect(changed(changes, pin(GAP), pin(WIDE))).toEqual([]);
  });

  it('go on being told when another change leaves a finding as it was, until they were seen', () => {
    const changes = new CardChanges();
    const pin = (speeds: string): Kept[] => [kept('pin.md', NOTE, speeds)];
    const ALIKE = '120, 300';
    expect(changed(changes, pin(WIDE), pin(NARROW))).toHaveLength(1);
    expect(changed(changes, pin(NARROW), pin(ALIKE))).toEqual([['pin.md', ['speed-outside-machine']]]);
    changes.seen();
    expect(changes.found.size).toBe(0);
    expect(changed(changes, pin(ALIKE), pin(NARROW))).toEqual([]);
  });

  it('count as they are once they were seen', () => {
    const changes = new CardChanges();
    const pin = (speeds: string): Kept[] => [kept('pin.md', NOTE, speeds)];
    changed(changes, pin(WIDE), pin(NARROW));
    changes.seen();
    expect(changed(changes, pin(NARROW), pin(NARROW))).toEqual([]);
    expect(changed(changes, pin(NARROW), pin(WIDE))).toEqual([]);
    expect(changed(changes, pin(WIDE), pin(NARROW))).toHaveLength(1);
  });

  it('are no matter of a note that is new, was itself changed, or is gone', () => {
    const changes = new CardChanges();
    const longer = `${NOTE}words\n`;
    expect(changed(changes, [], [kept('new.md', NOTE, NARROW)])).toEqual([]);
    expect(changed(changes, [kept('pin.md', NOTE, WIDE)], [kept('pin.md', longer, NARROW)])).toEqual([]);
    expect(changed(changes, [kept('pin.md', NOTE, WIDE)], [kept('pin.md', NOTE, NARROW)])).toHaveLength(1);
    expect(changed(changes, [kept('pin.md', NOTE, NARROW)], [kept('pin.md', longer, NARROW)])).toEqual([]);
    expect(changed(changes, [kept('pin.md', NOTE, WIDE)], [kept('pin.md', NOTE, NARROW)])).toHaveLength(1);
    expect(changed(changes, [kept('pin.md', NOTE, NARROW)], [])).toEqual([]);
  });
});
