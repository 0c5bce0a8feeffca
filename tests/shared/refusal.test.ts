/** Refusals as answers, faults as errors. */
import { describe, expect, test } from 'vitest';
import { accepted, assertNever, mustBe, refused, UserProblem } from '../../shared/refusal.ts';

describe('a refusal', () => {
  test('is an answer with a sentence, and with a pointer only where one was given', () => {
    expect(refused('"time" is missing')).toEqual({ ok: false, problem: '"time" is missing' });
    expect(refused('is too long', '/data/reason')).toEqual({
      ok: false,
      problem: 'is too long',
      pointer: '/data/reason',
    });
  });
  test('taken for granted to be good, it is a fault of the program', () => {
    expect(mustBe(accepted(412))).toBe(412);
    expect(() => mustBe(refused('not a date'))).toThrow('not a date');
  });
  test('a forgotten member of a closed set stops the program by name', () => {
    expect(() => assertNever('sorted' as never)).toThrow('"sorted"');
  });
  test('a problem of the user carries the exit code, 1 when nothing else is said', () => {
    expect(new UserProblem('the book is locked').exitCode).toBe(1);
    expect(new UserProblem('there is no such command', 2).exitCode).toBe(2);
  });
});
