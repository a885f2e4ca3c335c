/**
 * The mutants of one source file. Every place that can be broken is rewritten once as a switch, so that one build holds
 * all mutants and `mutant(id)` chooses one at run time: `a <= b` becomes `(mutant(7)?(a < b):(a <= b))`.
 *
 * - number: a constant × 1.001 (`Math.PI` too; 0 becomes 0.001). What only counts (a length, a digit, a character's code)
 *   is made one larger, and a slack for rounding (below 1e-6) ten times as large.
 * - table: a value of the ISO 286 tables 1 µm larger, the end of a step × 1.001.
 * - compare: `<` and `<=`, `>` and `>=`, `===` and `!==` change places.
 * - sum: `+` and `-`, `*` and `/` change places, `**` becomes `*`, a minus is dropped.
 * - choose: `Math.min` and `Math.max`, `floor` and `ceil`, `every` and `some` change places.
 * - condition: always true, or never; one side of `&&`, `||` or `??` left out; a `!` dropped.
 * - call: a call that stands alone (it records something) is left out, and so is a refusal that is returned.
 * - word: a word in a list, a `case` or a comparison is another; a pattern matches nothing or lacks an alternative.
 */
import ts from 'typescript';

const K = ts.SyntaxKind;
const COMPARE = new Map([
  [K.LessThanToken, '<='],
  [K.LessThanEqualsToken, '<'],
  [K.GreaterThanToken, '>='],
  [K.GreaterThanEqualsToken, '>'],
  [K.EqualsEqualsEqualsToken, '!=='],
  [K.ExclamationEqualsEqualsToken, '==='],
]);
const SUM = new Map([
  [K.PlusToken, '-'],
  [K.MinusToken, '+'],
  [K.AsteriskToken, '/'],
  [K.SlashToken, '*'],
  [K.PercentToken, '*'],
  [K.AsteriskAsteriskToken, '*'],
  [K.PlusEqualsToken, '-='],
  [K.MinusEqualsToken, '+='],
  [K.AsteriskEqualsToken, '/='],
  [K.SlashEqualsToken, '*='],
]);
const OTHER = { min: 'max', max: 'min', floor: 'ceil', ceil: 'floor', every: 'some', some: 'every' };
/** Properties that hold data for tests and readers, not rules. */
const DATA = new Set(['checks', 'example', 'source', 'sources']);
/** What may find nothing; `?? 0` after it only satisfies the strict index check. */
const LOOKUPS = new Set(['get', 'at', 'exec', 'pop', 'shift', 'codePointAt', 'find', 'split']);
const REFUSAL = /(^|\.)(refuse|expected|misplaced|unknown|missing|comparison)\w*$/;
const LITERALS = new Set([K.NumericLiteral, K.StringLiteral, K.NoSubstitutionTemplateLiteral, K.NullKeyword]);
const isText = (node) =>
  ts.isStringLiteral(node) || ts.isTemplateExpression(node) || ts.isNoSubstitutionTemplateLiteral(node);
const bare = (node) => (ts.isParenthesizedExpression(node) ? bare(node.expression) : node);

/** All mutants of the file and its text with the switches; ids count from `first`. */
export function mutantsOf(file, text, first) {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const mutants = [];
  const raw = (node) => text.slice(node.getStart(source), node.end);

  function print(node) {
    if (isNoCode(node)) return raw(node);
    let out = '';
    let pos = node.getStart(source);
    ts.forEachChild(node, (child) => {
      out += text.slice(pos, child.getStart(source)) + print(child);
      pos = child.end;
    });
    out += text.slice(pos, node.end);
    for (const { kind, to } of breakagesOf(node, raw, file)) {
      const id = first + mutants.length;
      const { line, character } = source.getLineAndCharacterOfPosition(node.getStart(source));
      const [before, after] = [raw(node), to].map((code) => code.replace(/\s+/g, ' '));
      mutants.push({
        id,
        file,
        line: line + 1,
        column: character + 1,
        kind,
        in: placeOf(node),
        before,
        after,
      });
      out = `(mutant(${id})?(${to}):(${out}))`;
    }
    return out;
  }

  const code = source.statements.map((statement) => print(statement)).join('\n');
  // The same change twice in one place: told apart by their order.
  const seen = new Map();
  for (const mutant of mutants) {
    const key = `${mutant.in}\n${mutant.before} → ${mutant.after}`;
    mutant.nth = (seen.get(key) ?? 0) + 1;
    seen.set(key, mutant.nth);
  }
  return { mutants, code };
}

/** Types, imports, and data for tests and readers: nothing to break. */
function isNoCode(node) {
  return (
    ts.isTypeNode(node) ||
    ts.isInterfaceDeclaration(node) ||
    ts.isTypeAliasDeclaration(node) ||
    ts.isImportDeclaration(node) ||
    ts.isExportDeclaration(node) ||
    (ts.isPropertyAssignment(node) && DATA.has(node.name.getText()))
  );
}

