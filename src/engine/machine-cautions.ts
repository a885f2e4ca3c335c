/** What to mind on the machines that hold a block of figures. */
import type { Block } from '../notation/syntax';
import type { Sheet } from './sheet';

/** The lines `caution: words`, `caution_2: words` and so on of the block's machine cards, each with its machine's name. */
export function machineCautions(sheet: Sheet, { on }: Block): readonly string[] {
  return on.flatMap(({ text }) =>
    [...(sheet.card(text)?.fields ?? [])].flatMap(([name, field]) =>
      /^caution(?:_\w+)?$/.test(name) && field.kind === 'text' ? [`${text}: ${field.text}`] : [],
    ),
  );
}
