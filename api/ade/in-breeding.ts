/** Calvings, services, pregnancy checks, lost pregnancies and drying-off. */
import type { Calving } from '../../events/kinds/calving.ts';
import { isBarnNumber } from '../../shared/cow-number.ts';
import { DAY } from '../../shared/instant.ts';
import { addDays } from '../../shared/local-day.ts';
import { easeOf, resultOf, serviceOf } from './codes.ts';
import { dueSaid } from './in-arrival.ts';
import { type Fields, plainText } from './in-fields.ts';
import { addedTo, draft, isOutcome, placed, type Reading, timeIn } from './in-reading.ts';
import { type Incoming, type Outcome, refusal, taken } from './in-resource.ts';
import { statedIn } from './in-treatments.ts';
import { isByrebook } from './names.ts';
import { NO_PRODUCT } from './out-herd.ts';

const groupPart = (reading: Reading, resource: Incoming): { join: Incoming | undefined; group: string | undefined } => {
  const join = reading.partsOf(resource).get('group');
  const set = join?.fields.text('animalSetId');
  return { join, group: set === undefined ? undefined : reading.groupOf(set) };
};

type Calf = Calving['calves'][number];

export const parturitionIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { fields } = resource;
  const notes: string[] = [];
  const list = fields.has('progenyDetails') ? fields.objects('progenyDetails') : fields.objects('progeny');
  const calves = list.flatMap((calf): Calf[] => {
    const read = calfIn(calf);
    if (read === undefined)
      notes.push(`${resource.name}: a calf’s sex is not given; the calving is recorded without it`);
    return read === undefined ? [] : [read];
  });
  const total = fields.number('totalProgeny');
  fields.pass('liveProgeny', 'damParity');
  if (total !== undefined && total > list.length)
    notes.push(`${resource.name}: ${total} calves, of which ${list.length} are described`);
  const said = fields.text('calvingEase');
  const ease = said === undefined ? undefined : easeOf(said);
  if (said !== undefined && ease === undefined)
    notes.push(`${resource.name}: calving ease "${said}" is not known here`);
  const { join, group } = groupPart(reading, resource);
  return taken(
    [addedTo(draft(resource, place, 'calving', { calves: calves.slice(0, 6), ease, group }), [join])].map((one) => ({
      ...one,
      // A calving with no calf described still begins a lactation and a fresh hold.
      data: { ...one.data, calves: calves.slice(0, 6) },
    })),
    notes,
  );
};

const calfIn = (calf: Fields): Calf | undefined => {
  calf.pass('resourceType', 'meta', 'identifier', 'specie', 'managementTag', 'birthStatus', 'status');
  const gender = calf.text('gender') ?? '';
  const sex = /^Female/.test(gender) ? 'female' : /^Male/.test(gender) ? 'male' : undefined;
  if (sex === undefined) return undefined;
  const status = calf.text('birthStatus') ?? calf.text('status') ?? 'Alive';
  const tag = calf.text('managementTag') ?? calf.object('identifier')?.text('id');
  // Tagged and then dead was born alive.
  const alive = status === 'Alive' || status === 'DiedAfterTaggingDate';
  return { sex, alive, ...(tag !== undefined && isBarnNumber(tag) ? { number: tag } : {}) };
};

export const inseminationIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { fields } = resource;
  const type = fields.text('inseminationType') ?? '';
  const how = serviceOf(type);
  const [identifier] = fields.objects('sireIdentifiers');
  const sire = fields.text('sireOfficialName') ?? identifier?.text('id');
  return taken(
    [
      draft(resource, place, 'service', {
        how: how ?? 'insemination',
        sire: sire === undefined ? undefined : plainText(sire, 80),
      }),
    ],
    how === undefined
      ? [`${resource.name}: "${type}" is not a way of serving known here, recorded as insemination`]
      : [],
  );
};

const NEAR_DAYS = 10;

export const checkIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { fields } = resource;
  const code = fields.text('result');
  const count = fields.number('foetusCount') ?? 0;
  const read = resultOf(code ?? '') ?? 'unsure';
  const result = read === 'pregnant' && count > 1 ? 'twins' : read;
  const due = dueSaid(fields);
  const age = /no service known/.test(fields.text('remark') ?? '') ? undefined : fields.number('foetalAge');
  const positive = result === 'pregnant' || result === 'twins';
  return taken(
    [
      draft(resource, place, 'pregnancy-check', {
        result,
        servedOn: age === undefined || !positive ? undefined : servedOn(reading, resource, place.at, age),
        dueOn: due,
      }),
    ],
    code === undefined || resultOf(code) !== undefined
      ? []
      : [`${resource.name}: result "${code}", recorded as unsure`],
  );
};

