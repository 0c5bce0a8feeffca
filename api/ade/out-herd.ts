/** Cows that come and go, their numbers and their groups, as animals, arrivals, departures and animal sets. */
import type { EntryOf } from '../../events/entry.ts';
import { type Cow, groupAt, numberAt, presentAt } from '../../projections/cow.ts';
import type { CowFile } from '../../projections/cow-file.ts';
import type { Group } from '../../projections/groups.ts';
import { stretchAt } from '../../projections/lactation.ts';
import { openFrom } from '../../projections/moment.ts';
import { pregnancyAt } from '../../projections/pregnancy.ts';
import { type Instant, instantText, mustBeInstant } from '../../shared/instant.ts';
import { addDays, daysBetween, type LocalDay } from '../../shared/local-day.ts';
import { departureCodes } from './codes.ts';
import { identifierOf, type Part, partId } from './names.ts';
import { dayAsTime, eventOf, identifierOfCow, metaOf, modifiedBy, type Outgoing } from './outgoing.ts';
import { given, type Resource } from './resource.ts';

const CATTLE = { specie: 'Cattle', gender: 'Female' } as const;
const GESTATION_DAYS = 283;

/** A cow that came: her arrival, where she was put, and everything she came with. */
export const arrivalOf = (out: Outgoing, entry: EntryOf<'cow-entered'>): Resource[] => {
  const { data } = entry;
  const number = entry.subject ?? '';
  const animal = identifierOf(data.officialId ?? number);
  const event = (type: string, part: Part | undefined, fields: Record<string, unknown> = {}): Resource => ({
    ...eventOf(out, entry, type, fields, part),
    animal,
  });
  const meta = metaOf(out, entry, 'lactation');
  return [
    event('icarMovementArrivalEventResource', undefined, {
      consignment: data.from === undefined ? undefined : { originPostalAddress: { streetAddress: data.from } },
      animalDetail: {
        resourceType: 'icarAnimalCoreResource',
        identifier: animal,
        alternativeIdentifiers: [identifierOf(number)],
        ...CATTLE,
        ...given({ birthDate: dayAsTime(out, data.born) }),
        managementTag: number,
      },
    }),
    {
      resourceType: 'icarLactationResource',
      meta,
      id: meta.sourceId,
      animal,
      parity: data.lactation,
      ...given({ beginDate: dayAsTime(out, data.calvedOn), endDate: dayAsTime(out, data.driedOffOn) }),
    },
    event('icarAnimalSetJoinEventResource', 'group', { animalSetId: data.group }),
    ...(data.servedOn === undefined
      ? []
      : [
          event('icarReproInseminationEventResource', 'served', {
            eventDateTime: dayAsTime(out, data.servedOn),
            inseminationType: 'Insemination',
            remark: 'served before she came; how is not known',
          }),
        ]),
    ...(data.dueOn === undefined ? [] : [event('icarReproPregnancyCheckEventResource', 'due', dueFields(out, entry))]),
    ...runningHold(out, entry, 'Milk', data.milkHoldUntil),
    ...runningHold(out, entry, 'Meat', data.meatHoldUntil),
    ...(data.driedOffWith === 'none'
      ? [event('icarTreatmentEventResource', 'product', { procedure: NO_PRODUCT })]
      : []),
  ];
};

/** "No product" is a statement of its own; the standard has no other place for it than a treatment without a medicine. */
export const NO_PRODUCT = 'no dry-cow product';

const dueFields = (out: Outgoing, entry: EntryOf<'cow-entered'>): Record<string, unknown> => {
  const due = entry.data.dueOn as LocalDay;
  const { schedule } = out.moment;
  const served = addDays(due, -(schedule.inForceAt(entry.at).data.gestationDays ?? GESTATION_DAYS));
  const age = daysBetween(served, schedule.dayOf(entry.at));
  return { result: 'Pregnant', remark: `due ${due}`, ...(age >= 0 ? { foetalAge: age } : {}) };
};

/** A statement that there is no hold is a withdrawal that ends as it begins; an unknown one is not stated. */
const runningHold = (
  out: Outgoing,
  entry: EntryOf<'cow-entered'>,
  productType: 'Milk' | 'Meat',
  until: string | undefined,
): Resource[] => {
  if (until === undefined || until === 'unknown') return [];
  const endDateTime = instantText(until === 'none' ? entry.at : mustBeInstant(until));
  const part = productType === 'Milk' ? 'milk-hold' : 'meat-hold';
  return [eventOf(out, entry, 'icarWithdrawalEventResource', { endDateTime, productType }, part)];
};

