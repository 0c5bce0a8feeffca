/** `proof`, `check-proof`, `checkpoint`: what an outsider needs to hold the book to its word. */
import fs from 'node:fs';
import process from 'node:process';
import { Command } from 'commander';
import type { Book } from '../../events/book.ts';
import { checkProof, proveConsistency, proveInclusion } from '../../events/log/proofs.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { out, outJson, withBook } from './settings.ts';

export const proofCommand = (): Command =>
  new Command('proof')
    .description('proofs for an outsider, as JSON (RFC 6962)')
    .addCommand(
      new Command('inclusion')
        .description('that one entry is in the book')
        .argument('<entry>', "the entry's id, or its position")
        .action(async (entry: string, _: unknown, command: Command) =>
          withBook(command, { readOnly: true }, (book) => inclusion(book, entry)),
        ),
    )
    .addCommand(
      new Command('consistency')
        .description('that the book continues what it was at an older position')
        .argument('<position>', 'the older position, as printed on a sheet or in a checkpoint')
        .action(async (position: string, _: unknown, command: Command) =>
          withBook(command, { readOnly: true }, (book) => consistency(book, position)),
        ),
    );

const PAGE = 5_000;

/** Every stored text in order, and the head they lead to. */
const textsOf = (book: Book): { texts: string[]; root: string } => {
  const { position, root } = book.head();
  const texts: string[] = [];
  while (texts.length < position)
    texts.push(...book.rows(texts.length, Math.min(PAGE, position - texts.length)).map((row) => row.entry));
  return { texts, root };
};

const inclusion = (book: Book, entry: string): void => {
  const { texts, root } = textsOf(book);
  const asPosition = /^\d{1,10}$/.test(entry) ? Number(entry) : undefined;
  const position = book.find(entry)[0]?.position ?? asPosition;
  if (position === undefined || position < 1 || position > texts.length) {
    throw new UserProblem(`There is no entry ${entry} in this book of ${texts.length}; give an id or a position`);
  }
  outJson(proveInclusion(texts, position, root, { checkpoint: book.checkpoint(), verifierKey: book.verifierKey }));
};

const consistency = (book: Book, older: string): void => {
  const { texts, root } = textsOf(book);
  const oldSize = positionOf(older, texts.length);
  outJson(
    proveConsistency(texts, oldSize, book.read({ position: oldSize }).root, root, {
      checkpoint: book.checkpoint(),
      verifierKey: book.verifierKey,
    }),
  );
};

export const positionOf = (text: string, most: number): number => {
  const position = Number(text);
  if (!/^\d{1,10}$/.test(text) || position > most) {
    throw new UserProblem(`"${text}" is not a position of this book; give a whole number up to ${most}`, 2);
  }
  return position;
};

export const checkProofCommand = (): Command =>
  new Command('check-proof')
    .description('check a proof; needs no book')
    .argument('<file>', 'the proof, as JSON')
    .option('--checkpoint <file>', 'a checkpoint of the older book that somebody else kept')
    .action((file: string, options: { checkpoint?: string }) => {
      const kept = options.checkpoint === undefined ? undefined : textOf(options.checkpoint);
      let value: unknown;
      try {
        value = JSON.parse(textOf(file));
      } catch (error) {
        if (error instanceof UserProblem) throw error;
        throw new UserProblem(`${file} is not JSON; a proof is what "proof" prints`);
      }
      const result = checkProof(value, kept);
      if (result.ok) out(result.value);
      else {
        out(result.problem);
        process.exitCode = 1;
      }
    });

const textOf = (file: string): string => {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch {
    throw new UserProblem(`There is no file ${file} that can be read; check the name`, 2);
  }
};

export const checkpointCommand = (): Command =>
  new Command('checkpoint')
    .description("the book's signed checkpoint: let somebody else keep a copy")
    .action(async (_: unknown, command: Command) => {
      await withBook(command, { readOnly: true }, (book) => process.stdout.write(book.checkpoint()));
    });
