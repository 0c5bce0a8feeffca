/**
 * One address of the server, declared once: who may ask, what comes in, what goes out. The same declaration routes the
 * request, checks its parameters, and is written into the OpenAPI document, so the three cannot differ.
 */
import type { Logger } from 'pino';
import { z } from 'zod';
import type { Device } from '../../events/book.ts';
import type { Right, Role } from '../devices/roles.ts';
import { RequestProblem } from './problem.ts';

export type Caller = Omit<Device, 'role'> & { readonly role: Role };

/** A request that was let in. */
export interface Ask<Params, Query> {
  readonly request: Request;
  readonly params: Params;
  readonly query: Query;
  /** Who asks; a route without a right may have nobody. */
  readonly caller: Caller;
  readonly requestId: string;
  readonly log: Logger;
  /** The device again as it stands now: undefined once it is revoked. */
  readonly still: () => boolean;
}

export interface Answer {
  readonly says: string;
  readonly type: string;
  readonly schema?: z.ZodType;
}

interface Described {
  readonly method: 'get' | 'post';
  /** In the OpenAPI form: `/cows/{number}`. */
  readonly path: string;
  /** One sentence. */
  readonly summary: string;
  /** Null where anybody may ask. */
  readonly right: Right | null;
  readonly body?: { readonly types: readonly string[]; readonly schema: z.ZodType };
  readonly answers: Readonly<Record<number, Answer>>;
  /** Request headers that have a meaning here. */
  readonly headers?: Readonly<Record<string, string>>;
}

export interface Route extends Described {
  readonly params: z.ZodObject;
  readonly query: z.ZodObject;
  readonly run: (ask: Ask<Record<string, unknown>, Record<string, unknown>>) => Response | Promise<Response>;
}

/** Declares a route; the parameters reach `run` parsed. */
export const route = <P extends z.ZodObject, Q extends z.ZodObject>(
  described: Described & {
    readonly params: P;
    readonly query: Q;
    readonly run: (ask: Ask<z.infer<P>, z.infer<Q>>) => Response | Promise<Response>;
  },
): Route => ({
  ...described,
  run: (ask) =>
    described.run({
      ...ask,
      params: parsed(described.params, ask.params),
      query: parsed(described.query, ask.query),
    }),
});

export const NONE = z.strictObject({});

const parsed = <T extends z.ZodType>(schema: T, value: unknown): z.infer<T> => {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  const key = issue?.code === 'unrecognized_keys' ? issue.keys[0] : issue?.path[0];
  const why = issue?.code === 'unrecognized_keys' ? 'is not a parameter here' : (issue?.message ?? 'is not valid');
  throw new RequestProblem('not-valid', `"${String(key ?? '')}" ${why}`, { parameter: String(key ?? '') });
};

export const json = (value: unknown, status = 200, headers: Record<string, string> = {}): Response =>
  new Response(JSON.stringify(value), { status, headers: { 'content-type': 'application/json', ...headers } });

/** A whole number in a query. */
export const wholeNumber = (most: number) =>
  z
    .string()
    .regex(/^\d{1,15}$/, `must be a whole number up to ${most}`)
    .transform(Number)
    .refine((value) => value <= most, `must be a whole number up to ${most}`);
