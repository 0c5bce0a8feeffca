/** The sheets of a milking as they could be known half of the log ago. */
import { tonight } from '../../../api/tonight.ts';
import type { Instant } from '../../../shared/instant.ts';
import { DAY } from '../../../shared/instant.ts';
import { bareScan } from '../bare.ts';
import { type Figure, sideBySide, timed, timeFigure, whole } from '../measure.ts';
import { herdBook, type Setting } from '../setting.ts';

export const replayFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.long);
  const back = setting.long.years / 2;
  const knownAt = (herd.lastRecorded - Math.round(back * 365) * DAY) as Instant;
  const book = herd.open();
  const { position } = tonight(book, { knownAt });
  const taken = await sideBySide(
    setting.runs,
    timed(() => tonight(book, { knownAt })),
    timed(() => bareScan(herd.file, position)),
  );
  book.close();
  return [
    timeFigure(
      {
        figure: `replay --known-at, ${back} years back`,
        on: `${herd.on}, of which ${whole(position)} were known then`,
        against: 'the bare scan up to there',
        most: 1.5,
      },
      taken,
    ),
  ];
};
