/** Issuing a set, looking at it before, and what was issued: the very bytes of the paper. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { EntryOf } from '../../events/entry.ts';
import { PRINTED_NAMES, type PrintedName, renderWall } from '../../print/sheets.ts';
import { instantText } from '../../shared/instant.ts';
import { parseSheetRef } from '../../shared/sheet-ref.ts';
import { drawAll, type Issued, marksOf } from '../issue.ts';
import { RequestProblem } from '../server/problem.ts';
import { toPrinter } from '../to-printer.ts';
import { tonight } from '../tonight.ts';
import type { Desk, DeskPage } from './ask.ts';
import { savingOf } from './ask.ts';
import { atHand } from './at-hand.ts';
import { goTo, page } from './layout.tsx';
import { SHEETS } from './milking.tsx';
import { inEnglish, SaidProblem, say, sayWith } from './say.tsx';

/** What goes into the parlour, in this order. */
const ON_THE_WALL: readonly PrintedName[] = PRINTED_NAMES.filter((name) => name !== 'office' && name !== 'beef-hold');

export const issuedPages: readonly DeskPage[] = [
  {
    method: 'post',
    path: '/issue',
    right: 'issue',
    run: async (desk, { form, log }) => {
      savingOf(form);
      const { issued } = await desk.issuing.issue(form.one('milking') ?? 'next');
      desk.recorded();
      log.info({ ref: issued.ref, isNew: issued.isNew }, 'issued');
      const sent = desk.printer === undefined ? undefined : printed(desk.printer, issued);
      const how = sent === undefined ? '' : `?sent=${encodeURIComponent(sent)}`;
      return goTo(`/issued/${issued.ref}${how}`);
    },
  },
  {
    method: 'get',
    path: '/look/:date/:name/:sheet',
    right: 'sheets',
    run: async (desk, { params }) => {
      const { date = '', name = '', sheet = '' } = params;
      const answer = tonight(desk.book, { milking: `${date}/${name}` });
      const marks = marksOf(desk.book, answer, null);
      if (sheet === 'wall') return pdf(await renderWall(answer.views, marks));
      const wanted = PRINTED_NAMES.find((each) => each === sheet);
      if (wanted === undefined) throw new SaidProblem('not-found', 'There is no sheet "{sheet}"', { sheet });
      const [paper] = await drawAll(answer.views, marks, [wanted]);
      return pdf(paper?.bytes ?? new Uint8Array());
    },
  },
  {
    method: 'get',
    path: '/issued/:ref',
    right: 'sheets',
    run: (desk, { visitor, params, url }) => {
      const set = setOf(desk, params.ref ?? '');
      const hand = atHand(desk, visitor, '/', set.data.milking);
      if (hand === undefined) return goTo('/');
      const sent = url.searchParams.get('sent');
      const { format, frame } = hand;
      return page({
        ...frame,
        title: say('Sheets {ref}', { ref: set.data.ref }),
        children: (
          <>
            <p class="lead">
              {say('For {milking}, issued {time}. Take the old sheets down when you hang these up.', {
                milking: format.milking(set.data.milking),
                time: format.time(instantText(set.at)),
              })}
            </p>
            {sent === null ? null : (
              <p class={sent === SENT ? 'done' : 'problem'} role="status">
                {sent === SENT
                  ? say('Sent to the printer {printer}.', { printer: desk.printer ?? '' })
                  : sent === NOT_TAKEN
                    ? say('The printer did not take them; print them from here.')
                    : inEnglish(sent)}
              </p>
            )}
            <ul class="papers">
              {set.data.sheets.map(({ sheet, pdfHash }) => (
                <li>
                  {desk.book.paper(pdfHash) === undefined ? (
                    <span>
                      {say('{sheet}: the paper is kept by the book that issued it', { sheet: nameOf(sheet) })}
                    </span>
                  ) : (
                    <a class="button" href={`/issued/${set.data.ref}/${sheet}.pdf`}>
                      {nameOf(sheet)}
                    </a>
                  )}
                </li>
              ))}
            </ul>
            <p>
              {sayWith('Print each from your browser. When a sheet comes back, <a>write it up</a>.', {
                a: (inner) => <a href={`/paper?ref=${set.data.ref}`}>{inner}</a>,
              })}
            </p>
          </>
        ),
      });
    },
  },
  {
    method: 'get',
    path: '/issued/:ref/:paper{[a-z-]+\\.pdf}',
    right: 'sheets',
    run: (desk, { params }) => {
      const set = setOf(desk, params.ref ?? '');
      const sheet = (params.paper ?? '').slice(0, -'.pdf'.length);
      const hash = set.data.sheets.find((each) => each.sheet === sheet)?.pdfHash;
      const bytes = hash === undefined ? undefined : desk.book.paper(hash);
      if (bytes === undefined)
        throw new SaidProblem('not-found', 'The {sheet} paper of set {ref} is not kept in this book', {
          sheet,
          ref: set.data.ref,
        });
      return pdf(bytes);
    },
  },
];

const nameOf = (sheet: string): string =>
  PRINTED_NAMES.flatMap((name) => (name === sheet ? [say(SHEETS[name])] : []))[0] ?? sheet;

/** The issued set that a ref means, however it was typed. */
export const setOf = (desk: Desk, said: string): EntryOf<'sheet-issued'> => {
  const ref = parseSheetRef(said);
  if (!ref.ok) throw new RequestProblem('not-valid', ref.problem);
  const set = desk.knowing
    .now()
    .known.farm.issued.findLast(
      (entry): entry is EntryOf<'sheet-issued'> => entry.type === 'sheet-issued' && entry.data.ref === ref.value,
    );
  if (set === undefined)
    throw new SaidProblem('not-found', 'No set {ref} was issued that this book knows of; check the ref', {
      ref: ref.value,
    });
  return set;
};

/** In the address of the page that follows; anything else is what the printer answered. */
const SENT = 'yes';
const NOT_TAKEN = 'no';

/** A printer that fails must not hide that the set is issued. */
const printed = (printer: string, issued: Issued): string => {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
  try {
    const files = issued.papers
      .filter(({ sheet }) => ON_THE_WALL.includes(sheet))
      .map(({ sheet, bytes }) => {
        const file = path.join(folder, `${sheet}.pdf`);
        writeFileSync(file, bytes);
        return file;
      });
    toPrinter(printer, files);
    return SENT;
  } catch (error) {
    return error instanceof Error ? error.message.replaceAll(`${folder}/`, '') : NOT_TAKEN;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const pdf = (bytes: Uint8Array): Response =>
  new Response(Uint8Array.from(bytes), {
    headers: { 'content-type': 'application/pdf', 'content-disposition': 'inline' },
  });
