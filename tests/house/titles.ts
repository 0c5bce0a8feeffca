/**
 * The titles of all tests, read from the parsed files rather than by running them: `describe` titles lead, the test's
 * own follows. Also says which tests are switched off.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync } from '@swc/core';

export interface Title {
  readonly file: string;
  readonly title: string;
  /** `skip`, `todo`, `only` and the like, where the test carries one. */
  readonly switches: readonly string[];
}

const RUNNERS = new Set(['test', 'it']);
const SWITCHES = new Set(['skip', 'todo', 'only', 'fails', 'skipIf', 'runIf']);

type Node = Readonly<Record<string, unknown>>;
const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;

/** `test.each(rows)('…')` and `test.prop(…)('…')` too: the names on the way from the call down to `test` itself. */
const namesOf = (callee: unknown): string[] => {
  if (!isNode(callee)) return [];
  if (callee.type === 'Identifier') return [String(callee.value)];
  if (callee.type === 'MemberExpression') {
    const property = isNode(callee.property) ? String(callee.property.value) : '';
    return [...namesOf(callee.object), property];
  }
  if (callee.type === 'CallExpression') return namesOf(callee.callee);
  if (callee.type === 'TaggedTemplateExpression') return namesOf(callee.tag);
  return [];
};

/** The fixed words of a text, a template or texts joined by `+`. */
const wordsOf = (argument: unknown): string | undefined => {
  if (!isNode(argument)) return undefined;
  if (argument.type === 'StringLiteral') return String(argument.value);
  if (argument.type === 'TemplateLiteral' && Array.isArray(argument.quasis)) {
    return argument.quasis.map((quasi: Node) => String(quasi.raw)).join('…');
  }
  if (argument.type === 'BinaryExpression') {
    return `${wordsOf(argument.left) ?? ''}${wordsOf(argument.right) ?? ''}`;
  }
  return undefined;
};

const walk = (
  value: unknown,
  outer: readonly string[],
  switched: readonly string[],
  found: Title[],
  file: string,
): void => {
  if (Array.isArray(value)) {
    for (const each of value) walk(each, outer, switched, found, file);
    return;
  }
  if (!isNode(value)) return;
  if (value.type === 'CallExpression' && Array.isArray(value.arguments)) {
    const [first = '', ...rest] = namesOf(value.callee);
    const words = wordsOf(isNode(value.arguments[0]) ? value.arguments[0].expression : undefined);
    const switches = [...switched, ...rest.filter((name) => SWITCHES.has(name))];
    if (RUNNERS.has(first) && words !== undefined) found.push({ file, title: [...outer, words].join(' > '), switches });
    if (first === 'describe' && words !== undefined) {
      walk(value.arguments, [...outer, words], switches, found, file);
      return;
    }
  }
  for (const each of Object.values(value)) walk(each, outer, switched, found, file);
};

/** Titles in one file's text. */
export const titlesIn = (text: string, file: string): readonly Title[] => {
  const found: Title[] = [];
  walk(parseSync(text, { syntax: 'typescript' }).body, [], [], found, file);
  return found;
};

/** Titles of every test file under a folder. */
export const titlesUnder = (folder: string): readonly Title[] =>
  readdirSync(folder, { recursive: true })
    .map(String)
    .filter((path) => path.endsWith('.test.ts'))
    .sort()
    .flatMap((path) => titlesIn(readFileSync(join(folder, path), 'utf8'), path));

/** Rule numbers that a text names. */
export const rulesNamed = (text: string): readonly string[] => text.match(/\bR-\d+\b/g) ?? [];
