/** What becomes of the cows: calving, dry-off, moves, sorting, breeding, coming and leaving. */
import { instantText } from '../../../shared/instant.ts';
import { say } from '../say.tsx';
import { choice, milkingsIn, number, plain, text, type Written, worded } from './building.ts';
import { type Context, groupsIn, medicineNames } from './context.ts';
import { type Choice, type Field, numberIn, type Typed } from './fields.tsx';

const CALVES = [
  ['First calf: sex', 'First calf: alive', 'First calf: number'],
  ['Second calf: sex', 'Second calf: alive', 'Second calf: number'],
] as const;

const calfFields = (): Field[] =>
  CALVES.flatMap(([sex, alive, number], index) => [
    choice(`calf${index + 1}`, sex, worded(['female', 'heifer calf'], ['male', 'bull calf'])),
    choice(`calf${index + 1}alive`, alive, worded(['yes', 'alive'], ['no', 'dead'])),
    text(`calf${index + 1}number`, number, { longest: 10 }),
  ]);

const calvesOf = (typed: Typed): unknown[] =>
  [1, 2, 3].flatMap((nth) => {
    const sex = typed.one(`calf${nth}`);
    if (sex === undefined) return [];
    return [{ sex, alive: typed.one(`calf${nth}alive`) !== 'no', number: typed.one(`calf${nth}number`) }];
  });

const openRequests = ({ file, knowledge, hand }: Context): Choice[] =>
  (file?.cow.sortRequests ?? [])
    .filter(({ entry }) => !knowledge.known.farm.sorted.has(entry.id))
    .map(
      ({ entry }): Choice => [
        entry.id,
        say('{reason}, asked {time}', { reason: entry.data.reason, time: hand.format.time(instantText(entry.at)) }),
      ],
    )
    .reverse();

export const HERD_KINDS: readonly Written[] = [
  {
    type: 'calving',
    title: 'Calved',
    hint: 'Her fresh hold begins',
    about: 'one',
    fields: (context) => [
      ...calfFields(),
      choice(
        'ease',
        'How it went',
        worded(
          ['1', '1, by herself'],
          ['2', '2, a little help'],
          ['3', '3, hard pull'],
          ['4', '4, with the vet'],
          ['5', '5, operation'],
        ),
      ),
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
    type: 'service',
    title: 'Served',
    hint: 'Inseminated, bull, embryo',
    about: 'several',
    fields: () => [
      choice('how', 'How', worded(['insemination', 'insemination'], ['natural', 'bull'], ['embryo', 'embryo']), {
        required: true,
      }),
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
        worded(['pregnant', 'in calf'], ['twins', 'in calf with twins'], ['empty', 'empty'], ['unsure', 'not sure']),
        { required: true },
      ),
      { kind: 'date', name: 'servedOn', label: say('Served on') },
      { kind: 'date', name: 'dueOn', label: say('Due on') },
    ],
    dataOf: plain('result', 'servedOn', 'dueOn'),
  },
  {
    type: 'abortion',
    title: 'Lost the calf',
    hint: 'A pregnancy is over',
    about: 'one',
    fields: (context) => [
      choice('milked', 'Is she milked now', worded(['yes', 'yes, she comes into milk'], ['no', 'no'])),
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
      { kind: 'date', name: 'born', label: say('Born on') },
      { kind: 'date', name: 'calvedOn', label: say('Calved on') },
      { kind: 'date', name: 'servedOn', label: say('Served on') },
      { kind: 'date', name: 'dueOn', label: say('Due on') },
      { kind: 'date', name: 'driedOffOn', label: say('Dried off on') },
      text('driedOffWith', 'Dry-cow product', {
        longest: 80,
        suggestions: ['none', ...medicineNames(context)],
        hint: 'As on the label; "none" where she got none',
      }),
      text('from', 'From whom', { longest: 120 }),
      choice(
        'milkHoldUntil',
        'Milk hold she brings',
        worded(['none', 'none: stated in writing'], ['unknown', 'not known: hold her milk']),
        { required: true },
      ),
      choice(
        'meatHoldUntil',
        'Meat hold she brings',
        worded(['none', 'none: stated in writing'], ['unknown', 'not known: hold']),
        { required: true },
      ),
    ],
    dataOf: (typed) => ({
      officialId: typed.one('officialId'),
      group: typed.one('group'),
      lactation: numberIn(typed.one('lactation')),
      born: typed.one('born'),
      calvedOn: typed.one('calvedOn'),
      servedOn: typed.one('servedOn'),
      dueOn: typed.one('dueOn'),
      driedOffOn: typed.one('driedOffOn'),
      driedOffWith: typed.one('driedOffWith'),
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
        worded(
          ['sold-for-beef', 'sold for beef'],
          ['sold-for-milking', 'sold for milking'],
          ['died', 'died'],
          ['other', 'other'],
        ),
        { required: true },
      ),
      text('to', 'To whom', { longest: 120 }),
    ],
    dataOf: plain('reason', 'to'),
  },
];
