/** From the start of a command to its first sheet, in a process of its own; and what its memory came to. */
import { spawnSync } from 'node:child_process';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { bareScan } from '../bare.ts';
import { type Figure, median, millisecondsOf, plainFigure, sideBySide, timed, timeFigure } from '../measure.ts';
import { herdBook, newFile, type Setting } from '../setting.ts';

const HOME = fileURLToPath(new URL('../../../', import.meta.url));
/** Tells the most memory that the process ever had, when it ends. */
const TELLING = `--import=data:text/javascript,${encodeURIComponent(
  "process.on('exit',()=>process.stderr.write('most memory '+process.resourceUsage().maxRSS+'\\n'))",
)}`;

/** Runs a command to its end; gives the most memory it had, in megabytes. */
export const runCommand = (args: readonly string[], limitMilliseconds = 600_000): number => {
  const { status, stderr } = spawnSync(process.execPath, [TELLING, 'api/byrebook.mjs', ...args], {
    cwd: HOME,
    encoding: 'utf8',
    timeout: limitMilliseconds,
    maxBuffer: 2 ** 30,
  });
  if (status !== 0) throw new Error(`byrebook ${args.join(' ')} ended with ${status}: ${stderr.slice(-500)}`);
  return Number(/most memory (\d+)/.exec(stderr)?.[1] ?? 0) / 1_024;
};

export const firstSheetFigure = async (setting: Setting): Promise<Figure[]> => {
  const figures: Figure[] = [];
  const bare: number[] = [];
  for (const wishes of [setting.middle, setting.long]) {
    const herd = herdBook(setting, wishes);
    const sheet = ['print', '--milking', herd.milking, '--sheet', 'milk-hold', '--json'];
    const memory: number[] = [];
    const taken = await sideBySide(
      Math.min(setting.runs, 3),
      () => millisecondsOf(() => memory.push(runCommand(['--book', herd.file, ...sheet]))),
      timed(() => bareScan(herd.file)),
    );
    bare.push(await millisecondsOf(() => runCommand(['--help'])));
    figures.push(
      timeFigure(
        {
          figure: 'command start → first sheet',
          on: herd.on,
          against: 'read all rows in order + JSON.parse',
          most: 0.15,
          note: 'whole process; there is no snapshot, the log is read anew by each command',
        },
        taken,
      ),
      plainFigure('  its memory', herd.on, `${Math.round(median(memory))} MB at most`, ''),
    );
  }
  figures.push(plainFigure('  of which a process that only says its help', '', `${Math.round(median(bare))} ms`));
  return figures;
};

export const memoryFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.long);
  const file = newFile(setting, 'out.jsonl');
  const said = [
    ['verify', runCommand(['--book', herd.file, 'verify'])],
    ['export', runCommand(['--book', herd.file, 'export', '--out', file])],
    [
      'record',
      runCommand([
        '--book',
        newFile(setting, 'again.book'),
        '--now',
        new Date(herd.lastRecorded).toISOString(),
        'record',
        file,
      ]),
    ],
  ] as const;
  return said.map(([name, megabytes]) =>
    plainFigure(`memory of ${name}`, herd.on, `${Math.round(megabytes)} MB at most`),
  );
};
