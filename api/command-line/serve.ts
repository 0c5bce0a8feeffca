/** `serve`: the book over HTTP, for devices, other books of the farm, and people. Loopback unless told otherwise. */
import fs from 'node:fs';
import { Command } from 'commander';
import { pino } from 'pino';
import { HOUR, MINUTE } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { issueBefore } from '../server/issue-before.ts';
import { startServing } from '../server/listen.ts';
import { mustBePrinter } from '../to-printer.ts';
import { deskAddress } from './desk-address.ts';
import { portOf, toldToEnd } from './listening.ts';
import { globalsOf, note, out, plural, withBook } from './settings.ts';

interface Options {
  readonly port: string;
  readonly listen?: string;
  readonly tlsCert?: string;
  readonly tlsKey?: string;
  readonly proxy?: string;
  readonly host?: readonly string[];
  readonly log: string;
  readonly issueBefore?: string;
  readonly out?: string;
  readonly to?: string;
  readonly desk?: string;
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
    .option('--issue-before <time>', 'issue the sheets so long before each milking: 30m, 1h or 45 (minutes)')
    .option('--out <folder>', 'where the issued PDF files go; needed with --issue-before')
    .option('--to <printer>', 'send the issued sheets to a printer too, through lp: by the clock, and from the desk')
    .option('--desk <device>', 'print an address that signs a browser in at the desk as this device, once')
    .option('--log <level>', 'error, info or silent', 'info')
    .action(async (options: Options, command: Command) => {
      const printing = printingOf(options);
      const isNew = !fs.existsSync(globalsOf(command).book);
      await withBook(command, { create: true }, async (book) => {
        if (isNew) note(newBookLine(book.path));
        const log = pino({ level: levelOf(options.log), base: null }, pino.destination({ fd: 2, sync: true }));
        const serving = await startServing({
          book,
          log,
          port: portOf(options.port),
          listen: options.listen,
          tls: tlsOf(options),
          proxy: options.proxy,
          hosts: options.host,
          printer: options.to,
        });
        if (options.desk !== undefined) out(`To sign in at the desk: ${deskAddress(book, serving, options.desk)}`);
        out(`${book.path} at ${serving.url} (how to speak to it: ${serving.url}/protocol). Ctrl+C stops it.`);
        const { issuing, streams } = serving.app;
        const byClock =
          printing === undefined ? undefined : issueBefore({ ...printing, book, log, issuing, wake: streams.wake });
        if (printing !== undefined) out(printingLine(printing));
        await toldToEnd();
        out('Stopping: what has begun is finished first.');
        await byClock?.stop();
        await serving.stop();
      });
    });

/** A slip in the path serves an empty book, and everybody wonders where the cows are. */
const newBookLine = (file: string): string =>
  `There was no book at ${file}: a new one begins there, and the desk asks for the farm, its medicines and its cows. If you meant another, stop this and check the path.`;

interface Printing {
  readonly before: number;
  readonly folder: string;
  readonly printer?: string | undefined;
}

const printingOf = ({ issueBefore: length, out: folder, to: printer }: Options): Printing | undefined => {
  if (length === undefined) {
    if (printer !== undefined) mustBePrinter(printer);
    if (folder === undefined) return undefined;
    throw new UserProblem('--out goes with --issue-before: say how long before each milking, such as 30m', 2);
  }
  if (folder === undefined || folder === '') {
    throw new UserProblem('--issue-before needs --out with the folder that the PDF files go to', 2);
  }
  if (fs.existsSync(folder) && !fs.statSync(folder).isDirectory()) {
    throw new UserProblem(`--out: ${folder} is a file; name a folder`, 2);
  }
  if (printer !== undefined) mustBePrinter(printer);
  return { before: lengthOf(length), folder, printer };
};

const LONGEST = 12 * HOUR;

/** `30m`, `1h`, `45` as milliseconds. */
export const lengthOf = (text: string): number => {
  const [, number, unit] = /^(\d{1,4})(m|h)?$/.exec(text) ?? [];
  const length = Number(number ?? 0) * (unit === 'h' ? HOUR : MINUTE);
  if (length >= MINUTE && length <= LONGEST) return length;
  throw new UserProblem(
    `--issue-before: "${text}" is not a length of time that is taken; write 30m, 1h or 45 (minutes), from 1 minute to 12 hours`,
    2,
  );
};

const printingLine = ({ before, folder, printer }: Printing): string =>
  `Issues the sheets ${plural(before / MINUTE, 'minute')} before each milking, into ${folder}${printer === undefined ? '' : ` and to the printer ${printer}`}.`;

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
