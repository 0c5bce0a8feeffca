/**
 * Answers kept for things that come again and again: dates, names of medicines, words on paper. When there are too many, all
 * go. Only for what follows from the key alone, so that nobody can tell whether it was asked before.
 */

/** Kept by a key; `work` makes the answer where there is none yet. */
export const keptBy = <Key, Answer>(most: number): ((key: Key, work: () => Answer) => Answer) => {
  const answers = new Map<Key, Answer>();
  return (key, work) => {
    const have = answers.get(key);
    if (have !== undefined) return have;
    const answer = work();
    if (answers.size >= most) answers.clear();
    answers.set(key, answer);
    return answer;
  };
};

export const kept = <Asked, Answer>(most: number, work: (asked: Asked) => Answer): ((asked: Asked) => Answer) => {
  const answer = keptBy<Asked, Answer>(most);
  return (asked) => answer(asked, () => work(asked));
};
