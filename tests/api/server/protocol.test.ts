/** `api/protocol.md` is true: each of its requests is sent to a real server and answered as it says, and its Python works. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { describe, expect, test } from 'vitest';
import { PROBLEMS } from '../../../api/server/problem.ts';
import { type AServer, aServer } from './a-server.ts';

const TEXT = fs.readFileSync('api/protocol.md', 'utf8');
const blocks = (language: string): string[] =>
  [...TEXT.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, 'gm'))].map(([, block = '']) => block);

interface Message {
  readonly first: string;
  readonly headers: readonly (readonly [string, string])[];
  readonly body: string;
}

const messageOf = (block: string): Message => {
  const [head = '', ...rest] = block.split('\n\n');
  const [first = '', ...lines] = head.trimEnd().split('\n');
  const headers = lines.map((line) => [line.slice(0, line.indexOf(': ')), line.slice(line.indexOf(': ') + 2)] as const);
  return { first, headers, body: rest.join('\n\n').trimEnd() };
};

const SAMPLE = {
  book: '0190b6d2-0000-7000-8000-00000000b00c',
  farm: '0190b6d2-0000-7000-8000-00000000fa12',
  ref: 'K7TR-7FYJ-3',
};

/** What is said in place of the samples in the text; the ref of the set that was issued is learnt on the way. */
const spoken = (text: string, { book, tokens }: AServer, ref: string): string =>
  text
    .replaceAll(SAMPLE.book, book.bookId)
    .replaceAll(SAMPLE.farm, book.farmId ?? '')
    .replaceAll(SAMPLE.ref, ref)
    .replace(/Bearer (CREW-|BOOK-)?TOKEN/, (_, role?: string) => {
      return `Bearer ${role === undefined ? tokens.manager : role === 'CREW-' ? tokens.crew : tokens.book}`;
    });

/** A text in which an ellipsis stands for anything. */
const likeText = (expected: string, actual: string): boolean =>
  new RegExp(
    `^${expected
      .split('…')
      .map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
      .join('[\\s\\S]*')}$`,
  ).test(actual);

/** The same JSON, with nothing more and nothing less in it. Gives the actual value where all is well, so that a failure shows both. */
const like = (expected: unknown, actual: unknown): unknown => {
  if (typeof expected === 'string' && typeof actual === 'string') return likeText(expected, actual) ? actual : expected;
  if (Array.isArray(expected) && Array.isArray(actual)) return expected.map((each, index) => like(each, actual[index]));
  if (typeof expected !== 'object' || expected === null || typeof actual !== 'object' || actual === null)
    return expected;
  const values = new Map<string, unknown>(Object.entries(actual));
  return Object.fromEntries(Object.entries(expected).map(([name, value]) => [name, like(value, values.get(name))]));
};

/** As much of an answer as is expected; a stream has no end. */
const bodyOf = async (answer: Response, isStream: boolean, expected: string): Promise<string> => {
  if (!isStream) return answer.text();
  const reader = answer.body?.getReader();
  let text = '';
  while (reader !== undefined && !likeText(expected, text.trimEnd()) && text.length < 10_000) {
    const { value, done } = await reader.read();
    if (done) break;
    text += new TextDecoder().decode(value);
  }
  await reader?.cancel();
  return text;
};

