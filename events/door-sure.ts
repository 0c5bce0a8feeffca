/**
 * What surely passes the door, told fast: the same checks by the same schemas (`sure.ts`). Undefined wherever there is
 * any doubt; then the door itself asks every rule in turn and has the words.
 */
import { type Instant, parseInstant } from '../shared/instant.ts';
import type { Said } from './entry.ts';
import { envelope } from './envelope.ts';
import { ENTRY_TYPES, isEntryType, KINDS } from './kinds.ts';
import { sureOf, UNSURE } from './sure.ts';

const SURE = new Map(ENTRY_TYPES.map((type) => [type, sureOf(KINDS[type].schema)]));
const { shape } = envelope;
const ID = sureOf(shape.id);
const SUBJECT = sureOf(shape.subject);
const AUTHOR = sureOf(shape.author);
const SOURCE = sureOf(shape.source);

/** `value` is without a flaw (`strict-json.ts`). */
export const surelySaid = (
  value: unknown,
  settings: { readonly source: string; readonly author: string; readonly now: Instant },
  { ahead, idFor }: { ahead: number; idFor: (written: Record<string, unknown>, source: string) => string | undefined },
): { said: Said; at: Instant; derivedId: boolean } | undefined => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return undefined;
  const written = value as Record<string, unknown>;
  const {
    specversion = '1.0',
    source = settings.source,
    type,
    subject,
    time,
    author = settings.author,
    data,
  } = written;
  if (typeof type !== 'string' || typeof time !== 'string' || specversion !== '1.0') {
    return undefined;
  }
  if (typeof source !== 'string' || typeof author !== 'string' || !isEntryType(type)) return undefined;
  const derivedId = written.id === undefined;
  const id = derivedId ? idFor(written, source) : written.id;
  if (typeof id !== 'string') return undefined;
  for (const field in written) if (!FIELDS.has(field) || written[field] === undefined) return undefined;
  const kind = KINDS[type];
  if ('bookOnly' in kind || kind.subject === (subject === undefined ? 'cow' : 'farm')) return undefined;
  if (ID(id) === UNSURE || SOURCE(source) === UNSURE || AUTHOR(author) === UNSURE) return undefined;
  if (subject !== undefined && (typeof subject !== 'string' || SUBJECT(subject) === UNSURE)) return undefined;
  const payload = SURE.get(type)?.(data) ?? UNSURE;
  if (payload === UNSURE || typeof payload !== 'object' || payload === null) return undefined;
  if (type === 'residue-test' && ('of' in payload && payload.of === 'cow') !== (subject !== undefined))
    return undefined;
  const at = parseInstant(time);
  if (!at.ok || at.value > settings.now + ahead) return undefined;
  const said: Said =
    subject === undefined
      ? { specversion, id, source, type, time, author, data }
      : { specversion, id, source, type, subject, time, author, data };
  return { said, at: at.value, derivedId };
};

const FIELDS = new Set(['specversion', 'id', 'source', 'type', 'subject', 'time', 'author', 'data']);