/** The declarations a place stands in: `unitOf`, `Scanner.refuse`, `FUNCTIONS.sqrt`. */
function placeOf(node) {
  const names = [];
  for (let at = node.parent; at; at = at.parent) {
    const named =
      ts.isFunctionDeclaration(at) ||
      ts.isVariableDeclaration(at) ||
      ts.isMethodDeclaration(at) ||
      ts.isClassDeclaration(at) ||
      ts.isPropertyDeclaration(at);
    if (named && at.name && ts.isIdentifier(at.name)) names.unshift(at.name.text);
  }
  return names.join('.');
}

function breakagesOf(node, raw, file) {
  return [
    ...ofCondition(node),
    ...(ts.isNumericLiteral(node) ? ofNumber(node, file) : []),
    ...(isMathConstant(node) ? [{ kind: 'number', to: `${raw(node)} * 1.001` }] : []),
    ...(ts.isBinaryExpression(node) ? ofBinary(node, raw) : []),
    ...(ts.isPrefixUnaryExpression(node) ? ofPrefix(node, raw) : []),
    ...(ts.isPropertyAccessExpression(node) ? ofChoice(node, raw) : []),
    ...(ts.isCallExpression(node) ? ofCall(node, raw) : []),
    ...(ts.isStringLiteral(node) && isWord(node) ? [{ kind: 'word', to: "'\\0'" }] : []),
    ...(ts.isRegularExpressionLiteral(node) ? ofPattern(raw(node)) : []),
  ];
}

const isMathConstant = (node) =>
  ts.isPropertyAccessExpression(node) && /^Math\.[A-Z][A-Z0-9_]*$/.test(node.getText());

/** Where a node decides which way it goes: whether it may be forced true, and false. */
function decides(node) {
  const { parent } = node;
  if (ts.isIfStatement(parent) && parent.expression === node) return [true, false];
  if (ts.isConditionalExpression(parent) && parent.condition === node) return [true, false];
  // A loop that never ends is noticed by anything, so only its never being entered is tried.
  if ((ts.isWhileStatement(parent) || ts.isDoStatement(parent)) && parent.expression === node) return [false];
  if (ts.isForStatement(parent) && parent.condition === node) return [false];
  return [];
}

const ofCondition = (node) => decides(node).map((to) => ({ kind: 'condition', to: String(to) }));

function ofBinary(node, raw) {
  const { left, right, operatorToken } = node;
  const token = operatorToken.kind;
  const to = (operator) => `${raw(left)} ${operator} ${raw(right)}`;
  if (COMPARE.has(token)) {
    // Where an equality alone decides, it is forced both ways already.
    const equality = token === K.EqualsEqualsEqualsToken || token === K.ExclamationEqualsEqualsToken;
    return equality && decides(node).length === 2 ? [] : [{ kind: 'compare', to: to(COMPARE.get(token)) }];
  }
  if (SUM.has(token)) {
    if ((token === K.PlusToken || token === K.PlusEqualsToken) && [left, right].some((x) => isTextual(x)))
      return [];
    return [{ kind: 'sum', to: to(SUM.get(token)) }];
  }
  if (token === K.AmpersandAmpersandToken || token === K.BarBarToken)
    return [left, right].map((side) => ({ kind: 'condition', to: raw(side) }));
  if (token === K.QuestionQuestionToken && !isStandIn(left, right))
    return [left, right].map((side) => ({ kind: 'condition', to: raw(side) }));
  return [];
}

/** Text joined to text; a difference of texts would be noticed for being no number. */
function isTextual(node) {
  const at = bare(node);
  return isText(at) || (ts.isBinaryExpression(at) && [at.left, at.right].some((side) => isTextual(side)));
}

function isStandIn(left, right) {
  const at = bare(left);
  if (ts.isElementAccessExpression(at)) return true;
  const name =
    ts.isCallExpression(at) && ts.isPropertyAccessExpression(at.expression) && at.expression.name.text;
  const value = bare(right);
  const plain =
    LITERALS.has(value.kind) || (ts.isArrayLiteralExpression(value) && value.elements.length === 0);
  return plain && LOOKUPS.has(name);
}

function ofPrefix(node, raw) {
  if (node.operator === K.MinusToken && !ts.isNumericLiteral(node.operand))
    return [{ kind: 'sum', to: raw(node.operand) }];
  if (node.operator === K.ExclamationToken && decides(node).length < 2)
    return [{ kind: 'condition', to: raw(node.operand) }];
  return [];
}

function ofChoice(node, raw) {
  const name = node.name.text;
  const isCalled = ts.isCallExpression(node.parent) && node.parent.expression === node;
  const math = raw(node.expression) === 'Math';
  if (!Object.hasOwn(OTHER, name) || (!math && !isCalled)) return [];
  if (math) return [{ kind: 'choose', to: `Math.${OTHER[name]}` }];
  return [];
}

