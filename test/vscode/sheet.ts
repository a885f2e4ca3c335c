import * as vscode from 'vscode';
import { closeAll, file, hoverAt, includes, open, replace, same, unsaved, until } from './tools';

const FENCE = '```';

/** The smallest PNG there is: one clear dot. */
const DOT =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';

interface Request {
  target: vscode.Uri;
  answers?: 'shown' | 'hidden';
  workings?: boolean;
  units?: 'own' | 'mm' | 'in' | 'both';
}

/** The sheet of the note in the editor, written by the command and read back from the workspace. */
async function sheet(request: Omit<Request, 'target'> = {}): Promise<string> {
  const target = file('bench/written.sheet.html');
  const written = await vscode.commands.executeCommand<vscode.Uri | undefined>('scribeline.writeSheet', {
    ...request,
    target,
  });
  same(written?.toString(), target.toString());
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(target));
  } finally {
    await vscode.workspace.fs.delete(target);
  }
}

describe('the job sheet', () => {
  afterEach(closeAll);

  it('is written from the note as it stands in the editor, saved or not, by the cards of the shop', async () => {
    const note = await open('bench/turned.md');
    const html = await sheet();
    includes(html, '<!doctype html>');
    includes(html, 'Content-Security-Policy');
    includes(html, 'made by');
    includes(html, 'On <b>bench_lathe</b>, held to its card');
    includes(html, 'do not work from this sheet');
    same(/<script|onerror|(?:src|href)="https?:/.test(html), false);
    await replace(note, '300 rpm', '900 rpm');
    includes(await sheet(), '900 rpm');
  });

  it('hides answers, explains figures and changes units as asked', async () => {
    await unsaved(`---\njob: 7\n---\n${FENCE}figures\na = 3 mm\nb = 4 mm\nc = hypot(a, b)\n${FENCE}\n`);
    const shown = await sheet({ units: 'in' });
    includes(shown, '0.1969 in');
    same(shown.includes('scribeline-blank"'), false);
    const hidden = await sheet({ answers: 'hidden' });
    includes(hidden, 'scribeline-blank"');
    includes(hidden, '<details class="scribeline-answer">');
    includes(await sheet({ workings: true }), '<msqrt>');
  });

  it("takes photos from the note's folder only", async () => {
    const photo = file('bench/dot.png');
    await vscode.workspace.fs.writeFile(
      photo,
      Uint8Array.from(atob(DOT), (char) => char.charCodeAt(0)),
    );
    const note = file('bench/photo.md');
    const text = '![the old lever](dot.png)\n\n![elsewhere](../ball-on-shank.md)\n';
    await vscode.workspace.fs.writeFile(note, new TextEncoder().encode(text));
    try {
      await open('bench/photo.md');
      const html = await sheet();
      includes(html, `<img src="data:image/png;base64,${DOT}" alt="the old lever">`);
      includes(html, 'cannot be read in the note');
      same(html.match(/<img/g)?.length, 1);
    } finally {
      await vscode.commands.executeCommand('workbench.action.closeAllEditors');
      await vscode.workspace.fs.delete(note);
      await vscode.workspace.fs.delete(photo);
    }
  });

  it('is not asked for where no note is open', async () => {
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
    const target = file('bench/none.html');
    same(await vscode.commands.executeCommand('scribeline.writeSheet', { target }), undefined);
  });
});

describe('pictures in hovers', () => {
  afterEach(closeAll);

  /** The drawings of a hover, and what stands before and after the first. */
  async function pictured(note: vscode.TextDocument, text: string) {
    const hover = await hoverAt(note, text);
    const svgs = [...hover.matchAll(/!\[\]\(data:image\/svg\+xml;base64,([\w+/=]+)\)/g)].map(
      ([, coded = '']) =>
        new TextDecoder().decode(Uint8Array.from(atob(coded), (char) => char.charCodeAt(0))),
    );
    const [before = '', ...after] = hover.split(/!\[\]\([^)]*\)/);
    return { svgs, before, after: after.join('') };
  }

  it('stand between the result and what it comes from, drawn from the figures', async () => {
    const note = await unsaved(
      `${FENCE}figures\nball = 30 mm ± 0.02\nball measured 30.01 mm\nsetup = ball_on_shank(ball, 12 mm)\nsetup.tilt\n${FENCE}\n`,
    );
    const { svgs, before, after } = await pictured(note, 'ball_on_shank');
    same(svgs.length, 1);
    includes(svgs[0] ?? '', 'ring Ø29.367 mm');
    includes(svgs[0] ?? '', '<svg color="#'); // an image knows no theme
    includes(before, '29\\.367');
    includes(after, 'Source');
    includes((await pictured(note, 'setup.tilt')).svgs[0] ?? '', 'ring Ø29.367 mm');
    includes((await pictured(note, 'measured')).svgs[0] ?? '', 'measured 30.01 mm');
    same((await pictured(note, '12 mm)')).svgs, []);
  });

  it('come with the cautions of formula and machine, after everything else', async () => {
    const card = `${FENCE}machine mill\nspeeds = [90, 140] rpm\ncaution: the quill creeps when warm\n${FENCE}\n`;
    const note = await unsaved(
      `${card}${FENCE}figures on mill\nsetup = ball_on_shank(30 mm, 12 mm)\n${FENCE}\n`,
    );
    const { after } = await pictured(note, 'ball_on_shank');
    includes(after, '**Mind**\n- mill\\: the quill creeps when warm');
    includes(after, 'Clamp the dividing head');
  });

  it('words of the trade are explained in the text of a note', async () => {
    const note = await unsaved(`Mind the backlash.\n\n${FENCE}figures\na = 1 mm\n${FENCE}\n`);
    const hover = await until(
      () => hoverAt(note, 'backlash'),
      (text) => text !== '',
    );
    includes(hover, '**backlash** The slack of a screw');
  });
});
