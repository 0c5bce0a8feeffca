/** Who may do what, written down here once more by hand: each role at each address, and each kind of entry it may say. */
import { expect, test } from 'vitest';
import { ROLES, type Role } from '../../../api/devices/roles.ts';
import { ENTRY_TYPES, type EntryType, KINDS } from '../../../events/kinds.ts';
import { type AServer, aServer, BATCH, problemOf } from './a-server.ts';

const MILKING = '/milkings/2026-03-14/afternoon';

/** Address, how it is asked, and who may. Everybody else is told that a device of that role may not. */
const ADDRESSES: readonly [string, 'GET' | 'POST', readonly Role[]][] = [
  ['/sync/push', 'POST', ['manager', 'crew', 'record-keeper', 'machine', 'book']],
  ['/sync/pull', 'GET', ['manager', 'record-keeper', 'book']],
  ['/sync/set-aside', 'GET', ['book']],
  ['/sync/set-aside', 'POST', ['book']],
  ['/sync/stream', 'GET', ['manager', 'record-keeper', 'book']],
  ['/sync/book', 'GET', ['manager', 'record-keeper', 'book']],
  ['/sync/continuation?from=1&to=2', 'GET', ['manager', 'record-keeper', 'book']],
  ['/checkpoint', 'GET', ['manager', 'record-keeper', 'book']],
  ['/milkings/next', 'GET', ['manager', 'crew', 'record-keeper', 'machine']],
  [`${MILKING}/sheets/counts.json`, 'GET', ['manager', 'crew', 'record-keeper', 'machine']],
  [`${MILKING}/sheets/counts.pdf`, 'GET', ['manager', 'crew', 'record-keeper', 'machine']],
  [`${MILKING}/issue`, 'POST', ['manager']],
  ['/cows/101', 'GET', ['manager', 'crew', 'record-keeper']],
  ['/why/101', 'GET', ['manager', 'crew', 'record-keeper']],
  ['/metrics', 'GET', ['manager', 'record-keeper']],
];

const askAs = async ({ ask, book }: AServer, role: Role, path: string, method: 'GET' | 'POST'): Promise<Response> => {
  const type = path === '/sync/push' ? BATCH : 'application/json';
  const headers = { 'content-type': type, 'byrebook-farm': book.farmId ?? '', 'byrebook-book': 'another-book' };
  const sent = path.startsWith('/sync/') && method === 'POST' ? { method, body: '[]', headers } : { method };
  return ask(path, { as: role, ...sent });
};

test.each(ADDRESSES)('%s is for those who may, and tells the others so', async (path, method, may) => {
  const server = await aServer();
  for (const role of ROLES) {
    const answer = await askAs(server, role, path, method);
    expect([role, answer.status]).toEqual([role, may.includes(role) ? 200 : 403]);
    if (answer.status === 403) {
      expect(await problemOf(answer)).toMatchObject({
        type: '/problems/not-allowed',
        detail: expect.stringContaining(role),
      });
    } else await answer.body?.cancel();
  }
});

test('no address that wants a token is missing from that table', async () => {
  const { serving } = await aServer();
  const tried = ADDRESSES.map(([path, method]) => [method.toLowerCase(), path.split('?')[0]] as const);
  const asked = (path: string): RegExp =>
    new RegExp(
      `^${path
        .replace(/\{\w+\}/g, '[^/.]+')
        .replaceAll('.', '\\.')
        .replaceAll('[^/\\.]', '[^/.]')}$`,
    );
  const missing = serving.app.routes
    .filter(({ right, path }) => right !== null && path !== '/issued/{ref}.pdf')
    .filter((route) => !tried.some(([method, path]) => route.method === method && asked(route.path).test(path ?? '')));
  expect(missing.map(({ method, path }) => `${method} ${path}`)).toEqual([]);
});

const BOTH_HANDS: readonly EntryType[] = ['service', 'sheet-returned', 'entry-struck'];
/** What each role may say. A manager says all but what the book alone writes. */
const SAYS: Readonly<Record<'crew' | 'record-keeper' | 'machine', readonly EntryType[]>> = {
  crew: [
    ...BOTH_HANDS,
    'calving',
    'abortion',
    'dry-off',
    'treatment',
    'milk-hold',
    'group-move',
    'sort-request',
    'sort-done',
    'head-count',
    'milk-record',
    'milking-finished',
    'tank-collection',
  ],
  'record-keeper': [
    ...BOTH_HANDS,
    'medicine-received',
    'medicine-disposed',
    'cow-entered',
    'number-changed',
    'cow-left',
    'pregnancy-check',
  ],
  machine: ['milk-hold', 'milk-record', 'sort-done', 'head-count', 'milking-finished'],
};

