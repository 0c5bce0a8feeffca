/** Devices that push at the same moment: each is answered as if it had come alone, and only when it is on the disk. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Role } from '../../../api/devices/roles.ts';
import { RequestProblem } from '../../../api/server/problem.ts';
import { takePush } from '../../../api/server/push.ts';
import { readBatch } from '../../../api/server/push-body.ts';
import { MOST_REFUSED, refusalsOf } from '../../../api/server/refusals.ts';
import type { Caller } from '../../../api/server/route.ts';
import { type Push, type Together, togetherOf } from '../../../api/server/together.ts';
import type { Batch, Book } from '../../../events/book.ts';
import { MINUTE, plusHours } from '../../../shared/instant.ts';
import { bare, NOW, newPath, opened, rehearsalClock } from '../../events/a-book.ts';
import { aServer, doseOf, problemOf } from './a-server.ts';

const device = (name: string, role: Role): Caller => ({ id: name, name, role, made: '', revoked: null });
const DEVICES = [device('pit', 'crew'), device('barn', 'crew'), device('office', 'manager'), device('gate', 'machine')];

/** How a push was recorded before others could go with it: at once, by itself. */
const alone =
  (book: Book): Together =>
  async (push) => {
    push.admit();
    const receipts = book.record(push.make());
    return { receipts, position: book.head().position };
  };

interface Sent {
  readonly from: Caller;
  readonly entries: readonly unknown[];
  /** How far off the device's clock is, where it says. */
  readonly skew?: number | undefined;
}

const time = '2026-03-14T11:00:00Z';
const entry: fc.Arbitrary<unknown> = fc.oneof(
  fc
    .tuple(fc.integer({ min: 1, max: 5 }), fc.constantFrom('101', '102'))
    .map(([id, cow]) => doseOf(cow, `dose-${id}`, time)),
  fc.constantFrom('101', '102').map((subject) => ({ type: 'milk-hold', subject, time, data: { reason: 'clots' } })),
  fc.integer({ min: 1, max: 5 }).map((id) => ({
    type: 'entry-struck',
    id: `strike-of-${id}`,
    time,
    data: { entry: `dose-${id}`, reason: 'wrong cow', instead: 'nothing' },
  })),
  fc.constantFrom<unknown>(7, { type: 'treatmnt', subject: '101' }, doseOf('103', 'late', '2026-03-15T11:00:00Z')),
  fc.constant({ ...doseOf('104', 'another’s'), source: 'pit' }),
);
const sent: fc.Arbitrary<Sent> = fc.record({
  from: fc.constantFrom(...DEVICES),
  entries: fc.array(entry, { maxLength: 3 }),
  skew: fc.constantFrom(undefined, undefined, MINUTE, -20 * MINUTE),
});

const rehearsal = () => {
  const path = newPath();
  const book = opened(path, { clock: rehearsalClock });
  const whole = () =>
    ['entries', 'set_aside', 'head'].map((table) => bare(path).prepare(`select * from ${table}`).all());
  return { path, book, whole };
};

const batchOf = (entries: readonly unknown[]) => readBatch(Buffer.from(JSON.stringify(entries)));

const sendTo = (book: Book, together: Together, refusals = refusalsOf(() => 0), still = () => true) => {
  const takers = { book, together, refusals };
  return ({ from, entries, skew }: Sent) => {
    const deviceTime = skew === undefined ? undefined : plusHours(NOW, skew / (60 * MINUTE));
    return takePush(takers, { caller: from, still }, batchOf(entries), deviceTime);
  };
};

