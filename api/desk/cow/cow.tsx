/**
 * A cow's page: who she is, where her milk and meat stand, on which lists she is and why, her holds on a time line, and all
 * that is written about her. A number that may mean several cows shows them all.
 */
import type { PlaceOf } from '../../../print/history-words.ts';
import { isSpoken, wordsFor } from '../../../print/words.ts';
import { cowHistory } from '../../../projections/history.ts';
import { instantText } from '../../../shared/instant.ts';
import { parseMilkingId } from '../../../shared/milking-id.ts';
import { RequestProblem } from '../../server/problem.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { herdNow } from '../herd/herd-rows.ts';
import { goTo, page } from '../layout.tsx';
import { cowsFound, type FoundCow } from './cow-found.ts';
import { History } from './cow-history.tsx';
import { addressOf, OneCow, type Setting, Unplaced } from './cow-one.tsx';
import { UnknownCow } from './cow-unknown.tsx';

export const cowPages: readonly DeskPage[] = [
  { method: 'get', path: '/cow/:number', right: 'herd', run: (desk, ask) => cowPage(desk, ask) },
];

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
