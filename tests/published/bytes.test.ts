/**
 * Bytes against published values: RFC 8785 (canonical JSON), FIPS 180-4 (SHA-256, with NIST's example messages),
 * RFC 9562 (UUID version 7), and a stored entry against the rules of the CloudEvents 1.0 JSON format.
 */
import { Ajv } from 'ajv';
import formats from 'ajv-formats';
import { v5, v7 } from 'uuid';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../events/kinds.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { newBook, passed } from '../events/a-book.ts';

describe('canonical JSON', () => {
  test('writes the sample object of RFC 8785 section 3.2.2 as the bytes of section 3.2.4', () => {
    const sample = String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`;
    const bytes = `7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72 75 65 2c 66 61 6c 73 65 5d 2c
      22 6e 75 6d 62 65 72 73 22 3a 5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31 65 2b 33 30 2c 34 2e 35
      2c 30 2e 30 30 32 2c 31 65 2d 32 37 5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30 30 66 5c 6e 41 27
      42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d`;
    expect(Buffer.from(canonicalJson(JSON.parse(sample))).toString('hex')).toBe(bytes.replace(/\s/g, ''));
  });

  test('sorts the names of RFC 8785 section 3.2.3 by their UTF-16 code units', () => {
    const sample = String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
    }`;
    expect(canonicalJson(JSON.parse(sample))).toBe(
      `{"\\r":"Carriage Return","1":"One","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis","\u20ac":"Euro Sign","\u{1f600}":"Emoji: Grinning Face","\ufb33":"Hebrew Letter Dalet With Dagesh"}`,
    );
  });

  test.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('writes the double %s of RFC 8785 appendix B as %s', (bits, text) => {
    expect(canonicalJson(Buffer.from(bits, 'hex').readDoubleBE())).toBe(text);
  });

  test.each(['7fffffffffffffff', '7ff0000000000000'])('refuses the double %s of RFC 8785 appendix B', (bits) => {
    expect(() => canonicalJson(Buffer.from(bits, 'hex').readDoubleBE())).toThrow();
  });
});

describe('SHA-256 of FIPS 180-4', () => {
  test.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    [
      'abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu',
      'cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1',
    ],
    ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
  ])('of NIST message %# is the published digest, as text and as bytes', (message, digest) => {
    expect(sha256(message)).toBe(digest);
    expect(sha256(Buffer.from(message))).toBe(digest);
  });
});

describe('UUIDs', () => {
  test('version 7 is laid out as the example of RFC 9562 appendix A.6', () => {
    // The 32 bits behind the version, less the variant's two: rand_a 0xCC3, then 0x18, 0xC4 and six bits of 0xDC.
    const seq = ((0xc << 28) | (0xc3 << 20) | (0x18 << 14) | (0xc4 << 6) | (0xdc >> 2)) >>> 0;
    const random = Uint8Array.from([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    expect(v7({ msecs: 0x017f22e279b0, seq, random })).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  });

  test('version 5 of a name in the DNS space is the example of RFC 9562 appendix A.4', () => {
    expect(v5('www.example.com', v5.DNS)).toBe('2ed6657d-e927-568b-95e1-2665a8aea6a2');
  });
});

describe('a stored entry', () => {
  /**
   * What the CloudEvents 1.0 JSON format asks: its published schema's required members and their forms, and the
   * specification's rule for the names and values of extension attributes (1 to 20 lower-case letters and digits).
   */
  const cloudEvent = {
    type: 'object',
    required: ['id', 'source', 'specversion', 'type'],
    properties: {
      id: { type: 'string', minLength: 1 },
      source: { type: 'string', format: 'uri-reference', minLength: 1 },
      specversion: { const: '1.0' },
      type: { type: 'string', minLength: 1 },
      subject: { type: 'string', minLength: 1 },
      time: { type: 'string', format: 'date-time' },
      datacontenttype: { type: 'string', minLength: 1 },
      dataschema: { type: 'string', format: 'uri', minLength: 1 },
      data: {},
      data_base64: { type: 'string', contentEncoding: 'base64' },
    },
    propertyNames: { pattern: '^([a-z0-9]{1,20}|data_base64)$' },
    additionalProperties: { type: ['string', 'integer', 'boolean'] },
  };
  const ajv = new Ajv({ strict: false });
  formats.default(ajv);
  const valid = ajv.compile(cloudEvent);

  test('of every kind is a CloudEvent of version 1.0', () => {
    const book = newBook();
    const examples = Object.values(KINDS)
      .filter((kind) => !('bookOnly' in kind))
      .map(({ type, subject, example }) =>
        passed({
          type,
          data: example,
          ...(subject === 'cow' || type === 'residue-test' ? { subject: '412' } : {}),
        }),
      );
    book.record(examples, 'laptop');
    book.recordOwn('sheet-issued', { ...KINDS['sheet-issued'].example, sheets: [] });
    const rows = book.rows(0, 1_000);
    expect(rows.length).toBe(examples.length + 1);
    for (const { entry } of rows) expect([valid(JSON.parse(entry)), valid.errors]).toEqual([true, null]);
  });

  test('that broke the format would be seen', () => {
    expect(valid({ id: '1', source: 'office', specversion: '1.0', type: 'calving', recorded_time: 'x' })).toBe(false);
    expect(valid({ id: '1', source: 'office', specversion: '0.3', type: 'calving' })).toBe(false);
    expect(valid({ source: 'office', specversion: '1.0', type: 'calving' })).toBe(false);
  });
});
