/**
 * The cows nothing is the matter with: calved, served, checked, dried off and calved again, each at her own place in
 * the round of the year. They make up most of the herd and of what is written about it.
 */
import { addDays, daysBetween, type LocalDay } from '../shared/local-day.ts';
import { HERD_DAY, nearestThursday, nextWeekday, TODAY, vetDay } from './calendar.ts';
import { type Chance, chanceOf } from './chance.ts';
import { type Cow, type Fact, GESTATION, officialOf } from './cow.ts';
import { MEDICINES } from './medicines.ts';

const COUNT = 326;
/** Days since calving run over this many; the youngest days are the example cows' own. */
const ROUND = 388;
const YOUNGEST = 7;
const DRY_DAYS = 60;
/** Thursdays of which the dry-offs are told by the example cows. */
const KEPT_FREE = [addDays(TODAY, 2), addDays(TODAY, -5)];

export const ordinaryCows = (numbers: readonly string[]): Cow[] => {
  const cows = Array.from({ length: COUNT }, (_, index) => ordinary(index));
  return cows
    .sort((a, b) => (a.born < b.born ? -1 : a.born > b.born ? 1 : 0))
    .map((cow, index) => {
      const number = numbers[index];
      if (number === undefined) throw new Error('There are fewer numbers than cows');
      return { ...cow, number };
    });
};

const ordinary = (index: number): Cow => {
  const chance = chanceOf(`ordinary cow ${index}`);
  const inMilkFor = YOUNGEST + Math.floor(((index + 0.5) * (ROUND - YOUNGEST)) / COUNT);
  const calved = addDays(TODAY, -inMilkFor);
  const lactation = index % 10 < 3 ? 1 : chance.oneOf([2, 2, 2, 3, 3, 3, 4, 4, 5, 6]);
  const open = inMilkFor > 110 && inMilkFor < 285 && chance.share() < 0.12;
  const before = pregnancyBefore(calved, lactation, chance);
  const now = open ? emptyServices(calved, chance) : pregnancyNow(calved, inMilkFor, chance);
  const facts = [
    ...before.facts,
    { kind: 'calving', day: calved, group: 'Fresh' } as const,
    ...moves(calved, lactation, now.find((fact) => fact.kind === 'dry-off')?.day),
    ...now,
  ].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  return {
    number: '',
    officialId: officialOf(1_000 + index),
    born: addDays(calved, -(chance.whole(715, 790) + (lactation - 1) * 385)),
    lactation: Math.max(0, lactation - 1 - before.calvings),
    facts: facts.filter((fact) => fact.day <= TODAY),
    group: lactation === 1 ? 'Close-up' : 'Dry',
    ...(lactation === 1 && before.came >= HERD_DAY ? { came: { day: before.came, from: 'own young stock' } } : {}),
  };
};

/** The pregnancy that ended in her last calving, with the lactation it began in. */
const pregnancyBefore = (
  calved: LocalDay,
  lactation: number,
  chance: Chance,
): { facts: Fact[]; calvings: number; came: LocalDay } => {
  const served = addDays(calved, -GESTATION - chance.whole(-5, 6));
  const due = addDays(served, GESTATION);
  const toCloseUp = nextWeekday(addDays(due, -21), 'monday');
  const came = toCloseUp;
  const service: Fact[] = [
    { kind: 'service', day: served },
    { kind: 'check', day: vetDay(addDays(served, 35)), result: 'pregnant' },
  ];
  if (lactation === 1) return { facts: service, calvings: 0, came };
  return {
    facts: [
      { kind: 'calving', day: addDays(served, -chance.whole(64, 140)) },
      ...service,
      { kind: 'dry-off', day: nearestThursday(addDays(due, -DRY_DAYS)), product: product(chance), group: 'Dry' },
      { kind: 'move', day: toCloseUp, to: 'Close-up' },
    ],
    calvings: 1,
    came,
  };
};

const pregnancyNow = (calved: LocalDay, inMilkFor: number, chance: Chance): Fact[] => {
  const usual = chance.whole(62, 138);
  let toService = inMilkFor > usual + GESTATION - 3 ? inMilkFor - GESTATION + chance.whole(3, 20) : usual;
  const dryDay = (): LocalDay => nearestThursday(addDays(calved, toService + GESTATION - DRY_DAYS));
  while (KEPT_FREE.includes(dryDay())) toService += 14;
  const served = addDays(calved, toService);
  const toCloseUp = nextWeekday(addDays(served, GESTATION - 21), 'monday');
  const missed: Fact[] =
    toService > 80 && chance.share() < 0.6
      ? [{ kind: 'service', day: addDays(served, -chance.oneOf([20, 21, 21, 22])) }]
      : [];
  return [
    ...missed,
    { kind: 'service', day: served },
    { kind: 'check', day: vetDay(addDays(served, 35)), result: 'pregnant' },
    { kind: 'dry-off', day: dryDay(), product: product(chance), group: 'Dry' },
    { kind: 'move', day: toCloseUp, to: 'Close-up' },
  ];
};

/** Served and found empty, again and again. */
const emptyServices = (calved: LocalDay, chance: Chance): Fact[] => {
  const facts: Fact[] = [];
  for (let day = addDays(calved, chance.whole(60, 85)); day < TODAY; day = addDays(vetDay(addDays(day, 35)), 5)) {
    facts.push({ kind: 'service', day }, { kind: 'check', day: vetDay(addDays(day, 35)), result: 'empty' });
  }
  return facts;
};

/** Out of the fresh pen after five days, then by how far on she is in milk. */
const moves = (calved: LocalDay, lactation: number, dry: LocalDay | undefined): Fact[] => {
  const first: Fact = { kind: 'move', day: addDays(calved, 5), to: lactation === 1 ? 'Heifers' : 'High' };
  if (lactation === 1) return [first];
  const later = [
    { day: nextWeekday(addDays(calved, 140), 'tuesday'), to: 'Steady' },
    { day: nextWeekday(addDays(calved, 284), 'tuesday'), to: 'Once' },
  ];
  return [
    first,
    ...later
      .filter(({ day }) => dry === undefined || daysBetween(day, dry) > 10)
      .map(({ day, to }): Fact => ({ kind: 'move', day, to })),
  ];
};

const product = (chance: Chance): string => {
  const share = chance.share();
  if (share < 0.72) return MEDICINES.cloxacillinDry.name;
  if (share < 0.86) return MEDICINES.framycetinDry.name;
  return share < 0.92 ? MEDICINES.penicillinDry.name : 'none';
};
