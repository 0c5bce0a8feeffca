/** `proof` and `checkpoint`: what an outsider needs to hold the book to its word. */
import process from 'node:process';
import { Command } from 'commander';
import type { Proof } from '../../events/log/proofs.ts';
import { consistencyOf, inclusionOf, isSigned } from '../proof-tree.ts';
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
          withBook(command, { readOnly: true }, (book) => outProof(inclusionOf(book, entry))),
        ),
    )
    .addCommand(
      new Command('consistency')
        .description('that the book continues what it was at an older position')
        .argument('<position>', 'the older position, as printed on a sheet or in a checkpoint')
        .option('--json', 'JSON is what it prints in any case')
        .action(async (position: string, _: unknown, command: Command) =>
          withBook(command, { readOnly: true }, (book) => outProof(consistencyOf(book, position))),
        ),
    );

/** Said beside the facts where it matters to an outsider. */
const noteUnsigned = (checkpoint: string): void => {
  if (!isSigned(checkpoint))
    note('The head of this book is not signed, so this proves nothing to an outsider; verify says why.');
};

const outProof = (proof: Proof): void => {
  noteUnsigned(proof.checkpoint);
  outJson(proof);
};

export const checkpointCommand = (): Command =>
  new Command('checkpoint')
    .description("the book's signed checkpoint (C2SP tlog-checkpoint): let somebody else keep a copy")
    .option('--json', 'print it as JSON, with the key to check it with')
    .action(async (options: { json?: boolean }, command: Command) =>
      withBook(command, { readOnly: true }, (book) => {
        const checkpoint = book.checkpoint();
        noteUnsigned(checkpoint);
        if (options.json === true) outJson({ ...book.head(), checkpoint, verifierKey: book.verifierKey });
        else process.stdout.write(checkpoint);
      }),
    );
