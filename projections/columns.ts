/**
 * Columns beside the list of all files: one value a file, carried over to the next list where the file is the very same.
 * A herd has many more cows that left than cows that are there; what is always the same about them is found in a column
 * without looking at any of them.
 */
/** A list of the cows' files, each of which never changes. */
type Files = readonly object[];

const columns = new WeakMap<Files, Map<symbol, unknown[]>>();

/** The values of one kind beside these files; undefined where nobody has worked one out. Whoever does puts it there. */
export const columnOf = <Value>(name: string): ((files: Files) => (Value | undefined)[]) => {
  const kind = Symbol(name);
  return (files) => {
    const beside = columns.get(files) ?? new Map<symbol, unknown[]>();
    columns.set(files, beside);
    const have = beside.get(kind) ?? Array.from<unknown>({ length: files.length });
    beside.set(kind, have);
    return have as (Value | undefined)[];
  };
};

/** Lays the columns of a list beside the list that follows it. */
export const carryColumns = (before: Files, after: Files): void => {
  const beside = columns.get(before);
  if (beside === undefined || before === after) return;
  const others: number[] = [];
  for (let place = 0; place < after.length; place += 1) if (before[place] !== after[place]) others.push(place);
  columns.set(
    after,
    new Map(
      [...beside].map(([kind, values]) => {
        const carried = values.slice(0, after.length);
        for (const place of others) carried[place] = undefined;
        return [kind, carried];
      }),
    ),
  );
};
