/** A request to the desk, and what every page has at hand to answer it. */
import type { Logger } from 'pino';
import type { Book } from '../../events/book.ts';
import type { Instant } from '../../shared/instant.ts';
import type { Right } from '../devices/roles.ts';
import type { Issuing } from '../server/issuing.ts';
import type { Caller } from '../server/route.ts';
import type { Knowing } from './knowing.ts';
import { SaidProblem } from './say.tsx';

export interface Desk {
  readonly book: Book;
  readonly knowing: Knowing;
  readonly issuing: Issuing;
  /** Print queue that the wall set goes to; without one the browser prints. */
  readonly printer: string | undefined;
  readonly now: () => Instant;
  /** To be called when something was recorded: whoever follows the log is told. */
  readonly recorded: () => void;
}

/** Who asks. */
export interface Visitor {
  readonly caller: Caller;
  readonly person: string;
  /** A fresh name for one saving, to stand in a form. */
  readonly once: () => string;
}

export interface Ask {
  readonly visitor: Visitor;
  readonly url: URL;
  readonly params: Readonly<Record<string, string>>;
  /** What a form sent; empty on a GET. */
  readonly form: Form;
  readonly log: Logger;
}

export interface DeskPage {
  readonly method: 'get' | 'post';
  /** `/cow/:number` */
  readonly path: string;
  readonly right: Right;
  readonly run: (desk: Desk, ask: Ask) => Response | Promise<Response>;
  /** A longer form than others may send, in bytes. */
  readonly mostBytes?: number;
}

/** A form's fields: each may come several times. Values are trimmed; an empty one counts as not given. */
export interface Form {
  readonly one: (name: string) => string | undefined;
  readonly all: (name: string) => readonly string[];
  /** A field or a file just as it came, not trimmed; undefined where it is empty. */
  readonly bytes: (name: string) => Uint8Array | undefined;
  /** Names of the fields that came. */
  readonly names: () => readonly string[];
  /** The saving's name, checked to be of this session. */
  readonly once: string | undefined;
}

const MOST_BYTES = 512 * 1024;

export const formOf = async (
  request: Request,
  readOnce: (once: string) => string | undefined,
  mostBytes = MOST_BYTES,
): Promise<Form> => {
  const type = (request.headers.get('content-type') ?? '').split(';')[0]?.trim().toLowerCase();
  if (type !== 'application/x-www-form-urlencoded' && type !== 'multipart/form-data')
    throw new SaidProblem('wrong-content-type', 'This page takes what its own form sends');
  const length = Number(request.headers.get('content-length') ?? 0);
  if (length > mostBytes) throw new SaidProblem('too-large', 'The form is too long; send less at once');
  const body = await request.arrayBuffer();
  if (body.byteLength > mostBytes) throw new SaidProblem('too-large', 'The form is too long; send less at once');
  const data = await new Response(body, { headers: { 'content-type': request.headers.get('content-type') ?? '' } })
    .formData()
    .catch(() => {
      throw new SaidProblem('not-readable', 'The form cannot be read; go back and send it again');
    });
  const fields = new Map<string, string[]>();
  const raw = new Map<string, Uint8Array>();
  for (const [name, value] of data) {
    const came = typeof value === 'string' ? Buffer.from(value) : new Uint8Array(await value.arrayBuffer());
    if (came.length > 0 && !raw.has(name)) raw.set(name, came);
    const text = typeof value === 'string' ? value.trim() : Buffer.from(came).toString();
    if (text !== '') fields.set(name, [...(fields.get(name) ?? []), text]);
  }
  const once = fields.get('once')?.[0];
  return {
    one: (name) => fields.get(name)?.[0],
    all: (name) => fields.get(name) ?? [],
    bytes: (name) => raw.get(name),
    names: () => [...fields.keys()],
    once: once === undefined ? undefined : readOnce(once),
  };
};

export const NO_FORM: Form = {
  one: () => undefined,
  all: () => [],
  bytes: () => undefined,
  names: () => [],
  once: undefined,
};

/** The name of this saving. A form without one, or with somebody else's, is not taken. */
export const savingOf = (form: Form): string => {
  if (form.once === undefined)
    throw new SaidProblem(
      'foreign-page',
      'This form is not from your own sign-in, so nothing was saved; open it again',
    );
  return form.once;
};
