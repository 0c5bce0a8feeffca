/** Sends finished sheets to a printer through `lp`, without a shell in between. */
import { execFile, spawnSync } from 'node:child_process';
import { UserProblem } from '../shared/refusal.ts';

const PATIENCE = 60_000;

/** Refuses what `lp` would take for an option. */
export const mustBePrinter = (printer: string): void => {
  if (printer.startsWith('-') || printer.trim() === '') {
    throw new UserProblem(`--to: "${printer}" is not the name of a printer; lpstat -e lists them`, 2);
  }
};

/** Prints the files in order, as one job each. Gives what `lp` says of each job; throws a `UserProblem` where it cannot. */
export const toPrinter = (printer: string, files: readonly string[]): string[] => {
  mustBePrinter(printer);
  return files.map((file) => {
    const made = spawnSync('lp', ['-d', printer, '--', file], { encoding: 'utf8', timeout: PATIENCE });
    if (made.error !== undefined) throw noAnswer(made.error);
    if (made.status !== 0) throw notTaken(printer, file, made.stderr);
    return made.stdout.trim();
  });
};

/** The same while others are served: all the files as one job, so that none is printed twice where it is tried again. */
export const toPrinterMeanwhile = (printer: string, files: readonly string[], signal: AbortSignal): Promise<string> =>
  new Promise((resolve, reject) => {
    mustBePrinter(printer);
    const options = { encoding: 'utf8', timeout: PATIENCE, signal } as const;
    execFile('lp', ['-d', printer, '--', ...files], options, (error, said, complaint) => {
      if (error === null) resolve(said.trim());
      else if (typeof error.code === 'number') reject(notTaken(printer, files[0] ?? 'them', complaint));
      else reject(noAnswer(error));
    });
  });

const noAnswer = (error: Error): UserProblem => {
  const missing = 'code' in error && error.code === 'ENOENT';
  return new UserProblem(
    missing
      ? 'There is no "lp" on this computer, so nothing can be sent to a printer; install CUPS, or print the PDF files by hand'
      : `"lp" did not answer (${error.message}); the PDF files are written, print them by hand`,
  );
};

const notTaken = (printer: string, file: string, complaint: string): UserProblem =>
  new UserProblem(
    `The printer "${printer}" did not take ${file} (${complaint.trim().split('\n')[0] ?? ''}); lpstat -e lists the printers. The file is written, print it by hand`,
  );
