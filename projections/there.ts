/** Where a cow is at an instant: counts and plans ask it of every cow about the same few instants. */
import type { Instant } from '../shared/instant.ts';
import { groupAt, numberAt, presentAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import { stretchAt } from './lactation.ts';
import { rememberedInRoom } from './remembered.ts';

export interface There {
  readonly group: string | undefined;
  readonly number: string;
  readonly inMilk: boolean;
}

const MOST = 64;
const keptOf = rememberedInRoom((_: CowFile): Map<Instant, There | null> => new Map());

/** Null where she is not in the herd then. */
export const thereAt = (file: CowFile, at: Instant): There | null => {
  const kept = keptOf(file);
  const have = kept.get(at);
  if (have !== undefined) return have;
  const { cow, lactations } = file;
  const there = presentAt(cow, at)
    ? { group: groupAt(cow, at), number: numberAt(cow, at), inMilk: stretchAt(lactations, at) !== undefined }
    : null;
  if (kept.size >= MOST) kept.clear();
  kept.set(at, there);
  return there;
};
