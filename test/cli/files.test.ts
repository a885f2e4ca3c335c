import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ShopFiles, findNotes, readText, shownPath } from '../../src/hosts/cli/files';
import { folder } from './folder';

const names = (root: string, paths: readonly string[], current = root): string[] =>
  findNotes(paths, current)
    .notes.map((note) => shownPath(note.path, root))
    .sort();

describe('notes that paths mean', () => {
  it('a folder: every note in it and below, node_modules and dot names apart', () => {
    const root = folder({
      'a.md': '',
      'b.txt': '',
      'jobs/c.md': '',
      'jobs/deep/er/d.md': '',
      'node_modules/x/e.md': '',
      '.git/f.md': '',
      'jobs/.drafts/g.md': '',
      'h.md/i.md': '',
    });
    expect(names(root, ['.'])).toEqual(['a.md', 'h.md/i.md', 'jobs/c.md', 'jobs/deep/er/d.md']);
  });

  it('a file whatever its name, and each file once', () => {
    const root = folder({ 'a.md': '', 'notes.txt': '' });
    expect(names(root, ['notes.txt', 'a.md', '.', './a.md'])).toEqual(['a.md', 'notes.txt']);
  });

  it('links to notes are followed, rings of folders are not', () => {
    const root = folder({ 'jobs/a.md': '' });
    symlinkSync(root, join(root, 'jobs/ring'));
    symlinkSync(join(root, 'jobs/a.md'), join(root, 'link.md'));
    expect(names(root, ['.'])).toEqual(['jobs/a.md', 'link.md']);
  });

  it('says what it could not find', () => {
    const root = folder({});
    expect(findNotes(['gone.md'], root).unreadable).toEqual([
      { path: join(root, 'gone.md'), why: 'there is no such file or folder' },
    ]);
  });

  it('reads as an editor shows: no byte order mark', () => {
    const root = folder({ 'a.md': '\ufeff# A' });
    expect(readText(join(root, 'a.md'))).toBe('# A');
  });
});

describe('shop files', () => {
  const files = {
    'shop.md': 'top',
    'jobs/shop.md': 'jobs',
    'jobs/2024/a.md': '',
    'jobs/2024/deep/b.md': '',
  };
  const inForce = (root: string, paths: readonly string[], current: string, note: string): string[] => {
    const found = findNotes(paths, current).notes.find((it) => shownPath(it.path, root) === note);
    return found ? new ShopFiles().of(found).map((shop) => shop.text) : ['not found'];
  };

  it('nearest first, up to the folder given', () => {
    const root = folder(files);
    expect(inForce(root, ['.'], root, 'jobs/2024/deep/b.md')).toEqual(['jobs', 'top']);
    expect(inForce(root, ['jobs'], root, 'jobs/2024/deep/b.md')).toEqual(['jobs']);
    expect(inForce(root, ['jobs/2024'], root, 'jobs/2024/deep/b.md')).toEqual([]);
  });

  it('for a file, up to the current folder', () => {
    const root = folder(files);
    expect(inForce(root, ['jobs/2024/a.md'], root, 'jobs/2024/a.md')).toEqual(['jobs', 'top']);
    expect(inForce(root, ['2024/a.md'], join(root, 'jobs'), 'jobs/2024/a.md')).toEqual(['jobs']);
  });

  it('for a file outside the current folder, its own folder only', () => {
    const root = folder({ ...files, 'elsewhere/shop.md': 'elsewhere', 'elsewhere/c.md': '' });
    expect(inForce(root, ['../elsewhere/c.md'], join(root, 'jobs'), 'elsewhere/c.md')).toEqual(['elsewhere']);
  });

  it('a shop file is not in force for itself', () => {
    const root = folder(files);
    expect(inForce(root, ['.'], root, 'jobs/shop.md')).toEqual(['top']);
    expect(inForce(root, ['.'], root, 'shop.md')).toEqual([]);
  });

  it('a folder called shop.md is none', () => {
    const root = folder({ 'shop.md/x.txt': '', 'a.md': '' });
    expect(inForce(root, ['.'], root, 'a.md')).toEqual([]);
  });
});

it('paths are shown with / from the current folder', () => {
  expect(shownPath(join('/shop', 'jobs', 'a.md'), '/shop')).toBe('jobs/a.md');
  expect(shownPath('/other/a.md', '/shop')).toBe('../other/a.md');
  expect(shownPath('/shop', '/shop')).toBe('.');
});