test('every request in the text is answered as the text says', async () => {
  const server = await aServer();
  const messages = blocks('http').map(messageOf);
  expect(messages.length).toBeGreaterThan(30);
  expect(messages.length % 2).toBe(0);
  let ref = SAMPLE.ref;
  for (let at = 0; at < messages.length; at += 2) {
    const [request, expected] = messages.slice(at, at + 2);
    if (request === undefined || expected === undefined) throw new Error('Each request has its answer');
    const say = (text: string): string => spoken(text, server, ref);
    const [method = '', path = ''] = say(request.first).split(' ');
    const answer = await fetch(`${server.url}${path}`, {
      method,
      headers: request.headers.map(([name, value]): [string, string] => [name, say(value)]),
      ...(request.body === '' ? {} : { body: say(request.body) }),
    });
    const type = answer.headers.get('content-type') ?? '';
    const body = await bodyOf(answer, type === 'text/event-stream', say(expected.body));
    expect({
      request: request.first,
      status: answer.status,
      body: answer.status === Number(expected.first) ? '' : body,
    }).toEqual({ request: request.first, status: Number(expected.first), body: '' });
    for (const [name, value] of expected.headers) {
      const actual = answer.headers.get(name) ?? 'not there';
      expect([request.first, name, actual]).toEqual([
        request.first,
        name,
        likeText(say(value), actual) ? actual : say(value),
      ]);
    }
    if (type.includes('json')) {
      const actual: unknown = JSON.parse(body);
      if (path.endsWith('/issue') && typeof actual === 'object' && actual !== null && 'ref' in actual)
        ref = String(actual.ref);
      expect(actual).toEqual(like(JSON.parse(say(expected.body)), actual));
    } else if (type.includes('pdf')) expect(body.slice(0, 5)).toBe('%PDF-');
    else expect(likeText(say(expected.body), body.trimEnd()) ? body : say(expected.body)).toBe(body);
  }
});

test('the table of problems has every one that the server knows, under its status, and no other', () => {
  const listed = [...TEXT.matchAll(/^\| (\d{3}) +\| `([a-z-]+)` +\| \S.* \|$/gm)].map(([, status, name]) => [
    name,
    Number(status),
  ]);
  expect(listed.sort()).toEqual(
    Object.entries(PROBLEMS)
      .map(([name, [status]]) => [name, status])
      .sort(),
  );
});

describe('the Python of the text', () => {
  const run = (driver: string, input: unknown): unknown => {
    const [code] = blocks('python');
    const made = spawnSync('python3', ['-I', '-c', `${code}\nimport sys\ngiven = json.load(sys.stdin)\n${driver}`], {
      input: JSON.stringify(input),
      encoding: 'utf8',
      timeout: 30_000,
    });
    expect(made.stderr).toBe('');
    return JSON.parse(made.stdout);
  };

  test('cuts a page into the stored texts and works out the root that the checkpoint signs', async () => {
    const { ask, push, book } = await aServer();
    await push([
      {
        type: 'milk-hold',
        subject: '104',
        time: '2026-03-14T11:00:00Z',
        data: { reason: 'clots, ] and ", "żółte"  ' },
      },
    ]);
    const page = await (await ask('/sync/pull')).text();
    const said = run(
      'texts = list(stored(given)); print(json.dumps([texts, root(texts).hex(), list(stored("[]"))]))',
      page,
    );
    expect(said).toEqual([book.rows(0, 100).map((row) => row.entry), book.head().root, []]);
  });

  test('follows every honest continuation, and none that was changed', async () => {
    const { ask, book } = await aServer();
    const { position } = book.head();
    const proofs: unknown[] = [];
    for (let from = 1; from <= position; from += 1) {
      for (let to = from; to <= position; to += 1)
        proofs.push(await (await ask(`/sync/continuation?from=${from}&to=${to}`, { as: 'book' })).json());
    }
    expect(proofs).toHaveLength(36);
    const driver = `
def follows(p, **changed):
    p = {**p, **changed}
    return continues(p["oldSize"], bytes.fromhex(p["oldRoot"]), p["size"], bytes.fromhex(p["root"]), [bytes.fromhex(each) for each in p["path"]])
wrong = "00" * 32
print(json.dumps([
    [follows(p) for p in given],
    [follows(p, oldRoot=wrong) for p in given],
    [follows(p, root=wrong) for p in given],
    [follows(p, path=p["path"] + [wrong]) for p in given],
]))`;
    expect(run(driver, proofs)).toEqual([true, false, false, false].map((follows) => Array(36).fill(follows)));
  });
});
