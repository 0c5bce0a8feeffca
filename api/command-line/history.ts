/** `history COW`: every entry about her, with when it happened and when this book got to know it; struck ones too. */
import { Command } from 'commander';
import type { Book } from '../../events/book.ts';
import type { Entry } from '../../events/entry.ts';
import { formatFor } from '../../print/words/format.ts';
import { wordsFor } from '../../print/words.ts';
import { know } from '../../projections/know.ts';
import { officialDigits } from '../../shared/cow-number.ts';
import { instantText } from '../../shared/instant.ts';
import { mustBe, UserProblem } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';
import { out, outJson, withBook } from './settings.ts';

export const historyCommand = (): Command =>
  new Command('history')
    .description('all that is written about a cow, with both times of each entry')
    .argument('<cow>', 'a barn number she bears or bore, or her 15-digit official number')
    .option('--json', 'print the same as JSON and nothing else')
    .action(async (cow: string, options: { json?: boolean }, command: Command) =>
      withBook(command, {}, (book) => history(book, cow.trim(), options.json === true)),
    );

interface Line {
  readonly entry: Entry;
  readonly struck: Entry | undefined;
}

const history = (book: Book, number: string, asJson: boolean): void => {
  const { entries, asides } = book.read();
  const known = know(entries, asides);
  const official = officialDigits(number);
  const animals = known.herd.animals.filter(
    (animal) =>
      (official !== undefined && animal.officialId === official) || animal.spans.some((span) => span.number === number),
  );
  const strikes = new Map<Entry, Entry>(known.strikes.struck.map(({ entry, by }) => [entry, by]));
  const hers = new Set<Entry>(animals.flatMap((animal) => animal.assigned.map((each) => each.entry)));
  const numbers = new Set([number, ...animals.flatMap((animal) => animal.spans.map((span) => span.number))]);
  // Struck entries and strikes are laid to nobody's door: they are found by the number they were written under.
  const lines = entries
    .filter(
      (entry) =>
        hers.has(entry) ||
        (entry.subject !== undefined && numbers.has(entry.subject)) ||
        isStrikeOf(entry, hers, strikes, numbers),
    )
    .sort((a, b) => a.at - b.at || a.position - b.position)
    .map((entry): Line => ({ entry, struck: strikes.get(entry) }));
  if (lines.length === 0)
    throw new UserProblem(`Nothing is written about a cow ${number} in this book; check the number`);
  if (asJson) {
    outJson(
      lines.map(({ entry, struck }) => ({
        position: entry.position,
        id: entry.id,
        type: entry.type,
        subject: entry.subject ?? null,
        time: instantText(entry.at),
        recordedtime: instantText(entry.recordedAt),
        author: entry.author,
        source: entry.source,
        data: entry.data,
        struck:
          struck === undefined
            ? null
            : {
                by: struck.author,
                entry: struck.id,
                ...(struck.type === 'entry-struck'
                  ? { reason: struck.data.reason, instead: struck.data.instead ?? null }
                  : {}),
              },
      })),
    );
    return;
  }
  const zone = known.farm.schedule?.inForceAt(book.clock.now()).zone ?? mustBe(parseZone('UTC'));
  const format = formatFor(wordsFor('en'), { zone });
  out(`${number}: ${lines.length} ${lines.length === 1 ? 'entry' : 'entries'}, times as on the clocks of ${zone.name}`);
  for (const { entry, struck } of lines) {
    const late =
      entry.recordedAt - entry.at > 3_600_000 ? `  (known here ${format.time(instantText(entry.recordedAt))})` : '';
    out(
      `${format.time(instantText(entry.at))}  ${entry.type} ${entry.subject ?? ''}  ${detail(entry)}  by ${entry.author}${late}  position ${entry.position}`,
    );
    if (struck?.type === 'entry-struck') out(`    STRUCK by ${struck.author}: ${struck.data.reason}`);
  }
};

const isStrikeOf = (
  entry: Entry,
  hers: ReadonlySet<Entry>,
  strikes: ReadonlyMap<Entry, Entry>,
  numbers: ReadonlySet<string>,
): boolean =>
  entry.type === 'entry-struck' &&
  [...strikes].some(([struck, by]) => by === entry && (hers.has(struck) || numbers.has(struck.subject ?? '')));

/** The data in one line, as `field: value`. */
const detail = (entry: Entry): string =>
  Object.entries(entry.data)
    .map(([field, value]) => `${field}: ${typeof value === 'object' ? JSON.stringify(value) : String(value)}`)
    .join(', ');
