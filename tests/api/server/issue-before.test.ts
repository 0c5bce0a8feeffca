/** Sheets issued by the clock: on time, once, and again with REPLACES when late news makes them wrong. Real books, real PDFs. */
import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { issue } from '../../../api/issue.ts';
import { openBook } from '../../../events/book.ts';
import { readRefusal } from '../../../events/refused-elsewhere.ts';
import { TITLE } from '../../../print/sizes.ts';
import { fixedClock } from '../../../shared/clock.ts';
import { at, handClock, newPath } from '../../events/a-book.ts';
import { doseOf, farmEntries, SET_UP, tell } from './a-server.ts';
import { aWatch, filesIn, paperOn, watching } from './issue-before-watch.ts';

const AFTERNOON = '2026-03-14/afternoon';
const MILK_HOLD = '2026-03-14-afternoon-milk-hold.pdf';

test('the set is issued half an hour before the milking, to the minute, and once', async () => {
  const { lookAt, look, sets, folder } = await aWatch();
  await lookAt('15:59');
  expect([sets(), filesIn(folder)]).toEqual([[], []]);
  await lookAt('16:00');
  expect(sets().map(({ milking }) => milking)).toEqual([AFTERNOON]);
  expect(filesIn(folder)).toEqual(
    ['beef-hold', 'counts', 'dry-off', 'fresh-moves', 'milk-hold', 'milking-plan', 'office', 'sort'].map(
      (sheet) => `2026-03-14-afternoon-${sheet}.pdf`,
    ),
  );
  expect((await paperOn(folder, MILK_HOLD)).text).toContain(sets()[0]?.ref);
  for (const time of ['16:00', '16:10', '16:30', '16:55', '20:00']) await lookAt(time);
  await look();
  expect(sets()).toHaveLength(1);
  await lookAt('2026-03-15T04:30:00Z');
  expect(sets().map(({ milking }) => milking)).toEqual([AFTERNOON, '2026-03-15/morning']);
});

test('a restart issues nothing twice, and puts papers back that are gone, byte for byte', async () => {
  const { lookAt, restart, sets, folder } = await aWatch();
  await lookAt('16:01');
  const file = path.join(folder, MILK_HOLD);
  const before = fs.readFileSync(file);
  const { mtimeMs } = fs.statSync(file);
  await restart();
  expect(fs.statSync(file).mtimeMs).toBe(mtimeMs);
  fs.rmSync(file);
  await restart();
  expect(Buffer.compare(fs.readFileSync(file), before)).toBe(0);
  expect(sets()).toHaveLength(1);
});

test('a clock set back, or back and forth across the hour, issues nothing twice', async () => {
  const { lookAt, restart, sets } = await aWatch();
  await lookAt('16:05');
  for (const time of ['15:00', '15:59', '16:00', '14:00', '16:29', '2026-03-13T16:05:00Z', '16:20']) await lookAt(time);
  await restart();
  expect(sets().map(({ milking }) => milking)).toEqual([AFTERNOON, '2026-03-13/afternoon']);
});

test('late news after the clock was set back makes one more set, not one a look', async () => {
  const { lookAt, look, say, sets } = await aWatch();
  await lookAt('16:05');
  await lookAt('16:01');
  say(doseOf('101'));
  for (let looks = 0; looks < 5; looks += 1) await look();
  expect(sets()).toHaveLength(2);
});

test('a clock set a year ahead and back issues the milkings of either time once, and loses none', async () => {
  const { lookAt, sets } = await aWatch();
  await lookAt('2027-03-14T16:10:00Z');
  await lookAt('15:00');
  await lookAt('16:00');
  expect(sets().map(({ milking }) => milking)).toEqual(['2027-03-14/afternoon', AFTERNOON]);
});

test('R-04 a computer that slept into the milking issues it late; one that slept over it says so and goes on with the next', async () => {
  const { lookAt, sets, said } = await aWatch();
  await lookAt('16:45');
  expect(sets().map(({ milking }) => milking)).toEqual([AFTERNOON]);
  await lookAt('2026-03-15T12:00:00Z');
  expect(sets()).toHaveLength(1);
  expect(said().filter((line) => line.includes('over and no sheets were issued'))).toHaveLength(1);
  await lookAt('2026-03-15T16:00:00Z');
  expect(sets().map(({ milking }) => milking)).toEqual([AFTERNOON, '2026-03-15/afternoon']);
});

