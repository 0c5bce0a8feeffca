/**
 * What devices say comes in here, one receipt for each entry, all in one transaction. Safe to repeat at any point: what is
 * known already is said to be known. What is refused is kept aside and holds the cow it may concern.
 */
import type { Book, Receipt } from '../../events/book.ts';
import { mentionsIn, type Passed, readLine, type TurnedAway } from '../../events/door.ts';
import { type PageEntry, relayedIn } from '../../events/log-page.ts';
import { readStored, type StoredRow } from '../../events/stored.ts';
import { canonicalJson } from '../../shared/fingerprint.ts';
import { type Instant, instantText, MINUTE, parseInstant } from '../../shared/instant.ts';
import { unwritable } from '../devices/roles.ts';
import { RequestProblem } from './problem.ts';
import type { Batch } from './push-body.ts';
import type { Refusals } from './refusals.ts';
import type { Caller } from './route.ts';
import type { Together } from './together.ts';

/** A device's clock may be this far off before what it says is kept aside. */
const CLOCK_OFF = 5 * MINUTE;

export type ReceiptSent = Receipt & { readonly skewSeconds?: number };

/** What a push is taken with: shared by all of a server. */
export interface Takers {
  readonly book: Book;
  readonly together: Together;
  readonly refusals: Refusals;
}

export interface Sender {
  readonly caller: Caller;
  /** False once the device is revoked: asked again at the push's turn, inside its transaction. */
  readonly still: () => boolean;
}

export interface PushTaken {
  readonly receipts: ReceiptSent[];
  readonly skewSeconds?: number;
  /** How long the log was then. */
  readonly position: number;
}

/** Resolves when it is on the disk. `deviceTime`: what the device's clock said when it sent this, where it says so. */
export const takePush = async (
  { book, together, refusals }: Takers,
  { caller, still }: Sender,
  batch: Batch,
  deviceTime: Instant | undefined,
): Promise<PushTaken> => {
  const admit = (): void => refusals.check(caller.id);
  admit();
  const now = book.clock.now();
  const skew = deviceTime === undefined ? undefined : deviceTime - now;
  const settings = { source: caller.name, author: caller.name, now };
  const read = batch.texts.map((text, index) => readLine(text, settings, batch.values[index]));
  let arrivals: Arrivals = [];
  const make = (): Arrivals => {
    if (!still()) throw new RequestProblem('not-signed-in', REVOKED);
    arrivals = judged(book, caller, read, clockRefusal(skew, now), now);
    return arrivals;
  };
  const { receipts, position } =
    read.length === 0
      ? { receipts: [], position: book.head().position }
      : await together({ device: caller.id, entries: read.length, admit, make });
  refusals.count(caller.id, receipts, (index) => batch.texts[index]?.length ?? 0);
  return {
    position,
    ...(skew === undefined ? {} : { skewSeconds: seconds(skew) }),
    receipts: receipts.map((receipt, index) => ({ ...receipt, ...skewNoted(skew, receipt, arrivals[index], now) })),
  };
};

const REVOKED = 'This device was revoked before what it said was taken; nothing of it was';

type Arrivals = readonly (Passed | TurnedAway)[];

/** What was read, by what this device may say now: that may rest on what is in the book. */
const judged = (
  book: Book,
  caller: Caller,
  read: Arrivals,
  byClock: ReturnType<typeof clockRefusal>,
  now: Instant,
): Arrivals => {
  const inBatch = new Set<string>();
  return read.map((arrival) => {
    if (arrival.outcome === 'refused')
      return aheadBy(arrival, now) === undefined ? arrival : { ...arrival, ...byClock };
    const { said } = arrival;
    // Both count: an entry that is refused for its id in this batch is not the one in the book that has it.
    const sources = (entry: string): string[] => [
      ...(inBatch.has(entry) ? [caller.name] : []),
      ...book.find(entry).map((row) => sourceOf(row)),
    ];
    const refusal = byClock ?? unwritable(caller, said, sources);
    // Only what would be refused is looked for: what is known already may be said again by anybody.
    if (refusal !== undefined) return isKnown(book, arrival) ? arrival : turnedAway(arrival, refusal);
    inBatch.add(said.id);
    return arrival;
  });
};

/** What another book of the farm passes on: every readable envelope, whatever its kind, version or time. */
export const takeRelay = (book: Book, caller: Caller, page: readonly PageEntry[]): { receipts: ReceiptSent[] } => ({
  receipts: book.relay(readAll(page), caller.name),
});

const readAll = (page: readonly PageEntry[]) => {
  try {
    return page.map(relayedIn);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    // No book holds such an entry: it could not have been written there either.
    throw new RequestProblem('not-readable', 'Something in the body is nested too deep to be read; nothing was taken');
  }
};

const isKnown = (book: Book, { said, content, derivedId }: Passed): boolean =>
  book.find(said.id).some((row) => derivedId || row.content === content);

const sourceOf = (row: StoredRow): string => {
  const read = readStored(row);
  return read.ok ? read.entry.source : 'another book';
};

const clockRefusal = (skew: number | undefined, now: Instant) =>
  skew === undefined || Math.abs(skew) <= CLOCK_OFF
    ? undefined
    : {
        problem: `this device's clock is ${spoken(Math.abs(skew))} ${skew > 0 ? 'ahead' : 'behind'} (here it is ${instantText(now)}); set its clock, say this again with the right time, and settle this one`,
        pointer: '/time',
      };

const spoken = (milliseconds: number): string => {
  const minutes = Math.round(milliseconds / MINUTE);
  if (minutes < 120) return `${minutes} minutes`;
  return minutes < 48 * 60 ? `${Math.round(minutes / 60)} hours` : `${Math.round(minutes / 1_440)} days`;
};

const turnedAway = ({ said }: Passed, refusal: { problem: string; pointer: string }): TurnedAway => ({
  outcome: 'refused',
  ...refusal,
  id: said.id,
  cows: said.subject === undefined ? [] : [said.subject],
  mentions: mentionsIn(said.data),
  text: canonicalJson(said),
});

const seconds = (milliseconds: number): number => Math.round(milliseconds / 1_000);

/** The device's skew where it states its clock; else how far ahead a time is that was refused for it. */
const skewNoted = (
  skew: number | undefined,
  receipt: Receipt,
  arrival: Passed | TurnedAway | undefined,
  now: Instant,
): { skewSeconds?: number } => {
  if (skew !== undefined) return { skewSeconds: seconds(skew) };
  const ahead = receipt.outcome === 'refused' && arrival?.outcome === 'refused' ? aheadBy(arrival, now) : undefined;
  return ahead === undefined ? {} : { skewSeconds: seconds(ahead) };
};

/** How far ahead the time is that something was turned away for. */
const aheadBy = ({ pointer, text }: TurnedAway, now: Instant): number | undefined => {
  if (pointer !== '/time') return undefined;
  const time = parseInstant(/"time"\s*:\s*"([^"]{1,40})"/.exec(text)?.[1] ?? '');
  return time.ok && time.value > now ? time.value - now : undefined;
};
