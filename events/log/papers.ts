/** Printed papers as they went to the wall, kept by the SHA-256 of their bytes; the same paper is kept once. */
import { sha256 } from '../../shared/fingerprint.ts';
import { type Connection, first, run, sqlFor } from './tables.ts';

export const keepPaper = (db: Connection, bytes: Uint8Array): string =>
  db
    .transaction(() => {
      const hash = sha256(bytes);
      if (paperOf(db, hash) !== undefined) return hash;
      const last = first(
        db,
        sqlFor.selectFrom('papers').select((row) => row.fn.max('number').as('number')),
      );
      run(db, sqlFor.insertInto('papers').values({ number: (last?.number ?? 0) + 1, hash, bytes }));
      return hash;
    })
    .immediate();

export const paperOf = (db: Connection, hash: string): Uint8Array | undefined =>
  first(db, sqlFor.selectFrom('papers').select('bytes').where('hash', '=', hash))?.bytes;
