/** A whole document read into entries in the making: which resource goes to which reader, and which belong together. */
import type { Known } from '../../projections/know.ts';
import type { Schedule } from '../../projections/schedule.ts';
import { groupsEverOf } from '../../projections/views-at.ts';
import type { Instant } from '../../shared/instant.ts';
import { animalsOf } from './in-animals.ts';
import { animalIn, arrivalIn } from './in-arrival.ts';
import { abortionIn, birthIn, checkIn, dryOffIn, inseminationIn, parturitionIn } from './in-breeding.ts';
import { deathIn, departureIn, joinIn, leaveIn, numberIn } from './in-herd.ts';
import { visitIn, withdrawalIn } from './in-holds.ts';
import { isOutcome, placed, type Reading, timeIn } from './in-reading.ts';
import { baseOf, type Incoming, notUsed, type Outcome, refusal, taken } from './in-resource.ts';
import { programIn, treatmentIn } from './in-treatments.ts';
import { isByrebook, partOf } from './names.ts';

export interface ReadResource {
  readonly resource: Incoming;
  readonly outcome: Outcome;
}

export interface ReadSettings {
  readonly known: Known;
  readonly schedule: Schedule;
  readonly now: Instant;
  readonly group: string | undefined;
  /** Is any version of it in the book? */
  readonly isKnown: (base: string) => boolean;
}

/** Each resource once: those that became part of another one's entry are not among the results. */
export const readResources = (all: readonly Incoming[], settings: ReadSettings): readonly ReadResource[] => {
  const inPrograms = new Set(all.flatMap((each) => each.nested.map((dose) => `${dose.base} ${dose.part}`)));
  const resources = all.filter((each) => !inPrograms.has(`${each.base} ${each.part}`));
  const reading = readingOf(resources, settings);
  const used = new Set(resources.flatMap((each) => [...reading.partsOf(each).values()]));
  const results: ReadResource[] = [];
  const put = (resource: Incoming, outcome: Outcome): void => {
    results.push({ resource, outcome });
  };
  const arrivals = resources.filter((each) => each.kind === 'movementarrivalevent' && !used.has(each));
  const arrived = new Set<string>();
  for (const each of arrivals.filter((one) => !one.deleted)) {
    const { outcome, used: with_ } = arrivalIn(reading, each, settings.isKnown(each.base));
    for (const one of with_) used.add(one);
    const subject = reading.animals.subjectOf(each.animal);
    if (subject !== undefined) arrived.add(subject);
    put(each, outcome);
  }
  for (const each of resources.filter((one) => one.kind === 'animalcore' && !one.deleted && !used.has(one))) {
    const read = coreIn(reading, each, settings, arrived);
    for (const one of read.used) used.add(one);
    put(each, read.outcome);
  }
  for (const each of resources) {
    if (used.has(each)) continue;
    if (each.deleted) put(each, deletedIn(reading, each, settings));
    else if (each.kind !== 'movementarrivalevent' && each.kind !== 'animalcore')
      put(each, readOne(reading, each, settings, arrived));
    for (const dose of each.nested) if (dose.deleted) put(dose, deletedIn(reading, dose, settings));
  }
  return results;
};

const readOne = (
  reading: Reading,
  resource: Incoming,
  settings: ReadSettings,
  arrived: ReadonlySet<string>,
): Outcome => {
  switch (resource.kind) {
    case 'movementdepartureevent':
      return departureIn(reading, resource);
    case 'movementdeathevent':
      return deathIn(reading, resource);
    case 'movementbirthevent':
      return birthIn(reading, resource, calvingsKnown(reading, settings, arrived));
    case 'reproparturitionevent':
      return parturitionIn(reading, resource);
    case 'reproinseminationevent':
      return inseminationIn(reading, resource);
    case 'repropregnancycheckevent':
      return checkIn(reading, resource);
    case 'reproabortionevent':
      return abortionIn(reading, resource);
    case 'milkingdryoffevent':
      return dryOffIn(reading, resource);
    case 'treatmentevent':
      return treatmentIn(reading, resource);
    case 'treatmentprogramevent':
      return programIn(reading, resource);
    case 'withdrawalevent':
      return withdrawalIn(reading, resource);
    case 'milkingvisitevent':
      return visitIn(reading, resource);
    case 'animalsetjoinevent':
      return joinIn(reading, resource);
    case 'animalsetleaveevent':
      return leaveIn(reading, resource);
    default:
      return WITHOUT_ENTRY[resource.kind] === undefined
        ? unknownKind(reading, resource)
        : notUsed(WITHOUT_ENTRY[resource.kind] ?? '');
  }
};

