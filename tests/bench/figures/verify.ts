/** `verify`: everything recomputed from the rows; by whoever has the book open, and in two threads as the command does it. */
import type { VerifyReport } from '../../../events/log/verify.ts';
import { bareHashes } from '../bare.ts';
import { type Figure, sideBySide, timed, timeFigure } from '../measure.ts';
import { herdBook, type Setting } from '../setting.ts';

export const verifyFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.long);
  const book = herd.open();
  const agrees = ({ ok, problems }: VerifyReport): void => {
    if (!ok) throw new Error(`the herd's book does not verify: ${problems[0]?.problem}`);
  };
  const bare = timed(() => bareHashes(herd.file));
  const here = await sideBySide(
    setting.runs,
    timed(() => agrees(book.verify())),
    bare,
  );
  const apart = await sideBySide(
    setting.runs,
    timed(async () => agrees(await book.verifyApart())),
    bare,
  );
  book.close();
  const about = { on: herd.on, against: 'read all rows + one SHA-256 each', most: 1.5 };
  return [
    timeFigure({ ...about, figure: 'verify, in the thread that asks' }, here),
    timeFigure({ ...about, figure: 'verify, in two threads of its own (as the command does)' }, apart),
  ];
};
