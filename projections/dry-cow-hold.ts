/** Dry-cow products: milk held through the dry period and after calving, and what a short dry period does. */

import type { MedicineListed } from '../events/kinds/medicine-listed.ts';
import { DAY, earlier, type Instant, instantText, later, plusHours } from '../shared/instant.ts';
import { because } from './because.ts';
import type { CowFile } from './cow-file.ts';
import type { Dosing } from './dosing.ts';
import { notDriedOff, notStated } from './dry-stated.ts';
import type { Labels } from './farm.ts';
import type { HoldPiece } from './hold-piece.ts';
import { laterIfLonger, wordsSince } from './label.ts';
import { holdEnd, type NthMilking } from './milking-count.ts';
import type { CowMoment } from './moment.ts';
import { givenAtLatest } from './products-given.ts';
import { calvingSaid, type Stretch } from './stretch.ts';

type DryCowLabel = NonNullable<MedicineListed['dryCow']>;

/** When a clear residue test of her was known, of milk sampled after an instant; undefined where there is none. */
export const clearTestAfter = (
  file: CowFile,
  after: Instant,
  sampledAt: (entry: CowFile['cow']['residueTests'][number]) => Instant,
): Instant | undefined =>
  file.cow.residueTests.find(
    (hers) => hers.mayBe === undefined && hers.entry.data.result === 'clear' && sampledAt(hers) > after,
  )?.entry.at;

interface Given {
  readonly farm: Labels;
  readonly file: CowFile;
  readonly moment: CowMoment;
  readonly dosing: Dosing;
  readonly nth: NthMilking;
  readonly sampledAt: (hers: CowFile['cow']['residueTests'][number]) => Instant;
}

/** The dry-cow side of a dosing's label; empty where the medicine has none. */
export const dryCowPieces = (given: Given): HoldPiece[] => {
  const words = wordsSince(given.farm, given.dosing.medicineKey, given.dosing.last.at);
  if (!words.some((word) => word.listing?.data.dryCow !== undefined)) return [];
  const outcomes = words.map((word) => {
    const label = word.listing?.data.dryCow;
    const listed = word.listing?.id;
    const piece =
      label === undefined ? { end: given.dosing.last.at, because: undefined } : pieceOf(label, listed, given);
    return { since: word.since, outcome: piece };
  });
  const { outcome } = laterIfLonger<{ end: Instant | null; because: HoldPiece['because'] | undefined }>(outcomes);
  if (outcome.because === undefined) return [];
  const { doses, last, medicine, mayBe } = given.dosing;
  const piece = { began: doses[0].at, end: outcome.end, cause: 'treated' as const, medicine, lastDose: last.at };
  const values = { number: last.subject ?? '', about: medicine };
  return [
    { ...piece, because: outcome.because },
    ...(mayBe === undefined
      ? []
      : [{ ...piece, because: because('R-25', 'hold.may-be-her', { ...values, how: mayBe }, [last.id]) }]),
  ];
};

type Calved = Stretch & { calved: Instant; calvedEarliest: Instant };

/** The calvings (or milked abortions) after an instant, up to the first that is certain to be hers. */
export const calvingsAfter = (file: CowFile, after: Instant): readonly Calved[] => {
  const all = file.lactations.stretches.filter(
    (stretch): stretch is Calved => stretch.calved !== null && stretch.calved > after,
  );
  const certain = all.findIndex((stretch) => !stretch.mayBe);
  return certain < 0 ? all : all.slice(0, certain + 1);
};

