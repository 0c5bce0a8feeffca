/**
 * A cow's page: who she is, where her milk and meat stand, on which lists she is and why, her holds on a time line, and all
 * that is written about her. A number that may mean several cows shows them all.
 */
import type { Entry } from '../../events/entry.ts';
import type { PlaceOf } from '../../print/history-words.ts';
import type { Voice } from '../../print/speech.ts';
import { isSpoken, wordsFor } from '../../print/words.ts';
import { type CowHistory, cowHistory } from '../../projections/history.ts';
import { asidesByCow } from '../../projections/standing.ts';
import { instantText } from '../../shared/instant.ts';
import { parseMilkingId } from '../../shared/milking-id.ts';
import { mayAsk } from '../devices/roles.ts';
import { RequestProblem } from '../server/problem.ts';
import type { Ask, Desk, DeskPage } from './ask.ts';
import { type AtHand, atHand } from './at-hand.ts';
import { cowsFound, type FoundCow } from './cow-found.ts';
import { History } from './cow-history.tsx';
import { holdSpans, marksOf } from './cow-holds.ts';
import { UnknownCow } from './cow-unknown.tsx';
import { CowWho, NumbersBorne } from './cow-who.tsx';
import { CowWhy, Reasons } from './cow-why.tsx';
import { type HerdNow, herdNow } from './herd-rows.ts';
import { goTo, page } from './layout.tsx';
import { Timeline } from './timeline.tsx';

export const cowPages: readonly DeskPage[] = [
  { method: 'get', path: '/cow/:number', right: 'herd', run: (desk, ask) => cowPage(desk, ask) },
];

interface Setting {
  readonly desk: Desk;
  readonly ask: Ask;
  readonly hand: AtHand;
  readonly herd: HerdNow;
  readonly voice: Voice;
  /** As asked. */
  readonly number: string;
  readonly history: CowHistory;
  readonly entries: ReadonlyMap<string, Entry>;
}

const cowPage = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const number = (ask.params.number ?? '').trim();
  const hand = handFor(desk, ask);
  const herd = hand === undefined ? undefined : herdNow(hand.answer);
  if (hand === undefined || herd === undefined) return goTo('/begin');
  const { answer } = hand;
  const { cows, gone } = cowsFound(answer, herd, number);
  const showsGone = ask.url.searchParams.get('gone') === '1';
  const bears = [...cows, ...gone].some(({ file }) => isOf(file, number));
  const history = cowHistory(
    answer.known,
    answer.entries,
    [...answer.views.alerts, ...answer.views.doubts],
    bears ? number : (cows[0]?.number ?? number),
  );
  const words = wordsFor(hand.schedule.inForceAt(desk.now()).data.languages?.find(isSpoken) ?? 'en');
  const setting: Setting = {
    desk,
    ask,
    hand,
    herd,
    number,
    history,
    voice: { words, labels: words.labels, format: hand.format },
    entries: new Map(answer.entries.map((entry) => [entry.id, entry])),
  };
  const shown = showsGone ? [...cows, ...gone] : cows;
  const only = shown.length === 1 ? shown[0] : undefined;
  return page(
    {
      ...hand.frame,
      title: only === undefined ? `Number ${number}` : `Cow ${only.number}`,
      children: (
        <>
          <p class="lead">
            As at {hand.format.milking(answer.milking.id)}, {hand.format.clock(instantText(answer.milking.start))}.
          </p>
          <Unplaced setting={setting} />
          {shown.length === 0 ? <UnknownCow number={number} herd={herd} hand={hand} ask={ask} /> : null}
          {shown.length > 1 ? (
            <p class="problem">
              {number} may mean {shown.length} cows: each of them stands below. What is written under this number may
              count for each, and holds each.
            </p>
          ) : null}
          {only !== undefined && only.number !== number && only.file.cow.officialId !== number.replaceAll(' ', '') ? (
            <p class="done">
              {bears ? `She bore the number ${number}; ` : `Nobody bears ${number}; without zeros in front it is `}
              {bears ? `now she is ${only.number}.` : `${only.number}.`}
            </p>
          ) : null}
          {shown.map((found, index) => (
            <OneCow found={found} index={index} isAlone={only !== undefined} setting={setting} />
          ))}
          {!showsGone && gone.length > 0 ? (
            <p>
              {gone.length === 1 ? 'A cow that is gone' : `${gone.length} cows that are gone`} bore the number {number}{' '}
              too: <a href={addressOf(setting, { gone: '1' })}>show {gone.length === 1 ? 'her' : 'them'} as well</a>.
            </p>
          ) : null}
          <Doubts setting={setting} />
          <WrittenAbout setting={setting} />
        </>
      ),
    },
    shown.length === 0 ? 404 : 200,
  );
};

const isOf = (file: FoundCow['file'], number: string): boolean =>
  file.cow.officialId === number.replaceAll(' ', '') || file.cow.spans.some((span) => span.number === number);

const handFor = (desk: Desk, { visitor, url }: Ask): AtHand | undefined => {
  const milking = url.searchParams.get('milking')?.trim() || undefined;
  if (milking !== undefined && milking !== 'next' && !parseMilkingId(milking).ok)
    throw new RequestProblem(
      'not-valid',
      `“${milking.slice(0, 40)}” is not a milking; the address wants one such as ?milking=2026-03-14/afternoon, or none for the next`,
    );
  return atHand(desk, visitor, '/herd', milking);
};

