/** Keys of doubts, alerts and unplaced lines: what a `settled` entry names. Stable while the matter is the same one. */
export const unplacedKey = (entryId: string): string => `unplaced:${entryId}`;
export const struckKey = (entryId: string): string => `struck:${entryId}`;
export const doseKey = (courseId: string, dose: number): string => `dose-not-recorded:${courseId}:${dose}`;
export const leftOnHoldKey = (entryId: string): string => `left-on-hold:${entryId}`;
