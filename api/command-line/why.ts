/** `why COW`: every list the cow is or is not on, with the entries, the rule and the arithmetic. */
import { Command } from 'commander';
import type { Book } from '../../events/book.ts';
import type { Because } from '../../projections/because.ts';
import { type WhyCow, type WhyList, whyCow } from '../../projections/why.ts';
import { instantText } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { type EntryFinder, entryFinder, type Tonight, tonight } from '../tonight.ts';
import { whyJson } from '../why-json.ts';
import { sayAlerts } from './alerts.ts';
import { type Voice, voiceOf } from './readable.ts';
import { out, outJson, plural, withBook } from './settings.ts';

export const whyCommand = (): Command =>
  new Command('why')
    .description('why a cow is or is not on each list: the entries, the rule, the arithmetic')
    .argument('<cow>', "the cow's barn number, or her 15-digit official number")
    .option('--milking <id>', 'next, or a milking such as 2026-03-14/afternoon', 'next')
    .option('--json', 'print the same as JSON and nothing else')
    .action(async (cow: string, options: { milking: string; json?: boolean }, command: Command) =>
      withBook(command, { readOnly: 'where-must' }, (book) => why(book, cow.trim(), options)),
    );

const NAMES: Record<WhyList, string> = {
  'milk-hold': 'milk hold',
  'bands-off': 'bands off',
  'treat-now': 'treat now',
  'dry-off': 'dry-off',
  'fresh-moves': 'fresh moves',
  sort: 'sort',
  counts: 'counts',
  'milking-plan': 'slow cows',
  'beef-hold': 'beef hold',
};

const why = (book: Book, cow: string, options: { milking: string; json?: boolean }): void => {
  const answer = tonight(book, { milking: options.milking });
  const found = whyCow(
    answer.known,
    { milking: answer.milking, asOf: answer.asOf, position: answer.position },
    answer.views,
    cow,
  );
  const unplaced = answer.views.sheets['milk-hold'].unplaced.filter((row) => row.number === cow);
  if (found.length === 0 && unplaced.length === 0) {
    throw new UserProblem(
      `There is no cow ${cow} in the herd at the ${answer.milking.id} milking, and nothing unplaced under that number; check the number, or look at history ${cow}`,
    );
  }
  const voice = voiceOf(answer.views);
  if (options.json === true) {
    outJson(whyJson(answer, cow));
    return;
  }
  sayAlerts(book);
  const entries = entryFinder(answer.known);
  for (const row of unplaced) {
    out(`${row.number}: unplaced, at the head of the milk-hold sheet. Find this cow before milking.`);
    sayReason(row.because, voice, entries);
    out('');
  }
  if (found.length > 1) out(`${found.length} cows may be meant by ${cow}:\n`);
  for (const each of found) sayCow(each, answer, voice, entries);
};

const sayCow = (cow: WhyCow, answer: Tonight, voice: Voice, entries: EntryFinder): void => {
  const official = cow.officialId === null ? '' : `, official number ${cow.officialId}`;
  const days = cow.daysInMilk === null ? '' : `, ${plural(cow.daysInMilk, 'day')} in milk`;
  out(
    `${cow.cow}: ${cow.group}, lactation ${cow.lactation}${days}, ${cow.inMilk ? 'in milk' : 'not in milk'}${official}`,
  );
  out(`at the ${voice.milking(answer.milking.id)} milking (${voice.time(instantText(answer.milking.start))})\n`);
  for (const list of cow.lists) {
    out(`${NAMES[list.list]}: ${list.on ? 'yes' : 'no'}`);
    for (const reason of list.reasons) sayReason(reason, voice, entries);
    if (list.over.length > 0) out('  over:');
    for (const reason of list.over) sayReason(reason, voice, entries, '  ');
  }
  out('');
};

const sayReason = (reason: Because, voice: Voice, entries: EntryFinder, indent = ''): void => {
  out(`${indent}  ${reason.rule}  ${voice.says(reason)}`);
  for (const id of new Set(reason.entries)) {
    const entry = entries.get(id);
    if (entry === undefined) continue;
    const subject = entry.subject === undefined ? '' : ` ${entry.subject}`;
    out(
      `${indent}        ${entry.type}${subject}, ${voice.time(instantText(entry.at))}, by ${entry.author} (position ${entry.position}, ${entry.id})`,
    );
  }
};
