/** Whatever stands between or goes wrong: a clear sentence or a bounded retry, and never half a page or a changed one. */
import http from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, test } from 'vitest';
import type { Book } from '../../../events/book.ts';
import { aServer, START, tell } from '../server/a-server.ts';
import { aProxy, type Mischief, type Passing } from './a-proxy.ts';
import { aLaptop, expectSame, HURRY, refusalOf, sayDoses, setOf, syncWith } from './two-books.ts';

const withProxy = async () => {
  const server = await aServer();
  const proxy = await aProxy(server.url);
  const { book } = aLaptop();
  const again = (): ReturnType<typeof syncWith> => syncWith(book, server, { url: proxy.url });
  return { server, proxy, book, again };
};

const page = (status: number, body: string, headers: Record<string, string> = {}): Mischief => ({
  answer: { status, headers: { 'content-type': 'text/html; charset=utf-8', ...headers }, body },
});
const problem = (status: number, name: string, detail: string, headers: Record<string, string> = {}): Mischief => ({
  answer: {
    status,
    headers: { 'content-type': 'application/problem+json', ...headers },
    body: JSON.stringify({ type: `/problems/${name}`, title: name, status, detail }),
  },
});
const expectNothing = (book: Book): void => {
  expect(book.head().position).toBe(0);
  expect(book.read().asides).toEqual([]);
};

test.each([
  ["a proxy's page", page(200, '<h1>Sign in</h1>'), /a page for people and not as a book does; check the address/],
  ["a proxy's refusal", page(404, '<h1>Not here</h1>'), /answers 404 and is no server of a book/],
  [
    'another type',
    { answer: { status: 200, headers: { 'content-type': 'text/plain' }, body: 'ok' } },
    /with text\/plain and not as a book/,
  ],
  [
    'other JSON',
    { answer: { status: 200, headers: { 'content-type': 'application/json' }, body: '{"hello":1}' } },
    /does not answer as a book does/,
  ],
  [
    'a redirect',
    page(302, '', { location: 'https://elsewhere.example/' }),
    /sends on to https:\/\/elsewhere\.example\/, and a token is not sent on/,
  ],
  [
    'a locked-out token',
    problem(429, 'locked-out', 'Too many wrong tokens', { 'retry-after': '1800' }),
    /locked this computer out: Too many wrong tokens/,
  ],
  ['a long wait', problem(429, 'too-often', 'That is too fast', { 'retry-after': '900' }), /Sync again in 900 seconds/],
  ['a full disk', problem(507, 'disk-full', 'The disk is full'), /disk of the other book is full/],
  [
    'a fault',
    problem(500, 'went-wrong', 'Tell whoever runs it \u001b[31m'),
    /answers 500: Tell whoever runs it \[31m$/,
  ],
] as [string, Mischief, RegExp][])(
  '%s is one request and one sentence, and nothing is taken',
  async (_, mischief, sentence) => {
    const { proxy, book, again } = await withProxy();
    proxy.play(() => mischief);
    expect(await refusalOf(again())).toMatch(sentence);
    expect(proxy.seen).toHaveLength(1);
    expectNothing(book);
  },
);

test.each([
  ['503', problem(503, 'busy', 'The book is in use', { 'retry-after': '0' })],
  ['429 with a short wait', problem(429, 'too-often', 'That is too fast', { 'retry-after': '1' })],
  ["a proxy's 502", page(502, 'bad gateway')],
  ['half an answer', 'half'],
  ['an answer that is cut off', 'cut'],
  ['a lost request', 'lose'],
] as [string, Mischief][])('%s is asked again, and then it is done', async (_, mischief) => {
  const { server, proxy, book, again } = await withProxy();
  proxy.play((__, index) => (index % 2 === 0 ? mischief : 'pass'));
  expect(await again()).toMatchObject({ same: true });
  expectSame(book, server.book);
});

test.each([
  ['503', problem(503, 'busy', 'The book is in use'), /answers 503: The book is in use \(tried 4 times\)/],
  ['half an answer', 'half', /came cut off or damaged, and nothing of it was taken \(tried 4 times\)/],
  ['a dead line', 'lose', /broke off \(.*\) \(tried 4 times\)/],
] as [string, Mischief, RegExp][])('%s for ever is given up after so many tries', async (_, mischief, sentence) => {
  const { proxy, book, again } = await withProxy();
  proxy.play(() => mischief);
  expect(await refusalOf(again())).toMatch(sentence);
  expect(proxy.seen).toHaveLength(4);
  expectNothing(book);
});

test('a server that says nothing is not waited for without end', async () => {
  const { server, proxy, book } = await withProxy();
  proxy.play(() => ({ wait: 1_000 }));
  const patience = { ...HURRY, tries: 2, silence: 50 };
  expect(await refusalOf(syncWith(book, server, { url: proxy.url, patience }))).toMatch(
    /no answer came\) \(tried 2 times\)/,
  );
});

