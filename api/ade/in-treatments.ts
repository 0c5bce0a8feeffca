/**
 * Doses given. A planned course is no dose; an actual one without its doses is one, at its end; one that says neither is set aside.
 * A treatment without a medicine is a procedure, unless something in it speaks of a medicine: then its name is not known, and
 * R-14 holds her.
 */
import type { Treatment } from '../../events/kinds/treatment.ts';
import { HOUR, type Instant, plusHours } from '../../shared/instant.ts';
import { quarterOf, unitOf } from './codes.ts';
import { type Fields, plainText } from './in-fields.ts';
import { addedTo, draft, isOutcome, placed, type Reading, timeIn } from './in-reading.ts';
import {
  type Draft,
  type Incoming,
  notUsed,
  type Outcome,
  type Refused,
  refusal,
  type Stated,
  taken,
} from './in-resource.ts';

export const NOT_NAMED = 'medicine not named';

/** What a program says around its doses. */
interface Around {
  readonly program: Incoming;
  readonly prescribedBy: string | undefined;
  readonly reason: string | undefined;
}

export const treatmentIn = (reading: Reading, resource: Incoming, around?: Around): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { fields } = resource;
  const medicine = fields.object('medicine');
  const name = medicine?.text('name') ?? medicine?.object('registeredIdentifier')?.text('id');
  const speaksOfMedicine = ['medicine', 'dose', 'batches', 'withdrawals'].some((field) => fields.has(field));
  const procedure = fields.text('procedure');
  if (name === undefined && !speaksOfMedicine && procedure !== undefined)
    return notUsed(`"${procedure}" is a procedure without a medicine`);
  const amount = amountIn(fields);
  const comment = fields.text('comment');
  const remark = fields.text('remark');
  const words = [around?.reason, remark, withoutOurs(comment)].filter((each) => each !== undefined && each !== '');
  const batches = fields.objects('batches').flatMap((batch) => batch.text('identifier') ?? []);
  const responsible = fields.text('responsible');
  const data = {
    medicine: name === undefined ? NOT_NAMED : plainText(name, 80),
    amount,
    route: procedure === undefined ? undefined : plainText(procedure, 40),
    quarters: quartersIn(fields),
    reason: words.length === 0 ? undefined : plainText(words.join('; '), 200),
    givenBy: responsible === undefined ? undefined : plainText(responsible, 80),
    prescribedBy: around?.prescribedBy,
    batch: batches.length === 0 ? undefined : plainText(batches.join(', '), 60),
  };
  const stated = statedIn(fields);
  const one = addedTo(draft(resource, place, 'treatment', data), [around?.program]);
  return taken(
    [{ ...one, stated }],
    name === undefined ? [`${resource.name}: no medicine is named; she is held until somebody says which it was`] : [],
  );
};

const amountIn = (fields: Fields): Treatment['amount'] => {
  const dose = fields.object('dose');
  const code = dose?.text('doseUnits');
  const value = dose?.number('doseQuantity');
  const said = /\bamount (\d+(?:\.\d+)?) ([^;]{1,20})/.exec(fields.text('comment') ?? '');
  if (value !== undefined) return { value, unit: code === undefined ? 'units not given' : (unitOf(code) ?? code) };
  return said === null ? undefined : { value: Number(said[1]), unit: plainText(said[2] ?? '', 20) };
};

/** What Byrebook itself writes into a comment is read back, not repeated as a reason. */
const withoutOurs = (comment: string | undefined): string | undefined =>
  comment
    ?.split('; ')
    .filter((part) => !/^(dose \d+ of \d+|amount [\d.]+ .+)$/.test(part))
    .join('; ');

const quartersIn = (fields: Fields): readonly string[] => {
  const quarters = fields.objects('positions').map((each) => {
    const code = each.raw.position;
    const quarter = typeof code === 'string' ? quarterOf(code) : undefined;
    if (quarter !== undefined) each.pass('position');
    return quarter;
  });
  return [...new Set(quarters.filter((each) => each !== undefined))];
};

