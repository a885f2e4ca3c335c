import * as vscode from 'vscode';
import {
  closeAll,
  includes,
  marks,
  open,
  preview,
  replace,
  same,
  until,
  unsaved,
  wordsIn as words,
} from './tools';

const FENCE = '```';

describe('the preview', () => {
  afterEach(closeAll);

  it('shows blocks as tables, and knows the head of the note', async () => {
    const note = await unsaved(
      `---\njob: Posts\nquantity: 4\n---\n\n${FENCE}figures\neach = 2 h\neach * job.quantity  # all\n${FENCE}\n`,
    );
    const html = await until(
      () => preview(note),
      (shown) => shown.includes('scribeline-table'),
    );
    includes(words(html), 'each * job.quantity all 8 h');
  });

  it("shows the reference pages with their results, and their slips are nobody's problems", async () => {
    const page = vscode.Uri.from({ scheme: 'scribeline-page', path: '/notation.md' });
    const note = await vscode.workspace.openTextDocument(page);
    await vscode.window.showTextDocument(note);
    const html = await preview(note);
    includes(words(html), '1 3/8 in to mm is 34.925 mm 34.925 mm');
    const slip = await unsaved(`${FENCE}figures\n12,7 mm\n${FENCE}\n`);
    await until(
      () => marks(slip),
      ({ length }) => length === 1,
    );
    same(marks(note), []);
  });

  it('carries the lines that VS Code scrolls by', async () => {
    const note = await open('bench/nested.md');
    const html = await until(
      () => preview(note),
      (shown) => shown.includes('scribeline-table'),
    );
    for (const [text, line] of [
      ['old', 5],
      ['new', 12],
    ] as const) {
      same(note.lineAt(line).text.includes(`${text} =`), true);
      includes(
        html,
        `code-line" data-line="${line}"><th scope="row" role="rowheader"><span class="scribeline-way"`,
      );
      includes(html, `>${text}</span></th>`);
    }
  });

  it('is held to the cards of the shop file, and follows it before any saving', async () => {
    const note = await open('bench/turned.md');
    // A speed between two steps is told beside the same line of the card, but as a warning.
    const outside = (html: string): boolean =>
      /\. 636\.62 rpm is faster .* shop\.md, line 4/.test(words(html));
    const html = await until(() => preview(note), outside);
    includes(html, '<caption>On <b>bench_lathe</b>, held to its card</caption>');
    const shop = await open('bench/shop.md');
    await replace(shop, '300] rpm', '300, 475, 900] rpm');
    await until(
      () => preview(note),
      (shown) => shown.includes('scribeline-table') && !outside(shown),
    );
    await vscode.commands.executeCommand('workbench.action.files.revert');
    await until(() => preview(note), outside);
  });

  it('shows findings in place, and loses nothing of a note with errors', async () => {
    const note = await unsaved(
      `# Words before\n\n${FENCE}figures\na = 1 mm + 2\nb = 3 mm\n1-3/8 in\nc = b *\n${FENCE}\n\nWords after\n`,
    );
    const html = await until(
      () => preview(note),
      (shown) => shown.includes('scribeline-table'),
    );
    const text = words(html);
    for (const part of ['Words before', 'a 1 mm + 2', 'b given 3 mm', '1-3/8 in', 'c = b *', 'Words after'])
      includes(text, part);
    // Each finding under its own line.
    const lines = html.split('data-line=').slice(1);
    const under = (line: number): string =>
      words(lines.find((part) => part.startsWith(`"${line}"><th`)) ?? '');
    includes(under(3), 'Error.');
    same(under(4).includes('Error.'), false);
    includes(under(5), 'Error.');
    includes(under(6), 'Error.');
  });

  it('escapes what a note says', async () => {
    const note = await unsaved(
      `${FENCE}figures\na = 1 mm  # <img src=x onerror=alert(1)>\n<script>\n${FENCE}\n`,
    );
    const html = await until(
      () => preview(note),
      (shown) => shown.includes('scribeline-table'),
    );
    same(/<(img|script)/.test(html), false);
  });
});
