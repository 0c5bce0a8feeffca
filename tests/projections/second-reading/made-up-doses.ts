/** Doses for the made-up histories: by themselves, in courses, one after the other as they should be or not. */
import fc from 'fast-check';
import type { DataOf } from '../../../events/kinds.ts';
import { instantText, mustBeInstant } from '../../../shared/instant.ts';
import { about } from '../evening.ts';
import { lean } from './made-up-farm.ts';

const START = Date.parse('2026-03-26T00:00:00Z');
const HALF_HOUR = 1_800_000;

/** A time of the ten days, on the half hour, often the very start of a milking. */
export const when = (half: number): string =>
  instantText(mustBeInstant(new Date(START + half * HALF_HOUR).toISOString()));
export const time = fc.integer({ min: 0, max: 480 }).map(when);
export const cow = fc.constantFrom('1', '1', '1', '2', '2', '3', '4', '6', '7', '999');
/** With numbers that mean two cows, or one only perhaps. */
export const anyNumber = fc.oneof(
  { weight: 8, arbitrary: cow },
  { weight: 1, arbitrary: fc.constantFrom('5', '07', '22') },
);
const MEDICINES = [
  'Hours',
  'Milkings',
  'Both',
  'None',
  'Unknown',
  'Forbidden',
  'Strict',
  'For dry',
  'Not for milk',
  'Tube',
  'Ask tube',
  'Milkings tube',
  'No list',
];
export const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined, freq: 1 });
export const rare = <T>(value: fc.Arbitrary<T>) =>
  fc
    .option(value, { nil: undefined, freq: 1 })
    .chain((each) =>
      each === undefined ? fc.constant(undefined) : fc.option(fc.constant(each), { nil: undefined, freq: 1 }),
    );
export const treatment = fc
  .record({
    cow: anyNumber,
    time,
    medicine: fc.constantFrom(...MEDICINES),
    offLabel: rare(fc.boolean()),
    prescribedBy: rare(fc.constant('Dr Vane')),
    milkHoldHours: rare(fc.constantFrom(0, 12, 36, 90, 200)),
    route: rare(fc.constantFrom('udder', 'muscle')),
    course: rare(
      fc.record({
        plan: fc.constantFrom({ id: 'c1', of: 3, everyHours: 12 }, { id: 'c2', of: 4, everyHours: 8 }),
        dose: fc.integer({ min: 1, max: 4 }),
      }),
    ),
  })
  .map(({ cow, time, course, ...data }) =>
    about(
      cow,
      'treatment',
      time,
      lean({
        ...data,
        course:
          course === undefined
            ? undefined
            : { ...course.plan, dose: Math.min(course.dose, course.plan.of), id: `${course.plan.id} of ${cow}` },
      }) as DataOf<'treatment'>,
    ),
  );

/** A course from its first dose on, each dose a little early or late, and perhaps not all of them. */
export const course = fc
  .record({
    cow,
    start: fc.integer({ min: 0, max: 400 }),
    of: fc.integer({ min: 2, max: 4 }),
    given: fc.integer({ min: 1, max: 4 }),
    every: fc.constantFrom(16, 24, 48),
    late: fc.integer({ min: -3, max: 3 }),
    medicine: fc.constantFrom('Hours', 'Milkings', 'Both', 'Strict'),
  })
  .map(({ cow, start, of, given, every, late, medicine }) =>
    Array.from({ length: Math.min(of, given) }, (_, index) =>
      about(cow, 'treatment', when(Math.max(0, start + index * every + (index === 0 ? 0 : late))), {
        medicine,
        course: { id: `k${of}-${every} of ${cow}`, dose: index + 1, of, everyHours: every / 2 },
      }),
    ),
  );