/** Of several withdrawals of one product (markets differ) the latest end counts; one without an end counts before any. */
export const statedIn = (fields: Fields): Stated => {
  const withdrawals = fields.objects('withdrawals');
  const of = (product: string): Instant | 'open' | undefined => {
    const ends = withdrawals
      .filter((each) => each.raw.productType === product)
      .map((each) => {
        each.pass('productType', 'market');
        const end = each.time('endDate');
        return end?.ok === true ? end.value : ('open' as const);
      });
    if (ends.length === 0) return undefined;
    return ends.includes('open') ? 'open' : (Math.max(...ends.map(Number)) as Instant);
  };
  const milk = of('Milk');
  const meat = of('Meat');
  return { ...(milk === undefined ? {} : { milk }), ...(meat === undefined ? {} : { meat }) };
};

/** A program: its doses, with the course, the reason and the prescriber that it gives them. */
export const programIn = (reading: Reading, resource: Incoming): Outcome => {
  const { fields } = resource;
  const prescriber = fields.text('responsible');
  const reason = reasonIn(fields);
  const courses = fields.objects('courses');
  const around: Around = {
    program: resource,
    prescribedBy: prescriber === undefined ? undefined : plainText(prescriber, 80),
    reason,
  };
  fields.pass('eventDateTime');
  const notes: string[] = [];
  const drafts: Draft[] = [];
  const refused: Refused[] = [];
  const unreadable = ['treatments', 'courses'].filter(
    (name) => fields.has(name) && fields.objects(name).length === 0 && !isEmptyList(fields.raw[name]),
  );
  if (unreadable.length > 0) {
    const cow = reading.animals.subjectOf(resource.animal);
    const problem = `${resource.name}: its ${unreadable.join(' and ')} cannot be read; ask which doses were given, and record them`;
    return refusal(problem, cow === undefined ? [] : [cow]);
  }
  if (resource.nested.length === 0 && courses.length === 0) return notUsed('it names no dose and no course');
  for (const dose of resource.nested.filter((each) => !each.deleted)) {
    const outcome = treatmentIn(reading, dose, around);
    if (outcome.is === 'taken') {
      drafts.push(...outcome.drafts);
      notes.push(...outcome.notes);
      refused.push(...outcome.refused);
    } else if (outcome.is === 'refused') refused.push(outcome);
    else notes.push(`${dose.name}: ${outcome.why}`);
  }
  for (const course of courses) {
    const hers = drafts.filter((each) => courses.length === 1 || isOf(each, course));
    const read = courseIn(reading, resource, course, hers, around, notes);
    if (Array.isArray(read)) for (const each of read) put(drafts, each);
    else if (read.is === 'refused') refused.push(read);
  }
  return taken(drafts, notes, refused);
};

const isEmptyList = (value: unknown): boolean => Array.isArray(value) && value.length === 0;

const put = (drafts: Draft[], one: Draft): void => {
  const place = drafts.findIndex((each) => each.from === one.from && each.part === one.part);
  if (place < 0) drafts.push(one);
  else drafts[place] = one;
};

const reasonIn = (fields: Fields): string | undefined => {
  const names = fields.objects('diagnoses').flatMap((each) => each.text('name') ?? each.text('description') ?? []);
  const given = fields.objects('courses').flatMap((each) => each.text('reasonForAdministration') ?? []);
  const remark = fields.text('remark');
  const words = [...new Set([...names, ...given, ...(remark === undefined ? [] : [remark])])];
  return words.length === 0 ? undefined : words.join('; ');
};

const isOf = (one: Draft, course: Fields): boolean =>
  String(one.data.medicine).toLowerCase() === course.object('medicine')?.text('name')?.toLowerCase();