test('many devices at the same moment have the answers, and leave the book, of one after the other', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(sent, { minLength: 1, maxLength: 12 }), async (all) => {
      const [one, other] = [rehearsal(), rehearsal()];
      const oneByOne: unknown[] = [];
      const send = sendTo(one.book, alone(one.book));
      for (const each of all) oneByOne.push(await send(each));
      const answers = await Promise.all(all.map(sendTo(other.book, togetherOf(other.book))));
      // A push of nothing is answered at once, with the log as long as it is then.
      const said = (list: readonly unknown[]) =>
        list.map((answer, index) =>
          all[index]?.entries.length === 0 ? { ...Object(answer), position: null } : answer,
        );
      expect(said(answers)).toEqual(said(oneByOne));
      expect(other.whole()).toEqual(one.whole());
      expect(other.book.verify()).toMatchObject({ ok: true, signed: true });
    }),
    { seed: 9, numRuns: 40 },
  );
});

/** A book that tells who was recorded together. */
const watched = (fails: (push: Push) => boolean = () => false) => {
  const groups: string[][] = [];
  let position = 0;
  const recordEach = (batches: readonly Batch[]) => {
    const pushes = batches as readonly Push[];
    groups.push(pushes.map((push) => push.device));
    return pushes.map((push) => {
      if (fails(push)) return { thrown: new Error(`no room for ${push.device}`) };
      position += push.entries;
      return { taken: { receipts: [], position } };
    });
  };
  return { groups, together: togetherOf({ recordEach }) };
};
const pushOf = (from: string, entries = 1, admit = (): void => undefined): Push => ({
  device: from,
  entries,
  admit,
  make: () => [],
});

test('what is there at the same moment is recorded in one commit, in the order it came, and nobody waits for more', async () => {
  const { groups, together } = watched();
  const first = ['a', 'b', 'c'].map((from) => together(pushOf(from)));
  expect(groups).toEqual([]);
  expect((await Promise.all(first)).map(({ position }) => position)).toEqual([1, 2, 3]);
  await together(pushOf('a'));
  expect(groups).toEqual([['a', 'b', 'c'], ['a']]);
});

test('a device’s second push comes after the answer to its first, and nobody who came later goes before it', async () => {
  const { groups, together } = watched();
  const order: string[] = [];
  const sending = ['a', 'b', 'a', 'c'].map((from, index) =>
    together(pushOf(from)).then(() => order.push(`${from}${index}`)),
  );
  await Promise.all(sending);
  expect(groups).toEqual([
    ['a', 'b'],
    ['a', 'c'],
  ]);
  expect(order).toEqual(['a0', 'b1', 'a2', 'c3']);
});

test('a push of hundreds of entries has a commit of its own', async () => {
  const { groups, together } = watched();
  await Promise.all([pushOf('a'), pushOf('b', 1_000), pushOf('c', 60), pushOf('d', 4), pushOf('e', 1)].map(together));
  expect(groups).toEqual([['a'], ['b'], ['c', 'd'], ['e']]);
});

test('one that fails, and one that may not go on for now, are told so by themselves', async () => {
  const { groups, together } = watched(({ device: from }) => from === 'b');
  const tooMuch = new RequestProblem('too-often', 'Wait');
  const refused = (): void => {
    throw tooMuch;
  };
  const told = await Promise.allSettled([pushOf('a'), pushOf('b'), pushOf('c', 1, refused), pushOf('d')].map(together));
  expect(told).toEqual([
    { status: 'fulfilled', value: { receipts: [], position: 1 } },
    { status: 'rejected', reason: expect.objectContaining({ message: 'no room for b' }) },
    { status: 'rejected', reason: tooMuch },
    { status: 'fulfilled', value: { receipts: [], position: 2 } },
  ]);
  expect(groups).toEqual([['a', 'b', 'd']]);
  await expect(together(pushOf('c', 1, refused))).rejects.toBe(tooMuch);
  expect(groups).toHaveLength(1);
});

test('where the whole book gives trouble, everybody is told', async () => {
  const together = togetherOf({
    recordEach: () => {
      throw new Error('read-only');
    },
  });
  const told = await Promise.allSettled([together(pushOf('a')), together(pushOf('b'))]);
  expect(told.map(({ status }) => status)).toEqual(['rejected', 'rejected']);
});

