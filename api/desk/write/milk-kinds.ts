/** What decides whether her milk may go in the tank: doses, holds, the vet's word, tests. */
import { DAY, instantText } from '../../../shared/instant.ts';
import { say } from '../say.tsx';
import { choice, number, plain, text, type Written, worded } from './building.ts';
import { type Context, filesOf } from './context.ts';
import { type Choice, numberIn } from './fields.tsx';
import { courseFor, treatmentData, treatmentFields } from './treatment.ts';

const recentDoses = ({ file, hand, now }: Context): Choice[] =>
  (file?.cow.treatments ?? [])
    .filter(({ entry }) => entry.at > now - 120 * DAY && entry.data.medicine !== undefined)
    .map(({ entry }): Choice => [entry.id, `${entry.data.medicine}, ${hand.format.time(instantText(entry.at))}`])
    .reverse();

const runningCourses = ({ file, hand }: Context): Choice[] =>
  (file?.dosings ?? []).flatMap(({ course, medicine, last }): Choice[] =>
    course?.running === true
      ? [
          [
            course.id,
            say('{medicine}, {given} of {of}, last {time}', {
              medicine,
              given: String(course.given),
              of: String(course.of),
              time: hand.format.time(instantText(last.at)),
            }),
          ],
        ]
      : [],
  );

const openHolds = ({ file, hand }: Context): Choice[] =>
  (file?.cow.milkHolds ?? [])
    .filter(({ entry }) => !(file?.cow.lifted ?? []).some((lift) => lift.data.hold === entry.id))
    .map(({ entry }): Choice => [entry.id, `${entry.data.reason}, ${hand.format.time(instantText(entry.at))}`])
    .reverse();

export const MILK_KINDS: readonly Written[] = [
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
        suggestions: [
          say('clots in the milk'),
          say('blood in the milk'),
          say('band on, nobody knows why'),
          say('waiting for a test'),
        ],
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
      text('reason', 'Why it is over', {
        required: true,
        suggestions: [say('milk normal at two milkings'), say('test clear')],
      }),
    ],
    dataOf: plain('reason', 'hold'),
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
      choice('result', 'Result', worded(['clear', 'clear'], ['positive', 'positive']), { required: true }),
      text('method', 'Method', { longest: 80 }),
    ],
    dataOf: (typed, _, cow) => ({
      result: typed.one('result'),
      of: cow === undefined ? 'tank' : 'cow',
      method: typed.one('method'),
    }),
  },
];
