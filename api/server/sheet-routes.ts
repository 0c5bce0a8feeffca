/** The addresses for people: sheets as paper and as rows, issuing, what was issued, a cow, and why. */
import { z } from 'zod';
import type { Book } from '../../events/book.ts';
import type { EntryOf } from '../../events/entry.ts';
import { printedJson } from '../../print/json.ts';
import { PRINTED_NAMES, type PrintedName, renderWall } from '../../print/sheets.ts';
import { parseSheetRef } from '../../shared/sheet-ref.ts';
import { drawAll, marksOf } from '../issue.ts';
import { sheetsTonight } from '../kept-sheets.ts';
import { tonight } from '../tonight.ts';
import { whyJson } from '../why-json.ts';
import type { Issuing } from './issuing.ts';
import { RequestProblem } from './problem.ts';
import { json, NONE, type Route, route } from './route.ts';
import { sheetName } from './schemas.ts';

const text = z.string().min(1).max(200);
const milkingParts = {
  date: text.describe('the local date, 2026-03-14'),
  name: text.describe('the name in the schedule'),
};
const anyJson = z.record(z.string(), z.unknown());
const PDF = 'application/pdf';

export const sheetRoutes = (book: Book, issuing: Issuing): readonly Route[] => [
  route({
    method: 'get',
    path: '/milkings/next',
    summary: 'Which milking is next: the running one while no sheet is issued for it (R-04).',
    right: 'sheets',
    params: NONE,
    query: NONE,
    answers: { 200: { says: 'Its id and start', type: 'application/json', schema: anyJson } },
    run: () => json(sheetsTonight(book).views.milking),
  }),
  route({
    method: 'get',
    path: '/milkings/{date}/{name}/sheets/{sheet}.pdf',
    summary: 'A sheet as paper, as known now. Looking at it issues nothing.',
    right: 'sheets',
    params: z.strictObject({ ...milkingParts, sheet: sheetName }),
    query: NONE,
    answers: { 200: { says: 'The sheet', type: PDF } },
    run: async ({ params: { date, name, sheet } }) => {
      const answer = sheetsTonight(book, { milking: `${date}/${name}` });
      const marks = marksOf(book, answer, null);
      if (sheet === 'wall') return pdf(await renderWall(answer.views, marks));
      const [paper] = await drawAll(answer.views, marks, [sheet]);
      return pdf(paper?.bytes ?? new Uint8Array());
    },
  }),
  route({
    method: 'get',
    path: '/milkings/{date}/{name}/sheets/{sheet}.json',
    summary: 'The rows of a sheet, with alerts and doubts, as print --json gives them.',
    right: 'sheets',
    params: z.strictObject({ ...milkingParts, sheet: z.union([sheetName, z.literal('all')]) }),
    query: NONE,
    answers: { 200: { says: 'The rows', type: 'application/json', schema: anyJson } },
    run: ({ params: { date, name, sheet } }) => {
      const whole = printed.parse(printedJson(sheetsTonight(book, { milking: `${date}/${name}` }).views));
      if (sheet === 'all' || sheet === 'office') return json(whole);
      const names = sheet === 'wall' ? ['milk-hold', 'milking-plan'] : [sheet];
      return json({ ...whole, sheets: Object.fromEntries(names.map((each) => [each, whole.sheets[each]])) });
    },
  }),
  route({
    method: 'post',
    path: '/milkings/{date}/{name}/issue',
    summary:
      'Issue the set for a milking: it goes to the wall, and the book keeps it. The same rows again are the same set.',
    right: 'issue',
    params: z.strictObject(milkingParts),
    query: NONE,
    answers: {
      200: {
        says: 'The ref, where each paper is, and what it replaces',
        type: 'application/json',
        schema: z.strictObject({
          ref: z.string(),
          milking: z.string(),
          position: z.number().int(),
          isNew: z.boolean(),
          replaces: z.string().nullable(),
          papers: z.array(z.string()),
        }),
      },
    },
    run: async ({ params: { date, name }, log, caller }) => {
      const { issued, answer } = await issuing.issue(`${date}/${name}`);
      log.info({ device: caller.name, ref: issued.ref, milking: answer.milking.id, isNew: issued.isNew }, 'issued');
      return json({
        ref: issued.ref,
        milking: answer.milking.id,
        position: issued.position,
        isNew: issued.isNew,
        replaces: issued.replaces,
        papers: issued.papers.map(({ sheet }) => `/issued/${issued.ref}.pdf?sheet=${sheet}`),
      });
    },
  }),
  route({
    method: 'get',
    path: '/issued/{ref}.pdf',
    summary: 'A paper as it went to the wall, byte for byte.',
    right: 'sheets',
    params: z.strictObject({ ref: text.describe('the ref at the foot of the sheet, ACEF-3479-K') }),
    query: z.strictObject({ sheet: z.enum(PRINTED_NAMES).optional().describe('milk-hold when absent') }),
    answers: { 200: { says: 'The very bytes', type: PDF } },
    run: ({ params: { ref: said }, query: { sheet = 'milk-hold' } }) => {
      const bytes = paperOf(book, said, sheet);
      return pdf(bytes);
    },
  }),
  route({
    method: 'get',
    path: '/cows/{number}',
    summary: 'Who a cow is at the next milking, what lists she is on, and every entry about her.',
    right: 'herd',
    params: z.strictObject({ number: text.describe('her barn number or 15-digit official number') }),
    query: NONE,
    answers: { 200: { says: 'The cow', type: 'application/json', schema: anyJson } },
    run: ({ params: { number } }) => {
      const why = whyJson(tonight(book), number);
      const numbers = new Set([number, ...(why?.cows.flatMap((cow) => [cow.cow, cow.officialId ?? []]).flat() ?? [])]);
      const entries = book.entriesOf([...numbers]).map((row): unknown => JSON.parse(row.entry));
      if (why === null && entries.length === 0) throw noCow(number);
      const cows = (why?.cows ?? []).map(({ lists, ...cow }) => ({
        ...cow,
        on: lists.filter((list) => list.on).map((list) => list.list),
      }));
      return json({ number, cows, unplaced: why?.unplaced ?? [], entries });
    },
  }),
  route({
    method: 'get',
    path: '/why/{number}',
    summary: 'Why a cow is or is not on each list: the entries, the rule, the arithmetic.',
    right: 'herd',
    params: z.strictObject({ number: text.describe('her barn number or 15-digit official number') }),
    query: z.strictObject({ milking: text.optional().describe('2026-03-14/afternoon; next when absent') }),
    answers: { 200: { says: 'The reasons', type: 'application/json', schema: anyJson } },
    run: ({ params: { number }, query: { milking } }) => {
      const why = whyJson(tonight(book, { milking }), number);
      if (why === null) throw noCow(number);
      return json(why);
    },
  }),
];

