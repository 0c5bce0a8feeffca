/** `proof` and `checkpoint`: what an outsider needs to hold the book to its word. */
import process from 'node:process';
import { Command } from 'commander';
import type { Book } from '../../events/book.ts';
import { leafHash } from '../../events/log/merkle.ts';
import { proveConsistency, proveInclusion, type Tree } from '../../events/log/proofs.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { note, outJson, withBook } from './settings.ts';

export const proofCommand = (): Command =>
  new Command('proof')
    .description('proofs for an outsider, as JSON (RFC 6962); check-proof checks them without the book')
    .addCommand(
      new Command('inclusion')
        .description('that one entry is in the book')
        .argument('<entry>', "the entry's id, or its position")
        .option('--json', 'JSON is what it prints in any case')
        .action(async (entry: string, _: unknown, command: Command) =>
          withBook(command, { readOnly: true }, (book) => inclusion(book, entry)),
        ),
    )
    .addCommand(
      new Command('consistency')
        .description('that the book continues what it was at an older position')
        .argument('<position>', 'the older position, as printed on a sheet or in a checkpoint')
        .option('--json', 'JSON is what it prints in any case')
        .action(async (position: string, _: unknown, command: Command) =>
          withBook(command, { readOnly: true }, (book) => {
            const tree = treeOf(book);
            outJson(proveConsistency(tree, positionOf(position, tree.leaves.length)));
          }),
        ),
    );

const inclusion = (book: Book, entry: string): void => {
  const tree = treeOf(book);
  const { length } = tree.leaves;
  const position = book.find(entry)[0]?.position ?? (/^\d{1,10}$/.test(entry) ? Number(entry) : 0);
  const [row] = position < 1 ? [] : book.rows(position - 1, 1);
  if (row === undefined) {
    throw new UserProblem(`There is no entry ${entry} in this book of ${length}; give an id or a position`);
  }
  outJson(proveInclusion(tree, row.position, row.entry));
};

const PAGE = 5_000;

/** Every leaf worked out from the stored text, and the checkpoint of them all. */
const treeOf = (book: Book): Tree => {
  const { position } = book.head();
  const leaves: string[] = [];
  for (let after = 0; after < position; after += PAGE) {
    for (const { entry } of book.rows(after, Math.min(PAGE, position - after))) leaves.push(leafHash(entry));
  }
  return { leaves, checkpoint: signedOf(book), verifierKey: book.verifierKey };
};

const signedOf = (book: Book): string => {
  const checkpoint = book.checkpoint();
  if (checkpoint.endsWith('\nunsigned\n')) {
    note('The head of this book is not signed, so this proves nothing to an outsider; verify says why.');
  }
  return checkpoint;
};

export const positionOf = (text: string, most: number): number => {
  const position = Number(text);
  if (!/^\d{1,10}$/.test(text) || position > most) {
    throw new UserProblem(`"${text}" is not a position of this book; give a whole number up to ${most}`, 2);
  }
  return position;
};

export const checkpointCommand = (): Command =>
  new Command('checkpoint')
    .description("the book's signed checkpoint (C2SP tlog-checkpoint): let somebody else keep a copy")
    .option('--json', 'print it as JSON, with the key to check it with')
    .action(async (options: { json?: boolean }, command: Command) =>
      withBook(command, { readOnly: true }, (book) => {
        const checkpoint = signedOf(book);
        if (options.json === true) outJson({ ...book.head(), checkpoint, verifierKey: book.verifierKey });
        else process.stdout.write(checkpoint);
      }),
    );
