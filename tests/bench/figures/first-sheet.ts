/** From the start of a command to its first sheet, in a process of its own; and what its memory came to. */
import fs from 'node:fs';
import { keptSheetsPath, sheetsTonight } from '../../../api/kept-sheets.ts';
import { steadyMilliseconds } from '../../../shared/clock.ts';
import { bareScan } from '../bare.ts';
import { type Figure, median, plainFigure, timeFigure } from '../measure.ts';
import { type HerdBook, herdBook, type Setting } from '../setting.ts';
import { ran } from './commands.ts';

/** Runs a command to its end; gives the most memory it had, in megabytes. */
const runCommand = (args: readonly string[]): number => ran(args).megabytes;

const runSaying = (args: readonly string[]): string => ran(args).said;

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
