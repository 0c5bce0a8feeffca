/** Dry-cow products and dry-offs for the second reading: R-19. */
import type { DataOf } from '../../../events/kinds.ts';
import type { Calving, Change, Cow } from './cow.ts';
import { groupIn } from './farm.ts';
import type { Hold } from './hold.ts';
import { endOfTime, listingAt, listingsOf, OPEN } from './label.ts';
import type { Book } from './treatment.ts';
import { DAY, endOfDay, HOUR } from './wall.ts';

const TWO_DAYS = 2 * DAY;
const FIVE_DAYS = 5 * DAY;

type DryCow = NonNullable<DataOf<'medicine-listed'>['dryCow']>;

export const dryCowLabel = (book: Book, name: string, at: number): DryCow | undefined =>
  listingAt(listingsOf(book.inOrder, name), at)?.data.dryCow;

const nextCalving = (cow: Cow, after: number): Calving | undefined => cow.calvings.find(({ at }) => at > after);

/** When the time is over that a vet gave for it, asked at or after an instant: it counts from `from`, or from the asking if that is later. */
const vetEnd = (book: Book, cow: Cow, id: string, asked: number): number | undefined => {
  let end: number | undefined;
  for (const entry of book.inOrder) {
    if (entry.at < asked) continue;
    const own = entry.type === 'treatment' && entry.id === id && entry.data.prescribedBy !== undefined;
    const later = entry.type === 'vet-hold-time' && entry.data.treatment === id && !book.ofAnother(entry, cow);
    const said = own ? entry.data.milkHoldHours : later ? entry.data.milkHours : undefined;
    if (said !== undefined) end = Math.max(end ?? 0, entry.at + said * HOUR);
  }
  return end;
};

const longestHours = (book: Book, id: string): number => {
  let hours = 0;
  for (const entry of book.inOrder) {
    if (entry.type === 'treatment' && entry.id === id) hours = Math.max(hours, entry.data.milkHoldHours ?? 0);
    if (entry.type === 'vet-hold-time' && entry.data.treatment === id)
      hours = Math.max(hours, entry.data.milkHours ?? 0);
  }
  return hours;
};

export const clearTestAfter = (cow: Cow, after: number): number | undefined => {
  for (const entry of cow.entries) {
    if (entry.type !== 'residue-test' || entry.data.of !== 'cow' || entry.data.result !== 'clear') continue;
    const sampled =
      entry.data.sampledAt === undefined ? entry.at : Math.min(entry.at, Date.parse(entry.data.sampledAt));
    if (sampled > after) return entry.at;
  }
  return undefined;
};

/** What one dry-cow product comes to: through the dry period and then by the label from the calving on. */
export const dryCowHolds = (book: Book, cow: Cow, id: string, given: number, label: DryCow): readonly Hold[] => {
  const why = `dry-cow product ${id}`;
  const calving = nextCalving(cow, given);
  const asked = vetEnd(book, cow, id, given);
  // Milked again, or still, with no calving: until the vet's time.
  // For two days she may yet be dried off.
  const settled = asked !== undefined && book.from - given > TWO_DAYS;
  const before = { from: given, end: settled ? asked : OPEN, why };
  if (calving === undefined) return [before];
  const after = label.milkHoldAfterCalving;
  const time = (base: number): number => (after === 'none' ? base : endOfTime(after, base, cow, book));
  const least = given + (label.minimumDryDays ?? 0) * DAY;
  const byLabel = Math.max(time(calving.at), calving.at + longestHours(book, id) * HOUR);
  const afterwards = (end: number): readonly Hold[] => [
    { ...before, end: Math.min(before.end, calving.first) },
    { from: calving.first, end, why: `${why} after calving` },
  ];
  if (calving.at >= least) return afterwards(byLabel);
  if (label.earlyCalving === 'minimum-plus-hold') return afterwards(Math.max(byLabel, time(least)));
  const vet = vetEnd(book, cow, id, calving.at);
  const clear = clearTestAfter(cow, calving.at);
  if (vet !== undefined) return afterwards(Math.max(byLabel, vet));
  return afterwards(clear === undefined ? OPEN : Math.max(byLabel, clear));
};

