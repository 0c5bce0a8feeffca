/** The form of the farm's set-up, read: the data of a `farm-set-up`, or a sentence beside each field that cannot be used. */
import { sentenceOf } from '../../../events/envelope.ts';
import { type FarmSetUp, farmSetUp } from '../../../events/kinds/farm-set-up.ts';
import type { Problems, Typed } from '../controls.tsx';
import { inEnglish, say } from '../say.tsx';
import { figuresOf, filledOrNone, linesOf, over, rowsOf } from './farm-figures.ts';
import { MILK_USES, MOST_LANGUAGES, MOST_MILKINGS } from './farm-typed.ts';

export type ReadSetUp =
  | { readonly ok: true; readonly data: FarmSetUp }
  | {
      readonly ok: false;
      readonly problems: ReadonlyMap<string, string>;
      /** The same for a page: what the door says in English is marked as English. */
      readonly shown: Problems;
    };

/** `base`: the set-up that the form was drawn from. What the form does not show is taken over from it. */
export const readSetUp = (typed: Typed, base: Partial<FarmSetUp>): ReadSetUp => {
  const problems = new Map<string, string>();
  const fromDoor = new Set<string>();
  const { number } = figuresOf(typed, problems);
  const text = (name: string): string | undefined => typed.one(name);
  const milkings = readMilkings(typed, base, problems);
  const groups = readGroups(typed, base, milkings.rows, problems, number);
  const languages = [...Array(MOST_LANGUAGES).keys()].flatMap((index) => text(`language-${index}`) ?? []);
  const phoneRows: number[] = [];
  const phones = rowsOf(typed, 'phone').flatMap((row) => {
    const [who, said] = [text(`phone-${row}-who`), text(`phone-${row}-number`)];
    if (who === undefined && said === undefined) return [];
    if (who === undefined) problems.set(`phone-${row}-who`, say('Say whose number this is, or clear it'));
    if (said === undefined) problems.set(`phone-${row}-number`, say('Give the number, or clear the name'));
    phoneRows.push(row);
    return [{ who, number: said }];
  });
  const data = over(base, {
    name: text('name'),
    timeZone: text('timeZone'),
    from: text('from'),
    paper: text('paper'),
    languages: languages.length === 0 ? undefined : [...new Set(languages)],
    milkings: milkings.data,
    parlour: over(base.parlour, {
      stalls: number('stalls'),
      turnMinutes: number('turnMinutes'),
      slowFromMinutes: number('slowFromMinutes'),
      slowExtraMinutes: number('slowExtraMinutes'),
    }),
    groups: groups.data,
    mark: text('mark'),
    freshHold: filledOrNone({
      ...base.freshHold,
      milkings: number('freshMilkings'),
      hours: number('freshHours'),
      daysBeforeDue: number('daysBeforeDue'),
    }),
    freshPenHours: number('freshPenHours'),
    // "No" is said where it was said before; it means the same as saying nothing.
    freshHoldMayMove:
      text('freshHoldMayMove') !== undefined ? true : base.freshHoldMayMove === undefined ? undefined : false,
    dryOff: filledOrNone({
      ...base.dryOff,
      days: number('dryDays'),
      minimumDays: number('minimumDays'),
      weekday: text('weekday'),
      lookAheadDays: number('lookAheadDays'),
      longMilkingDays: number('longMilkingDays'),
      product: text('product'),
    }),
    gestationDays: number('gestationDays'),
    offLabel: text('offLabel'),
    milkTo: milkToOf(typed, base),
    chores: filledOrNone({
      ...base.chores,
      before: someOf(linesOf(text('before'))),
      after: someOf(linesOf(text('after'))),
    }),
    footBath: someOf(typed.all('footBath')),
    phones: someOf(phones),
  });
  // A number that cannot be read leaves its field out; what is said of it then says less than what is noted already.
  const shape = farmSetUp.schema.safeParse(data, { reportInput: true });
  if (!shape.success) {
    for (const issue of shape.error.issues) {
      const field = fieldAt(issue.path, { milkings: milkings.rows, groups: groups.rows, phones: phoneRows });
      if (problems.has(field)) continue;
      const { problem } = sentenceOf([issue]);
      const empty = /^"[^"]*" is missing$/.test(problem);
      if (!empty) fromDoor.add(field);
      problems.set(field, empty ? say('Fill this in: it is needed') : sentenceFor(problem));
    }
  }
  if (shape.success && problems.size === 0) return { ok: true, data: shape.data };
  const shown = [...problems].map(([field, text]) => [field, fromDoor.has(field) ? inEnglish(text) : text] as const);
  return { ok: false, problems, shown: new Map(shown) };
};

const someOf = <T>(values: readonly T[]): readonly T[] | undefined => (values.length === 0 ? undefined : values);

