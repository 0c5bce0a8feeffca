/**
 * The whole book as one file that any program can read: gzipped JSON Lines. First a line on the book (its names and public
 * keys, its checkpoint), then what was refused, the papers, and every entry's stored text in order. Its keys, its devices and
 * its peers stay behind.
 */
import fs from 'node:fs';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { readHead } from './head.ts';
import { all, type Connection, sqlFor } from './tables.ts';
import { namesOf } from './verify-names.ts';
import { giveName, inASentence, mustBeFree, toDisk } from './whole-file.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const count = z.number().int().min(0);

export const archiveHeader = z.strictObject({
  archive: z.literal(1),
  /** Every name the file has gone by, oldest first, each with its public key and the position after which it held. */
  books: z.array(z.strictObject({ book: z.string(), key: hash, after: count })).min(1),
  farm: z.string().nullable(),
  /** A rehearsal's clock in milliseconds; null for a real book. */
  rehearsal: z.number().int().nullable(),
  position: count,
  root: hash,
  /** The latest recorded time, in milliseconds. */
  recorded: z.number().int(),
  /** The chain value of the last refusal; empty where there is none. */
  chain: z.string(),
  /** The last signed checkpoint; empty where there is none. */
  checkpoint: z.string(),
});
export type ArchiveHeader = z.infer<typeof archiveHeader>;

const text = z.string();
export const archiveLine = z.union([
  z.strictObject({
    refused: z.strictObject({
      number: count,
      key: text,
      hash,
      text,
      problem: text,
      pointer: text.nullable(),
      id: text.nullable(),
      cows: text,
      mentions: text,
      recordedtime: text,
      after: count,
      door: text.nullable(),
      chain: hash,
    }),
  }),
  z.strictObject({ paper: z.base64() }),
  z.strictObject({ entry: text }),
]);
export type ArchiveLine = z.infer<typeof archiveLine>;

const PAGE = 1_000;

/** Streams one moment of the book into a file that is not there yet, while others go on writing. */
export const writeArchive = async (book: string, file: string): Promise<{ position: number; root: string }> => {
  mustBeFree([file], 'an archive', 'name another file');
  const unfinished = `${file}.unfinished`;
  fs.rmSync(unfinished, { force: true });
  const db = new Database(book, { readonly: true, fileMustExist: true });
  try {
    db.exec('begin');
    const header = headerOf(db);
    await pipeline(Readable.from(linesOf(db, header)), createGzip(), fs.createWriteStream(unfinished, { flags: 'wx' }));
    toDisk(unfinished);
    giveName(unfinished, file);
    return { position: header.position, root: header.root };
  } catch (error) {
    throw inASentence(error, `The archive ${file}`);
  } finally {
    db.close();
    fs.rmSync(unfinished, { force: true });
  }
};

const headerOf = (db: Connection): ArchiveHeader => {
  const { size: position, peaks: _, ...head } = readHead(db);
  const { farm, rehearsal, root, recorded, chain, checkpoint } = head;
  return { archive: 1, books: namesOf(db), farm, rehearsal, position, root, recorded, chain, checkpoint };
};

function* linesOf(db: Connection, header: ArchiveHeader): Iterable<string> {
  const line = (value: ArchiveHeader | ArchiveLine): string => `${JSON.stringify(value)}\n`;
  yield line(header);
  for (const refused of all(db, sqlFor.selectFrom('set_aside').selectAll().orderBy('number'))) yield line({ refused });
  const papers = db.prepare<[number], Uint8Array>('select bytes from papers where number = ?').pluck();
  for (let number = 1; ; number += 1) {
    const bytes = papers.get(number);
    if (bytes === undefined) break;
    yield line({ paper: Buffer.from(bytes).toString('base64') });
  }
  // Page by page: an open cursor would keep the connection from everything else while the disk is slow.
  const page = db.prepare<[number, number], { position: number; entry: string }>(
    'select position, entry from entries where position > ? order by position limit ?',
  );
  for (let after = 0; ; ) {
    const rows = page.all(after, PAGE);
    for (const { entry } of rows) yield line({ entry });
    const last = rows.at(-1);
    if (last === undefined) break;
    after = last.position;
  }
}
