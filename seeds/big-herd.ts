/**
 * A herd of any size over any number of years, as the entries of its book in the order they were recorded: what the
 * benchmark measures with. The same wishes give the same entries, byte for byte; they come one by one, so that ten
 * years of 5,000 cows need no room. In all about 32 entries a cow and year: 11 milk weights, 5 treatments, 4 moves,
 * 5 services and checks, 3 sorts asked and done, and one each of calving and dry-off; about a third of
 * the herd leaves each year and heifers take their places.
 */
import type { Said } from '../events/entry.ts';
import type { CowEntered } from '../events/kinds/cow-entered.ts';
import type { EntryType } from '../events/kinds.ts';
import { type Instant, instantText, MINUTE, plusMilliseconds } from '../shared/instant.ts';
import { addDays, type LocalDay } from '../shared/local-day.ts';
import { mustBe } from '../shared/refusal.ts';
import { byText } from '../shared/text-order.ts';
import { parseZone } from '../shared/zone.ts';
import { enteredAs } from './big-herd-entering.ts';
import { BIG_HERD_ZONE, bigHerdFarm, milkingsOf, pensOf } from './big-herd-farm.ts';
import { type Event, type Life, lifeOf, Of } from './big-herd-life.ts';
import { chanceOf } from './chance.ts';
import { MEDICINES } from './medicines.ts';
import type { Arrival } from './say.ts';

export interface HerdWishes {
  readonly cows: number;
  readonly years: number;
  readonly milkings?: 2 | 3;
}

/** Every big herd's book ends on the evening of this day. */
export const BIG_HERD_LAST_DAY = '2026-03-14' as LocalDay;

const zone = mustBe(parseZone(BIG_HERD_ZONE));

/** The milking that comes after the last entry. */
export const nextMilkingOf = ({ milkings = 3 }: HerdWishes): string =>
  `${addDays(BIG_HERD_LAST_DAY, 1)}/${milkingsOf(milkings)[0]?.name}`;

export function* bigHerd(wishes: HerdWishes): Generator<Arrival, void> {
  const { cows, years, milkings = 3 } = wishes;
  const days = Math.round(years * 365);
  const firstDay = addDays(BIG_HERD_LAST_DAY, -days + 1);
  const dates = Array.from({ length: days + 1 }, (_, index) => addDays(firstDay, index));
  const dateOf = (day: number): string => dates[day] ?? addDays(firstDay, day);
  const midnights = dates.map((date) => zone.startOfDay(date));
  const at = (day: number, minute: number): Instant =>
    plusMilliseconds(midnights[day] ?? zone.startOfDay(addDays(firstDay, day)), minute * MINUTE);
  const names = milkingsOf(milkings).map(({ name }) => name);
  const pens = { milking: pensOf(cows) };
  const head = new Map<string, number>();
  const groupOf = new Map<number, string>();
  const put = (serial: number, group: string | undefined): void => {
    const before = groupOf.get(serial);
    if (before !== undefined) head.set(before, (head.get(before) ?? 0) - 1);
    if (group === undefined) groupOf.delete(serial);
    else {
      groupOf.set(serial, group);
      head.set(group, (head.get(group) ?? 0) + 1);
    }
  };
  const make = (
    serial: number,
    number: number,
    time: Instant,
    type: EntryType,
    data: unknown,
    delay = 3,
  ): Arrival & { readonly serial: number } => ({
    serial,
    recordedAt: plusMilliseconds(time, delay * MINUTE),
    said: {
      specversion: '1.0',
      id: idOf(time, serial, number),
      source: SOURCES[type] ?? 'phone',
      type,
      ...(serial === 0 ? {} : { subject: String(serial) }),
      time: instantText(time),
      author: SOURCES[type] === 'parlour' ? 'Bram' : 'Ifeoma',
      data,
    } satisfies Said,
  });

  let farmNumber = 0;
  const ofFarm = (day: number, minute: number, type: EntryType, data: unknown) => {
    farmNumber += 1;
    return make(0, farmNumber, at(day, minute), type, data);
  };
  const setUpAt = -1;
  yield ofFarm(setUpAt, 600, 'farm-set-up', bigHerdFarm(cows, milkings, firstDay));
  for (const label of Object.values(MEDICINES)) yield ofFarm(setUpAt, 620, 'medicine-listed', label);

  /** What is still to come, by day. */
  const waiting = new Map<number, Arrival[]>();
  const lives = new Map<
    number,
    { life: Life; rest: Iterator<Event>; next: Event | undefined; born: Map<number, string> }[]
  >();
  const keepFor = <T>(map: Map<number, T[]>, day: number, item: T): void => {
    const have = map.get(day);
    if (have === undefined) map.set(day, [item]);
    else have.push(item);
  };
  const chance = chanceOf(`big herd of ${cows}`);
  let serial = 0;
  const begin = (day: number, calved: number, lactation: number): void => {
    serial += 1;
    const life = lifeOf(serial, { calved, lactation, from: day }, pens, names, days, dateOf);
    const rest = life.events[Symbol.iterator]();
    const before: Event[] = [];
    let next = rest.next();
    while (next.done !== true && next.value.day < day) {
      before.push(next.value);
      next = rest.next();
    }
    // One that had left by the first day is not of this herd; another stands in her place.
    if (before.some(({ type }) => type === 'cow-left')) {
      begin(day, calved + 40, lactation);
      return;
    }
    const data: CowEntered = enteredAs({ life, before, dateOf, group: pens.milking[0] ?? '' });
    const minute = day === 0 ? -60 : 420;
    keepFor(waiting, day, make(serial, 0, at(day, minute), 'cow-entered', data, 1));
    if (next.done !== true) {
      keepFor(lives, next.value.day, { life, rest, next: next.value, born: new Map() });
    }
  };
  for (let cow = 0; cow < cows; cow += 1) begin(0, -chance.whole(1, 330), chance.oneOf([1, 1, 1, 2, 2, 3, 3, 4, 5]));

  for (let day = 0; day < days; day += 1) {
    for (const cow of lives.get(day) ?? []) {
      const { life, rest, born } = cow;
      while (cow.next !== undefined && cow.next.day === day) {
        const { number, type, minute, data, struck } = cow.next;
        const time = at(day, minute);
        const following = rest.next();
        cow.next = following.done === true ? undefined : following.value;
        // What answers something from before the book has nothing to name.
        if (speaksOf(data).some((event) => !born.has(event))) continue;
        // A phone without a signal sends the next morning what changes no group.
        const late = !MOVES.has(type) && life.serial % 50 === day % 50 && minute < 1_200;
        const entry = make(life.serial, number, time, type, named(data, born), late ? 1_440 - minute + 390 : 3);
        born.set(number, entry.said.id);
        keepFor(waiting, late ? day + 1 : day, entry);
        if (struck !== undefined) {
          const strike = { entry: entry.said.id, reason: 'typed by mistake', instead: 'nothing' };
          const moved = make(life.serial, number + 500_000, at(day, minute + struck), 'entry-struck', strike);
          keepFor(waiting, day, moved);
        }
        if (type === 'cow-left') begin(day + 1, day + 1 + 20 + (life.serial % 9), 1);
      }
      if (cow.next !== undefined) keepFor(lives, cow.next.day, cow);
    }
    lives.delete(day);
    names.forEach((name, index) => {
      const minute = Math.floor((index * 1_440) / names.length) + 290 + 150;
      keepFor(waiting, day, ofFarm(day, minute, 'milking-finished', { milking: `${dateOf(day)}/${name}` }));
    });
    for (let tank = 1; tank <= Math.max(1, Math.ceil(cows / 1_600)); tank += 1) {
      const data = {
        tank: String(tank),
        litres: Math.round(
          (cows * 26) / Math.max(1, Math.ceil(cows / 1_600)) + chanceOf(`${day} ${tank}`).whole(-900, 900),
        ),
        ticket: `T-${day}-${tank}`,
        residueTest: 'clear',
      };
      if (data.litres > 0) keepFor(waiting, day, ofFarm(day, 640 + tank, 'tank-collection', data));
    }
    const today = (waiting.get(day) ?? []).sort(
      (a, b) => a.recordedAt - b.recordedAt || byText(a.said.time, b.said.time) || byText(a.said.id, b.said.id),
    );
    waiting.delete(day);
    for (const entry of today) {
      track(entry, put);
      yield entry;
    }
    // Counted late on Sundays, when nothing moves any more.
    if (day % 7 === 6) {
      for (const [group, count] of [...head].sort(([a], [b]) => byText(a, b))) {
        yield ofFarm(day, 1_439, 'head-count', { group, count });
      }
    }
  }
}

