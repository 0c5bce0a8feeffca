/** `archive` (also `export --archive`) and `import archive`: the whole book as one file that any program can read, and back. */
import { Command } from 'commander';
import { writeArchive } from '../../events/log/archive.ts';
import { readArchive } from '../../events/log/archive-back.ts';
import { clockOf, globalsOf, out, outJson, plural, withBook } from './settings.ts';

interface Options {
  readonly json?: boolean;
}

export const archiveCommand = (): Command =>
  new Command('archive')
    .description('the whole book as one gzipped JSON Lines file: entries, refusals and papers, for any program to read')
    .argument('<file>', 'the archive, a file that is not there yet')
    .option('--json', 'print the outcome as JSON and nothing else')
    .action((file: string, { json }: Options, command: Command) => putAway(file, command, json === true));

export const putAway = async (file: string, command: Command, json: boolean): Promise<void> => {
  const path = await withBook(command, { readOnly: true }, (book) => book.path);
  const { position, root } = await writeArchive(path, file);
  if (json) outJson({ file, position, root });
  else {
    out(
      `${file} holds ${plural(position, 'entry', 'entries')}, root ${root}. "import archive ${file}" brings it back to a new book.`,
    );
  }
};

export const importArchiveCommand = (): Command =>
  new Command('archive')
    .description('what archive made, checked on the way in, to a book that is not there yet (--book); it is a new book')
    .argument('<file>', 'the archive')
    .option('--json', 'print the outcome as JSON and nothing else')
    .action((file: string, { json }: Options, command: Command) => bringBack(file, command, json === true));

export const bringBack = async (file: string, command: Command, json: boolean): Promise<void> => {
  const globals = globalsOf(command);
  const { bookId, position, from, root } = await readArchive(file, globals.book, clockOf(globals));
  if (json) outJson({ file, book: globals.book, from, position, bookId, root });
  else {
    out(
      `${globals.book} holds the ${plural(position, 'entry', 'entries')} of ${file}, root ${root}, and goes on as the new book ${bookId} with a key of its own.`,
    );
    out('An archive has no devices: none may connect to it yet; device add makes the tokens anew.');
  }
};
