/**
 * Bytes into text. UTF-8; UTF-16 where the file begins with its mark; and from the first line that can't be UTF-8 on,
 * Windows-1252, in which every byte is a letter. So no name or medicine loses a letter to a replacement mark.
 * Streams; the text is the same however the bytes were cut into pieces, as long as a file is written in one way.
 */
export type ReadAs = 'UTF-8' | 'UTF-16' | 'Windows-1252';

const NEWLINE = 10;

/** `readAs` is told once, when the input turns out not to be UTF-8. */
export async function* textOfBytes(
  pieces: AsyncIterable<Uint8Array>,
  readAs: (encoding: ReadAs) => void,
): AsyncIterable<string> {
  let decoder: TextDecoder | undefined;
  let held: Uint8Array = new Uint8Array();
  let first = true;
  for await (const piece of pieces) {
    const bytes = joined(held, piece);
    held = new Uint8Array();
    if (first && bytes.length < 2) {
      held = bytes;
      continue;
    }
    if (first) {
      const mark = ((bytes[0] ?? 0) << 8) | (bytes[1] ?? 0);
      if (mark === 0xfffe || mark === 0xfeff) {
        decoder = new TextDecoder(mark === 0xfffe ? 'utf-16le' : 'utf-16be');
        readAs('UTF-16');
      }
      first = false;
    }
    if (decoder !== undefined) {
      yield decoder.decode(bytes, { stream: true });
      continue;
    }
    const whole = bytes.length - unfinished(bytes);
    held = bytes.slice(whole);
    const good = goodUpTo(bytes.subarray(0, whole));
    yield utf8.decode(bytes.subarray(0, good));
    if (good === whole) continue;
    decoder = new TextDecoder('windows-1252');
    readAs('Windows-1252');
    yield decoder.decode(bytes.subarray(good), { stream: true });
    held = new Uint8Array();
  }
  if (held.length > 0 && decoder === undefined) {
    const good = goodUpTo(held);
    if (good < held.length) readAs('Windows-1252');
    yield good === held.length ? utf8.decode(held) : new TextDecoder('windows-1252').decode(held);
  }
  if (decoder !== undefined) yield decoder.decode();
}

const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

const isUtf8 = (bytes: Uint8Array): boolean => {
  try {
    utf8.decode(bytes);
    return true;
  } catch {
    return false;
  }
};

/** All of it, or up to the start of the first line that is not UTF-8. */
const goodUpTo = (bytes: Uint8Array): number => {
  if (isUtf8(bytes)) return bytes.length;
  let from = 0;
  for (;;) {
    const end = bytes.indexOf(NEWLINE, from);
    if (end === -1 || !isUtf8(bytes.subarray(from, end))) return from;
    from = end + 1;
  }
};

/** How many bytes at the end begin a letter that goes on in the next piece: three at most. */
const unfinished = (bytes: Uint8Array): number => {
  for (let back = 1; back <= Math.min(3, bytes.length); back += 1) {
    const byte = bytes[bytes.length - back] ?? 0;
    if (byte < 0x80) return 0;
    if (byte >= 0xc0) return back < (byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2) ? back : 0;
  }
  return 0;
};

const joined = (a: Uint8Array, b: Uint8Array): Uint8Array => {
  if (a.length === 0) return b;
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
};
