/**
 * Where each cow's entries stand. A cow's entries lie all over the log, so a list of them that is kept up with every batch
 * writes a page of the disk for nearly every entry. This one is brought up to date by thousands of entries at a time, in
 * the order of the cows; what is younger than that is looked for in the log itself, which is a few milliseconds' reading.
 */
import crypto from 'node:crypto';
import { sha256 } from '../../shared/fingerprint.ts';
import type { Connection } from './tables.ts';
import type { Tell } from './verify-roots.ts';

/** So many entries may be missing from the list. */
const MOST_MISSING = 16_384;

/** Brings the list up to `size` entries, where it is far behind or `now` is asked for. Inside the caller's transaction. */
export const cowEntriesWriter = (db: Connection) => {
  const upTo = db.prepare<[], number>('select position from cow_entries_up_to').pluck();
  const add = db.prepare<[number, number]>(
    `insert into cow_entries (subject, position)
     select subject, position from entries where position > ? and position <= ? and subject is not null
     order by subject, position`,
  );
  const moved = db.prepare<[number]>('update cow_entries_up_to set position = ?');
  return (size: number, now = false): void => {
    const before = upTo.get() ?? 0;
    if (size <= before || (!now && size - before < MOST_MISSING)) return;
    add.run(before, size);
    moved.run(size);
  };
};

/** Positions of the entries about the cows in a JSON array, bound as the parameter `subjects`. */
export const POSITIONS_OF_COWS = `select position from cow_entries where subject in (select value from json_each(@subjects))
  union all
  select position from entries
  where position > (select position from cow_entries_up_to) and subject in (select value from json_each(@subjects))`;

/** What a check of the list starts from; with the same start, parts of one log can be summed up apart. */
export interface CowStart {
  /** How far the list goes. */
  readonly upTo: number;
  /** Drawn for this check alone: who does not know it can't make a change that comes to the same sums. */
  readonly secret: string;
}

export const cowStart = (db: Connection): CowStart => ({
  upTo: db.prepare<[], number>('select position from cow_entries_up_to').pluck().get() ?? 0,
  secret: crypto.randomBytes(32).toString('hex'),
});

/** What some cows' positions come to; the sums of parts add up to those of the whole. */
export type CowSums = readonly [count: number, one: number, other: number];

/**
 * Holds the list against what the entries say, without keeping either in memory: both are summed up under numbers that
 * follow from the secret, so that no change could have been made to come to the same sums.
 */
export const cowEntriesCheck = (db: Connection, { upTo, secret }: CowStart, tell: Tell, draws = cowDraws(secret)) => {
  const [said, listed] = [sums(draws), sums(draws)];
  return {
    entry: (subject: string | null, position: number): void => {
      if (subject !== null && position <= upTo) said.add(subject, position);
    },
    /** What was summed up elsewhere. */
    join: said.join,
    sums: said.all,
    end: (): void => {
      const page = db
        .prepare<[string, number], [subject: string, position: number]>(
          `select subject, position from cow_entries where (subject, position) > (?, ?)
           order by subject, position limit ${PAGE}`,
        )
        .raw();
      let last: readonly [string, number] = ['', Number.MIN_SAFE_INTEGER];
      for (let full = true; full; ) {
        const rows = page.all(...last);
        for (const [subject, position] of rows) listed.add(subject, position);
        last = rows.at(-1) ?? last;
        full = rows.length === PAGE;
      }
      if (listed.all().join(' ') !== said.all().join(' ')) {
        tell(
          null,
          'the list of where each cow’s entries stand is not what the entries say: some would be looked for in vain',
        );
      }
    },
  };
};

const PAGE = 5_000;

/** A number for each cow, worked out when she is first met. */
export const cowDraws = (secret: string): ((subject: string) => number) => {
  const known = new Map<string, number>();
  return (subject) => {
    const have = known.get(subject);
    if (have !== undefined) return have;
    const draw = Number.parseInt(sha256(`${secret} ${subject}`).slice(0, 8), 16) | 0;
    known.set(subject, draw);
    return draw;
  };
};

const sums = (draw: (subject: string) => number) => {
  let [count, one, other] = [0, 0, 0];
  return {
    add: (subject: string, position: number): void => {
      const number = draw(subject);
      const mixed = scattered(number ^ Math.imul(position, 0x9e3779b1));
      count += 1;
      one = (one + mixed) | 0;
      other = (other + scattered(mixed ^ number)) | 0;
    },
    join: (part: CowSums): void => {
      count += part[0];
      one = (one + part[1]) | 0;
      other = (other + part[2]) | 0;
    },
    all: (): CowSums => [count, one, other],
  };
};

/** Every bit of the number bears on every bit of the answer. */
const scattered = (number: number): number => {
  let mixed = Math.imul(number ^ (number >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
};
