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

/** A thing that has room on itself for what follows from it. */
export interface Roomy {
  readonly room?: unknown[];
}

/**
 * The same thing with room: for things by the ten thousand that are asked about at every milking. Whoever copies the
 * thing, compares it or writes it out does not see the room.
 */
export const withRoom = <Thing extends object>(thing: Thing): Thing & Roomy =>
  Object.defineProperty(thing, 'room', { value: [], enumerable: false });

let places = 0;

/** As `remembered`, several times as fast where the thing has room. */
export const rememberedInRoom = <Thing extends Roomy, Answer>(
  work: (thing: Thing) => Answer,
): ((thing: Thing) => Answer) => {
  const elsewhere = remembered(work);
  const place = places;
  places += 1;
  return (thing) => {
    const { room } = thing;
    if (room === undefined) return elsewhere(thing);
    const have = room[place] as { readonly answer: Answer } | undefined;
    if (have !== undefined) return have.answer;
    const answer = work(thing);
    room[place] = { answer };
    return answer;
  };
};
