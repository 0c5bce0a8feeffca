/**
 * What the cows of a herd come to at one milking, kept beside the list of their files. After an entry about one cow all the
 * others answer as they did: `keptForCow` knows that too, but has to look at each of them to find out, and a herd has
 * thousands. Goes by the same as `keptForCow` does, and no more.
 */
import { columnAbout, columnOf } from './columns.ts';
import { type CowFile, putAway } from './cow-file.ts';
import { isStillOver, type Worked, workingAt } from './kept-for-cow.ts';
import { type CowMoment, closedAts } from './moment.ts';
import { remembered } from './remembered.ts';

type Work<Answer> = (file: CowFile, moment: CowMoment) => Answer;

/** May anything be said of her at any milking? Goes by her file and the labels that it was opened by. */
type Concerns = (file: CowFile, labels: CowMoment['farm']) => boolean;
const anyCow: Concerns = () => true;

/** Asked of the places that the list of files has. */
export type FoundAt<Found> = (place: number) => Found;

/** With the answer comes what it hangs on besides, for work that goes on from it. */
export const keptForHerd = <Answer>(
  name: string,
  work: Work<Answer>,
): ((files: readonly CowFile[], moment: CowMoment) => FoundAt<Worked<Answer>>) => {
  const columnAt = columnAbout<Worked<Answer>>(name, MOST);
  return (files, moment) => {
    const kept = columnAt(files, asFarAsCowsGo(moment));
    const worked = workingAt(moment);
    return (place) => {
      const have = kept[place];
      if (have !== undefined && isStillOver(have, moment)) return have;
      const now = worked((asked) => work(files[place] as CowFile, asked));
      kept[place] = now;
      return now;
    };
  };
};

/**
 * Lists of what is said of cows, most of whom have nothing said of them: those are one and the same thing in the column,
 * so that nobody is looked at but the few.
 */
export const saidForHerd = <Said>(
  name: string,
  work: Work<readonly Said[]>,
  concerns: Concerns = anyCow,
  concernsOf = columnOf<boolean>(`${name}, whom it may concern`),
): ((files: readonly CowFile[], moment: CowMoment) => FoundAt<readonly Said[]>) => {
  const columnAt = columnAbout<Worked<readonly Said[]>>(name, MOST);
  const nothing: Worked<readonly Said[]> = { over: [], answer: [] };
  return (files, moment) => {
    const kept = columnAt(files, asFarAsCowsGo(moment));
    const concerned = concernsOf(files);
    const worked = workingAt(moment);
    return (place) => {
      const have = kept[place];
      if (have === nothing || concerned[place] === false) return nothing.answer;
      if (have !== undefined && isStillOver(have, moment)) return have.answer;
      const file = files[place] as CowFile;
      concerned[place] ??= concerns(file, moment.farm);
      if (concerned[place] === false) return nothing.answer;
      const now = worked((asked) => work(file, asked));
      kept[place] = now.answer.length === 0 && now.over.length === 0 ? nothing : now;
      return now.answer;
    };
  };
};

/** The same of all cows that may be in the herd at some time from `from` on, in the order of the files. */
export const saidFrom = <Said>(
  name: string,
  work: Work<readonly Said[]>,
  concerns?: Concerns,
): ((files: readonly CowFile[], moment: CowMoment, from: number) => readonly Said[]) => {
  const saidOf = saidForHerd(name, work, concerns);
  return (files, moment, from) => {
    const said = saidOf(files, moment);
    const all: Said[] = [];
    forOpen(files, from, (place) => all.push(...said(place)));
    return all;
  };
};

/**
 * What is to be said of every cow that ever was, in the order of the files, by work that goes by her own entries and by which
 * milkings are over, never by how she stands at this milking: once her file is closed it is said for good, and cows that
 * left long ago are not looked at again. Whose file was closed before `from` is not asked at all.
 */
