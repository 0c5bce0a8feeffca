/**
 * Official numbers of animals. Sources beside each: ISO 11784 (the electronic code's 38 bits) and ISO 3166 (numeric
 * country codes); the United Kingdom's rule for the check digit on printed cattle tags. Which codes belong to makers
 * of tags (900 and up) is from memory.
 */
import { describe, expect, test } from 'vitest';
import {
  fitsElectronicTag,
  parseOfficialNumber,
  parseUkPrintedTag,
  ukCheckDigit,
} from '../../shared/official-number.ts';
import { mustBe } from '../../shared/refusal.ts';

const number = (text: string) => mustBe(parseOfficialNumber(text));

describe('ISO 3166 and ISO 11784: the 15 digits', () => {
  test('they are a code of three and an animal of twelve, and a leading zero stays', () => {
    expect(number('036000000000412')).toEqual({ code: '036', issuer: 'country', animal: '000000000412' });
    expect(number('372 2110 0000 4127')).toEqual({ code: '372', issuer: 'country', animal: '211000004127' });
  });
  test('a code from 900 on is a maker of tags, from memory', () => {
    expect(number('985000000000412').issuer).toBe('maker');
    expect(number('900000000000412').issuer).toBe('maker');
    expect(number('894000000000412').issuer).toBe('country');
  });
  test('ISO 11784: an electronic tag holds 38 bits, so 274,877,906,943 fits and the next does not', () => {
    expect(2 ** 38 - 1).toBe(274_877_906_943);
    expect(fitsElectronicTag(number('826274877906943'))).toBe(true);
    expect(fitsElectronicTag(number('826274877906944'))).toBe(false);
  });
  test('a printed tag past the electronic limit is a good official number all the same', () => {
    expect(number('826284205700016')).toEqual({ code: '826', issuer: 'country', animal: '284205700016' });
    expect(fitsElectronicTag(number('826284205700016'))).toBe(false);
  });
  test.each(['82612345060000', '8261234506000011', '82612345060000A', '', '826-123450-600001'])(
    'what is not 15 digits is refused with what to write: "%s"',
    (text) => {
      expect(parseOfficialNumber(text)).toMatchObject({ ok: false, problem: expect.stringContaining('15 digits') });
    },
  );
});

describe('United Kingdom: the check digit on a printed cattle tag', () => {
  test.each(['UK 123450 600001', 'UK 284205 700016', 'UK123450600001'])('%s passes', (text) => {
    expect(parseUkPrintedTag(text)).toMatchObject({ ok: true });
  });
  test('UK 123456 600001 fails, and the sentence names the digit that was expected', () => {
    const wanted = ukCheckDigit({ herd: '123456', animal: '00001' });
    expect(wanted).not.toBe(6);
    expect(parseUkPrintedTag('UK 123456 600001')).toMatchObject({
      ok: false,
      problem: expect.stringContaining(`check digit 6 where ${wanted} was expected`),
    });
  });
  test('any one wrong digit of a good tag is noticed, but for one seven away from the right one', () => {
    const good = '123450600001';
    for (let place = 0; place < good.length; place += 1) {
      for (let digit = 0; digit <= 9; digit += 1) {
        if (good[place] === String(digit)) continue;
        const bad = `UK ${good.slice(0, place)}${digit}${good.slice(place + 1)}`;
        const same = Math.abs(Number(good[place]) - digit) === 7 && place !== 6;
        expect(parseUkPrintedTag(bad).ok, bad).toBe(same);
      }
    }
  });
  test.each(['UK 123450 800001', 'UK 12345 600001', 'IE 123450 600001', 'UK 123450 60001'])(
    'what is not such a tag is refused with how to write one: "%s"',
    (text) => {
      expect(parseUkPrintedTag(text)).toMatchObject({
        ok: false,
        problem: expect.stringContaining('UK 123450 600001'),
      });
    },
  );
});
