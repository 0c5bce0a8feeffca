/** A cow's facts as entries: who wrote them, at what time of day, and how they reached the book. */
import { addDays, type LocalDay } from '../shared/local-day.ts';
import { at, DEMO_NOW, HERD_AS_OF } from './calendar.ts';
import { chanceOf } from './chance.ts';
import { type Cow, enteredAs, type Fact, factsInBook } from './cow.ts';
import { type Arrival, say } from './say.ts';

/** Her entry into the herd and all that happened to her since. What would lie after now has not happened yet. */
export const livesOf = (cow: Cow): Arrival[] =>
  [entered(cow), ...factsInBook(cow).flatMap((fact, index) => told(cow, fact, index))].filter(
    ({ recordedAt, said }) => recordedAt <= DEMO_NOW && Date.parse(said.time) <= DEMO_NOW,
  );

const entered = (cow: Cow): Arrival => {
  if (cow.came !== undefined) return say('cow-entered', cow.number, at(cow.came.day, '09:15'), enteredAs(cow));
  const recordedAt = at('2026-01-30', '07:10');
  return say('cow-entered', cow.number, HERD_AS_OF, enteredAs(cow), { recordedAt, key: cow.officialId });
};

const told = (cow: Cow, fact: Fact, index: number): Arrival[] => {
  const chance = chanceOf(`${cow.officialId} ${fact.kind} ${index}`);
  const { number } = cow;
  const minutes = String(chance.whole(10, 55));
  switch (fact.kind) {
    case 'calving': {
      const calves = Array.from({ length: fact.calves ?? 1 }, () => ({
        sex: chance.oneOf(['female', 'male'] as const),
        alive: chance.share() > 0.05,
      }));
      const time = at(fact.day, fact.time ?? `${String(chance.whole(1, 22)).padStart(2, '0')}:${minutes}`);
      const ease = chance.oneOf([1, 1, 1, 1, 2, 2, 3]);
      const group = fact.group === undefined ? {} : { group: fact.group };
      return [say('calving', number, time, { calves, ease, ...group }, { author: 'casimir' })];
    }
    case 'service': {
      const data = { how: 'insemination', sire: `bull ${chance.whole(1, 9)}` } as const;
      return [say('service', number, at(fact.day, `10:${minutes}`), data, { author: 'ifeoma' })];
    }
    case 'check':
      return [say('pregnancy-check', number, at(fact.day, `11:${minutes}`), { result: fact.result })];
    case 'dry-off': {
      const data = {
        ...(fact.product === undefined ? {} : { product: fact.product }),
        ...(fact.group === undefined ? {} : { group: fact.group }),
      };
      return [say('dry-off', number, at(fact.day, `09:${minutes}`), data, { author: 'casimir' })];
    }
    case 'move': {
      const time = at(fact.day, fact.time ?? `12:${minutes}`);
      return [say('group-move', number, time, { to: fact.to }, { author: 'ifeoma' })];
    }
    case 'left':
      return [say('cow-left', number, at(fact.day, `08:${minutes}`), { reason: fact.reason })];
  }
};

/** The days on which she could be given a course without it touching her calving, drying off or leaving. */
export const isQuietAround = (cow: Cow, day: LocalDay): boolean =>
  cow.facts.every(
    (fact) =>
      fact.kind === 'service' || fact.kind === 'check' || fact.day < addDays(day, -8) || fact.day > addDays(day, 12),
  );
