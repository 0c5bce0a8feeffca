/** Numbers of cows as text, and their order on paper. */
import { describe, expect, test } from 'vitest';
import { byCowNumber, isBarnNumber, officialDigits, withoutLeadingZeros } from '../../shared/cow-number.ts';

describe('barn numbers', () => {
  test.each(['412', '007', '7', 'C-31', 'a', '1234567890'])('%s is one', (text) => {
    expect(isBarnNumber(text)).toBe(true);
  });
  test.each(['', '12345678901', '4 12', '412\n', '4.12', 'é12', '４１２', '412/1', '\u200e412'])(
    '%j is none',
    (text) => {
      expect(isBarnNumber(text)).toBe(false);
    },
  );
  test('a number without its leading zeros keeps at least one sign', () => {
    expect(withoutLeadingZeros('007')).toBe('7');
    expect(withoutLeadingZeros('7')).toBe('7');
    expect(withoutLeadingZeros('700')).toBe('700');
    expect(withoutLeadingZeros('000')).toBe('0');
    expect(withoutLeadingZeros('00C-1')).toBe('C-1');
  });
});

describe('official numbers', () => {
  test('have 15 digits, spaces allowed, and stay text with their leading zero', () => {
    expect(officialDigits('036 0000 0000 0412')).toBe('036000000000412');
    expect(officialDigits('036000000000412')).toBe('036000000000412');
  });
  test.each(['36000000000412', '0360000000004121', '036-000-000-000-412', '03600000000041X', '036000000000412\n', ''])(
    '%j is none',
    (text) => {
      expect(officialDigits(text)).toBeUndefined();
    },
  );
});

describe('order on paper', () => {
  test('cows sort by number as a number, then by text', () => {
    const numbers = ['100', '9', '12', '012', 'C-31', '30', '32', 'bull', '412a', '412'];
    expect([...numbers].sort(byCowNumber)).toEqual([
      '9',
      '012',
      '12',
      '30',
      'C-31',
      '32',
      '100',
      '412',
      '412a',
      'bull',
    ]);
  });
  test('the order does not depend on how the list came', () => {
    const numbers = ['7', '007', '07', 'B7', '70'];
    const sorted = [...numbers].sort(byCowNumber);
    expect([...numbers].reverse().sort(byCowNumber)).toEqual(sorted);
    expect(byCowNumber('7', '7')).toBe(0);
  });
});
