/** A server whose book was replaced, rolled back or changed is noticed, and followed only when a person says so, once. */
import fs from 'node:fs';
import { expect, test } from 'vitest';
import { openBook } from '../../../events/book.ts';
import { handClock, newPath, opened } from '../../events/a-book.ts';
import { aServer, farmEntries, START, serveBook, tell } from '../server/a-server.ts';
import { aProxy } from './a-proxy.ts';
import { aLaptop, expectSame, refusalOf, sayDoses, setOf, syncWith } from './two-books.ts';

/** The office's book with a farm and ten doses; `putBack` puts its file back as it is now, key and place untouched. */
const anOffice = (): { path: string; putBack: () => void; copyTo: (path: string) => void } => {
  const path = newPath();
  const book = openBook(path, { clock: handClock(START), create: true });
  tell(book, START, farmEntries());
  sayDoses(book, 'office', 10);
  book.close();
  const kept = fs.readFileSync(path);
  return {
    path,
    putBack: () => {
      for (const beside of ['-wal', '-shm']) fs.rmSync(`${path}${beside}`, { force: true });
      fs.writeFileSync(path, kept);
    },
    copyTo: (to) => fs.writeFileSync(to, kept),
  };
};

const serveAt = async (path: string) => {
  const clock = handClock(START);
  return serveBook(opened(path, { clock }), clock);
};

/** The word that the refusal names. */
const wordIn = (refusal: string): string => /--other-book ([0-9a-f]{8})/.exec(refusal)?.[1] ?? '';

/** A laptop that has synced with the office through an address that can lead to another server. */
const synced = async () => {
  const office = anOffice();
  const server = await serveAt(office.path);
  const proxy = await aProxy(server.url);
  const { book } = aLaptop();
  await syncWith(book, server, { url: proxy.url });
  sayDoses(server.book, 'after', 5);
  sayDoses(book, 'barn', 5);
  await syncWith(book, server, { url: proxy.url });
  expectSame(book, server.book);
  const rollBack = async (running = server) => {
    await running.serving.stop();
    running.book.close();
    office.putBack();
    const back = await serveAt(office.path);
    expect(back.book.bookId).toBe(server.book.bookId);
    proxy.leadTo(back.url);
    return back;
  };
  return { office, book, proxy, server, rollBack };
};

test('a server that was rolled back is refused by its shorter log, and nothing is sent to it', async () => {
  const { book, proxy, rollBack } = await synced();
  const back = await rollBack();
  const before = [book.head(), back.book.head()];
  const refusal = await refusalOf(syncWith(book, back, { url: proxy.url }));
  expect(refusal).toMatch(
    /replaced or rolled back\. 28 entries of it were read before, and now it has 18\. Nothing was taken or sent/,
  );
  expect([book.head(), back.book.head()]).toEqual(before);
});

test('a person who knows why goes on with the word, and what the server lost is sent to it again, its own too', async () => {
  const { book, proxy, rollBack } = await synced();
  const back = await rollBack();
  sayDoses(back.book, 'since', 2);
  const otherBook = wordIn(await refusalOf(syncWith(book, back, { url: proxy.url })));
  const done = await syncWith(book, back, { url: proxy.url, otherBook });
  expect(done).toMatchObject({ same: true, pulled: { recorded: 2 }, pushed: { recorded: 10 } });
  expectSame(book, back.book);
  expect(await syncWith(book, back, { url: proxy.url })).toMatchObject({ pushed: { recorded: 0, known: 0 } });
});

test('the word is good once: said again at the next roll-back, it follows nothing', async () => {
  const { book, proxy, rollBack } = await synced();
  const first = await rollBack();
  const otherBook = wordIn(await refusalOf(syncWith(book, first, { url: proxy.url })));
  await syncWith(book, first, { url: proxy.url, otherBook });
  const second = await rollBack(first);
  const again = await refusalOf(syncWith(book, second, { url: proxy.url, otherBook }));
  expect(again).toContain(`--other-book ${otherBook} was for another time`);
  expect(second.book.head().position).toBe(18);
});

