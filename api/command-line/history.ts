/** `history COW`: every entry about her, with when it happened and when this book got to know it; struck ones too. */
import { Command } from 'commander';
import type { Book } from '../../events/book.ts';
import { animalLines, historyPaper, insteadOf, whoseText } from '../../print/history.ts';
import { detailOf, type PlaceOf } from '../../print/history-words.ts';
import { keeperVoice } from '../../print/keeper-paper.ts';
import type { Voice } from '../../print/speech.ts';
import { say } from '../../print/words.ts';
import { type CowHistory, cowHistory, type HistoryLine } from '../../projections/history.ts';
import { know } from '../../projections/know.ts';
import { instantText } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { tonight } from '../tonight.ts';
import { sayAlerts } from './alerts.ts';
import { LANGUAGE_OPTION, type PaperOptions, PDF_OPTION, writePaper } from './paper-file.ts';
import { out, outJson, plural, withBook } from './settings.ts';

interface Options extends PaperOptions {
  readonly json?: boolean;
}

export const historyCommand = (): Command =>
  new Command('history')
    .description('all that is written about a cow, with both times of each entry')
    .argument('<cow>', 'a barn number she bears or bore, or her 15-digit official number')
    .option(...PDF_OPTION)
    .option(...LANGUAGE_OPTION)
    .option('--json', 'print the same as JSON and nothing else')
    .action(async (cow: string, options: Options, command: Command) =>
      withBook(command, { readOnly: 'where-must' }, (book) => history(book, cow.trim(), options)),
    );

const history = async (book: Book, number: string, options: Options): Promise<void> => {
  const { entries, asides, position, root } = book.read();
  const known = know(entries, asides);
  const asOf = book.clock.now();
  // Without a farm nothing can be worked out, and what was written is still there to be read.
  const doubts = known.farm.schedule === undefined ? [] : tonight(book).views.doubts;
  const made = cowHistory(known, entries, doubts, number);
  if (made.lines.length === 0)
    throw new UserProblem(`Nothing is written about a cow ${number} in this book; check the number`);
  const places = new Map(entries.map((entry) => [entry.id, entry.position]));
  const placeOf: PlaceOf = (id) => places.get(id);
  if (options.pdf !== undefined) {
    await writePaper(book, { known, asOf, position, root }, { ...options, pdf: options.pdf }, (voice) =>
      historyPaper(made, placeOf, voice),
    );
  }
  if (options.json === true) {
    outJson(made.lines.map((line) => jsonOf(line, made)));
    return;
  }
  sayAlerts(book);
  if (options.pdf !== undefined) out(`Written to ${options.pdf}.`);
  else {
    const zone = known.farm.schedule?.inForceAt(asOf).zone.name ?? 'UTC';
    for (const line of linesOf(made, placeOf, keeperVoice('en', zone), zone)) out(line);
  }
};

const jsonOf = ({ entry, struck, whose, mayBe }: HistoryLine, { animals, doubts }: CowHistory) => {
  const named = (index: number) => ({
    officialId: animals[index]?.officialId ?? null,
    number: animals[index]?.bore.at(-1)?.number ?? null,
  });
  return {
    position: entry.position,
    id: entry.id,
    type: entry.type,
    subject: entry.subject ?? null,
    time: instantText(entry.at),
    recordedtime: instantText(entry.recordedAt),
    author: entry.author,
    source: entry.source,
    via: entry.via ?? null,
    data: entry.data,
    cows: whose.map(named),
    mayBe: mayBe.map(named),
    doubts: doubts.filter(({ because }) => because.entries.includes(entry.id)).map(({ key }) => key),
    struck:
      struck === undefined
        ? null
        : {
            by: struck.author,
            entry: struck.id,
            reason: struck.data.reason,
            instead: struck.data.instead ?? null,
            recordedtime: instantText(struck.recordedAt),
          },
  };
};

const linesOf = (made: CowHistory, placeOf: PlaceOf, voice: Voice, zone: string): string[] => {
  const { format, words, labels } = voice;
  const { keeper } = words;
  return [
    `${made.number}: ${plural(made.lines.length, 'entry', 'entries')}, ${keeper.clocksOf(zone)}`,
    ...animalLines(made, voice),
    ...made.lines.flatMap((line) => {
      const { entry, struck } = line;
      const whose = whoseText(line, made, voice);
      return [
        `${format.time(instantText(entry.at))}  ${entry.type} ${entry.subject ?? ''}  ${detailOf(entry, voice, placeOf)}  by ${entry.author}${whose === undefined ? '' : `  (${whose})`}  (known here ${format.time(instantText(entry.recordedAt))})  position ${entry.position}`,
        ...(struck === undefined
          ? []
          : [
              `    ${keeper.struckBy(struck.author, format.time(instantText(struck.recordedAt)), struck.data.reason)}; ${insteadOf(struck.data.instead, voice, placeOf)}`,
            ]),
      ];
    }),
    ...(made.doubts.length === 0 ? [] : [`${labels.doubts}:`]),
    ...made.doubts.map(({ because, key }) => `  ! ${say(words, because, format)}  [${key}]`),
  ].map((line) => line.replaceAll('\u00a0', ' '));
};
