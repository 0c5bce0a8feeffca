/** From what was typed to entries, and from what is wrong with them back to the fields. */
import type { Child } from 'hono/jsx';
import { isBarnNumber, officialDigits } from '../../../shared/cow-number.ts';
import { type Draft, idOf, type Trouble } from '../saving.ts';
import { say } from '../say.tsx';
import type { Written } from './building.ts';
import { CannotWrite, type Context, clockOf } from './context.ts';
import type { Typed } from './fields.tsx';
import { timeOf } from './timing.tsx';

const MOST_COWS = 200;

/** The numbers as typed, each once. */
const numbersIn = (text: string | undefined): string[] => [
  ...new Set(
    (text ?? '')
      .split(officialDigits(text ?? '') === undefined ? /[\s,;]+/ : /[,;]/)
      .map((each) => each.trim())
      .filter(Boolean),
  ),
];

export interface Built {
  readonly drafts: readonly Draft[];
  readonly cows: readonly string[];
  readonly troubles: readonly { readonly field: string; readonly says: Child }[];
}

/** The entries that a form means, or what is wrong with it. */
export const build = (written: Written, typed: Typed, context: Context, saving: string): Built => {
  const troubles: { field: string; says: Child }[] = [];
  const cows = written.about === 'farm' ? [] : numbersIn(typed.one('cow'));
  const free = written.about === 'farm' || written.type === 'residue-test';
  if (!free && cows.length === 0) troubles.push({ field: 'cow', says: say('Say which cow') });
  if (written.about !== 'several' && cows.length > 1)
    troubles.push({ field: 'cow', says: say('One cow at a time here') });
  if (cows.length > MOST_COWS)
    troubles.push({ field: 'cow', says: say('{n} cows at once at most', { n: String(MOST_COWS) }) });
  for (const cow of cows) {
    if (!isBarnNumber(cow) && officialDigits(cow) === undefined)
      troubles.push({
        field: 'cow',
        says: say('"{cow}" is no cow number: letters, digits and hyphens, 10 at most', { cow }),
      });
  }
  const at = timeOf(typed, clockOf(context));
  if (!at.ok) troubles.push({ field: 'when', says: at.problem });
  if (troubles.length > 0 || !at.ok) return { drafts: [], cows, troubles };
  const drafts: Draft[] = [];
  for (const cow of cows.length === 0 ? [undefined] : cows) {
    try {
      const data = written.dataOf(
        typed,
        context,
        cow,
        (part) => `course-${idOf(saving, -1).slice(0, 13)}-${part.replace(/\W+/g, '-')}`,
      );
      drafts.push({ type: written.type, subject: cow, at: at.value, data });
    } catch (thrown) {
      if (!(thrown instanceof CannotWrite)) throw thrown;
      troubles.push({ field: '', says: thrown.message });
    }
  }
  return { drafts, cows, troubles };
};

/** Which field a trouble of the door is about. */
export const fieldOf = ({ pointer }: Trouble): string => {
  const [, where = '', name = '', inside = ''] = (pointer ?? '').split('/');
  if (where === 'subject') return 'cow';
  if (where === 'time') return 'when';
  if (where !== 'data') return '';
  if (name === 'course') return inside === 'of' || inside === 'everyHours' ? inside : 'inCourse';
  if (name === 'amount') return inside === 'unit' ? 'unit' : 'amount';
  return name;
};

/** The door speaks of fields by their names in quotes; on a page they stand beside the field. */
export const sentence = (problem: string): string =>
  problem.replace(/^"(?:data\.)?(\w+)" /, 'this ').replace(/^./, (first) => first.toUpperCase());
