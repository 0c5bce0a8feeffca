/**
 * The sheets of the next milking as they were last worked out, kept in a file beside a big book (`farm.book-sheets`), so
 * that a command or a server that starts need not read ten years first. The file is disposable: it counts only for the
 * very same log, the very same program, and as long as time alone changes nothing (`steadyUntil`); it is sealed with a key
 * that only the book's own holder has; and whatever is odd about it, it is as if it were not there.
 */
import crypto from 'node:crypto';
import fs from 'node:fs';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { type Book, changesOf } from '../events/book.ts';
import type { Milking } from '../projections/schedule.ts';
import { steadyUntil } from '../projections/steady.ts';
import type { Views } from '../projections/views.ts';
import { sha256 } from '../shared/fingerprint.ts';
import { instantText } from '../shared/instant.ts';
import { isKnowing, type Question, type Tonight, tonight } from './tonight.ts';

/** As much of an answer as paper needs. */
export type SheetsTonight = Pick<Tonight, 'views' | 'milking' | 'asOf' | 'position' | 'root'>;

/** Below this many entries reading them all is as quick. */
export const WORTH_KEEPING = 10_000;

/** As `tonight`, for whoever wants nothing but what goes on paper; from the file beside the book where that can be. */
export const sheetsTonight = (book: Book, question: Question = {}, least = WORTH_KEEPING): SheetsTonight => {
  const { milking = 'next', knownAt, position, asOf } = question;
  const isOfNow = knownAt === undefined && position === undefined && asOf === undefined;
  if (!isOfNow || isKnowing(book)) return tonight(book, question);
  const kept = keptSheets(book, milking);
  if (kept !== undefined) return kept;
  const answer = tonight(book, question);
  if (milking === 'next') keepSheets(book, answer, least);
  return answer;
};

const body = z.object({
  book: z.string(),
  changes: z.string(),
  position: z.number(),
  root: z.string(),
  asOf: z.number(),
  until: z.number(),
  milking: z.custom<Milking>((value) => typeof value === 'object' && value !== null),
  views: z.custom<Views>((value) => typeof value === 'object' && value !== null),
});

export const keptSheetsPath = (bookPath: string): string => `${bookPath}-sheets`;

/** The sheets in the file, where they are those of now; undefined where they are not or there is any doubt. */
export const keptSheets = (book: Book, milking: string): SheetsTonight | undefined => {
  let text: string;
  try {
    text = fs.readFileSync(keptSheetsPath(book.path), 'utf8');
  } catch {
    return undefined;
  }
  const end = text.indexOf('\n');
  const content = text.slice(end + 1);
  if (end < 0 || !isSealedWith(text.slice(0, end), sealOf(book, content))) return undefined;
  const read = body.safeParse(parsed(content));
  if (!read.success) return undefined;
  const { data } = read;
  const now = book.clock.now();
  if (data.book !== book.bookId || data.changes !== book.changes()) return undefined;
  if (now < data.asOf || now >= data.until) return undefined;
  if (milking !== 'next' && milking !== data.milking.id) return undefined;
  const { position, root } = data;
  return { views: { ...data.views, asOf: instantText(now) }, milking: data.milking, asOf: now, position, root };
};

/** Keeps an answer about the next milking for whoever asks next. A folder that can't be written is no trouble. */
export const keepSheets = (book: Book, answer: Tonight, least = WORTH_KEEPING): void => {
  const { known, milking, asOf, views, position, root } = answer;
  const { schedule } = known.farm;
  if (position < least || schedule === undefined) return;
  const until = steadyUntil(known, schedule, asOf);
  if (until <= asOf) return;
  const content = JSON.stringify({
    book: book.bookId,
    changes: changesOf(answer),
    position,
    root,
    asOf,
    until,
    milking,
    views,
  } satisfies z.input<typeof body>);
  const seal = sealOf(book, content);
  if (seal === undefined) return;
  const file = keptSheetsPath(book.path);
  const beside = `${file}-${process.pid}`;
  try {
    fs.writeFileSync(beside, `${seal}\n${content}`, { mode: 0o600 });
    fs.renameSync(beside, file);
  } catch {
    fs.rmSync(beside, { force: true });
  }
};

/** Undefined where the book has no key of its own: nobody could tell who wrote the file. Of a rehearsal anybody may. */
const sealOf = (book: Book, content: string): string | undefined => {
  const secret = book.rehearsal ? 'a rehearsal has no secrets' : book.secretFor('kept sheets');
  if (secret === undefined) return undefined;
  return crypto.createHmac('sha256', secret).update(`${programHash()}\n`).update(content).digest('hex');
};

const isSealedWith = (seal: string, wanted: string | undefined): boolean =>
  wanted !== undefined &&
  seal.length === wanted.length &&
  crypto.timingSafeEqual(Buffer.from(seal), Buffer.from(wanted));

const parsed = (content: string): unknown => {
  try {
    return JSON.parse(content);
  } catch {
    return undefined;
  }
};

const HOME = fileURLToPath(new URL('../', import.meta.url));
/** All that a sheet's rows can depend on besides the log. */
const GROUNDS = ['shared', 'events', 'projections', 'api/tonight.ts', 'package-lock.json'];

let hash: string | undefined;

/** Changes with every line of the program that bears on the rows, with Node and with the time-zone data. */
const programHash = (): string => {
  hash ??= sha256(
    [
      process.version,
      process.versions.tz ?? '',
      process.versions.icu ?? '',
      ...GROUNDS.flatMap((place) => filesAt(`${HOME}${place}`)).map(
        (file) => `${file} ${sha256(fs.readFileSync(file))}`,
      ),
    ].join('\n'),
  );
  return hash;
};

const filesAt = (place: string): string[] =>
  fs.statSync(place).isDirectory()
    ? fs
        .readdirSync(place, { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.ts'))
        .map((name) => `${place}/${name}`)
        .sort()
    : [place];
