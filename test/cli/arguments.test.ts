import { describe, expect, it } from 'vitest';
import { readArguments } from '../../src/hosts/cli/arguments';

describe('arguments', () => {
  it.each([
    ['check a.md b', { kind: 'check', paths: ['a.md', 'b'], json: false }],
    ['check --json a.md', { kind: 'check', paths: ['a.md'], json: true }],
    ['--json check a.md', { kind: 'check', paths: ['a.md'], json: true }],
    ['check -- --json', { kind: 'check', paths: ['--json'], json: false }],
    ['formulas', { kind: 'formulas', json: false }],
    ['formulas --json', { kind: 'formulas', json: true }],
    ['find ball>1mm', { kind: 'find', query: 'ball>1mm', folder: '.', json: false }],
    ['find --json chatter jobs', { kind: 'find', query: 'chatter', folder: 'jobs', json: true }],
    ['compare a.md b.md', { kind: 'compare', before: 'a.md', after: 'b.md', json: false }],
    ['find -h', { kind: 'help', of: 'find' }],
    ['compare -h', { kind: 'help', of: 'compare' }],
    ['--help', { kind: 'help', of: null }],
    ['-h', { kind: 'help', of: null }],
    ['check --help', { kind: 'help', of: 'check' }],
    ['formulas -h', { kind: 'help', of: 'formulas' }],
    ['polish --help', { kind: 'help', of: null }],
    ['--version', { kind: 'version' }],
    ['-v', { kind: 'version' }],
  ])('%s', (line, command) => {
    expect(readArguments(line.split(' '))).toEqual(command);
  });

  it.each([
    ['', 'say what to do'],
    ['check', 'needs a note or a folder'],
    ['polish a.md', 'no command `polish`'],
    ['constructor', 'no command `constructor`'],
    ['check a.md --fast', '`--fast` is not an option'],
    ['check a.md --json=yes', '`--json=yes` is not an option'],
    ['-x', '`-x` is not an option'],
    ['formulas ball', 'takes no names'],
    ['find', 'needs a query in quotes'],
    ['find ball 20 mm', 'needs a query in quotes'],
    ['compare a.md', 'needs two notes'],
    ['compare a.md b.md c.md', 'needs two notes'],
  ])('wrong use: %s', (line, says) => {
    const command = readArguments(line === '' ? [] : line.split(' '));
    expect(command).toMatchObject({ kind: 'wrong', says: expect.stringContaining(says) as string });
  });
});
