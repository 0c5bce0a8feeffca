/** What a book shows to somebody who knew it before, and how a book without a farm comes to one. */
import { UserProblem } from '../../shared/refusal.ts';
import { readHead, writeHead } from './head.ts';
import type { Connection } from './tables.ts';
import { pathBetween, rootOfFirst } from './tiles.ts';

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
    if (oldSize < 0 || oldSize > size || size > readHead(db).size) return undefined;
    return {
      oldSize,
      oldRoot: rootOfFirst(db, oldSize),
      size,
      root: rootOfFirst(db, size),
      path: pathBetween(db, oldSize, size),
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
