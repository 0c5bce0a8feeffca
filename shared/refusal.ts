/**
 * A refusal is an answer, not a failure: a named value with a sentence that tells the reader
 * what is wrong, where, and what to do. Failures of the machine are Errors.
 */
export interface Refusal {
  readonly ok: false;
  /** One plain sentence: what is wrong, where, what to do. */
  readonly problem: string;
  /** JSON Pointer (RFC 6901) to the field at fault, where there is one. */
  readonly pointer?: string;
}

export type Result<T> = { readonly ok: true; readonly value: T } | Refusal;

export const accepted = <T>(value: T): Result<T> => ({ ok: true, value });

export const refused = (problem: string, pointer?: string): Refusal =>
  pointer === undefined ? { ok: false, problem } : { ok: false, problem, pointer };

/** Unwraps a result that the caller knows to be good; a refusal here is a fault of the program. */
export const mustBe = <T>(result: Result<T>): T => {
  if (result.ok) return result.value;
  throw new Error(result.problem);
};

/** Ends a switch over a closed set: reached only when a member was added and a place forgotten. */
export const assertNever = (value: never): never => {
  throw new Error(`Not provided for: ${JSON.stringify(value)}`);
};

/** A sentence meant for the user, thrown where a return value cannot reach; shown without a stack trace. */
export class UserProblem extends Error {
  /** Exit code of the command line: 1 refused or does not verify, 2 wrong usage. */
  readonly exitCode: 1 | 2;
  constructor(sentence: string, exitCode: 1 | 2 = 1) {
    super(sentence);
    this.name = 'UserProblem';
    this.exitCode = exitCode;
  }
}
