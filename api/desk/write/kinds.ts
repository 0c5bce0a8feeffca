/** What can be written down at the desk, in the trade's words: the fields of each kind, and its `data` from what was typed. */
import type { EntryType } from '../../../events/kinds.ts';
import { DAY, type Instant, instantText } from '../../../shared/instant.ts';
import { type Context, filesOf, groupsIn, medicineNames } from './context.ts';
import { type Choice, type Field, numberIn, type Typed } from './fields.tsx';
import { courseFor, treatmentData, treatmentFields } from './treatment.ts';

/** `several`: one entry for each number. `ask-first`: the fields depend on who she is. */
export type About = 'several' | 'one' | 'ask-first' | 'farm';

export interface Written {
  readonly type: EntryType;
  readonly title: string;
  readonly hint: string;
  readonly about: About;
  readonly fields: (context: Context) => readonly Field[];
  /** `index`: which of several cows. A text is a trouble, said as it is. */
  readonly dataOf: (typed: Typed, context: Context, cow: string | undefined, id: (part: string) => string) => unknown;
}

const text = (name: string, label: string, more: Partial<Extract<Field, { kind: 'text' }>> = {}): Field => ({
  kind: 'text',
  name,
  label,
  longest: 200,
  ...more,
});
const number = (name: string, label: string, more: Partial<Extract<Field, { kind: 'number' }>> = {}): Field => ({
  kind: 'number',
  name,
  label,
  ...more,
});
const choice = (
  name: string,
  label: string,
  choices: readonly Choice[],
  more: { required?: true; hint?: string } = {},
): Field => ({
  kind: 'choice',
  name,
  label,
  choices,
  ...more,
});

const plain =
  (...names: readonly string[]) =>
  (typed: Typed): unknown =>
    Object.fromEntries(names.map((name) => [name, typed.one(name)]));

const milkingsIn = ({ hand, now }: Context): Choice[] => {
  const found: Choice[] = [];
  let count = 0;
  for (const milking of hand.schedule.after((now - DAY) as Instant)) {
    found.push([milking.id, hand.format.milking(milking.id)]);
    count += 1;
    if (count > 8) break;
  }
  return found;
};

const SEXES: readonly Choice[] = [
  ['', 'no calf'],
  ['female', 'heifer calf'],
  ['male', 'bull calf'],
];

const calfFields = (nth: number, label: string): Field[] => [
  choice(`calf${nth}`, `${label}: sex`, SEXES.slice(1)),
  choice(`calf${nth}alive`, `${label}: alive`, [
    ['yes', 'alive'],
    ['no', 'dead'],
  ]),
  text(`calf${nth}number`, `${label}: number`, { longest: 10 }),
];

const calvesOf = (typed: Typed): unknown[] =>
  [1, 2, 3].flatMap((nth) => {
    const sex = typed.one(`calf${nth}`);
    if (sex === undefined) return [];
    return [{ sex, alive: typed.one(`calf${nth}alive`) !== 'no', number: typed.one(`calf${nth}number`) }];
  });

const recentDoses = ({ file, hand, now }: Context): Choice[] =>
  (file?.cow.treatments ?? [])
    .filter(({ entry }) => entry.at > now - 120 * DAY && entry.data.medicine !== undefined)
    .map(({ entry }): Choice => [entry.id, `${entry.data.medicine}, ${hand.format.time(instantText(entry.at))}`])
    .reverse();

const runningCourses = ({ file, hand }: Context): Choice[] =>
  (file?.dosings ?? []).flatMap(({ course, medicine, last }): Choice[] =>
    course?.running === true
      ? [[course.id, `${medicine}, ${course.given} of ${course.of}, last ${hand.format.time(instantText(last.at))}`]]
      : [],
  );

const openRequests = ({ file, knowledge, hand }: Context): Choice[] =>
  (file?.cow.sortRequests ?? [])
    .filter(({ entry }) => !knowledge.known.farm.sorted.has(entry.id))
    .map(({ entry }): Choice => [entry.id, `${entry.data.reason}, asked ${hand.format.time(instantText(entry.at))}`])
    .reverse();

const openHolds = ({ file, hand }: Context): Choice[] =>
  (file?.cow.milkHolds ?? [])
    .filter(({ entry }) => !(file?.cow.lifted ?? []).some((lift) => lift.data.hold === entry.id))
    .map(({ entry }): Choice => [entry.id, `${entry.data.reason}, ${hand.format.time(instantText(entry.at))}`])
    .reverse();

