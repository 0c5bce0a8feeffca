/**
 * What a new book is born with: its id, its key, an empty tree. A rehearsal (a book made with a fixed clock) has all
 * of it worked out from that clock and a name, so that the demo is the same bytes on any day. Its key is therefore
 * known to everybody: a rehearsal proves nothing, and says REHEARSAL on every sheet.
 */
import { v7 as newUuid, v5 as uuidFromName } from 'uuid';
import type { Clock } from '../../shared/clock.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { instantText } from '../../shared/instant.ts';
import { signedCheckpoint } from './head.ts';
import { EMPTY_RANGE, rootOf } from './merkle.ts';
import { keyFromSeed, newKey, writeKey } from './signing-key.ts';
import { type Connection, run, sqlFor } from './tables.ts';

/** Name space of a rehearsal's ids; made once for Byrebook. */
const REHEARSAL_SPACE = '5d0b3a52-5c6e-4d0c-9d43-0f5a2f6f8b11';

export const beginBook = (db: Connection, path: string, clock: Clock, name: string): void => {
  const now = clock.now();
  const book = clock.fixed ? rehearsalId(`${name} ${instantText(now)}`) : newUuid();
  const key = clock.fixed ? keyFromSeed(sha256(`rehearsal ${book}`)) : newKey();
  const root = rootOf(EMPTY_RANGE);
  run(db, sqlFor.insertInto('books').values({ number: 1, book, key: key.publicKey, after: 0 }));
  run(
    db,
    sqlFor.insertInto('head').values({
      one: 1,
      size: 0,
      peaks: '[]',
      root,
      recorded: now,
      chain: '',
      checkpoint: signedCheckpoint(book, 0, root, key),
      farm: null,
      rehearsal: clock.fixed ? now : null,
    }),
  );
  writeKey(path, key, clock.fixed ? '' : undefined);
};

/** An id worked out from a name, for rehearsals alone. */
export const rehearsalId = (name: string): string => uuidFromName(name, REHEARSAL_SPACE);

/** Where real books draw a new id, a rehearsal works it out from `name`. */
export const idFor = (rehearsal: boolean, name: string): string => (rehearsal ? rehearsalId(name) : newUuid());
