/**
 * One cow's file. It is opened when somebody looks into it. That of a cow which left long ago is put away again before
 * long: a herd has many more of those than cows that are there, and hardly anybody asks about them.
 */
import { DAY } from '../shared/instant.ts';
import { type Animal, isCertain, mayBeSame } from './animal.ts';
import { type Cow, foldCow } from './cow.ts';
import { type Dosing, dosingsOf } from './dosing.ts';
import { type Lactations, lactationsOf } from './lactation.ts';
import { treatmentsOf } from './products-given.ts';
import type { Roomy } from './remembered.ts';
import type { Schedule } from './schedule.ts';

/** One cow with what follows from her entries alone, whatever the milking. */
export interface CowFile extends Roomy {
  readonly animal: Animal;
  readonly cow: Cow;
  readonly lactations: Lactations;
  readonly dosings: readonly Dosing[];
  /** Those of the cows that she may be as well: what holds the one holds the other. */
  readonly others: readonly CowFile[];
  /**
   * A week after the last entry about a cow that has left for good: from then on nothing about her hangs on when it is
   * asked. Positive infinity while her file is open.
   */
  readonly closedAt: number;
}

interface Opened extends Pick<CowFile, 'cow' | 'lactations' | 'dosings' | 'others'> {
  /** What was worked out from her file lies in it and goes with it. */
  readonly room: unknown[];
}

export const fileOf = (animal: Animal, schedule: Schedule): CowFile => new KeptFile(animal, schedule);

/** Forgets what a closed file says and what was worked out from it; whoever looks into it all the same waits. */
export const putAway = (file: CowFile): void => {
  if (file instanceof KeptFile && Number.isFinite(file.closedAt)) file.putAway();
};

class KeptFile implements CowFile {
  readonly animal: Animal;
  readonly closedAt: number;
  readonly #schedule: Schedule;
  #opened: Opened | undefined;

  constructor(animal: Animal, schedule: Schedule) {
    this.animal = animal;
    this.#schedule = schedule;
    // What holds a cow that she may be as well goes on after she left.
    this.closedAt =
      mayBeSame(animal).length > 0 ? Number.POSITIVE_INFINITY : (leftForGood(animal) ?? closedAtOf(this.#open()));
  }

  get cow(): Cow {
    return this.#open().cow;
  }

  get lactations(): Lactations {
    return this.#open().lactations;
  }

  get dosings(): readonly Dosing[] {
    return this.#open().dosings;
  }

  get others(): readonly CowFile[] {
    return this.#open().others;
  }

  get room(): unknown[] {
    return this.#open().room;
  }

  putAway(): void {
    this.#opened = undefined;
  }

  #open(): Opened {
    const have = this.#opened;
    if (have !== undefined) return have;
    const opened = open(this.animal, this.#schedule);
    this.#opened = opened;
    if (Number.isFinite(this.closedAt)) lookedInto(this);
    return opened;
  }
}

const open = (animal: Animal, schedule: Schedule): Opened => {
  const cow = foldCow(animal);
  const lactations = lactationsOf(cow, schedule);
  const { vetTimes, courseEnds } = cow;
  const dosings = dosingsOf({ treatments: treatmentsOf(cow, lactations), vetTimes, courseEnds });
  return { cow, lactations, dosings, others: mayBeSame(animal).map((each) => fileOf(each, schedule)), room: [] };
};

/** So many closed files lie open at once. */
const MOST_LOOKED_INTO = 64;

const lyingOpen: KeptFile[] = [];

const lookedInto = (file: KeptFile): void => {
  lyingOpen.push(file);
  if (lyingOpen.length > MOST_LOOKED_INTO) lyingOpen.shift()?.putAway();
};

const WEEK = 7 * DAY;

const closedAtOf = ({ cow, lactations: { stretches } }: Opened): number => {
  const entered = cow.entered.at(-1);
  const left = cow.left.at(-1);
  const isGone = entered !== undefined && left !== undefined && entered.at <= left.at;
  return isGone && stretches.at(-1)?.to !== null ? cow.lastAt + WEEK : Number.POSITIVE_INFINITY;
};

const BEGINS_MILK = new Set(['cow-entered', 'calving', 'abortion']);

/**
 * When her file was closed, by a look at her entries alone: she never left, or she certainly did and nothing that can begin
 * a time in milk came later. Undefined where that does not tell, and the file has to be opened.
 */
const leftForGood = (animal: Animal): number | undefined => {
  let [left, begun, last, isEntered] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, false];
  for (const entry of animal.assigned) {
    if (entry.at > last) last = entry.at;
    if (BEGINS_MILK.has(entry.type)) begun = Math.max(begun, entry.at);
    if (entry.type === 'cow-left' && isCertain(animal, entry)) left = Math.max(left, entry.at);
    if (entry.type === 'cow-entered') isEntered = true;
  }
  if (left === Number.NEGATIVE_INFINITY) return Number.POSITIVE_INFINITY;
  return isEntered && begun <= left ? last + WEEK : undefined;
};