export const WRITTEN: readonly Written[] = [
  {
    type: 'treatment',
    title: 'Treatment given',
    hint: 'A dose of medicine; one cow or several',
    about: 'several',
    fields: treatmentFields,
    dataOf: (typed, context, cow, id) =>
      treatmentData(typed, courseFor(typed, filesOf(context, cow ?? ''), cow ?? '', id)),
  },
  {
    type: 'milk-hold',
    title: 'Keep her milk out',
    hint: 'Clots, blood, a wound, a doubt: anything that is not a medicine',
    about: 'several',
    fields: () => [
      text('reason', 'Why', {
        required: true,
        suggestions: ['clots in the milk', 'blood in the milk', 'band on, nobody knows why', 'waiting for a test'],
      }),
    ],
    dataOf: plain('reason'),
  },
  {
    type: 'milk-hold-lifted',
    title: 'Her milk may go in again',
    hint: 'Ends a hold that a person set; never one of a medicine',
    about: 'ask-first',
    fields: (context) => [
      choice('hold', 'Which hold', openHolds(context), { hint: 'All that people set, when none is chosen' }),
      text('reason', 'Why it is over', { required: true, suggestions: ['milk normal at two milkings', 'test clear'] }),
    ],
    dataOf: plain('reason', 'hold'),
  },
  {
    type: 'calving',
    title: 'Calved',
    hint: 'Her fresh hold begins',
    about: 'one',
    fields: (context) => [
      ...calfFields(1, 'First calf'),
      ...calfFields(2, 'Second calf'),
      choice('ease', 'How it went', [
        ['1', '1, by herself'],
        ['2', '2, a little help'],
        ['3', '3, hard pull'],
        ['4', '4, with the vet'],
        ['5', '5, operation'],
      ]),
      choice('group', 'She goes to', groupsIn(context)),
    ],
    dataOf: (typed) => ({ calves: calvesOf(typed), ease: numberIn(typed.one('ease')), group: typed.one('group') }),
  },
  {
    type: 'dry-off',
    title: 'Dried off',
    hint: 'Milked for the last time',
    about: 'several',
    fields: (context) => [
      text('product', 'Dry-cow product', {
        longest: 80,
        suggestions: ['none', ...medicineNames(context)],
        hint: 'As on the label; "none" where she got none',
      }),
      choice('group', 'She goes to', groupsIn(context)),
    ],
    dataOf: plain('product', 'group'),
  },
  {
    type: 'group-move',
    title: 'Moved to another group',
    hint: 'One cow or several',
    about: 'several',
    fields: (context) => [choice('to', 'To', groupsIn(context), { required: true })],
    dataOf: plain('to'),
  },
  {
    type: 'sort-request',
    title: 'Sort her out at the gate',
    hint: 'For the vet, the trimmer, a move, anything',
    about: 'several',
    fields: (context) => [
      text('reason', 'Why', { required: true }),
      text('to', 'Where to', { longest: 80, suggestions: groupsIn(context).map(([name]) => name) }),
      text('forWhom', 'For whom', { longest: 80 }),
      choice('from', 'From which milking on', milkingsIn(context)),
      choice('until', 'Until which milking', milkingsIn(context)),
    ],
    dataOf: plain('reason', 'to', 'forWhom', 'from', 'until'),
  },
  {
    type: 'sort-done',
    title: 'Sorted, dealt with',
    hint: 'Takes her off the sort list',
    about: 'ask-first',
    fields: (context) => [choice('request', 'Which request', openRequests(context), { required: true })],
    dataOf: plain('request'),
  },
  {
    type: 'vet-hold-time',
    title: 'The vet gave a hold time',
    hint: 'For a treatment that is in the book',
    about: 'ask-first',
    fields: (context) => [
      choice('treatment', 'Which treatment', recentDoses(context), { required: true }),
      number('milkHours', 'Milk out of the tank, hours after the last dose'),
      number('meatDays', 'No beef, days after the last dose'),
      text('prescribedBy', 'Which vet', { required: true, longest: 80 }),
    ],
    dataOf: (typed) => ({
      treatment: typed.one('treatment'),
      milkHours: numberIn(typed.one('milkHours')),
      meatDays: numberIn(typed.one('meatDays')),
      prescribedBy: typed.one('prescribedBy'),
    }),
  },
  {
    type: 'course-ended',
    title: 'Course stopped early',
    hint: 'No more doses will be given',
    about: 'ask-first',
    fields: (context) => [
      choice('course', 'Which course', runningCourses(context), { required: true }),
      text('reason', 'Why', { required: true }),
    ],
    dataOf: plain('course', 'reason'),
  },
  {
    type: 'residue-test',
    title: 'Residue test',
    hint: "Of a cow's milk, or of the tank (leave the cow out)",
    about: 'one',
    fields: () => [
      choice(
        'result',
        'Result',
        [
          ['clear', 'clear'],
          ['positive', 'positive'],
        ],
        { required: true },
      ),
      text('method', 'Method', { longest: 80 }),
    ],
    dataOf: (typed, _, cow) => ({
      result: typed.one('result'),
      of: cow === undefined ? 'tank' : 'cow',
      method: typed.one('method'),
    }),
  },
  {
    type: 'tank-collection',
    title: 'Tanker took the milk',
    hint: 'Tank, litres, ticket',
    about: 'farm',
    fields: () => [
      text('tank', 'Which tank', { longest: 40 }),
      number('litres', 'Litres'),
      text('ticket', 'Ticket', { longest: 60 }),
      choice('residueTest', 'Residue test', [
        ['clear', 'clear'],
        ['positive', 'positive'],
        ['waiting', 'waiting'],
      ]),
    ],
    dataOf: (typed) => ({
      tank: typed.one('tank'),
      litres: numberIn(typed.one('litres')),
      ticket: typed.one('ticket'),
      residueTest: typed.one('residueTest'),
    }),
  },
  {
    type: 'head-count',
    title: 'Group counted',
    hint: 'How many stood there',
    about: 'farm',
    fields: (context) => [
      choice('group', 'Group', groupsIn(context), { required: true }),
      number('count', 'Cows', { required: true, whole: true }),
      choice('milking', 'At which milking', milkingsIn(context)),
    ],
    dataOf: (typed) => ({
      group: typed.one('group'),
      count: numberIn(typed.one('count')),
      milking: typed.one('milking'),
    }),
  },
  {
    type: 'milking-finished',
    title: 'Milking finished',
    hint: 'The last cow is out',
    about: 'farm',
    fields: (context) => [choice('milking', 'Which milking', milkingsIn(context), { required: true })],
    dataOf: plain('milking'),
  },
  {
    type: 'service',
    title: 'Served',
    hint: 'Inseminated, bull, embryo',
    about: 'several',
    fields: () => [
      choice(
        'how',
        'How',
        [
          ['insemination', 'insemination'],
          ['natural', 'bull'],
          ['embryo', 'embryo'],
        ],
        { required: true },
      ),
      text('sire', 'Sire', { longest: 80 }),
    ],
    dataOf: plain('how', 'sire'),
  },
  {
    type: 'pregnancy-check',
    title: 'Pregnancy check',
    hint: 'In calf or not',
    about: 'several',
    fields: () => [
      choice(
        'result',
        'Result',
        [
          ['pregnant', 'in calf'],
          ['twins', 'in calf with twins'],
          ['empty', 'empty'],
          ['unsure', 'not sure'],
        ],
        { required: true },
      ),
      { kind: 'date', name: 'servedOn', label: 'Served on' },
      { kind: 'date', name: 'dueOn', label: 'Due on' },
    ],
    dataOf: plain('result', 'servedOn', 'dueOn'),
  },
  {
    type: 'abortion',
    title: 'Lost the calf',
    hint: 'A pregnancy is over',
    about: 'one',
    fields: (context) => [
      choice('milked', 'Is she milked now', [
        ['yes', 'yes, she comes into milk'],
        ['no', 'no'],
      ]),
      number('daysCarried', 'Days carried', { whole: true }),
      choice('group', 'She goes to', groupsIn(context)),
    ],
    dataOf: (typed) => ({
      milked: typed.one('milked') === undefined ? undefined : typed.one('milked') === 'yes',
      daysCarried: numberIn(typed.one('daysCarried')),
      group: typed.one('group'),
    }),
  },
  {
    type: 'cow-entered',
    title: 'New cow',
    hint: 'Bought, or a heifer that comes in',
    about: 'one',
    fields: (context) => [
      text('officialId', 'Official number, 15 digits', { longest: 20 }),
      choice('group', 'Group', groupsIn(context), { required: true }),
      number('lactation', 'Lactation (0 for a heifer)', { required: true, whole: true }),
      { kind: 'date', name: 'born', label: 'Born on' },
      { kind: 'date', name: 'calvedOn', label: 'Calved on' },
      { kind: 'date', name: 'dueOn', label: 'Due on' },
      text('from', 'From whom', { longest: 120 }),
      choice(
        'milkHoldUntil',
        'Milk hold she brings',
        [
          ['none', 'none: stated in writing'],
          ['unknown', 'not known: hold her milk'],
        ],
        { required: true },
      ),
      choice(
        'meatHoldUntil',
        'Meat hold she brings',
        [
          ['none', 'none: stated in writing'],
          ['unknown', 'not known: hold'],
        ],
        { required: true },
      ),
    ],
    dataOf: (typed) => ({
      officialId: typed.one('officialId'),
      group: typed.one('group'),
      lactation: numberIn(typed.one('lactation')),
      born: typed.one('born'),
      calvedOn: typed.one('calvedOn'),
      dueOn: typed.one('dueOn'),
      from: typed.one('from'),
      milkHoldUntil: typed.one('milkHoldUntil'),
      meatHoldUntil: typed.one('meatHoldUntil'),
    }),
  },
  {
    type: 'number-changed',
    title: 'New number',
    hint: 'Another tag or collar',
    about: 'one',
    fields: () => [text('to', 'Her new number', { required: true, longest: 10 })],
    dataOf: plain('to'),
  },
  {
    type: 'cow-left',
    title: 'Left the herd',
    hint: 'Sold, died',
    about: 'one',
    fields: () => [
      choice(
        'reason',
        'Why',
        [
          ['sold-for-beef', 'sold for beef'],
          ['sold-for-milking', 'sold for milking'],
          ['died', 'died'],
          ['other', 'other'],
        ],
        { required: true },
      ),
      text('to', 'To whom', { longest: 120 }),
    ],
    dataOf: plain('reason', 'to'),
  },
];

export const writtenFor = (type: string): Written | undefined => WRITTEN.find((each) => each.type === type);
