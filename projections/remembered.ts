/**
 * What follows from a thing alone is worked out once and kept as long as the thing is. Only for things that never change,
 * so that the answer asked for again is the answer: no rule can tell the difference.
 */
export const remembered = <Thing extends object, Answer>(
  work: (thing: Thing) => Answer,
): ((thing: Thing) => Answer) => {
  const answers = new WeakMap<Thing, { readonly answer: Answer }>();
  return (thing) => {
    const have = answers.get(thing);
    if (have !== undefined) return have.answer;
    const answer = work(thing);
    answers.set(thing, { answer });
    return answer;
  };
};
