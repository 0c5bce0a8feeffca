/** Recording JSON Lines in batches of 1,000, each durable before the next. */
import { openBook } from '../../../events/book.ts';
import { readLine } from '../../../events/door.ts';
import { bareInserts } from '../bare.ts';
import { type Figure, rateFigure, sideBySide, timed, whole } from '../measure.ts';
import { inBatches, linesOf, newFile, removeBook, type Setting } from '../setting.ts';

export const recordFigure = async (setting: Setting): Promise<Figure[]> => {
  const { lines, now } = linesOf(setting.long, setting.recorded);
  const product = async (): Promise<number> => {
    const file = newFile(setting, 'record.book');
    const book = openBook(file, { clock: { now: () => now, fixed: true }, create: true });
    const milliseconds = await timed(() => {
      for (const batch of inBatches(lines, 1_000))
        book.record(batch.map((line) => readLine(line, { source: 'bench', author: 'bench', now })));
    })();
    const { position } = book.head();
    book.close();
    removeBook(file);
    if (position !== lines.length) throw new Error(`${position} of ${lines.length} lines were recorded`);
    return milliseconds;
  };
  const baseline = async (): Promise<number> => {
    const file = newFile(setting, 'bare.db');
    const milliseconds = await timed(() => bareInserts(file, lines, 1_000))();
    removeBook(file);
    return milliseconds;
  };
  const taken = await sideBySide(setting.runs, product, baseline);
  const count = lines.length;
  return [
    rateFigure(
      {
        figure: 'record JSON Lines, durable, batches of 1,000',
        on: `${whole(count)} entries into an empty book`,
        against: 'one insert and one SHA-256 each, same batches',
        least: 0.6,
      },
      { count, milliseconds: taken.product },
      { count, milliseconds: taken.baseline },
    ),
  ];
};
