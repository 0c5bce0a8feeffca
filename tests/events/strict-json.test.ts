/** JSON that would come out of a parser as something else than was written is refused with a sentence. */
import { describe, expect, test } from 'vitest';
import { parseStrictJson } from '../../events/strict-json.ts';

const problemOf = (text: string): string => {
  const result = parseStrictJson(text);
  return result.ok ? 'accepted' : result.problem;
};

describe('what is refused', () => {
  test.each([
    ['a key said twice', '{"cow":"412","cow":"413"}', '"cow" is said twice'],
    ['a key said twice with one value', '{"cow":"412","cow":"412"}', 'said twice'],
    ['a key said twice, once with an escape', '{"cow":"412","\\u0063ow":"412"}', 'said twice'],
    ['a key said twice deep inside', '{"a":[{"b":{"c":1,"c":1}}]}', 'said twice'],
    ['a number too long to keep', '{"n":12345678901234567890}', '12345678901234567890 cannot be kept exactly'],
    ['a fraction too fine to keep', '{"n":0.12345678901234567890123}', 'cannot be kept exactly'],
    ['a number beyond all bounds', '{"n":1e400}', 'cannot be kept exactly'],
    ['a number too small to keep', '{"n":1e-400}', 'cannot be kept exactly'],
    ['a field that would vanish', '{"__proto__":{"a":1}}', '"__proto__"'],
    ['a field that would vanish, in escapes', '{"\\u005f_proto__":{"a":1}}', '"__proto__"'],
    ['a field that would vanish, deep inside', '{"a":[{"\\u005f\\u005fproto__":1}]}', '"__proto__"'],
    ['endless nesting', '['.repeat(100_000), 'nested too deeply'],
    ['deep nesting', `${'['.repeat(300)}${']'.repeat(300)}`, 'nested too deeply'],
    ['half an object', '{"cow":"412"', 'not readable JSON'],
    ['two values', '{} {}', 'not readable JSON'],
    ['nothing', '', 'not readable JSON'],
    ['a comma too many', '{"a":1,}', 'not readable JSON'],
    ['single quotes', "{'a':1}", 'not readable JSON'],
    ['a number with a leading zero', '{"n":007}', 'not readable JSON'],
    ['not-a-number', '{"n":NaN}', 'not readable JSON'],
  ])('%s', (_, text, problem) => {
    expect(problemOf(text)).toContain(problem);
  });
});

describe('what is accepted comes out as JSON has it', () => {
  test.each([
    '{"a":"__proto__"}',
    '{"a":"\\":","b":"c\\\\"}',
    '{"a":{"a":{"a":1}},"b":[{"a":1},{"a":1}]}',
    '{"constructor":1,"toString":2}',
    '[0, -0, 1.5, 1e3, 0.1, 9007199254740991, 1e-7]',
    '"Łódź 🐄"',
    'null',
    ' { "a" : [ ] } ',
  ])('%s', (text) => {
    expect(parseStrictJson(text)).toEqual({ ok: true, value: JSON.parse(text) });
  });
});
