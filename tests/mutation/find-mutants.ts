import ts from "typescript";

/** One mistake put into a file: what stands there, and what would stand there instead. */
export type Mutant = {
  /** Lines of code around it with white space made one, before and after: they name the mutant however lines move. */
  readonly code: string;
  readonly becomes: string;
  readonly line: number;
};
type Change = { readonly host: ts.Node; readonly from: number; readonly to: number; readonly text: string };

/** A file with all its mutants in it: `$.is(n)` says which one is on. */
export type Mutated = { readonly mutants: readonly Mutant[]; readonly source: string };

const K = ts.SyntaxKind;

/** Operators and what is put in their place. `??` is answered by one of its sides, see below. */
const OPERATORS: Partial<Record<ts.SyntaxKind, readonly string[]>> = {
  [K.PlusToken]: ["-"],
  [K.MinusToken]: ["+"],
  [K.AsteriskToken]: ["/"],
  [K.SlashToken]: ["*"],
  [K.PercentToken]: ["*"],
  [K.AsteriskAsteriskToken]: ["*"],
  [K.PlusEqualsToken]: ["-="],
  [K.MinusEqualsToken]: ["+="],
  [K.AsteriskEqualsToken]: ["/="],
  [K.SlashEqualsToken]: ["*="],
  [K.LessThanToken]: ["<=", ">="],
  [K.LessThanEqualsToken]: ["<", ">"],
  [K.GreaterThanToken]: [">=", "<="],
  [K.GreaterThanEqualsToken]: [">", "<"],
  [K.EqualsEqualsEqualsToken]: ["!=="],
  [K.ExclamationEqualsEqualsToken]: ["==="],
  [K.AmpersandAmpersandToken]: ["||"],
  [K.BarBarToken]: ["&&"],
};

/** Methods that are easily taken for each other. */
const SWAPS: Readonly<Record<string, string>> = Object.fromEntries(
  ["min max", "some every", "floor ceil", "sin cos", "startsWith endsWith", "find findLast", "findIndex findLastIndex"]
    .map((pair) => pair.split(" ") as [string, string])
    .flatMap(([a, b]) => [
      [a, b],
      [b, a],
    ]),
);
/** Methods that may have been forgotten: what they were called on stands for the call. */
const FORGOTTEN = new Set(
  "filter sort toSorted reverse toReversed slice trim trimEnd trimStart toLowerCase toUpperCase".split(" "),
);
/** Functions of Math that may have been forgotten: their argument stands for the call. */
const PLAIN_MATH = new Set(["abs", "sqrt", "cbrt", "exp", "log", "log10", "round", "trunc"]);

/** A small whole number becomes its neighbour, a tolerance a thousandfold, any other number is off by a hundredth. */
function otherNumber(text: string): string {
  const value = Number(text.replaceAll("_", ""));
  if (Number.isInteger(value) && value < 100) return `${value + 1}`;
  return `${/e-/i.test(text) && value < 1e-3 ? value * 1000 : Number((value * 1.01).toPrecision(15))}`;
}

function changes(node: ts.Node): readonly Omit<Change, "host">[] {
  const whole = (text: string) => [{ from: node.getStart(), to: node.getEnd(), text }];
  if (ts.isBinaryExpression(node)) return inBinary(node);
  if (ts.isPrefixUnaryExpression(node)) {
    if (node.operator === K.ExclamationToken || node.operator === K.MinusToken) return whole(node.operand.getText());
    if (node.operator === K.PlusPlusToken) return whole(`--${node.operand.getText()}`);
  }
  if (ts.isPostfixUnaryExpression(node))
    return whole(`${node.operand.getText()}${node.operator === K.PlusPlusToken ? "--" : "++"}`);
  if (node.kind === K.TrueKeyword) return whole("false");
  if (node.kind === K.FalseKeyword) return whole("true");
  if (ts.isNumericLiteral(node)) return whole(otherNumber(node.getText()));
  // A tag, not words for people: one lower-case name.
  if (ts.isStringLiteral(node) && /^[a-z][\w-]*$/.test(node.text)) return whole('""');
  if (ts.isCallExpression(node)) return inCall(node);
  if (ts.isPropertyAccessExpression(node) && node.questionDotToken)
    return [{ from: node.questionDotToken.pos, to: node.questionDotToken.end, text: "." }];
  if (ts.isExpressionStatement(node))
    return [{ from: node.expression.getStart(), to: node.expression.getEnd(), text: "undefined" }];
  return [];
}

function inBinary({ left, operatorToken, right }: ts.BinaryExpression) {
  const both = { from: left.getStart(), to: right.getEnd() };
  if (operatorToken.kind === K.QuestionQuestionToken)
    return [left, right].map((side) => ({ ...both, text: side.getText() }));
  // Text put together is words, not a sum.
  const words = [left, right].some((side) => ts.isStringLiteralLike(side) || ts.isTemplateExpression(side));
  if (words && operatorToken.kind === K.PlusToken) return [];
  const at = { from: operatorToken.getStart(), to: operatorToken.getEnd() };
  return (OPERATORS[operatorToken.kind] ?? []).map((text) => ({ ...at, text }));
}

