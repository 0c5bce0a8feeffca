/** Answers kept for things that come again and again: dates, names of medicines. When there are too many, all go. */

export const kept = <Asked, Answer>(most: number, work: (asked: Asked) => Answer): ((asked: Asked) => Answer) => {
  const answers = new Map<Asked, Answer>();
  return (asked) => {
    const have = answers.get(asked);
    if (have !== undefined) return have;
    const answer = work(asked);
    if (answers.size >= most) answers.clear();
    answers.set(asked, answer);
    return answer;
  };
};
