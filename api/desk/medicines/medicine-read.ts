/**
 * The form of a label, read: the data of a `medicine-listed`, or a sentence beside each field that cannot be used. A hold
 * is never taken from an empty field: no hold, and a hold that nobody knows, are chosen by name.
 */
import { sentenceOf } from '../../../events/envelope.ts';
import { type MedicineListed, medicineListed } from '../../../events/kinds/medicine-listed.ts';
import type { Typed } from '../controls.tsx';
import { type Figures, figuresOf, filled, over } from '../farm/farm-figures.ts';
import { sentenceFor } from '../farm/farm-read.ts';
import { type Sentence, say } from '../say.tsx';
import { MOST_STEPS } from './medicine-typed.ts';

export type ReadLabel =
  | { readonly ok: true; readonly data: MedicineListed }
  | { readonly ok: false; readonly problems: ReadonlyMap<string, string> };

/** `base`: the listing that the form was drawn from. */
export const readLabel = (typed: Typed, base: Partial<MedicineListed>): ReadLabel => {
  const problems = new Map<string, string>();
  const figures = figuresOf(typed, problems);
  const { number } = figures;
  /** "No" is said where it was said before; else saying nothing means the same. */
  const unlessTicked = (name: string, before: boolean | undefined): boolean | undefined =>
    typed.one(name) !== undefined ? false : before === undefined ? undefined : true;
  const data = over(base, {
    name: typed.one('name')?.replace(/\s+/g, ' '),
    active: typed.one('active'),
    kind: typed.one('kind'),
    route: typed.one('route'),
    for: typed.all('for').length === 0 ? undefined : typed.all('for'),
    milkHold: holdOf(typed, figures, MILK),
    meatDays: meatOf(typed, figures),
    dryCow: dryCowOf(typed, figures, base.dryCow),
    maxDoses: number('maxDoses'),
    minIntervalHours: number('minIntervalHours'),
    notFromAgeMonths: number('notFromAgeMonths'),
    authorisedForMilkAnimals: unlessTicked('notForMilkAnimals', base.authorisedForMilkAnimals),
    authorisedForFoodAnimals: unlessTicked('notForFoodAnimals', base.authorisedForFoodAnimals),
    retired: typed.one('retired') !== undefined ? true : base.retired === undefined ? undefined : false,
  });
  const shape = medicineListed.schema.safeParse(data, { reportInput: true });
  if (!shape.success) {
    for (const issue of shape.error.issues) {
      const field = fieldAt(issue.path.map(String));
      // Where a field of a hold is noted already, the whole hold is missing because of it.
      const noted = [...problems.keys()].some((name) => name === field || HOLD_FIELDS[field]?.includes(name));
      if (!noted) problems.set(field, sentenceFor(sentenceOf([issue]).problem));
    }
  }
  return shape.success && problems.size === 0 ? { ok: true, data: shape.data } : { ok: false, problems };
};

interface HoldFields {
  readonly choice: string;
  readonly hours: string;
  readonly milkings: string;
  readonly notChosen: Sentence;
}

const MILK: HoldFields = {
  choice: 'milk',
  hours: 'milkHours',
  milkings: 'milkMilkings',
  notChosen:
    'Say what the label says of milk: hours or milkings, "none", or "not for milking cows"; where you cannot read it, "unknown: hold until the vet says". Left empty it would look like no hold',
};

const AFTER_CALVING: HoldFields = {
  choice: 'afterCalving',
  hours: 'afterHours',
  milkings: 'afterMilkings',
  notChosen: 'Say how long the milk is held after calving: hours or milkings, or "none" where the label says so',
};

const HOLD_FIELDS: Readonly<Record<string, readonly string[]>> = {
  milk: ['milkHours', 'milkMilkings'],
  afterCalving: ['afterHours', 'afterMilkings'],
  meat: ['meatDays', ...[...Array(MOST_STEPS).keys()].flatMap((row) => [`step-${row}-days`, `step-${row}-upToDoses`])],
};

const holdOf = (typed: Typed, { number, problems }: Figures, fields: HoldFields): unknown => {
  const choice = typed.one(fields.choice);
  const typedFigures = typed.one(fields.hours) !== undefined || typed.one(fields.milkings) !== undefined;
  const hours = number(fields.hours);
  const milkings = number(fields.milkings);
  if (choice === undefined && !typedFigures) {
    problems.set(fields.choice, say(fields.notChosen));
    return undefined;
  }
  if (choice === undefined || choice === 'hold') {
    if (!typedFigures) problems.set(fields.choice, say('Give the hours or the milkings that stand on the label'));
    return filled({ hours, milkings });
  }
  if (typedFigures)
    problems.set(
      fields.choice,
      say(
        'A time is typed, and another choice is made beside it. Which of the two says the label? Clear the time, or choose it',
      ),
    );
  return choice;
};

const meatOf = (typed: Typed, { number, problems }: Figures): unknown => {
  const days = number('meatDays');
  const steps = [...Array(MOST_STEPS).keys()].flatMap((row) => {
    const step = filled({ upToDoses: number(`step-${row}-upToDoses`), days: number(`step-${row}-days`) });
    return Object.keys(step).length === 0 ? [] : [step];
  });
  const choice = typed.one('meat') ?? (steps.length > 0 && typed.one('meatDays') === undefined ? 'steps' : undefined);
  const said = [typed.one('meatDays') !== undefined, steps.length > 0].filter(Boolean).length;
  const refuse = (sentence: Sentence): undefined => {
    problems.set('meat', say(sentence));
    return undefined;
  };
  if (said === 2) return refuse('Days are typed, and steps by doses too: clear one of them');
  if (choice === 'steps')
    return steps.length > 0 ? steps : refuse('Give the steps: up to how many doses, how many days');
  if (choice === 'unknown') return said === 0 ? 'unknown' : refuse('A time is typed, but "unknown" is chosen: which?');
  if (said === 1 && steps.length > 0) return refuse('Steps by doses are typed: choose them, or clear them');
  if (typed.one('meatDays') === undefined)
    return refuse(
      'Say what the label says of meat: a number of days (0 where there is none), steps by doses, or "unknown: hold until the vet says"',
    );
  return days;
};

const dryCowOf = (typed: Typed, figures: Figures, base: MedicineListed['dryCow']): unknown => {
  const { number, problems } = figures;
  const fields = ['minimumDryDays', 'afterCalving', 'afterHours', 'afterMilkings', 'meatHoursAfterCalving'];
  if (typed.one('dryCow') === undefined) {
    if (fields.some((name) => typed.one(name) !== undefined))
      problems.set('dryCow', say('Times of a dry-cow product are given: tick that it is one, or clear them'));
    return undefined;
  }
  return over(base, {
    minimumDryDays: number('minimumDryDays'),
    milkHoldAfterCalving: holdOf(typed, figures, AFTER_CALVING),
    meatHoursAfterCalving: number('meatHoursAfterCalving'),
    earlyCalving: typed.one('earlyCalving'),
  });
};

/** The field of the form that a place in the data came from. */
const fieldAt = ([first = '', second, third]: readonly string[]): string => {
  if (first === 'milkHold') return second === 'hours' ? 'milkHours' : second === 'milkings' ? 'milkMilkings' : 'milk';
  if (first === 'meatDays') return third === undefined ? 'meat' : `step-${second}-${third}`;
  if (second === 'milkHoldAfterCalving')
    return third === 'hours' ? 'afterHours' : third === 'milkings' ? 'afterMilkings' : 'afterCalving';
  return second ?? first;
};
