/** The name of one milking on one date. */
import { describe, expect, test } from 'vitest';
import { parseLocalDay } from '../../shared/local-day.ts';
import { dayOfMilking, milkingId, nameOfMilking, parseMilkingId } from '../../shared/milking-id.ts';
import { mustBe } from '../../shared/refusal.ts';

describe('a milking', () => {
  test('is a date and a name, and gives both back', () => {
    const id = mustBe(parseMilkingId('2026-03-14/afternoon'));
    expect(dayOfMilking(id)).toBe('2026-03-14');
    expect(nameOfMilking(id)).toBe('afternoon');
    expect(milkingId(mustBe(parseLocalDay('2026-03-14')), 'afternoon')).toBe(id);
  });
  test('may have any name that a farm may give, in any letters', () => {
    for (const name of ['early morning', 'après-midi', 'wieczór', '2', 'x'.repeat(80)]) {
      expect(nameOfMilking(mustBe(parseMilkingId(`2026-03-14/${name}`)))).toBe(name);
    }
  });
  test.each([
    'afternoon',
    '2026-03-14',
    '2026-03-14/',
    '/afternoon',
    '2026-02-30/afternoon',
    '14-03-2026/afternoon',
    '2026-03-14/afternoon/again',
    '2026-03-14/after\u0000noon',
    '2026-03-14/after\u202enoon',
    '2026-03-14/after\nnoon',
    `2026-03-14/${'x'.repeat(81)}`,
    '',
  ])('%j is refused with how to write one', (text) => {
    expect(parseMilkingId(text)).toMatchObject({
      ok: false,
      problem: expect.stringContaining('write it like 2026-03-14/afternoon'),
    });
  });
});
