import { ESLint } from 'eslint';
import { describe, expect, it } from 'vitest';
import { ROOMS } from '../eslint.config.mjs';

/** The brief's table of rooms written out a second time, so that a slip in the lint's table is noticed. */
const MAY_IMPORT: Record<string, string> = {
  quantity: '',
  notation: 'quantity',
  trade: 'quantity',
  engine: 'notation trade quantity',
  language: 'engine notation trade quantity',
  archive: 'engine notation trade quantity',
  sheet: 'engine notation trade quantity',
  'hosts/preview': 'sheet engine notation trade quantity',
  'hosts/cli': 'hosts/preview sheet archive language engine notation trade quantity',
  'hosts/editor': 'hosts/preview sheet archive language engine notation trade quantity',
};
const ROOM_NAMES = Object.keys(MAY_IMPORT);

const LIBRARIES: [library: string, rooms: string, typeRooms: string][] = [
  ['vscode', 'hosts/editor', 'hosts/editor'],
  ['node:fs', 'hosts/cli', 'hosts/cli'],
  ['yaml', 'notation', 'notation'],
  ['markdown-it', 'notation sheet', 'notation sheet hosts/preview'],
  ['minisearch', 'archive', 'archive'],
  ['mathjs', 'trade', 'trade'],
  ['fs', '', ''],
];

const eslint = new ESLint({ ruleFilter: ({ ruleId }) => ruleId === 'rooms/one-way' });

/** How often the import rule speaks up when this text stands in a file of the room. */
async function violations(room: string, text: string): Promise<number> {
  const results = await eslint.lintText(text, { filePath: `src/${room}/sample.ts` });
  const messages = results.flatMap((result) => result.messages);
  expect(messages.filter((m) => m.ruleId !== 'rooms/one-way')).toEqual([]);
  return messages.length;
}

const up = (room: string) => '../'.repeat(room.split('/').length);
const WAYS = [
  (id: string) => `import { a } from '${id}';`,
  (id: string) => `import '${id}';`,
  (id: string) => `export * from '${id}';`,
  (id: string) => `export { a } from '${id}';`,
  (id: string) => `export const a = import('${id}');`,
  (id: string) => `export const a = require('${id}');`,
  (id: string) => `import a = require('${id}');`,
];
const TYPE_WAYS = [
  (id: string) => `import type { A } from '${id}';`,
  (id: string) => `export type { A } from '${id}';`,
  (id: string) => `export type A = import('${id}').A;`,
];
const text = (ways: typeof WAYS, id: string) => ways.map((way) => way(id)).join('\n');

describe('imports between rooms go one way', () => {
  it('knows exactly the rooms of the brief', () => {
    expect(Object.keys(ROOMS).sort()).toEqual([...ROOM_NAMES].sort());
  });

  it.each(ROOM_NAMES)('%s', async (room) => {
    const allowed = (MAY_IMPORT[room] ?? '').split(' ');
    for (const other of ROOM_NAMES) {
      const fine = other === room || allowed.includes(other);
      const id = `${up(room)}${other}/thing`;
      expect([other, await violations(room, text(WAYS, id))]).toEqual([other, fine ? 0 : WAYS.length]);
      expect([other, await violations(room, text(TYPE_WAYS, id))]).toEqual([
        other,
        fine ? 0 : TYPE_WAYS.length,
      ]);
    }
  });

  it.each(LIBRARIES)('%s is used only where it is allowed', async (library, rooms, typeRooms) => {
    for (const room of ROOM_NAMES) {
      const fine = rooms.split(' ').includes(room);
      const typeFine = typeRooms.split(' ').includes(room);
      expect([room, await violations(room, text(WAYS, library))]).toEqual([room, fine ? 0 : WAYS.length]);
      expect([room, await violations(room, text(TYPE_WAYS, library))]).toEqual([
        room,
        typeFine ? 0 : TYPE_WAYS.length,
      ]);
    }
  });

  it('refuses files outside the rooms and names it cannot read', async () => {
    expect(await violations('quantity', "import '../stray';")).toBe(1);
    expect(await violations('quantity', "import '../../test/helper';")).toBe(1);
    expect(await violations('hosts', "import '../quantity/unit';")).toBe(1);
    expect(await violations('notation', "const a = 'yaml'; require(a);")).toBe(1);
  });
});
