/**
 * Which names the server answers to, and which pages may make a browser write to it. Checked on loopback too: a page in
 * the office computer's browser reaches 127.0.0.1 as easily as we do, under a name of its own (DNS rebinding).
 */
import { RequestProblem } from './problem.ts';

const LOOPBACK = ['localhost', '127.0.0.1', '[::1]'];

export interface Reach {
  /** Throws where the Host header or the Origin is not ours. */
  readonly check: (request: Request) => void;
}

/** `names`: what the server may be called beside loopback, with or without a port. */
export const reachOf = (names: readonly string[]): Reach => {
  const allowed = new Set([...LOOPBACK, ...names].map((name) => name.toLowerCase()));
  const isOurs = (host: string): boolean => allowed.has(host) || allowed.has(host.replace(/:\d{1,5}$/, ''));
  return {
    check: (request) => {
      const host = (request.headers.get('host') ?? '').toLowerCase();
      if (!isOurs(host)) {
        throw new RequestProblem(
          'wrong-host',
          'Ask under the name the server was started with; --host NAME adds one for names of your own network',
        );
      }
      if (request.method === 'GET' || request.method === 'HEAD') return;
      const origin = request.headers.get('origin');
      const site = request.headers.get('sec-fetch-site');
      const foreignOrigin = origin !== null && hostOfOrigin(origin) !== host;
      if (foreignOrigin || site === 'cross-site' || site === 'same-site') {
        throw new RequestProblem('foreign-page', 'A page of another site tried to write here; nothing was taken');
      }
    },
  };
};

const hostOfOrigin = (origin: string): string | undefined => {
  try {
    return new URL(origin).host.toLowerCase();
  } catch {
    return undefined;
  }
};
