/**
 * The bytes of a herd list as text. UTF-8 and UTF-16 say so by their marks or by being well-formed; what is not
 * UTF-8 is read as Windows-1252, and that is said. A workbook, a PDF or any other binary file is named, not read.
 */
import { accepted, type Result, refused } from '../../shared/refusal.ts';

export interface Decoded {
  /** Line ends are all `\n`; the byte order mark is gone. */
  readonly text: string;
  readonly notes: readonly string[];
}

const SAVE_AS = 'save the list as CSV and import that file';
const MARKS: readonly { readonly bytes: readonly number[]; readonly what: string }[] = [
  { bytes: [0x50, 0x4b, 0x03, 0x04], what: 'a workbook or a zip file' },
  { bytes: [0xd0, 0xcf, 0x11, 0xe0], what: 'an old workbook' },
  { bytes: [0x25, 0x50, 0x44, 0x46], what: 'a PDF' },
  { bytes: [0x1f, 0x8b], what: 'a compressed file' },
];

const startsWith = (bytes: Uint8Array, mark: readonly number[]): boolean =>
  mark.every((byte, index) => bytes[index] === byte);

/** Refuses what is not text, with a sentence that says what to do. */
export const decodeList = (bytes: Uint8Array): Result<Decoded> => {
  const mark = MARKS.find((each) => startsWith(bytes, each.bytes));
  if (mark !== undefined) return refused(`The file is ${mark.what}, not a list in text; ${SAVE_AS}`);
  const { text, notes } = read(bytes);
  if (looksBinary(text)) return refused(`The file is not text that can be read as a list; ${SAVE_AS} in UTF-8`);
  return accepted({ text: text.replace(/\r\n?/g, '\n'), notes });
};

/** A list has no NUL and hardly ever another control character; one astray is left to its row. */
const looksBinary = (text: string): boolean => {
  const start = text.slice(0, 10_000);
  return text.includes('\0') || (start.match(/(?!\s)\p{Cc}/gu)?.length ?? 0) > start.length / 100;
};

const read = (bytes: Uint8Array): Decoded => {
  if (startsWith(bytes, [0xff, 0xfe])) return { text: new TextDecoder('utf-16le').decode(bytes), notes: [] };
  if (startsWith(bytes, [0xfe, 0xff])) return { text: new TextDecoder('utf-16be').decode(bytes), notes: [] };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), notes: [] };
  } catch {
    return {
      text: windows1252(bytes),
      notes: [
        'The file is not in UTF-8 and was read as Windows-1252; check the letters with accents, or save it as CSV in UTF-8',
      ],
    };
  }
};

/** The letters of Windows-1252 from 0x80 on, up to where it agrees with Latin-1; five of them are not used. */
const FROM_0X80 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/** By hand, since some versions of Node 20 decode this encoding as plain Latin-1. */
const windows1252 = (bytes: Uint8Array): string =>
  Buffer.from(bytes)
    .toString('latin1')
    .replace(/[\u0080-\u009f]/g, (letter) => FROM_0X80[letter.charCodeAt(0) - 0x80] ?? letter);
