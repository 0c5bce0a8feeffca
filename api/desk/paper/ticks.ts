/** From the ticks of a form to what happened, line by line in the paper's order. What is not ticked records nothing and is said. */
import { assertNever } from '../../../shared/refusal.ts';
import type { Form } from '../ask.ts';
import type { Draft } from '../saving.ts';
import { type Book, courseOf, openRequests, type Stands, standsNow } from './already.ts';
import { takeCount } from './count-line.ts';
import { dryOffLine } from './dry-off-line.ts';
import type { DoseLine, PaperLine } from './on-paper.ts';
import type { Gathering } from './taken.ts';
import { type Sheet, type Taking, timeOf } from './taking.ts';

/** Marks beside a box that is itself not ticked. */
const STRAYS = ['by', 'time', 'sealant-given', 'quarters', 'band'];

export const takeLine = (book: Book, sheet: Sheet, line: PaperLine, into: Gathering): void => {
  const { form } = sheet;
  if (line.kind === 'count') {
    takeCount(book, sheet, line, into);
    return;
  }
  if (line.kind === 'undecided' || line.kind === 'pen') {
    takeWords(form, line, into);
    return;
  }
  const stands = standsNow(book, line);
  const ticked = form.one(line.field) !== undefined;
  const name = nameOf(line);
  if (ticked && stands.shut !== undefined) {
    into.shut.push(`${name}: ${stands.shut}`);
    return;
  }
  if (stands.shut !== undefined) return;
  if (!ticked) {
    if (STRAYS.some((mark) => form.one(`${line.field}.${mark}`) !== undefined))
      into.troubles.set(
        line.field,
        'Something is filled in beside it, but it is not ticked: tick it, or empty the rest',
      );
    else into.notTicked.push(notDone(line));
    return;
  }
  if (line.kind === 'band') {
    into.notes.push(`${line.cow} band off`);
    return;
  }
  const time = timeOf(book, sheet, line.field, into);
  if (time === undefined) return;
  const draft = (type: Draft['type'], data: unknown): Draft => ({
    type,
    subject: stands.subjectAt(time.at),
    at: time.at,
    data,
  });
  const take = (says: string, drafts: readonly Draft[], cow?: string): void => {
    into.taken.push({ field: line.field, says: `${says}, ${time.said}`, drafts, cow });
  };
  const taking = { time, draft, take };
  switch (line.kind) {
    case 'dose':
      takeDose(book, sheet, line, stands, taking, into);
      break;
    case 'dry':
      dryOffLine(book, sheet, line, taking, into);
      break;
    case 'out':
      take(`${line.cow} moved from ${line.group} to ${line.to}`, [draft('group-move', { to: line.to })]);
      break;
    case 'in': {
      const to = form.one(`${line.field}.to`);
      if (to === undefined) into.troubles.set(line.field, `Say which pen ${line.cow} came into`);
      else take(`${line.cow} moved from ${line.group} to ${to}`, [draft('group-move', { to })]);
      break;
    }
    case 'sort':
      take(
        name,
        openRequests(book, line).map((request) => draft('sort-done', { request })),
      );
      break;
    default:
      assertNever(line);
  }
};

const takeDose = (
  book: Book,
  sheet: Sheet,
  line: DoseLine,
  stands: Stands,
  { time, draft, take }: Taking,
  into: Gathering,
): void => {
  const course = courseOf(book.knowledge, line);
  const givenBy = sheet.form.one(`${line.field}.by`) ?? sheet.who;
  if (course === undefined) return;
  if (givenBy === undefined) {
    into.troubles.set(line.field, 'Say who gave it: the initials beside it, or above who wrote the sheet');
    return;
  }
  const dose = draft('treatment', {
    medicine: line.medicine,
    ...(line.amount === null ? {} : { amount: line.amount }),
    ...(line.route === null ? {} : { route: line.route }),
    ...(line.quarters.length === 0 ? {} : { quarters: line.quarters }),
    givenBy,
    course: { id: course.id, dose: line.dose, of: Math.max(course.of, line.dose), everyHours: course.everyHours },
  });
  take(`${doseName(line)} given by ${givenBy}`, [dose], stands.subjectAt(time.at));
};

/** What is written in words and has no entry of its own. */
const takeWords = (form: Form, { kind, field, cow }: PaperLine & { readonly cow: string }, into: Gathering): void => {
  if (kind === 'undecided') {
    const decided = form.one(field);
    if (decided === undefined) into.notTicked.push(`${cow}: nothing decided about her dry-off`);
    else into.notes.push(`${cow} decided: ${decided}`);
    return;
  }
  const temperature = form.one(`${field}.temperature`);
  const checked = form.one(`${field}.milk`);
  const said = [
    ...(temperature === undefined ? [] : [`temperature ${temperature}`]),
    ...(checked === undefined ? [] : [`milk checked by ${checked}`]),
  ];
  if (said.length > 0) into.notes.push(`${cow} ${said.join(', ')}`);
};

export const doseName = ({ cow, medicine, dose, of }: DoseLine): string => `${cow} ${medicine}, dose ${dose} of ${of}`;

type Ticked = Exclude<PaperLine, { kind: 'count' | 'undecided' | 'pen' }>;

const nameOf = (line: Ticked): string => {
  switch (line.kind) {
    case 'dose':
      return doseName(line);
    case 'band':
      return `${line.cow} band off`;
    case 'dry':
      return `${line.cow} dried off`;
    case 'out':
      return `${line.cow} to ${line.to}`;
    case 'in':
      return `${line.cow} into the fresh pen`;
    case 'sort':
      return `${line.cow} sorted${line.to.length === 0 ? '' : ` to ${line.to.join(' or ')}`}`;
    default:
      return assertNever(line);
  }
};

const notDone = (line: Ticked): string => {
  switch (line.kind) {
    case 'dose':
      return `${doseName(line)} was NOT given: it stays due`;
    case 'band':
      return `${line.cow}: her band was not ticked as taken off`;
    case 'dry':
      return `${line.cow} was NOT dried off: she stays on the list`;
    case 'out':
      return `${line.cow} was not moved: she stays in ${line.group}`;
    case 'in':
      return `${line.cow} did not come into the fresh pen: she stays in ${line.group}`;
    case 'sort':
      return `${line.cow} was not sorted: she stays on the sort list`;
    default:
      return assertNever(line);
  }
};
