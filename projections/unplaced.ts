/** The head of the milk-hold sheet: doses and holds for no known cow, struck doses, things set aside, cows that left on hold. */
import type { Entry } from '../events/entry.ts';
import { DAY, type Instant, instantText } from '../shared/instant.ts';
import { holdsMilk } from './bearing.ts';
import { because } from './because.ts';
import { type Cow, numberAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import { dosingsOf } from './dosing.ts';
import { medicineKey } from './farm.ts';
import { freshEndOfAnyCow } from './fresh-hold.ts';
import { endText, latestEnd } from './hold-piece.ts';
import { isSaidInstead } from './instead.ts';
import { saidFrom } from './kept-for-herd.ts';
import type { Known } from './know.ts';
import { dosingPieces, milkHoldPieces } from './milk-hold.ts';
import { type NthMilking, nthMilkingFor } from './milking-count.ts';
import { type CowMoment, isThere, type Moment } from './moment.ts';
import { appearsKey, struckKey, unplacedKey } from './notice-keys.ts';
import { remembered } from './remembered.ts';
import { cowsBy } from './standing.ts';
import type { DosedAnimal } from './treatment-hold.ts';
import { vetTimesOn } from './vet-times.ts';
import type { UnplacedRow } from './views.ts';
import type { Unplaced } from './who.ts';

/** What an entry is about, in the head of the sheet: the medicine, else its kind. */
export const aboutOf = (entry: Entry): string => (entry.type === 'treatment' ? entry.data.medicine : entry.type);

export const unplacedRows = (known: Known, moment: Moment): UnplacedRow[] => {
  const kept = rowsKept(moment);
  const rows = kept.get(known.asides) ?? rowsFound(known, moment);
  kept.set(known.asides, rows);
  return [...rows];
};

/** By what is set aside: the sheet and the doubts ask for the same rows. */
const rowsKept = remembered((_: Moment): WeakMap<Known['asides'], readonly UnplacedRow[]> => new WeakMap());

const rowsFound = (known: Known, moment: Moment): readonly UnplacedRow[] =>
  [...notInHerd(known, moment), ...struckDoses(known, moment), ...setAside(known), ...leftOnHold(known, moment)].filter(
    (row) => !known.farm.settled.has(row.key),
  );

const notInHerd = (known: Known, moment: Moment): UnplacedRow[] =>
  known.herd.unplaced
    .filter(
      ({ entry }) =>
        holdsMilk(entry) &&
        entry.type !== 'vet-hold-time' &&
        entry.at <= moment.windowEnd &&
        mayStillHold(entry, known, moment),
    )
    .map((unplaced) => ({
      number: unplaced.entry.subject ?? null,
      key: unplacedKey(unplaced.entry.id),
      because: sayUnplaced(unplaced, moment),
    }));

const sayUnplaced = ({ entry, how, mayBe }: Unplaced, moment: Moment) => {
  const values = { number: entry.subject ?? '', about: aboutOf(entry), at: instantText(entry.at) };
  if (how === 'not-in-herd') return because('R-25', 'unplaced.not-in-herd', values, [entry.id]);
  const numbers = mayBe.map((animal) => animal.spans.findLast((span) => span.from <= moment.windowEnd)?.number ?? '');
  return because(
    'R-25',
    how === 'old-number' ? 'unplaced.old-number' : 'unplaced.leading-zeros',
    { ...values, mayBe: numbers },
    [entry.id],
  );
};

/** Whichever cow it was, her hold is over once the label's time has passed; what has no end stands until settled. */
const mayStillHold = (entry: Entry, known: Known, moment: Moment): boolean => {
  const end = endForAnyCow(entry, known, moment);
  return end === null || end >= moment.milking.start;
};

/** When the hold of whichever cow it was is over; null: without end. */
export const endForAnyCow = (entry: Entry, known: Known, moment: Moment): Instant | null => {
  const nth = nthMilkingOfAnyCow(moment);
  if (entry.type === 'calving' || entry.type === 'abortion') return freshEndOfAnyCow(entry.at, moment.schedule, nth);
  if (entry.type !== 'treatment') return null;
  const isDryCow = (known.farm.listings.get(medicineKey(entry.data.medicine)) ?? []).some(
    (listing) => listing.data.dryCow !== undefined,
  );
  if (isDryCow) return null;
  const [dosing] = dosingsOf({ treatments: [{ entry }], vetTimes: vetTimesOn(known, entry), courseEnds: [] });
  if (dosing === undefined) return null;
  // Nobody knows the cow either. It may be one in milk, and other doses under that number may have been hers.
  const others = known.herd.unplaced.flatMap((each) => {
    const isSame = each.entry.type === 'treatment' && each.entry.subject === entry.subject && each.entry !== entry;
    return isSame && medicineKey(each.entry.data.medicine) === medicineKey(entry.data.medicine) ? [each.entry] : [];
  });
  const doses = [...others, entry].sort((a, b) => a.at - b.at);
  const animal: DosedAnimal = {
    nth,
    dosesOf: () => doses,
    patient: { classAt: () => 'milking', isDryingOff: () => false, born: undefined, dayOf: moment.schedule.dayOf },
  };
  const end = latestEnd(dosingPieces(dosing, moment, animal));
  return end === undefined ? (0 as Instant) : end;
};

/** Nobody knows her group: the one milked least often, among those that are milked at all, has its nth milking last. */
const nthMilkingOfAnyCow = (moment: Moment): NthMilking => {
  const everyMilking = nthMilkingFor(moment.schedule, moment.milking.start, () => true);
  const milked = moment.groups
    .filter((group) => group.milkedAt !== undefined && group.milkedAt.length > 0)
    .map(({ name }) =>
      nthMilkingFor(moment.schedule, moment.milking.start, (milking) => moment.lookup.isMilked(name, milking)),
    );
  return (after, n) => {
    const each = [everyMilking, ...milked].map((nth) => nth(after, n));
    return latestEnd(each.map((end) => ({ end }))) ?? null;
  };
};

/** Struck without saying what was true instead: somebody may have had it. */
const struckDoses = (known: Known, moment: Moment): UnplacedRow[] => {
  const { struck, corrections } = known.strikes;
  return struck
    .filter(
      ({ entry }) =>
        STRUCK_MATTERS.has(entry.type) &&
        entry.at <= moment.windowEnd &&
        !isSaidInstead(entry, corrections, known.ids.find(entry.id)) &&
        mayStillHold(entry, known, moment),
    )
    .map(({ entry, by }) => ({
      number: entry.subject ?? null,
      key: struckKey(entry.id),
      because: because(
        'R-23',
        'unplaced.dose-struck',
        { number: entry.subject ?? '', about: aboutOf(entry), at: instantText(entry.at), reason: by.data.reason },
        [entry.id, by.id],
      ),
    }));
};

export const STRUCK_MATTERS = new Set(['treatment', 'dry-off', 'milk-hold']);

/** Set aside, and no cow of the herd can be read in it. What is about the farm alone is a doubt, and no cow to be found. */
const setAside = (known: Known): UnplacedRow[] =>
  known.asides
    .filter((aside) => !aside.cows.some((number) => cowsBy(known, number).length > 0))
    .map((aside) => ({
      // A word for the farm is nobody's number.
      number: aside.ofFarm === true ? null : (aside.cows[0] ?? null),
      key: aside.key,
      because: because(
        'R-27',
        'unplaced.set-aside',
        { problem: aside.problem, cows: aside.ofFarm === true ? [] : [...aside.cows] },
        aside.id === undefined ? [] : [aside.id],
      ),
    }));

const SEVEN_DAYS = 7 * DAY;

/** The entry by which a cow left, where she is gone at this milking. */
export const leavingOf = (cow: Cow, moment: CowMoment) =>
  isThere(cow, moment) ? undefined : cow.left.findLast((left) => left.at <= moment.windowEnd);

/** Her milk reasons that were running when she left. */
export const milkHoldOnLeaving = (file: CowFile, moment: CowMoment, left: Instant) =>
  milkHoldPieces(file, moment, []).filter(
    (piece) => piece.because.rule !== 'R-24' && piece.began <= left && (piece.end === null || piece.end >= left),
  );

/** Of a cow that never left nothing is said on leaving. */
export const hasLeft = ({ cow }: CowFile): boolean => cow.left.length > 0;

const leftOnHold = (known: Known, moment: Moment): readonly UnplacedRow[] =>
  leftLately(known.files, moment, moment.milking.start - SEVEN_DAYS);

const leftLately = saidFrom(
  'left lately on hold',
  (file, moment): readonly UnplacedRow[] => {
    const left = leavingOf(file.cow, moment);
    if (left === undefined || left.at + SEVEN_DAYS < moment.milking.start || !wasMilked(file, left.at)) return [];
    const end = latestEnd(milkHoldOnLeaving(file, moment, left.at));
    if (end === undefined || (end !== null && end < moment.milking.start)) return [];
    return [
      {
        number: numberAt(file.cow, left.at),
        key: appearsKey(left.id),
        because: because(
          'R-25',
          'unplaced.left-on-hold',
          { left: moment.schedule.dayOf(left.at), until: endText(end) },
          [left.id],
        ),
      },
    ];
  },
  hasLeft,
);

const wasMilked = (file: CowFile, at: Instant): boolean =>
  file.lactations.stretches.some((stretch) => stretch.from <= at && (stretch.to === null || stretch.to >= at));
