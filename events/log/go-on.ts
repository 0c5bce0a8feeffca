/**
 * How a copied or restored file, or one whose key was lost, goes on: under a new name, with a key of its own. One
 * transaction holds the name, the new public key and the entry `book-continued`, which says both and from where.
 */
import fs from 'node:fs';
import { v7 as newUuid } from 'uuid';
import type { Clock } from '../../shared/clock.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { appender } from './append.ts';
import { rehearsalId } from './begin.ts';
import { currentBook, originOf, readHead } from './head.ts';
import { verifierKey } from './note.ts';
import { ownEntry } from './own-entry.ts';
import { keyFromSeed, keyPathOf, newKey, readKey, writeKey } from './signing-key.ts';
import { type Connection, run, sqlFor } from './tables.ts';

/** The book that a file went on from, and the position from which it has another name. */
export interface WentOn {
  readonly from: string;
  readonly position: number;
  readonly bookId: string;
}

/** Gives nothing where the file needs no new name after all: another program was faster. */
export const goOn = (db: Connection, path: string, clock: Clock): WentOn | undefined =>
  db
    .transaction((): WentOn | undefined => {
      const { book: from, key: oldKey } = currentBook(db);
      const held = readKey(path, oldKey);
      if ('key' in held) return undefined;
      const head = readHead(db);
      const rehearsal = head.rehearsal !== null;
      const bookId = rehearsal ? rehearsalId(`${from} goes on from ${head.size} at ${path}`) : newUuid();
      const key = rehearsal ? keyFromSeed(sha256(`rehearsal ${bookId}`)) : newKey();
      const last = db.prepare<[], number>('select max(number) from books').pluck().get() ?? 0;
      run(
        db,
        sqlFor.insertInto('books').values({ number: last + 1, book: bookId, key: key.publicKey, after: head.size }),
      );
      const data = {
        book: from,
        position: head.size,
        root: head.root,
        newKey: verifierKey(originOf(bookId), Buffer.from(key.publicKey, 'hex')),
      };
      appender(db, { clock, bookId, key, newFarmId: () => bookId }).recordMade(
        ownEntry({ bookId, rehearsal, clock }, 'book-continued', data),
      );
      // The key that a copy took along belongs to the book it was copied from; it is put aside, not thrown away.
      if (held.because === 'copied') fs.renameSync(keyPathOf(path), `${keyPathOf(path)}-of-${from}`);
      writeKey(path, key, rehearsal ? '' : undefined);
      return { from, position: head.size, bookId };
    })
    .immediate();
