/**
 * Every answer that is not what was asked for: RFC 9457 `application/problem+json`, with a sentence that tells the reader
 * what to do. `type` is a name of ours under `/problems/`; the readable page lists them all.
 */
import { BookTrouble, type TroubleKind } from '../../events/log/trouble.ts';
import { UserProblem } from '../../shared/refusal.ts';

/** Name → status and title. The names are part of the protocol and stay. */
export const PROBLEMS = {
  'not-readable': [400, 'The request cannot be read'],
  'not-valid': [400, 'Something in the request is not as it must be'],
  'not-signed-in': [401, 'Say who you are'],
  'not-allowed': [403, 'This device may not do that'],
  'foreign-page': [403, 'Another site sent this'],
  'not-encrypted': [403, 'Not in the open'],
  'not-found': [404, 'There is no such thing here'],
  'wrong-method': [405, 'That is not done this way'],
  'request-too-slow': [408, 'The request took too long'],
  'other-farm': [409, 'That is the book of another farm'],
  'cannot-answer': [409, 'The book cannot answer that'],
  'too-large': [413, 'Too much at once'],
  'wrong-content-type': [415, 'Not a type that is taken here'],
  'wrong-host': [421, 'This server does not answer to that name'],
  'headers-too-large': [431, 'Too long a head of the request'],
  'too-often': [429, 'Too many requests'],
  'locked-out': [429, 'Too many wrong tokens'],
  'went-wrong': [500, 'Something went wrong that the server was not made for'],
  busy: [503, 'The book is in use'],
  'disk-full': [507, 'The disk is full'],
  'disk-trouble': [500, 'The disk or the file of the book gives trouble'],
} as const satisfies Record<string, readonly [number, string]>;

export type ProblemName = keyof typeof PROBLEMS;

export interface ProblemMore {
  /** JSON Pointer (RFC 6901) into what was sent. */
  readonly pointer?: string;
  /** Of a query or path parameter. */
  readonly parameter?: string;
  readonly retryAfter?: number;
  readonly allow?: string;
  readonly [more: string]: unknown;
}

/** Thrown where a request ends in a problem; the class is only for the way out. */
export class RequestProblem extends Error {
  readonly problem: ProblemName;
  readonly more: ProblemMore;
  constructor(problem: ProblemName, detail: string, more: ProblemMore = {}) {
    super(detail);
    this.name = 'RequestProblem';
    this.problem = problem;
    this.more = more;
  }
}

export const problemResponse = (
  { problem, message, more }: RequestProblem,
  requestId: string,
  headers: Record<string, string> = {},
): Response => {
  const [status, title] = PROBLEMS[problem];
  const { retryAfter, allow, ...members } = more;
  const body = { type: `/problems/${problem}`, title, status, detail: message, ...members, requestId };
  return new Response(JSON.stringify(body), {
    status,
    headers: {
      'content-type': 'application/problem+json',
      ...(retryAfter === undefined ? {} : { 'retry-after': String(retryAfter) }),
      ...(allow === undefined ? {} : { allow }),
      ...(status === 401 ? { 'www-authenticate': 'Bearer realm="byrebook"' } : {}),
      ...headers,
    },
  });
};

const OF_TROUBLE: Readonly<Record<TroubleKind, ProblemName>> = {
  busy: 'busy',
  full: 'disk-full',
  damaged: 'disk-trouble',
  'not-writable': 'disk-trouble',
};

/** Whatever was thrown, as a problem. Only the book's own sentences are shown; of anything else nothing but that it happened. */
export const asProblem = (thrown: unknown): RequestProblem => {
  if (thrown instanceof RequestProblem) return thrown;
  if (thrown instanceof BookTrouble) {
    const name = OF_TROUBLE[thrown.kind];
    return new RequestProblem(name, withoutPath(thrown.message), name === 'busy' ? { retryAfter: 1 } : {});
  }
  if (thrown instanceof UserProblem) {
    return new RequestProblem(thrown.exitCode === 2 ? 'not-found' : 'cannot-answer', withoutPath(thrown.message));
  }
  return new RequestProblem('went-wrong', 'What was acknowledged is safe. Tell whoever runs the server the request id');
};

/** Where the book lies is nobody's business outside. */
const withoutPath = (sentence: string): string => sentence.replace(/(the book|The book) (\/|[A-Za-z]:\\)\S+/g, '$1');
