/** What every milking of a year or more having had its set on the wall costs at the next one: late news of all of them. */
import type { Entry, EntryOf } from '../../../events/entry.ts';
import { know } from '../../../projections/know.ts';
import { knowMore } from '../../../projections/know-more.ts';
import { viewsAt } from '../../../projections/views-at.ts';
import { DAY, type Instant, plusMilliseconds } from '../../../shared/instant.ts';
import { type Figure, sideBySide, timed, timeFigure, whole } from '../measure.ts';
import { type HerdBook, herdBook, type Setting } from '../setting.ts';

export const issuedFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.middle);
  const book = herd.open();
  const { entries, asides } = book.read();
  book.close();
  const bare = know(entries, asides);
  const sets = setsOf(herd, bare, setting.quick ? 30 : 365);
  const milking = bare.farm.schedule?.find(herd.milking);
  const model = entries.findLast((entry): entry is EntryOf<'milk-hold'> => entry.type === 'milk-hold');
  if (milking === undefined || model === undefined) throw new Error('the herd has no milking ahead, or no hold');
  const cows = bare.files.flatMap(({ cow }) => (cow.left.length === 0 ? [cow.spans.at(-1)?.number ?? ''] : []));
  let told = 0;
  const oneMoreOn = (start: typeof bare) => {
    let known = start;
    const views = () => viewsAt(known, { milking, asOf: herd.lastRecorded, position: 0 });
    views();
    return async (): Promise<number> => {
      told += 1;
      const subject = cows[told % cows.length] ?? '';
      const news = { ...model, id: `one more ${told}`, subject, at: herd.lastRecorded };
      return timed(() => {
        known = knowMore(known, [news], asides);
        views();
      })();
    };
  };
  const [withSets, without] = [oneMoreOn(knowMore(bare, sets, asides)), oneMoreOn(bare)];
  await withSets();
  await without();
  const taken = await sideBySide(Math.max(setting.runs, 5), withSets, without);
  return [
    timeFigure(
      {
        figure: 'one more entry, a set issued for every milking',
        on: `${herd.on}; ${whole(sets.length)} issued sets`,
        against: 'the same with none issued',
        note: 'a hold for a cow in milk; late news is looked for in every issued milking',
      },
      taken,
    ),
  ];
};

/** The set of each milking of so many days, with the rows of its own milk-hold sheet. */
const setsOf = ({ lastRecorded }: HerdBook, known: ReturnType<typeof know>, days: number): readonly Entry[] => {
  const sets: Entry[] = [];
  for (const milking of known.farm.schedule?.after(plusMilliseconds(lastRecorded, -days * DAY)) ?? []) {
    if (milking.start > lastRecorded) break;
    const { sheets } = viewsAt(known, { milking, asOf: milking.start, position: 0 });
    const number = sets.length;
    sets.push({
      id: `set ${number}`,
      type: 'sheet-issued',
      at: (milking.start - 60_000) as Instant,
      author: 'bench',
      source: 'bench',
      content: String(number).padStart(64, '0'),
      position: number + 1,
      recordedAt: milking.start,
      data: {
        ref: `AAAA-${number}`,
        book: 'bench',
        milking: milking.id,
        position: 1,
        root: '0'.repeat(64),
        sheets: [
          {
            sheet: 'milk-hold',
            content: JSON.parse(JSON.stringify(sheets['milk-hold'])),
            contentHash: '0'.repeat(64),
            pdfHash: '0'.repeat(64),
          },
        ],
        program: 'byrebook',
        timeZoneData: 'bench',
      },
    });
  }
  return sets;
};
