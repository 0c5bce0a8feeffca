/** From the start of a command to its first sheet, in a process of its own; and what its memory came to. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import fs from 'node:fs';
import process from 'node:process';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { keptSheetsPath, sheetsTonight } from '../../../api/kept-sheets.ts';
import { bigHerd, type HerdWishes } from '../../../seeds/big-herd.ts';
import { steadyMilliseconds } from '../../../shared/clock.ts';
import { instantText } from '../../../shared/instant.ts';
import { bareScan } from '../bare.ts';
import { type Figure, median, millisecondsOf, plainFigure, spoken, timeFigure, whole } from '../measure.ts';
import { type HerdBook, herdBook, newFile, removeBook, type Setting } from '../setting.ts';
import { signedIn } from './desk.ts';

const HOME = fileURLToPath(new URL('../../../', import.meta.url));
/** Tells the most memory that the process ever had, when it ends. */
const TELLING = `--import=data:text/javascript,${encodeURIComponent(
  "process.on('exit',()=>process.stderr.write('most memory '+process.resourceUsage().maxRSS+'\\n'))",
)}`;

/** Runs a command to its end; gives the most memory it had, in megabytes. */
const runCommand = (args: readonly string[]): number => ran(args).megabytes;

const runSaying = (args: readonly string[]): string => ran(args).said;

const ran = (args: readonly string[], limitMilliseconds = 900_000): { megabytes: number; said: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [TELLING, 'api/byrebook.mjs', ...args], {
    cwd: HOME,
    encoding: 'utf8',
    timeout: limitMilliseconds,
    maxBuffer: 2 ** 30,
  });
  if (status !== 0) throw new Error(`byrebook ${args.join(' ')} ended with ${status}: ${stderr.slice(-500)}`);
  return { megabytes: Number(/most memory (\d+)/.exec(stderr)?.[1] ?? 0) / 1_024, said: stdout };
};

export const firstSheetFigure = async (setting: Setting): Promise<Figure[]> => {
  const figures: Figure[] = [];
  const start = median([1, 2, 3].map(() => took(['--version'])));
  for (const wishes of [setting.middle, setting.long]) {
    const herd = herdBook(setting, wishes);
    const sheet = ['--book', herd.file, 'print', '--sheet', 'milk-hold', '--json'];
    const kept = keptSheetsPath(herd.file);
    const baseline = median([1, 2, 3].map(() => millisecondsOfNow(() => bareScan(herd.file))));
    const without: number[] = [];
    const withKept: number[] = [];
    const memory: number[] = [];
    for (let run = 0; run < Math.min(setting.runs, 3); run += 1) {
      fs.rmSync(kept, { force: true });
      without.push(millisecondsOfNow(() => memory.push(runCommand(sheet))));
      withKept.push(took(sheet));
    }
    const first = runSaying(sheet);
    const inProcess = median([1, 2, 3].map(() => millisecondsOfNow(() => openedAndAsked(herd))));
    const keeps = fs.existsSync(kept);
    fs.rmSync(kept, { force: true });
    if (first !== runSaying(sheet)) throw new Error('the kept sheets are not those that reading the log gives');
    const against = 'read all rows in order + JSON.parse';
    const note = keeps
      ? 'the same bytes with and without; the start of the process itself stands below'
      : 'so small a book keeps no sheets: reading it is as quick';
    const about = { on: herd.on, against };
    figures.push(
      timeFigure(
        { ...about, figure: 'command start → first sheet, sheets kept', most: 0.15, note },
        { product: median(withKept), baseline },
      ),
      timeFigure(
        { ...about, figure: 'book opened → its rows, sheets kept, in a process that runs', most: 0.15 },
        { product: inProcess, baseline },
      ),
      timeFigure(
        { ...about, figure: 'command start → first sheet, the log read' },
        { product: median(without), baseline },
      ),
      plainFigure('  its memory', herd.on, `${Math.round(median(memory))} MB at most`),
    );
  }
  figures.push(plainFigure('  start of a process that only says its version', '', `${Math.round(start)} ms`));
  return figures;
};

const openedAndAsked = (herd: HerdBook): void => {
  const book = herd.open();
  sheetsTonight(book);
  book.close();
};

const millisecondsOfNow = (work: () => unknown): number => {
  const began = steadyMilliseconds();
  work();
  return steadyMilliseconds() - began;
};

const took = (args: readonly string[]): number => millisecondsOfNow(() => runCommand(args));

export const memoryFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.long);
  const lines = newFile(setting, 'in.jsonl');
  const count = writeLines(lines, setting.long);
  const again = newFile(setting, 'again.book');
  const now = instantText(herd.lastRecorded);
  const said = [
    ['verify', runCommand(['--book', herd.file, 'verify'])],
    ['export', runCommand(['--book', herd.file, 'export', '--out', newFile(setting, 'out.jsonl')])],
    ['record', runCommand(['--book', again, '--now', now, 'record', lines])],
  ] as const;
  removeBook(again);
  fs.rmSync(lines, { force: true });
  const on = `${herd.on}; ${whole(count)} lines to record`;
  return [
    ...said.map(([name, megabytes]) => plainFigure(`memory of ${name}`, on, `${Math.round(megabytes)} MB at most`)),
    await servedFigure(herd),
  ];
};

/** A herd as JSON Lines, written as it is made up. */
const writeLines = (file: string, wishes: HerdWishes): number => {
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
  return count;
};

/** The real server on the herd's book, after it answered for the next milking with nothing kept. */
const servedFigure = async (herd: HerdBook): Promise<Figure> => {
  fs.rmSync(keptSheetsPath(herd.file), { force: true });
  const book = herd.open();
  const { token } = book.devices.add(`serve bench ${process.pid}`, 'manager');
  book.close();
  const serving = spawn(process.execPath, [TELLING, 'api/byrebook.mjs', '--book', herd.file, 'serve', '--port', '0'], {
    cwd: HOME,
  });
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
  if (url === undefined) throw new Error(`serve said no address: ${erred.slice(-300)}`);
  const first = await millisecondsOf(async () => {
    const cookie = await signedIn(url, token);
    const page = await fetch(`${url}/`, { headers: { cookie, accept: 'text/html' }, redirect: 'manual' });
    await page.text();
    if (page.status !== 200) throw new Error(`the first page was answered with ${page.status}`);
  });
  serving.kill('SIGTERM');
  await ended;
  const megabytes = Number(/most memory (\d+)/.exec(erred)?.[1] ?? 0) / 1_024;
  const note = `its first page, with nothing kept, came after ${spoken(first)}`;
  return plainFigure('memory of serve', herd.on, `${Math.round(megabytes)} MB at most`, note);
};

const ADDRESS = /https?:\/\/[^\s/]+/;
