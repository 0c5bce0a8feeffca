/**
 * What went wrong on the way to the other book, in a sentence, and whether asking again may help. What comes from the
 * network is shown only as plain words: no control characters, no more than a few lines.
 */
import { z } from 'zod';
import { UserProblem } from '../../shared/refusal.ts';

export interface HitchMore {
  /** True where the same request may do better later. */
  readonly again?: boolean;
  /** Seconds that the other side asks to wait. */
  readonly wait?: number | undefined;
  readonly status?: number | undefined;
  /** The name of the problem, where a server of ours said it. */
  readonly problem?: string | undefined;
}

export class Hitch extends UserProblem {
  readonly again: boolean;
  readonly wait: number | undefined;
  readonly status: number | undefined;
  readonly problem: string | undefined;
  constructor(sentence: string, { again = false, wait, status, problem }: HitchMore = {}) {
    super(sentence);
    this.name = 'Hitch';
    this.again = again;
    this.wait = wait;
    this.status = status;
    this.problem = problem;
  }
}

const problemDocument = z.looseObject({ type: z.string(), detail: z.string() });

/** An answer that is not the one asked for. */
export const hitchOf = (address: string, answer: Response, body: string): Hitch => {
  const { status } = answer;
  if (status >= 300 && status < 400) {
    const to = plain(answer.headers.get('location') ?? 'somewhere else');
    return new Hitch(
      `${address} sends on to ${to}, and a token is not sent on; if that is right, sync with that address`,
      {
        status,
      },
    );
  }
  const isProblem = answer.headers.get('content-type')?.startsWith('application/problem+json') ?? false;
  const problem = isProblem ? problemDocument.safeParse(parsed(body)).data : undefined;
  if (isProblem && problem === undefined)
    return new Hitch(`An answer of ${address} came damaged`, { again: true, status });
  const name = problem?.type.split('/').at(-1);
  const says = problem === undefined ? '' : `: ${plain(problem.detail)}`;
  const wait = waitSaid(answer.headers.get('retry-after'));
  const more = { status, wait, problem: name };
  if (status === 401) return new Hitch(`${address} does not take this token${says}`, more);
  if (status === 403) {
    return new Hitch(`${address} does not let this token sync${says}. It needs a token made with --role book`, more);
  }
  if (name === 'locked-out') return new Hitch(`${address} has locked this computer out${says}. Check the token`, more);
  if (status === 507) {
    return new Hitch(`The disk of the other book is full${says}. Free some space there, then sync again`, more);
  }
  if (problem === undefined && status < 500) {
    return new Hitch(
      `${address} answers ${status} and is no server of a book; check the address and what stands before it`,
      more,
    );
  }
  const passing = [408, 429, 502, 503, 504].includes(status) || name === 'not-readable';
  return new Hitch(`${address} answers ${status}${says === '' ? ' and does not say why' : says}`, {
    ...more,
    again: passing,
  });
};

/** What `fetch` threw. Certificates, names that don't exist and the like do not mend themselves. */
export const hitchOfNetwork = (address: string, thrown: unknown): Hitch => {
  const code = codeOf(thrown);
  if (code === 'ECONNREFUSED') {
    return new Hitch(`Nothing listens at ${address}: see that serve is running there, and the port`, { again: true });
  }
  if (code === 'ENOTFOUND' || code === 'EAI_AGAIN') {
    return new Hitch(`No computer of that name is found from here: ${address}. Check the address and the network`, {
      again: code === 'EAI_AGAIN',
    });
  }
  if (code === 'bad port') {
    return new Hitch(`The port in ${address} is one that is never used for this; check the address`);
  }
  if (/CERT|SELF_SIGNED|UNABLE_TO_|ERR_TLS/.test(code)) {
    return new Hitch(
      `The certificate of ${address} is not one that this computer trusts (${plain(code)}). If it is the farm's own, name its file in NODE_EXTRA_CA_CERTS`,
    );
  }
  if (code === 'ERR_SSL_WRONG_VERSION_NUMBER' || code === 'EPROTO') {
    return new Hitch(`${address} does not speak https; check the port`);
  }
  return new Hitch(`The connection to ${address} broke off (${plain(code)})`, { again: true });
};

/** The text without what a terminal would obey, and not endless. */
export const plain = (text: string): string =>
  text
    .replace(/[\p{Cc}\p{Cf}\s]+/gu, ' ')
    .trim()
    .slice(0, 400);

const codeOf = (thrown: unknown): string => {
  let last = 'no reason given';
  for (let each = thrown, depth = 0; each instanceof Error && depth < 5; each = each.cause, depth += 1) {
    if ('code' in each && typeof each.code === 'string') return each.code;
    last = each.message;
  }
  return last;
};

/** Seconds; a date, which is allowed too, is not used by any book and counts as nothing said. */
const waitSaid = (header: string | null): number | undefined =>
  header !== null && /^\d{1,6}$/.test(header.trim()) ? Number(header) : undefined;

const parsed = (body: string): unknown => {
  try {
    return JSON.parse(body);
  } catch {
    return undefined;
  }
};