/** This page's address with something put in another way. */
const addressOf = ({ ask: { url } }: Setting, change: Readonly<Record<string, string | undefined>>): string => {
  const asked = new URLSearchParams(url.searchParams);
  for (const [name, value] of Object.entries(change)) {
    if (value === undefined) asked.delete(name);
    else asked.set(name, value);
  }
  return asked.size === 0 ? url.pathname : `${url.pathname}?${asked}`;
};

/** Lines under this number that stand without a cow, at the head of the milk-hold sheet. */
const Unplaced = ({ setting: { number, hand, entries } }: { setting: Setting }) => {
  const rows = hand.answer.views.sheets['milk-hold'].unplaced.filter((row) => row.number === number);
  return rows.length === 0 ? null : (
    <section class="notices alert" aria-labelledby="unplaced">
      <h2 id="unplaced">Find this cow before milking</h2>
      <p>Under {number} stands something whose cow is not certain; it heads the milk-hold sheet until it is settled.</p>
      {rows.map((row) => (
        <>
          <Reasons reasons={[row.because]} entries={entries} speaking={hand} />
          <p>
            <a href={`/open#${encodeURIComponent(row.key)}`}>Settle it</a>
          </p>
        </>
      ))}
    </section>
  );
};

const OneCow = ({
  found,
  index,
  isAlone,
  setting,
}: {
  found: FoundCow;
  index: number;
  isAlone: boolean;
  setting: Setting;
}) => {
  const { hand, herd, desk, ask, voice } = setting;
  const { file, there } = found;
  const { moment } = herd;
  const id = `cow-${index + 1}`;
  const asides = there?.standing.asides ?? asidesByCow(hand.answer.known).get(file.cow.key) ?? [];
  const all = ask.url.searchParams.get('line') === 'all';
  return (
    <section class="card" aria-labelledby={id}>
      <h2 id={id}>
        {isAlone
          ? 'Who she is'
          : `Cow ${index + 1}: ${found.number}${file.cow.officialId === undefined ? '' : `, ${file.cow.officialId}`}`}
      </h2>
      <CowWho found={found} herd={herd} speaking={hand} />
      <NumbersBorne found={found} speaking={hand} />
      {there !== undefined && mayAsk(ask.visitor.caller.role, 'push') ? (
        <p class="actions">
          <a class="button" href={`/write?cow=${encodeURIComponent(addressee(found, isAlone))}`}>
            Write something about her
          </a>
        </p>
      ) : null}
      {there === undefined ? null : (
        <>
          <h3>Lists</h3>
          {isAlone ? null : <p>The lists name cows by number: where two bear one, a line may be the other’s.</p>}
          <CowWhy lists={there.why.lists} entries={setting.entries} speaking={hand} />
        </>
      )}
      <h3>Holds on a time line</h3>
      <Timeline
        cow={found.number}
        id={id}
        spans={holdSpans(file, moment, asides, there !== undefined)}
        marks={marksOf(file, moment)}
        now={desk.now()}
        zone={hand.schedule.inForceAt(desk.now()).zone}
        locale={voice.words.locale}
        all={all}
        other={addressOf(setting, { line: all ? undefined : 'all' })}
        speaking={hand}
      />
    </section>
  );
};

/** Her barn number; where it may mean another cow too, her official number. */
const addressee = ({ number, file }: FoundCow, isAlone: boolean): string =>
  isAlone ? number : (file.cow.officialId ?? number);

const Doubts = ({ setting: { history, hand } }: { setting: Setting }) =>
  history.doubts.length === 0 ? null : (
    <section class="notices doubt" aria-labelledby="doubts">
      <h2 id="doubts">To settle</h2>
      <ul>
        {history.doubts.map((notice) => (
          <li>
            {hand.says(notice.because)} <a href={`/open#${encodeURIComponent(notice.key)}`}>Settle</a>
          </li>
        ))}
      </ul>
    </section>
  );

const WrittenAbout = ({ setting }: { setting: Setting }) => {
  const { history, voice, ask, entries } = setting;
  const placeOf: PlaceOf = (id) => entries.get(id)?.position;
  const here = new Set(history.lines.map(({ entry }) => entry.id));
  const asked = ask.url.searchParams;
  const part = Number(asked.get('part') ?? '1');
  return (
    <History
      history={history}
      voice={voice}
      visitor={ask.visitor}
      placeOf={placeOf}
      linkOf={(id) => {
        const entry = entries.get(id);
        if (entry === undefined || (entry.subject === undefined && !here.has(id))) return undefined;
        const page = here.has(id) ? '' : `/cow/${encodeURIComponent(entry.subject ?? '')}`;
        return `${page}#entry-${entry.position}`;
      }}
      withRecords={asked.get('records') === '1'}
      part={Number.isInteger(part) && part > 0 ? part : 1}
      addressOf={({ records, part: to }) =>
        addressOf(setting, {
          ...(records === undefined ? {} : { records: records ? '1' : undefined, part: undefined }),
          ...(to === undefined ? {} : { part: to === 1 ? undefined : String(to) }),
        })
      }
    />
  );
};
