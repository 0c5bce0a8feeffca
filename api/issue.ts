/**
 * Issuing: the sheets for a milking go to the wall, and the book keeps what they said: rows, hashes, and the very bytes
 * of the paper. The same rows twice are one issue; a changed one says which set it replaces.
 */
import type { Book } from '../events/book.ts';
import type { EntryOf } from '../events/entry.ts';
import { type PaperMarks, PRINTED_NAMES, type PrintedName, renderSheet } from '../print/sheets.ts';
import { SHEET_NAMES, type Views } from '../projections/views.ts';
import { canonicalJson, sha256 } from '../shared/fingerprint.ts';
import { instantText } from '../shared/instant.ts';
import { sheetRef } from '../shared/sheet-ref.ts';
import { type Question, type Tonight, tonight } from './tonight.ts';
import { PROGRAM, TIME_ZONE_DATA } from './version.ts';

export type IssuedSet = EntryOf<'sheet-issued'>;

export interface Paper {
  readonly sheet: PrintedName;
  readonly bytes: Uint8Array;
}

export interface Issued {
  readonly ref: string;
  readonly papers: readonly Paper[];
  /** False where the same rows were issued for this milking before: its paper is given back, nothing is recorded. */
  readonly isNew: boolean;
  readonly replaces: string | null;
  readonly position: number;
}

/** The rows of a sheet as they are kept: no words. */
export const contentOf = (views: Views, sheet: PrintedName): unknown =>
  sheet === 'office' ? { alerts: views.alerts, doubts: views.doubts } : views.sheets[sheet];

/** What the paper says of itself. */
export const marksOf = (
  book: Book,
  tonight: Pick<Tonight, 'position' | 'root'>,
  ref: string | null,
  replaces?: string,
): PaperMarks => ({
  ref,
  bookId: book.bookId,
  position: tonight.position,
  root: tonight.root,
  printedAt: book.clock.now(),
  rehearsal: book.rehearsal,
  // The checkpoint is of the head; a set printed from an earlier position has no signed one of its own.
  checkpoint: book.head().position === tonight.position ? book.checkpoint() : null,
  ...(replaces === undefined ? {} : { replaces }),
});

export const drawAll = async (
  views: Views,
  marks: PaperMarks,
  sheets: readonly PrintedName[] = PRINTED_NAMES,
): Promise<Paper[]> => {
  const papers: Paper[] = [];
  for (const sheet of sheets) papers.push({ sheet, bytes: await renderSheet(sheet, views, marks) });
  return papers;
};

/** The set that this book wrote down last for a milking. By position: a clock set back would make an older one look newer. */
export const lastSet = (issued: readonly IssuedSet[], milking: string): IssuedSet | undefined =>
  issued
    .filter((each) => each.data.milking === milking)
    .reduce<IssuedSet | undefined>(
      (last, each) => (last === undefined || each.position > last.position ? each : last),
      undefined,
    );

/** The papers of an issued set; undefined where this book has not all of them, because another one printed them. */
export const keptPapers = (book: Book, set: IssuedSet): Paper[] | undefined => {
  const papers = set.data.sheets.flatMap(({ sheet, pdfHash }): Paper[] => {
    const bytes = book.paper(pdfHash);
    return bytes === undefined || !isPrinted(sheet) ? [] : [{ sheet, bytes }];
  });
  return papers.length === set.data.sheets.length ? papers : undefined;
};

/** `answer` is what the set says; it is asked for again as long as another program on this book is quicker. */
export const issue = async (
  book: Book,
  question: Pick<Question, 'milking'> = {},
): Promise<{ issued: Issued; answer: Tonight }> => {
  for (;;) {
    const asked = tonight(book, question);
    const answer = { ...asked, views: saidHere(asked.views, asked.milking.id) };
    const issued = await issueKnown(book, answer);
    if (issued !== undefined) return { issued, answer };
  }
};

/** Undefined where a set was issued since that was known. */
const issueKnown = async (book: Book, tonight: Tonight): Promise<Issued | undefined> => {
  const { views, known, milking } = tonight;
  const before = lastSet(known.farm.issued, milking.id);
  if (before !== undefined && saysTheSame(views, before)) {
    const papers = keptPapers(book, before);
    if (papers !== undefined) {
      return { ref: before.data.ref, papers, isNew: false, replaces: null, position: before.position };
    }
  }
  const ref = sheetRef(sha256(`${book.bookId} ${milking.id} ${tonight.position} ${tonight.root}`));
  const replaces = before?.data.ref;
  const papers = await drawAll(views, marksOf(book, tonight, ref, replaces));
  for (const { bytes } of papers) book.keepPaper(bytes);
  const recorded = book.recordSet({
    ref,
    book: book.bookId,
    milking: milking.id,
    position: tonight.position,
    root: tonight.root,
    sheets: papers.map(({ sheet, bytes }) => {
      const content = contentOf(views, sheet) as never;
      return { sheet, content, contentHash: sha256(canonicalJson(content)), pdfHash: sha256(bytes) };
    }),
    program: PROGRAM,
    timeZoneData: TIME_ZONE_DATA,
    asOf: instantText(tonight.asOf),
  });
  if (recorded === undefined) return undefined;
  return { ref, papers, isNew: true, replaces: replaces ?? null, position: recorded.position };
};

/** An alert that the sheets of this milking are to be issued again asks for nothing more than to take the old ones down. */
const saidHere = (views: Views, milking: string): Views => ({
  ...views,
  alerts: views.alerts.map((alert) => {
    const { because } = alert;
    return because.key === 'alert.late-news' && because.values.milking === milking && because.values.phase === 'before'
      ? { ...alert, because: { ...because, values: { ...because.values, saidHere: true } } }
      : alert;
  }),
});

const isPrinted = (name: string): name is PrintedName => (PRINTED_NAMES as readonly string[]).includes(name);

/** Rows alike but for what compares them with the sheet before: NEW, bands off, came and went. */
export const saysTheSame = (views: Views, before: IssuedSet): boolean =>
  SHEET_NAMES.every((sheet) => {
    const stored = before.data.sheets.find((each) => each.sheet === sheet);
    return stored !== undefined && lasting(sheet, stored.content) === lasting(sheet, views.sheets[sheet]);
  });

const lasting = (sheet: string, content: unknown): string => {
  const dropped: Record<string, ReadonlySet<string>> = {
    'milk-hold': new Set(['isNew', 'cleared', 'gone']),
    counts: new Set(['in', 'out']),
  };
  const drop = dropped[sheet];
  return canonicalJson(
    JSON.parse(JSON.stringify(content, (key, value: unknown) => (drop?.has(key) === true ? undefined : value))),
  );
};
