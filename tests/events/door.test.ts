/** What the door refuses, each in a sentence, with the cow that can be read in it. */
import { describe, expect, test } from 'vitest';
import { readLine } from '../../events/door.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { DOOR, said } from './a-book.ts';

const TIME = '"time":"2026-03-14T16:40:00Z"';
const dose = (more: string): string =>
  `{"type":"treatment","subject":"412",${TIME},"data":{"medicine":"Penicillin"${more}}}`;

describe('the door', () => {
  test.each([
    ['an unreadable line', 'milk 412 out', 'not readable JSON', []],
    [
      'an unreadable line that still names a cow',
      '{"type":"treatment","subject":"412","data":{',
      'not readable JSON',
      ['412'],
    ],
    [
      'a key said twice',
      `{"type":"treatment","subject":"412","subject":"413",${TIME},"data":{"medicine":"P"}}`,
      'said twice',
      ['412', '413'],
    ],
    [
      'a number that would be another one',
      dose(',"milkHoldHours":12345678901234567890'),
      'cannot be kept exactly',
      ['412'],
    ],
    ['an unknown field', dose(',"colour":"red"'), '"colour" that is not known', ['412']],
    ['a misspelt field', dose(',"amuont":{"value":1,"unit":"tube"}'), 'did you mean "amount"', ['412']],
    [
      'a missing field',
      `{"type":"treatment","subject":"412",${TIME},"data":{}}`,
      '"data.medicine" is missing',
      ['412'],
    ],
    ['a missing cow', `{"type":"treatment",${TIME},"data":{"medicine":"P"}}`, '"subject" is missing', []],
    [
      'a cow number that is a number',
      `{"type":"treatment","subject":412,${TIME},"data":{"medicine":"P"}}`,
      '"subject"',
      ['412'],
    ],
    [
      'a date that does not exist',
      '{"type":"treatment","subject":"412","time":"2026-02-30T10:00:00Z","data":{"medicine":"P"}}',
      'not a date that exists',
      ['412'],
    ],
    [
      'a time without its zone',
      '{"type":"treatment","subject":"412","time":"2026-03-14T10:00:00","data":{"medicine":"P"}}',
      'which zone',
      ['412'],
    ],
    [
      'a time finer than milliseconds',
      '{"type":"treatment","subject":"412","time":"2026-03-14T10:00:00.1234Z","data":{"medicine":"P"}}',
      'milliseconds',
      ['412'],
    ],
    [
      'a time in the future',
      '{"type":"treatment","subject":"412","time":"2027-03-14T10:00:00Z","data":{"medicine":"P"}}',
      'ahead of this book',
      ['412'],
    ],
    ['negative hours', dose(',"milkHoldHours":-1'), 'must not be negative', ['412']],
    [
      'an empty hold',
      `{"type":"medicine-listed",${TIME},"data":{"name":"P","milkHold":{},"meatDays":3}}`,
      'is empty',
      [],
    ],
    ['an unknown kind', `{"type":"vaccination","subject":"412",${TIME},"data":{}}`, 'not a kind of entry', ['412']],
    ['a kind that the book alone writes', `{"type":"sheet-issued",${TIME},"data":{}}`, 'written by the book alone', []],
    ['a control character', dose(',"reason":"a\\u0007b"'), 'control', ['412']],
    ['a text-direction character', dose(',"reason":"a\\u202eb"'), 'text-direction', ['412']],
    ['a prototype', dose(',"__proto__":{}'), '__proto__', ['412']],
    [
      'what the book adds itself',
      `{"type":"treatment","subject":"412",${TIME},"sequence":"0000000001","data":{"medicine":"P"}}`,
      'the book gives it itself',
      ['412'],
    ],
    ['a list in place of an entry', '[1,2]', 'not an entry', []],
    ['a line far too long', dose(`,"reason":"${'x'.repeat(70_000)}"`), '65536 at most', ['412']],
    [
      'a zone that does not exist',
      `{"type":"farm-set-up",${TIME},"data":${JSON.stringify({ ...KINDS['farm-set-up'].example, timeZone: 'Europe/Dubln' })}}`,
      'not a time zone',
      [],
    ],
    [
      'a milking name that a group does not have',
      `{"type":"farm-set-up",${TIME},"data":${JSON.stringify({ ...KINDS['farm-set-up'].example, groups: [{ name: 'A', kind: 'milking', milkedAt: ['noon'] }] })}}`,
      'not one of the milkings',
      [],
    ],
  ])('R-27 %s is refused in a sentence, and holds the cow that can be read in it', (_, text, sentence, cows) => {
    const arrival = readLine(text, DOOR);
    expect(arrival).toMatchObject({ outcome: 'refused', problem: expect.stringContaining(sentence), cows, text });
  });

  test.each(ENTRY_TYPES.filter((type) => !('bookOnly' in KINDS[type])))('the example of %s passes', (type) => {
    const { example, subject } = KINDS[type];
    const cow = subject === 'cow' || type === 'residue-test' ? { subject: '412' } : {};
    expect(said({ type, ...cow, data: example }).outcome).toBe('passed');
  });

  test('007 and 7 are two numbers, kept as text', () => {
    const subjects = ['007', '7'].map((subject) => {
      const arrival = said({ type: 'milk-hold', subject, data: { reason: 'clots' } });
      return arrival.outcome === 'passed' ? arrival.said.subject : undefined;
    });
    expect(subjects).toEqual(['007', '7']);
  });

  test('five minutes ahead of the clock passes, a moment more does not', () => {
    const at = (time: string) => said({ type: 'milk-hold', subject: '1', time, data: { reason: 'clots' } }).outcome;
    expect([at('2026-03-14T18:05:00Z'), at('2026-03-14T18:05:00.001Z')]).toEqual(['passed', 'refused']);
  });

  test('what is left out of specversion, id, source and author is filled in; the id follows from source and content', () => {
    const twice = [1, 2].map(() => said({ type: 'milk-hold', subject: '1', data: { reason: 'clots' } }));
    const [first, second] = twice.map((arrival) => (arrival.outcome === 'passed' ? arrival.said : undefined));
    expect(first).toEqual(second);
    expect(first).toMatchObject({ specversion: '1.0', source: DOOR.source, author: DOOR.author });
  });
});
