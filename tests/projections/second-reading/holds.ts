/** Every reason for one cow in the second reading, whenever it holds. */

import { courseHolds } from './course.ts';
import { type Asked, type Cow, nthMilking } from './cow.ts';
import { dryCowHolds, dryCowLabel, notStatedHolds } from './dry.ts';
import type { Milking, SetUp } from './farm.ts';
import type { Hold } from './hold.ts';
import { NEVER, OPEN } from './label.ts';
import { type Book, type Dose, endOfDose } from './treatment.ts';
import { endOfDay, HOUR } from './wall.ts';

type FreshHold = NonNullable<SetUp['freshHold']>;

export const holdsOf = (book: Book, cow: Cow, hasEnded: (milking: Milking) => boolean): readonly Hold[] => [
  ...given(book, cow, hasEnded),
  ...notStatedHolds(book, cow),
  ...fresh(book, cow),
  ...saidByPeople(cow),
  ...residues(cow),
  ...asEntered(cow),
];

const given = (book: Book, cow: Cow, hasEnded: (milking: Milking) => boolean): readonly Hold[] => {
  const holds: Hold[] = [];
  const courses = new Map<string, readonly [id: string, medicine: string]>();
  const one = (dose: Dose): void => {
    const label = dryCowLabel(book, dose.data.medicine, dose.at);
    if (label !== undefined) holds.push(...dryCowHolds(book, cow, dose.id, dose.at, label));
    else if (dose.data.course !== undefined)
      courses.set(`${dose.data.course.id}/${dose.data.medicine}`, [dose.data.course.id, dose.data.medicine]);
    else
      holds.push({
        from: dose.at,
        end: endOfDose(book, { dose, cow, course: [dose], stopped: false }, dose.at),
        why: `dose ${dose.id}`,
      });
  };
  for (const entry of cow.entries) {
    if (entry.type === 'treatment') one(entry);
    const product =
      entry.type === 'dry-off'
        ? entry.data.product
        : entry.type === 'cow-entered'
          ? entry.data.driedOffWith
          : undefined;
    if (product === undefined || product === 'none') continue;
    const on = entry.type === 'cow-entered' ? entry.data.driedOffOn : undefined;
    const at = on === undefined ? entry.at : endOfDay(book.farm.zone, on);
    one({ ...entry, type: 'treatment', at, data: { medicine: product } } as Dose);
  }
  for (const [id, medicine] of courses.values()) holds.push(...courseHolds(book, cow, id, medicine, hasEnded));
  return holds;
};

/** */
const fresh = (book: Book, cow: Cow): readonly Hold[] =>
  cow.calvings.flatMap(({ first, at, seen }) => {
    const hold = book.farm.rulesAt(at).freshHold;
    if (hold?.hours !== undefined || hold?.milkings !== undefined) {
      return [{ from: first, end: endOfFresh(hold, at, cow, book), why: 'fresh' }];
    }
    // Of a cow that calved elsewhere her `cow-entered` says what holds her.
    return seen ? [{ from: first, end: OPEN, why: 'fresh, none set' }] : [];
  });

/** No label: as many of the farm's own milkings as it says. */
const endOfFresh = (hold: FreshHold, at: number, cow: Cow, asked: Asked): number =>
  Math.max(
    hold.hours === undefined ? NEVER : at + hold.hours * HOUR,
    hold.milkings === undefined ? NEVER : nthMilking(cow, asked, at, hold.milkings),
  );

/** */
const saidByPeople = (cow: Cow): readonly Hold[] =>
  cow.entries.flatMap((hold, index) => {
    if (hold.type !== 'milk-hold') return [];
    const lifted = cow.entries.find(
      (entry, later) =>
        later > index &&
        entry.type === 'milk-hold-lifted' &&
        // To lift all of hers lifts what was put on before that time.
        (entry.data.hold === undefined ? entry.at > hold.at : entry.data.hold === hold.id),
    );
    return [{ from: hold.at, end: lifted?.at ?? OPEN, why: `milk-hold ${hold.id}` }];
  });

/** a clear test counts where its sample was taken after the positive one. */
const residues = (cow: Cow): readonly Hold[] =>
  cow.entries.flatMap((test, index) => {
    if (test.type !== 'residue-test' || test.data.of !== 'cow' || test.data.result !== 'positive') return [];
    const clear = cow.entries.find(
      (entry, later) =>
        later > index &&
        entry.type === 'residue-test' &&
        entry.data.of === 'cow' &&
        entry.data.result === 'clear' &&
        (entry.data.sampledAt === undefined || Date.parse(entry.data.sampledAt) > test.at),
    );
    return [{ from: test.at, end: clear?.at ?? OPEN, why: `positive ${test.id}` }];
  });

/** */
const asEntered = (cow: Cow): readonly Hold[] =>
  cow.entries.flatMap((entry) => {
    if (entry.type !== 'cow-entered' || entry.data.milkHoldUntil === 'none') return [];
    const until = entry.data.milkHoldUntil;
    const end = until === undefined || until === 'unknown' ? OPEN : Date.parse(until);
    return [{ from: entry.at, end, why: `as entered ${entry.id}` }];
  });
