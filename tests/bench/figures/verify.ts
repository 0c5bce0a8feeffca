/** `verify`: everything recomputed from the rows. */
import { bareHashes } from '../bare.ts';
import { type Figure, sideBySide, timed, timeFigure } from '../measure.ts';
import { herdBook, type Setting } from '../setting.ts';

export const verifyFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.long);
  const book = herd.open();
  const taken = await sideBySide(
    setting.runs,
    timed(() => {
      const { ok, problems } = book.verify();
      if (!ok) throw new Error(`the herd's book does not verify: ${problems[0]?.problem}`);
    }),
    timed(() => bareHashes(herd.file)),
  );
  book.close();
  return [timeFigure({ figure: 'verify', on: herd.on, against: 'read all rows + one SHA-256 each', most: 1.5 }, taken)];
};
