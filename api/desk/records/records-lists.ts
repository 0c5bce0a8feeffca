/** The lists of one milking at three times: as known then, as it hung on the wall, as known now. */
import { z } from 'zod';
import type { EntryOf } from '../../../events/entry.ts';
import type { Views } from '../../../projections/views.ts';
import { type Sentence, say } from '../say.tsx';

/** A list's name on the page and the cows on it, in the order of the paper. */
export interface ListOfCows {
  readonly list: Sentence;
  readonly cows: readonly string[];
}

export interface HeldThen {
  readonly cow: string;
  readonly until: string | null;
  readonly tankFrom: string | null;
}

const cows = z.array(z.looseObject({ cow: z.string() })).catch([]);
const rows = <K extends string>(...names: readonly K[]) =>
  z.looseObject(Object.fromEntries(names.map((name) => [name, cows.optional()])));
const holds = z.looseObject({
  held: z.array(z.looseObject({ cow: z.string(), until: z.string().nullable(), tankFrom: z.string().nullable() })),
  unplaced: z.array(z.looseObject({ number: z.string().nullable() })).catch([]),
});

/** Sheet, rows and name of each list, in the order of the page. */
const LISTS = [
  ['milk-hold', 'held', 'Milk out of the tank'],
  ['milk-hold', 'cleared', 'Bands off'],
  ['milk-hold', 'treat', 'Treat now'],
  ['sort', 'cows', 'Sort at the gate'],
  ['fresh-moves', 'out', 'Out of the fresh pen'],
  ['dry-off', 'due', 'Due for dry-off'],
  ['beef-hold', 'cows', 'Beef hold'],
] as const;

type SheetOf = (sheet: (typeof LISTS)[number][0]) => unknown;

/** Of sheets as they are worked out, or as they were kept; a sheet that was not issued has no list. */
export const listsOf = (sheetOf: SheetOf): readonly ListOfCows[] => {
  const head = holds.safeParse(sheetOf('milk-hold'));
  const first = head.success
    ? [
        {
          list: 'Find before milking' as const,
          cows: head.data.unplaced.map(({ number }) => number ?? say('no number')),
        },
      ]
    : [];
  return [
    ...first,
    ...LISTS.flatMap(([sheet, field, list]): ListOfCows[] => {
      const read = rows(field).safeParse(sheetOf(sheet));
      const found = read.success ? cows.safeParse(read.data[field]) : undefined;
      return found?.success === true ? [{ list, cows: found.data.map(({ cow }) => cow) }] : [];
    }),
  ];
};

export const heldOf = (sheetOf: SheetOf): readonly HeldThen[] => {
  const read = holds.safeParse(sheetOf('milk-hold'));
  return read.success ? read.data.held : [];
};

export const sheetOfViews =
  ({ sheets }: Views): SheetOf =>
  (sheet) =>
    sheets[sheet];

export const sheetOfIssued =
  ({ data }: EntryOf<'sheet-issued'>): SheetOf =>
  (sheet) =>
    data.sheets.find((each) => each.sheet === sheet)?.content;
