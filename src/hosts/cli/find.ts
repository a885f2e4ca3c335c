/** `scribeline find`: past jobs for which every part of a query holds. */
import type { Amount } from '../../archive/entry';
import { type Hit, find as findIn } from '../../archive/find';
import { EXAMPLE, readQuery } from '../../archive/query';
import { unitFrom } from '../../quantity/unit-lookup';
import { fromBase } from '../../quantity/unit';
import { type Exit, type Io, FINE, WRONG } from './io';
import { pastJobs } from './past';
import { columns, harmless, painter } from './terminal';

export async function find(query: string, folder: string, json: boolean, io: Io): Promise<Exit> {
  const read = readQuery(query);
  if ('problem' in read) {
    const { says, start, end } = read.problem;
    io.err(
      `scribeline: ${harmless(says)}\n  ${harmless(query)}\n  ${' '.repeat(start)}${'^'.repeat(Math.max(1, end - start))}\n`,
    );
    if (!says.includes(EXAMPLE)) io.err(`  for example: ${EXAMPLE}\n`);
    return WRONG;
  }
  const { index, unreadable } = await pastJobs(folder, io.current, io.version());
  const { hits } = findIn(index, read.terms);
  if (json) {
    const jobs = hits.map(entryOf);
    io.out(
      `${JSON.stringify({ version: 1, query, jobs, unreadable: unreadable.map(({ path }) => path) }, null, 2)}\n`,
    );
  } else {
    io.out(hits.map((hit) => hitText(hit, io.colour)).join(''));
    io.out(hits.length === 1 ? '1 job\n' : `${hits.length} jobs of ${index.size}\n`);
  }
  for (const { path, why } of unreadable)
    io.err(`scribeline: cannot read ${harmless(path)}: ${harmless(why)}\n`);
  return unreadable.length > 0 ? WRONG : FINE;
}

function entryOf({ path, title, job, amounts }: Hit): object {
  return {
    file: path,
    title,
    job,
    amounts: amounts.map((amount) => ({
      name: amount.name,
      kind: amount.how,
      line: amount.line + 1,
      value: inUnit(amount, amount.value),
      unit: amount.unit === '' ? null : amount.unit,
      low: inUnit(amount, amount.low),
      high: inUnit(amount, amount.high),
      shown: amount.shown,
      comment: amount.comment,
    })),
  };
}

function inUnit({ unit }: Amount, base: number | null): number | null {
  const known = unitFrom(unit);
  return base === null || !known ? null : fromBase(base, known);
}

function hitText({ path, title, job, amounts }: Hit, colour: boolean): string {
  const paint = painter(colour);
  const facts = [job['job'], job['customer'], job['due']].filter((it) => it !== undefined && it !== '');
  const rows = amounts.map(({ name, how, shown, comment, line }) => [
    `  ${harmless(path)}:${line + 1}`,
    harmless(how === 'figure' ? name : `${name} ${how}`),
    harmless(shown) + (comment === null ? '' : `   # ${harmless(comment)}`),
  ]);
  return [
    `${paint('bold', harmless(title === '' ? path : title))}${facts.length > 0 ? `  ${paint('dim', harmless(facts.join(' · ')))}` : ''}`,
    ...(rows.length > 0 ? columns(rows, [60, 30]) : [`  ${harmless(path)}`]),
    '',
  ].join('\n');
}
