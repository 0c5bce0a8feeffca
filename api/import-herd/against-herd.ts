/** A herd list held against the herd that is in the book: who is new, who is known already, and who is there with other facts. */
import type { Herd } from '../../projections/who.ts';
import type { HerdEntry, HerdImport, HerdRefusal } from './import-herd.ts';

export interface AgainstHerd {
  readonly fresh: readonly { readonly line: number; readonly value: HerdEntry }[];
  /** Rows whose entry stands in the book word for word. */
  readonly known: number;
  readonly already: readonly HerdRefusal[];
}

export const againstHerd = (list: HerdImport, herd: Herd, inBook: (id: string) => boolean): AgainstHerd => {
  const there = new Set(
    herd.animals.flatMap((animal) => animal.spans.filter((span) => span.to === null).map((span) => span.number)),
  );
  const unknown = list.entries.filter(({ value }) => !inBook(value.id));
  return {
    fresh: unknown.filter(({ value }) => !there.has(value.subject)),
    known: list.entries.length - unknown.length,
    already: unknown.flatMap(({ line, value }) =>
      there.has(value.subject) ? [inHerdAlready(line, value.subject)] : [],
    ),
  };
};

/** A second `cow-entered` under her number would make two cows of one. */
const inHerdAlready = (line: number, number: string): HerdRefusal => ({
  line,
  column: null,
  problem: `cow ${number} is in the herd already, with other facts; record what changed, or strike her cow-entered entry (history ${number} shows it) and import again`,
  text: '',
});
