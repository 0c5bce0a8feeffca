/** The farm's set-up in plain words: what is in force, and what will be. */

import { kindsFor } from '../../devices/roles.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { say, sayWith } from '../say.tsx';
import { farmChangePages, latestOf } from './farm-change.tsx';
import { Changes } from './farm-look.tsx';
import { changedLines, setUpLines } from './farm-words.ts';

export const farmPages: readonly DeskPage[] = [
  { method: 'get', path: '/farm', right: 'herd', run: (desk, ask) => inForcePage(desk, ask) },
  ...farmChangePages,
];

const inForcePage = (desk: Desk, { visitor, url }: Ask): Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/farm');
  if (hand === undefined) return goTo('/begin');
  const { schedule, format, frame } = hand;
  const now = schedule.inForceAt(desk.now());
  // The first one is in force on all earlier days as well: since when is nothing that it says.
  const isFirst = now.id === schedule.setUps[0]?.id;
  const latest = latestOf(hand);
  const lines = setUpLines(now.data);
  const may = kindsFor(visitor.caller.role) === null;
  const noCows = hand.answer.known.herd.animals.length === 0;
  return page({
    ...frame,
    title: say('The farm'),
    children: (
      <>
        {url.searchParams.get('saved') === null ? null : (
          <p class="done" role="status">
            {say('The set-up is written down.')}
          </p>
        )}
        {noCows && may ? (
          <p>
            {sayWith('No cow is in the book yet: <a>go on with setting up</a>.', {
              a: (inner) => <a href="/begin">{inner}</a>,
            })}
          </p>
        ) : null}
        {latest.id === now.id ? null : (
          <section class="notices doubt" aria-label={say('Not in force yet')}>
            <h2>{say('From {day}', { day: format.longDay(latest.from) })}</h2>
            <Changes changes={changedLines(lines, setUpLines(latest.data))} />
          </section>
        )}
        <section class="card" aria-label={say('In force')}>
          <h2>{isFirst ? say('In force') : say('In force since {day}', { day: format.longDay(now.from) })}</h2>
          <dl class="facts">
            {lines.map(({ what, says }) => (
              <div>
                <dt>{what}</dt>
                <dd>{says}</dd>
              </div>
            ))}
          </dl>
        </section>
        {may ? (
          <p class="actions">
            <a class="button" href="/farm/change">
              {say('Change the set-up')}
            </a>
          </p>
        ) : (
          <p>{say('The manager changes it.')}</p>
        )}
      </>
    ),
  });
};
