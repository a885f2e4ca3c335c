/** Offers what could be written, and tells what a formula takes while its call is written. */
import {
  CompletionItem,
  CompletionItemKind,
  type CompletionContext,
  CompletionTriggerKind,
  Disposable,
  MarkdownString,
  ParameterInformation,
  type Position,
  Range,
  SignatureHelp,
  SignatureInformation,
  SnippetString,
  type TextDocument,
  languages,
} from 'vscode';
import { type Completion, type CompletionKind, completions } from '../../language/completion';
import type { Question } from '../../language/cursor';
import { explainFormula } from '../../language/explain-formula';
import { markdown } from '../../language/markdown';
import { signature } from '../../language/signature-help';
import type { Workspace } from './workspace';

const KINDS: Record<CompletionKind, CompletionItemKind> = {
  figure: CompletionItemKind.Variable,
  field: CompletionItemKind.Field,
  formula: CompletionItemKind.Function,
  unit: CompletionItemKind.Unit,
  card: CompletionItemKind.Module,
  parameter: CompletionItemKind.Property,
  word: CompletionItemKind.Keyword,
  code: CompletionItemKind.EnumMember,
};

/** Each begins something that only a few answers fit: a field, an argument, a unit, limits. */
const TRIGGERS = ['.', '(', ',', ' ', '-'];

export function registerCompletion(notes: Workspace): Disposable {
  const selector = { language: 'markdown' };
  const formulas = new WeakMap<CompletionItem, string>();
  const provideCompletionItems = async (
    document: TextDocument,
    position: Position,
    _token: unknown,
    context: CompletionContext,
  ): Promise<CompletionItem[] | undefined> => {
    const question = await questionAt(notes, document, position);
    const found = question ? completions(question) : [];
    const asked = context.triggerKind === CompletionTriggerKind.Invoke || !isGeneral(found, context);
    if (!asked) return undefined;
    return found.map((each) => {
      const item = itemOf(each, position);
      if (each.formula !== null) formulas.set(item, each.formula);
      return item;
    });
  };
  const resolveCompletionItem = (item: CompletionItem): CompletionItem => {
    const explanation = explainFormula(formulas.get(item) ?? '');
    if (explanation) item.documentation = new MarkdownString(markdown(explanation));
    return item;
  };
  const provideSignatureHelp = async (
    document: TextDocument,
    position: Position,
  ): Promise<SignatureHelp | undefined> => {
    const question = await questionAt(notes, document, position);
    return question && signatureHelp(question);
  };
  return Disposable.from(
    languages.registerCompletionItemProvider(
      selector,
      { provideCompletionItems, resolveCompletionItem },
      ...TRIGGERS,
    ),
    languages.registerSignatureHelpProvider(selector, { provideSignatureHelp }, '(', ','),
  );
}

async function questionAt(
  notes: Workspace,
  document: TextDocument,
  { line, character }: Position,
): Promise<Question | undefined> {
  const calculated = await notes.calculated(document);
  if (!calculated) return undefined;
  return { sheet: calculated.sheet, line, column: character, text: document.lineAt(line).text };
}

/** After a blank, a comma or a bracket only what is special there opens by itself: units, codes, cards, words. */
function isGeneral(found: readonly Completion[], { triggerCharacter }: CompletionContext): boolean {
  if (triggerCharacter === '.') return false;
  if (triggerCharacter === '-') return !found.some(({ label }) => label === '±');
  // A line's end must not become a limit because somebody pressed Enter.
  if (triggerCharacter === ' ')
    return (
      !found.some(({ kind, snippet }) => (kind === 'unit' || kind === 'card') && !snippet) ||
      found.some(({ kind }) => kind === 'figure')
    );
  return found.some(({ kind }) => kind === 'figure' || kind === 'formula');
}

function itemOf(each: Completion, position: Position): CompletionItem {
  const { label, detail, kind, insert, snippet, from, sort, typed } = each;
  const item = new CompletionItem({ label, description: detail }, KINDS[kind]);
  item.range = new Range(position.line, from, position.line, position.character);
  item.insertText = snippet ? new SnippetString(insert) : insert;
  // In order as answered.
  item.sortText = String(sort).padStart(6, '0');
  if (typed !== undefined) item.filterText = typed;
  item.detail = detail;
  if (snippet && insert.includes('|}')) item.command = { command: 'editor.action.triggerSuggest', title: '' };
  if (insert.endsWith('(') || (snippet && insert.includes('(')))
    item.command = { command: 'editor.action.triggerParameterHints', title: '' };
  return item;
}

function signatureHelp(question: Question): SignatureHelp | undefined {
  const found = signature(question);
  if (!found) return undefined;
  const shown = new SignatureInformation(found.label, new MarkdownString(found.words));
  shown.parameters = found.parameters.map(
    ({ start, end, words }) => new ParameterInformation([start, end], words),
  );
  const help = new SignatureHelp();
  help.signatures = [shown];
  help.activeSignature = 0;
  help.activeParameter = found.active ?? found.parameters.length;
  return help;
}
