/** Histories for the second reading: few cows, few days, everything that holds or frees milk, so that things meet. */
import fc from 'fast-check';
import type { DataOf } from '../../../events/kinds.ts';
import type { Saying } from '../evening.ts';
import { course, maybe, rare, time } from './made-up-doses.ts';
import { one } from './made-up-entries.ts';
import { cupboard, herd, lean, setUp } from './made-up-farm.ts';

const freshHold = fc.constantFrom(
  { milkings: 4 },
  { hours: 72 },
  { milkings: 3, hours: 24 },
  { milkings: 2, daysBeforeDue: 5 },
  {},
  undefined,
);
const offLabel = fc.constantFrom('vet' as const, 'vet' as const, 'eu-2019-6' as const, 'eu-2019-6' as const, undefined);
const plan = fc.constantFrom('two' as const, 'two' as const, 'three' as const, 'early' as const);
const zone = fc.constantFrom('UTC', 'Europe/Dublin', 'Australia/Lord_Howe');
const later = fc.record({
  time,
  plan,
  freshHold,
  offLabel,
  from: maybe(fc.constantFrom('2026-03-28', '2026-03-31')),
});
type Later = typeof later extends fc.Arbitrary<infer T> ? T : never;

const laterSetUp = (timeZone: string, { time, plan, ...wish }: Later): Saying =>
  setUp(time, lean({ timeZone, ...wish }) as Partial<DataOf<'farm-set-up'>>, plan);

/** A number comes into the herd once, and lives no life before: what else it may mean is another question. */
const isPlain = (saying: Saying, index: number, all: readonly Saying[]): boolean => {
  const first = all.findIndex(({ type, subject }) => type === 'cow-entered' && subject === saying.subject);
  if (saying.type === 'cow-entered') return first === index;
  const lives = ['calving', 'abortion', 'dry-off', 'group-move'].includes(saying.type);
  return !lives || first < 0 || saying.time >= (all[first]?.time ?? '');
};

/** With ids by place. What a vet says of a dose is mostly said of the cow that had it. */
const named = (history: readonly Saying[]): (Saying & { id: string })[] =>
  history.filter(isPlain).map((saying, index) => {
    const id = `e${index}`;
    if (saying.type !== 'vet-hold-time' || saying.subject === '999') return { ...saying, id };
    const { treatment } = saying.data as DataOf<'vet-hold-time'>;
    const subject = history[Number(treatment.slice(1))]?.subject ?? saying.subject;
    return { ...saying, id, ...(subject === undefined ? {} : { subject }) };
  });

/** A farm and what happened on it, each saying with an id, the history's own by place. */
export const madeUp = (most: number): fc.Arbitrary<readonly Saying[]> =>
  fc
    .record({
      zone,
      plan,
      freshHold,
      offLabel,
      later: rare(later),
      history: fc.array(
        fc.oneof({ weight: 9, arbitrary: one.map((each) => [each]) }, { weight: 1, arbitrary: course }),
        { maxLength: most },
      ),
    })
    .map(({ zone, plan, freshHold, offLabel, later, history }) => [
      ...[
        setUp('2026-01-01T09:00:00Z', { timeZone: zone, from: '2026-01-01', freshHold, offLabel }, plan),
        ...(later === undefined ? [] : [laterSetUp(zone, later)]),
        ...cupboard,
        ...herd,
      ].map((saying, index) => ({ ...saying, id: `h${index}` })),
      ...named(history.flat()),
    ]);
