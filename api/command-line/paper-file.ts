/** What the record keeper's papers share on the command line: whose farm, in which language, and the file that they go to. */
import fs from 'node:fs';
import type { Book } from '../../events/book.ts';
import { type KeeperMarks, type KeeperPaper, keeperVoice, renderKeeper } from '../../print/keeper-paper.ts';
import type { Voice } from '../../print/speech.ts';
import { isSpoken, LANGUAGES } from '../../print/words.ts';
import type { Known } from '../../projections/know.ts';
import type { Instant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';

export interface PaperOptions {
  readonly pdf?: string;
  readonly language?: string;
}

/** What a paper was worked out from. */
export interface PaperSource {
  readonly known: Known;
  readonly asOf: Instant;
  readonly position: number;
  readonly root: string;
}

export const PDF_OPTION = ['--pdf <file>', 'write it as a PDF for paper there'] as const;
export const LANGUAGE_OPTION = [
  '--language <tag>',
  `language of the PDF: ${LANGUAGES.join(', ')} (else the farm's first)`,
] as const;

/** Draws the paper and writes it. A file that is there already is only written over where it is a PDF. */
export const writePaper = async (
  book: Book,
  source: PaperSource,
  options: PaperOptions & { readonly pdf: string },
  make: (voice: Voice) => KeeperPaper,
): Promise<void> => {
  refuseOtherFiles(options.pdf);
  const bytes = await drawPaper(book, source, options.language, make);
  try {
    fs.writeFileSync(options.pdf, bytes);
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
    throw new UserProblem(`${options.pdf} cannot be written${why}; name another file with --pdf, or make room there`);
  }
};

/** The bytes of the paper, in the language named or else the farm's first. */
export const drawPaper = async (
  book: Book,
  source: PaperSource,
  named: string | undefined,
  make: (voice: Voice) => KeeperPaper,
): Promise<Uint8Array> => {
  const { schedule } = source.known.farm;
  if (schedule === undefined) throw new UserProblem('This book has no farm yet; record a farm-set-up first');
  const { data } = schedule.inForceAt(source.asOf);
  const language = named ?? data.languages?.find(isSpoken) ?? 'en';
  if (!isSpoken(language))
    throw new UserProblem(`--language: there are no words in "${language}"; name one of ${LANGUAGES.join(', ')}`, 2);
  const marks: KeeperMarks = {
    farm: data.name,
    timeZone: data.timeZone,
    paper: data.paper ?? 'A4',
    bookId: book.bookId,
    position: source.position,
    root: source.root,
    printedAt: book.clock.now(),
    rehearsal: book.rehearsal,
  };
  const voice = keeperVoice(language, data.timeZone);
  return renderKeeper(make(voice), voice, marks);
};

/** A slip of the pen must not write paper over the book. */
const refuseOtherFiles = (file: string): void => {
  if (!fs.existsSync(file) || fs.statSync(file).isDirectory()) return;
  const start = Buffer.alloc(5);
  const handle = fs.openSync(file, 'r');
  const read = fs.readSync(handle, start);
  fs.closeSync(handle);
  if (read > 0 && start.toString('latin1') !== '%PDF-')
    throw new UserProblem(`${file} is there already and is not a PDF; name another file with --pdf`);
};
