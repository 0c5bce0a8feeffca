/**
 * The demo's herd on the day its book began: as cows with their stories, and as the list the farm had of them in a
 * spreadsheet (`herd.csv`, which a test compares with what is made here).
 */
import { inCalfHeifers, leavers } from './comers-and-goers.ts';
import { type Cow, enteredAs } from './cow.ts';
import { STORIES } from './examples.ts';
import { ordinaryCows } from './ordinary-cows.ts';

const exampleCows: readonly Cow[] = STORIES.flatMap(({ cows }) => cows);

/** Free numbers from 104 on, as tags run: with gaps where cows have gone. */
const freeNumbers = (): string[] => {
  const taken = new Set([...exampleCows.map(({ number }) => number), '1204', '1254', '1288', '1317']);
  return Array.from({ length: 600 }, (_, index) => 104 + index)
    .filter((number) => number % 7 !== 3 && !taken.has(String(number)))
    .map(String);
};

const numbers = freeNumbers();
export const ORDINARY: readonly Cow[] = ordinaryCows(numbers.slice(8));
const last = Number(ORDINARY.at(-1)?.number);
export const HERD: readonly Cow[] = [
  ...leavers(numbers.slice(0, 8)),
  ...ORDINARY,
  ...inCalfHeifers(numbers.filter((number) => Number(number) > last)),
  ...exampleCows,
];

/** Headings as a farm writes them, and what of a cow stands under each. */
const COLUMNS = [
  ['Cow', (cow: Cow) => cow.number],
  ['Group', (cow: Cow) => enteredAs(cow).group],
  ['Lactation', (cow: Cow) => String(enteredAs(cow).lactation)],
  ['Calved', (cow: Cow) => enteredAs(cow).calvedOn],
  ['Served', (cow: Cow) => enteredAs(cow).servedOn],
  ['Due', (cow: Cow) => enteredAs(cow).dueOn],
  ['Dried off', (cow: Cow) => enteredAs(cow).driedOffOn],
  ['Dry-cow product', (cow: Cow) => enteredAs(cow).driedOffWith],
  ['Born', (cow: Cow) => enteredAs(cow).born],
  ['Official number', (cow: Cow) => enteredAs(cow).officialId],
  ['Milk hold until', (cow: Cow) => enteredAs(cow).milkHoldUntil],
  ['Meat hold until', (cow: Cow) => enteredAs(cow).meatHoldUntil],
] as const;

const quoted = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** The text of `herd.csv`. */
export const herdCsv = (): string =>
  [
    COLUMNS.map(([heading]) => heading),
    ...HERD.filter(({ came }) => came === undefined)
      .sort((a, b) => Number(a.number) - Number(b.number))
      .map((cow) => COLUMNS.map(([, cellOf]) => cellOf(cow) ?? '')),
  ]
    .map((cells) => `${cells.map(quoted).join(',')}\n`)
    .join('');