const readMilkings = (typed: Typed, base: Partial<FarmSetUp>, problems: Map<string, string>) => {
  const rows: number[] = [];
  const data = [...Array(MOST_MILKINGS).keys()].flatMap((row) => {
    const [name, start] = [typed.one(`milking-${row}-name`), typed.one(`milking-${row}-start`)];
    if (name === undefined && start === undefined) return [];
    if (name === undefined) problems.set(`milking-${row}-name`, say('Give this milking a name, such as morning'));
    if (start === undefined) problems.set(`milking-${row}-start`, say('Say when this milking starts, such as 04:30'));
    rows.push(row);
    return [over(base.milkings?.[row], { name, start })];
  });
  if (data.length === 0)
    problems.set('milking-0-name', say('The farm needs at least one milking: its name and its start'));
  return { rows, data };
};

/** A row whose name was cleared is a group taken away. */
const readGroups = (
  typed: Typed,
  base: Partial<FarmSetUp>,
  milkingRows: readonly number[],
  problems: Map<string, string>,
  number: (name: string) => number | undefined,
) => {
  const rows: number[] = [];
  const named = new Set(rowsOf(typed, 'group').flatMap((row) => typed.one(`group-${row}-name`) ?? []));
  const data = rowsOf(typed, 'group').flatMap((row) => {
    const at = (field: string): string => `group-${row}-${field}`;
    const name = typed.one(at('name'));
    const kind = typed.one(at('kind'));
    if (name === undefined) {
      if (kind !== undefined && typed.one(at('was')) === undefined)
        problems.set(at('name'), say('Give this group a name, or take its kind out'));
      return [];
    }
    if (kind === undefined)
      problems.set(
        at('kind'),
        say('Say what kind of group {name} is: it decides whether its cows are milked', { name }),
      );
    const ticked = typed.all(at('at')).map(Number);
    const only = typed.one(at('milked')) === 'only';
    if (!only && ticked.length > 0)
      problems.set(
        at('milked'),
        say('Milkings are ticked for {name}: choose "only at those ticked", or untick them', { name }),
      );
    const names = ticked.flatMap((index) =>
      milkingRows.includes(index) ? (typed.one(`milking-${index}-name`) ?? []) : [],
    );
    rows.push(row);
    const before = base.groups?.find((group) => group.name === typed.one(at('was')));
    return [
      over(before, {
        name,
        was: wasBy(name, before, named),
        kind,
        takes: typed.one(at('takes')),
        order: number(at('order')),
        capacity: number(at('capacity')),
        milkedAt: only ? names : undefined,
      }),
    ];
  });
  if (data.length === 0) problems.set('group-0-name', say('The farm needs at least one group: its name and its kind'));
  return { rows, data };
};

/** A group whose name is typed over goes on under the new one, with the cows in it; unless another has taken the old one. */
const wasBy = (
  name: string,
  before: FarmSetUp['groups'][number] | undefined,
  named: ReadonlySet<string>,
): readonly string[] | undefined => {
  const was = [...(before?.was ?? []), ...(before === undefined ? [] : [before.name])];
  const still = [...new Set(was)].filter((old) => old !== name && !named.has(old));
  return still.length === 0 ? undefined : still;
};

/** One text for all of it stays one text while nobody changes it. */
const milkToOf = (typed: Typed, base: Partial<FarmSetUp>): unknown => {
  const said = MILK_USES.map((use) => typed.one(`milkTo-${use}`));
  if (typeof base.milkTo === 'string' && said.every((each) => each === base.milkTo)) return base.milkTo;
  const before = typeof base.milkTo === 'string' ? undefined : base.milkTo;
  return filledOrNone({ ...before, ...Object.fromEntries(MILK_USES.map((use, index) => [use, said[index]])) });
};

const NAMES: Readonly<Record<string, string>> = {
  'freshHold/milkings': 'freshMilkings',
  'freshHold/hours': 'freshHours',
  'freshHold/daysBeforeDue': 'daysBeforeDue',
  'dryOff/days': 'dryDays',
  'chores/before': 'before',
  'chores/after': 'after',
};

/** The field of the form that a place in the data came from; empty where it came from none. */
const fieldAt = (
  path: readonly PropertyKey[],
  rows: Readonly<Record<'milkings' | 'groups' | 'phones', readonly number[]>>,
): string => {
  const [first = '', second, third] = path.map(String);
  const rowIn = (list: readonly number[]): number => list[Number(second)] ?? list[0] ?? 0;
  if (first === 'milkings') return `milking-${rowIn(rows.milkings)}-${third ?? 'name'}`;
  if (first === 'groups') return `group-${rowIn(rows.groups)}-${third === 'milkedAt' ? 'milked' : (third ?? 'name')}`;
  if (first === 'phones') return `phone-${rowIn(rows.phones)}-${third ?? 'number'}`;
  if (first === 'languages') return `language-${second ?? 0}`;
  if (first === 'milkTo') return `milkTo-${second ?? 'treated'}`;
  return NAMES[`${first}/${second}`] ?? second ?? first;
};

/** `"parlour.stalls" must be at least 1` → `This must be at least 1`: the sentence stands beside its field. */
export const sentenceFor = (problem: string): string => {
  const [, rest] = /^"[^"]*" (.*)$/s.exec(problem) ?? [];
  if (rest === undefined) return problem;
  if (rest.startsWith('is missing')) return rest.replace('is missing', 'Fill this in: it is needed');
  return rest.startsWith('"') ? rest : `This ${rest}`;
};
