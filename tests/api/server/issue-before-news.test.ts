/** What makes a set on the wall wrong, before the milking and inside it, on sets that were really issued. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { wrongOn } from '../../../api/server/issue-before-news.ts';
import { tonight } from '../../../api/tonight.ts';
import { type AFarm, aFarm, CEPHAPIRIN, PENICILLIN } from '../a-farm.ts';

const AFTERNOON = '2026-03-01/afternoon';
const TUBE = 'Dry-cow tube';
let farm: AFarm;

/** On the afternoon's sheet: 101 on hold and due her second dose, 102 to be sorted, 104 to be dried off. */
beforeEach(async () => {
  farm = aFarm();
  farm.say('medicine-listed', '2026-02-01T12:00:00Z', undefined, {
    name: TUBE,
    milkHold: 'not-for-milking-cows',
    meatDays: 30,
    dryCow: { minimumDryDays: 42, milkHoldAfterCalving: { hours: 96 }, earlyCalving: 'minimum-plus-hold' },
  });
  const course = { id: 'course', dose: 1, of: 3, everyHours: 12 };
  farm.say('treatment', '2026-03-01T05:10:00Z', '101', { medicine: PENICILLIN, course });
  farm.say('sort-request', '2026-03-01T08:00:00Z', '102', { reason: 'feet', forWhom: 'trimmer' }, 'feet');
  farm.say('pregnancy-check', '2026-02-20T12:00:00Z', '104', { result: 'pregnant', dueOn: '2026-04-30' });
  await farm.issue(AFTERNOON);
});
afterEach(() => farm.close());

const wrong = () => {
  const { known, views, milking, asOf } = tonight(farm.book, { milking: AFTERNOON });
  const [set] = known.farm.issued;
  if (set === undefined) throw new Error('A set was issued');
  return wrongOn(views, set, milking.start <= asOf);
};

const BEFORE = '2026-03-01T16:10:00Z';
const INSIDE = '2026-03-01T16:40:00Z';

test.each([BEFORE, INSIDE])('R-31 nothing new leaves the paper right at %s', (time) => {
  farm.at(time);
  expect(wrong()).toBeNull();
});

test.each([BEFORE, INSIDE])('R-31 a cow newly on hold makes it wrong at %s', (time) => {
  farm.at(time);
  farm.say('treatment', '2026-03-01T14:00:00Z', '105', { medicine: PENICILLIN });
  expect(wrong()).toBe('hold');
});

test.each([BEFORE, INSIDE])('R-31 an entry for a cow that nobody knows makes it wrong at %s', (time) => {
  farm.at(time);
  farm.say('treatment', '2026-03-01T14:00:00Z', '999', { medicine: PENICILLIN });
  expect(wrong()).toBe('hold');
});

test.each([
  [BEFORE, 'rows'],
  [INSIDE, null],
])('R-31 a longer hold of a cow that the paper holds anyway: %s %s', (time, is) => {
  farm.at(time);
  farm.say('treatment', '2026-03-01T14:00:00Z', '101', { medicine: CEPHAPIRIN });
  expect(wrong()).toBe(is);
});

test.each([
  ['a head count', 'head-count', undefined, { group: 'Milkers', count: 6 }],
  ['a cow sorted out', 'sort-done', '102', { request: 'feet' }],
  [
    'the dose that the paper asks for',
    'treatment',
    '101',
    { medicine: PENICILLIN, course: { id: 'course', dose: 2, of: 3, everyHours: 12 } },
  ],
  ['a held cow that was dried off', 'dry-off', '101', { product: 'none', group: 'Dry' }],
  ['a held cow that was sold', 'cow-left', '101', { reason: 'sold-for-beef' }],
  ['a cow dried off as the paper asks, and not moved yet', 'dry-off', '104', { product: TUBE }],
  ['a cow that changed groups', 'group-move', '103', { to: 'Fresh' }],
] as const)('what the crew did themselves inside the milking is not news to them: %s', (_, type, cow, data) => {
  farm.at(INSIDE);
  expect(farm.say(type, '2026-03-01T16:35:00Z', cow, data).outcome).toBe('recorded');
  expect(wrong()).toBeNull();
});

test('R-19 a cow given a dry-cow product inside the milking that the paper did not ask for is news', () => {
  farm.at(INSIDE);
  farm.say('dry-off', '2026-03-01T16:35:00Z', '105', { product: TUBE });
  expect(wrong()).toBe('hold');
});

test('R-31 a cow that the paper dries off is news all the same where something else holds her', () => {
  farm.at(INSIDE);
  farm.say('treatment', '2026-03-01T15:00:00Z', '104', { medicine: PENICILLIN });
  farm.say('dry-off', '2026-03-01T16:35:00Z', '104', { product: TUBE });
  expect(wrong()).toBe('hold');
});

test('inside the milking a new sort request is news', () => {
  farm.at(INSIDE);
  farm.say('sort-request', '2026-03-01T16:00:00Z', '105', { reason: 'lame' });
  expect(wrong()).toBe('rows');
});

test('R-31 a hold that is struck inside the milking is news: her milk may go in', () => {
  farm.at(BEFORE);
  const { id } = farm.say('milk-hold', '2026-03-01T07:00:00Z', '106', { reason: 'watery' }, 'hold');
  farm.at(INSIDE);
  expect([id, wrong()]).toEqual(['hold', 'hold']);
  farm.say('entry-struck', '2026-03-01T16:38:00Z', undefined, {
    entry: 'hold',
    reason: 'wrong cow',
    instead: 'nothing',
  });
  expect(wrong()).toBeNull();
});
