/** The body of a push: of the right type, not too long, in UTF-8, and a JSON array of not too many entries. */
import { type PageEntry, readPage } from '../../events/log-page.ts';
import { arrayTexts } from './array-texts.ts';
import { RequestProblem } from './problem.ts';

export const BATCH = 'application/cloudevents-batch+json';
export const MOST_ENTRIES = 1_000;
/** Bytes of a body: a device's, and another book's (one issued set of a big herd is long). */
const MOST_BYTES = { device: 4 * 1024 * 1024, book: 32 * 1024 * 1024 } as const;

/** Each entry's own text, from a body that is a JSON array. */
export interface Batch {
  readonly values: readonly unknown[];
  readonly texts: readonly string[];
}

export const demandType = (request: Request, wanted = BATCH): void => {
  const [type = '', ...parameters] = (request.headers.get('content-type') ?? '').toLowerCase().split(';');
  const charset = parameters.map((each) => each.trim()).find((each) => each.startsWith('charset='));
  if (type.trim() !== wanted || (charset !== undefined && !/^charset="?utf-8"?$/.test(charset))) {
    throw new RequestProblem('wrong-content-type', `Send it as ${wanted}, in UTF-8; nothing was taken`);
  }
  const encoding = request.headers.get('content-encoding');
  if (encoding !== null && encoding.toLowerCase() !== 'identity') {
    throw new RequestProblem('wrong-content-type', 'Send it as it is, not compressed; nothing was taken');
  }
};

/** Reads the body up to a limit; one that says or turns out to be longer is refused. */
export const bodyOf = async (request: Request, ofBook: boolean): Promise<Uint8Array> => {
  const most = ofBook ? MOST_BYTES.book : MOST_BYTES.device;
  const tooLong = () =>
    new RequestProblem(
      'too-large',
      `The body is longer than ${most} bytes; send fewer entries at once, nothing was taken`,
    );
  const stated = Number(request.headers.get('content-length') ?? Number.NaN);
  if (stated > most) throw tooLong();
  const pieces: Uint8Array[] = [];
  let length = 0;
  try {
    // HTTP itself ends a body where its stated length does: it need not be counted piece by piece.
    if (stated <= most) {
      const whole = new Uint8Array(await request.arrayBuffer());
      if (whole.length > most) throw tooLong();
      return whole;
    }
    for await (const piece of request.body ?? []) {
      length += piece.length;
      if (length > most) throw tooLong();
      pieces.push(piece);
    }
  } catch (error) {
    if (error instanceof RequestProblem) throw error;
    throw new RequestProblem('not-readable', 'The body broke off on the way, so nothing was taken; send it again');
  }
  return Buffer.concat(pieces);
};

/** Reads a device's body: a JSON array of at most a thousand entries. Nothing is kept of one that is not, the sender has it. */
export const readBatch = (body: Uint8Array): Batch => {
  const text = textOf(body);
  const values = listIn<unknown>(text, JSON.parse);
  const texts = arrayTexts(text);
  if (texts.length !== values.length) {
    throw new RequestProblem('not-readable', 'The entries in the body cannot be told apart, so nothing was taken');
  }
  return { values, texts };
};

/** Reads another book's body, to the same conditions. */
export const readRelay = (body: Uint8Array): readonly PageEntry[] => listIn(textOf(body), readPage);

/** Reads what another book refused, to the same conditions; of what shape each is, is asked at its own door. */
export const readRefusals = (body: Uint8Array): readonly unknown[] => listIn<unknown>(textOf(body), JSON.parse);

const NO_JSON = 'The body is not JSON in UTF-8, so nothing was taken; send a JSON array of entries';

const textOf = (body: Uint8Array): string => {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(body);
  } catch {
    throw new RequestProblem('not-readable', NO_JSON);
  }
};

/** `read` throws where the text is no JSON, and gives no list where it is no array. */
const listIn = <T>(text: string, read: (text: string) => readonly T[] | undefined): readonly T[] => {
  let list: readonly T[] | undefined;
  try {
    list = read(text);
  } catch {
    throw new RequestProblem('not-readable', NO_JSON);
  }
  if (!Array.isArray(list)) {
    throw new RequestProblem('not-readable', 'The body is not a JSON array, so nothing was taken; send [entry, …]');
  }
  if (list.length > MOST_ENTRIES) {
    throw new RequestProblem(
      'too-large',
      `${list.length} entries at once are too many; send ${MOST_ENTRIES} at most, nothing was taken`,
    );
  }
  return list;
};