test('R-31 a late treatment issues again: REPLACES and the old ref stand as large as the title, on every sheet', async () => {
  const { lookAt, look, say, sets, folder } = await aWatch();
  await lookAt('16:00');
  await lookAt('16:10');
  say(doseOf('101'));
  await look();
  const [first, second] = sets();
  expect(sets()).toHaveLength(2);
  for (const name of filesIn(folder)) {
    const { pages, text } = await paperOn(folder, name);
    expect(text).toContain(second?.ref);
    for (const page of pages) {
      const large = page.boxes.filter((box) => box.size >= TITLE - 0.1).map((box) => box.text);
      expect(large.join('').replace(/\s+/g, '')).toContain(`REPLACES${first?.ref}`);
    }
  }
  expect((await paperOn(folder, MILK_HOLD)).text).toContain('101');
});

test('R-31 the same news again, or news that changes no row, issues nothing', async () => {
  const { lookAt, look, say, sets } = await aWatch();
  await lookAt('16:00');
  say(doseOf('101', 'late'));
  await look();
  say(doseOf('101', 'late'));
  say({
    type: 'milk-record',
    subject: '102',
    time: '2026-03-14T06:00:00Z',
    data: { milking: '2026-03-14/morning', kg: 11 },
  });
  for (let looks = 0; looks < 4; looks += 1) await look();
  expect(sets()).toHaveLength(2);
});

test('R-31 a struck hold, a corrected number and what was set aside each issue once more', async () => {
  const { lookAt, look, say, sets } = await aWatch();
  say(doseOf('101', 'wrong-cow'));
  await lookAt('16:00');
  const after = async (entry: Record<string, unknown>): Promise<number> => {
    say(entry);
    await look();
    await look();
    return sets().length;
  };
  const time = '2026-03-14T15:50:00Z';
  expect(
    await after({ type: 'entry-struck', time, data: { entry: 'wrong-cow', reason: 'wrong cow', instead: 'nothing' } }),
  ).toBe(2);
  expect(await after({ type: 'number-changed', subject: '102', time, data: { to: '202' } })).toBe(3);
  expect(await after({ type: 'treatment', subject: '103', time, data: {} })).toBe(4);
});

test('R-31 what another book refused issues once more when it comes, and not again when it comes again', async () => {
  const { lookAt, look, book, sets } = await aWatch();
  await lookAt('16:00');
  const refusal = readRefusal({ text: '{"subject":"104"', problem: 'cut off', cows: ['104'], mentions: [] });
  for (let each = 0; each < 3; each += 1) {
    book.carry([refusal], 'the laptop');
    await look();
  }
  expect(sets()).toHaveLength(2);
});

test('R-31 inside the milking a new hold issues again, a longer one on paper already does not; after it, nothing does', async () => {
  const { lookAt, say, sets } = await aWatch();
  say(doseOf('101'));
  await lookAt('16:00');
  await lookAt('16:40');
  say(doseOf('101', 'again', '2026-03-14T15:00:00Z'));
  await lookAt('16:41');
  expect(sets()).toHaveLength(1);
  say(doseOf('102', 'other', '2026-03-14T15:00:00Z'));
  await lookAt('16:42');
  expect(sets()).toHaveLength(2);
  await lookAt('17:25');
  say({ type: 'milking-finished', time: '2026-03-14T17:20:00Z', data: { milking: AFTERNOON } });
  await lookAt('17:30');
  say(doseOf('103', 'too-late', '2026-03-14T15:00:00Z'));
  await lookAt('17:31');
  expect(sets()).toHaveLength(2);
});

test('a set that a person issued before its time is printed when its time comes, under the same ref', async () => {
  const { lookAt, issuing, sets, folder } = await aWatch();
  const { issued } = await issuing.issue(AFTERNOON);
  await lookAt('15:00');
  expect(filesIn(folder)).toEqual([]);
  await lookAt('16:00');
  expect(sets().map(({ ref }) => ref)).toEqual([issued.ref]);
  expect((await paperOn(folder, MILK_HOLD)).text).toContain(issued.ref);
});

