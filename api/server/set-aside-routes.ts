/**
 * What was refused at the doors of one book goes to the others of the farm, so that it holds there as here. It is no
 * entry and stands in no log: nobody signs it, and it may be sent again at any time.
 */
import { z } from 'zod';
import type { Book } from '../../events/book.ts';
import { readRefusal } from '../../events/refused-elsewhere.ts';
import { meetBook } from './meet-book.ts';
import { RequestProblem } from './problem.ts';
import { bodyOf, demandType, MOST_ENTRIES, readRefusals } from './push-body.ts';
import { type Carryings, carryingsOf } from './refusals.ts';
import { json, NONE, type Route, route, wholeNumber } from './route.ts';
import { carriedSchema, refusal, refusedPage } from './schemas.ts';

/** A page ends after so many characters, but always has one. */
const LONG_PAGE = 4 * 1024 * 1024;
const JSON_TYPE = 'application/json';

export const setAsideRoutes = (book: Book, carryings: Carryings = carryingsOf()): readonly Route[] => [
  route({
    method: 'get',
    path: '/sync/set-aside',
    summary:
      'What was refused at the doors of this book and of those it synced with, in the order it was set aside here.',
    right: 'carry',
    params: NONE,
    query: z.strictObject({
      after: wholeNumber(Number.MAX_SAFE_INTEGER).optional().describe('a number; 0 or absent for all of it'),
      limit: wholeNumber(MOST_ENTRIES).optional().describe('at most so many; 500 when absent'),
    }),
    answers: { 200: { says: 'Some of it, and how much there is', type: JSON_TYPE, schema: refusedPage } },
    run: ({ query: { after = 0, limit = 500 } }) => {
      const page = book.refusedBehind(after, { rows: Math.max(1, limit), characters: LONG_PAGE });
      if (page === undefined) {
        throw new RequestProblem(
          'cannot-answer',
          `There are not ${after} lines set aside here. If there were, the book was replaced or rolled back: read all of it again`,
        );
      }
      return json({ book: book.bookId, ...page });
    },
  }),
  route({
    method: 'post',
    path: '/sync/set-aside',
    summary: 'What another book of the farm refused, up to 1,000 at once: set aside here too. Safe to repeat.',
    right: 'carry',
    params: NONE,
    query: NONE,
    headers: { 'Byrebook-Farm': 'the id of its farm', 'Byrebook-Book': 'its own id' },
    body: { types: [JSON_TYPE], schema: z.array(refusal).max(MOST_ENTRIES) },
    answers: { 200: { says: 'What became of each, in their order', type: JSON_TYPE, schema: carriedSchema } },
    run: async ({ request, caller, log }) => {
      demandType(request, JSON_TYPE);
      const refusals = readRefusals(await bodyOf(request, true)).map(readRefusal);
      carryings.check(caller.id);
      meetBook(book, request);
      const carried = book.carry(refusals, caller.name);
      const lengths = refusals.flatMap((each, index) =>
        carried[index]?.outcome === 'set-aside' ? [JSON.stringify(each).length] : [],
      );
      carryings.count(caller.id, lengths);
      log.info({ device: caller.name, setAside: lengths.length, known: carried.length - lengths.length }, 'set aside');
      const receipts = carried.map(({ outcome, key }) => ({ outcome, key }));
      return json({ book: book.bookId, ...book.lastRefused(), receipts });
    },
  }),
];
