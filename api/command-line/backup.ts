/** `backup`, `archive`, `restore`, `new-key`: copies of the book, and going on from one. */
import fs from 'node:fs';
import { Command } from 'commander';
import { readArchive, writeArchive } from '../../events/log/archive.ts';
import { backupBook, continueAsNew, restoreBook } from '../../events/log/backup.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { clockOf, globalsOf, out, plural, withBook } from './settings.ts';

export const backupCommand = (): Command =>
  new Command('backup')
    .description('copy the book to a file while others go on writing; the key is never in it')
    .argument('<file>', 'the copy, a file that is not there yet')
    .action(async (file: string, _: unknown, command: Command) => {
      const { path, position } = await withBook(command, { readOnly: true }, (book) => ({
        path: book.path,
        position: book.head().position,
      }));
      await backupBook(path, file);
      out(
        `${file} is a copy of ${path} with ${plural(position, 'entry', 'entries')} or more. Its key stays beside the book.`,
      );
    });

export const archiveCommand = (): Command =>
  new Command('archive')
    .description('the whole book as one gzipped JSON Lines file: entries, refusals and papers, for any program to read')
    .argument('<file>', 'the archive, a file that is not there yet')
    .action(async (file: string, _: unknown, command: Command) => {
      const path = await withBook(command, { readOnly: true }, (book) => book.path);
      const { position, root } = await writeArchive(path, file);
      out(`${file} holds ${plural(position, 'entry', 'entries')}, root ${root}. restore ${file} brings it back.`);
    });

export const restoreCommand = (): Command =>
  new Command('restore')
    .description('check a backup or an archive and go on from it as a new book (--book says where); never overwrites')
    .argument('<file>', 'what backup or archive made')
    .action(async (file: string, _: unknown, command: Command) => {
      const globals = globalsOf(command);
      const clock = clockOf(globals);
      const { bookId, position } = isGzipped(file)
        ? await readArchive(file, globals.book, clock)
        : restoreBook(file, globals.book, clock);
      out(
        `${globals.book} goes on from ${file} at position ${position}, as the new book ${bookId} with a key of its own.`,
      );
    });

const isGzipped = (file: string): boolean => {
  const start = Buffer.alloc(2);
  try {
    const opened = fs.openSync(file, 'r');
    fs.readSync(opened, start, 0, 2, 0);
    fs.closeSync(opened);
  } catch {
    throw new UserProblem(`There is no file ${file} that can be read; check the name`, 2);
  }
  return start[0] === 0x1f && start[1] === 0x8b;
};

export const newKeyCommand = (): Command =>
  new Command('new-key')
    .description('for a book whose key is lost, or a copy without one: it goes on as a new book with a new key')
    .action((_: unknown, command: Command) => {
      const globals = globalsOf(command);
      const { bookId, position } = continueAsNew(globals.book, clockOf(globals));
      out(
        `${globals.book} goes on from position ${position} as the new book ${bookId} with a new key; the entry book-continued says so.`,
      );
    });
