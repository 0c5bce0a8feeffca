/**
 * What one cow comes to at a milking is kept as long as she has the same file and the milking is the same as far as she is
 * concerned: its window, its groups, and whatever she asked about which milkings are over. A farm of thousands then costs
 * no more than the cows that something happened to. The type of the moment says what the work may go by and no more.
 */
import type { CowFile } from './cow-file.ts';
import type { CowMoment } from './moment.ts';
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
    const { over, answer } = workingAt(moment)((asked) => work(file, asked));
    const { milking, windowEnd, groups } = moment;
    kept.now = [{ milking: milking.id, windowEnd, groups, over, answer }, ...kept.now.slice(0, MOST - 1)];
    return answer;
  };
};

export interface Worked<Answer> {
  /** What was asked about milkings being over, and the answers. */
  readonly over: readonly (readonly [Milking, boolean])[];
  readonly answer: Answer;
}

/** Works for one cow after another at a moment, and notes what each asked about milkings being over. */
export const workingAt = (moment: CowMoment): (<Answer>(work: (moment: CowMoment) => Answer) => Worked<Answer>) => {
  let over: (readonly [Milking, boolean])[] | undefined;
  const asked: CowMoment = {
    ...moment,
    hasEnded: (milking) => {
      const is = moment.hasEnded(milking);
      over ??= [];
      over.push([milking, is]);
      return is;
    },
  };
  return (work) => {
    over = undefined;
    const answer = work(asked);
    return { over: over ?? NOTHING_ASKED, answer };
  };
};

const NOTHING_ASKED: Worked<unknown>['over'] = [];

const isAsThen = (kept: Kept<unknown>, moment: CowMoment): boolean =>
  kept.milking === moment.milking.id &&
  kept.windowEnd === moment.windowEnd &&
  kept.groups === moment.groups &&
  isStillOver(kept, moment);

export const isStillOver = ({ over }: Worked<unknown>, moment: CowMoment): boolean =>
  over.every(([milking, is]) => moment.hasEnded(milking) === is);
