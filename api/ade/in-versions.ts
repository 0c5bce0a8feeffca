/** Which versions of a resource the book has, by the ids of their entries, and the strike that ends an older one. */
import type { Known } from '../../projections/know.ts';
import { liveEntries } from '../../projections/live.ts';
import { earlier, type Instant, instantText } from '../../shared/instant.ts';
import { plainText } from './in-fields.ts';
import { type Incoming, versionOf } from './in-resource.ts';

export interface Version {
  readonly id: string;
  readonly modified: number;
  readonly part: string;
  readonly struck: boolean;
}

export const versionsIn = (known: Known): ReadonlyMap<string, readonly Version[]> => {
  const versions = new Map<string, Version[]>();
  const add = (id: string, struck: boolean): void => {
    const version = versionOf(id);
    if (version === undefined) return;
    const one = { id, modified: version.modified, part: version.part, struck };
    versions.set(version.base, [...(versions.get(version.base) ?? []), one]);
  };
  for (const { id, type } of liveEntries(known.strikes.live)) if (type !== 'entry-struck') add(id, false);
  for (const { entry } of known.strikes.struck) add(entry.id, true);
  return versions;
};

/** Timed at the change, or now where the other clock is ahead. Without `instead` a dose leaves the line "which cow had it?" behind. */
export const struckEntry = (
  entry: string,
  resource: Incoming,
  instead: string | undefined,
  now: Instant,
): Record<string, unknown> => ({
  id: `${entry}.struck`,
  type: 'entry-struck',
  time: instantText(earlier(resource.modified, now)),
  source: plainText(resource.source, 100),
  ...(resource.creator === undefined ? {} : { author: plainText(resource.creator, 80) }),
  data: {
    entry,
    reason: plainText(`${resource.deleted ? 'deleted' : 'changed'} in ${resource.source}`, 300),
    ...(instead === undefined ? {} : { instead }),
  },
});
