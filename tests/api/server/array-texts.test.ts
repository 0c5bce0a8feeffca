/** A pushed array is parted into the very texts that its entries were written in. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arrayTexts } from '../../../api/server/array-texts.ts';

test('the texts are those of the values, however they are written', () => {
  fc.assert(
    fc.property(fc.array(fc.jsonValue()), fc.constantFrom(undefined, 1, '\t'), (values, indent) => {
      const texts = arrayTexts(JSON.stringify(values, null, indent));
      expect(texts.map((text) => JSON.parse(text))).toEqual(values);
    }),
    { numRuns: 1_000, seed: 20260314 },
  );
});

test.each([
  ['[]', []],
  [' [ ] ', []],
  ['[1]', ['1']],
  [' [ {"a":1.50, "b":[1,2]} , "x,]\\"[" ,null]\n', ['{"a":1.50, "b":[1,2]}', '"x,]\\"["', 'null']],
  ['["\\\\",{"a":"}"}]', ['"\\\\"', '{"a":"}"}']],
])('%s', (text, texts) => {
  expect(arrayTexts(text)).toEqual(texts);
});
