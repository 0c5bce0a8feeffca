/** `sync URL`: this book and another of the same farm, both ways, until both hold the same. */
import fs from 'node:fs';
import process from 'node:process';
import { SingleBar } from 'cli-progress';
import { Command } from 'commander';
import { instantText } from '../../shared/instant.ts';
import { addressOf, tokenOf } from '../sync/address.ts';
import { otherBookAt } from '../sync/other-book.ts';
import { CLOCK_OFF, type Synced, sync, type Wishes } from '../sync/sync.ts';
import { sayAlerts } from './alerts.ts';
import { globalsOf, note, out, outJson, plural, withBook } from './settings.ts';
import { noPassage, passage } from './sync-refused.ts';

interface Options {
  readonly token?: string;
  readonly otherBook?: string;
  readonly json?: boolean;
}

export const syncCommand = (): Command =>
  new Command('sync')
    .description(
      'exchange entries with another book of this farm, and what was refused, both ways; a new book takes the farm by its first sync',
    )
    .argument('<url>', 'where the other book is served, such as https://office.example:8212')
    .option(
      '--token <token>',
      'made there with "device add NAME --role book" (better as BYREBOOK_TOKEN: others on this computer can see what a command was given)',
    )
    .option('--other-book <word>', 'go on though the book there was replaced or rolled back; the refusal says the word')
    .option('--json', 'print what came and went as JSON and nothing else')
    .action(async (url: string, options: Options, command: Command) => {
      const address = addressOf(url);
      const other = otherBookAt(address, tokenOf(options.token ?? process.env.BYREBOOK_TOKEN));
      const path = globalsOf(command).book;
      const isNew = !fs.existsSync(path);
      // An address that does not answer makes no book.
      if (isNew) await other.standing();
      await withBook(command, { create: true }, async (book) => {
        const progress = barOf();
        let synced: Synced;
        try {
          synced = await sync(book, other, { otherBook: options.otherBook, tell: progress.tell });
        } finally {
          progress.stop();
        }
        if (options.json === true)
          outJson({ address, new: isNew, ...synced, otherTime: instantText(synced.otherTime) });
        else {
          sayAlerts(book);
          say(synced, address, isNew ? path : undefined);
        }
        for (const caution of [...cautions(synced, instantText(book.clock.now())), ...noPassage(book, synced.refused)])
          note(caution);
      });
    });

const say = (synced: Synced, address: string, made: string | undefined): void => {
  const { pulled, pushed, refused, position, otherPosition, same } = synced;
  if (made !== undefined) out(`Made the book ${made}.`);
  if (synced.adopted) out(`This book is now one of the farm ${synced.farm}.`);
  const came = plural(pulled.recorded, 'entry', 'entries');
  const nothing = pulled.recorded + pushed.recorded + refused.came + refused.went === 0;
  out(
    nothing
      ? `${address}: nothing new on either side.`
      : `${address}: ${came} came, ${plural(pushed.recorded, 'entry', 'entries')} went.`,
  );
  for (const line of passage(refused)) out(line);
  out(
    same
      ? `Both books hold the same ${plural(position, 'entry', 'entries')}.`
      : `This book holds ${plural(position, 'entry', 'entries')}, the other ${otherPosition.toLocaleString('en')}: something was recorded meanwhile or kept aside. Sync again.`,
  );
};

/** What a person should look at though the sync is done. */
const cautions = ({ skewSeconds, otherTime, pulled, pushed, otherSigned }: Synced, here: string): string[] => [
  ...(Math.abs(skewSeconds) * 1_000 > CLOCK_OFF
    ? [
        `The clocks do not agree: here it is ${here}, in the other book ${instantText(otherTime)} (${spoken(Math.abs(skewSeconds))} apart). Everything was exchanged as it was said. Set the wrong clock right, and look through what was entered under it: a time that is wrong makes a hold end at the wrong time.`,
      ]
    : []),
  ...(pulled.ahead + pushed.ahead > 0
    ? [
        `${plural(pulled.ahead + pushed.ahead, 'entry is', 'entries are')} timed in the future by the clock of the book that took ${pulled.ahead + pushed.ahead === 1 ? 'it' : 'them'} (${pulled.ahead} here, ${pushed.ahead} there). Until then their cows are held: strike them and enter them again with the right time.`,
      ]
    : []),
  ...(pulled.aside > 0
    ? [
        `${plural(pulled.aside, 'entry', 'entries')} that came could not be read and ${pulled.aside === 1 ? 'is' : 'are'} kept aside here; print shows them under doubts.`,
      ]
    : []),
  ...(pushed.aside > 0
    ? [
        `${plural(pushed.aside, 'entry', 'entries')} could not be read there and ${pushed.aside === 1 ? 'is' : 'are'} kept aside in the other book.`,
      ]
    : []),
  ...(otherSigned ? [] : ['The other book has no key to sign with: its log was checked, but nobody signs for it.']),
];

const spoken = (seconds: number): string => {
  if (seconds < 2 * 3_600) return `${Math.round(seconds / 60)} minutes`;
  return seconds < 48 * 3_600 ? `${Math.round(seconds / 3_600)} hours` : `${Math.round(seconds / 86_400)} days`;
};

/** Only on a terminal, and only where there is something to wait for. */
const barOf = (): { tell: NonNullable<Wishes['tell']>; stop: () => void } => {
  let bar: SingleBar | undefined;
  let of: string | undefined;
  return {
    tell: (what, done, all) => {
      if (process.stderr.isTTY !== true || all < 200) return;
      if (of !== what) bar?.stop();
      if (of !== what || bar === undefined) {
        const format = `${what === 'pull' ? 'coming in' : 'going out'} {bar} {value} of {total}, {eta_formatted} left`;
        bar = new SingleBar({ format, clearOnComplete: true, stream: process.stderr });
        bar.start(all, done);
        of = what;
      }
      bar.update(done);
    },
    stop: () => bar?.stop(),
  };
};
