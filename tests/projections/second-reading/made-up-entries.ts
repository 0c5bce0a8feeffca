/** Every kind of entry that holds or frees milk, for the made-up histories. */
import fc from 'fast-check';
import type { DataOf } from '../../../events/kinds.ts';
import { about, farmWide, medicine, type Saying } from '../evening.ts';
import { anyNumber, cow, maybe, rare, time, treatment, when } from './made-up-doses.ts';
import { lean } from './made-up-farm.ts';

const GROUPS = ['Cows', 'Twice', 'Fresh', 'Hospital', 'Dry', 'Close-up'];

const anyHold = fc.oneof(
  fc.integer({ min: 1, max: 100 }).map((hours) => ({ hours })),
  fc.integer({ min: 1, max: 9 }).map((milkings) => ({ milkings })),
  fc.record({ hours: fc.integer({ min: 1, max: 100 }), milkings: fc.integer({ min: 1, max: 9 }) }),
  fc.constantFrom('none' as const, 'unknown' as const, 'not-for-milking-cows' as const),
);
/** The id of an entry of the history, of whatever kind it is. */
const refer = fc.nat({ max: 24 }).map((index) => `e${index}`);

export const one: fc.Arbitrary<Saying> = fc.oneof(
  { weight: 6, arbitrary: treatment },
  {
    weight: 2,
    arbitrary: fc
      .record({
        cow,
        time,
        treatment: refer,
        milkHours: fc.constantFrom(0, 24, 72, 150),
        prescribedBy: fc.constant('Dr Vane'),
      })
      .map(({ cow, time, ...data }) => about(cow, 'vet-hold-time', time, data)),
  },
  {
    weight: 1,
    arbitrary: fc
      .record({ cow, time, id: fc.constantFrom('c1', 'c2', 'k2-24', 'k3-24') })
      .map(({ cow, time, id }) => about(cow, 'course-ended', time, { course: `${id} of ${cow}`, reason: 'well' })),
  },
  {
    weight: 3,
    arbitrary: fc
      .record({ cow, time, group: maybe(fc.constantFrom(...GROUPS)) })
      .map(({ cow, time, group }) => about(cow, 'calving', time, lean({ calves: [], group }) as DataOf<'calving'>)),
  },
  {
    weight: 1,
    arbitrary: fc
      .record({ cow, time, milked: fc.boolean() })
      .map(({ cow, time, milked }) => about(cow, 'abortion', time, { milked })),
  },
  {
    weight: 3,
    arbitrary: fc
      .record({
        cow,
        time,
        product: maybe(
          fc.constantFrom('none', 'Tube', 'Ask tube', 'Milkings tube', 'None', 'Hours', 'For dry', 'No list'),
        ),
        group: fc.constantFrom('Dry', 'Dry', 'Close-up', undefined),
      })
      .map(({ cow, time, ...data }) => about(cow, 'dry-off', time, lean(data) as DataOf<'dry-off'>)),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({ cow, time, to: fc.constantFrom(...GROUPS) })
      .map(({ cow, time, to }) => about(cow, 'group-move', time, { to })),
  },
  {
    weight: 1,
    arbitrary: fc
      .record({ cow: anyNumber, time })
      .map(({ cow, time }) => about(cow, 'milk-hold', time, { reason: 'clots' })),
  },
  {
    weight: 1,
    arbitrary: fc
      .record({ cow: anyNumber, time, hold: maybe(refer) })
      .map(({ cow, time, hold }) =>
        about(cow, 'milk-hold-lifted', time, lean({ reason: 'clear', hold }) as DataOf<'milk-hold-lifted'>),
      ),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({
        cow: anyNumber,
        time,
        result: fc.constantFrom('clear' as const, 'positive' as const),
        sampled: rare(fc.integer({ min: 0, max: 480 })),
      })
      .map(({ cow, time, result, sampled }) => {
        const at = sampled === undefined ? undefined : when(sampled);
        return about(
          cow,
          'residue-test',
          time,
          lean({
            result,
            of: 'cow',
            sampledAt: at !== undefined && at <= time ? at : undefined,
          }) as DataOf<'residue-test'>,
        );
      }),
  },
  {
    weight: 1,
    arbitrary: fc
      .record({ time, entry: refer, instead: maybe(fc.constant('nothing')) })
      .map(({ time, ...data }) =>
        farmWide('entry-struck', time, lean({ ...data, reason: 'wrong' }) as DataOf<'entry-struck'>),
      ),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({
        time,
        name: fc.constantFrom('Hours', 'Milkings', 'Both', 'None', 'Unknown', 'No list'),
        milkHold: anyHold,
      })
      .map(({ time, name, milkHold }) => medicine(name, { milkHold, meatDays: 3 }, time)),
  },
  {
    weight: 1,
    arbitrary: fc
      .record({
        cow: fc.constantFrom('6', '8'),
        time,
        group: fc.constantFrom(...GROUPS),
        lactation: fc.constantFrom(0, 2),
        calvedOn: maybe(fc.constantFrom('2026-02-01', '2026-03-25', '2026-03-27')),
        driedOffOn: rare(fc.constantFrom('2026-03-01', '2026-03-26')),
        driedOffWith: rare(fc.constantFrom('none', 'Tube', 'No list')),
        milkHoldUntil: maybe(fc.constantFrom('none', 'none', 'unknown', '2026-03-31T05:00:00Z')),
      })
      .map(({ cow, time, ...data }) => about(cow, 'cow-entered', time, lean(data) as DataOf<'cow-entered'>)),
  },
  {
    weight: 1,
    arbitrary: fc.record({ cow, time }).map(({ cow, time }) => about(cow, 'cow-left', time, { reason: 'died' })),
  },
  { weight: 1, arbitrary: fc.record({ time }).map(({ time }) => about('2', 'number-changed', time, { to: '22' })) },
  {
    weight: 1,
    arbitrary: fc
      .record({ time, name: fc.constantFrom('morning', 'afternoon', 'night') })
      .map(({ time, name }) => farmWide('milking-finished', time, { milking: `${time.slice(0, 10)}/${name}` })),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({
        cow,
        time,
        result: fc.constantFrom('pregnant' as const, 'pregnant' as const, 'twins' as const, 'empty' as const),
        dates: fc.constantFrom({ dueOn: '2026-04-05' }, { dueOn: '2026-03-30' }, { servedOn: '2025-06-24' }, {}),
      })
      .map(({ cow, time, result, dates }) => about(cow, 'pregnancy-check', time, { result, ...dates })),
  },
  {
    weight: 1,
    arbitrary: fc.record({ cow, time }).map(({ cow, time }) => about(cow, 'service', time, { how: 'natural' })),
  },
);
