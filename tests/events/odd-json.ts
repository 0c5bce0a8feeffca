/** JSON at its oddest, drawn by dice: words, numbers, values, texts of entries, and what a few changed characters make of them. */
import fc from 'fast-check';
import { canonicalJson } from '../../shared/fingerprint.ts';

/** Words that are easy to write otherwise than they are read. */
export const WORD = fc.oneof(
  fc.constantFrom(
    '',
    'entry',
    'id',
    'a',
    'B',
    'é',
    '🐄',
    '\ud800',
    '\\ud800',
    '"',
    '\\',
    '\u2028',
    '\u007f',
    '\n',
    '10',
    '9',
  ),
  fc.string({ maxLength: 4, unit: 'binary' }),
);
const NUMBER = fc.oneof(
  fc.constantFrom(0, -0, 1, -1, 12.4, 0.000001, 1e-7, 1e21, 123456789012345, 9007199254740992, 0.1 + 0.2, 1e300),
  fc.integer(),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
);
export const JSON_VALUE = fc.letrec<{ value: unknown }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 4, depthSize: 'small' },
    WORD,
    NUMBER,
    fc.constantFrom(true, false, null),
    fc.array(tie('value'), { maxLength: 3 }),
    fc.dictionary(WORD, tie('value'), { maxKeys: 4 }),
  ),
})).value;

/** A text as somebody might have it: canonical or not, and then perhaps with a few characters changed. */
export const spoilt = (text: fc.Arbitrary<string>): fc.Arbitrary<string> =>
  fc
    .tuple(
      text,
      fc.array(fc.tuple(fc.nat(), fc.constantFrom(...'"\\{}[],:0159.-eE abd\u00e9')), { maxLength: 2 }),
      fc.boolean(),
    )
    .map(([whole, changes, isSpoilt]) => {
      let spoiltText = whole;
      for (const [place, letter] of isSpoilt ? changes : []) {
        const offset = place % (spoiltText.length + 1);
        spoiltText = spoiltText.slice(0, offset) + letter + spoiltText.slice(offset + (place % 2));
      }
      return spoiltText;
    });

export const orThrown = (work: () => unknown): unknown => {
  try {
    return work();
  } catch {
    return 'thrown';
  }
};

const mostly = (plain: readonly unknown[], odd: fc.Arbitrary<unknown>) =>
  fc.oneof({ weight: 12, arbitrary: fc.constantFrom(...plain) }, { weight: 1, arbitrary: odd });
const words = mostly(['office', 'x-1', 'Łucja', '0000000412', '2026-03-14T16:40:00Z', ''], WORD);
const data = mostly(
  [
    { entry: 'a', reason: 'b' },
    { entry: 3 },
    { a: 1, entry: 'b' },
    { kg: 12.4, list: [1, { b: [], c: {} }], n: -0.5 },
    'none',
  ],
  JSON_VALUE,
);

/** Canonical texts that look like stored entries, and some that hardly do. */
export const STORED = fc
  .record(
    {
      author: words,
      data,
      id: words,
      recordedtime: words,
      sequence: words,
      source: words,
      subject: mostly(['412', '999 0 1'], JSON_VALUE),
      time: words,
      type: mostly(['entry-struck', 'treatment'], WORD),
      via: words,
      zebra: mostly([null, true, 0], JSON_VALUE),
    },
    { requiredKeys: ['id', 'type'] },
  )
  .map((value) => orThrown(() => canonicalJson(value)))
  .filter((text): text is string => text !== 'thrown');
