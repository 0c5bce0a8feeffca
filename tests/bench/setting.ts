/** What every figure is given: how big, how often, where files may lie, and books with herds in them. */
import fs from 'node:fs';
import path from 'node:path';
import { type Book, openBook } from '../../events/book.ts';
import { type Passed, readValue, type TurnedAway } from '../../events/door.ts';
import { bigHerd, type HerdWishes, nextMilkingOf } from '../../seeds/big-herd.ts';
import type { Arrival } from '../../seeds/say.ts';
import type { Instant } from '../../shared/instant.ts';
import { whole } from './measure.ts';

export interface Setting {
  readonly quick: boolean;
  readonly runs: number;
  /** A folder that goes when the run ends. */
  readonly scratch: string;
  /** Where the peers are installed; undefined where they are not. */
  readonly peers: string | undefined;
  /** The herd of the long log. */
  readonly long: HerdWishes;
  /** A herd of the size most people have. */
  readonly middle: HerdWishes;
  /** The herd whose desk pages are asked for. */
  readonly desk: HerdWishes;
  /** The herd whose wall set is drawn. */
  readonly wall: HerdWishes;
  /** Herds of the growth table. */
  readonly growth: readonly HerdWishes[];
  /** How many entries are recorded, pushed and synced. */
  readonly recorded: number;
  readonly synced: number;
  readonly told: (sentence: string) => void;
}

/** A rehearsal's clock that is moved by hand: the book keeps each entry's own recorded time. */
export const movedClock = () => {
  let now = 0 as Instant;
  return {
    now: () => now,
    fixed: true,
    set: (instant: Instant) => {
      now = instant;
    },
  };
};

export interface HerdBook {
  readonly file: string;
  readonly entries: number;
  readonly lastRecorded: Instant;
  readonly milking: string;
  readonly on: string;
  readonly open: () => Book;
}

const made = new Map<string, HerdBook>();

/** A book with that herd's whole log in it, made once a run. */
export const herdBook = (setting: Setting, wishes: HerdWishes): HerdBook => {
  const name = `${wishes.cows}-cows-${wishes.years}-years`;
  const have = made.get(name);
  if (have !== undefined) return have;
  setting.told(`making the book of ${whole(wishes.cows)} cows over ${wishes.years} years`);
  const file = path.join(setting.scratch, `${name}.book`);
  const clock = movedClock();
  const arrivals = bigHerd(wishes);
  let batch: Arrival[] = [];
  let [entries, lastRecorded] = [0, 0 as Instant];
  let book: Book | undefined;
  const flush = (): void => {
    const last = batch.at(-1);
    if (last === undefined) return;
    lastRecorded = last.recordedAt;
    clock.set(lastRecorded);
    book ??= openBook(file, { clock, create: true, name });
    const receipts = book.record(batch.map(({ said }) => passed(said, lastRecorded)));
    const odd = receipts.find(({ outcome }) => outcome !== 'recorded');
    if (odd !== undefined) throw new Error(`the herd's entry ${odd.id} was ${odd.outcome}: ${odd.problem}`);
    entries += batch.length;
    batch = [];
  };
  for (const arrival of arrivals) {
    batch.push(arrival);
    if (batch.length === 1_000) flush();
  }
  flush();
  book?.close();
  const herd: HerdBook = {
    file,
    entries,
    lastRecorded,
    milking: nextMilkingOf(wishes),
    on: `${whole(wishes.cows)} cows, ${wishes.years} ${wishes.years === 1 ? 'year' : 'years'}, ${whole(entries)} entries`,
    open: () => openBook(file, { clock: { now: () => lastRecorded, fixed: true } }),
  };
  made.set(name, herd);
  return herd;
};

const passed = (said: Arrival['said'], now: Instant): Passed | TurnedAway =>
  readValue(said, { source: 'bench', author: 'bench', now });

/** The first entries of a herd as JSON Lines, and the time by which all were recorded. */
export const linesOf = (wishes: HerdWishes, most: number): { lines: string[]; now: Instant } => {
  const lines: string[] = [];
  let now = 0 as Instant;
  for (const { said, recordedAt } of bigHerd(wishes)) {
    lines.push(JSON.stringify(said));
    now = recordedAt;
    if (lines.length === most) break;
  }
  return { lines, now };
};

let files = 0;
/** A path in the scratch folder that nothing has. */
export const newFile = (setting: Setting, name: string): string => {
  files += 1;
  return path.join(setting.scratch, `${files}-${name}`);
};

/** Takes away a database and what SQLite and the book keep beside it. */
export const removeBook = (file: string): void => {
  for (const ending of ['', '-wal', '-shm', '.key']) fs.rmSync(`${file}${ending}`, { force: true });
};

/** Pieces of a list, in order. */
export const inBatches = <T>(list: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(list.length / size) }, (_, index) => list.slice(index * size, (index + 1) * size));
