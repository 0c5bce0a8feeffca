/** The figures as a table that can be pasted into a text, and the machine they were taken on (never by its name). */
import os from 'node:os';
import process from 'node:process';
import type { Figure } from './measure.ts';

export const machine = (runs: number): string => {
  const cores = os.cpus();
  const memory = Math.round(os.totalmem() / 1024 ** 3);
  return `${cores.length} cores (${cores[0]?.model.trim() || 'model not told'}), ${memory} GB of memory, ${os.type()}, Node ${process.versions.node}; medians of ${runs}`;
};

const HEADINGS = ['figure', 'measured on', 'Byrebook', 'beside', 'ratio', 'wished for', 'met'];

export const tableOf = (figures: readonly Figure[]): string => {
  const rows = figures.map((each) => [
    each.figure,
    each.on,
    each.product,
    each.baseline,
    each.ratio === null ? '' : digits(each.ratio),
    each.target,
    each.met === null ? '' : each.met ? 'yes' : 'no',
  ]);
  const lines = [HEADINGS, HEADINGS.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`);
  const notes = figures.flatMap(({ figure, note }) => (note === '' ? [] : [`- ${figure.trim()}: ${note}`]));
  return [...lines, ...(notes.length === 0 ? [] : ['', ...notes])].join('\n');
};

const digits = (ratio: number): string =>
  ratio >= 100 ? ratio.toFixed(0) : ratio >= 0.1 ? ratio.toFixed(2) : ratio.toPrecision(2);
