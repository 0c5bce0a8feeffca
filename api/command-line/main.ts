/** The command line: `npx byrebook [--book FILE] [--now TIME] <command>`. Exit 0 done, 1 refused or does not verify, 2 wrong usage. */
import process from 'node:process';
import { Command, CommanderError } from 'commander';
import { UserProblem } from '../../shared/refusal.ts';
import { VERSION } from '../version.ts';
import { archiveCommand } from './archive.ts';
import { backupCommand, newKeyCommand, restoreCommand } from './backup.ts';
import { checkProofCommand } from './check-proof.ts';
import { demoCommand } from './demo.ts';
import { deviceCommand } from './device.ts';
import { exportCommand } from './export.ts';
import { historyCommand } from './history.ts';
import { importCommand } from './import.ts';
import { leavingCommand } from './leaving.ts';
import { medicinesCommand } from './medicines.ts';
import { printCommand } from './print.ts';
import { checkpointCommand, proofCommand } from './proof.ts';
import { recordCommand } from './record.ts';
import { replayCommand } from './replay.ts';
import { serveCommand } from './serve.ts';
import { syncCommand } from './sync.ts';
import { verifyCommand } from './verify.ts';
import { whyCommand } from './why.ts';

const program = new Command('byrebook')
  .description(
    'The book a dairy keeps of what happened to its cows, and the paper it prints from it before every milking.',
  )
  .version(VERSION)
  .option('--book <file>', 'the book (else BYREBOOK_BOOK, else farm.book here)')
  .option('--now <time>', 'fix the clock, for a rehearsal: works only on a book that was made with it')
  .addHelpText(
    'after',
    '\nThis is arithmetic on what the label and the vet say; it replaces neither. Follow the label and the veterinarian; local rules govern.\nWhen unsure, keep the milk out and ask.',
  )
  .exitOverride()
  .showSuggestionAfterError()
  .configureHelp({ sortSubcommands: false });

for (const command of [
  demoCommand,
  recordCommand,
  importCommand,
  printCommand,
  whyCommand,
  historyCommand,
  replayCommand,
  medicinesCommand,
  leavingCommand,
  exportCommand,
  serveCommand,
  syncCommand,
  deviceCommand,
  verifyCommand,
  proofCommand,
  checkProofCommand,
  checkpointCommand,
  backupCommand,
  archiveCommand,
  restoreCommand,
  newKeyCommand,
]) {
  program.addCommand(inherit(command()));
}

function inherit(command: Command): Command {
  command.exitOverride();
  for (const sub of command.commands) inherit(sub);
  return command;
}

// A reader that stops early (`| head`) is no fault of ours, and no reason to leave the rest of a file unrecorded.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

try {
  await program.parseAsync(process.argv);
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? 0 : 2;
  } else if (error instanceof UserProblem) {
    process.stderr.write(`byrebook: ${error.message}\n`);
    process.exitCode = error.exitCode;
  } else {
    const message = error instanceof Error ? error.message : String(error);
    process.stderr.write(
      `byrebook: something went wrong that it was not made for: ${message}\nNothing that was reported as recorded is lost. BYREBOOK_TRACE=1 shows where it happened.\n`,
    );
    if (process.env.BYREBOOK_TRACE !== undefined && error instanceof Error) process.stderr.write(`${error.stack}\n`);
    process.exitCode = 1;
  }
}
