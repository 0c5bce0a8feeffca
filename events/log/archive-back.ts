/**
 * An archive brought back: the same sequence, recorded times and root in a new file, verified like any book before it gets its
 * name, and from there it goes on as a new book. What can't be brought back whole is not brought back at all.
 */
import fs from 'node:fs';
import path from 'node:path';
import readline from 'node:readline';
import { createGunzip } from 'node:zlib';
import { z } from 'zod';
import { type Clock, fixedClock } from '../../shared/clock.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import type { Instant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { type ArchiveHeader, type ArchiveLine, archiveHeader, archiveLine } from './archive.ts';
import { goOnFrom, removeBook } from './backup.ts';
import { canonicalText } from './canonical-write.ts';
import { cowEntriesWriter } from './cow-entries.ts';
import { FORMATS } from './formats.ts';
import type { WentOn } from './go-on.ts';
import { entryInserter } from './insert-entry.ts';
import { EMPTY_RANGE, extend, rootOf } from './merkle.ts';
import { openFile } from './open-file.ts';
import { keyPathOf } from './signing-key.ts';
import { type Connection, run, sqlFor } from './tables.ts';
import { mustBeFree } from './whole-file.ts';

export interface BroughtBack extends WentOn {
  readonly root: string;
}

export const readArchive = async (file: string, to: string, clock: Clock): Promise<BroughtBack> => {
  mustBeFree([to, keyPathOf(to)], 'an archive', 'name another file with --book');
  const unfinished = `${to}.unfinished`;
  const lines = linesOf(file);
  let db: Connection | undefined;
  try {
    const first = archiveHeader.safeParse(parsed((await lines.next()).value));
    if (!first.success) throw new UserProblem(`${file} is not an archive of a book; check the name`);
    const header = first.data;
    if (header.rehearsal === null && clock.fixed) {
      throw new UserProblem(
        `${file} is of a book that keeps real time, so its clock can't be fixed; leave --now out`,
        2,
      );
    }
    fs.mkdirSync(path.dirname(path.resolve(to)), { recursive: true });
    removeBook(unfinished);
    db = openFile(unfinished, {
      create: true,
      readOnly: false,
      waitMilliseconds: 3_000,
      formats: FORMATS,
      begin: (made) => begin(made, header),
    });
    await fill(db, lines, header);
    db.close();
    const before = header.rehearsal === null || clock.fixed ? clock : fixedClock(header.rehearsal as Instant);
    return { ...goOnFrom(unfinished, to, before), root: header.root };
  } catch (error) {
    if (error instanceof UserProblem) throw new UserProblem(error.message.replaceAll(unfinished, file), error.exitCode);
    throw new UserProblem(
      `${file} can't be read as an archive to its end (${error instanceof Error ? error.message : 'unknown'}); nothing was made of it`,
    );
  } finally {
    if (db?.open === true) db.close();
    removeBook(unfinished);
    await lines.return(undefined);
  }
};

/** Line by line; what is wrong with the file or its compression comes out of the reading. */
async function* linesOf(file: string): AsyncGenerator<string, undefined, undefined> {
  const bytes = fs.createReadStream(file);
  const unzipped = createGunzip();
  bytes.on('error', (error) => unzipped.destroy(error));
  let failed: Error | undefined;
  unzipped.on('error', (error) => {
    failed = error;
  });
  for await (const line of readline.createInterface({
    input: bytes.pipe(unzipped),
    crlfDelay: Number.POSITIVE_INFINITY,
  })) {
    if (failed !== undefined) break;
    yield line;
  }
  bytes.destroy();
  if (failed !== undefined) throw failed;
  return undefined;
}

const parsed = (text: string | undefined): unknown => {
  try {
    return JSON.parse(text ?? '');
  } catch {
    return undefined;
  }
};

/** The names and keys of the book it was, and a head that the entries will fill. No private key comes with it. */
const begin = (db: Connection, header: ArchiveHeader): void => {
  for (const [index, { book, key, after }] of header.books.entries())
    run(db, sqlFor.insertInto('books').values({ number: index + 1, book, key, after }));
  run(
    db,
    sqlFor.insertInto('head').values({
      one: 1,
      size: 0,
      peaks: '[]',
      root: rootOf(EMPTY_RANGE),
      recorded: header.recorded,
      chain: '',
      checkpoint: '',
      farm: header.farm,
      rehearsal: header.rehearsal,
    }),
  );
};

/** One transaction for all of it. */
const fill = async (db: Connection, lines: AsyncIterable<string>, header: ArchiveHeader): Promise<void> => {
  const add = adder(db);
  let position = 0;
  db.exec('begin immediate');
  for await (const text of lines) {
    const line = archiveLine.safeParse(parsed(text));
    if (!line.success) {
      throw new UserProblem(
        `The archive has a line that is none of its kinds, after entry ${position}; it was changed, so nothing was made of it`,
      );
    }
    position = add(line.data);
  }
  const range = extend(
    EMPTY_RANGE,
    db.prepare<[], string>('select leaf from entries order by position').pluck().iterate(),
  );
  const root = rootOf(range);
  if (position !== header.position || root !== header.root) {
    throw new UserProblem(
      `The archive does not hold what it says: ${position} entries of ${header.position}, or another root; it was changed or cut, so nothing was made of it`,
    );
  }
  cowEntriesWriter(db)(position, true);
  const { chain, checkpoint } = header;
  run(
    db,
    sqlFor.updateTable('head').set({ size: position, peaks: JSON.stringify(range.peaks), root, chain, checkpoint }),
  );
  db.exec('commit');
};

const object = z.record(z.string(), z.json());

/** Adds a line to the book; gives how many entries there are by then. */
const adder = (db: Connection): ((line: ArchiveLine) => number) => {
  const insert = entryInserter(db);
  let [position, paper] = [0, 0];
  return (line) => {
    if ('refused' in line) run(db, sqlFor.insertInto('set_aside').values(line.refused));
    else if ('paper' in line) {
      const bytes = Buffer.from(line.paper, 'base64');
      paper += 1;
      run(db, sqlFor.insertInto('papers').values({ number: paper, hash: sha256(bytes), bytes }));
    } else {
      const { sequence: _, recordedtime: __, via: ___, ...said } = object.parse(parsed(line.entry));
      position += 1;
      insert(position, line.entry, sha256(canonicalText(said)), said);
    }
    return position;
  };
};