test.each(['crew', 'record-keeper', 'machine'] as const)(
  'R-27 a %s says the kinds that are its own, and any other is kept aside and holds',
  async (role) => {
    const { push, book } = await aServer();
    const kinds = ENTRY_TYPES.filter((type) => !('bookOnly' in KINDS[type]));
    const { receipts } = await push(
      kinds.map((type) => ({
        type,
        id: `${role}-${type}`,
        time: '2026-03-14T11:00:00Z',
        ...(KINDS[type].subject === 'farm' || type === 'residue-test' ? {} : { subject: '101' }),
        data: type === 'residue-test' ? { result: 'clear', of: 'tank' } : KINDS[type].example,
      })),
      { as: role },
    );
    for (const [index, type] of kinds.entries()) {
      const problem = receipts[index]?.problem ?? '';
      expect([type, /may not write/.test(problem)]).toEqual([type, !SAYS[role].includes(type)]);
      const written = book.find(`${role}-${type}`).length;
      if (!SAYS[role].includes(type)) expect([type, written]).toEqual([type, 0]);
      else if (type !== 'entry-struck') expect([type, written, problem]).toEqual([type, 1, '']);
    }
  },
);

test('what the book alone writes is taken from no device, not from the manager either', async () => {
  const { push } = await aServer();
  const own = ENTRY_TYPES.filter((type) => 'bookOnly' in KINDS[type]);
  expect(own.length).toBeGreaterThan(0);
  for (const role of ['manager', 'crew', 'record-keeper', 'machine'] as const) {
    const { receipts } = await push(
      own.map((type) => ({ type, time: '2026-03-14T11:00:00Z', data: KINDS[type].example })),
      { as: role },
    );
    expect(receipts.map(({ outcome }) => outcome)).toEqual(own.map(() => 'refused'));
  }
});

test('nobody speaks under another name, and only a manager strikes what somebody else said', async () => {
  const { push } = await aServer();
  const dose = {
    type: 'treatment',
    subject: '101',
    time: '2026-03-14T11:00:00Z',
    data: { medicine: 'Penicillin G procaine, udder' },
  };
  const strike = (id: string, entry: string) => ({
    type: 'entry-struck',
    id,
    time: '2026-03-14T11:30:00Z',
    data: { entry, reason: 'wrong cow', instead: 'nothing' },
  });
  const first = await push(
    [
      { ...dose, id: 'mine', source: 'the crew' },
      { ...dose, id: 'not-mine', source: 'the manager' },
    ],
    { as: 'crew' },
  );
  expect(first.receipts.map(({ outcome, pointer }) => [outcome, pointer])).toEqual([
    ['recorded', undefined],
    ['refused', '/source'],
  ]);
  expect((await push([strike('s1', 'mine')], { as: 'record-keeper' })).receipts[0]).toMatchObject({
    outcome: 'refused',
    pointer: '/data/entry',
  });
  expect((await push([strike('s2', 'cow-101')], { as: 'crew' })).receipts[0]).toMatchObject({ outcome: 'refused' });
  expect((await push([strike('s3', 'mine')], { as: 'crew' })).receipts[0]?.outcome).toBe('recorded');
  expect((await push([strike('s4', 'cow-102')], { as: 'manager' })).receipts[0]?.outcome).toBe('recorded');
});

test('a strike of another’s entry is refused, too, where an entry of that id is said in the same breath', async () => {
  const { push, book } = await aServer();
  const time = '2026-03-14T11:00:00Z';
  const { receipts } = await push(
    [
      // Its id is taken by what the office said: it is refused, and lends the strike behind it nothing.
      { type: 'milk-hold', id: 'cow-101', subject: '101', time, data: { reason: 'clots' } },
      { type: 'entry-struck', id: 's5', time, data: { entry: 'cow-101', reason: 'wrong cow', instead: 'nothing' } },
      { type: 'milk-hold', id: 'own', subject: '102', time, data: { reason: 'clots' } },
      { type: 'entry-struck', id: 's6', time, data: { entry: 'own', reason: 'wrong cow', instead: 'nothing' } },
    ],
    { as: 'crew' },
  );
  expect(receipts.map(({ outcome, pointer }) => [outcome, pointer])).toEqual([
    ['refused', '/id'],
    ['refused', '/data/entry'],
    ['recorded', undefined],
    ['recorded', undefined],
  ]);
  expect(book.find('s5')).toEqual([]);
});
