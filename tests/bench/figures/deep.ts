/** `verify --deep`: every issued set worked out again, in one passage through the log; beside reading up to each by itself. */
import { issue } from '../../../api/issue.ts';
import { issuedChecks } from '../../../api/replay.ts';
import { tonight } from '../../../api/tonight.ts';
import { openBook } from '../../../events/book.ts';
import { readValue } from '../../../events/door.ts';
import { bigHerd } from '../../../seeds/big-herd.ts';
import type { Arrival } from '../../../seeds/say.ts';
import { DAY, HOUR, type Instant, mustBeInstant, plusMilliseconds } from '../../../shared/instant.ts';
import { type Figure, millisecondsOf, timeFigure, whole } from '../measure.ts';
import { movedClock, newFile, removeBook, type Setting } from '../setting.ts';

export const deepFigure = async (setting: Setting): Promise<Figure[]> => {
  const file = newFile(setting, 'sets.book');
  const days = setting.quick ? 1 : 30;
  const entries = await makeBook(setting, file, days);
  const book = openBook(file, { clock: movedClock() });
  const sets = book.ownEntries('sheet-issued');
  const product = await millisecondsOf(async () => {
    const wrong = (await issuedChecks(book)).find(({ agrees }) => agrees !== true);
    if (wrong !== undefined) throw new Error(`the set ${wrong.ref} was not worked out again: ${wrong.why}`);
  });
  // A few of them stand for all: each reads nearly the whole log.
  const some = sets.filter((_, index) => index % Math.ceil(sets.length / 9) === 0);
  const alone = await millisecondsOf(() => {
    for (const { at, data } of some) {
      const asOf = data.asOf === undefined ? at : mustBeInstant(data.asOf);
      tonight(book, { milking: data.milking, position: data.position, asOf });
    }
  });
  book.close();
  removeBook(file);
  const figure = timeFigure(
    {
      figure: 'verify --deep, every issued set worked out again',
      on: `${setting.middle.cows} cows, ${setting.middle.years} years, ${whole(entries)} entries; ${whole(sets.length)} issued sets`,
      against: 'reading up to each by itself',
    },
    { product, baseline: (alone / some.length) * sets.length },
  );
  return [{ ...figure, note: `${Math.round(product / sets.length)} ms a set` }];
};

/** The herd's book with a really issued set for each milking of its last days; gives how many entries it has. */
const makeBook = async ({ middle, told }: Setting, file: string, days: number): Promise<number> => {
  told(`issuing the sets of ${days} days`);
  const arrivals = [...bigHerd(middle)];
  const end = arrivals.at(-1)?.recordedAt ?? (0 as Instant);
  const clock = movedClock();
  clock.set(arrivals[0]?.recordedAt ?? end);
  const book = openBook(file, { clock, create: true, name: 'sets' });
  const record = (batch: readonly Arrival[]): void => {
    const last = batch.at(-1);
    if (last === undefined) return;
    clock.set(last.recordedAt);
    book.record(batch.map(({ said }) => readValue(said, { source: 'bench', author: 'bench', now: last.recordedAt })));
  };
  let done = arrivals.findIndex(({ recordedAt }) => recordedAt > end - days * DAY);
  record(arrivals.slice(0, done));
  const { schedule } = tonight(book).known.farm;
  for (const milking of schedule?.after(plusMilliseconds(end, -days * DAY)) ?? []) {
    const when = plusMilliseconds(milking.start, -HOUR / 2);
    if (when > end) break;
    const until = arrivals.findIndex(({ recordedAt }) => recordedAt > when);
    record(arrivals.slice(done, until));
    done = Math.max(done, until);
    clock.set(when);
    await issue(book, { milking: milking.id });
  }
  record(arrivals.slice(done));
  const { position } = book.head();
  book.close();
  return position;
};
