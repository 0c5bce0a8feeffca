/** `import ade FILE`: a document of the ICAR Animal Data Exchange JSON standard into the book. */
import fs from 'node:fs';
import process from 'node:process';
import { Command } from 'commander';
import { UserProblem } from '../../shared/refusal.ts';
import { type AdeImport, importAde } from '../ade/import-ade.ts';
import { note, out, outJson, plural, withBook } from './settings.ts';

interface Options {
  readonly group?: string;
  readonly dryRun?: boolean;
  readonly json?: boolean;
  readonly author: string;
}

export const importAdeCommand = (): Command =>
  new Command('ade')
    .description('a file of the ICAR Animal Data Exchange JSON standard: a resource, a collection, or several')
    .argument('<file>', 'the JSON file')
    .option('--group <name>', 'the group of cows that come in and of whom the file says none')
    .option('--dry-run', 'say what would be recorded, and record nothing')
    .option('--json', 'print the outcome as JSON and nothing else')
    .option('--author <name>', 'who says it, where the file names nobody', 'not stated')
    .action(async (file: string, options: Options, command: Command) => {
      const text = readText(file);
      await withBook(command, {}, (book) => {
        const done = importAde(book, text, {
          author: options.author,
          group: options.group,
          dryRun: options.dryRun === true,
        });
        if (done.refused.length > 0) process.exitCode = 1;
        if (options.json === true) outJson({ file, ...done });
        else say(done);
      });
    });

const readText = (file: string): string => {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch {
    throw new UserProblem(`There is no file ${file} that can be read; check the name`, 2);
  }
};

const SHOWN = 20;

const say = (done: AdeImport): void => {
  out(
    `${plural(done.resources, 'resource')} read: ${plural(done.recorded, 'entry', 'entries')} ${done.dryRun ? 'would be recorded (dry run: nothing was)' : 'recorded'}, ${done.alreadyKnown} already known, ${plural(done.struck, 'older entry', 'older entries')} struck.`,
  );
  list(
    'Not used, because the book has no entry for it:',
    counted(done.notUsed.map(({ resource, why }) => [why, resource])),
  );
  list(
    'Not taken from what was recorded:',
    counted(
      done.leftOut.map(({ resource, field, value }) => [
        `${resource.split(' ')[0]}.${field}`,
        JSON.stringify(value).slice(0, 60),
      ]),
    ),
  );
  list('To know:', done.notes);
  if (done.refused.length === 0) return;
  out(
    `${plural(done.refused.length, 'resource was', 'resources were')} refused. Each is kept aside and holds the cows it may concern until a settled entry names its key:`,
  );
  for (const { problem, cows, key } of done.refused) {
    out(`  ${problem}`);
    out(
      `    ${cows.length === 0 ? 'no cow can be read in it' : `holds ${cows.join(' ')}`}${key === null ? '' : `; set aside as ${key}`}`,
    );
  }
};

const counted = (pairs: readonly (readonly [string, string])[]): string[] => {
  const byWhat = new Map<string, { count: number; such: string }>();
  for (const [what, such] of pairs) {
    const have = byWhat.get(what);
    if (have === undefined) byWhat.set(what, { count: 1, such });
    else have.count += 1;
  }
  return [...byWhat].map(([what, { count, such }]) => `${what} (${count}, such as ${such})`);
};

const list = (title: string, lines: readonly string[]): void => {
  if (lines.length === 0) return;
  out(title);
  for (const line of lines.slice(0, SHOWN)) out(`  ${line}`);
  if (lines.length > SHOWN) note(`  … and ${lines.length - SHOWN} more; --json lists every one`);
};
