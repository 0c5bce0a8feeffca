/** One row of the log: the stored text, its two hashes, and what is read from it to find it by. */
import { columnsOf } from './columns.ts';
import { leafHash } from './merkle.ts';
import type { Connection } from './tables.ts';

/** Writes one row, its hash and its columns with it; gives the leaf's hash. */
export const entryInserter = (db: Connection) => {
  const insert = db.prepare<[number, string, string, string, string, string | null, string | null]>(
    'insert into entries (position, entry, content, leaf, id, subject, strikes) values (?, ?, ?, ?, ?, ?, ?)',
  );
  return (position: number, text: string, content: string, said: Parameters<typeof columnsOf>[0]): string => {
    const leaf = leafHash(text);
    const { id, subject, strikes } = columnsOf(said);
    insert.run(position, text, content, leaf, id, subject, strikes);
    return leaf;
  };
};
