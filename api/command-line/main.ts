/** The command line: `npx byrebook [--book FILE] [--now TIME] <command>`. Exit 0 done, 1 refused or does not verify, 2 wrong usage. */
import process from 'node:process';
import { Command, CommanderError } from 'commander';
import { UserProblem } from '../../shared/refusal.ts';
import { VERSION } from '../version.ts';

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

/** Loaded when asked for: a command that prints nothing must not wait for the type faces. */
const COMMANDS: readonly (readonly [name: string, load: () => Promise<Command>])[] = [
  ['demo', async () => (await import('./demo.ts')).demoCommand()],
  ['record', async () => (await import('./record.ts')).recordCommand()],
  ['import', async () => (await import('./import.ts')).importCommand()],
  ['print', async () => (await import('./print.ts')).printCommand()],
  ['why', async () => (await import('./why.ts')).whyCommand()],
  ['history', async () => (await import('./history.ts')).historyCommand()],
  ['replay', async () => (await import('./replay.ts')).replayCommand()],
  ['medicines', async () => (await import('./medicines.ts')).medicinesCommand()],
  ['leaving', async () => (await import('./leaving.ts')).leavingCommand()],
  ['export', async () => (await import('./export.ts')).exportCommand()],
  ['serve', async () => (await import('./serve.ts')).serveCommand()],
  ['sync', async () => (await import('./sync.ts')).syncCommand()],
  ['device', async () => (await import('./device.ts')).deviceCommand()],
  ['verify', async () => (await import('./verify.ts')).verifyCommand()],
  ['proof', async () => (await import('./proof.ts')).proofCommand()],
  ['check-proof', async () => (await import('./check-proof.ts')).checkProofCommand()],
  ['checkpoint', async () => (await import('./proof.ts')).checkpointCommand()],
  ['backup', async () => (await import('./backup.ts')).backupCommand()],
  ['archive', async () => (await import('./archive.ts')).archiveCommand()],
  ['restore', async () => (await import('./backup.ts')).restoreCommand()],
  ['new-key', async () => (await import('./backup.ts')).newKeyCommand()],
];

/** The command's name among the arguments; the global options with a value come before it. */
const asked = (args: readonly string[]): string | undefined => {
  for (let index = 0; index < args.length; index += 1) {
    const each = args[index] ?? '';
    if (each === '--book' || each === '--now') index += 1;
    else if (!each.startsWith('-')) return each;
  }
  return undefined;
};

const given = process.argv.slice(2);
const name = asked(given);
const one = COMMANDS.filter(([each]) => each === name);
const onlyVersion = name === undefined && given.some((each) => each === '--version' || each === '-V');
const wanted = one.length > 0 ? one : onlyVersion ? [] : COMMANDS;
for (const [, load] of wanted) program.addCommand(inherit(await load()));

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
