/** TLS from two PEM files, and a sentence where they are not what they should be. */
import fs from 'node:fs';
import https from 'node:https';
import path from 'node:path';
import tls from 'node:tls';
import { pino } from 'pino';
import { expect, test } from 'vitest';
import { startServing } from '../../../api/server/listen.ts';
import { UserProblem } from '../../../shared/refusal.ts';
import { folder, newBook } from '../../events/a-book.ts';
import { aCertificate } from './a-certificate.ts';
import { aServer, BATCH, doseOf } from './a-server.ts';
import { sendRaw } from './raw-socket.ts';

const askTls = (
  url: string,
  options: https.RequestOptions & { body?: string },
): Promise<{ status: number; body: string; protocol: string | null }> =>
  new Promise((resolve, reject) => {
    const { body, ...rest } = options;
    const request = https.request(url, { agent: false, ...rest }, (answer) => {
      let text = '';
      answer.setEncoding('utf8');
      answer.on('data', (piece: string) => {
        text += piece;
      });
      const protocol = answer.socket instanceof tls.TLSSocket ? answer.socket.getProtocol() : null;
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, body: text, protocol }));
    });
    request.on('error', reject);
    request.end(body);
  });

test('over TLS a device pushes and pulls, and a client that trusts the certificate is not deceived', async () => {
  const { trusted, ...files } = aCertificate();
  const { url, tokens, book } = await aServer({ tls: files });
  expect(url).toMatch(/^https:\/\/127\.0\.0\.1:\d+$/);
  const headers = { authorization: `Bearer ${tokens.manager}` };
  const pushed = await askTls(`${url}/sync/push`, {
    ca: trusted,
    method: 'POST',
    headers: { ...headers, 'content-type': BATCH },
    body: JSON.stringify([doseOf('101', 'over-tls')]),
  });
  expect([pushed.status, pushed.protocol]).toEqual([200, 'TLSv1.3']);
  expect(book.find('over-tls')).toHaveLength(1);
  expect((await askTls(`${url}/sync/pull`, { ca: trusted, headers })).body).toContain('"over-tls"');
  await expect(askTls(`${url}/healthz`, {})).rejects.toThrow(/self-signed/);
});

test('TLS older than 1.2, and plain HTTP on the TLS port, get nothing', async () => {
  const { trusted, ...files } = aCertificate();
  const { url } = await aServer({ tls: files });
  await expect(askTls(`${url}/healthz`, { ca: trusted, minVersion: 'TLSv1', maxVersion: 'TLSv1.1' })).rejects.toThrow();
  const plain = await sendRaw(url, ['GET /healthz HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n'], 3_000);
  expect(plain).not.toContain('200 OK');
  expect((await askTls(`${url}/healthz`, { ca: trusted })).status).toBe(200);
});

test('beyond this computer TLS lets devices in from anywhere', async () => {
  const { trusted, ...files } = aCertificate();
  const { url, tokens } = await aServer({ tls: files, listen: '0.0.0.0', hosts: ['localhost'] });
  const { port } = new URL(url);
  const headers = { authorization: `Bearer ${tokens.manager}` };
  expect((await askTls(`https://localhost:${port}/sync/pull`, { ca: trusted, headers })).status).toBe(200);
  const lying = { ca: trusted, headers: { host: 'elsewhere.example' }, checkServerIdentity: () => undefined };
  expect((await askTls(`https://localhost:${port}/healthz`, lying)).status).toBe(421);
});

test('bad TLS files are told apart in a sentence before anybody can connect', async () => {
  const [good, other] = [aCertificate(), aCertificate()];
  const junk = path.join(folder(), 'junk.pem');
  fs.writeFileSync(junk, 'not a certificate');
  const book = newBook();
  const problemOf = async (files: { cert: string; key: string }): Promise<UserProblem> => {
    try {
      const serving = await startServing({ book, log: pino({ level: 'silent' }), port: 0, tls: files });
      await serving.stop();
    } catch (error) {
      if (error instanceof UserProblem) return error;
      throw error;
    }
    throw new Error('It listens');
  };
  const cases = [
    [{ cert: `${good.cert}.gone`, key: good.key }, /^--tls-cert: there is no file .*cert\.pem\.gone/],
    [{ cert: good.cert, key: `${good.key}.gone` }, /^--tls-key: there is no file .*key\.pem\.gone/],
    [{ cert: junk, key: good.key }, /^--tls-cert: .*junk\.pem is not a certificate in PEM form/],
    [{ cert: good.cert, key: junk }, /^--tls-key: .*junk\.pem is not a private key/],
    [{ cert: good.key, key: good.cert }, /^--tls-cert: .*key\.pem is not a certificate/],
    [{ cert: good.cert, key: other.key }, /^--tls-key: .*key\.pem is not the key of the certificate/],
  ] as const;
  for (const [files, sentence] of cases) {
    const problem = await problemOf(files);
    expect(problem.message).toMatch(sentence);
    expect(problem.exitCode).toBe(2);
  }
});
