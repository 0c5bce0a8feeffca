/** The command line in a process of its own, and the most memory that it ever had. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import process from 'node:process';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

const HOME = fileURLToPath(new URL('../../../', import.meta.url));
/**
 * Tells the most memory that the process ever had, when it ends. Linux counts what the process was started from into what
 * `resourceUsage` says, so its own word on the program alone comes first.
 */
const TELLING = `--import=data:text/javascript,${encodeURIComponent(`
import fs from 'node:fs';
const most = () => {
  try {
    return /VmHWM:\\s+(\\d+)/.exec(fs.readFileSync('/proc/self/status', 'utf8'))[1];
  } catch {
    return process.resourceUsage().maxRSS;
  }
};
process.on('exit', () => process.stderr.write('most memory ' + most() + '\\n'));
`)}`;

const toldIn = (text: string): number => Number(/most memory (\d+)/.exec(text)?.[1] ?? 0) / 1_024;

const argsOf = (args: readonly string[]): string[] => [TELLING, 'api/byrebook.mjs', ...args];

/** Runs a command to its end; gives what it said and the most memory it had, in megabytes. */
export const ran = (args: readonly string[]): { megabytes: number; said: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, argsOf(args), {
    cwd: HOME,
    encoding: 'utf8',
    timeout: 900_000,
    maxBuffer: 2 ** 30,
  });
  if (status !== 0) throw new Error(`byrebook ${args.join(' ')} ended with ${status}: ${tail(stderr)}`);
  return { megabytes: toldIn(stderr), said: stdout };
};

/** The most memory a command had whose words nobody keeps; a server that it talks to is listened to meanwhile. */
export const memoryOf = async (args: readonly string[]): Promise<number> => {
  const running = spawn(process.execPath, argsOf(args), { cwd: HOME, stdio: ['ignore', 'ignore', 'pipe'] });
  let erred = '';
  running.stderr.on('data', (piece: Buffer) => {
    erred += piece.toString();
  });
  const [status] = await once(running, 'close');
  if (status !== 0) throw new Error(`byrebook ${args.join(' ')} ended with ${status}: ${tail(erred)}`);
  return toldIn(erred);
};

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
    // It goes on to say each request.
    if (!ADDRESS.test(said)) said += piece.toString();
  });
  serving.stderr.on('data', (piece: Buffer) => {
    erred += piece.toString();
  });
  const ended = once(serving, 'close');
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
