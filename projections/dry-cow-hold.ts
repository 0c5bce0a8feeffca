/** Dry-cow products: milk held through the dry period and after calving, and what a short dry period does. */

import type { MedicineListed } from '../events/kinds/medicine-listed.ts';
import { DAY, earlier, type Instant, instantText, later, plusHours } from '../shared/instant.ts';
import { because } from './because.ts';
import type { Dosing } from './dosing.ts';
import type { Farm } from './farm.ts';
import type { HoldPiece } from './hold-piece.ts';
import { laterIfLonger, wordsSince } from './label.ts';
import type { Stretch } from './lactation.ts';
import { holdEnd, type NthMilking } from './milking-count.ts';
import { type CowFile, type Moment, productsWithin } from './moment.ts';

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
  readonly farm: Farm;
  readonly file: CowFile;
  readonly moment: Moment;
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
  return [
    {
      began: given.dosing.doses[0].at,
      end: outcome.end,
      cause: 'treated',
      because: outcome.because,
      medicine: given.dosing.medicine,
      lastDose: given.dosing.last.at,
    },
  ];
};

/** The first calving (or milked abortion) after an instant. */
export const calvingAfter = (
  file: CowFile,
  after: Instant,
): (Stretch & { calved: Instant; calvedEarliest: Instant }) | undefined =>
  file.lactations.stretches.find(
    (stretch): stretch is Stretch & { calved: Instant; calvedEarliest: Instant } =>
      stretch.calved !== null && stretch.calved > after,
  );

const pieceOf = (
  label: DryCowLabel,
  listing: string | undefined,
  given: Given,
): { end: Instant | null; because: HoldPiece['because'] } => {
  const { dosing, file, nth, moment } = given;
  const { medicine, vet } = dosing;
  const last = dosing.last.at;
  const behind = [...dosing.doses.map((dose) => dose.id), ...(listing === undefined ? [] : [listing]), ...vet.entries];
  const calving = calvingAfter(file, last);
  if (calving === undefined) {
    const milkedStill = file.lactations.stretches.some(
      (stretch) => stretch.from <= moment.windowEnd && (stretch.to === null || stretch.to > last + 2 * DAY),
    );
    if (milkedStill && moment.milking.start > last + 2 * DAY) {
      const end =
        vet.milkHours === undefined || vet.prescribedBy === undefined
          ? null
          : plusHours(later(last, vet.said ?? last), vet.milkHours);
      return {
        end,
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
  const from = (start: Instant): Instant | null => (after === 'none' ? start : holdEnd(after, start, nth, true).end);
  const ordinary = from(calving.calved);
  const minimum = label.minimumDryDays ?? 0;
  const minimumOver = (last + minimum * DAY) as Instant;
  if (calving.calvedEarliest >= minimumOver) {
    const values = {
      medicine,
      calved: instantText(calving.calved),
      hours: after === 'none' ? 0 : (after.hours ?? null),
      milkings: after === 'none' ? null : (after.milkings ?? null),
      ends: ordinary === null ? null : instantText(ordinary),
    };
    return { end: ordinary, because: because('R-19', 'hold.dry-cow-after-calving', values, all) };
  }
  const end = latest(
    ordinary,
    label.earlyCalving === 'minimum-plus-hold' ? from(minimumOver) : settledEnd(given, calving.calved),
  );
  const values = {
    medicine,
    given: instantText(last),
    minimumDays: minimum,
    calved: instantText(calving.calved),
    ends: end === null ? null : instantText(end),
  };
  return { end, because: because('R-19', 'hold.dry-cow-early', values, all) };
};

/** The vet's time after calving, or a clear test of milk sampled after it, whichever comes first; else without end. */
const settledEnd = ({ dosing, file, sampledAt }: Given, calved: Instant): Instant | null => {
  const { vet } = dosing;
  const byVet =
    vet.milkHours === undefined || vet.prescribedBy === undefined ? undefined : plusHours(calved, vet.milkHours);
  const byTest = clearTestAfter(file, calved, sampledAt);
  if (byVet === undefined || byTest === undefined) return byVet ?? byTest ?? null;
  return earlier(byVet, byTest);
};

const latest = (a: Instant | null, b: Instant | null): Instant | null =>
  a === null || b === null ? null : later(a, b);

/** Dry-offs whose product nobody stated: held from the next time she is in milk. */
export const notStatedPieces = (file: CowFile, moment: Moment): HoldPiece[] =>
  file.lactations.dryStarts.flatMap((dry): HoldPiece[] => {
    if (dry.product !== undefined || productsWithin(file, moment.farm, dry)) return [];
    const again = file.lactations.stretches.find((stretch) => stretch.from > dry.earliest);
    if (again === undefined) return [];
    const reason = because('R-19', 'hold.dry-cow-not-stated', { driedOff: dry.day }, [dry.entry, ...again.entries]);
    return [{ began: again.from, end: null, cause: 'unknown', because: reason }];
  });
