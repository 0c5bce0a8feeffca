/**
 * What stands beside an entry's stored text so that it is found: its id, its cow, and the entry it strikes. Each is read
 * from the text when the entry is written, and `verify` reads them again; nothing but look-ups relies on them.
 */
export interface Columns {
  readonly id: string;
  /** An official number may be written with spaces; a barn number has none. */
  readonly subject: string | null;
  /** Id of the entry that this one strikes. */
  readonly strikes: string | null;
}

/** The columns of an entry, whoever wrote it. `id` is empty where it has none that is text. */
export const columnsOf = (entry: {
  readonly id?: unknown;
  readonly type?: unknown;
  readonly subject?: unknown;
  readonly data?: unknown;
}): Columns => ({
  id: typeof entry.id === 'string' ? entry.id : '',
  subject: subjectOf(entry.subject),
  strikes: entry.type === 'entry-struck' ? struckBy(entry.data) : null,
});

const subjectOf = (subject: unknown): string | null => {
  if (typeof subject === 'string') return subject.includes(' ') ? subject.replaceAll(' ', '') : subject;
  return typeof subject === 'number' && Number.isSafeInteger(subject) ? String(subject) : null;
};

const struckBy = (data: unknown): string | null =>
  typeof data === 'object' && data !== null && 'entry' in data && typeof data.entry === 'string' ? data.entry : null;

/** The same in SQL, for the step that fills them in an older book. */
const whole = `json_extract(entry, '$.subject') between -9007199254740991 and 9007199254740991`;
export const COLUMNS_IN_SQL = `json_extract(entry, '$.id'),
     case json_type(entry, '$.subject')
       when 'text' then replace(json_extract(entry, '$.subject'), ' ', '')
       when 'integer' then case when ${whole} then cast(json_extract(entry, '$.subject') as text) end
     end,
     case when json_extract(entry, '$.type') = 'entry-struck' and json_type(entry, '$.data.entry') = 'text'
       then json_extract(entry, '$.data.entry')
     end`;
