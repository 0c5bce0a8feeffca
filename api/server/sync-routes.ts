/** The addresses that devices and other books use: push, pull, the live stream, and what shows that the log is one log. */
import { z } from 'zod';
import type { Book } from '../../events/book.ts';
import type { PageEntry } from '../../events/log-page.ts';
import { instantText, parseInstant } from '../../shared/instant.ts';
import type { Counters } from './counters.ts';
import { meetBook } from './meet-book.ts';
import { RequestProblem } from './problem.ts';
import { type Takers, takePush, takeRelay } from './push.ts';
import { BATCH, bodyOf, demandType, MOST_ENTRIES, readBatch, readRelay } from './push-body.ts';
import { type Refusals, refusalsOf } from './refusals.ts';
import { type Caller, json, NONE, type Route, route, wholeNumber } from './route.ts';
import { entry, receiptsSchema, standing } from './schemas.ts';
import type { Streams } from './stream.ts';
import { togetherOf } from './together.ts';

/** A page of the log ends after so many characters, but always has one entry. */
const LONG_PAGE = 4 * 1024 * 1024;

const position = wholeNumber(Number.MAX_SAFE_INTEGER);

export const syncRoutes = (
  book: Book,
  streams: Streams,
  counters: Counters,
  refusals = refusalsOf(),
  takers: Takers = { book, refusals, together: togetherOf(book) },
): readonly Route[] => [
  route({
    method: 'post',
    path: '/sync/push',
    summary: 'Say what happened: up to 1,000 entries, a receipt for each. Safe to repeat.',
    right: 'push',
    params: NONE,
    query: NONE,
    headers: {
      'Byrebook-Time': "the device's clock when it sends this (RFC 3339); the answer says how far it is off",
      'Byrebook-Farm': 'from a book: the id of its farm',
      'Byrebook-Book': 'from a book: its own id',
    },
    body: { types: [BATCH], schema: z.array(entry).max(MOST_ENTRIES) },
    answers: {
      200: { says: 'A receipt for each entry, in their order', type: 'application/json', schema: receiptsSchema },
    },
    run: async ({ request, caller, still, log }) => {
      demandType(request);
      const body = await bodyOf(request, caller.role === 'book');
      const said = caller.role === 'book' ? { page: readRelay(body) } : { batch: readBatch(body) };
      const deviceTime = timeSaid(request);
      const taken =
        'page' in said
          ? relayed(said.page, { book, refusals, caller, request, length: body.length })
          : await takePush(takers, { caller, still }, said.batch, deviceTime);
      const tally = counters.pushed(taken.receipts);
      if (tally.recorded > 0) streams.wake();
      log.info({ device: caller.name, ...tally }, 'push');
      const skew = deviceTime === undefined ? {} : { skewSeconds: Math.round((deviceTime - book.clock.now()) / 1_000) };
      return json({ ...nowOf(book, taken.position), ...skew, ...taken });
    },
  }),
  route({
    method: 'get',
    path: '/sync/pull',
    summary: 'The log behind a position, as this book stored it, in its order and without a gap.',
    right: 'log',
    params: NONE,
    query: z.strictObject({
      after: position.optional().describe('a position; 0 or absent for all of it'),
      limit: wholeNumber(MOST_ENTRIES).optional().describe('entries at most; 500 when absent'),
    }),
    answers: {
      200: {
        says: 'Stored entries. Byrebook-Position says how long the log is; a Link leads on where there is more',
        type: BATCH,
        schema: z.array(entry),
      },
    },
    run: ({ query: { after = 0, limit = 500 } }) => {
      const { position: last } = book.head();
      if (after > last) throw beyond(after, last);
      const page: string[] = [];
      let length = 0;
      for (const text of book.texts(after, Math.max(1, limit))) {
        length += text.length;
        if (page.length > 0 && length > LONG_PAGE) break;
        page.push(text);
      }
      const next = after + page.length;
      return new Response(`[${page.join(',')}]`, {
        headers: {
          'content-type': BATCH,
          ...headersOf(book),
          ...(next < book.head().position ? { link: `</sync/pull?after=${next}&limit=${limit}>; rel="next"` } : {}),
        },
      });
    },
  }),
  route({
    method: 'get',
    path: '/sync/stream',
    summary: 'The log as it grows (server-sent events). Last-Event-ID goes on where a connection broke.',
    right: 'log',
    params: NONE,
    query: z.strictObject({ after: position.optional().describe('a position; Last-Event-ID counts for more') }),
    headers: { 'Last-Event-ID': 'the last position seen' },
    answers: {
      200: { says: 'One event an entry: its position as id, the stored entry as data', type: 'text/event-stream' },
    },
    run: ({ request, query, caller, still, log }) => {
      const said = request.headers.get('last-event-id');
      const from = said === null || said === '' ? (query.after ?? 0) : lastEventId(said);
      const { position: last } = book.head();
      if (from > last) throw beyond(from, last);
      // HEAD asks for the headers alone: a stream that nobody reads would stay open.
      if (request.method === 'HEAD') return new Response(null, { headers: { 'content-type': 'text/event-stream' } });
      return streams.open({ after: from, caller, still, log, signal: request.signal });
    },
  }),
  route({
    method: 'get',
    path: '/sync/continuation',
    summary: 'Proof that a longer log continues a shorter one (RFC 6962 consistency proof).',
    right: 'log',
    params: NONE,
    query: z.strictObject({ from: position.describe('the shorter log'), to: position.describe('the longer log') }),
    answers: {
      200: {
        says: 'Both roots and the hashes that lead from the one to the other, in hex',
        type: 'application/json',
        schema: z.strictObject({
          oldSize: z.number(),
          oldRoot: z.string(),
          size: z.number(),
          root: z.string(),
          path: z.array(z.string()),
        }),
      },
    },
    run: ({ query: { from, to } }) => {
      const shown = book.continuation(from, to);
      if (shown === undefined) throw beyond(Math.max(from, to), book.head().position);
      return json(shown);
    },
  }),
  route({
    method: 'get',
    path: '/sync/book',
    summary: 'Which book this is, of which farm, how long its log is, and its time.',
    right: 'log',
    params: NONE,
    query: NONE,
    answers: { 200: { says: 'The book as it stands', type: 'application/json', schema: standing } },
    run: () => {
      return json({
        ...nowOf(book),
        farm: book.farmId,
        rehearsal: book.rehearsal,
        verifierKey: book.verifierKey,
        checkpoint: book.checkpoint(),
      });
    },
  }),
  route({
    method: 'get',
    path: '/checkpoint',
    summary: "The log's length and root as a signed C2SP checkpoint: keep a copy, and the book is held to it.",
    right: 'log',
    params: NONE,
    query: NONE,
    answers: { 200: { says: 'The checkpoint; "unsigned" beneath it where the book has no key', type: 'text/plain' } },
    run: () =>
      new Response(book.checkpoint(), { headers: { 'content-type': 'text/plain; charset=utf-8', ...headersOf(book) } }),
  }),
];

