/**
 * How much of what is on the disk already may wait in the write-ahead log (`<book>-wal`) before it is moved into the book.
 * Nothing hangs on it but speed and the size of that file: every commit is on the disk either way.
 */
import type { Connection } from './tables.ts';

/** Entries at once from which on a batch is a big one. */
const MANY = 100;
/**
 * In pages of 4 KB. Big batches come to the same pages of the indexes again and again, so what was changed many times is
 * moved once: the file grows to some 64 MB, and a book that was cut off then opens some hundredths of a second later.
 * Small commits wait for little but the disk, and a file that gets longer makes it write twice: within 4 MB they soon go over
 * what was moved already. SQLite takes the file away when the last program closes the book.
 */
const ROOM = { many: 16_000, few: 1_000 } as const;

/** To be told the size of each batch before its transaction begins. */
export const walRoom = (db: Connection): ((entries: number) => void) => {
  let room: number | undefined;
  return (entries) => {
    const wanted = entries >= MANY ? ROOM.many : ROOM.few;
    if (wanted === room) return;
    room = wanted;
    db.pragma(`wal_autocheckpoint = ${wanted}`);
  };
};
