/** Which column is what: headings matched by their meaning in the trade's words, in any order, or as `--map` says. */
import { distance } from 'fastest-levenshtein';
import { accepted, type Result, refused } from '../../shared/refusal.ts';

/** The words a heading may use for each field, as `meaningOf` leaves them. The first is how the field is spoken of. */
const WORDS = {
  number:
    'number|cow|cow number|cow no|cow id|no|tag|tag number|tag no|ear tag|ear tag number|ear tag no|eartag|barn number|barn no|animal|animal number|animal no|animal id|id|herd number|brand|freeze brand|freeze brand number|management number|collar number|neck number|leg band number',
  officialId:
    'official number|official id|officialid|official|official no|official tag|official tag number|official ear tag|electronic number|electronic id|electronic tag|electronic tag number|eid|rfid|transponder|transponder number|passport|passport number|national number|national id|lifetime number|life number|15 digit number',
  group: 'group|pen|lot|string|pen number|pen no|group name|pen name|group number|mob|milking group|management group',
  lactation:
    'lactation|lactation number|lactation no|lact|lact no|lactations|parity|calvings|number calvings|no calvings|times calved',
  born: 'born|birth|dob|birthday|birthdate',
  calvedOn:
    'calved|calvedon|calving|calve|fresh|freshened|freshening|last calved|last calving|last fresh|last freshened|latest calving|most recent calving',
  servedOn:
    'served|servedon|service|serve|bred|breeding|inseminated|insemination|last served|last service|last bred|last breeding|last insemination|latest service',
  dueOn:
    'due|dueon|calving due|due calving|due to calve|due calve|expected calving|calving expected|expected due|expected to calve|expected fresh',
  driedOffOn: 'dried off|driedoffon|dry off|dryoff|drying off|dried|last dried off|last dry off|dry since',
  driedOffWith:
    'dry cow product|driedoffwith|dried off with|dry off product|dry product|dry cow medicine|dry cow treatment|dry cow therapy|dry cow tube|dry cow tubes|dry off treatment|drying off product',
  milkHoldUntil:
    'milk hold until|milkholduntil|milk hold|milk hold ends|milk hold end|milk held until|hold milk until|milk withdrawal|milk withdrawal until|milk withdrawal ends|milk withdrawal end|milk withhold|milk withholding|milk withholding until|milk withhold until|milk withheld until|milk out until',
  meatHoldUntil:
    'meat hold until|meatholduntil|meat hold|meat hold ends|meat hold end|meat held until|hold meat until|meat withdrawal|meat withdrawal until|meat withdrawal ends|meat withdrawal end|meat withhold|meat withholding|meat withholding until|meat withhold until|beef hold|beef hold until|slaughter hold|slaughter hold until|slaughter withdrawal',
  from: 'from|bought from|bought in from|purchased from|came from|source|origin|seller|supplier',
} as const;

export type Field = keyof typeof WORDS;
export const FIELDS = Object.keys(WORDS) as Field[];
const REQUIRED: readonly Field[] = ['number', 'group', 'lactation'];

/** The field in plain words, for sentences. */
export const spokenOf = (field: Field): string => WORDS[field].split('|')[0] ?? field;

/** Words that change nothing about what a heading means. */
const FILLERS = new Set(['date', 'dates', 'of', 'the', 'on', 'her', 's']);

