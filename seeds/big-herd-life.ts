/**
 * One made-up cow of the big herd, from the calving she came with to the day she leaves: what is written of her, in the
 * order it happened. The rates are those of an ordinary herd that milks all year; `big-herd.ts` states what they add up to.
 */
import type { DataOf, EntryType } from '../events/kinds.ts';
import { type Chance, chanceOf } from './chance.ts';
import { officialOf } from './cow.ts';
import { MEDICINES } from './medicines.ts';

/** One thing that happened, on a day counted from the first of the book and so many minutes after midnight. */
export interface Event {
  readonly day: number;
  readonly minute: number;
  readonly type: EntryType;
  readonly data: unknown;
  /** Names this event among hers, so that a later one can speak of it. */
  readonly number: number;
  /** Struck so many minutes later, as a slip of the finger. */
  readonly struck?: number;
}

export interface Life {
  readonly serial: number;
  readonly officialId: string;
  /** When she came; for cows of the first day, before it. */
  readonly from: number;
  /** Lactation that her first calving here begins. */
  readonly lactation: number;
  readonly events: Iterable<Event>;
}

/** The pens of a herd: so many for milking cows, and the four that every farm has. */
export interface Pens {
  readonly milking: readonly string[];
}

/** What one entry says of another, before anything has an id: the event's number, to be put in by whoever gives ids. */
export class Of {
  readonly event: number;
  constructor(event: number) {
    this.event = event;
  }
}

const GESTATION = 283;
/** Every fourth week each cow in milk is weighed at one milking. */
const WEIGHED_EVERY = 28;
const UDDER = [MEDICINES.penicillinUdder, MEDICINES.amoxicillin, MEDICINES.cloxacillin, MEDICINES.cephapirin] as const;
const DRY = [MEDICINES.cloxacillinDry, MEDICINES.penicillinDry, MEDICINES.framycetinDry] as const;
const QUARTERS = ['left-front', 'right-front', 'left-hind', 'right-hind'] as const;

/** `calved`: the day of her first calving here. */
export const lifeOf = (
  serial: number,
  { calved, lactation, from }: { calved: number; lactation: number; from: number },
  pens: Pens,
  milkings: readonly string[],
  until: number,
  dateOf: (day: number) => string,
): Life => ({
  serial,
  officialId: officialOf(serial),
  from,
  lactation,
  events: events(serial, { calved, lactation }, pens, milkings, until, dateOf),
});

function* events(
  serial: number,
  first: { calved: number; lactation: number },
  pens: Pens,
  milkings: readonly string[],
  until: number,
  dateOf: (day: number) => string,
): Iterable<Event> {
  const chance = chanceOf(`big herd ${serial}`);
  let { calved, lactation } = first;
  let number = 0;
  while (calved <= until) {
    const told: Event[] = [];
    const tell = (day: number, minute: number, type: EntryType, data: unknown, struck?: number): number => {
      number += 1;
      told.push({ day, minute, type, data, number, ...(struck === undefined ? {} : { struck }) });
      return number;
    };
    const pen = pens.milking[serial % pens.milking.length] ?? '';
    const latePen = pens.milking[(serial + 1) % pens.milking.length] ?? '';
    const next = breed(chance, calved, tell);
    const dry = next === undefined ? undefined : next.due - 60;
    const leaves = leaving(chance, calved, lactation, next);
    const lastMilked = Math.min(dry ?? leaves ?? calved + 420, leaves ?? calved + 600);

    tell(calved, chance.whole(0, 1_439), 'calving', {
      calves: Array.from({ length: chance.share() < 0.04 ? 2 : 1 }, () => ({
        sex: chance.oneOf(['female', 'male'] as const),
        alive: chance.share() > 0.05,
      })),
      ease: chance.oneOf([1, 1, 1, 1, 2, 2, 3]),
      group: 'Fresh',
    } satisfies DataOf<'calving'>);
    tell(calved + 4, morning(chance), 'group-move', { to: pen });
    if (lastMilked > calved + 220) tell(calved + 200, morning(chance), 'group-move', { to: latePen });
    illnesses(chance, { calved, lastMilked, pen }, tell);
    vaccinations(chance, { calved, lastMilked }, tell);
    weights(chance, { calved, lastMilked, lactation, serial, milkings, dateOf }, tell);
    trimming(chance, { calved, lastMilked }, tell);
    if (dry !== undefined && next !== undefined) {
      const product = chance.share() < 0.15 ? 'none' : DRY[serial % DRY.length]?.name;
      tell(dry, morning(chance), 'dry-off', { ...(product === undefined ? {} : { product }), group: 'Dry' });
      if (product !== 'none') tell(dry, 700, 'treatment', { medicine: MEDICINES.sealant.name, givenBy: 'Casimir' });
      tell(next.due - 21, morning(chance), 'group-move', { to: 'Close-up' });
    }
    if (leaves !== undefined) {
      const reason = chance.oneOf(['sold-for-beef', 'sold-for-beef', 'sold-for-milking', 'died'] as const);
      tell(leaves, 660, 'cow-left', { reason } satisfies DataOf<'cow-left'>);
    }
    const end = leaves ?? Number.POSITIVE_INFINITY;
    told.sort((a, b) => a.day - b.day || a.minute - b.minute || a.number - b.number);
    for (const event of told) if (event.day < end || event.type === 'cow-left') yield event;
    if (leaves !== undefined || next === undefined) return;
    calved = next.calves;
    lactation += 1;
  }
}