/** The course's doses with their place in it; an actual course gets the dose at its end that its list leaves out. */
const courseIn = (
  reading: Reading,
  program: Incoming,
  course: Fields,
  doses: readonly Draft[],
  around: Around,
  notes: string[],
): Draft[] | Outcome => {
  const kind = course.text('planOrActual');
  const number = course.number('numberOfTreatments');
  const interval = course.number('treatmentInterval');
  const start = timeIn(course, 'startDate');
  const end = timeIn(course, 'endDate');
  const stated = statedIn(course);
  course.pass('medicine');
  if (doses.some((dose) => dose.data.batch !== undefined)) course.pass('batches');
  const sorted = [...doses].sort((a, b) => a.at - b.at);
  const last = sorted.at(-1);
  if (last === undefined) {
    if (kind === 'Plan') {
      notes.push(`${program.name}: a planned course with no dose given; nothing is recorded until one is`);
      return [];
    }
    if (kind === 'Actual' && end !== undefined) return [atItsEnd(reading, program, course, end, around, stated)].flat();
    const cow = reading.animals.subjectOf(program.animal);
    const why = kind === 'Actual' ? 'it has no doses and no end' : 'it does not say whether it is a plan or was given';
    return refusal(
      `${program.name}: a course of ${course.object('medicine')?.text('name') ?? NOT_NAMED} is named, but ${why}; ask which doses were given, and record them`,
      cow === undefined ? [] : [cow],
    );
  }
  const all =
    kind === 'Actual' && end !== undefined && end > last.at + HOUR
      ? [...sorted, ...atItsEnd(reading, program, course, end, around, stated)]
      : sorted;
  const of = Math.max(
    ...all.map((each, index) => doseOf(each, index)),
    kind === 'Actual' ? all.length : Math.round(number ?? byTimes(start, end, interval, all.length)),
  );
  if (of < 2) return all;
  const hours = interval ?? byEnd(all, start, end, of);
  return all.map((each, index) => ({
    ...each,
    data: {
      ...each.data,
      course: { id: program.base, dose: doseOf(each, index), of, everyHours: Math.max(hours, 0.01) },
    },
  }));
};

const atItsEnd = (
  reading: Reading,
  program: Incoming,
  course: Fields,
  end: Instant,
  around: Around,
  stated: Stated,
): Draft[] => {
  const subject = reading.animals.subjectOf(program.animal);
  if (subject === undefined) return [];
  const route = course.text('procedure');
  const data = {
    medicine: plainText(course.object('medicine')?.text('name') ?? NOT_NAMED, 80),
    route: route === undefined ? undefined : plainText(route, 40),
    reason: plainText([around.reason, 'last dose of a course'].filter((each) => each !== undefined).join('; '), 200),
    prescribedBy: around.prescribedBy,
  };
  return [{ ...draft(program, { subject, at: end }, 'treatment', data, 'end'), stated }];
};

/** `dose 2 of 3` in a comment, else its place by time. */
const doseOf = (one: Draft, index: number): number => {
  const said = /\bdose (\d{1,2}) of \d/.exec(String(one.from.fields.raw.comment ?? ''))?.[1];
  return said === undefined || one.part === 'end' ? index + 1 : Number(said);
};

/** How many doses a plan has that gives its dates alone; one more than those given where only its end is known. */
const byTimes = (
  start: Instant | undefined,
  end: Instant | undefined,
  interval: number | undefined,
  given: number,
): number => {
  if (start === undefined || end === undefined) return given;
  if (interval !== undefined && interval > 0) return Math.floor((end - start) / (interval * HOUR)) + 1;
  return end > start ? given + 1 : given;
};

/** Even steps from the last dose given to the planned end, else between the doses given. */
const byEnd = (doses: readonly Draft[], start: Instant | undefined, end: Instant | undefined, of: number): number => {
  const last = doses.at(-1)?.at ?? start ?? (0 as Instant);
  const first = doses[0]?.at ?? last;
  const left = of - doses.length;
  if (end !== undefined && left > 0 && end > last) return (end - last) / HOUR / left;
  return doses.length > 1 ? (last - first) / HOUR / (doses.length - 1) : 24;
};

/** The end of a hold as hours from where it counts, so that the arithmetic comes back to the same instant. */
export const hoursUntil = (from: Instant, end: Instant): number => {
  const hours = (end - from) / HOUR;
  return plusHours(from, hours) < end ? hours + 1 / HOUR : hours;
};
