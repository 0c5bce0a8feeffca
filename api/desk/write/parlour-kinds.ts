/** What is said of the farm and not of one cow: the tank, a group counted, a milking finished. */
import { choice, milkingsIn, number, plain, text, type Written, worded } from './building.ts';
import { groupsIn } from './context.ts';
import { numberIn } from './fields.tsx';

export const PARLOUR_KINDS: readonly Written[] = [
  {
    type: 'tank-collection',
    title: 'Tanker took the milk',
    hint: 'Tank, litres, ticket',
    about: 'farm',
    fields: () => [
      text('tank', 'Which tank', { longest: 40 }),
      number('litres', 'Litres'),
      text('ticket', 'Ticket', { longest: 60 }),
      choice(
        'residueTest',
        'Residue test',
        worded(['clear', 'clear'], ['positive', 'positive'], ['waiting', 'waiting']),
      ),
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
];
