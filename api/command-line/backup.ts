/** `backup`, `restore`, `new-key`: copies of the book, and going on from one. */
import { Command } from 'commander';
import { backupBook, continueAsNew, restoreBook } from '../../events/log/backup.ts';
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

export const restoreCommand = (): Command =>
  new Command('restore')
    .description('check a backup and go on from it as a new book (--book says where); never overwrites')
    .argument('<backup>', 'the copy that backup made')
    .action((backup: string, _: unknown, command: Command) => {
      const globals = globalsOf(command);
      const { bookId, position } = restoreBook(backup, globals.book, clockOf(globals));
      out(
        `${globals.book} goes on from ${backup} at position ${position}, as the new book ${bookId} with a key of its own.`,
      );
    });

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
