/** Alerts and doubts as a list, each with the way to what settles it. */
import type { Notice } from '../../projections/views.ts';
import type { AtHand } from './at-hand.ts';
import { say } from './say.tsx';

const TITLES = { alert: 'Alerts', doubt: 'Doubts to settle' } as const;
const SHOWN = 6;

export const Notices = ({
  notices,
  kind,
  hand,
}: {
  notices: readonly Notice[];
  kind: 'alert' | 'doubt';
  hand: Pick<AtHand, 'says'>;
}) =>
  notices.length === 0 ? null : (
    <section class={`notices ${kind}`} aria-label={say(TITLES[kind])}>
      <h2>
        {say(TITLES[kind])} ({notices.length})
      </h2>
      <ul>
        {notices.slice(0, SHOWN).map((notice) => (
          <li>
            {hand.says(notice.because)} <a href={`/open#${encodeURIComponent(notice.key)}`}>{say('Settle')}</a>
          </li>
        ))}
      </ul>
      {notices.length > SHOWN ? (
        <p>
          <a href="/open">{say('All {n}', { n: notices.length })}</a>
        </p>
      ) : null}
    </section>
  );
