/**
 * A cow that comes in: her arrival, or an animal resource where the file knows her only so, with what it says of her before that
 * day. A running hold that it doesn't state is left out, which the book reads as not known.
 */
import type { Instant } from '../../shared/instant.ts';
import { addDays, type LocalDay } from '../../shared/local-day.ts';
import { resultOf } from './codes.ts';
import type { AnimalNamed } from './in-animals.ts';
import { type Fields, plainText } from './in-fields.ts';
import { addedTo, dayIn, draft, isOutcome, placed, type Reading, timeIn } from './in-reading.ts';
import { type Incoming, notUsed, type Outcome, refusal, taken } from './in-resource.ts';
import { isByrebook } from './names.ts';
import { NO_PRODUCT } from './out-herd.ts';

export interface Arrived {
  readonly outcome: Outcome;
  /** Resources that came to be part of the entry. */
  readonly used: readonly Incoming[];
}

const GESTATION_DAYS = 283;

export const arrivalIn = (reading: Reading, resource: Incoming, isKnown: boolean): Arrived => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return { outcome: place, used: [] };
  const detail = resource.fields.object('animalDetail');
  const named = detail === undefined ? undefined : reading.animals.namedBy(detail);
  return entered(
    reading,
    resource,
    place.at,
    { official: undefined, tag: undefined, ...named },
    place.subject,
    isKnown,
  );
};

/** `at`: when the file first speaks of her. */
export const animalIn = (reading: Reading, resource: Incoming, at: Instant, isKnown: boolean): Arrived => {
  const named = reading.animals.namedBy(resource.fields);
  const subject = reading.animals.subjectOf(resource.animal) ?? named.tag ?? named.official;
  if (subject === undefined) return { outcome: notUsed('no number of the herd can be read in it'), used: [] };
  return entered(reading, resource, at, named, subject, isKnown);
};

const entered = (
  reading: Reading,
  resource: Incoming,
  at: Instant,
  named: AnimalNamed,
  subject: string,
  isKnown: boolean,
): Arrived => {
  const number = named.tag ?? subject;
  if (!isKnown && reading.animals.inHerd({ official: named.official, tag: number })) {
    return { outcome: notUsed(`cow ${number} is in the herd already; record what changed`), used: [] };
  }
  const detail = resource.fields.object('animalDetail') ?? resource.fields;
  detail.pass(
    'resourceType',
    'specie',
    'gender',
    'status',
    'lactationStatus',
    'reproductionStatus',
    'productionPurpose',
  );
  const used = cameWith(reading, resource, at);
  const notes: string[] = [];
  const of = (kind: string): readonly Incoming[] =>
    used.filter((each) => each.kind === kind).sort((a, b) => timeOf(a) - timeOf(b));
  const group = groupIn(reading, resource, subject, at, of('animalsetjoinevent'));
  if (group === undefined) {
    const problem = `${resource.name}: nothing says which group cow ${number} went to; import again with --group and the group’s name, or record her cow-entered`;
    return { outcome: refusal(problem, [number]), used };
  }
  const lactation = lactationIn(reading, of('lactation'), of('parturitionevent').concat(of('reproparturitionevent')));
  if (lactation.number === undefined)
    notes.push(`cow ${number}: no lactation is given; she is entered as in her first until somebody says better`);
  const consignment = resource.fields.object('consignment');
  const dried = of('milkingdryoffevent').at(-1);
  const data = {
    group,
    officialId: named.official,
    born: dayIn(reading, detail, 'birthDate'),
    lactation: lactation.number ?? 1,
    calvedOn: lactation.calvedOn,
    driedOffOn:
      lactation.driedOffOn ?? (dried === undefined ? undefined : dayIn(reading, dried.fields, 'eventDateTime')),
    driedOffWith: productIn(of('treatmentevent').at(-1)),
    servedOn: dayOf(reading, of('reproinseminationevent').at(-1)),
    dueOn: dueIn(reading, of('repropregnancycheckevent').at(-1)),
    milkHoldUntil: holdIn(of('withdrawalevent'), 'Milk', at),
    meatHoldUntil: holdIn(of('withdrawalevent'), 'Meat', at),
    from: fromIn(consignment),
  };
  for (const each of used) each.fields.pass('resourceType', 'remark', 'inseminationType', 'result', 'foetalAge');
  resource.fields.pass('arrivalReason');
  const one = addedTo(draft(resource, { subject: number, at }, 'cow-entered', data), used);
  return { outcome: taken([one], notes), used };
};

const timeOf = (resource: Incoming): number => timeIn(resource.fields, 'eventDateTime') ?? 0;

const COMES_WITH = new Set([
  'lactation',
  'animalsetjoinevent',
  'reproparturitionevent',
  'reproinseminationevent',
  'repropregnancycheckevent',
  'milkingdryoffevent',
  'withdrawalevent',
]);

