/** A herd list held against the herd that is in the book: who is new, who is known already, and who is there with other facts. */
import { z } from 'zod';
import type { Herd } from '../../projections/who.ts';
import { officialDigits } from '../../shared/cow-number.ts';
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
  const official = new Map(
    herd.animals.flatMap(({ officialId, present, spans }) => {
      const number = spans.findLast((span) => span.to === null)?.number;
      return present && officialId !== undefined && number !== undefined ? [[officialId, number] as const] : [];
    }),
  );
  const unknown = list.entries.filter(({ value }) => !inBook(value.id));
  const problems = unknown.flatMap(({ line, value }): HerdRefusal[] => {
    if (there.has(value.subject)) return [inHerdAlready(line, value.subject)];
    const number = official.get(officialOf(value) ?? '');
    return number === undefined ? [] : [underAnother(line, value.subject, number)];
  });
  const refused = new Set(problems.map(({ line }) => line));
  return {
    fresh: unknown.filter(({ line }) => !refused.has(line)),
    known: list.entries.length - unknown.length,
    already: problems,
  };
};

const withOfficial = z.looseObject({ officialId: z.string() });

const officialOf = ({ data }: HerdEntry): string | undefined => {
  const read = withOfficial.safeParse(data);
  return read.success ? officialDigits(read.data.officialId) : undefined;
};

/** It would make two cows of one, each held for the other. */
const underAnother = (line: number, number: string, bears: string): HerdRefusal => ({
  line,
  column: null,
  problem: `the official number of cow ${number} is that of cow ${bears}, who is in the herd; if it is the same cow, record her new number, else put the right official number into the list`,
  text: '',
});

/** A second `cow-entered` under her number would make two cows of one. */
const inHerdAlready = (line: number, number: string): HerdRefusal => ({
  line,
  column: null,
  problem: `cow ${number} is in the herd already, with other facts; record what changed, or strike her cow-entered entry (history ${number} shows it) and import again`,
  text: '',
});
