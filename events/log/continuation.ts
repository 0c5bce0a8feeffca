/** What a book shows to somebody who knew it before, and how a book without a farm comes to one. */
import { UserProblem } from '../../shared/refusal.ts';
import { readHead, writeHead } from './head.ts';
import { consistencyProof, EMPTY_RANGE, extend, rootOf } from './merkle.ts';
import type { Connection } from './tables.ts';

export interface Continuation {
  readonly oldSize: number;
  readonly oldRoot: string;
  readonly size: number;
  readonly root: string;
  /** RFC 6962 consistency proof from the one to the other. */
  readonly path: readonly string[];
}

/** Shows that the log of `size` entries continues the one of `oldSize`. Undefined where the log is not that long. */
export const continuationOf = (db: Connection, oldSize: number, size: number): Continuation | undefined =>
  db.transaction((): Continuation | undefined => {
    if (oldSize > size || size > readHead(db).size) return undefined;
    const leaves = db
      .prepare<[number], string>('select leaf from entries where position <= ? order by position')
      .pluck()
      .all(size);
    return {
      oldSize,
      oldRoot: rootOf(extend(EMPTY_RANGE, leaves.slice(0, oldSize))),
      size,
      root: rootOf(extend(EMPTY_RANGE, leaves)),
      path: consistencyProof(leaves, oldSize),
    };
  })();

/** A book without a farm takes another's by its first sync. One that has a farm keeps it for ever. */
export const adoptFarm = (db: Connection, farm: string): void =>
  db
    .transaction(() => {
      const head = readHead(db);
      if (head.farm === farm) return;
      if (head.farm !== null) throw new UserProblem('This book has a farm already and stays with it');
      writeHead(db, { ...head, farm });
    })
    .immediate();
