/** A whole line of each kind of entry, for whoever writes the first ones by hand. */
import { ENTRY_TYPES, type EntryType, isEntryType, KINDS } from '../../events/kinds.ts';
import { UserProblem } from '../../shared/refusal.ts';

const TIME = '2026-03-14T16:40:00Z';
const COW = '412';

/** Those that people write. */
const WRITTEN = ENTRY_TYPES.filter((type) => !('bookOnly' in KINDS[type]));

const LONGEST_NAME = Math.max(...WRITTEN.map((type) => type.length));

export const KINDS_SAID = WRITTEN.map((type) => `${type.padEnd(LONGEST_NAME)}  ${KINDS[type].when}`).join('\n');

export const exampleLine = (type: string): string => {
  if (!isEntryType(type) || !WRITTEN.includes(type)) {
    throw new UserProblem(`"${type}" is not a kind of entry that people write; record --kinds lists them`, 2);
  }
  return JSON.stringify({ type, ...subjectOf(type), time: TIME, data: KINDS[type].example });
};

/** An entry of the farm has none; a test is of a cow where it says so. */
const subjectOf = (type: EntryType): { subject?: string } => {
  const { subject, example } = KINDS[type];
  const isHers = subject === 'cow' || ('of' in example && example.of === 'cow');
  return isHers ? { subject: COW } : {};
};