test('where nothing listens, the sentence says to look at serve and the port', async () => {
  const { server, book } = await withProxy();
  const silent = http.createServer();
  await new Promise<void>((resolve) => silent.listen(0, '127.0.0.1', () => resolve()));
  const url = `http://127.0.0.1:${(silent.address() as AddressInfo).port}`;
  await new Promise((resolve) => silent.close(resolve));
  expect(await refusalOf(syncWith(book, server, { url }))).toMatch(/Nothing listens at .*see that serve is running/);
  expect(await refusalOf(syncWith(book, server, { url: 'http://127.0.0.1:1' }))).toMatch(
    /port .* is one that is never used/,
  );
  expect(await refusalOf(syncWith(book, server, { url: 'https://no-such-computer.invalid' }))).toMatch(
    /No computer of that name/,
  );
  expect(await refusalOf(syncWith(book, server, { url: server.url.replace('http:', 'https:') }))).toMatch(
    /does not speak https|broke off/,
  );
});

test('a wrong token, a revoked one, and those of devices are each told apart, and nothing is sent or set aside', async () => {
  const { server, book } = await withProxy();
  await syncWith(book, server);
  sayDoses(book, 'barn', 1);
  const before = server.book.changes();
  const wrong = server.tokens.book.replace(/.$/, (last) => (last === 'A' ? 'B' : 'A'));
  expect(await refusalOf(syncWith(book, server, { token: wrong }))).toMatch(/does not take this token/);
  for (const role of ['manager', 'record-keeper'] as const) {
    expect(await refusalOf(syncWith(book, server, { token: server.tokens[role] }))).toMatch(
      /token is one of a device, not of a book.*--role book/,
    );
  }
  for (const role of ['crew', 'machine'] as const) {
    expect(await refusalOf(syncWith(book, server, { token: server.tokens[role] }))).toMatch(
      /does not let this token sync/,
    );
  }
  server.book.devices.revoke('the book');
  expect(await refusalOf(syncWith(book, server))).toMatch(/does not take this token.*revoked/);
  expect(server.book.changes()).toBe(before);
});

test('a token revoked in the middle stops the sync; what came before is kept and said', async () => {
  const { server, proxy, book, again } = await withProxy();
  sayDoses(server.book, 'office', 1_500);
  proxy.play(({ path }) => {
    if (path.startsWith('/sync/pull?after=1000')) server.book.devices.revoke('the book');
    return 'pass';
  });
  expect(await refusalOf(again())).toMatch(
    /does not take this token.*\nBefore that, 1000 came and 0 went, and those are safe/,
  );
  expect(book.head().position).toBe(1_000);
  proxy.play(() => 'pass');
  const { token } = server.book.devices.add('the laptop', 'book');
  expect(await syncWith(book, server, { url: proxy.url, token })).toMatchObject({
    same: true,
    pulled: { recorded: 508, known: 0 },
  });
});