const printed = z.looseObject({ sheets: z.record(z.string(), z.unknown()) });

const noCow = (number: string): RequestProblem =>
  new RequestProblem('not-found', `There is no cow ${number} in the herd, and nothing unplaced under that number`);

const paperOf = (book: Book, said: string, sheet: PrintedName): Uint8Array => {
  const ref = parseSheetRef(said);
  if (!ref.ok) throw new RequestProblem('not-valid', ref.problem, { parameter: 'ref' });
  const set = book
    .read()
    .entries.findLast(
      (entry): entry is EntryOf<'sheet-issued'> => entry.type === 'sheet-issued' && entry.data.ref === ref.value,
    );
  if (set === undefined) {
    throw new RequestProblem('not-found', `No set ${ref.value} was issued that this book knows of; check the ref`);
  }
  const hash = set.data.sheets.find((each) => each.sheet === sheet)?.pdfHash;
  const bytes = hash === undefined ? undefined : book.paper(hash);
  if (bytes === undefined) {
    throw new RequestProblem(
      'not-found',
      `The ${sheet} paper of set ${ref.value} is not kept here; the book ${set.data.book} that issued it has it`,
    );
  }
  return bytes;
};

const pdf = (bytes: Uint8Array): Response =>
  new Response(Uint8Array.from(bytes), { headers: { 'content-type': PDF, 'content-disposition': 'inline' } });