/** What the standard has and the book makes no entry of. */
const WITHOUT_ENTRY: Readonly<Record<string, string>> = {
  animalset: 'a set says who stands where now; joining and leaving are what is recorded',
  lactation: 'lactations follow from calvings and drying-off',
  medicine: 'a medicine’s label is not in the standard; list it with medicine-listed',
  location: 'the farm is set up with farm-set-up',
  progenydetails: 'calves are recorded with the calving',
  lactationstatusobservedevent: 'a status seen is not recorded; the event behind it is',
  reprostatusobservedevent: 'a status seen is not recorded; the event behind it is',
  healthstatusobservedevent: 'a status seen is not recorded; the treatment is',
  reproheatevent: 'heats are not recorded',
  reprodonotbreedevent: 'breeding decisions are not recorded',
  reproembryo: 'embryos are not recorded',
  reprosemenstraw: 'straws are not recorded',
  diagnosisevent: 'a diagnosis without a treatment is not recorded',
  testday: 'test days are not recorded',
  testdayresultevent: 'test day results are not recorded',
  dailymilkingaverages: 'averages are not recorded',
  weightevent: 'weights are not recorded',
  feedintakeevent: 'feed is not recorded',
};

/** Nobody can say what follows from a kind of resource that is not known: it holds the cow it names. */
const unknownKind = (reading: Reading, resource: Incoming): Outcome => {
  const subject = reading.animals.subjectOf(resource.animal);
  return refusal(
    `${resource.name}: this kind of resource is not known; see what it says, record what matters, and settle it`,
    subject === undefined ? [] : [subject],
  );
};

/** What is deleted and was never known is nothing, unless it is a dose or a hold: another cow may have had it. */
const deletedIn = (reading: Reading, resource: Incoming, settings: ReadSettings): Outcome => {
  if (settings.isKnown(resource.base)) return taken([]);
  const gone = notUsed('it is deleted where it comes from, and was never known here');
  if (!['treatmentevent', 'milkingdryoffevent', 'withdrawalevent'].includes(resource.kind)) return gone;
  if (isOutcome(placed(reading, resource))) return gone;
  const read = readOne(reading, resource, settings, new Set());
  return read.is === 'taken' && read.drafts.length > 0 ? read : gone;
};

const coreIn = (
  reading: Reading,
  resource: Incoming,
  settings: ReadSettings,
  arrived: ReadonlySet<string>,
): { outcome: Outcome; used: readonly Incoming[] } => {
  const renumbered = numberIn(reading, resource);
  if (renumbered !== undefined) return { outcome: renumbered, used: [] };
  const subject = reading.animals.subjectOf(resource.animal);
  const others = reading.othersOf(resource).filter((each) => !each.deleted);
  const status = resource.fields.raw.status;
  const isCow =
    subject !== undefined &&
    !arrived.has(subject) &&
    resource.fields.raw.gender === 'Female' &&
    status !== 'Dead' &&
    status !== 'OffFarm' &&
    (reading.setOf(subject) !== undefined || others.some((each) => MAKES_A_COW.has(each.kind)));
  if (!isCow) return { outcome: notUsed('an animal alone makes no entry'), used: [] };
  const times = others.flatMap((each) => timeIn(each.fields, 'eventDateTime') ?? []);
  const first = resource.validFrom ?? (Math.min(resource.modified, settings.now, ...times) as Instant);
  return animalIn(reading, resource, first, settings.isKnown(resource.base));
};