test('a push is answered only when another program can read it', async () => {
  const { path, book } = rehearsal();
  const other = opened(path, { clock: rehearsalClock });
  const send = sendTo(book, togetherOf(book));
  await Promise.all(
    DEVICES.slice(0, 3).map(async (from, index) => {
      const { receipts } = await send({ from, entries: [doseOf('101', `dose-${index}`, time)] });
      expect(other.find(receipts[0]?.id ?? '')).toHaveLength(1);
    }),
  );
});

test('what a device may say no more of counts among pushes of one moment as it does one after the other', async () => {
  const { book } = rehearsal();
  const refusals = refusalsOf(() => 0);
  refusals.count('pit', Array(MOST_REFUSED - 1).fill({ id: null, outcome: 'refused' }), () => 1);
  const send = sendTo(book, togetherOf(book), refusals);
  const wrong = (each: number): Sent => ({
    from: DEVICES[0] ?? device('', 'crew'),
    entries: [{ type: `wrong-${each}` }],
  });
  const told = await Promise.allSettled([1, 2, 3].map((each) => send(wrong(each))));
  expect(told.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'rejected']);
  expect(book.read().asides).toHaveLength(1);
});

test('a device that is revoked while its push waits has nothing of it taken, and the others all of theirs', async () => {
  const { path, book } = rehearsal();
  const made = ['one', 'two', 'three'].map((name) => book.devices.add(name, 'crew'));
  const together = togetherOf(book);
  const sending = made.map(({ device: { name }, token }) => {
    const send = sendTo(book, together, undefined, () => book.devices.of(token) !== undefined);
    return send({ from: device(name, 'crew'), entries: [doseOf('101', `dose-of-${name}`, time)] });
  });
  // From another program, as `device revoke` does it.
  opened(path, { clock: rehearsalClock }).devices.revoke('two');
  const told = await Promise.allSettled(sending);
  expect(told.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
  expect(told[1]).toMatchObject({ reason: { problem: 'not-signed-in', message: expect.stringContaining('revoked') } });
  expect(['one', 'two', 'three'].map((name) => book.find(`dose-of-${name}`).length)).toEqual([1, 0, 1]);
  expect(book.read().asides).toEqual([]);
});

test('over the wire, too, each has its own receipts, and what is known afterwards is of all of them', async () => {
  const server = await aServer();
  const { book, push, ask } = server;
  const roles = ['manager', 'crew', 'record-keeper', 'machine'] as const;
  const before = book.head().position;
  const answers = await Promise.all(
    Array.from({ length: 40 }, (_, each) => {
      const as = roles[each % roles.length] ?? 'crew';
      return push([doseOf('101', `dose-${each}`), doseOf(`10${1 + (each % 6)}`, `same-${each % 4}`)], { as });
    }),
  );
  const receipts = answers.flatMap((answer) => answer.receipts);
  const positions = receipts.flatMap(({ outcome, position }) => (outcome === 'recorded' ? [position] : []));
  expect(new Set(positions).size).toBe(positions.length);
  expect([...positions].sort((a = 0, b = 0) => a - b)).toEqual(positions.map((_, index) => before + 1 + index));
  for (const { id, position } of receipts.filter(({ outcome }) => outcome === 'recorded'))
    expect(book.find(id ?? '').map((row) => row.position)).toEqual([position]);
  for (const [each, answer] of answers.entries()) {
    expect(answer.receipts[0]).toMatchObject({ id: `dose-${each}`, outcome: each % 4 < 2 ? 'recorded' : 'refused' });
    expect(answer.position).toBeLessThanOrEqual(book.head().position);
    expect(answer.position).toBeGreaterThanOrEqual(Math.max(0, ...answer.receipts.map(({ position = 0 }) => position)));
  }
  expect(book.verify().ok).toBe(true);
  const sheet = await ask('/milkings/2026-03-14/afternoon/sheets/milk-hold.json');
  expect(JSON.stringify(await sheet.json())).toContain('"cow":"101"');
  expect(await problemOf(await ask('/sync/push', { method: 'POST', body: '[]' }))).toMatchObject({ status: 415 });
});
