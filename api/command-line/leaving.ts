/** `leaving COW`: the statement for the buyer of a cow that leaves: her holds, what stands behind them, what is not known. */
import { Command } from 'commander';
import type { Book } from '../../events/book.ts';
import { buyerPaper } from '../../print/buyer.ts';
import {
  basisOf,
  dosesOf,
  endOf,
  type Fact,
  factsOf,
  holdsHeading,
  notKnownOf,
  reasonsOf,
  whoSheIs,
} from '../../print/buyer-words.ts';
import { keeperVoice } from '../../print/keeper-paper.ts';
import type { Voice } from '../../print/speech.ts';
import type { Animal } from '../../projections/animal.ts';
import type { CowFile } from '../../projections/cow-file.ts';
import { cowMeant } from '../../projections/cow-meant.ts';
import type { Known } from '../../projections/know.ts';
import { type HoldStated, type Leaving, leavingOfCow } from '../../projections/leaving.ts';
import { momentOf } from '../../projections/views-at.ts';
import { plusMilliseconds } from '../../shared/instant.ts';
import { addDays, parseLocalDay } from '../../shared/local-day.ts';
import { UserProblem } from '../../shared/refusal.ts';
import type { Zone } from '../../shared/zone.ts';
import { tonight } from '../tonight.ts';
import { sayAlerts } from './alerts.ts';
import { LANGUAGE_OPTION, type PaperOptions, PDF_OPTION, writePaper } from './paper-file.ts';
import { note, out, outJson, withBook } from './settings.ts';

interface Options extends PaperOptions {
  readonly on?: string;
  readonly json?: boolean;
}

export const leavingCommand = (): Command =>
  new Command('leaving')
    .description('a statement for the buyer of a cow that leaves: her milk and meat holds and what stands behind them')
    .argument('<cow>', "the cow's barn number, or her 15-digit official number")
    .option('--on <date>', 'the cow that bore the number on this date, where it has meant several')
    .option(...PDF_OPTION)
    .option(...LANGUAGE_OPTION)
    .option('--json', 'print the same as JSON and nothing else')
    .action(async (cow: string, options: Options, command: Command) =>
      withBook(command, { readOnly: true }, (book) => leaving(book, cow.trim(), options)),
    );

const leaving = async (book: Book, number: string, options: Options): Promise<void> => {
  const { known, milking, asOf, position, root, views } = tonight(book);
  const moment = momentOf(known, { milking, asOf, position });
  if (moment === undefined) throw new UserProblem('This book has no farm yet; record a farm-set-up first');
  const { data, zone } = moment.schedule.inForceAt(asOf);
  const voice = keeperVoice('en', data.timeZone);
  const file = theCow(known, number, dayOf(options.on, zone), voice);
  const made = leavingOfCow(known, moment, file, views.doubts);
  if (options.pdf !== undefined) {
    await writePaper(book, { known, asOf, position, root }, { ...options, pdf: options.pdf }, (spoken) =>
      buyerPaper(made, spoken),
    );
  }
  if (options.json === true) outJson(made);
  else {
    // Alerts speak of other cows: they are for the farm, beside the statement and never in it.
    sayAlerts(book, note);
    for (const line of linesOf(made, data.name, voice)) out(line);
    if (options.pdf !== undefined) out(`\nWritten to ${options.pdf}.`);
  }
};

const dayOf = (text: string | undefined, zone: Zone) => {
  if (text === undefined) return undefined;
  const day = parseLocalDay(text);
  if (!day.ok) throw new UserProblem(`--on: ${day.problem}`, 2);
  return { from: zone.startOfDay(day.value), to: plusMilliseconds(zone.startOfDay(addDays(day.value, 1)), -1) };
};

/** The one cow that is meant, or a sentence: a statement about the wrong cow is worse than none. */
const theCow = (known: Known, number: string, day: ReturnType<typeof dayOf>, voice: Voice): CowFile => {
  const { animals, near } = cowMeant(known, number, day);
  if (animals.length > 1) {
    throw new UserProblem(
      `${number} means ${animals.length} cows: ${animals.map((animal) => whoIs(animal, known, voice)).join('; ')}. Say which by her official number, or with --on and a date when she alone bore ${number}`,
    );
  }
  const file = known.files.find(({ animal }) => animal.key === animals[0]?.key);
  if (file !== undefined) return file;
  if (near.length > 0)
    throw new UserProblem(
      `There is no cow ${number} in this book; is it ${near.join(' or ')}? Give the number in full`,
    );
  throw new UserProblem(
    `There is no cow ${number} in this book${day === undefined ? '' : ' on that date'}; check the number, or give her official number`,
  );
};

const whoIs = (animal: Animal, known: Known, { format }: Voice): string => {
  const cow = known.files.find((each) => each.animal.key === animal.key)?.cow;
  const dayOfInstant = (instant: number | undefined): string =>
    instant === undefined ? 'an unknown day' : format.time(new Date(instant).toISOString()).replaceAll('\u00a0', ' ');
  const left = animal.present ? undefined : cow?.left.at(-1);
  return [
    animal.officialId ?? 'one without an official number',
    `in the book since ${dayOfInstant(cow?.entered[0]?.at)}`,
    left === undefined ? 'in the herd' : `left ${dayOfInstant(left.at)}`,
  ].join(', ');
};

const linesOf = (made: Leaving, farm: string, voice: Voice): string[] => {
  const { keeper } = voice.words;
  const fact = ({ name, value }: Fact): string => `${name}: ${value}`;
  const hold = (name: string, each: HoldStated): string[] => [
    `${name}: ${endOf(each, voice)}`,
    ...reasonsOf(each, voice).map((reason) => `  ${reason}`),
  ];
  const unknown = notKnownOf(made, voice);
  const held = made.milk.held || made.meat.held;
  return [
    `${keeper.statement}: ${farm}`,
    keeper.whatBookKnows,
    '',
    ...whoSheIs(made, voice).map(fact),
    ...(made.left === null ? [keeper.stillHere(voice.format.time(made.at))] : []),
    '',
    holdsHeading(made, voice),
    ...hold(voice.labels.milkHold, made.milk),
    ...hold(voice.labels.beefHold, made.meat),
    ...basisOf(made, voice),
    keeper.notGuarantee,
    '',
    ...(held ? [keeper.behind] : []),
    ...(held && made.treatments.length === 0 ? [`  ${keeper.noneBehind}`] : []),
    ...made.treatments.flatMap((row) => [
      `  ${row.medicine}; ${factsOf(row, voice).map(fact).join('; ')}`,
      ...dosesOf(row, voice).map((dose) => `    ${dose}`),
    ]),
    ...(held ? [''] : []),
    keeper.notKnown,
    ...(unknown.length === 0 ? [keeper.nothingMissing] : unknown).map((line) => `  ${line}`),
    '',
    voice.labels.cautions,
  ].map((line) => line.replaceAll('\u00a0', ' '));
};
