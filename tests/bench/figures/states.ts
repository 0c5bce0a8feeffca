/** From the whole log to every cow's state, and on to every sheet, alert and doubt of the next milking. */
import { know } from '../../../projections/know.ts';
import { viewsAt } from '../../../projections/views-at.ts';
import { bareScan } from '../bare.ts';
import { type Figure, median, millisecondsOf, sideBySide, timeFigure } from '../measure.ts';
import { herdBook, type Setting } from '../setting.ts';

export const statesFigure = async (setting: Setting): Promise<Figure[]> => {
  const figures: Figure[] = [];
  for (const wishes of [setting.middle, setting.long]) {
    const herd = herdBook(setting, wishes);
    const book = herd.open();
    const [viewed, reads]: [number[], number[]] = [[], []];
    const product = () =>
      millisecondsOf(async () => {
        let read = { entries: book.read({ position: 0 }).entries, asides: book.read({ position: 0 }).asides };
        reads.push(
          await millisecondsOf(() => {
            read = book.read();
          }),
        );
        const known = know(read.entries, read.asides);
        const milking = known.farm.schedule?.find(herd.milking);
        if (milking === undefined) throw new Error(`no milking ${herd.milking}`);
        viewed.push(
          await millisecondsOf(() => viewsAt(known, { milking, asOf: herd.lastRecorded, position: herd.entries })),
        );
      });
    const taken = await sideBySide(setting.runs, product, () => millisecondsOf(() => bareScan(herd.file)));
    book.close();
    const against = 'read all rows in order + JSON.parse';
    const { on } = herd;
    const views = median(viewed);
    figures.push(
      timeFigure({ figure: 'whole log → states and doubts (read, check, fold, views)', on, against, most: 2 }, taken),
      timeFigure({ figure: '  of which reading and checking', on, against }, { ...taken, product: median(reads) }),
      timeFigure(
        { figure: '  of which folding', on, against },
        { ...taken, product: taken.product - views - median(reads) },
      ),
      timeFigure({ figure: '  of which the views of one milking', on, against }, { ...taken, product: views }),
    );
  }
  return figures;
};