/** A dry-cow product by treatment within two days of it states it. */
const statedByTreatment = (book: Book, cow: Cow, from: number, to = from): boolean =>
  cow.entries.some(
    (entry) =>
      entry.type === 'treatment' &&
      entry.at >= from - TWO_DAYS &&
      entry.at <= to + TWO_DAYS &&
      dryCowLabel(book, entry.data.medicine, entry.at) !== undefined,
  );

/** A drying off that says nothing of a product holds from the next calving on, without end. */
export const notStatedHolds = (book: Book, cow: Cow): readonly Hold[] => {
  const holds: Hold[] = [];
  const unless = (at: number, id: string): void => {
    const calving = nextCalving(cow, at);
    if (calving === undefined || statedByTreatment(book, cow, at)) return;
    holds.push({ from: calving.first, end: OPEN, why: `not stated ${id}` });
  };
  for (const entry of cow.entries) {
    if (entry.type === 'dry-off' && entry.data.product === undefined) unless(entry.at, entry.id);
    if (entry.type === 'cow-entered' && entry.data.driedOffWith === undefined) {
      const dry = cow.changes.find(({ at }) => at === entry.at)?.state === 'dry';
      const on = entry.data.driedOffOn;
      if (dry) unless(on === undefined ? entry.at : endOfDay(book.farm.zone, on), entry.id);
    }
  }
  for (const { id, first } of cow.calvings) {
    const since = amongDrySince(book, cow, first);
    if (since === undefined || statedByTreatment(book, cow, since, first)) continue;
    holds.push({ from: first, end: OPEN, why: `no dry-off before ${id}` });
  }
  return [...holds, ...backAgain(book, cow)];
};

/** In milk by the book, put among the dry ones for more than two days and back, with no drying off and no calving. */
const backAgain = (book: Book, cow: Cow): readonly Hold[] => {
  const holds: Hold[] = [];
  let since: number | undefined;
  for (const [index, each] of cow.changes.entries()) {
    const calved = cow.calvings.findLast(({ first }) => first <= each.at);
    const isNew = calved !== undefined && each.at <= calved.at + FIVE_DAYS;
    const begins = each.state === 'milk' && cow.changes[index - 1]?.state !== 'milk';
    if (each.state !== 'milk' || isNew || begins) since = undefined;
    else if (isAmongDry(book, each)) since ??= each.at;
    else {
      const came = since;
      since = undefined;
      if (came === undefined || each.at - came <= TWO_DAYS || statedByTreatment(book, cow, came, each.at)) continue;
      const next = cow.changes.slice(index + 1).find(({ state }) => state !== 'milk')?.at ?? OPEN;
      const calves = nextCalving(cow, each.at)?.first ?? OPEN;
      holds.push({
        from: each.at,
        end: Math.min(next, calves, clearTestAfter(cow, each.at) ?? OPEN),
        why: `back ${came}`,
      });
    }
  }
  return holds;
};

const isAmongDry = (book: Book, { at, group }: Change): boolean => {
  const kind = groupIn(book.farm.rulesAt(at), group)?.kind;
  return kind === 'dry' || kind === 'close-up';
};

/**
 * In milk by the book, but among the dry ones when she calved, or for more than two days before: nobody said with what she
 * was dried off.
 */
const amongDrySince = (book: Book, cow: Cow, calved: number): number | undefined => {
  const before = cow.changes.filter(({ at }) => at < calved);
  if (before.at(-1)?.state !== 'milk') return undefined;
  const inMilk = before.slice(before.findLastIndex(({ state }) => state !== 'milk') + 1);
  return inMilk.find((each, index) => {
    if (!isAmongDry(book, each)) return false;
    const left = inMilk.slice(index + 1).find((later) => !isAmongDry(book, later));
    return left === undefined || left.at - each.at > TWO_DAYS;
  })?.at;
};
