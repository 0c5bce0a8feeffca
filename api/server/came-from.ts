/**
 * Where a request came from: the connection's own address, or what a proxy that was named says. Nobody else's word is
 * taken, and where the TLS is the proxy's, nobody else is let in over the network: their tokens would travel in the open.
 */
import net from 'node:net';
import type { HttpBindings } from '@hono/node-server';
import { UserProblem } from '../../shared/refusal.ts';

export interface CameFrom {
  readonly addressOf: (request: Request, env: unknown) => string;
  /** Whether the connection is the proxy's, or of this computer. */
  readonly isInside: (env: unknown) => boolean;
}

/** Throws a `UserProblem` where the proxy is not an address. */
export const cameFrom = (proxy: string | undefined): CameFrom => {
  if (proxy !== undefined && net.isIP(proxy) === 0) {
    throw new UserProblem(`--proxy: "${proxy}" is not an address; give the proxy's own, such as 192.168.1.2`, 2);
  }
  const proxies = new net.BlockList();
  if (proxy !== undefined) proxies.addAddress(proxy, familyOf(proxy));
  const isProxy = (address: string): boolean =>
    proxy !== undefined && net.isIP(address) !== 0 && proxies.check(address, familyOf(address));
  return {
    addressOf: (request, env) => {
      const remote = remoteOf(env);
      if (!isProxy(remote)) return remote;
      // The last one is what our proxy saw; those before it are hearsay.
      return bare(request.headers.get('x-forwarded-for')?.split(',').at(-1)?.trim() ?? '') ?? remote;
    },
    isInside: (env) => {
      const remote = remoteOf(env);
      return isProxy(remote) || remote === '::1' || remote.startsWith('127.');
    },
  };
};

const remoteOf = (env: unknown): string =>
  ((env as Partial<HttpBindings> | undefined)?.incoming?.socket.remoteAddress ?? 'unknown').replace(/^::ffff:/, '');

const familyOf = (address: string): 'ipv4' | 'ipv6' => (net.isIPv6(address) ? 'ipv6' : 'ipv4');

/** An address as a proxy may write it, with or without its port; undefined where it is none. */
const bare = (said: string): string | undefined => {
  const [, bracketed, plain] = /^(?:\[([^\]]+)\]|([\d.]+))(?::\d{1,5})?$/.exec(said) ?? [];
  const address = bracketed ?? plain ?? said;
  return net.isIP(address) === 0 ? undefined : address;
};
