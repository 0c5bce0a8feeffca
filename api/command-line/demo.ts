/** `demo`: makes the demo farm's book if there is none, issues the sheets for its next milking, says where they are. */
import fs from 'node:fs';
import path from 'node:path';
import { Command } from 'commander';
import { pino } from 'pino';
import { type Book, openBook } from '../../events/book.ts';
import { demoDescription } from '../../seeds/sixty-days.ts';
import { makeDemoBook } from '../demo.ts';
import { issue } from '../issue.ts';
import { startServing } from '../server/listen.ts';
import { deskAddress } from './desk-address.ts';
import { portOf, toldToEnd } from './listening.ts';
import { issuedLine, writePapers } from './print.ts';
import { noticeLines, sheetLines } from './readable.ts';
import { bookNamed, clockOf, globalsOf, out, outJson } from './settings.ts';

const DEMO_BOOK = 'demo-farm/demo.book';

interface Options {
  readonly out?: string;
  readonly json?: boolean;
  readonly serve?: boolean;
  readonly port: string;
}

export const demoCommand = (): Command =>
  new Command('demo')
    .description("make the demo farm's book, issue its sheets, say where they are")
    .option('--out <folder>', 'where the PDF files go (else a folder "sheets" beside the book)')
    .option('--serve', 'then serve the desk on this computer, until Ctrl+C')
    .option('--port <number>', 'port of the desk; 0 lets the system choose', '0')
    .option('--json', 'print where everything is as JSON and nothing else')
    .action(async (options: Options, command: Command) => {
      const file = bookNamed(command) ?? DEMO_BOOK;
      const made = !fs.existsSync(file);
      if (made) await makeDemoBook(file);
      const book = openBook(file, { clock: clockOf(globalsOf(command)) });
      try {
        const { issued, answer } = await issue(book);
        const files = writePapers(options.out ?? path.join(path.dirname(file), 'sheets'), answer, issued.papers);
        if (options.json === true) {
          outJson({
            book: file,
            made,
            milking: answer.views.milking,
            issued: { ref: issued.ref, isNew: issued.isNew },
            files,
          });
          return;
        }
        out(made ? demoDescription : `The demo farm's book is ${file}; delete it to begin again.`);
        out('');
        for (const line of noticeLines(answer.views)) out(line);
        for (const line of sheetLines(answer.views)) out(line);
        out('');
        out(issuedLine(issued));
        for (const each of files) out(`  ${each}`);
        const held = answer.views.sheets['milk-hold'].held[0];
        out('');
        out('Next, for instance:');
        out(`  npx byrebook --book ${file} why ${held?.cow ?? '1'}`);
        out(`  npx byrebook --book ${file} print --json`);
        out(`  npx byrebook --book ${file} verify`);
        if (options.serve === true) await serveDemo(book, options.port);
      } finally {
        book.close();
      }
    });

/** The desk of the demo farm, for whoever started it. */
const serveDemo = async (book: Book, port: string): Promise<void> => {
  const log = pino({ level: 'error', base: null }, pino.destination({ fd: 2, sync: true }));
  const serving = await startServing({ book, log, port: portOf(port) });
  out('');
  out('The desk, for a browser on this computer (the address works once; Ctrl+C stops it):');
  out(`  ${deskAddress(book, serving, 'office')}`);
  await toldToEnd();
  await serving.stop();
};
