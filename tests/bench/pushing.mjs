/**
 * Devices that push, in a thread of their own: what they cost bears on no server beside them. Each has a connection that
 * stays, and says one thing after the other; they are as lean as can be, so there is no client library in them.
 */
import net from 'node:net';
import { parentPort, workerData } from 'node:worker_threads';

const { port, devices } = workerData;

const connected = () =>
  new Promise((resolve, reject) => {
    const socket = net.connect({ port, host: '127.0.0.1', noDelay: true }, () => resolve(socket));
    socket.once('error', reject);
  });

/** Sends a request and gives the whole answer. */
const asked = (socket, request) =>
  new Promise((resolve, reject) => {
    let said = '';
    const hear = (piece) => {
      said += piece.toString('latin1');
      const head = said.indexOf('\r\n\r\n');
      const length = head < 0 ? Number.NaN : Number(/\r\ncontent-length: (\d+)/i.exec(said)?.[1]);
      if (!(said.length >= head + 4 + length)) return;
      socket.off('data', hear);
      if (said.startsWith('HTTP/1.1 200 ')) resolve(said);
      else reject(new Error(`the push was answered with ${said.slice(0, 1_200)}`));
    };
    socket.on('data', hear);
    socket.write(request);
  });

const requestOf = ({ token, body }) =>
  [
    'POST /sync/push HTTP/1.1',
    `host: 127.0.0.1:${port}`,
    `authorization: Bearer ${token}`,
    'content-type: application/cloudevents-batch+json',
    `content-length: ${Buffer.byteLength(body)}`,
    '',
    body,
  ].join('\r\n');

const lines = await Promise.all(devices.map(async (pushes) => [await connected(), pushes.map(requestOf)]));
const began = performance.now();
await Promise.all(
  lines.map(async ([socket, requests]) => {
    for (const request of requests) await asked(socket, request);
  }),
);
parentPort.postMessage(performance.now() - began);
for (const [socket] of lines) socket.destroy();