type Tell = (day: number, minute: number, type: EntryType, data: unknown, struck?: number) => number;

const morning = (chance: Chance): number => chance.whole(8 * 60 + 30, 12 * 60);

/** One entry in two hundred is a slip and is struck. */
const slip = (chance: Chance): number | undefined => (chance.share() < 0.005 ? chance.whole(5, 90) : undefined);

/** Served from day 60 on every time she is seen in heat, checked twice; undefined where she does not hold. */
const breed = (chance: Chance, calved: number, tell: Tell): { due: number; calves: number } | undefined => {
  let served = calved + chance.whole(58, 84);
  for (let time = 0; time < 6; time += 1) {
    const how = chance.share() < 0.92 ? 'insemination' : 'natural';
    tell(served, morning(chance), 'service', { how, sire: `bull ${chance.whole(1, 30)}` });
    const holds = chance.share() < 0.42;
    const seen = !holds && chance.share() < 0.5;
    if (!seen) tell(served + 32, morning(chance), 'pregnancy-check', { result: holds ? 'pregnant' : 'empty' });
    if (holds) {
      tell(served + 90, morning(chance), 'pregnancy-check', { result: 'pregnant' });
      const due = served + GESTATION;
      return { due, calves: due + chance.whole(-5, 5) };
    }
    served += seen ? 21 : 35;
  }
  return undefined;
};

/** About one in three leaves in each lactation; one that does not hold stays until her milk is spent. */
const leaving = (
  chance: Chance,
  calved: number,
  lactation: number,
  next: { due: number } | undefined,
): number | undefined => {
  if (next === undefined) return calved + chance.whole(320, 400);
  const share = 0.12 + 0.05 * Math.min(lactation, 7);
  return chance.share() < share ? calved + chance.whole(5, Math.max(6, next.due - calved - 62)) : undefined;
};