test('a server whose log was rolled back and has grown past the old length is found out by its root', async () => {
  const { book, proxy, rollBack } = await synced();
  const forked = await rollBack();
  sayDoses(forked.book, 'other', 30);
  const refusal = await refusalOf(syncWith(book, forked, { url: proxy.url }));
  expect(refusal).toMatch(/does not continue what was read of it before \(28 entries\)/);
  await syncWith(book, forked, { url: proxy.url, otherBook: wordIn(refusal) });
  expectSame(book, forked.book);
  expect(setOf(book).filter((line) => /"id":"(after|barn|other)-/.test(line))).toHaveLength(40);
});

test('a log of the old length with other entries is found out too', async () => {
  const { book, proxy, rollBack } = await synced();
  const forked = await rollBack();
  sayDoses(forked.book, 'other', 10);
  expect(forked.book.head().position).toBe(28);
  expect(await refusalOf(syncWith(book, forked, { url: proxy.url }))).toMatch(/does not continue/);
});

test('a restored file goes on as another book: that is said, and that it lacks what was read', async () => {
  const { office, book, proxy, server } = await synced();
  const path = newPath();
  office.copyTo(path);
  const restored = await serveAt(path);
  expect(restored.book.bookId).not.toBe(server.book.bookId);
  proxy.leadTo(restored.url);
  const refusal = await refusalOf(syncWith(book, restored, { url: proxy.url }));
  expect(refusal).toContain(
    `At this address was the book ${server.book.bookId}, and now there is ${restored.book.bookId}.`,
  );
  expect(refusal).toMatch(/28 entries of it were read before, and now it has 19/);
  await syncWith(book, restored, { url: proxy.url, otherBook: wordIn(refusal) });
  expectSame(book, restored.book);
});

test('a copy that holds all that was read is another book still: it is said so, and nothing needs sending twice', async () => {
  const { book, proxy, server } = await synced();
  const path = newPath();
  const { position } = server.book.head();
  fs.copyFileSync(server.book.path, path);
  if (fs.existsSync(`${server.book.path}-wal`)) fs.copyFileSync(`${server.book.path}-wal`, `${path}-wal`);
  const copy = opened(path, { clock: handClock(START) });
  expect(copy.head().position).toBe(position);
  for (const { name } of copy.devices.list()) copy.devices.revoke(name);
  const moved = await serveBook(copy, handClock(START));
  proxy.leadTo(moved.url);
  const refusal = await refusalOf(syncWith(book, moved, { url: proxy.url }));
  expect(refusal).toMatch(/It does hold all that was read there before \(28 entries\)/);
  const done = await syncWith(book, moved, { url: proxy.url, otherBook: wordIn(refusal) });
  expect(done).toMatchObject({ same: true, pulled: { recorded: 1, known: 0 }, pushed: { recorded: 0, known: 0 } });
  expectSame(book, moved.book);
});

test('another book of the farm at the address of the first is not followed silently', async () => {
  const { book, proxy, server } = await synced();
  const other = await aServer({}, []);
  await syncWith(book, other);
  expect(other.book.farmId).toBe(server.book.farmId);
  proxy.leadTo(other.url);
  const refusal = await refusalOf(syncWith(book, other, { url: proxy.url }));
  expect(refusal).toContain(`At this address was the book ${server.book.bookId}`);
  proxy.leadTo(server.url);
  expect(await syncWith(book, server, { url: proxy.url })).toMatchObject({ same: true });
});

test('a book that answers under a known name with another key is not followed silently', async () => {
  const { book, proxy, server } = await synced();
  const stranger = await aServer({}, []);
  proxy.play(() => ({
    change: (text, { path }) =>
      path === '/sync/book'
        ? text.replaceAll(
            server.book.verifierKey.split('+').slice(1).join('+'),
            stranger.book.verifierKey.split('+').slice(1).join('+'),
          )
        : text,
  }));
  expect(await refusalOf(syncWith(book, server, { url: proxy.url }))).toMatch(
    /not signed by the key it shows|another key/,
  );
});

test('a server that acknowledges a push and then loses it is found out in the same sync, and the push goes again', async () => {
  const { book, proxy, server } = await synced();
  sayDoses(book, 'more', 3);
  const receipts = [1, 2, 3].map((n) => ({ id: `more-${n - 1}`, outcome: 'recorded', position: 28 + n }));
  const lie = { time: '2026-03-14T12:00:00Z', book: server.book.bookId, position: 31, receipts };
  proxy.play(({ body }) =>
    body.length > 2
      ? { answer: { status: 200, headers: { 'content-type': 'application/json' }, body: JSON.stringify(lie) } }
      : 'pass',
  );
  const refusal = await refusalOf(syncWith(book, server, { url: proxy.url }));
  expect(refusal).toMatch(/acknowledged what was sent and does not have it/);
  proxy.play(() => 'pass');
  expect(await syncWith(book, server, { url: proxy.url })).toMatchObject({ same: true, pushed: { recorded: 3 } });
  expectSame(book, server.book);
});
