/** Two programs on one book issue the same milking in the same second: one set hangs on the wall, whoever was quicker. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { issue } from '../../api/issue.ts';
import { type Book, openBook } from '../../events/book.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { type AFarm, aFarm, PENICILLIN } from './a-farm.ts';

let farm: AFarm;
let other: Book;
beforeEach(() => {
  farm = aFarm();
  farm.say('treatment', '2026-03-01T11:00:00Z', '101', { medicine: PENICILLIN });
  other = openBook(farm.book.path, { clock: { now: () => mustBeInstant('2026-03-01T12:00:00Z'), fixed: true } });
});
afterEach(() => {
  other.close();
  farm.close();
});

const sets = () =>
  farm.book
    .rows(0, 1_000)
    .map(({ entry }) => JSON.parse(entry) as { type: string; data: { ref: string; milking: string } })
    .filter(({ type }) => type === 'sheet-issued')
    .map(({ data }) => data);

test('the slower one gets the paper of the quicker one', async () => {
  const [one, two] = await Promise.all([issue(farm.book), issue(other)]);
  expect(sets().map(({ ref }) => ref)).toEqual([one.issued.ref]);
  expect([one.issued.isNew, two.issued.isNew]).toEqual([true, false]);
  expect(two.issued).toMatchObject({ ref: one.issued.ref, position: one.issued.position, papers: one.issued.papers });
});

test('what came between is on the set that hangs last, and that one says which it replaces', async () => {
  const slower = issue(other);
  // Its rows are known and its paper is being drawn.
  farm.say('treatment', '2026-03-01T11:30:00Z', '102', { medicine: PENICILLIN });
  const done = [await issue(farm.book), await slower].map(({ issued, answer }) => ({
    ...issued,
    held: answer.views.sheets['milk-hold'].held.map(({ cow }) => cow),
  }));
  const refs = sets().map(({ ref }) => ref);
  const last = done.filter(({ ref }) => ref === refs.at(-1));
  expect(last.map(({ held }) => held)).toContainEqual(['101', '102']);
  expect(last.map(({ replaces }) => replaces)).toContain(refs.at(-2) ?? null);
  expect(farm.book.verify().ok).toBe(true);
});

test('a set worked out before another one of its milking is not recorded; one worked out behind it is', async () => {
  await issue(farm.book);
  const entries = farm.book.rows(0, 1_000).map(({ entry }) => JSON.parse(entry));
  const { data } = entries.find(({ type }) => type === 'sheet-issued');
  const { position } = farm.book.head();
  expect(other.recordSet({ ...data, ref: 'BBBB-BBBB' })).toBeUndefined();
  expect(farm.book.head().position).toBe(position);
  expect(other.recordSet({ ...data, ref: 'BBBB-BBBB', position })).toEqual({ position: position + 1 });
});

test('another milking or a set of long ago stands in nobody’s way', async () => {
  const morning = await issue(farm.book, { milking: '2026-03-02/morning' });
  const [one, two] = await Promise.all([
    issue(farm.book, { milking: '2026-03-01/afternoon' }),
    issue(other, { milking: '2026-03-02/morning' }),
  ]);
  expect([one.issued.isNew, two.issued.isNew]).toEqual([true, false]);
  expect(two.issued.ref).toBe(morning.issued.ref);
  expect(sets().map(({ milking }) => milking)).toEqual(['2026-03-02/morning', '2026-03-01/afternoon']);
});
