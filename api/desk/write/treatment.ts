/** The form for a dose: the farm's medicines, the usual dose of each, and where it stands in a course. */
import type { EntryOf } from '../../../events/entry.ts';
import type { CowFile } from '../../../projections/cow-file.ts';
import { medicineKey } from '../../../projections/farm.ts';
import { liveEntries } from '../../../projections/live.ts';
import type { Knowledge } from '../../tonight.ts';
import { say } from '../say.tsx';
import { choice, number, text, worded } from './building.ts';
import { CannotWrite, type Context, medicineNames, quarterChoices } from './context.ts';
import { type Field, numberIn, type Typed } from './fields.tsx';

export const treatmentFields = (context: Context): readonly Field[] => [
  text('medicine', 'Medicine', {
    longest: 80,
    required: true,
    suggestions: medicineNames(context),
    hint: 'As it stands in the list of medicines; one that is not listed holds her milk until the vet says',
  }),
  choice(
    'inCourse',
    'This dose is',
    worded(
      ['single', 'a single dose'],
      ['next', 'the next dose of her running course'],
      ['first', 'the first dose of a course'],
    ),
    { required: true },
  ),
  number('of', 'First of a course: doses in all', { whole: true }),
  number('everyHours', 'First of a course: a dose every … hours'),
  number('amount', 'Amount'),
  text('unit', 'Unit', { longest: 20, suggestions: ['tube', 'ml', 'bolus', 'g'] }),
  text('route', 'Route', {
    longest: 40,
    suggestions: ['udder', 'muscle', 'under the skin', 'vein', 'mouth', 'womb', 'pour-on', 'hoof'],
  }),
  { kind: 'ticks', name: 'quarters', label: say('Quarters'), choices: quarterChoices() },
  text('reason', 'What for'),
  text('givenBy', 'Given by', { longest: 80 }),
  text('prescribedBy', 'Vet who prescribed it', { longest: 80 }),
  text('batch', 'Batch', { longest: 60 }),
  {
    kind: 'ticks',
    name: 'offLabel',
    label: say('Off-label'),
    choices: worded(['yes', 'Given otherwise than the label says']),
  },
  number('milkHoldHours', 'The vet says: milk out, hours after the last dose'),
  number('meatHoldDays', 'The vet says: no beef, days after the last dose'),
];

export interface CourseSaid {
  readonly id: string;
  readonly dose: number;
  readonly of: number | undefined;
  readonly everyHours: number | undefined;
}

/** Where the dose stands in a course, for one cow. */
export const courseFor = (
  typed: Typed,
  files: readonly CowFile[],
  cow: string,
  id: (part: string) => string,
): CourseSaid | undefined => {
  const how = typed.one('inCourse') ?? 'single';
  if (how === 'first') {
    return {
      id: id(`course ${cow}`),
      dose: 1,
      of: numberIn(typed.one('of')),
      everyHours: numberIn(typed.one('everyHours')),
    };
  }
  if (how !== 'next') return undefined;
  const key = medicineKey(typed.one('medicine') ?? '');
  const running = files
    .flatMap((file) => file.dosings)
    .filter((dosing) => dosing.course?.running === true && dosing.medicineKey === key && dosing.mayBe === undefined);
  const course = running.at(-1)?.course;
  if (course === undefined)
    throw new CannotWrite(
      say('{cow} has no running course of {medicine}; choose "a single dose", or "the first dose of a course"', {
        cow,
        medicine: typed.one('medicine') ?? say('that medicine'),
      }),
    );
  return { id: course.id, dose: course.given + 1, of: course.of, everyHours: course.everyHours };
};

export const treatmentData = (typed: Typed, course: CourseSaid | undefined): unknown => {
  const amount = numberIn(typed.one('amount'));
  const unit = typed.one('unit');
  if (amount !== undefined && unit === undefined)
    throw new CannotWrite(say('Say the unit of the amount: tube, ml, bolus'));
  return {
    medicine: typed.one('medicine'),
    amount: amount === undefined ? undefined : { value: amount, unit },
    route: typed.one('route'),
    quarters: typed.all('quarters').length === 0 ? undefined : typed.all('quarters'),
    reason: typed.one('reason'),
    givenBy: typed.one('givenBy'),
    prescribedBy: typed.one('prescribedBy'),
    batch: typed.one('batch'),
    offLabel: typed.one('offLabel') === undefined ? undefined : true,
    milkHoldHours: numberIn(typed.one('milkHoldHours')),
    meatHoldDays: numberIn(typed.one('meatHoldDays')),
    course,
  };
};

/** How a medicine was given the last time: the usual dose. */
export interface Usual {
  readonly medicine: string;
  readonly times: number;
  readonly last: EntryOf<'treatment'>;
}

const SHOWN = 8;

/** The medicines given most in the book's last ninety days of doses. */
export const usualDoses = ({ known }: Knowledge, since: number): Usual[] => {
  const byMedicine = new Map<string, Usual>();
  for (const entry of liveEntries(known.strikes.live)) {
    if (entry.type !== 'treatment' || entry.at < since) continue;
    const key = medicineKey(entry.data.medicine);
    const have = byMedicine.get(key);
    byMedicine.set(key, { medicine: entry.data.medicine, times: (have?.times ?? 0) + 1, last: entry });
  }
  return [...byMedicine.values()].sort((a, b) => b.times - a.times).slice(0, SHOWN);
};

/** The query that fills the form in with a dose like this one, and more beside it. */
export const doseQuery = ({ data }: EntryOf<'treatment'>, more: Readonly<Record<string, string>>): string => {
  const query = new URLSearchParams({ medicine: data.medicine });
  if (data.amount !== undefined) {
    query.set('amount', String(data.amount.value));
    query.set('unit', data.amount.unit);
  }
  if (data.route !== undefined) query.set('route', data.route);
  if (data.course === undefined) query.set('inCourse', 'single');
  else if (more.inCourse !== 'next') {
    query.set('inCourse', 'first');
    query.set('of', String(data.course.of));
    query.set('everyHours', String(data.course.everyHours));
  }
  if (more.inCourse === 'next') for (const quarter of data.quarters ?? []) query.append('quarters', quarter);
  for (const [name, value] of Object.entries(more)) query.set(name, value);
  return query.toString();
};
