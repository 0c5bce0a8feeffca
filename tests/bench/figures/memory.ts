/**
 * The most memory that a command or a server ever had, on the long log and on one a tenth as long. With `--json` a command
 * says no alerts: what is left is the entries that stream through it. For alerts the whole herd is known.
 */
import fs from 'node:fs';
import process from 'node:process';
import { keptSheetsPath } from '../../../api/kept-sheets.ts';
import { bigHerd, type HerdWishes } from '../../../seeds/big-herd.ts';
import { instantText } from '../../../shared/instant.ts';
import { type Figure, megabyteFigure, millisecondsOf, plainFigure, spoken } from '../measure.ts';
import { type HerdBook, herdBook, newFile, removeBook, type Setting } from '../setting.ts';
import { memoryOf, served } from './commands.ts';
import { signedIn } from './desk.ts';

export const memoryFigure = async (setting: Setting): Promise<Figure[]> => {
  const { long } = setting;
  const tenth: HerdWishes = { ...long, years: long.years / 10 };
  const [herd, small] = [herdBook(setting, long), herdBook(setting, tenth)];
  const [ours, beside] = [await streamed(setting, herd, long), await streamed(setting, small, tenth)];
  const against = `on ${small.on}`;
  return [
    ...[...ours].map(([name, product]) =>
      megabyteFigure(
        { figure: `memory of ${name}`, on: herd.on, against },
        { product, baseline: beside.get(name) ?? 0 },
      ),
    ),
    await servedFigure(herd),
  ];
};

/** By what streams, in megabytes. */
const streamed = async (setting: Setting, herd: HerdBook, wishes: HerdWishes): Promise<ReadonlyMap<string, number>> => {
  const lines = newFile(setting, 'in.jsonl');
  writeLines(lines, wishes);
  const exported = newFile(setting, 'out.jsonl');
  const now = ['--now', instantText(herd.lastRecorded)];
  const recorded = async (...words: string[]): Promise<number> => {
    const again = newFile(setting, 'again.book');
    const most = await memoryOf(['--book', again, ...now, 'record', ...words, lines]);
    removeSheets(again);
    return most;
  };
  const most = new Map([
    ['verify', await memoryOf(['--book', herd.file, 'verify', '--json'])],
    ['export', await memoryOf(['--book', herd.file, 'export', '--json', '--out', exported])],
    ['record', await recorded('--json')],
  ]);
  fs.rmSync(exported, { force: true });
  const { client, server } = await synced(setting, herd, ['--json']);
  most.set('sync (the command)', client).set('serve while another book syncs from it', server);
  most.set('record, which then says its alerts', await recorded());
  most.set('sync, which then says its alerts', (await synced(setting, herd, [])).client);
  fs.rmSync(lines, { force: true });
  return most;
};

/** A new book takes the whole log from the one that is served. */
const synced = async (
  setting: Setting,
  herd: HerdBook,
  words: readonly string[],
): Promise<{ client: number; server: number }> => {
  const token = tokenOf(herd, 'book');
  const { url, stop } = await served(herd.file);
  const barn = newFile(setting, 'barn.book');
  const now = instantText(herd.lastRecorded);
  const client = await memoryOf(['--book', barn, '--now', now, 'sync', url, '--token', token, ...words]);
  const server = await stop();
  const book = herd.open();
  const { position } = book.head();
  book.close();
  if (position !== herd.entries) throw new Error('the book that was served did not stay as it was');
  removeSheets(barn);
  return { client, server };
};

let tokens = 0;

const tokenOf = (herd: HerdBook, role: 'book' | 'manager'): string => {
  tokens += 1;
  const book = herd.open();
  const { token } = book.devices.add(`memory bench ${process.pid} ${tokens}`, role);
  book.close();
  return token;
};

const removeSheets = (file: string): void => {
  removeBook(file);
  fs.rmSync(keptSheetsPath(file), { force: true });
};

/** A herd as JSON Lines, written as it is made up. */
const writeLines = (file: string, wishes: HerdWishes): void => {
  const to = fs.openSync(file, 'w');
  let [count, waiting] = [0, ''];
  for (const { said } of bigHerd(wishes)) {
    waiting += `${JSON.stringify(said)}\n`;
    count += 1;
    if (count % 5_000 === 0) {
      fs.writeSync(to, waiting);
      waiting = '';
    }
  }
  fs.writeSync(to, waiting);
  fs.closeSync(to);
};

/** The real server on the herd's book, after it answered for the next milking with nothing kept. */
const servedFigure = async (herd: HerdBook): Promise<Figure> => {
  fs.rmSync(keptSheetsPath(herd.file), { force: true });
  const token = tokenOf(herd, 'manager');
  const { url, stop } = await served(herd.file);
  const first = await millisecondsOf(async () => {
    const cookie = await signedIn(url, token);
    const page = await fetch(`${url}/`, { headers: { cookie, accept: 'text/html' }, redirect: 'manual' });
    await page.text();
    if (page.status !== 200) throw new Error(`the first page was answered with ${page.status}`);
  });
  const megabytes = await stop();
  const note = `its first page, with nothing kept, came after ${spoken(first)}`;
  return plainFigure('memory of serve', herd.on, `${Math.round(megabytes)} MB at most`, note);
};
