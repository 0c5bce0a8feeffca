/**
 * Entries by their id. A table of numbers beside the list: a map with a million texts would be as big as the log. What
 * comes later stands in a short list of its own until that is long enough for a new table, so that what was found before
 * stays as it was.
 */
import type { Entry } from '../events/entry.ts';

export interface Ids {
  /** Every entry of that id, struck ones and strikes too; several where books that synced disagree. */
  readonly find: (id: string) => readonly Entry[];
  readonly with: (more: readonly Entry[]) => Ids;
  /** Ids that more than one entry has. */
  readonly twice: ReadonlySet<string>;
}

const MOST_LATER = 2_000;

export const idsOf = (entries: readonly Entry[]): Ids => idsWith(tableOf(entries), []);

const idsWith = (table: Table, later: readonly Entry[]): Ids => ({
  twice: withLater(table, later),
  find: (id) => foundIn(table, later, id),
  with: (more) => {
    const all = [...later, ...more];
    return all.length > MOST_LATER ? idsOf([...table.entries, ...all]) : idsWith(table, all);
  },
});

const foundIn = (table: Table, later: readonly Entry[], id: string): readonly Entry[] => [
  ...found(table, id),
  ...later.filter((entry) => entry.id === id),
];

const withLater = (table: Table, later: readonly Entry[]): ReadonlySet<string> => {
  const seen = new Set<string>();
  const more = later.flatMap(({ id }) => {
    const again = seen.has(id) || found(table, id).length > 0;
    seen.add(id);
    return again ? [id] : [];
  });
  return more.length === 0 ? table.twice : new Set([...table.twice, ...more]);
};

interface Table {
  readonly twice: ReadonlySet<string>;
  readonly entries: readonly Entry[];
  /** Places in the list plus one, each at the first free slot from its hash on; 0 is free. */
  readonly slots: Uint32Array;
}

const tableOf = (entries: readonly Entry[]): Table => {
  const slots = new Uint32Array(2 ** Math.ceil(Math.log2(entries.length * 2 + 2)));
  const twice = new Set<string>();
  entries.forEach(({ id }, index) => {
    let slot = hashOf(id) & (slots.length - 1);
    while (slots[slot] !== 0) {
      if (entries[(slots[slot] ?? 0) - 1]?.id === id) twice.add(id);
      slot = (slot + 1) & (slots.length - 1);
    }
    slots[slot] = index + 1;
  });
  return { entries, slots, twice };
};

const found = ({ entries, slots }: Table, id: string): Entry[] => {
  const those: Entry[] = [];
  for (let slot = hashOf(id) & (slots.length - 1); slots[slot] !== 0; slot = (slot + 1) & (slots.length - 1)) {
    const entry = entries[(slots[slot] ?? 0) - 1];
    if (entry?.id === id) those.push(entry);
  }
  return those;
};

/** FNV-1a over the text's code units, 32 bits. */
const hashOf = (text: string): number => {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
};
