/** What every part of the export asks for: who this is, when a fact last changed, which cow an entry is certainly about. */
import type { Entry } from '../../events/entry.ts';
import { isCertain } from '../../projections/animal.ts';
import { type Cow, numberAt } from '../../projections/cow.ts';
import type { Known } from '../../projections/know.ts';
import type { Moment } from '../../projections/moment.ts';
import { type Instant, instantText, later, mustBeInstant } from '../../shared/instant.ts';
import type { LocalDay } from '../../shared/local-day.ts';
import { identifierOf, type Part, partId, sourceOf } from './names.ts';
import { given, type Identifier, type Meta, type Resource } from './resource.ts';

export interface Outgoing {
  readonly known: Known;
  readonly moment: Moment;
  readonly source: string;
  readonly farm: string;
  /** When each entry was recorded here, by its id. */
  readonly recorded: ReadonlyMap<string, Instant>;
  /** Cows by the entries that are certainly theirs. */
  readonly cows: ReadonlyMap<Entry, Cow>;
  /** The same entries by their ids. */
  readonly certain: ReadonlyMap<string, Entry>;
  /** The last thing recorded in this book. */
  readonly latest: Instant;
}

export const outgoing = (known: Known, moment: Moment, entries: readonly Entry[], farm: string): Outgoing => {
  const cows = new Map<Entry, Cow>();
  const files = new Map(known.files.map((file) => [file.animal, file]));
  for (const animal of known.herd.animals) {
    const cow = files.get(animal)?.cow;
    for (const entry of animal.assigned) if (cow !== undefined && isCertain(animal, entry)) cows.set(entry, cow);
  }
  return {
    known,
    moment,
    source: sourceOf(farm),
    farm,
    recorded: new Map(entries.map((entry) => [entry.id, entry.recordedAt])),
    cows,
    certain: new Map([...cows.keys()].map((entry) => [entry.id, entry])),
    latest: entries.reduce<Instant>((last, entry) => later(last, entry.recordedAt), 0 as Instant),
  };
};

/** The official number where the cow is certain and has one; else the number as it was written. */
export const animalOf = (out: Outgoing, entry: Entry): Identifier =>
  identifierOf(out.cows.get(entry)?.officialId ?? entry.subject ?? '');

export const identifierOfCow = (cow: Cow, at: Instant): Identifier => identifierOf(cow.officialId ?? numberAt(cow, at));

/** An entry as the source of a resource, or of a part of one. */
export const metaOf = (
  out: Outgoing,
  entry: { readonly id: string; readonly author: string; readonly recordedAt: Instant },
  part?: Part,
  more = '',
): Meta => ({
  source: out.source,
  sourceId: part === undefined ? entry.id : partId(entry.id, part, more),
  modified: instantText(entry.recordedAt),
  created: instantText(entry.recordedAt),
  creator: entry.author,
});

/** As of the last recorded of the entries that a computed fact rests on. */
export const modifiedBy = (out: Outgoing, meta: Meta, entries: readonly string[]): Meta => ({
  ...meta,
  modified: instantText(
    entries.reduce<Instant>((last, id) => later(last, out.recorded.get(id) ?? last), mustBeInstant(meta.modified)),
  ),
});

/** An event about the cow of an entry, at the time of the entry. */
export const eventOf = (
  out: Outgoing,
  entry: Entry,
  resourceType: string,
  fields: Readonly<Record<string, unknown>> = {},
  part?: Part,
): Resource => {
  const meta = metaOf(out, entry, part);
  return {
    resourceType,
    meta,
    id: meta.sourceId,
    eventDateTime: instantText(entry.at),
    animal: animalOf(out, entry),
    ...given(fields),
  };
};

/** The first instant of a farm's date: how a date is said where the standard wants a time. */
export const dayAsTime = (out: Outgoing, day: string | undefined): string | undefined =>
  day === undefined ? undefined : instantText(zoneOn(out, day).startOfDay(day as LocalDay));

const zoneOn = (out: Outgoing, day: string) => out.moment.schedule.inForceOn(day as LocalDay).zone;

export const farmLocation = (out: Outgoing): Identifier => ({ id: out.farm, scheme: 'internal.byrebook.farm' });
