/** One number, one cow: rows of a herd list that say two things of one number, or one official number of two cows. */
import { withoutLeadingZeros } from '../../shared/cow-number.ts';
import { canonicalJson } from '../../shared/fingerprint.ts';
import type { Field } from './headings.ts';
import type { ReadRow } from './row.ts';

export interface Double {
  readonly line: number;
  readonly column: string | null;
  readonly problem: string;
  readonly text: string;
}

/**
 * A row repeated word for word is taken once. Where rows differ none of them is taken: which one is right,
 * and so whether her milk is free, only the farm knows.
 */
export const withoutDoubles = (
  rows: readonly ReadRow[],
  columnOf: (field: Field) => string | null,
): { kept: ReadRow[]; refusals: Double[]; notes: string[] } => {
  const refusals: Double[] = [];
  const notes: string[] = [];
  const seen = new Set<string>();
  const once = rows.filter((each) => {
    const content = canonicalJson({ number: each.number, data: each.data });
    if (seen.has(content))
      notes.push(`Line ${each.row.line} says of ${each.number} what a line above it says; it is taken once`);
    return !seen.has(content) && seen.add(content);
  });
  const refused = new Set<ReadRow>();
  const refuseAll = (field: Field, keyOf: (each: ReadRow) => string | undefined, says: (key: string) => string) => {
    for (const [key, same] of groupedBy(once, keyOf)) {
      if (same.length < 2) continue;
      const lines = same.map((each) => each.row.line).join(', ');
      for (const each of same) {
        refused.add(each);
        refusals.push({
          line: each.row.line,
          column: columnOf(field),
          problem: `${says(key)} (lines ${lines}); none of them is taken until the list says which is right`,
          text: each.row.text,
        });
      }
    }
  };
  refuseAll(
    'number',
    (each) => each.number,
    (number) => `the number ${number} stands on more than one row, with different facts`,
  );
  refuseAll(
    'officialId',
    (each) => each.data.officialId,
    (official) => `the official number ${official} stands on more than one row`,
  );
  const kept = once.filter((each) => !refused.has(each));
  for (const [, alike] of groupedBy(kept, (each) => withoutLeadingZeros(each.number))) {
    if (alike.length > 1) {
      notes.push(
        `${alike.map((each) => each.number).join(' and ')} differ in leading zeros only; they are entered as different cows`,
      );
    }
  }
  return { kept, refusals, notes };
};

const groupedBy = (rows: readonly ReadRow[], keyOf: (each: ReadRow) => string | undefined): Map<string, ReadRow[]> => {
  const groups = new Map<string, ReadRow[]>();
  for (const each of rows) {
    const key = keyOf(each);
    if (key === undefined) continue;
    const same = groups.get(key);
    if (same === undefined) groups.set(key, [each]);
    else same.push(each);
  }
  return groups;
};
