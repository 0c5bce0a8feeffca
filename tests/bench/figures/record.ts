/** Recording JSON Lines in batches of 1,000, each durable before the next. */
import { openBook } from '../../../events/book.ts';
import { readLine } from '../../../events/door.ts';
import { bareInserts, bareRows, bareWholeInserts } from '../bare.ts';
import { type Figure, rateFigure, sideBySide, whole as spokenCount, timed } from '../measure.ts';
import { inBatches, linesOf, newFile, removeBook, type Setting } from '../setting.ts';

export const recordFigure = async (setting: Setting): Promise<Figure[]> => {
  const { lines, now } = linesOf(setting.long, setting.recorded);
  const intoNew = (name: string, work: (file: string) => void) => async (): Promise<number> => {
    const file = newFile(setting, name);
    const milliseconds = await timed(() => work(file))();
    removeBook(file);
    return milliseconds;
  };
  const record = (file: string): void => {
    const book = openBook(file, { clock: { now: () => now, fixed: true }, create: true });
    for (const batch of inBatches(lines, BATCH))
      book.record(batch.map((line) => readLine(line, { source: 'bench', author: 'bench', now })));
    const { position } = book.head();
    book.close();
    if (position !== lines.length) throw new Error(`${position} of ${lines.length} lines were recorded`);
  };
  const kept = newFile(setting, 'rows.book');
  record(kept);
  const rows = bareRows(kept);
  removeBook(kept);
  const product = intoNew('record.book', record);
  const bare = await sideBySide(
    setting.runs,
    product,
    intoNew('bare.db', (file) => bareInserts(file, lines, BATCH)),
  );
  const whole = await sideBySide(
    setting.runs,
    product,
    intoNew('bare.db', (file) => bareWholeInserts(file, rows, BATCH)),
  );
  const count = lines.length;
  const figure = 'record JSON Lines, durable, batches of 1,000';
  const on = `${spokenCount(count)} entries into an empty book`;
  const beside = (against: string, taken: { product: number; baseline: number }): Figure =>
    rateFigure(
      { figure, on, against, least: 0.6 },
      { count, milliseconds: taken.product },
      { count, milliseconds: taken.baseline },
    );
  return [
    beside('one insert of the text and one SHA-256 each, same batches', bare),
    beside(
      'the rows as the log has them, with the index on the id and no guards, one SHA-256 each, same batches',
      whole,
    ),
  ];
};

const BATCH = 1_000;