test('a person who presses the button at the very moment makes no second set', async () => {
  const { look, clock, issuing, sets } = await aWatch();
  clock.set(at('2026-03-14T16:00:00Z'));
  const [, pressed] = await Promise.all([look(), issuing.issue(AFTERNOON)]);
  expect(sets().map(({ ref }) => ref)).toEqual([pressed.issued.ref]);
});

test("another book's set is on another wall: this one issues its own, once", async () => {
  const { book, lookAt, look, sets, folder } = await aWatch();
  const laptop = openBook(newPath(), { clock: handClock(at('2026-03-14T15:30:00Z')), create: true });
  tell(laptop, at('2026-03-14T15:30:00Z'), farmEntries());
  const { issued: theirs } = await issue(laptop, { milking: AFTERNOON });
  const { readRelayed } = await import('../../../events/relay.ts');
  book.relay(
    laptop.rows(0, 1_000).map((row) => readRelayed(JSON.parse(row.entry))),
    'laptop',
  );
  laptop.close();
  for (const time of ['16:00', '16:01', '16:02']) await lookAt(time);
  await look();
  expect(sets()).toHaveLength(2);
  expect((await paperOn(folder, MILK_HOLD)).text).toContain(`REPLACES ${theirs.ref}`);
});

test('a book without a farm waits, and begins when one is set up', async () => {
  const { lookAt, say, sets, said } = await aWatch({}, []);
  await lookAt('16:10');
  expect([sets(), said()]).toEqual([[], []]);
  say(...farmEntries());
  await lookAt('16:11');
  expect(sets().map(({ milking }) => milking)).toEqual([AFTERNOON]);
});

test('a set-up with new times is followed from the day it is in force', async () => {
  const { lookAt, say, sets } = await aWatch();
  const milkings = [{ name: 'noon', start: '12:00' }];
  say({
    type: 'farm-set-up',
    time: '2026-03-14T11:00:00Z',
    id: 'later',
    data: { ...SET_UP, from: '2026-03-15', milkings },
  });
  await lookAt('2026-03-15T11:29:00Z');
  expect(sets()).toEqual([]);
  await lookAt('2026-03-15T11:30:00Z');
  expect(sets().map(({ milking }) => milking)).toEqual(['2026-03-15/noon']);
});

test('a rehearsal works by its fixed clock, and its paper says REHEARSAL and REPLACES', async () => {
  const now = at('2026-03-14T16:05:00Z');
  const book = openBook(newPath(), { clock: fixedClock(now), create: true });
  tell(book, now, farmEntries());
  const { look, sets, folder } = await watching(book, handClock(now));
  tell(book, now, [doseOf('101')]);
  for (let looks = 0; looks < 3; looks += 1) await look();
  expect(sets().map(({ milking }) => milking)).toEqual([AFTERNOON, AFTERNOON]);
  const { text } = await paperOn(folder, MILK_HOLD);
  expect(text).toContain('REHEARSAL');
  expect(text.replace(/\s+/g, ' ')).toContain(`REPLACES ${sets()[0]?.ref}`);
  book.close();
});

test('changed rows that hold nobody wait for quiet and go out together; a hold goes out at once', async () => {
  const { lookAt, look, say, sets } = await aWatch({ paces: { quiet: 400 } });
  await lookAt('16:00');
  const wanted = (cow: string) => ({
    type: 'sort-request',
    subject: cow,
    time: '2026-03-14T15:00:00Z',
    data: { reason: 'feet' },
  });
  say(wanted('101'));
  await look();
  say(wanted('102'));
  await look();
  expect(sets()).toHaveLength(1);
  await new Promise((resolve) => setTimeout(resolve, 450));
  await look();
  expect(sets()).toHaveLength(2);
  say(doseOf('103'));
  await look();
  expect(sets()).toHaveLength(3);
});

test('between two sets for one milking it waits, and then says all that came in', async () => {
  const { lookAt, look, say, sets } = await aWatch({ paces: { between: 400 } });
  await lookAt('16:00');
  for (const cow of ['101', '102', '103']) {
    say(doseOf(cow));
    await look();
  }
  expect(sets()).toHaveLength(1);
  await new Promise((resolve) => setTimeout(resolve, 450));
  await look();
  await look();
  expect(sets()).toHaveLength(2);
});
