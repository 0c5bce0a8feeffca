/** `backup`, `restore`, `new-key`: copies of the book, and going on from one. */
import fs from 'node:fs';
import process from 'node:process';
import { Command } from 'commander';
import { openBook } from '../../events/book.ts';
import { backupBook, restoreBook, takeNewKey } from '../../events/log/backup.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { bringBack } from './archive.ts';
import { clockOf, globalsOf, out, outJson, plural, withBook } from './settings.ts';

interface Options {
  readonly json?: boolean;
}
const JSON_OPTION = ['--json', 'print the outcome as JSON and nothing else'] as const;

export const backupCommand = (): Command =>
  new Command('backup')
    .description('copy the book to a file while others go on writing, and verify the copy; the key is never in it')
    .argument('<file>', 'the copy, a file that is not there yet')
    .option(...JSON_OPTION)
    .action(async (file: string, { json }: Options, command: Command) => {
      const path = await withBook(command, { readOnly: true }, (book) => book.path);
      const { ok, position, root, problems } = await backupBook(path, file, clockOf(globalsOf(command)));
      if (!ok) process.exitCode = 1;
      if (json === true) {
        outJson({ file, position, root, verifies: ok, problems });
        return;
      }
      out(`${file} is a copy of ${path}: ${plural(position, 'entry', 'entries')}, root ${root}.`);
      out('Its key stays beside the book. Keep the copy on another disk, away from this computer.');
      if (!ok) out(`The copy is whole, but it does NOT verify: ${problems[0]?.problem ?? ''}; verify says more.`);
    });

export const restoreCommand = (): Command =>
  new Command('restore')
    .description('check a backup or an archive and go on from it as a new book (--book says where); never overwrites')
    .argument('<file>', 'what backup or archive made')
    .option(...JSON_OPTION)
    .action(async (file: string, { json }: Options, command: Command) => {
      if (isGzipped(file)) {
        await bringBack(file, command, json === true);
        return;
      }
      const { book: to, ...globals } = globalsOf(command);
      const wentOn = await restoreBook(file, to, clockOf({ book: to, ...globals }));
      if (json === true) outJson({ file, book: to, ...wentOn });
      else {
        sayWentOn(to, file, wentOn);
        sayDevices(to, command);
      }
    });

const sayWentOn = (to: string, file: string, { position, bookId }: { position: number; bookId: string }): void =>
  out(`${to} goes on from ${file} at position ${position}, as the new book ${bookId} with a key of its own.`);

/** A backup has the devices of its day, those that were revoked since among them. */
const sayDevices = (to: string, command: Command): void => {
  const book = openBook(to, { clock: clockOf(globalsOf(command)), readOnly: true });
  const inUse = book.devices.list().filter(({ revoked }) => revoked === null).length;
  book.close();
  out(
    inUse === 0
      ? 'No device may connect to it yet; device add makes the tokens.'
      : `${plural(inUse, 'device')} may connect to it with the tokens of the day of the backup: device list says which. What was added since is to be added anew, and what was revoked since is to be revoked again.`,
  );
};

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
    .description('for a book whose key is lost, or a copy: it goes on as a new book with a new key')
    .option(...JSON_OPTION)
    .action(({ json }: Options, command: Command) => {
      const globals = globalsOf(command);
      const wentOn = takeNewKey(globals.book, clockOf(globals));
      if (json === true) outJson({ book: globals.book, ...wentOn });
      else {
        out(
          `${globals.book} goes on from position ${wentOn.position} as the new book ${wentOn.bookId} with a new key; the entry book-continued says so.`,
        );
      }
    });
