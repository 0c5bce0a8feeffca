/** Who is meant, for the second reading: fold order, strikes, numbers. */
import type { Entry } from '../../../events/entry.ts';

const FIRST = ['farm-set-up', 'medicine-listed', 'cow-entered'];

/** What counts, in the order of the fold. */
export const whatCounts = (entries: readonly Entry[]): Entry[] => {
  const struck = new Set<string>();
  for (const entry of entries) if (entry.type === 'entry-struck') struck.add(entry.data.entry);
  const rank = ({ type }: Entry) => (FIRST.includes(type) ? FIRST.indexOf(type) : FIRST.length);
  const text = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
  return entries
    .filter(({ id, type }) => type !== 'entry-struck' && !struck.has(id))
    .sort((a, b) => a.at - b.at || rank(a) - rank(b) || text(a.id, b.id) || text(a.content, b.content));
};

/** What may count for a cow whose number it only perhaps is: it holds and frees nothing. */
const HOLDS: readonly string[] = ['treatment', 'vet-hold-time', 'milk-hold'];
const mayHold = (entry: Entry): boolean =>
  HOLDS.includes(entry.type) || (entry.type === 'residue-test' && entry.data.result === 'positive');

interface Bears {
  readonly number: string;
  readonly from: number;
  to: number;
}

export interface Own {
  readonly key: string;
  readonly entries: readonly Entry[];
  readonly numbers: readonly string[];
}

interface Known {
  readonly key: string;
  readonly entries: Entry[];
  readonly numbers: Bears[];
}

const plain = (number: string): string => number.replace(/^0+/, '');

/** In the minute of a change both numbers are hers, for who wrote what first nobody knows. */
const bear = (cows: readonly Known[], number: string, at: number): Known[] =>
  cows.filter(({ numbers }) => numbers.some((each) => each.number === number && each.from <= at && each.to >= at));

const now = ({ numbers }: Known): Bears | undefined => numbers.at(-1);

/** Each cow that ever entered, by the numbers she had. */
const knownCows = (inOrder: readonly Entry[]): readonly Known[] => {
  const cows: Known[] = [];
  const officials = new Map<string, Known>();
  for (const entry of inOrder) {
    const { subject, at } = entry;
    if (subject === undefined) continue;
    if (entry.type === 'cow-entered') {
      const { officialId } = entry.data;
      const before = officialId === undefined ? undefined : officials.get(officialId);
      const own = before ?? { key: entry.id, entries: [], numbers: [] };
      const last = now(own);
      if (last !== undefined) last.to = Math.min(last.to, at);
      own.numbers.push({ number: subject, from: at, to: Number.POSITIVE_INFINITY });
      own.entries.push(entry);
      if (before === undefined) cows.push(own);
      if (officialId !== undefined) officials.set(officialId, own);
    } else if (entry.type === 'number-changed' || entry.type === 'cow-left') {
      const [one, another] = bear(cows, subject, at);
      const last = one === undefined ? undefined : now(one);
      if (one === undefined || last === undefined || another !== undefined || last.to < at) continue;
      last.to = at;
      if (entry.type === 'number-changed')
        one.numbers.push({ number: entry.data.to, from: at, to: Number.POSITIVE_INFINITY });
    }
  }
  return cows;
};

/** Nobody has the number, with or without noughts: the cow that took it last and is here under another. */
const hadIt = (cows: readonly Known[], subject: string, at: number): Known[] => {
  const here = ({ numbers }: Known): boolean => numbers.some((each) => each.from <= at && each.to >= at);
  if (
    cows.some(({ numbers }) =>
      numbers.some((each) => plain(each.number) === plain(subject) && each.from <= at && each.to >= at),
    )
  )
    return [];
  let last: { own: Known; from: number } | undefined;
  for (const own of cows)
    for (const { number, from } of own.numbers)
      if (number === subject && from <= at && (last === undefined || from >= last.from)) last = { own, from };
  return last !== undefined && here(last.own) ? [last.own] : [];
};

/** Each cow that ever entered, with what was said of her. */
export const cowsOf = (inOrder: readonly Entry[]): readonly Own[] => {
  const cows = knownCows(inOrder);
  for (const entry of inOrder) {
    const { subject, at } = entry;
    if (subject === undefined || entry.type === 'cow-entered') continue;
    const same = bear(cows, subject, at);
    if (same.length === 1) same[0]?.entries.push(entry);
    else if (mayHold(entry)) {
      // Nobody's then: whoever has it later, or has it but for the noughts before it, is perhaps meant.
      const near = cows.filter(({ numbers }) =>
        numbers.some(({ number, to }) => plain(number) === plain(subject) && to >= at),
      );
      for (const own of same.length > 1 ? same : [...near, ...hadIt(cows, subject, at)]) own.entries.push(entry);
    }
  }
  for (const { entries } of cows) entries.sort((a, b) => inOrder.indexOf(a) - inOrder.indexOf(b));
  return cows.map(({ key, entries, numbers }) => ({
    key,
    entries,
    numbers: [...numbers.map(({ number }) => number), ...entries.map(({ subject }) => subject ?? '')],
  }));
};
