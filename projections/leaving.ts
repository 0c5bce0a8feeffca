/**
 * What a buyer must be told of a cow that leaves: her holds for milk and meat with their ends, the treatments
 * behind them, and what is not known. For a cow that left, as at her leaving; for one in the herd, as of now. What the
 * book knows and no more. Rows without words, plain JSON.
 */
import type { Aside } from '../events/entry.ts';
import { officialDigits } from '../shared/cow-number.ts';
import { type Instant, instantText } from '../shared/instant.ts';
import type { Because } from './because.ts';
import { numberAt, presentAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import { endText, latestEnd } from './hold-piece.ts';
import type { Known } from './know.ts';
import { meatHoldPieces } from './meat-hold.ts';
import type { RegisterRow } from './medicine-row.ts';
import { medicineRegister } from './medicines.ts';
import { milkHoldPieces } from './milk-hold.ts';
import type { Moment } from './moment.ts';
import type { Notice } from './views.ts';

export interface HoldStated {
  readonly held: boolean;
  /** Null where it is held and no end is known, or not held. */
  readonly until: string | null;
  readonly reasons: readonly Because[];
}

export interface Leaving {
  readonly rule: 'R-90';
  /** Her barn number then. */
  readonly cow: string;
  readonly officialId: string | null;
  readonly otherNumbers: readonly string[];
  readonly born: string | null;
  /** Since when she is in the book. */
  readonly since: string;
  /** Null while she is in the herd. */
  readonly left: { readonly at: string; readonly reason: string; readonly to: string | null } | null;
  /** When the holds are judged: at her leaving, else now. */
  readonly at: string;
  readonly milk: HoldStated;
  readonly meat: HoldStated;
  /** Those behind the holds, oldest first. */
  readonly treatments: readonly RegisterRow[];
  /** All of hers in the book, up to then. */
  readonly treatmentsInBook: number;
  readonly lastTreatment: { readonly medicine: string; readonly at: string } | null;
  /** Entries about her. */
  readonly entries: number;
  /** Doubts that stand about her or her number. */
  readonly doubts: readonly Notice[];
}

interface Piece {
  readonly began: Instant;
  readonly end: Instant | null;
  readonly because: Because;
}

export const leavingOfCow = (known: Known, moment: Moment, file: CowFile, doubts: readonly Notice[]): Leaving => {
  const { cow } = file;
  const { animal } = file;
  const left = presentAt(cow, moment.asOf) ? undefined : cow.left.findLast((each) => each.at <= moment.asOf);
  const at = left?.at ?? moment.asOf;
  const numbers = new Set(cow.spans.map((span) => span.number));
  const asides = known.asides.filter((aside) => mayConcern(aside, numbers, cow.officialId));
  const runs = ({ began, end }: Piece): boolean => began <= at && (end === null || end >= at);
  // That she stands dry among milkers says where she stands, not what her milk may hold.
  const milk = milkHoldPieces(file, moment, asides).filter((piece) => piece.because.rule !== 'R-24' && runs(piece));
  const meat = meatHoldPieces(file, moment, asides).filter(runs);
  const hers = new Set(animal.assigned.map(({ id }) => id));
  const rows = medicineRegister({ ...known, files: [file] }, moment, { to: at }).rows.filter((row) =>
    row.entries.some((id) => hers.has(id)),
  );
  const behind = new Set([...milk, ...meat].flatMap((piece) => piece.because.entries));
  const last = rows.reduce<RegisterRow | undefined>(
    (latest, row) => (latest === undefined || Date.parse(row.lastDose) >= Date.parse(latest.lastDose) ? row : latest),
    undefined,
  );
  const number = numberAt(cow, at);
  return {
    rule: 'R-90',
    cow: number,
    officialId: cow.officialId ?? null,
    otherNumbers: [...numbers].filter((each) => each !== number),
    born: cow.entered.findLast((entry) => entry.data.born !== undefined)?.data.born ?? null,
    since: instantText(cow.entered[0]?.at ?? at),
    left: left === undefined ? null : { at: instantText(left.at), reason: left.data.reason, to: left.data.to ?? null },
    at: instantText(at),
    milk: stated(milk),
    meat: stated(meat),
    treatments: rows.filter((row) => row.entries.some((id) => behind.has(id))),
    treatmentsInBook: rows.length,
    lastTreatment: last === undefined ? null : { medicine: last.medicine, at: last.lastDose },
    entries: hers.size,
    doubts: noticesAbout(doubts, hers, numbers),
  };
};

const stated = (pieces: readonly Piece[]): HoldStated => {
  const end = latestEnd(pieces);
  return {
    held: end !== undefined,
    until: end === undefined ? null : endText(end),
    reasons: pieces.map((piece) => piece.because),
  };
};

const mayConcern = ({ cows }: Aside, numbers: ReadonlySet<string>, official: string | undefined): boolean =>
  cows.some((number) => numbers.has(number) || (official !== undefined && officialDigits(number) === official));

/** Notices that rest on one of those entries, or speak of one of those numbers without being sure whose it is. */
export const noticesAbout = (
  notices: readonly Notice[],
  entries: ReadonlySet<string>,
  numbers: ReadonlySet<string>,
): Notice[] =>
  notices.filter(
    ({ because }) =>
      because.entries.some((id) => entries.has(id)) ||
      Object.entries(because.values).some(
        ([key, value]) =>
          OF_A_NUMBER.has(key) &&
          (Array.isArray(value) ? value : [value]).some((each) => typeof each === 'string' && numbers.has(each)),
      ),
  );

const OF_A_NUMBER: ReadonlySet<string> = new Set(['number', 'cows', 'mayBe']);
