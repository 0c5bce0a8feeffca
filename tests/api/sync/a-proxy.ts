/** What may stand between two books: it passes requests on to a server that can be changed, or does one of many things instead. */
import http from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { onTestFinished } from 'vitest';

export interface Passing {
  readonly method: string;
  readonly path: string;
  readonly headers: http.IncomingHttpHeaders;
  readonly body: Buffer;
}

interface Back {
  readonly status: number;
  readonly headers: Record<string, string>;
  readonly body: Buffer | string;
}

export type Mischief =
  | 'pass'
  /** The request never arrives. */
  | 'lose'
  /** It arrives; the answer does not. */
  | 'lose-answer'
  /** Half of the answer arrives, then the line is dead. */
  | 'cut'
  /** Half of the answer arrives and is said to be all of it. */
  | 'half'
  /** It arrives twice. */
  | 'repeat'
  /** The asker hears nothing; it arrives after the next one has. */
  | 'late'
  | { readonly wait: number }
  | { readonly answer: Back }
  | { readonly change: (text: string, passing: Passing) => string };

export interface AProxy {
  readonly url: string;
  readonly seen: readonly Passing[];
  /** Where requests go from now on. */
  readonly leadTo: (url: string) => void;
  /** What is done to each request from now on; `pass` until told otherwise. */
  readonly play: (mischief: (passing: Passing, index: number) => Mischief) => void;
}

export const aProxy = async (target: string): Promise<AProxy> => {
  let to = target;
  let mischief: (passing: Passing, index: number) => Mischief = () => 'pass';
  const seen: Passing[] = [];
  let waiting: Passing[] = [];

  const forward = async ({ method, path, headers, body }: Passing): Promise<Back> => {
    const { host: _, connection: __, 'content-length': ___, 'transfer-encoding': ____, ...rest } = headers;
    const answer = await fetch(`${to}${path}`, {
      method,
      redirect: 'manual',
      headers: Object.entries(rest).flatMap(([name, value]) => (typeof value === 'string' ? [[name, value]] : [])) as [
        string,
        string,
      ][],
      ...(method === 'POST' ? { body: new Uint8Array(body) } : {}),
    });
    const back = Object.fromEntries(
      [...answer.headers].filter(([name]) => !/^(content-length|transfer-encoding|connection|keep-alive)$/.test(name)),
    );
    return { status: answer.status, headers: back, body: Buffer.from(await answer.arrayBuffer()) };
  };

  const server = http.createServer((request, response) => {
    const work = async (): Promise<void> => {
      const pieces: Buffer[] = [];
      for await (const piece of request) pieces.push(piece as Buffer);
      const passing = {
        method: request.method ?? 'GET',
        path: request.url ?? '/',
        headers: request.headers,
        body: Buffer.concat(pieces),
      };
      const what = mischief(passing, seen.length);
      seen.push(passing);
      const before = waiting;
      waiting = [];
      const answer = (back: Back, send: Buffer | string = back.body): void => {
        response.writeHead(back.status, { ...back.headers, 'content-length': Buffer.byteLength(send) });
        response.end(send);
      };
      const half = (back: Back): Buffer => Buffer.from(back.body).subarray(0, Math.ceil(back.body.length / 2));
      if (what === 'lose') response.destroy();
      else if (what === 'late') {
        waiting = [passing];
        response.destroy();
      } else if (what === 'lose-answer') {
        await forward(passing);
        response.destroy();
      } else if (what === 'cut') {
        const back = await forward(passing);
        response.writeHead(back.status, { ...back.headers, 'content-length': back.body.length });
        response.write(half(back), () => setTimeout(() => response.destroy(), 2));
      } else if (what === 'half') {
        const back = await forward(passing);
        answer(back, half(back));
      } else if (what === 'repeat') {
        await forward(passing);
        answer(await forward(passing));
      } else if (what === 'pass') answer(await forward(passing));
      else if ('wait' in what) {
        await pause(what.wait);
        answer(await forward(passing));
      } else if ('answer' in what) answer(what.answer);
      else {
        const back = await forward(passing);
        answer(back, what.change(back.body.toString(), passing));
      }
      for (const each of before) await forward(each).catch(() => undefined);
    };
    work().catch(() => response.destroy());
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()));
  onTestFinished(async () => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  });
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    seen,
    leadTo: (url) => {
      to = url;
    },
    play: (next) => {
      mischief = next;
    },
  };
};
