/** Keys of doubts, alerts and unplaced lines: what a `settled` entry names. Stable while the matter is the same one. */
import { sha256 } from '../shared/fingerprint.ts';

export const unplacedKey = (entryId: string): string => `unplaced:${entryId}`;
export const struckKey = (entryId: string): string => `struck:${entryId}`;
/** Two cows may be on courses of one name, and one cow twice on it. */
export const doseKey = (cow: string, course: { readonly id: string; readonly run: number }, dose: number): string =>
  `dose-not-recorded:${cow}:${course.id}${course.run === 1 ? '' : ` (${course.run})`}:${dose}`;

// The entries behind the hold are part of the key: news that comes after a settling is news again.
export const leftOnHoldKey = (entryId: string, behind: readonly string[]): string =>
  `left-on-hold:${entryId}:${digestOf(behind)}`;
export const lateNewsKey = (milking: string, cow: string, behind: readonly string[]): string =>
  `late-news:${milking}:${cow}:${digestOf(behind)}`;
/** `row`: key of the row that was not on the sheet. */
export const lateUnplacedKey = (milking: string, row: string): string => `late-news:${milking}:${row}`;
export const noSheetKey = (milking: string, behind: readonly string[]): string =>
  `no-sheet:${milking}:${digestOf(behind)}`;

const digestOf = (entries: readonly string[]): string => sha256([...new Set(entries)].sort().join(' ')).slice(0, 8);

/** If she appears among the milked ones after all. */
export const appearsKey = (entryId: string): string => `left-on-hold:${entryId}:appears`;
/** `load`: where it may be one of several, the tank, or the collection that took it. */
export const tankPositiveKey = (entryId: string, load?: string): string =>
  load === undefined ? `tank-positive:${entryId}` : `tank-positive:${entryId}:${load}`;

/** Timed in the future by another book's clock. */
export const aheadKey = (entry: string): string => `ahead:${entry}`;