/** An age felt by hand is not to the day: a service of the file that lies near it is the better date. */
const servedOn = (reading: Reading, resource: Incoming, at: number, age: number): string => {
  const felt = (at - Math.round(age) * DAY) as typeof reading.now;
  const services = reading
    .othersOf(resource)
    .filter((each) => each.kind === 'reproinseminationevent')
    .flatMap((each) => timeIn(each.fields, 'eventDateTime') ?? []);
  const near = services
    .filter((served) => Math.abs(served - felt) <= NEAR_DAYS * DAY)
    .sort((a, b) => Math.abs(a - felt) - Math.abs(b - felt))[0];
  const byAge = addDays(reading.schedule.dayOf(at as typeof reading.now), -Math.round(age));
  return near === undefined || isByrebook(resource.source) ? byAge : reading.schedule.dayOf(near);
};

export const abortionIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const seen =
    reading.partsOf(resource).get('milked') ??
    reading
      .othersOf(resource)
      .find(
        (each) => each.kind === 'lactationstatusobservedevent' && timeIn(each.fields, 'eventDateTime') === place.at,
      );
  const status = seen?.fields.text('observedStatus');
  const { join, group } = groupPart(reading, resource);
  const carried = /^carried (\d{1,3}) days$/.exec(resource.fields.text('remark') ?? '')?.[1];
  const data = {
    milked: status === undefined ? undefined : status !== 'Dry' && status !== 'Lead',
    daysCarried: carried === undefined ? undefined : Number(carried),
    group,
  };
  return taken(
    [addedTo(draft(resource, place, 'abortion', data), [seen, join])],
    status === undefined ? [`${resource.name}: whether she is milked after it is not said`] : [],
  );
};

/** The product is named by a treatment of its own: a part of the entry here, an entry of its own from elsewhere. */
export const dryOffIn = (reading: Reading, resource: Incoming): Outcome => {
  const place = placed(reading, resource);
  if (isOutcome(place)) return place;
  const { join, group } = groupPart(reading, resource);
  const given = reading.partsOf(resource).get('product');
  const name = given?.fields.object('medicine')?.text('name');
  const product =
    given?.fields.text('procedure') === NO_PRODUCT ? 'none' : name === undefined ? undefined : plainText(name, 80);
  const one = addedTo(draft(resource, place, 'dry-off', { product, group }), [join, given]);
  const stated = given === undefined || product === 'none' ? undefined : statedIn(given.fields);
  return taken([stated === undefined ? one : { ...one, stated }]);
};

const ONE_CALVING = 5 * DAY;

/**
 * A calf of a cow whose calving nobody recorded: her milk is fresh, and the book doesn't know since when. `calvingsOf` gives
 * undefined for a dam that is no cow of this herd.
 */
export const birthIn = (
  reading: Reading,
  resource: Incoming,
  calvingsOf: (cow: string) => readonly number[] | undefined,
): Outcome => {
  const at = timeIn(resource.fields, 'eventDateTime');
  const parents = resource.fields.object('animalDetail')?.objects('parentage') ?? [];
  const dam = parents.find((parent) => parent.text('gender') === 'Female' && parent.text('relation') !== 'Adoptive');
  const identifier = dam?.object('identifier');
  const id = identifier?.text('id');
  const subject =
    id === undefined ? undefined : reading.animals.subjectOf({ id, scheme: identifier?.text('scheme') ?? '' });
  resource.fields.pass('location', 'registrationReason');
  resource.fields.object('animalDetail')?.pass(...Object.keys(resource.fields.object('animalDetail')?.raw ?? {}));
  const calvings = subject === undefined ? undefined : calvingsOf(subject);
  if (subject === undefined || at === undefined || calvings === undefined) return taken([]);
  if (calvings.some((each) => Math.abs(each - at) <= ONE_CALVING)) return taken([]);
  return refusal(
    `${resource.name}: a calf of ${subject} was born, and no calving of hers is known within five days; record her calving`,
    [subject],
  );
};
