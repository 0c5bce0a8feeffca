/**
 * What one cow comes to at a milking is kept as long as she has the same file and the milking is the same as far as she is
 * concerned: its window, its groups, and whatever she asked about which milkings are over. A farm of thousands then costs
 * no more than the cows that something happened to. The type of the moment says what the work may go by and no more.
 */
import type { CowFile, CowMoment } from './moment.ts';
import type { Milking } from './schedule.ts';

interface Kept<Answer> {
  readonly milking: string;
  readonly windowEnd: number;
  readonly groups: CowMoment['groups'];
  /** What was asked about milkings being over, and the answers. */
  readonly over: readonly (readonly [Milking, boolean])[];
  readonly answer: Answer;
}

/** Milkings a cow: those of some days, since what came late is looked for in all of them. */
const MOST = 12;

export const keptForCow = <Answer>(
  work: (file: CowFile, moment: CowMoment) => Answer,
): ((file: CowFile, moment: CowMoment) => Answer) => {
  const answers = new WeakMap<CowFile, Kept<Answer>[]>();
  return (file, moment) => {
    const hers = answers.get(file) ?? [];
    const have = hers.find((kept) => isAsThen(kept, moment));
    if (have !== undefined) return have.answer;
    const over: (readonly [Milking, boolean])[] = [];
    const hasEnded = (milking: Milking): boolean => {
      const is = moment.hasEnded(milking);
      over.push([milking, is]);
      return is;
    };
    const answer = work(file, { ...moment, hasEnded });
    const { milking, windowEnd, groups } = moment;
    answers.set(file, [{ milking: milking.id, windowEnd, groups, over, answer }, ...hers.slice(0, MOST - 1)]);
    return answer;
  };
};

const isAsThen = (kept: Kept<unknown>, moment: CowMoment): boolean =>
  kept.milking === moment.milking.id &&
  kept.windowEnd === moment.windowEnd &&
  kept.groups === moment.groups &&
  kept.over.every(([milking, is]) => moment.hasEnded(milking) === is);