export const saidOfAll = <Said>(
  name: string,
  work: Work<readonly Said[]>,
  concerns: Concerns = anyCow,
): ((files: readonly CowFile[], moment: CowMoment, from?: number) => readonly Said[]) => {
  const concernsOf = columnOf<boolean>(`${name}, whom it may concern`);
  const openOf = saidForHerd(name, work, concerns, concernsOf);
  if (concerns !== anyCow) askedOfClosed.push({ concerns, concernsOf });
  const saidOf = columnOf<Worked<readonly Said[]>>(`${name}, once closed`);
  const nothing: Worked<readonly Said[]> = { over: [], answer: [] };
  return (files, moment, from = Number.NEGATIVE_INFINITY) => {
    const closed = closedAts(files);
    const worked = workingAt(moment);
    const concerned = concernsOf(files);
    const sayOnce = (place: number): Worked<readonly Said[]> => {
      const file = files[place] as CowFile;
      concerned[place] ??= concerns(file, moment.farm);
      const said = concerned[place] ? worked((asked) => work(file, asked)) : nothing;
      putAway(file);
      return said.answer.length === 0 && said.over.length === 0 ? nothing : said;
    };
    const kept = saidOf(files);
    const open = openOf(files, moment);
    const { start } = moment.milking;
    const all: Said[] = [];
    files.forEach((_, place) => {
      const have = kept[place];
      if (isBefore(closed[place], from)) return;
      if (!isBefore(closed[place], start)) {
        all.push(...open(place));
        return;
      }
      if (have === nothing) return;
      const said = have !== undefined && isStillOver(have, moment) ? have : sayOnce(place);
      kept[place] = said;
      all.push(...said.answer);
    });
    return all;
  };
};

interface AskedOfClosed {
  readonly concerns: Concerns;
  readonly concernsOf: (files: readonly CowFile[]) => (boolean | undefined)[];
}

const askedOfClosed: AskedOfClosed[] = [];

/**
 * Looks once through the files of all cows that left. Best done before the others are opened: of what V8 sees being made for
 * the first cows and thrown away it expects nothing else for the next, and what is thrown away then costs no memory.
 */
export const lookThroughClosed = (files: readonly CowFile[], labels: CowMoment['farm']): void => {
  const closed = closedAts(files);
  for (const { concerns, concernsOf } of askedOfClosed) {
    const concerned = concernsOf(files);
    for (let place = 0; place < files.length; place += 1) {
      if (concerned[place] !== undefined || !Number.isFinite(closed[place])) continue;
      const file = files[place] as CowFile;
      concerned[place] = concerns(file, labels);
      putAway(file);
    }
  }
};

const isBefore = (closedAt: number | undefined, start: number): boolean => closedAt !== undefined && closedAt < start;

/** The places of the files that are open at some time from `from` on, in order. */
export const forOpen = (files: readonly CowFile[], from: number, each: (place: number) => void): void => {
  const closed = closedAts(files);
  for (let place = 0; place < files.length; place += 1) if ((closed[place] ?? 0) >= from) each(place);
};

/** Columns of a kind: the sheets of two milkings may be asked for in turns. */
const MOST = 2;
const MOST_MILKINGS = 16;

/**
 * One and the same thing for moments that are the same for every cow, whatever the hour at which is asked; with `besides`,
 * one for each such thing.
 */
export const asFarAsCowsGo = (moment: CowMoment, besides?: object): object => {
  const same = sameMilking(moment);
  if (besides === undefined) return same;
  const pairs = pairsWith(besides);
  const have = pairs.get(same) ?? { same, besides };
  pairs.set(same, have);
  return have;
};

const sameMilking = ({ milking, windowEnd, groups }: CowMoment): object => {
  const known = milkingsOf(groups);
  const key = `${milking.id} ${windowEnd}`;
  const have = known.get(key);
  if (have !== undefined) return have;
  if (known.size >= MOST_MILKINGS) known.clear();
  const same = { milking, windowEnd };
  known.set(key, same);
  return same;
};

const milkingsOf = remembered((_: CowMoment['groups']): Map<string, object> => new Map());
const pairsWith = remembered((_: object): WeakMap<object, object> => new WeakMap());
