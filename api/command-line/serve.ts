/** `serve`: the book over HTTP, for devices, other books of the farm, and people. Loopback unless told otherwise. */
import process from 'node:process';
import { Command } from 'commander';
import { pino } from 'pino';
import { UserProblem } from '../../shared/refusal.ts';
import { startServing } from '../server/listen.ts';
import { out, withBook } from './settings.ts';

interface Options {
  readonly port: string;
  readonly listen?: string;
  readonly tlsCert?: string;
  readonly tlsKey?: string;
  readonly proxy?: string;
  readonly host?: readonly string[];
  readonly log: string;
}

export const serveCommand = (): Command =>
  new Command('serve')
    .description(
      'the book over HTTP, on this computer alone unless --listen says otherwise; device add says who may connect',
    )
    .option('--port <number>', 'port; 0 lets the system choose', '8212')
    .option('--listen <address>', 'listen beyond this computer; needs the TLS files, or --proxy')
    .option('--tls-cert <file>', 'certificate chain, PEM')
    .option('--tls-key <file>', 'its private key, PEM')
    .option('--proxy <address>', 'address of the proxy that carries the TLS')
    .option('--host <name...>', 'further names that the server answers to')
    .option('--log <level>', 'error, info or silent', 'info')
    .action(async (options: Options, command: Command) => {
      await withBook(command, { create: true }, async (book) => {
        const log = pino({ level: levelOf(options.log), base: null }, pino.destination({ fd: 2, sync: true }));
        const serving = await startServing({
          book,
          log,
          port: portOf(options.port),
          listen: options.listen,
          tls: tlsOf(options),
          proxy: options.proxy,
          hosts: options.host,
        });
        out(`${book.path} at ${serving.url} (how to speak to it: ${serving.url}/protocol). Ctrl+C stops it.`);
        await told();
        out('Stopping: what has begun is finished first.');
        await serving.stop();
      });
    });

const portOf = (text: string): number => {
  const port = Number(text);
  if (!/^\d{1,5}$/.test(text) || port > 65_535) throw new UserProblem(`--port: "${text}" is not a port; 0 to 65535`, 2);
  return port;
};

const levelOf = (text: string): string => {
  if (['error', 'info', 'silent'].includes(text)) return text;
  throw new UserProblem(`--log: "${text}" is not a level; use error, info or silent`, 2);
};

const tlsOf = ({ tlsCert, tlsKey }: Options): { cert: string; key: string } | undefined => {
  if (tlsCert === undefined && tlsKey === undefined) return undefined;
  if (tlsCert === undefined || tlsKey === undefined) {
    throw new UserProblem('--tls-cert and --tls-key go together; give both files', 2);
  }
  return { cert: tlsCert, key: tlsKey };
};

/** Resolves when somebody asks the program to end. */
const told = (): Promise<void> =>
  new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
