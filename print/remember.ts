/**
 * Remembers what was worked out for a key, for as long as the process runs and up to so many keys; then it forgets all and
 * begins again. Only for what follows from the key alone, so that no document can tell whether another went before it.
 */
export const remembering = <Value extends object | number>(most: number) => {
  const known = new Map<string, Value>();
  return (key: string, workOut: () => Value): Value => {
    const have = known.get(key);
    if (have !== undefined) return have;
    const made = workOut();
    if (known.size >= most) known.clear();
    known.set(key, made);
    return made;
  };
};
