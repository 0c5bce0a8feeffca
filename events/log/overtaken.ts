/** Whether somebody else was quicker: two programs on one book may issue the same milking in the same second. */
import type { DataOf } from '../kinds.ts';
import { type Connection, prepared } from './tables.ts';

/** True where a set for that milking stands behind the position that this one was worked out from. Inside the transaction that records it. */
export const isOvertaken = (db: Connection, { milking, position }: DataOf<'sheet-issued'>): boolean =>
  prepared(db, OTHER_SET).get(position, milking) !== undefined;

const OTHER_SET = `select 1 from entries
  where position > ? and json_extract(entry, '$.type') = 'sheet-issued' and json_extract(entry, '$.data.milking') = ?
  limit 1`;
