/** The command line in a process of its own, and the most memory that it ever had. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import process from 'node:process';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

const HOME = fileURLToPath(new URL('../../../', import.meta.url));
/** Tells the most memory that the process ever had, when it ends. */
const TELLING = `--import=data:text/javascript,${encodeURIComponent(
  "process.on('exit',()=>process.stderr.write('most memory '+process.resourceUsage().maxRSS+'\\n'))",
)}`;

const toldIn = (text: string): number => Number(/most memory (\d+)/.exec(text)?.[1] ?? 0) / 1_024;

const argsOf = (args: readonly string[]): string[] => [TELLING, 'api/byrebook.mjs', ...args];

/** Runs a command to its end; gives what it said and the most memory it had, in megabytes. */
export const ran = (
  args: readonly string[],
  stdout: 'pipe' | 'ignore' = 'pipe',
): { megabytes: number; said: string } => {
  const run = spawnSync(process.execPath, argsOf(args), {
    cwd: HOME,
    encoding: 'utf8',
    timeout: 900_000,
    maxBuffer: 2 ** 30,
    stdio: ['ignore', stdout, 'pipe'],
  });
  if (run.status !== 0) throw new Error(`byrebook ${args.join(' ')} ended with ${run.status}: ${tail(run.stderr)}`);
  return { megabytes: toldIn(run.stderr), said: run.stdout };
};

/** The most memory a command had whose words nobody keeps. */
export const memoryOf = (args: readonly string[]): number => ran(args, 'ignore').megabytes;

export interface Served {
  readonly url: string;
  /** Ends it; gives the most memory it had, in megabytes. */
  readonly stop: () => Promise<number>;
}

/** `serve` on a book, once it says where. */
export const served = async (book: string): Promise<Served> => {
  const serving = spawn(process.execPath, argsOf(['--book', book, 'serve', '--port', '0']), { cwd: HOME });
  let [said, erred] = ['', ''];
  serving.stdout.on('data', (piece: Buffer) => {
    said += piece.toString();
  });
  serving.stderr.on('data', (piece: Buffer) => {
    erred += piece.toString();
  });
  const ended = once(serving, 'exit');
  while (!ADDRESS.test(said) && serving.exitCode === null) await setTimeout(100);
  const url = ADDRESS.exec(said)?.[0];
  if (url === undefined) throw new Error(`serve said no address: ${tail(erred)}`);
  return {
    url,
    stop: async () => {
      serving.kill('SIGTERM');
      await ended;
      return toldIn(erred);
    },
  };
};

const ADDRESS = /https?:\/\/[^\s/]+/;

const tail = (text: string): string => text.slice(-500);
