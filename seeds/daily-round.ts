/** What is written down every day whatever the cows do: milkings finished, tanks emptied, milk weighed, groups counted. */
import { type Instant, MINUTE, plusMilliseconds } from '../shared/instant.ts';
import { addDays, dayNumber } from '../shared/local-day.ts';
import { at, DEMO_NOW, endOf, HERD_DAY, PAST_MILKINGS, TODAY } from './calendar.ts';
import { chanceOf } from './chance.ts';
import { DEMO_FARM } from './demo-farm.ts';
import { SLOW } from './example-cows/sort-gate.ts';
import { type Arrival, say } from './say.ts';
import { type Standing, walkThrough } from './standing.ts';

/** Milk is weighed at the last so many milkings. */
const WEIGHED = 12;
/** The group that somebody counted one short today. */
const MISCOUNTED = 'Steady';

export const dailyRound = (lives: readonly Arrival[]): Arrival[] => [
  ...PAST_MILKINGS.map((milking) => {
    const late = chanceOf(milking.id).whole(-14, 9);
    const time = plusMilliseconds(endOf(milking), late * MINUTE);
    return say('milking-finished', undefined, time, { milking: milking.id }, { author: 'bram' });
  }),
  ...collections(),
  ...counts(lives),
  ...weights(lives),
];

/** Every second morning. The test of the last one is not back yet. */
const collections = (): Arrival[] =>
  Array.from({ length: 61 }, (_, index) => addDays(HERD_DAY, index))
    .filter((date) => (dayNumber(TODAY) - dayNumber(date)) % 2 === 1)
    .map((date, index, all) => {
      const chance = chanceOf(`tanker ${date}`);
      const data = {
        tank: '1',
        litres: chance.whole(17_400, 18_900),
        ticket: `T-${3_300 + index}`,
        residueTest: index === all.length - 1 ? ('waiting' as const) : ('clear' as const),
      };
      return say('tank-collection', undefined, at(date, `10:${chance.whole(10, 40)}`), data);
    });

/** Each Monday, and this morning. */
const counts = (lives: readonly Arrival[]): Arrival[] => {
  const standingAt = walkThrough(lives);
  const days = Array.from({ length: 8 }, (_, index) => addDays(TODAY, -1 - 7 * (8 - index)));
  return [...days, TODAY].flatMap((date) => {
    const time = at(date, '08:40');
    const cows = standingAt(time);
    return DEMO_FARM.groups.map(({ name }) => {
      const head = cows.filter((cow) => cow.group === name).length;
      const count = date === TODAY && name === MISCOUNTED ? head - 1 : head;
      return say('head-count', undefined, time, { group: name, count }, { author: 'casimir', key: name });
    });
  });
};

const weights = (lives: readonly Arrival[]): Arrival[] => {
  const standingAt = walkThrough(lives);
  return PAST_MILKINGS.slice(-WEIGHED).flatMap((milking) => {
    const cows = standingAt(milking.start);
    const weighed = cows.filter(
      (cow) => isWeighed(cow, milking.name) && cows.filter(({ number }) => number === cow.number).length === 1,
    );
    const recordedAt = Math.min(plusMilliseconds(endOf(milking), 12 * MINUTE), DEMO_NOW) as Instant;
    return weighed.map((cow, place) => {
      const time = plusMilliseconds(milking.start, Math.round((8 + (place / weighed.length) * 165) * MINUTE));
      return say(
        'milk-record',
        cow.number,
        time,
        { milking: milking.id, ...weightOf(cow, milking.id, milking.name === 'morning' ? 0.55 : 0.45) },
        { author: 'bram', recordedAt },
      );
    });
  });
};

const MILKING_GROUPS = new Map(
  DEMO_FARM.groups.flatMap((group) => (group.kind === 'milking' ? [[group.name, group]] : [])),
);

const isWeighed = (cow: Standing, name: string): boolean => {
  const group = MILKING_GROUPS.get(cow.group);
  return cow.inMilk && group !== undefined && (group.milkedAt?.includes(name) ?? true);
};

/** More in the first months and in older cows; the night's share is the larger one. */
const weightOf = (cow: Standing, milking: string, share: number) => {
  const chance = chanceOf(`${cow.number} ${milking}`);
  const own = chanceOf(`udder of ${cow.number}`);
  const slow = SLOW.some((number) => number === cow.number);
  const aDay =
    (cow.lactation === 1 ? 26 : 33) +
    own.whole(-4, 5) -
    (cow.group === 'Steady' ? 8 : 0) -
    (cow.group === 'Once' ? 16 : 0);
  const kg = Math.max(3, aDay * (cow.group === 'Once' ? 1 : share) + chance.whole(-12, 12) / 10);
  const minutes = slow
    ? 10.2 + own.whole(0, 20) / 10 + chance.whole(-2, 12) / 10
    : 5.2 + own.whole(0, 18) / 10 + chance.whole(-5, 8) / 10;
  return { kg: round(kg), minutes: round(minutes), peakFlow: round((kg / minutes) * 1.6) };
};

const round = (value: number): number => Math.round(value * 10) / 10;
