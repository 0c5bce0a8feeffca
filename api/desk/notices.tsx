/** Alerts and doubts as a list, each with the way to what settles it. */
import type { Notice } from '../../projections/views.ts';
import type { AtHand } from './at-hand.ts';

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
    <section class={`notices ${kind}`} aria-label={TITLES[kind]}>
      <h2>
        {TITLES[kind]} ({notices.length})
      </h2>
      <ul>
        {notices.slice(0, SHOWN).map((notice) => (
          <li>
            {hand.says(notice.because)} <a href={`/open#${encodeURIComponent(notice.key)}`}>Settle</a>
          </li>
        ))}
      </ul>
      {notices.length > SHOWN ? (
        <p>
          <a href="/open">All {notices.length}</a>
        </p>
      ) : null}
    </section>
  );
