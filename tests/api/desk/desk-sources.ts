/** What the sources of the desk say: each call that says a sentence with the values it gives, and text that stands in a page unsaid. */
import { readdirSync, readFileSync } from 'node:fs';
import { parseSync } from '@swc/core';

export interface SaidCall {
  readonly file: string;
  readonly by: 'say' | 'sayWith' | 'SaidProblem';
  /** Undefined where the sentence is not written out at the call. */
  readonly sentence: string | undefined;
  /** Undefined where the values are not written out. */
  readonly values: readonly string[] | undefined;
}

type Node = Readonly<Record<string, unknown>>;
const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;
const kids = (node: Node): readonly Node[] =>
  Object.values(node).flatMap((value) => (Array.isArray(value) ? value.filter(isNode) : isNode(value) ? [value] : []));
const at = (node: unknown, ...path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>((found, step) => {
    if (Array.isArray(found)) return found[Number(step)];
    return isNode(found) ? found[step] : undefined;
  }, node);

export const deskFiles = (): readonly string[] =>
  readdirSync('api/desk', { recursive: true })
    .map(String)
    .filter((path) => /\.tsx?$/.test(path) && !/-said\.ts$/.test(path))
    .sort();

export const sourceOf = (file: string): string => readFileSync(`api/desk/${file}`, 'utf8');

const parsed = (source: string, tsx = true): Node => {
  const read: unknown = parseSync(source, { syntax: 'typescript', tsx });
  if (!isNode(read)) throw new Error(`it does not parse: ${source.slice(0, 80)}`);
  return read;
};

/** The text of a string or of a template without anything put into it. */
const literal = (node: unknown): string | undefined => {
  if (at(node, 'type') === 'StringLiteral') return String(at(node, 'value'));
  const isBare = at(node, 'type') === 'TemplateLiteral' && at(node, 'expressions', 0) === undefined;
  return isBare ? String(at(node, 'quasis', 0, 'cooked')) : undefined;
};

const namesOf = (values: unknown): readonly string[] | undefined => {
  if (values === undefined) return [];
  const properties = at(values, 'properties');
  if (at(values, 'type') !== 'ObjectExpression' || !Array.isArray(properties)) return undefined;
  const names = properties.map((each) =>
    at(each, 'type') === 'Identifier' ? at(each, 'value') : (at(each, 'key', 'value') ?? undefined),
  );
  return names.every((name) => typeof name === 'string') ? names : undefined;
};

const nameCalled = (node: Node): string => String(at(node, 'callee', 'value') ?? '');

const callOf = (file: string, node: Node): SaidCall | undefined => {
  const by = nameCalled(node);
  const where = by === 'SaidProblem' ? 1 : by === 'say' || by === 'sayWith' ? 0 : -1;
  if (where < 0 || (by !== 'SaidProblem' && by !== 'say' && by !== 'sayWith')) return undefined;
  const given = (index: number) => at(node, 'arguments', index, 'expression');
  return { file, by, sentence: literal(given(where)), values: namesOf(given(where + 1)) };
};

export const saidCalls = (file: string): readonly SaidCall[] => {
  const calls: SaidCall[] = [];
  const walk = (node: Node): void => {
    const isCall = node.type === 'CallExpression' || node.type === 'NewExpression';
    const call = isCall ? callOf(file, node) : undefined;
    if (call !== undefined) calls.push(call);
    kids(node).forEach(walk);
  };
  walk(parsed(sourceOf(file), file.endsWith('x')));
  return calls;
};

const SPOKEN_ATTRIBUTES = new Set([
  'label',
  'title',
  'hint',
  'aria-label',
  'data-label',
  'nothing',
  'alt',
  'placeholder',
  'summary',
  'lead',
]);
const HAS_A_WORD = /\p{L}{2,}/u;

/** Text in a page's elements, and in attributes that people read, which no call says. */
export const unsaid = (source: string): readonly string[] => {
  const found: string[] = [];
  const keep = (text: string): void => {
    if (HAS_A_WORD.test(text.replaceAll('Byrebook', ''))) found.push(text.replace(/\s+/g, ' ').trim());
  };
  /** What an expression may come out as. */
  const outcome = (node: unknown): void => {
    const type = at(node, 'type');
    if (type === 'StringLiteral') keep(String(at(node, 'value')));
    else if (type === 'TemplateLiteral') {
      const quasis = at(node, 'quasis');
      if (Array.isArray(quasis)) for (const quasi of quasis) keep(String(at(quasi, 'raw')));
    } else if (type === 'ConditionalExpression') {
      outcome(at(node, 'consequent'));
      outcome(at(node, 'alternate'));
    } else if (type === 'ParenthesisExpression') outcome(at(node, 'expression'));
    else if (type === 'BinaryExpression' && /^(&&|\|\||\?\?|\+)$/.test(String(at(node, 'operator')))) {
      outcome(at(node, 'left'));
      outcome(at(node, 'right'));
    }
  };
  const walk = (node: Node): void => {
    if (node.type === 'JSXElement') {
      const attributes = at(node, 'opening', 'attributes');
      const own = Array.isArray(attributes) ? attributes : [];
      // Marked as being in a language of its own.
      if (own.some((each) => at(each, 'name', 'value') === 'lang') && at(node, 'opening', 'name', 'value') !== 'html')
        return;
      for (const each of own) {
        const name = at(each, 'name', 'type') === 'Identifier' ? String(at(each, 'name', 'value')) : '';
        const value = at(each, 'value');
        if (SPOKEN_ATTRIBUTES.has(name))
          outcome(at(value, 'type') === 'JSXExpressionContainer' ? at(value, 'expression') : value);
      }
    }
    if (node.type === 'JSXText') keep(String(node.value));
    const children = node.type === 'JSXElement' || node.type === 'JSXFragment' ? at(node, 'children') : undefined;
    if (Array.isArray(children))
      for (const child of children)
        if (at(child, 'type') === 'JSXExpressionContainer') outcome(at(child, 'expression'));
    kids(node).forEach(walk);
  };
  walk(parsed(source));
  return found;
};