const pieceOf = (
  label: DryCowLabel,
  listing: string | undefined,
  given: Given,
): { end: Instant | null; because: HoldPiece['because'] } => {
  const { dosing, file, nth, moment } = given;
  const { medicine, vet } = dosing;
  const last = dosing.last.at;
  const givenAt = givenAtLatest(dosing, file.lactations);
  const behind = [...dosing.doses.map((dose) => dose.id), ...(listing === undefined ? [] : [listing]), ...vet.entries];
  // A calving that may be another cow's ends no hold of hers.
  const calving = calvingsAfter(file, last).find((stretch) => !stretch.mayBe);
  if (calving === undefined) {
    const milkedStill = file.lactations.stretches.findLast(
      (stretch) => stretch.from <= moment.windowEnd && (stretch.to === null || stretch.to > last + 2 * DAY),
    );
    if (milkedStill !== undefined && moment.milking.start > last + 2 * DAY) {
      const vetSaid = vetTimeSaidFrom(given, later(last, milkedStill.from));
      return {
        end: vetSaid === undefined ? null : plusHours(vetSaid.at, vetSaid.hours),
        because: because('R-19', 'hold.dry-cow-milked-again', { medicine, given: instantText(last) }, behind),
      };
    }
    return {
      end: null,
      because: because('R-19', 'hold.dry-cow-until-calving', { medicine, given: instantText(last) }, behind),
    };
  }
  const all = [...behind, ...calving.entries];
  const after = label.milkHoldAfterCalving;
  // A vet's time lengthens the label's, counted as the label's is: from calving.
  const byVet = plusHours(calving.calved, vet.milk?.time ?? 0);
  const from = (start: Instant): Instant | null => (after === 'none' ? start : holdEnd(after, start, nth, true).end);
  const ordinary = from(calving.calved);
  const minimum = label.minimumDryDays ?? 0;
  const minimumOver = (givenAt + minimum * DAY) as Instant;
  if (calving.calvedEarliest >= minimumOver && ordinary !== null && byVet > ordinary) {
    const hours = vet.milk?.time ?? 0;
    const values = { medicine, ...calvingSaid(calving), hours, milkings: null, ends: instantText(byVet) };
    return { end: byVet, because: because('R-15', 'hold.dry-cow-after-calving', values, all) };
  }
  if (calving.calvedEarliest >= minimumOver) {
    const values = {
      medicine,
      ...calvingSaid(calving),
      hours: after === 'none' ? 0 : (after.hours ?? null),
      milkings: after === 'none' ? null : (after.milkings ?? null),
      ends: ordinary === null ? null : instantText(ordinary),
    };
    return { end: ordinary, because: because('R-19', 'hold.dry-cow-after-calving', values, all) };
  }
  const end = latest(
    ordinary,
    label.earlyCalving === 'minimum-plus-hold' ? latest(from(minimumOver), byVet) : settledEnd(given, calving),
  );
  const values = {
    medicine,
    given: instantText(givenAt),
    minimumDays: minimum,
    ...calvingSaid(calving),
    ends: end === null ? null : instantText(end),
  };
  return { end, because: because('R-19', 'hold.dry-cow-early', values, all) };
};

/** A time that the vet gave from an instant on: what was said with the product, or before, was not about what came after. */
const vetTimeSaidFrom = ({ dosing: { vet } }: Given, from: Instant): { at: Instant; hours: number } | undefined =>
  vet.milk === undefined || vet.said === undefined || vet.said < from
    ? undefined
    : { at: vet.said, hours: vet.milk.time };

/** The vet's time after calving, or a clear test of milk sampled after it, whichever comes first; else without end. */
const settledEnd = (given: Given, { calved, calvedEarliest }: Calved): Instant | null => {
  const vetSaid = vetTimeSaidFrom(given, calvedEarliest);
  const byVet = vetSaid === undefined ? undefined : plusHours(calved, vetSaid.hours);
  const byTest = clearTestAfter(given.file, calved, given.sampledAt);
  if (byVet === undefined || byTest === undefined) return byVet ?? byTest ?? null;
  return earlier(byVet, byTest);
};

const latest = (a: Instant | null, b: Instant | null): Instant | null =>
  a === null || b === null ? null : later(a, b);

/** Dry-offs whose product nobody stated: held from the next time she is in milk; where it may be another cow's, at once. */
export const notStatedPieces = (file: CowFile, moment: CowMoment, sampledAt: Given['sampledAt']): HoldPiece[] => [
  ...notStated(file, moment.farm).flatMap((dry): HoldPiece[] => {
    // What she is in milk by after it, whenever that began: twins go on over a dry-off written down between them, and a cow
    // that comes back may say the calving from before it.
    const again = file.lactations.stretches.find(
      ({ from, to }) => from > dry.earliest || (dry.at === dry.earliest && (to === null || to > dry.at)),
    );
    if (again === undefined) return [];
    const reason = because('R-19', 'hold.dry-cow-not-stated', { driedOff: dry.day }, [dry.entry, ...again.entries]);
    return [{ began: later(again.from, dry.earliest), end: null, cause: 'unknown', because: reason }];
  }),
  ...notDriedOff(file, moment.farm).map((dry): HoldPiece => {
    const values = { group: dry.group, since: moment.schedule.dayOf(dry.earliest) };
    const piece = { began: dry.at, cause: 'unknown' as const };
    if (dry.isMilkedAgain !== true)
      return { ...piece, end: dry.to, because: because('R-19', 'hold.no-dry-off', values, dry.entries) };
    const ends = [dry.to, clearTestAfter(file, dry.at, sampledAt) ?? null].filter((each) => each !== null);
    const back = { ...values, back: moment.schedule.dayOf(dry.at) };
    const end = ends.length === 0 ? null : (Math.min(...ends) as Instant);
    return { ...piece, end, because: because('R-19', 'hold.back-from-dry', back, dry.entries) };
  }),
  ...file.cow.mayBeDryOffs.flatMap(({ entry, mayBe }): HoldPiece[] => {
    if (entry.data.product !== undefined || mayBe === undefined) return [];
    const piece = { began: entry.at, end: null, cause: 'unknown' as const };
    const values = { number: entry.subject ?? '', how: mayBe, about: entry.type };
    return [
      {
        ...piece,
        because: because('R-19', 'hold.dry-cow-not-stated', { driedOff: moment.schedule.dayOf(entry.at) }, [entry.id]),
      },
      { ...piece, because: because('R-25', 'hold.may-be-her', values, [entry.id]) },
    ];
  }),
];