const MAKES_A_COW = new Set(['lactation', 'animalsetjoinevent', 'reproparturitionevent', 'milkingvisitevent']);

const calvingsKnown =
  (reading: Reading, { known }: ReadSettings, arrived: ReadonlySet<string>) =>
  (subject: string): readonly number[] | undefined => {
    const file = known.files.find(
      ({ animal }) => animal.officialId === subject || animal.spans.some((span) => span.number === subject),
    );
    if (file === undefined && !arrived.has(subject)) return undefined;
    return [
      ...(file?.cow.calvings ?? []).map(({ entry }) => entry.at),
      ...reading
        .othersOf({ animal: { id: subject, scheme: '' } } as Incoming)
        .filter((each) => each.kind === 'reproparturitionevent' && !each.deleted)
        .flatMap((each) => timeIn(each.fields, 'eventDateTime') ?? []),
    ];
  };

const PARTS = /^(animal|due|fresh|group|lactation|left|meat-hold|milk-hold|milked|product|served|birth-\d+)$/;
const NO_PARTS: ReadonlyMap<string, Incoming> = new Map();

const readingOf = (resources: readonly Incoming[], { known, schedule, now, group }: ReadSettings): Reading => {
  const animals = animalsOf(resources, known.herd);
  const bySubject = new Map<string, Incoming[]>();
  const parts = new Map<string, Map<string, Incoming>>();
  const bases = new Set(resources.map((each) => each.base));
  const sets = new Map<string, string>();
  const farmGroups = new Set([
    ...schedule.setUps.flatMap(({ data }) => data.groups.map(({ name }) => name)),
    ...groupsEverOf(known.files),
  ]);
  const farmGroup = (name: string): string | undefined =>
    [...farmGroups].find((each) => each.toLowerCase() === name.trim().toLowerCase());
  for (const each of resources) {
    const subject = animals.subjectOf(each.animal);
    if (subject !== undefined) {
      const have = bySubject.get(subject);
      if (have === undefined) bySubject.set(subject, [each]);
      else have.push(each);
    }
    const part = isByrebook(each.source) ? partOf(each.sourceId) : undefined;
    const whole = part === undefined ? undefined : baseOf(each.source, part.entry);
    if (part !== undefined && whole !== undefined && bases.has(whole) && PARTS.test(part.part)) {
      const have = parts.get(whole) ?? new Map<string, Incoming>();
      have.set(part.part, each);
      parts.set(whole, have);
    }
    const id = each.kind === 'animalset' ? each.fields.text('id') : undefined;
    if (id !== undefined) sets.set(id, each.fields.text('name') ?? id);
  }
  const groupOf = (id: string): string =>
    farmGroup(id) ?? farmGroup(sets.get(id) ?? id) ?? (sets.get(id) ?? id).slice(0, 80);
  const standsIn = new Map<string, string>();
  for (const set of resources.filter((each) => each.kind === 'animalset' && !each.deleted)) {
    const name = groupOf(set.fields.text('id') ?? '');
    for (const member of set.fields.objects('member')) {
      const id = member.text('id');
      const subject = id === undefined ? undefined : animals.subjectOf({ id, scheme: member.text('scheme') ?? '' });
      if (subject !== undefined && farmGroups.has(name)) standsIn.set(subject, name);
    }
  }
  return {
    schedule,
    animals,
    now,
    group,
    groupOf,
    isFarmGroup: (name) => farmGroups.has(name),
    partsOf: (resource) => parts.get(resource.base) ?? NO_PARTS,
    othersOf: (resource) => {
      const subject = animals.subjectOf(resource.animal);
      return subject === undefined ? [] : (bySubject.get(subject) ?? []).filter((each) => each !== resource);
    },
    setOf: (subject) => standsIn.get(subject),
  };
};