/** Lower case, no punctuation, no remark in brackets, no filler: `Date of birth (dd/mm/yyyy)` → `birth`. */
export const meaningOf = (heading: string): string =>
  heading
    .replace(/\(.*?\)|\[.*?\]/g, ' ')
    .replace(/#/g, ' number ')
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .split(' ')
    .filter((word) => word !== '' && !FILLERS.has(word))
    .join(' ');

const FIELD_BY_MEANING = new Map<string, Field>(
  FIELDS.flatMap((field) => [field.toLowerCase(), ...WORDS[field].split('|')].map((words) => [words, field] as const)),
);

export const fieldOf = (heading: string): Field | undefined => FIELD_BY_MEANING.get(meaningOf(heading));

export interface Columns {
  /** For each column of the file, what it is used as. */
  readonly fields: readonly (Field | null)[];
  /** The column of each field that has one. */
  readonly at: ReadonlyMap<Field, number>;
}

/** Refuses doubtful and missing columns with a sentence that names the headings. */
export const matchHeadings = (
  headings: readonly string[],
  map: Readonly<Record<string, string>> = {},
): Result<Columns> => {
  const said = readMap(headings, map);
  if (!said.ok) return said;
  const taken = new Set([...said.value.values()].filter((column) => column !== undefined));
  const fields = headings.map((heading, column): Field | null => {
    for (const [field, mapped] of said.value) if (mapped === column) return field;
    const field = taken.has(column) ? undefined : fieldOf(heading);
    return field === undefined || said.value.has(field) ? null : field;
  });
  const at = new Map<Field, number>();
  for (const [column, field] of fields.entries()) {
    if (field === null) continue;
    const before = at.get(field);
    if (before !== undefined) return refused(twoFor(field, headings, before, column));
    at.set(field, column);
  }
  const missing = REQUIRED.filter((field) => !at.has(field));
  if (missing.length > 0) {
    return refused(
      `No column is the cow's ${missing.map(spokenOf).join(', nor her ')}; the headings are ${listed(headings)}. Say which with --map ${missing[0]}="heading"`,
    );
  }
  return accepted({ fields, at });
};

const twoFor = (field: Field, headings: readonly string[], first: number, second: number): string => {
  const [a = '', b = ''] = [headings[first], headings[second]];
  const start = `Columns ${first + 1} and ${second + 1}, "${a}" and "${b}", both read as the cow's ${spokenOf(field)}`;
  return a === b
    ? `${start}; give one of them another heading in the file`
    : `${start}; say which is meant with --map ${field}="${a}" or --map ${field}="${b}"`;
};

/** `--map` as field → column; `undefined` where the field is mapped to nothing (`--map served=`). */
const readMap = (
  headings: readonly string[],
  map: Readonly<Record<string, string>>,
): Result<Map<Field, number | undefined>> => {
  const said = new Map<Field, number | undefined>();
  for (const [key, wanted] of Object.entries(map)) {
    const field = fieldOf(key);
    if (field === undefined) {
      return refused(
        `--map ${key}=${wanted}: "${key}" is not a field of a herd list; the fields are ${FIELDS.join(', ')}`,
      );
    }
    if (said.has(field)) return refused(`--map gives the cow's ${spokenOf(field)} twice; give it once`);
    const column = wanted.trim() === '' ? undefined : columnOf(headings, wanted);
    if (column === 'none' || column === 'several') {
      const why = column === 'none' ? 'is not a heading of the file' : 'is the heading of more than one column';
      return refused(
        `--map ${key}=${wanted}: "${wanted}" ${why}; the headings are ${listed(headings)}${near(wanted, headings)}`,
      );
    }
    const other = [...said].find(([, taken]) => column !== undefined && taken === column);
    if (other !== undefined) {
      return refused(`--map gives the column "${wanted}" to both ${other[0]} and ${field}; give it to one`);
    }
    said.set(field, column);
  }
  return accepted(said);
};

const columnOf = (headings: readonly string[], wanted: string): number | 'none' | 'several' => {
  const alike = [
    (heading: string) => heading === wanted,
    (heading: string) => heading.toLowerCase() === wanted.trim().toLowerCase(),
  ];
  for (const test of alike) {
    const found = headings.flatMap((heading, column) => (test(heading) ? [column] : []));
    if (found.length > 1) return 'several';
    if (found[0] !== undefined) return found[0];
  }
  return 'none';
};

const near = (wanted: string, headings: readonly string[]): string => {
  const best = headings
    .map((heading) => ({ heading, away: distance(heading.toLowerCase(), wanted.toLowerCase()) }))
    .sort((a, b) => a.away - b.away)[0];
  return best !== undefined && best.away <= Math.max(1, wanted.length / 3) ? `. Did you mean "${best.heading}"?` : '';
};

const listed = (headings: readonly string[]): string =>
  headings
    .slice(0, 40)
    .map((heading) => `"${heading.slice(0, 40)}"`)
    .join(', ');
