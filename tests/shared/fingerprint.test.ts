/** Hashes and canonical JSON. The published vectors are in tests/published/bytes.test.ts. */
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';

describe('SHA-256', () => {
  test('of text is that of its UTF-8 bytes, in lower-case hex', () => {
    for (const text of ['', 'abc', 'Łódź 🐄', 'x'.repeat(100_000)]) {
      expect(sha256(text)).toBe(sha256(new TextEncoder().encode(text)));
      expect(sha256(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
      expect(sha256(text)).toMatch(/^[0-9a-f]{64}$/);
    }
  });
});

describe('canonical JSON', () => {
  test('has one text however the fields were ordered', () => {
    expect(canonicalJson({ b: [1, { d: null, c: true }], a: 'x' })).toBe('{"a":"x","b":[1,{"c":true,"d":null}]}');
    expect(canonicalJson({ a: 1, b: 2 })).toBe(canonicalJson({ b: 2, a: 1 }));
  });
  test('keeps the order of lists', () => {
    expect(canonicalJson([2, 1])).not.toBe(canonicalJson([1, 2]));
  });
  test('leaves out what is undefined, as JSON does', () => {
    expect(canonicalJson({ a: undefined, b: 1 })).toBe('{"b":1}');
  });
  test.each([
    ['NaN', Number.NaN],
    ['infinity', Number.POSITIVE_INFINITY],
    ['nothing at all', undefined],
    ['a lone surrogate', '\ud800'],
    ['a lone surrogate in a name', { '\udc00': 1 }],
  ])('%s has none, and is not written as something else', (_, value) => {
    expect(() => canonicalJson(value)).toThrow();
  });
});
