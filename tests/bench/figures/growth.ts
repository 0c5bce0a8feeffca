/** How cost grows with the length of the log and the size of the herd. */
import { know } from '../../../projections/know.ts';
import { viewsAt } from '../../../projections/views-at.ts';
import { bareScan } from '../bare.ts';
import { type Figure, median, millisecondsOf, timeFigure, whole } from '../measure.ts';
import { herdBook, removeBook, type Setting } from '../setting.ts';

/** The first few still find out what later ones know. */
const MILKINGS = 12;

export const growthFigure = async (setting: Setting): Promise<Figure[]> => {
  const figures: Figure[] = [];
  for (const wishes of setting.growth) {
    const herd = herdBook(setting, wishes);
    const book = herd.open();
    const baseline = await millisecondsOf(() => bareScan(herd.file));
    const began = performance.now();
    const read = book.read();
    const known = know(read.entries, read.asides);
    const folded = performance.now() - began;
    const milking = known.farm.schedule?.find(herd.milking);
    if (milking === undefined) throw new Error(`no milking ${herd.milking}`);
    const views = () => viewsAt(known, { milking, asOf: herd.lastRecorded, position: herd.entries });
    const first = await millisecondsOf(views);
    const times: number[] = [];
    for (const each of known.farm.schedule?.after(milking.start) ?? []) {
      const asked = { milking: each, asOf: milking.start, position: herd.entries };
      times.push(await millisecondsOf(() => viewsAt(known, asked)));
      if (times.length === MILKINGS) break;
    }
    const next = median(times.slice(MILKINGS / 2));
    book.close();
    const against = 'read all rows in order + JSON.parse';
    const cows = known.files.length;
    const gone = `${herd.on}, ${whole(cows)} cows ever`;
    figures.push(
      timeFigure({ figure: 'growth: read and fold', on: gone, against }, { product: folded, baseline }),
      timeFigure({ figure: 'growth: views of one milking', on: gone, against }, { product: first, baseline }),
      timeFigure(
        { figure: 'growth: views of each milking that follows', on: gone, against },
        { product: next, baseline },
      ),
    );
    if (herd.entries > 500_000) removeBook(herd.file);
  }
  return figures;
};
