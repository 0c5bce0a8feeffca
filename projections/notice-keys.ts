/** Keys of doubts, alerts and unplaced lines: what a `settled` entry names. Stable while the matter is the same one. */
export const unplacedKey = (entryId: string): string => `unplaced:${entryId}`;
export const struckKey = (entryId: string): string => `struck:${entryId}`;
/** Two cows may be on courses of one name, and one cow twice on it. */
export const doseKey = (cow: string, course: { readonly id: string; readonly run: number }, dose: number): string =>
  `dose-not-recorded:${cow}:${course.id}${course.run === 1 ? '' : ` (${course.run})`}:${dose}`;
export const leftOnHoldKey = (entryId: string): string => `left-on-hold:${entryId}`;

/** The entries behind the hold are part of the key: news that comes after a settling is news again. */
export const lateNewsKey = (milking: string, cow: string, entries: string): string =>
  `late-news:${milking}:${cow}:${entries}`;
export const noSheetKey = (milking: string): string => `no-sheet:${milking}`;
/** `tank`: where the farm has several and the test does not say which. */
export const tankPositiveKey = (entryId: string, tank?: string): string =>
  tank === undefined ? `tank-positive:${entryId}` : `tank-positive:${entryId}:${tank}`;

/** Timed in the future by another book's clock. */
export const aheadKey = (entry: string): string => `ahead:${entry}`;
