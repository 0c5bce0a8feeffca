/**
 * What devices say comes in here, one receipt for each entry, all in one transaction. Safe to repeat at any point: what is
 * known already is said to be known. What is refused is kept aside and holds the cow it may concern.
 */
import type { Book, Receipt } from '../../events/book.ts';
import { mentionsIn, type Passed, readLine, type TurnedAway } from '../../events/door.ts';
import { type PageEntry, readPage, relayedIn } from '../../events/log-page.ts';
import { readStored, type StoredRow } from '../../events/stored.ts';
import { canonicalJson } from '../../shared/fingerprint.ts';
import { type Instant, instantText, MINUTE, parseInstant } from '../../shared/instant.ts';
import { unwritable } from '../devices/roles.ts';
import { arrayTexts } from './array-texts.ts';
import { RequestProblem } from './problem.ts';
import type { Caller } from './route.ts';

export const MOST_ENTRIES = 1_000;
/** A device's clock may be this far off before what it says is kept aside. */
const CLOCK_OFF = 5 * MINUTE;

export type ReceiptSent = Receipt & { readonly skewSeconds?: number };

/** Each entry's own text, from a body that is a JSON array. */
export interface Batch {
  readonly values: readonly unknown[];
  readonly texts: readonly string[];
}

/** `deviceTime`: what the device's clock said when it sent this, where it says so. */
export const takePush = (
  book: Book,
  caller: Caller,
  batch: Batch,
  deviceTime: Instant | undefined,
): { receipts: ReceiptSent[]; skewSeconds?: number } => {
  const now = book.clock.now();
  const skew = deviceTime === undefined ? undefined : deviceTime - now;
  const settings = { source: caller.name, author: caller.name, now };
  const inBatch = new Set<string>();
  const arrivals = batch.texts.map((text, index) => {
    const arrival = readLine(text, settings, batch.values[index]);
    const byClock = clockRefusal(skew, now);
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
  const receipts = book.record(arrivals);
  return {
    receipts: receipts.map((receipt, index) => ({
      ...receipt,
      ...skewNoted(skew, receipt, arrivals[index], now),
    })),
    ...(skew === undefined ? {} : { skewSeconds: seconds(skew) }),
  };
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

/** Reads a device's body: a JSON array of at most a thousand entries. Nothing is kept of one that is not, the sender has it. */
export const readBatch = (body: Uint8Array): Batch => {
  const text = textOf(body);
  const values = listIn<unknown>(text, JSON.parse);
  const texts = arrayTexts(text);
  if (texts.length !== values.length) {
    throw new RequestProblem('not-readable', 'The entries in the body cannot be told apart, so nothing was taken');
  }
  return { values, texts };
};

/** Reads another book's body, to the same conditions. */
export const readRelay = (body: Uint8Array): readonly PageEntry[] => listIn(textOf(body), readPage);

const NO_JSON = 'The body is not JSON in UTF-8, so nothing was taken; send a JSON array of entries';

const textOf = (body: Uint8Array): string => {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(body);
  } catch {
    throw new RequestProblem('not-readable', NO_JSON);
  }
};

/** `read` throws where the text is no JSON, and gives no list where it is no array. */
const listIn = <T>(text: string, read: (text: string) => readonly T[] | undefined): readonly T[] => {
  let list: readonly T[] | undefined;
  try {
    list = read(text);
  } catch {
    throw new RequestProblem('not-readable', NO_JSON);
  }
  if (!Array.isArray(list)) {
    throw new RequestProblem('not-readable', 'The body is not a JSON array, so nothing was taken; send [entry, …]');
  }
  if (list.length > MOST_ENTRIES) {
    throw new RequestProblem(
      'too-large',
      `${list.length} entries at once are too many; send ${MOST_ENTRIES} at most, nothing was taken`,
    );
  }
  return list;
};