const nowOf = (book: Book, position = book.head().position) => ({
  time: instantText(book.clock.now()),
  book: book.bookId,
  position,
});

const headersOf = (book: Book): Record<string, string> => ({
  'byrebook-book': book.bookId,
  'byrebook-position': String(book.head().position),
  'byrebook-time': instantText(book.clock.now()),
});

const beyond = (asked: number, last: number): RequestProblem =>
  new RequestProblem(
    'cannot-answer',
    `This log ends at ${last}, and ${asked} was asked for. If it was longer before, the book was replaced or rolled back: do not go on, ask whoever keeps it`,
    { position: last },
  );

const timeSaid = (request: Request) => {
  const said = request.headers.get('byrebook-time');
  if (said === null) return undefined;
  const time = parseInstant(said);
  if (!time.ok) throw new RequestProblem('not-valid', `Byrebook-Time: ${time.problem}`, { parameter: 'Byrebook-Time' });
  return time.value;
};

const lastEventId = (said: string): number => {
  const parsed = position.safeParse(said.trim());
  if (parsed.success) return parsed.data;
  throw new RequestProblem('not-valid', 'Last-Event-ID is a position: a whole number', { parameter: 'Last-Event-ID' });
};

interface Relaying {
  readonly book: Book;
  readonly refusals: Refusals;
  readonly caller: Caller;
  readonly request: Request;
  /** Bytes of the body. */
  readonly length: number;
}

const relayed = (page: readonly PageEntry[], { book, refusals, caller, request, length }: Relaying) => {
  refusals.check(caller.id);
  meetBook(book, request);
  const { receipts } = takeRelay(book, caller, page);
  refusals.count(caller.id, receipts, () => length / Math.max(1, receipts.length));
  return { receipts, position: book.head().position };
};
