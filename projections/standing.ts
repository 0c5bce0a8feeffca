/** Every cow as she stands at one milking: number, group, in milk or not, and what holds her milk. The sheets read from here. */
import type { Aside } from '../events/entry.ts';
import { officialDigits, withoutLeadingZeros } from '../shared/cow-number.ts';
import { earlier, type Instant } from '../shared/instant.ts';
import { type Animal, mayBeSame } from './animal.ts';
import { numberAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import type { Group } from './groups.ts';
import { type HoldPiece, holdsAt } from './hold-piece.ts';
import { keptForCow } from './kept-for-cow.ts';
import type { Known } from './know.ts';
import { daysInMilkOn, inMilkAt, lactationAt, lastStretch, stretchAt } from './lactation.ts';
import { milkHoldPieces } from './milk-hold.ts';
import { type CowMoment, firstThere, inMilkDuring, standsIn } from './moment.ts';
import { remembered } from './remembered.ts';
import type { Milking, Schedule } from './schedule.ts';
import type { Stretch } from './stretch.ts';
import { windowEndOf } from './window.ts';

export interface Standing {
  readonly file: CowFile;
  readonly number: string;
  readonly group: Group;
  /** At the milking's start: what is counted. */
  readonly inMilk: boolean;
  /** At its start or calved inside it: who may be milked. */
  readonly inMilkDuring: boolean;
  readonly stretch: Stretch | undefined;
  readonly lactation: number;
  readonly daysInMilk: number | null;
  /** Every reason, ended ones too. */
  readonly pieces: readonly HoldPiece[];
  /** Those that hold at this milking. */
  readonly running: readonly HoldPiece[];
  /** On the parlour's list: in milk and held, or dry in a milked group. */
  readonly held: boolean;
  readonly asides: readonly Aside[];
}

export const standingOf = (file: CowFile, moment: CowMoment, asides: readonly Aside[]): Standing =>
  asides.length === 0 ? standingAlone(file, moment) : standingWith(file, moment, asides);

const standingWith = (file: CowFile, moment: CowMoment, asides: readonly Aside[]): Standing => {
  const { milking, windowEnd } = moment;
  const group = standsIn(file.cow, moment);
  const during = inMilkDuring(file, moment);
  const pieces = milkHoldPieces(file, moment, asides);
  const running = pieces.filter((piece) => holdsAt(piece, milking.start, windowEnd));
  const stretch = stretchAt(file.lactations, milking.start) ?? stretchAt(file.lactations, windowEnd);
  return {
    file,
    number: numberAt(file.cow, firstThere(file.cow, moment)),
    group,
    inMilk: inMilkAt(file.cow, file.lactations, milking.start),
    inMilkDuring: during,
    stretch,
    lactation: lactationAt(file.cow, file.lactations, windowEnd),
    daysInMilk: daysInMilkOn(stretch ?? lastStretch(file.lactations, windowEnd), milking.day),
    pieces,
    running,
    held:
      running.length > 0 && (during || running.some(isDryAmongMilked) || moment.lookup.isMilked(group.name, milking)),
    asides,
  };
};

export const standingAlone = keptForCow((file, moment) => standingWith(file, moment, []));

/** She may stand in a milked group though it is not the one that she stands in for certain. */
const isDryAmongMilked = ({ because }: HoldPiece): boolean => because.key === 'hold.dry-in-milked-group';

/** Which cows each thing set aside may concern; those that concern nobody in the herd are missing here. */
export const asidesByCow = (known: Known): ReadonlyMap<string, readonly Aside[]> => {
  const byCow = new Map<string, Aside[]>();
  for (const aside of known.asides) {
    for (const key of new Set(aside.cows.flatMap((number) => cowsBy(known, number)))) {
      const have = byCow.get(key);
      if (have === undefined) byCow.set(key, [aside]);
      else have.push(aside);
    }
  }
  return byCow;
};

/** Keys of the cows in the herd that a number may mean: borne now or once, or official; else read without its leading zeros. */
export const cowsBy = (known: Known, number: string): string[] => {
  const official = officialDigits(number);
  const short = withoutLeadingZeros(number);
  const those = (means: (animal: Animal) => boolean): string[] => {
    const meant = known.herd.animals.filter((animal) => animal.present && means(animal));
    // What may concern a cow concerns those that she may be as well.
    const others = meant.flatMap(mayBeSame).filter((animal) => animal.present);
    return [...new Set([...meant, ...others])].map((animal) => animal.key);
  };
  const bearers = new Set(bearersOf(known, number));
  const exact = those((animal) => bearers.has(animal) || (official !== undefined && animal.officialId === official));
  return exact.length > 0
    ? exact
    : those((animal) => animal.spans.some((span) => withoutLeadingZeros(span.number) === short));
};

/** Every animal that ever bore a number, in the herd's order. */
const bearersOf = (known: Known, number: string): readonly Animal[] => byNumber(known.herd).get(number) ?? [];

const byNumber = remembered((herd: Known['herd']): ReadonlyMap<string, readonly Animal[]> => {
  const bearers = new Map<string, Animal[]>();
  for (const animal of herd.animals) {
    for (const number of new Set(animal.spans.map((span) => span.number))) {
      const have = bearers.get(number);
      if (have === undefined) bearers.set(number, [animal]);
      else have.push(animal);
    }
  }
  return bearers;
});

/** Who bore a number at an instant. */
export const bearersAt = (known: Known, number: string, at: Instant): string[] =>
  bearersOf(known, number)
    .filter((animal) =>
      animal.spans.some((span) => span.number === number && span.from <= at && (span.to === null || span.to >= at)),
    )
    .map((animal) => animal.key);

/**
 * Who a number on the sheet of a milking meant: who bore it when the sheet was made, or at the start where it was made later;
 * else a cow that came inside the milking; else, where she is said to have had another number by then, who bore it last.
 */
export const bearersOnSheet = (
  known: Known,
  schedule: Schedule,
  number: string,
  milking: Milking,
  made: Instant = milking.start,
): string[] => {
  const at = earlier(made, milking.start);
  const then = bearersAt(known, number, at);
  if (then.length > 0) return then;
  const inside = bearersAt(known, number, windowEndOf(known, schedule, milking));
  return inside.length > 0 ? inside : lastBearers(known, number, at);
};

/** Who gave a number up last before an instant. */
const lastBearers = (known: Known, number: string, before: Instant): string[] => {
  const gaveUp = bearersOf(known, number).map((animal) => ({
    key: animal.key,
    at: Math.max(
      ...animal.spans.flatMap(({ number: each, to }) => (each === number && to !== null && to < before ? to : [])),
    ),
  }));
  const last = Math.max(...gaveUp.map(({ at }) => at));
  return gaveUp.flatMap(({ key, at }) => (at === last && Number.isFinite(at) ? key : []));
};
