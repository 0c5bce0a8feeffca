/** First run, the herd list read: the same checks as the command line's, its sentences turned to what stands on the page. */
import { type Passed, readValue } from '../../../events/door.ts';
import type { Schedule } from '../../../projections/schedule.ts';
import { sha256 } from '../../../shared/fingerprint.ts';
import type { LocalDay } from '../../../shared/local-day.ts';
import { unwritable } from '../../devices/roles.ts';
import { againstHerd } from '../../import-herd/against-herd.ts';
import { decodeList } from '../../import-herd/decode.ts';
import { FIELDS } from '../../import-herd/headings.ts';
import { type HerdImport, type HerdRefusal, readHerdFile } from '../../import-herd/import-herd.ts';
import type { Desk, Form, Visitor } from '../ask.ts';

export interface HerdList {
  /** The list as text, to be mended on the page. */
  readonly text: string;
  readonly mapping: HerdImport['mapping'];
  /** Why nothing of it can be used. */
  readonly problem: string | undefined;
  readonly refusals: readonly HerdRefusal[];
  readonly notes: readonly string[];
  readonly passed: readonly Passed[];
  readonly known: number;
  /** What was looked at: another text or another setting has another one. */
  readonly seen: string;
}

/** `asOf`: the date on which the list was true. */
export const readHerdForm = (
  desk: Desk,
  visitor: Visitor,
  schedule: Schedule,
  form: Form,
  asOf: LocalDay,
): HerdList => {
  // A file that is chosen counts before what stands in the field.
  const bytes = form.bytes('file') ?? form.bytes('list') ?? new Uint8Array();
  const setUp = schedule.setUps.at(-1) ?? schedule.inForceAt(desk.now());
  const map = Object.fromEntries(
    FIELDS.flatMap((field) => {
      const said = form.one(`map-${field}`);
      return said === undefined ? [] : [[field, said === NOT_USED ? '' : said]];
    }),
  );
  const decoded = decodeList(bytes);
  // Blank lines at the head go, so that lines count as they stand in the field.
  const text = decoded.ok ? decoded.value.text.replace(/^(?:[ \t]*\n)+/, '') : '';
  const result = readHerdFile(decoded.ok ? Buffer.from(text) : bytes, {
    map,
    dates: form.one('dates'),
    holds: form.one('holds') === undefined ? undefined : 'none',
    asOf: setUp.zone.startOfDay(asOf),
    zone: setUp.zone.name,
    groups: setUp.data.groups,
    source: visitor.caller.name,
    author: visitor.person,
  });
  const { known } = desk.knowing.now();
  const against = againstHerd(result, known.herd, (id) => desk.book.find(id).length > 0);
  const passed: Passed[] = [];
  const refusals: HerdRefusal[] = [...result.refusals, ...against.already];
  for (const { line, value } of against.fresh) {
    const arrival = readValue(value, { source: visitor.caller.name, author: visitor.person, now: desk.now() });
    const problem =
      arrival.outcome === 'refused' ? arrival.problem : unwritable(visitor.caller, arrival.said, () => [])?.problem;
    if (arrival.outcome === 'passed' && problem === undefined) passed.push(arrival);
    else refusals.push({ line, column: null, problem: problem ?? 'cannot be used', text: '' });
  }
  return {
    text,
    mapping: result.mapping,
    problem: result.problem === undefined ? undefined : onPage(result.problem),
    refusals: refusals
      .map((refusal) => ({ ...refusal, problem: onPage(refusal.problem) }))
      .sort((a, b) => a.line - b.line),
    notes: [...(decoded.ok ? decoded.value.notes : []), ...result.notes].map(onPage),
    passed,
    known: against.known,
    seen: sha256(JSON.stringify([text, map, form.one('dates'), form.one('holds'), asOf])),
  };
};

export const NOT_USED = '(not used)';

/** The command line's way of saying how, as the page's. */
export const onPage = (sentence: string): string =>
  sentence
    .replace(
      /,? ?or state with --holds none that (there are none beyond the list|no cow has one)/,
      (_, what: string) => `, or tick below that ${what}`,
    )
    .replace(/Say which with --map .*$/, 'Say below which heading it is')
    .replace(/say which column has that one, with --map .*$/, 'say below which heading has that one')
    .replace(/say which is meant with --map .*$/, 'say below which is meant')
    .replace(/--map gives/, 'you gave')
    .replace(/--map [^:]*: /, '')
    .replace(/, or say how the file writes dates, with --dates .*$/, ', or say below how the list writes dates')
    .replace(/--dates (\S+) is not/, '"$1" is not')
    .replace(/; give --dates .*$/, '')
    .replace(
      /strike her cow-entered entry \(history (\S+) shows it\) and import again/,
      'take her entry back (her page shows it) and look again',
    )
    .replace(/save the list as CSV and import that file/, 'save the list as CSV and choose that file')
    .replace(/; record its farm-set-up first, then import the herd/, '; set up the farm first');
