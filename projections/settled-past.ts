/**
 * What a cow's past says for good. The nth milking after a dose or a calving is the same for every later milking once it
 * lies before the one that is asked about: milkings that are over are judged as they were (`countsFor`). So is whatever
 * was worked out from nothing but such milkings, and it need not be worked out again.
 */
import type { Instant } from '../shared/instant.ts';
import type { CowFile } from './cow-file.ts';
import { type NthMilking, nthMilkingFor } from './milking-count.ts';
import { type CowMoment, countsFor } from './moment.ts';
import { rememberedInRoom } from './remembered.ts';

export interface Past {
  /** Counts milkings for her at this moment. */
  readonly nth: NthMilking;
  /**
   * The answer of `work`, kept under `about` for this and every later moment where it looked at no milking from this one
   * on. `work` may ask nothing else of the moment.
   */
  readonly settled: <Answer>(about: object, what: What, work: () => Answer) => Answer;
  /** Says that `work` goes by whether this instant is past, as by that of a milking. */
  readonly lookedAt: (instant: Instant) => void;
}

/** Kinds of answers kept about one and the same thing. */
export type What = 'milk' | 'outcome' | 'dry-cow' | 'fresh' | 'all';

interface Kept {
  /** The last milking that was looked at. */
  readonly last: number;
  readonly answer: unknown;
}

const milkingsOf = rememberedInRoom((_: CowFile): Map<string, Instant> => new Map());
const answersOf = rememberedInRoom((_: CowFile): Map<What, Map<object, Kept>> => new Map());

export const pastOf = (file: CowFile, moment: CowMoment): Past => {
  const { start } = moment.milking;
  const milkings = milkingsOf(file);
  const answers = answersOf(file);
  const count = nthMilkingFor(moment.schedule, start, countsFor(file, moment));
  let last = Number.NEGATIVE_INFINITY;
  const nth: NthMilking = (after, n) => {
    const key = `${after} ${n}`;
    const have = milkings.get(key);
    const found = have !== undefined && have < start ? have : count(after, n);
    const isOver = found !== null && found < start;
    if (isOver) milkings.set(key, found);
    last = Math.max(last, isOver ? found : Number.POSITIVE_INFINITY);
    return found;
  };
  const settled: Past['settled'] = <Answer>(about: object, what: What, work: () => Answer): Answer => {
    const kept = answers.get(what) ?? new Map<object, Kept>();
    answers.set(what, kept);
    const have = kept.get(about);
    if (have !== undefined && have.last < start) {
      last = Math.max(last, have.last);
      return have.answer as Answer;
    }
    const before = last;
    last = Number.NEGATIVE_INFINITY;
    const answer = work();
    if (last < start) kept.set(about, { last, answer });
    last = Math.max(before, last);
    return answer;
  };
  const lookedAt = (instant: Instant): void => {
    last = Math.max(last, instant);
  };
  return { nth, settled, lookedAt };
};

/** What was settled about it and is at this moment; undefined where that must be worked out. */
export const settledOf = <Answer>(file: CowFile, moment: CowMoment, about: object, what: What): Answer | undefined => {
  const have = answersOf(file).get(what)?.get(about);
  return have !== undefined && have.last < moment.milking.start ? (have.answer as Answer) : undefined;
};
