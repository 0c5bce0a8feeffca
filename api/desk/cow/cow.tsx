/**
 * A cow's page: who she is, where her milk and meat stand, on which lists she is and why, her holds on a time line, and all
 * that is written about her. A number that may mean several cows shows them all.
 */
import type { PlaceOf } from '../../../print/history-words.ts';
import { wordsFor } from '../../../print/words.ts';
import { cowHistory } from '../../../projections/history.ts';
import { instantText } from '../../../shared/instant.ts';
import { parseMilkingId } from '../../../shared/milking-id.ts';
import { entryFinder } from '../../tonight.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { hearer } from '../hearer.ts';
import { herdNow } from '../herd/herd-rows.ts';
import { goTo, page } from '../layout.tsx';
import { SaidProblem, say, sayWith } from '../say.tsx';
import { cowsFound, type FoundCow } from './cow-found.ts';
import { History } from './cow-history.tsx';
import { leavingPages } from './cow-leaving.ts';
import { addressOf, OneCow, type Setting, Unplaced } from './cow-one.tsx';
import { UnknownCow } from './cow-unknown.tsx';

export const cowPages: readonly DeskPage[] = [
  { method: 'get', path: '/cow/:number', right: 'herd', run: (desk, ask) => cowPage(desk, ask) },
  ...leavingPages,
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
    answer.entries(),
    [...answer.views.alerts, ...answer.views.doubts],
    bears ? number : (cows[0]?.number ?? number),
  );
  const words = wordsFor(hearer().tag);
  const setting: Setting = {
    desk,
    ask,
    hand,
    herd,
    number,
    history,
    voice: { words, labels: words.labels, format: hand.format },
    entries: entryFinder(answer.known),
  };
  const shown = showsGone ? [...cows, ...gone] : cows;
  const only = shown.length === 1 ? shown[0] : undefined;
  return page(
    {
      ...hand.frame,
      title: only === undefined ? say('Number {number}', { number }) : say('Cow {number}', { number: only.number }),
      children: (
        <>
          <p class="lead">
            {say('As at {milking}, {time}.', {
              milking: hand.format.milking(answer.milking.id),
              time: hand.format.clock(instantText(answer.milking.start)),
            })}
          </p>
          <Unplaced setting={setting} />
          {shown.length === 0 ? <UnknownCow number={number} herd={herd} hand={hand} ask={ask} /> : null}
          {shown.length > 1 ? (
            <p class="problem">
              {say(
                '{number} may mean {n, plural, one {# cow} other {# cows}}: each of them stands below. What is written under this number may count for each, and holds each.',
                { number, n: shown.length },
              )}
            </p>
          ) : null}
          {only !== undefined && only.number !== number && only.file.cow.officialId !== number.replaceAll(' ', '') ? (
            <p class="done">
              {say(
                bears
                  ? 'She bore the number {number}; now she is {now}.'
                  : 'Nobody bears {number}; without zeros in front it is {now}.',
                { number, now: only.number },
              )}
            </p>
          ) : null}
          {shown.map((found, index) => (
            <OneCow found={found} index={index} isAlone={only !== undefined} setting={setting} />
          ))}
          {!showsGone && gone.length > 0 ? (
            <p>
              {sayWith(
                '{n, plural, one {A cow that is gone bore the number {number} too: <a>show her as well</a>} other {# cows that are gone bore the number {number} too: <a>show them as well</a>}}.',
                {
                  n: gone.length,
                  number,
                  a: (inner) => <a href={addressOf(setting, { gone: '1' })}>{inner}</a>,
                },
              )}
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
    throw new SaidProblem(
      'not-valid',
      '“{text}” is not a milking; the address wants one such as {example}, or none for the next',
      { text: milking.slice(0, 40), example: '?milking=2026-03-14/afternoon' },
    );
  return atHand(desk, visitor, '/herd', milking);
};

const Doubts = ({ setting: { history, hand } }: { setting: Setting }) =>
  history.doubts.length === 0 ? null : (
    <section class="notices doubt" aria-labelledby="doubts">
      <h2 id="doubts">{say('To settle')}</h2>
      <ul>
        {history.doubts.map((notice) => (
          <li>
            {hand.says(notice.because)} <a href={`/open#${encodeURIComponent(notice.key)}`}>{say('Settle')}</a>
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
