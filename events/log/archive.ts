/**
 * The whole book as one file that any program can read: gzipped JSON Lines with a header, what was refused, the papers, and
 * every entry's stored text in order. Brought back, it has the same sequence, times and root, and goes on as a new book.
 */
import fs from 'node:fs';
import readline from 'node:readline';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGunzip, createGzip } from 'node:zlib';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { type Clock, fixedClock } from '../../shared/clock.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { type Instant, mustBeInstant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { openBook } from '../book.ts';
import { currentBook, readHead } from './head.ts';
import { type CompactRange, EMPTY_RANGE, extend, leafHash, rootOf } from './merkle.ts';
import { keyPathOf } from './signing-key.ts';
import { all, type Connection, run, sqlFor, type Tables } from './tables.ts';

const header = z.strictObject({
  archive: z.literal(1),
  book: z.string(),
  farm: z.string().nullable(),
  rehearsal: z.number().nullable(),
  position: z.number().int().min(0),
  root: z.string(),
  checkpoint: z.string(),
});
const line = z.union([
  z.strictObject({ refused: z.record(z.string(), z.union([z.string(), z.number(), z.null()])) }),
  z.strictObject({ paper: z.string() }),
  z.strictObject({ entry: z.string() }),
]);

const PAGE = 1_000;

/** Writes the archive; it gets its name when it is whole, and never takes another file's place. Streams. */
export const writeArchive = async (book: string, file: string): Promise<{ position: number; root: string }> => {
  if (fs.existsSync(file))
    throw new UserProblem(`${file} is there already; an archive never overwrites, name another file`);
  const db = new Database(book, { readonly: true, fileMustExist: true });
  const unfinished = `${file}.unfinished`;
  try {
    db.exec('begin');
    const head = readHead(db);
    const first = {
      archive: 1,
      book: currentBook(db).book,
      farm: head.farm,
      rehearsal: head.rehearsal,
      position: head.size,
      root: head.root,
      checkpoint: head.checkpoint,
    };
    await pipeline(Readable.from(linesOf(db, first)), createGzip(), fs.createWriteStream(unfinished, { flags: 'wx' }));
    fs.linkSync(unfinished, file);
    return { position: head.size, root: head.root };
  } catch (error) {
    if (error instanceof UserProblem) throw error;
    const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
    throw new UserProblem(
      `The archive ${file} was not finished${code}; check the folder and the space in it, then do it again`,
    );
  } finally {
    db.close();
    fs.rmSync(unfinished, { force: true });
  }
};

function* linesOf(db: Connection, first: unknown): Iterable<string> {
  const text = (value: unknown): string => `${JSON.stringify(value)}\n`;
  yield text(first);
  for (const row of all(db, sqlFor.selectFrom('set_aside').selectAll().orderBy('number'))) yield text({ refused: row });
  const papers = db.prepare<[number], Uint8Array>('select bytes from papers where number = ?').pluck();
  for (let number = 1; ; number += 1) {
    const bytes = papers.get(number);
    if (bytes === undefined) break;
    yield text({ paper: Buffer.from(bytes).toString('base64') });
  }
  const page = db.prepare<[number, number], { position: number; entry: string }>(
    'select position, entry from entries where position > ? order by position limit ?',
  );
  for (let after = 0; ; ) {
    const rows = page.all(after, PAGE);
    for (const row of rows) yield text({ entry: row.entry });
    const last = rows.at(-1);
    if (last === undefined) break;
    after = last.position;
  }
}

/** Brings an archive back to a place where nothing is, checking the root on the way; then it goes on as a new book. */
export const readArchive = async (
  file: string,
  to: string,
  clock: Clock,
): Promise<{ bookId: string; position: number; root: string }> => {
  for (const place of [to, keyPathOf(to)]) {
    if (fs.existsSync(place))
      throw new UserProblem(`${place} is there already; an archive never overwrites, name another file with --book`);
  }
  const lines = readline.createInterface({
    input: fs.createReadStream(file).pipe(createGunzip()),
    crlfDelay: Number.POSITIVE_INFINITY,
  });
  let began = false;
  try {
    const input = lines[Symbol.asyncIterator]();
    const said = header.safeParse(parsed((await input.next()).value));
    if (!said.success) throw new UserProblem(`${file} is not an archive of a book; check the name`);
    const begin = said.data.rehearsal === null ? clock : fixedClock(said.data.rehearsal as Instant);
    began = true;
    openBook(to, { clock: begin, create: true, name: `archive of ${said.data.book}` }).close();
    await fill(to, { [Symbol.asyncIterator]: () => input }, said.data);
    const book = openBook(to, { clock: begin });
    try {
      book.recordOwn('book-continued', { book: said.data.book, position: said.data.position, root: said.data.root });
      return { bookId: book.bookId, position: said.data.position, root: said.data.root };
    } finally {
      book.close();
    }
  } catch (error) {
    if (began) for (const end of ['', '-wal', '-shm', '.key']) fs.rmSync(to + end, { force: true });
    if (error instanceof UserProblem) throw error;
    throw new UserProblem(
      `${file} cannot be read as an archive (${error instanceof Error ? error.message : 'unknown'}); nothing was kept of it`,
    );
  } finally {
    lines.close();
  }
};

const parsed = (text: string | undefined): unknown => {
  try {
    return JSON.parse(text ?? '');
  } catch {
    return undefined;
  }
};

const fill = async (to: string, lines: AsyncIterable<string>, said: z.infer<typeof header>): Promise<void> => {
  const db = new Database(to, { fileMustExist: true });
  try {
    const insert = db.prepare('insert into entries (position, entry, content, leaf) values (?, ?, ?, ?)');
    let range: CompactRange = EMPTY_RANGE;
    let position = 0;
    let paper = 0;
    let recorded = 0;
    let chain = '';
    // One transaction for all of it: half an archive is no book.
    db.exec('begin immediate');
    for await (const text of lines) {
      if (text === '') continue;
      const each = line.safeParse(parsed(text));
      if (!each.success)
        throw new UserProblem(
          `The archive has a line that is none of its kinds, after entry ${position}; it was changed or cut`,
        );
      if ('refused' in each.data) {
        const row = each.data.refused as unknown as Tables['set_aside'];
        run(db, sqlFor.insertInto('set_aside').values(row));
        chain = row.chain;
      } else if ('paper' in each.data) {
        const bytes = Buffer.from(each.data.paper, 'base64');
        paper += 1;
        run(db, sqlFor.insertInto('papers').values({ number: paper, hash: sha256(bytes), bytes }));
      } else {
        const { entry } = each.data;
        const { sequence: _, recordedtime, via: __, ...half } = JSON.parse(entry) as Record<string, unknown>;
        const leaf = leafHash(entry);
        position += 1;
        insert.run(position, entry, sha256(canonicalJson(half)), leaf);
        range = extend(range, [leaf]);
        recorded = Math.max(recorded, mustBeInstant(String(recordedtime)));
      }
    }
    if (position !== said.position || rootOf(range) !== said.root) {
      throw new UserProblem(
        `The archive does not hold what it says: ${position} entries with another root; it was changed or cut, and nothing was kept of it`,
      );
    }
    run(
      db,
      sqlFor.updateTable('head').set({
        size: position,
        peaks: JSON.stringify(range.peaks),
        root: said.root,
        recorded: Math.max(recorded, readHead(db).recorded),
        chain,
        checkpoint: '',
        farm: said.farm,
      }),
    );
    db.exec('commit');
  } catch (error) {
    if (db.inTransaction) db.exec('rollback');
    throw error;
  } finally {
    db.close();
  }
};
