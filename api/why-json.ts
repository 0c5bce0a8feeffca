/** What `why` knows of a cow, as JSON: every list she is or is not on, each reason with its rule, its sentence and its entries. */
import type { Because } from '../projections/because.ts';
import { whyCow } from '../projections/why.ts';
import { type Voice, voiceOf } from './command-line/readable.ts';
import type { Tonight } from './tonight.ts';

/** Null where the number means no cow of the herd then, and nothing unplaced. */
export const whyJson = (answer: Tonight, number: string) => {
  const { known, milking, asOf, position, views } = answer;
  const found = whyCow(known, { milking, asOf, position }, views, number);
  const unplaced = views.sheets['milk-hold'].unplaced.filter((row) => row.number === number);
  if (found.length === 0 && unplaced.length === 0) return null;
  const voice = voiceOf(views);
  return {
    milking: views.milking,
    cows: found.map((each) => ({
      ...each,
      lists: each.lists.map((list) => ({
        ...list,
        reasons: list.reasons.map((reason) => reasonJson(reason, voice)),
        over: list.over.map((reason) => reasonJson(reason, voice)),
      })),
    })),
    unplaced: unplaced.map((row) => ({ number: row.number, settleKey: row.key, ...reasonJson(row.because, voice) })),
  };
};

const reasonJson = (reason: Because, voice: Voice) => ({
  rule: reason.rule,
  key: reason.key,
  says: voice.says(reason),
  values: reason.values,
  entries: reason.entries,
});