const illnesses = (
  chance: Chance,
  { calved, lastMilked, pen }: { calved: number; lastMilked: number; pen: string },
  tell: Tell,
): void => {
  if (lastMilked - calved < 40) return;
  const someDay = () => chance.whole(calved + 6, lastMilked - 14);
  for (const share of [0.32, 0.12]) {
    if (chance.share() > share) continue;
    const day = someDay();
    const medicine = chance.oneOf(UDDER);
    tell(day, 520, 'group-move', { to: 'Hospital' });
    const doses = medicine === MEDICINES.cephapirin ? 2 : 3;
    const [quarter, course] = [chance.oneOf(QUARTERS), chance.whole(1, 999_999)];
    for (let dose = 1; dose <= doses; dose += 1) {
      const given = tell(day + Math.floor((dose - 1) / 2), dose % 2 === 1 ? 530 : 1_250, 'treatment', {
        medicine: medicine.name,
        amount: { value: 1, unit: 'tube' },
        route: 'udder',
        quarters: [quarter],
        reason: 'mastitis',
        givenBy: 'Ifeoma',
        course: { id: `course-${calved}-${course}`, dose, of: doses, everyHours: 12 },
      } satisfies DataOf<'treatment'>);
      if (dose === doses && chance.share() < 0.04) {
        tell(day + 2, 800, 'vet-hold-time', {
          treatment: new Of(given),
          milkHours: 96,
          prescribedBy: 'Dr Quillfeather',
        });
      }
    }
    tell(day + 9, morning(chance), 'group-move', { to: pen });
  }
  if (chance.share() < 0.3) {
    const day = someDay();
    const doses = 3;
    const course = chance.whole(1, 999_999);
    for (let dose = 1; dose <= doses; dose += 1) {
      tell(day + dose - 1, 540, 'treatment', {
        medicine: MEDICINES.ceftiofur.name,
        amount: { value: 20, unit: 'ml' },
        reason: 'lame',
        givenBy: 'Casimir',
        course: { id: `foot-${calved}-${course}`, dose, of: doses, everyHours: 24 },
      } satisfies DataOf<'treatment'>);
    }
  }
  if (chance.share() < 0.2) tell(calved + 1, 545, 'treatment', { medicine: MEDICINES.flunixin.name, reason: 'fever' });
  if (chance.share() < 0.06) {
    const day = someDay();
    const hold = tell(day, 300, 'milk-hold', { reason: 'clots in the milk' });
    tell(day + 3, 310, 'milk-hold-lifted', { hold: new Of(hold), reason: 'clean three times' });
  }
  if (chance.share() < 0.04) {
    const day = someDay();
    tell(day, 620, 'residue-test', { of: 'cow', result: 'clear', method: 'strip' } satisfies DataOf<'residue-test'>);
  }
};

/** Twice in a lactation. */
const vaccinations = (chance: Chance, time: { calved: number; lastMilked: number }, tell: Tell): void => {
  for (const after of [30, 200]) {
    if (time.calved + after >= time.lastMilked) return;
    tell(time.calved + after, morning(chance), 'treatment', { medicine: MEDICINES.vaccine.name, givenBy: 'Casimir' });
  }
};

const weights = (
  chance: Chance,
  cow: {
    calved: number;
    lastMilked: number;
    lactation: number;
    serial: number;
    milkings: readonly string[];
    dateOf: (day: number) => string;
  },
  tell: Tell,
): void => {
  const { calved, lastMilked, lactation, milkings, dateOf } = cow;
  for (
    let day = calved + 5 + (WEIGHED_EVERY - ((calved + 5) % WEIGHED_EVERY));
    day < lastMilked;
    day += WEIGHED_EVERY
  ) {
    const name = milkings[Math.floor(day / WEIGHED_EVERY) % milkings.length] ?? '';
    const age = day - calved;
    const aDay = (lactation === 1 ? 30 : 38) - Math.abs(age - 60) / 14 + chance.whole(-40, 40) / 10;
    const kg = Math.max(2, Math.round((aDay / milkings.length) * 10) / 10);
    const minutes = Math.round((3.8 + kg / 6 + chance.whole(-8, 12) / 10) * 10) / 10;
    const minute = (milkings.indexOf(name) * 1_440) / milkings.length + 285 + chance.whole(0, 170);
    const data: DataOf<'milk-record'> = {
      milking: `${dateOf(day)}/${name}`,
      kg,
      minutes,
      peakFlow: Math.round((kg / minutes) * 16) / 10,
    };
    tell(day, Math.floor(minute), 'milk-record', data, slip(chance));
  }
};

/** Sorted out for the hoof trimmer, and done the next day. */
const trimming = (chance: Chance, time: { calved: number; lastMilked: number }, tell: Tell): void => {
  for (const after of [110, 290]) {
    const day = time.calved + after + chance.whole(0, 20);
    if (day + 1 >= time.lastMilked) return;
    const asked = tell(day, 960, 'sort-request', { reason: 'hoof trimming', to: 'Hospital', forWhom: 'the trimmer' });
    tell(day + 1, morning(chance), 'sort-done', { request: new Of(asked) });
  }
};