function inCall({ expression, arguments: given }: ts.CallExpression) {
  if (!ts.isPropertyAccessExpression(expression)) return [];
  const { name, expression: on } = expression;
  const swap = Object.hasOwn(SWAPS, name.text) ? SWAPS[name.text] : undefined;
  if (swap !== undefined) return [{ from: name.getStart(), to: name.getEnd(), text: swap }];
  const call = { from: on.getStart(), to: expression.parent.getEnd() };
  if (FORGOTTEN.has(name.text)) return [{ ...call, text: on.getText() }];
  if (on.getText() === "Math" && PLAIN_MATH.has(name.text)) return [{ ...call, text: given[0]!.getText() }];
  return [];
}

/** What decides: of an `if`, a loop or a choice always and never; of `&&` and `||` a side that no longer counts. */
function decided(node: ts.Node): readonly string[] {
  const { parent } = node;
  if (ts.isIfStatement(parent) && parent.expression === node) return ["true", "false"];
  if (ts.isConditionalExpression(parent) && parent.condition === node) return ["true", "false"];
  if (ts.isForStatement(parent) && parent.condition === node) return ["false"];
  if (ts.isWhileStatement(parent) && parent.expression === node) return ["false"];
  if (!ts.isBinaryExpression(parent) || node === parent.operatorToken) return [];
  if (parent.operatorToken.kind === K.AmpersandAmpersandToken) return ["true"];
  return parent.operatorToken.kind === K.BarBarToken ? ["false"] : [];
}

/** The expression that can be put into brackets for this one: the whole of a chain, a call for what is called. */
function hostOf(node: ts.Node): ts.Node {
  if (ts.isExpressionStatement(node)) return node.expression;
  const { parent } = node;
  const spine =
    (ts.isPropertyAccessExpression(parent) || ts.isElementAccessExpression(parent) || ts.isCallExpression(parent)) &&
    parent.expression === node;
  const link = ts.isPropertyAccessExpression(node) || ts.isElementAccessExpression(node) || ts.isCallExpression(node);
  if ((spine || ts.isNonNullExpression(parent)) && link) return hostOf(parent);
  return ts.isNonNullExpression(node) && spine ? hostOf(parent) : node;
}

/** Types, imports and what is thrown hold no behaviour that a sheet could show. */
const isSkipped = (node: ts.Node) =>
  ts.isTypeNode(node) ||
  ts.isImportDeclaration(node) ||
  ts.isTypeAliasDeclaration(node) ||
  ts.isInterfaceDeclaration(node) ||
  ts.isThrowStatement(node);
/** A name in quotes is a name; what is put in brackets must be a value. */
const isValue = (node: ts.Node) =>
  !(ts.isPropertyAssignment(node.parent) && node.parent.name === node) && !ts.isLiteralTypeNode(node.parent);

/** Every mutant of a file, and the file with all of them in it. Numbers start at `first`. */
export function findMutants(name: string, text: string, first: number): Mutated {
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.ES2023, true);
  const mutants: Mutant[] = [];
  const byHost = new Map<ts.Node, Change[]>();
  const collect = (node: ts.Node): void => {
    if (isSkipped(node)) return;
    const own = isValue(node) ? changes(node) : [];
    const always = decided(node).map((text) => ({ from: node.getStart(), to: node.getEnd(), text }));
    for (const change of [...own, ...always]) {
      const host = hostOf(node);
      byHost.set(host, [...(byHost.get(host) ?? []), { ...change, host }]);
    }
    ts.forEachChild(node, collect);
  };
  ts.forEachChild(file, collect);

  const render = (node: ts.Node): string => {
    let rendered = "";
    let at = node.getStart();
    ts.forEachChild(node, (child) => {
      // A child is written once: `{ x }` names one piece of text twice.
      if (isSkipped(child) || child.getStart() < at) return;
      rendered += text.slice(at, child.getStart()) + render(child);
      at = child.getEnd();
    });
    rendered += text.slice(at, node.getEnd());
    const own = byHost.get(node) ?? [];
    if (own.length === 0) return rendered;
    const start = node.getStart();
    const choices = own.map(({ from, to, text: other }) => {
      mutants.push(described(file, from, to, other));
      const mutated = text.slice(start, from) + other + text.slice(to, node.getEnd());
      return `$.is(${first + mutants.length - 1}) ? (${mutated}) : `;
    });
    return `(${choices.join("")}${rendered})`;
  };
  return { source: render(file), mutants };
}

/** A mutant's place in whole lines, so that a reader knows it and no number of a line is needed. */
function described(file: ts.SourceFile, from: number, to: number, other: string): Mutant {
  const { text } = file;
  const before = text.lastIndexOf("\n", from) + 1;
  const end = text.indexOf("\n", to);
  const after = end < 0 ? text.length : end;
  const plain = (code: string) => code.replace(/\s+/g, " ").trim();
  return {
    code: plain(text.slice(before, after)),
    becomes: plain(text.slice(before, from) + other + text.slice(to, after)),
    line: file.getLineAndCharacterOfPosition(from).line + 1,
  };
}