const swapped = (text: string): string => JSON.stringify((JSON.parse(text) as unknown[]).toReversed());
const without = (text: string): string => JSON.stringify((JSON.parse(text) as unknown[]).toSpliced(3, 1));
test.each([
  ['with a word changed', (text: string) => text.replace('"hours":60', '"hours":6')],
  ['in another order', swapped],
  ['with an entry left out', without],
  [
    'with an entry put in',
    (text: string) => text.replace(/^\[/, '[{"id":"x","type":"settled","data":{"about":"a","how":"b"}},'),
  ],
  ['with half a letter in it', (text: string) => text.replace('Alder', 'Al\\ud800der')],
  ['with nothing in it', () => '[]'],
])('a page %s does not give the proven root: it is refused, and nothing of it is recorded', async (_, change) => {
  const { server, proxy, book, again } = await withProxy();
  const sly = ({ path }: Passing): Mischief => (path.startsWith('/sync/pull') ? { change } : 'pass');
  proxy.play(sly);
  expect(await refusalOf(again())).toMatch(
    /does not give the root that book signs, twice over; nothing of it was recorded|but gives none behind 0/,
  );
  expectNothing(book);
  let once = false;
  proxy.play((passing) => {
    const first = !once && passing.path.startsWith('/sync/pull');
    once ||= first;
    return first && _ !== 'with nothing in it' ? sly(passing) : 'pass';
  });
  expect(await again()).toMatchObject({ same: true });
  expectSame(book, server.book);
});

test('a page changed together with the root it leads to is refused by the signature', async () => {
  const { server, proxy, book, again } = await withProxy();
  proxy.play(({ path }) => ({
    change: (text) =>
      path === '/sync/book'
        ? text.replace(/\\n8\\n[^\\]+\\n/, `\\n8\\n${Buffer.alloc(32, 7).toString('base64')}\\n`)
        : text,
  }));
  expect(await refusalOf(again())).toMatch(/not signed by the key it shows/);
  expectNothing(book);
  expect(server.book.head().position).toBe(8);
});

test('a proxy that takes only small bodies gets small ones', async () => {
  const { server, proxy, book, again } = await withProxy();
  await again();
  sayDoses(book, 'barn', 400);
  proxy.play(({ body }) => (body.length > 20_000 ? page(413, 'too large') : 'pass'));
  expect(await again()).toMatchObject({ same: true, pushed: { recorded: 400 } });
  expectSame(book, server.book);
  const told = tell(book, START, [
    { type: 'settled', id: 'long', time: '2026-03-14T10:00:00Z', data: { about: 'x', how: 'y'.repeat(90) } },
  ]);
  expect(told[0]?.outcome).toBe('recorded');
  proxy.play(({ body }) => (body.length > 100 ? page(413, 'too large') : 'pass'));
  expect(await refusalOf(again())).toMatch(/answers 413/);
  proxy.play(() => 'pass');
  expect(await again()).toMatchObject({ same: true, pushed: { recorded: 1 } });
});

test('pushes whose answer is lost, again and again, are recorded once', async () => {
  const { server, proxy, book, again } = await withProxy();
  await again();
  sayDoses(book, 'barn', 1_200);
  let lost = 0;
  proxy.play(({ method, body }) => {
    if (method !== 'POST' || body.length < 3) return 'pass';
    lost += 1;
    return lost % 3 === 0 ? 'pass' : 'lose-answer';
  });
  expect(await again()).toMatchObject({ same: true });
  expect(lost).toBe(9);
  expect(setOf(server.book)).toEqual(setOf(book));
  expect(server.book.head().position).toBe(1_208);
});

test('cut off after any request and begun again, a sync ends with both the same and nothing twice', async () => {
  const { server, proxy, book, again } = await withProxy();
  sayDoses(server.book, 'office', 30);
  await syncWith(book, server);
  sayDoses(book, 'barn', 1_100);
  sayDoses(server.book, 'more', 1_100);
  let allowed = 0;
  let refusals = 0;
  for (; refusals < 60; refusals += 1) {
    const until = proxy.seen.length + allowed;
    proxy.play((_, index) => (index < until ? 'pass' : 'lose-answer'));
    allowed += 1;
    const done = await again().then(
      () => true,
      () => false,
    );
    if (done) break;
  }
  expect(refusals).toBeGreaterThan(5);
  expect(refusals).toBeLessThan(40);
  expect(book.head().position).toBe(8 + 30 + 2_200);
  expect(setOf(book)).toEqual(setOf(server.book));
});
