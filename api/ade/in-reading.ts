/** What every reader of a resource asks for: the farm's dates, the cow, the time, and the other resources that belong to it. */
import type { Schedule } from '../../projections/schedule.ts';
import type { Instant } from '../../shared/instant.ts';
import type { LocalDay } from '../../shared/local-day.ts';
import type { Animals } from './in-animals.ts';
import type { Fields } from './in-fields.ts';
import { type Draft, type Incoming, type Outcome, refusal } from './in-resource.ts';

export interface Reading {
  readonly schedule: Schedule;
  readonly animals: Animals;
  readonly now: Instant;
  /** Where cows go of whom the file says no group. */
  readonly group: string | undefined;
  /** The farm's own name of a set, by its id or name. */
  readonly groupOf: (setId: string) => string;
  readonly isFarmGroup: (name: string) => boolean;
  /** Resources that say more about the entry of this one, by part. */
  readonly partsOf: (resource: Incoming) => ReadonlyMap<string, Incoming>;
  /** Other resources about the same animal. */
  readonly othersOf: (resource: Incoming) => readonly Incoming[];
  /** Group by set membership, for animals without an arrival. */
  readonly setOf: (subject: string) => string | undefined;
}

export interface Placed {
  readonly subject: string;
  readonly at: Instant;
}

export const timeIn = (fields: Fields, name: string): Instant | undefined => {
  const time = fields.time(name);
  return time?.ok === true ? time.value : undefined;
};

export const dayIn = (reading: Reading, fields: Fields, name: string): LocalDay | undefined => {
  const time = timeIn(fields, name);
  return time === undefined ? undefined : reading.schedule.dayOf(time);
};

/** The cow and the time of an event, or why it cannot be taken. */
export const placed = (reading: Reading, resource: Incoming, field = 'eventDateTime'): Placed | Outcome => {
  const subject = reading.animals.subjectOf(resource.animal);
  const refuse = (problem: string): Outcome =>
    refusal(`${resource.name}: ${problem}`, subject === undefined ? [] : [subject]);
  const time = resource.fields.time(field);
  if (time === undefined)
    return refuse(`it has no "${field}", so nobody can tell what follows from it; ask when it was, and record it`);
  if (!time.ok) return refuse(`"${field}": ${time.problem}`);
  if (resource.animal === undefined) return refuse('it names no animal; ask which it was, and record it');
  if (subject === undefined) {
    return refuse(
      `no number of the herd can be read in "${resource.animal.id}"; send the animal resource with her management tag too, or record it under her number`,
    );
  }
  return { subject, at: time.value };
};

export const isOutcome = (value: Placed | Outcome): value is Outcome => 'is' in value;

export const draft = (
  resource: Incoming,
  { subject, at }: Placed,
  type: Draft['type'],
  data: Readonly<Record<string, unknown>>,
  part = '',
): Draft => ({ from: resource, part, type, subject, at, data: present(data), modified: resource.modified });

const present = (data: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(data).filter(([, value]) => value !== undefined && !(Array.isArray(value) && value.length === 0)),
  );

/** As of the last change of any of the resources it was made from. */
export const addedTo = (one: Draft, others: readonly (Incoming | undefined)[]): Draft => ({
  ...one,
  modified: others.reduce<Instant>(
    (last, each) => (each !== undefined && each.modified > last ? each.modified : last),
    one.modified,
  ),
});
