/**
 * What one cow comes to at a milking is kept as long as she has the same file and the milking is the same as far as she is
 * concerned: its window, its groups, and whatever she asked about which milkings are over. A farm of thousands then costs
 * no more than the cows that something happened to. The type of the moment says what the work may go by and no more.
 */
import { columnOf } from './columns.ts';
import { type CowFile, putAway } from './cow-file.ts';
import { type CowMoment, closedAts } from './moment.ts';
import { rememberedInRoom } from './remembered.ts';
import type { Milking } from './schedule.ts';

interface Kept<Answer> extends Worked<Answer> {
  readonly milking: string;
  readonly windowEnd: number;
  readonly groups: CowMoment['groups'];
}

/** Milkings a cow: those of some days, since what came late is looked for in all of them. */
const MOST = 12;

export const keptForCow = <Answer>(
  work: (file: CowFile, moment: CowMoment) => Answer,
): ((file: CowFile, moment: CowMoment) => Answer) => {
  const keptOf = rememberedInRoom((_: CowFile): { now: readonly Kept<Answer>[] } => ({ now: [] }));
  return (file, moment) => {
    const kept = keptOf(file);
    for (const each of kept.now) if (isAsThen(each, moment)) return each.answer;
    const { over, answer } = worked(work, file, moment);
    const { milking, windowEnd, groups } = moment;
    kept.now = [{ milking: milking.id, windowEnd, groups, over, answer }, ...kept.now.slice(0, MOST - 1)];
    return answer;
  };
};

/** Puts down what a closed file says for good, where it is not there yet. Everything of the kind is asked while it lies open. */
type SayOnce = (files: readonly CowFile[], place: number, moment: CowMoment) => void;

const saidOnce: SayOnce[] = [];

/**
 * What is to be said of every cow that ever was, in the order of the files, by work that goes by her own entries and by which
 * milkings are over, never by how she stands at this milking: once her file is closed it is said for good, and cows that
 * left long ago are not looked at again.
 */
export const saidOfAll = <Said>(
  work: (file: CowFile, moment: CowMoment) => readonly Said[],
): ((files: readonly CowFile[], moment: CowMoment) => readonly Said[]) => {
  const open = keptForCow(work);
  const saidOf = columnOf<Worked<readonly Said[]>>('said once closed');
  const nothing: Worked<readonly Said[]> = { over: [], answer: [] };
  saidOnce.push((files, place, moment) => {
    const kept = saidOf(files);
    const have = kept[place];
    if (have !== undefined && isStillOver(have, moment)) return;
    const said = worked(work, files[place] as CowFile, moment);
    kept[place] = said.answer.length === 0 && said.over.length === 0 ? nothing : said;
  });
  return (files, moment) => {
    const closed = closedAts(files);
    const kept = saidOf(files);
    const { start } = moment.milking;
    const all: Said[] = [];
    files.forEach((_, place) => {
      const have = kept[place];
      if (have === nothing && isBefore(closed[place], start)) return;
      const file = files[place] as CowFile;
      if (!isBefore(closed[place], start)) {
        all.push(...open(file, moment));
        return;
      }
      if (have === undefined || !isStillOver(have, moment)) {
        for (const say of saidOnce) say(files, place, moment);
        putAway(file);
      }
      all.push(...(kept[place]?.answer ?? []));
    });
    return all;
  };
};

const isBefore = (closedAt: number | undefined, start: number): boolean => closedAt !== undefined && closedAt < start;

interface Worked<Answer> {
  /** What was asked about milkings being over, and the answers. */
  readonly over: readonly (readonly [Milking, boolean])[];
  readonly answer: Answer;
}

const worked = <Answer>(
  work: (file: CowFile, moment: CowMoment) => Answer,
  file: CowFile,
  moment: CowMoment,
): Worked<Answer> => {
  const over: (readonly [Milking, boolean])[] = [];
  const hasEnded = (milking: Milking): boolean => {
    const is = moment.hasEnded(milking);
    over.push([milking, is]);
    return is;
  };
  return { answer: work(file, { ...moment, hasEnded }), over };
};

const isAsThen = (kept: Kept<unknown>, moment: CowMoment): boolean =>
  kept.milking === moment.milking.id &&
  kept.windowEnd === moment.windowEnd &&
  kept.groups === moment.groups &&
  isStillOver(kept, moment);

const isStillOver = ({ over }: Worked<unknown>, moment: CowMoment): boolean =>
  over.every(([milking, is]) => moment.hasEnded(milking) === is);
