/**
 * Columns beside the list of all files: one value a file, carried over to the next list where the file is the very same.
 * A herd has many more cows that left than cows that are there, and after an entry all but one of them are what they were:
 * what is still the same about them is found in a column without looking at any of them.
 */
/** A list of the cows' files, each of which never changes. */
type Files = readonly object[];

interface Column {
  /** What the values are about, besides the file; a milking, for one. Undefined where the file alone says it. */
  readonly about: object | undefined;
  readonly values: unknown[];
}

type Beside = Map<symbol, readonly Column[]>;

const columns = new WeakMap<Files, Beside>();

/** The values of one kind beside these files; undefined where nobody has worked one out. Whoever does puts it there. */
export const columnOf = <Value>(name: string): ((files: Files) => (Value | undefined)[]) => {
  const at = columnFor<Value>(name, 1);
  return (files) => at(files, undefined);
};

/** The same for values that are about something besides the file; the last `most` things that were asked about are kept. */
export const columnAbout = <Value>(name: string, most = 1): ((files: Files, about: object) => (Value | undefined)[]) =>
  columnFor(name, most);

const columnFor = <Value>(name: string, most: number) => {
  const kind = Symbol(name);
  return (files: Files, about: object | undefined): (Value | undefined)[] => {
    const beside: Beside = columns.get(files) ?? new Map();
    columns.set(files, beside);
    const kept = beside.get(kind) ?? [];
    const have = kept.find((each) => each.about === about);
    if (have !== undefined) return have.values as (Value | undefined)[];
    const values = Array.from<Value | undefined>({ length: files.length });
    beside.set(kind, [{ about, values }, ...kept.slice(0, most - 1)]);
    return values;
  };
};

/** Lays the columns of a list beside the list that follows it. */
export const carryColumns = (before: Files, after: Files): void => {
  const beside = columns.get(before);
  if (beside === undefined || before === after) return;
  const carry = before.length === after.length ? inPlace(before, after) : moved(before, after);
  const carried = ({ about, values }: Column): Column => ({ about, values: carry(values) });
  columns.set(after, new Map([...beside].map(([kind, kept]) => [kind, kept.map(carried)])));
};

type Carry = (values: readonly unknown[]) => unknown[];

const inPlace = (before: Files, after: Files): Carry => {
  const others: number[] = [];
  for (let place = 0; place < after.length; place += 1) if (before[place] !== after[place]) others.push(place);
  return (values) => {
    const carried = values.slice();
    for (const place of others) carried[place] = undefined;
    return carried;
  };
};

/** A cow came, or one is known not to be: the others stand elsewhere than they stood. */
const moved = (before: Files, after: Files): Carry => {
  const places = new Map(before.map((file, place) => [file, place]));
  const from = after.map((file) => places.get(file) ?? -1);
  return (values) => from.map((place) => values[place]);
};