export const departureOf = (out: Outgoing, entry: EntryOf<'cow-left'>): Resource[] => {
  const { reason, to } = entry.data;
  const consignment = to === undefined ? undefined : { destinationPostalAddress: { streetAddress: to } };
  return [
    reason === 'died'
      ? eventOf(out, entry, 'icarMovementDeathEventResource', {
          deathReason: 'Unknown',
          deathMethod: 'Perished',
          disposalOperator: to,
        })
      : eventOf(out, entry, 'icarMovementDepartureEventResource', { ...departureCodes(reason), consignment }),
  ];
};

/** Her new number: the same animal, under another management tag from then on. */
export const numberOf = (out: Outgoing, entry: EntryOf<'number-changed'>): Resource[] => {
  const { to } = entry.data;
  const official = out.cows.get(entry)?.officialId;
  return [
    {
      resourceType: 'icarAnimalCoreResource',
      meta: { ...metaOf(out, entry), validFrom: instantText(entry.at) },
      identifier: identifierOf(entry.subject ?? ''),
      alternativeIdentifiers: [identifierOf(to), ...(official === undefined ? [] : [identifierOf(official)])],
      ...CATTLE,
      managementTag: to,
    },
  ];
};

type Moving = EntryOf<'group-move'> | EntryOf<'calving'> | EntryOf<'abortion'> | EntryOf<'dry-off'>;

/** Where an entry put her: she joins one set and leaves the other. */
export const movesOf = (out: Outgoing, entry: Moving, group: string | undefined): Resource[] => {
  if (group === undefined) return [];
  const placements = out.cows.get(entry)?.placements ?? [];
  const place = placements.findIndex((placement) => placement.entry === entry.id);
  const before = place < 1 ? undefined : placements[place - 1]?.group;
  const part = entry.type === 'group-move' ? undefined : 'group';
  return [
    eventOf(out, entry, 'icarAnimalSetJoinEventResource', { animalSetId: group }, part),
    ...(before === undefined || before === group
      ? []
      : [eventOf(out, entry, 'icarAnimalSetLeaveEventResource', { animalSetId: before }, 'left')]),
  ];
};

/** Every cow as the book knows her now. */
export const animals = (out: Outgoing): Resource[] =>
  out.known.files.map((file) => {
    const { cow } = file;
    const now = out.moment.asOf;
    const number = numberAt(cow, now);
    const key = cow.entered[0];
    const born = cow.entered.findLast((entry) => entry.data.born !== undefined)?.data.born;
    const others = [...new Set(cow.spans.map((span) => span.number))].map(identifierOf);
    const base = {
      source: out.source,
      sourceId: partId(cow.key, 'animal'),
      modified: instantText(key?.recordedAt ?? out.latest),
    };
    const hers = [...out.cows].flatMap(([entry, whose]) => (whose.key === cow.key ? [entry.id] : []));
    return {
      resourceType: 'icarAnimalCoreResource',
      meta: modifiedBy(out, base, hers),
      identifier: identifierOfCow(cow, now),
      alternativeIdentifiers: others,
      ...CATTLE,
      ...given({ birthDate: dayAsTime(out, born) }),
      managementTag: number,
      productionPurpose: 'Milk',
      ...statusOf(out, file, now),
    };
  });

const statusOf = (out: Outgoing, file: CowFile, now: Instant): Record<string, string> => {
  const { cow } = file;
  if (!presentAt(cow, now)) return { status: cow.left.at(-1)?.data.reason === 'died' ? 'Dead' : 'OffFarm' };
  const pregnancy = pregnancyAt(cow, out.moment.schedule, now);
  return {
    status: 'Alive',
    lactationStatus: stretchAt(file.lactations, now) === undefined ? 'Dry' : 'Lactating',
    ...(pregnancy.confirmed ? { reproductionStatus: pregnancy.twins ? 'PregnantMultipleFoetus' : 'Pregnant' } : {}),
  };
};

const PURPOSES: Readonly<Record<Group['kind'], string>> = {
  milking: 'Lactation',
  fresh: 'Lactation',
  hospital: 'Health',
  dry: 'Reproduction',
  'close-up': 'Reproduction',
  unknown: 'Other',
};

/** The groups, each with who stands in it now. */
export const groups = (out: Outgoing): Resource[] => {
  const there = openFrom(out.known.files, out.moment.asOf);
  return out.moment.groups.map((group) => {
    const setUp = out.moment.schedule.inForceAt(out.moment.asOf);
    const stands = (cow: Cow): boolean =>
      presentAt(cow, out.moment.asOf) && groupAt(cow, out.moment.asOf) === group.name;
    return {
      resourceType: 'icarAnimalSetResource',
      meta: {
        source: out.source,
        sourceId: partId(setUp.id, 'set', group.name),
        modified: instantText(out.latest),
      },
      id: group.name,
      name: group.name,
      purpose: PURPOSES[group.kind],
      member: there.filter(({ cow }) => stands(cow)).map(({ cow }) => identifierOfCow(cow, out.moment.asOf)),
    };
  });
};
