/** One more entry, and every view right again: what is known and the views of the next milking worked out as the server does. */
import fs from 'node:fs';
import { knowingOf } from '../../../api/desk/knowing.ts';
import { knowledgeOf, tonightFrom } from '../../../api/tonight.ts';
import { openBook } from '../../../events/book.ts';
import { readValue } from '../../../events/door.ts';
import { instantText } from '../../../shared/instant.ts';
import { type Figure, sideBySide, timed, timeFigure } from '../measure.ts';
import { herdBook, newFile, removeBook, type Setting } from '../setting.ts';

export const oneMoreFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.long);
  const file = newFile(setting, 'one-more.book');
  fs.copyFileSync(herd.file, file);
  const clock = { now: () => herd.lastRecorded, fixed: true };
  const book = openBook(file, { clock });
  const knowing = knowingOf(book);
  const { known } = knowing.tonight(herd.milking);
  const cow = known.files.find(({ cow: { left } }) => left.length === 0)?.cow.spans.at(-1)?.number ?? '1';
  let told = 0;
  const product = async (): Promise<number> => {
    told += 1;
    const said = {
      type: 'milk-hold',
      subject: cow,
      id: `one more ${told}`,
      time: instantText(herd.lastRecorded),
      data: { reason: 'clots in the milk' },
    };
    const [receipt] = book.record([readValue(said, { source: 'bench', author: 'bench', now: clock.now() })]);
    if (receipt?.outcome !== 'recorded') throw new Error(`one more entry was ${receipt?.outcome}: ${receipt?.problem}`);
    return timed(() => knowing.tonight(herd.milking))();
  };
  const afresh = timed(() => tonightFrom(knowledgeOf(book), { milking: herd.milking }, clock.now()));
  const taken = await sideBySide(setting.runs, product, afresh);
  book.close();
  removeBook(file);
  return [
    timeFigure(
      {
        figure: 'one more entry → every view right again',
        on: herd.on,
        against: 'all of it afresh',
        most: 0.005,
        note: 'what is known is read and folded anew after each entry; nothing is carried on',
      },
      taken,
    ),
  ];
};
