/** One more entry, and every view right again: what is known and the views of the next milking worked out as the server does. */
import fs from 'node:fs';
import { knowingOf } from '../../../api/desk/knowing.ts';
import { tonightFrom } from '../../../api/tonight.ts';
import { type Book, openBook } from '../../../events/book.ts';
import { readValue } from '../../../events/door.ts';
import { know } from '../../../projections/know.ts';
import { DAY, instantText, plusMilliseconds } from '../../../shared/instant.ts';
import { type Figure, sideBySide, timed, timeFigure } from '../measure.ts';
import { type HerdBook, herdBook, newFile, removeBook, type Setting } from '../setting.ts';

const LATE = 365 * DAY;

export const oneMoreFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.long);
  const file = newFile(setting, 'one-more.book');
  fs.copyFileSync(herd.file, file);
  const clock = { now: () => herd.lastRecorded, fixed: true };
  const book = openBook(file, { clock });
  const knowing = knowingOf(book);
  const afresh = () => {
    const read = book.read();
    return tonightFrom(
      { ...read, entries: () => read.entries, known: know(read.entries, read.asides) },
      { milking: herd.milking },
      clock.now(),
    );
  };
  const { known } = knowing.tonight(herd.milking);
  const cows = known.files.flatMap(({ cow }) => (cow.left.length === 0 ? [cow.spans.at(-1)?.number ?? '1'] : []));
  const say = sayingIn(book, herd);
  // What makes going on quick is worked out with the first entry that comes in.
  say('milk-hold', cows[0], 0, { reason: 'clots in the milk' });
  knowing.tonight(herd.milking);
  const measured = async (figure: string, note: string, one: (run: number) => void, most?: number): Promise<Figure> => {
    let run = 0;
    const product = async (): Promise<number> => {
      run += 1;
      one(run);
      return timed(() => knowing.tonight(herd.milking))();
    };
    const taken = await sideBySide(Math.max(setting.runs, 3), product, timed(afresh));
    return timeFigure(
      { figure, on: herd.on, against: 'all of it afresh', note, ...(most === undefined ? {} : { most }) },
      taken,
    );
  };
  const figures = [
    await measured(
      'one more entry → every view right again',
      'a hold for a cow in milk, from the recorded entry on',
      (run) => say('milk-hold', cows[run * 7], 0, { reason: 'clots in the milk' }),
      0.005,
    ),
    await measured(
      'a late entry of a year ago → every view right again',
      'a service of a cow that is still there',
      (run) => say('service', cows[run * 11], LATE, { how: 'insemination' }),
      0.005,
    ),
    await measured(
      'an entry about the whole farm → every view right again',
      'a label: every hold is worked out anew',
      (run) => say('medicine-listed', undefined, 0, { name: `Rinse ${run}`, milkHold: 'none', meatDays: 0 }),
    ),
  ];
  if (JSON.stringify(knowing.tonight(herd.milking).views) !== JSON.stringify(afresh().views))
    throw new Error('the views that were carried on are not those of reading all anew');
  book.close();
  removeBook(file);
  return figures;
};

const sayingIn = (book: Book, herd: HerdBook) => {
  let told = 0;
  return (type: string, subject: string | undefined, ago: number, data: unknown): void => {
    told += 1;
    const said = {
      type,
      ...(subject === undefined ? {} : { subject }),
      id: `one more ${told}`,
      time: instantText(plusMilliseconds(herd.lastRecorded, -ago)),
      data,
    };
    const [receipt] = book.record([readValue(said, { source: 'bench', author: 'bench', now: herd.lastRecorded })]);
    if (receipt?.outcome !== 'recorded') throw new Error(`one more entry was ${receipt?.outcome}: ${receipt?.problem}`);
  };
};
