/** What the server says about itself: log lines and metrics that a program can read, and no secret in either. */
import { pino } from 'pino';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { aServer, BATCH, doseOf, rawAsk } from './a-server.ts';

const logLine = z.looseObject({ level: z.number(), time: z.number(), requestId: z.string().min(8) });
const answered = z.looseObject({ method: z.string(), path: z.string(), status: z.number(), milliseconds: z.number() });

test('each line of the log is one JSON object with the id of its request, and holds no token', async () => {
  const lines: string[] = [];
  const log = pino({ level: 'info', base: null }, { write: (line: string) => lines.push(line) });
  const { ask, push, tokens, url, book } = await aServer({ log });
  const wrong = 'byre_0123456789ab_wrongwrongwrongwrongwrongwrongwrongwrongwro';
  const answers = [
    await ask('/sync/pull'),
    await ask('/sync/pull', { as: wrong }),
    await ask(`/sync/pull?token=${tokens.manager}`),
    await ask(`/issued/${tokens.crew}.pdf`),
    await ask('/sync/push', { method: 'POST', body: `["${tokens.machine}"`, headers: { 'content-type': BATCH } }),
    await ask('/cows/101%0A%7B%22level%22%3A60%7D'),
    await ask('/sync/pull', { as: 'crew' }),
    await ask('/healthz', { headers: { 'x-request-id': 'mine-and-nobody-elses' } }),
  ];
  await push([doseOf('101'), { type: 'x', token: tokens.manager }]);
  await rawAsk(url, { path: '/sync/pull', headers: { host: 'elsewhere.example', cookie: `desk=${tokens.manager}` } });
  const parsed = lines.map((line) => logLine.parse(JSON.parse(line)));
  expect(lines.every((line) => line.endsWith('\n') && !line.slice(0, -1).includes('\n'))).toBe(true);
  expect(lines.filter((line) => line.split('"requestId"').length !== 2)).toEqual([]);
  for (const answer of answers) {
    const id = answer.headers.get('x-request-id');
    const line = parsed.find(({ requestId, status }) => requestId === id && status !== undefined);
    expect(answered.parse(line).status).toBe(answer.status);
  }
  expect(parsed.filter(({ requestId }) => requestId === 'mine-and-nobody-elses')).toHaveLength(1);
  const all = lines.join('');
  for (const secret of [wrong, ...Object.values(tokens)].map((token) => token.slice(18)))
    expect(all).not.toContain(secret);
  expect(all).not.toContain(book.path);
});

/** A line of the text form: a comment, or a name with its labels and a number. */
const METRIC = /^(# (TYPE|HELP) [a-z_]+ .+|[a-z_]+(\{[a-z_]+="[^"\\\n]*"(,[a-z_]+="[^"\\\n]*")*\})? -?\d+(\.\d+)?)$/;

test('metrics are behind a token, each line is of the text form, and every name has its type before it', async () => {
  const { ask, push, book } = await aServer();
  expect((await ask('/metrics', { as: null })).status).toBe(401);
  expect((await ask('/metrics', { as: 'machine' })).status).toBe(403);
  await push([doseOf('101'), {}]);
  const stream = await ask('/sync/stream');
  const answer = await ask('/metrics', { as: 'record-keeper' });
  expect(answer.headers.get('content-type')).toBe('text/plain; version=0.0.4; charset=utf-8');
  const text = await answer.text();
  expect(text.endsWith('\n')).toBe(true);
  const lines = text.trimEnd().split('\n');
  expect(lines.filter((line) => !METRIC.test(line))).toEqual([]);
  const typed = new Set<string>();
  for (const line of lines) {
    const type = /^# TYPE (\S+) (counter|gauge)$/.exec(line)?.[1];
    if (type !== undefined) {
      expect(typed.has(type)).toBe(false);
      typed.add(type);
    } else if (!line.startsWith('#')) expect([...typed]).toContain(/^[a-z_]+/.exec(line)?.[0]);
  }
  expect(lines).toContain(`byrebook_position ${book.head().position}`);
  expect(lines).toContain('byrebook_streams 1');
  expect(lines).toContain('byrebook_answers_total{status="403"} 1');
  await stream.body?.cancel();
});