function ofCall(node, raw) {
  const found = [];
  const { expression: callee, parent } = node;
  if (ts.isExpressionStatement(parent)) found.push({ kind: 'call', to: 'void 0' });
  else if (REFUSAL.test(raw(callee)) && (ts.isReturnStatement(parent) || ts.isArrowFunction(parent)))
    found.push({ kind: 'call', to: 'null' });
  if (ts.isPropertyAccessExpression(callee) && /^(every|some)$/.test(callee.name.text)) {
    const { expression, name, questionDotToken } = callee;
    const args = node.arguments.map((argument) => raw(argument)).join(', ');
    found.push({
      kind: 'choose',
      to: `${raw(expression)}${questionDotToken ? '?.' : '.'}${OTHER[name.text]}(${args})`,
    });
  }
  return found;
}

/** A word that a rule compares with or looks up. */
function isWord(node) {
  const { parent } = node;
  if (ts.isCaseClause(parent)) return true;
  if (ts.isArrayLiteralExpression(parent)) return node.text !== '' && !/ {1}\w+ /.test(node.text);
  if (ts.isCallExpression(parent) && ts.isPropertyAccessExpression(parent.expression))
    return /^(startsWith|endsWith|includes|indexOf|has)$/.test(parent.expression.name.text);
  return false;
}

function ofPattern(text) {
  const end = text.lastIndexOf('/');
  const [body, flags] = [text.slice(1, end), text.slice(end + 1)];
  const found = [{ kind: 'word', to: `/(?!)/${flags}` }];
  for (const { from, to } of alternatives(body)) {
    const without = body.slice(0, from) + body.slice(to);
    found.push({ kind: 'word', to: `/${without}/${flags}` });
  }
  return found;
}

/** Each alternative of the pattern and of its groups, with one of the bars beside it. */
function alternatives(body) {
  const found = [];
  const open = [{ start: 0, bars: [] }];
  const close = (end) => {
    const { start, bars } = open.pop() ?? { start: 0, bars: [] };
    if (bars.length === 0) return;
    const ends = [...bars, end];
    ends.forEach((to, i) => {
      const from = i === 0 ? start : (ends[i - 1] ?? start);
      found.push(i === 0 ? { from, to: to + 1 } : { from, to });
    });
  };
  let inClass = false;
  for (let i = 0; i < body.length; i++) {
    const c = body[i];
    if (c === '\\') i++;
    else if (inClass) inClass = c !== ']';
    else if (c === '[') inClass = true;
    else if (c === '(') {
      const kind = /^\(\?(:|=|!|<=|<!|<\w+>)/.exec(body.slice(i));
      open.push({ start: i + (kind ? kind[0].length : 1), bars: [] });
    } else if (c === ')') close(i);
    else if (c === '|') open.at(-1)?.bars.push(i);
  }
  close(body.length);
  return found;
}

function ofNumber(node, file) {
  const { parent } = node;
  const n = Number(node.getText().replaceAll('_', ''));
  // A place in a list, a stand-in for strict indexing, a property's name.
  if (ts.isElementAccessExpression(parent) && parent.argumentExpression === node) return [];
  if (ts.isBindingElement(parent) && ts.isArrayBindingPattern(parent.parent)) return [];
  if (ts.isBinaryExpression(parent) && parent.operatorToken.kind === K.QuestionQuestionToken)
    if (isStandIn(parent.left, parent.right)) return [];
  if (parent.name === node) return [];
  return [numberBroken(node, n, file)];
}

function numberBroken(node, n, file) {
  const scaled = n === 0 ? '0.001' : `${node.getText()} * 1.001`;
  if (file.endsWith('iso286-table.ts')) {
    const steps = /STEPS$/.test(placeOf(node));
    // Smaller in size where it is negative, larger in value either way.
    const negative = ts.isPrefixUnaryExpression(node.parent);
    return { kind: 'table', to: steps ? scaled : String(negative ? n - 1 : n + 1) };
  }
  if (file.startsWith('src/trade/') || isFactor(node, file)) return { kind: 'number', to: scaled };
  if (n > 0 && n < 1e-6) return { kind: 'number', to: `${node.getText()} * 10` };
  if (!Number.isInteger(n) || isFactorOfSum(node)) return { kind: 'number', to: scaled };
  return { kind: 'number', to: String(n + 1) };
}

/** In the unit table: a unit's factor or zero, and the constants they are made of. */
function isFactor(node, file) {
  if (!file.endsWith('unit-table.ts')) return false;
  for (let at = node; at.parent; at = at.parent) {
    const { parent } = at;
    if (ts.isCallExpression(parent))
      return parent.expression.getText() === 'of' && parent.arguments[1] === at;
    if (ts.isPropertyAssignment(parent)) return parent.name.getText() === 'offset';
    if (ts.isArrayLiteralExpression(parent)) return false;
    if (ts.isVariableDeclaration(parent)) return true;
  }
  return false;
}

const isFactorOfSum = (node) =>
  ts.isBinaryExpression(node.parent) &&
  [K.AsteriskToken, K.SlashToken, K.AsteriskAsteriskToken, K.PercentToken].includes(
    node.parent.operatorToken.kind,
  );
