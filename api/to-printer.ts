/** Sends finished sheets to a printer through `lp`, without a shell in between. */
import { spawnSync } from 'node:child_process';
import { UserProblem } from '../shared/refusal.ts';

/** Prints the files in order, as one job each. Gives what `lp` says of each job; throws a `UserProblem` where it cannot. */
export const toPrinter = (printer: string, files: readonly string[]): string[] => {
  if (printer.startsWith('-') || printer.trim() === '') {
    throw new UserProblem(`--to: "${printer}" is not the name of a printer; lpstat -e lists them`, 2);
  }
  return files.map((file) => {
    const made = spawnSync('lp', ['-d', printer, '--', file], { encoding: 'utf8', timeout: 60_000 });
    if (made.error !== undefined) {
      const missing = 'code' in made.error && made.error.code === 'ENOENT';
      throw new UserProblem(
        missing
          ? 'There is no "lp" on this computer, so nothing can be sent to a printer; install CUPS, or print the PDF files by hand'
          : `"lp" did not answer (${made.error.message}); the PDF files are written, print them by hand`,
      );
    }
    if (made.status !== 0) {
      const why = made.stderr.trim().split('\n')[0] ?? '';
      throw new UserProblem(
        `The printer "${printer}" did not take ${file} (${why}); lpstat -e lists the printers. The file is written, print it by hand`,
      );
    }
    return made.stdout.trim();
  });
};