/** From another Byrebook, the parts of the entry; else what happened to her before she came to a herd that didn't have her. */
const cameWith = (reading: Reading, resource: Incoming, at: Instant): readonly Incoming[] => {
  if (isByrebook(resource.source)) {
    return [...reading.partsOf(resource)].flatMap(([part, each]) => (part === 'fresh' ? [] : [each]));
  }
  const isFirst = !reading.othersOf(resource).some((each) => each.kind === 'movementarrivalevent' && timeOf(each) < at);
  if (!isFirst) return [];
  return reading
    .othersOf(resource)
    .filter((each) => !each.deleted && COMES_WITH.has(each.kind) && (each.kind === 'lactation' || timeOf(each) <= at));
};

/** Where she joined last by then; else where she joined first; else the set that lists her. */
const groupIn = (
  reading: Reading,
  resource: Incoming,
  subject: string,
  at: Instant,
  before: readonly Incoming[],
): string | undefined => {
  const after = reading
    .othersOf(resource)
    .filter((each) => each.kind === 'animalsetjoinevent' && timeOf(each) >= at)
    .sort((a, b) => timeOf(a) - timeOf(b));
  const set = (before.at(-1) ?? after[0])?.fields.text('animalSetId');
  return set === undefined ? (reading.setOf(subject) ?? reading.group) : reading.groupOf(set);
};

interface LactationSaid {
  readonly number: number | undefined;
  readonly calvedOn: LocalDay | undefined;
  readonly driedOffOn: LocalDay | undefined;
}

const lactationIn = (
  reading: Reading,
  lactations: readonly Incoming[],
  parturitions: readonly Incoming[],
): LactationSaid => {
  const parityOf = (each: Incoming): number => each.fields.number('parity') ?? -1;
  const last = [...lactations].sort((a, b) => parityOf(a) - parityOf(b)).at(-1);
  const calving = parturitions.at(-1);
  const parity = last?.fields.number('parity') ?? calving?.fields.number('damParity');
  return {
    number: parity === undefined ? undefined : Math.trunc(parity),
    calvedOn:
      last === undefined
        ? dayOf(reading, calving)
        : (dayIn(reading, last.fields, 'beginDate') ?? dayOf(reading, calving)),
    driedOffOn: last === undefined ? undefined : dayIn(reading, last.fields, 'endDate'),
  };
};

const dayOf = (reading: Reading, resource: Incoming | undefined): LocalDay | undefined =>
  resource === undefined ? undefined : dayIn(reading, resource.fields, 'eventDateTime');

const productIn = (treatment: Incoming | undefined): string | undefined => {
  if (treatment?.fields.text('procedure') === NO_PRODUCT) return 'none';
  const name = treatment?.fields.object('medicine')?.text('name');
  treatment?.fields.pass('withdrawals');
  return name === undefined ? undefined : plainText(name, 80);
};

/** The calving date that a positive check gives: in words, else from the age of the foetus. */
const dueIn = (reading: Reading, check: Incoming | undefined): LocalDay | undefined => {
  if (check === undefined) return undefined;
  const result = resultOf(check.fields.text('result') ?? '');
  if (result !== 'pregnant' && result !== 'twins') return undefined;
  const said = dueSaid(check.fields);
  const age = check.fields.number('foetalAge');
  const day = dayOf(reading, check);
  if (said !== undefined || age === undefined || day === undefined) return said;
  const served = addDays(day, -Math.round(age));
  return addDays(served, reading.schedule.inForceOn(served).data.gestationDays ?? GESTATION_DAYS);
};

/** `due 2026-10-07` in a remark, as Byrebook writes it. */
export const dueSaid = (fields: Fields): LocalDay | undefined =>
  /\bdue (\d{4}-\d{2}-\d{2})\b/.exec(fields.text('remark') ?? '')?.[1] as LocalDay | undefined;

/** One that ends as it begins, when she came, says that there is none; one that is over says nothing of others. */
const holdIn = (withdrawals: readonly Incoming[], product: 'Milk' | 'Meat', at: Instant): string | undefined => {
  const ends = withdrawals
    .filter((each) => each.fields.text('productType') === product)
    .map((each) => {
      const end = timeIn(each.fields, 'endDateTime');
      const text = each.fields.text('endDateTime');
      if (end === undefined || text === undefined) return 'unknown' as const;
      if (end === timeOf(each) && end === at) return 'none' as const;
      return end > at || isByrebook(each.source) ? new Date(end).toISOString() : undefined;
    });
  if (ends.includes('unknown')) return 'unknown';
  const latest = ends
    .filter((end) => end !== undefined && end !== 'none')
    .sort()
    .at(-1);
  return latest ?? (ends.includes('none') ? 'none' : undefined);
};

const fromIn = (consignment: Fields | undefined): string | undefined => {
  const address = consignment?.object('originPostalAddress');
  const text =
    consignment?.text('originAddress') ??
    ['streetAddress', 'addressLocality', 'addressRegion', 'postalCode', 'addressCountry']
      .flatMap((name) => address?.text(name) ?? [])
      .join(', ');
  return text === '' ? undefined : plainText(text, 120);
};