const MOVES = new Set<EntryType>(['cow-entered', 'cow-left', 'calving', 'group-move', 'dry-off', 'abortion']);

const SOURCES: Partial<Record<EntryType, string>> = {
  'milk-record': 'parlour',
  'milking-finished': 'parlour',
  'tank-collection': 'office',
  'farm-set-up': 'office',
  'medicine-listed': 'office',
};

/** UUID version 7: its time, then who and which, so no two are the same. */
const idOf = (time: Instant, serial: number, number: number): string => {
  const milliseconds = time.toString(16).padStart(12, '0');
  const who = serial.toString(16).padStart(6, '0');
  const which = number.toString(16).padStart(6, '0');
  return `${milliseconds.slice(0, 8)}-${milliseconds.slice(8)}-7${who.slice(0, 3)}-8${who.slice(3)}-000000${which}`;
};

const speaksOf = (data: unknown): number[] =>
  typeof data !== 'object' || data === null
    ? []
    : Object.values(data).flatMap((value: unknown) => (value instanceof Of ? [value.event] : []));

/** The data with ids where it speaks of another of her entries. */
const named = (data: unknown, ids: ReadonlyMap<number, string>): unknown =>
  typeof data !== 'object' || data === null
    ? data
    : Object.fromEntries(
        Object.entries(data).map(([field, value]) => [field, value instanceof Of ? ids.get(value.event) : value]),
      );

const track = ({ said }: Arrival, put: (serial: number, group: string | undefined) => void): void => {
  if (said.subject === undefined) return;
  const serial = Number(said.subject);
  if (said.type === 'cow-left') put(serial, undefined);
  else if (said.type === 'group-move') put(serial, groupIn(said.data, 'to'));
  else if (said.type === 'calving' || said.type === 'dry-off' || said.type === 'cow-entered') {
    put(serial, groupIn(said.data, 'group'));
  }
};

const groupIn = (data: unknown, field: 'to' | 'group'): string =>
  typeof data === 'object' && data !== null && field in data ? String(data[field as keyof typeof data]) : '';
