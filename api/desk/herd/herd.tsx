/** The herd at the next milking: find a cow, choose a group or a list, sort, and take the same rows as a table file. */
import type { Child } from 'hono/jsx';
import { instantText } from '../../../shared/instant.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { say, sayWith } from '../say.tsx';
import { herdCsv } from './herd-csv.ts';
import { addressOf, chosen, type HerdQuery, herdQuery } from './herd-query.ts';
import { type HerdRow, herdNow } from './herd-rows.ts';
import { HerdTable } from './herd-table.tsx';

export const herdPages: readonly DeskPage[] = [
  { method: 'get', path: '/herd', right: 'herd', run: (desk, ask) => herdPage(desk, ask) },
  {
    method: 'get',
    path: '/herd.csv',
    right: 'herd',
    run: (desk, ask) => {
      const found = askedHerd(desk, ask);
      if (found === undefined) return goTo('/begin');
      const { hand, rows } = found;
      const name = hand.answer.milking.id.replace(/[^0-9A-Za-z-]+/g, '-');
      return new Response(herdCsv(rows, hand.schedule), {
        headers: {
          'content-type': 'text/csv; charset=utf-8; header=present',
          'content-disposition': `attachment; filename="herd-${name}.csv"`,
        },
      });
    },
  },
];

interface Asked {
  readonly hand: AtHand;
  readonly all: readonly HerdRow[];
  readonly rows: readonly HerdRow[];
  readonly query: HerdQuery;
  readonly groups: readonly string[];
}

const askedHerd = (desk: Desk, { visitor, url }: Ask): Asked | undefined => {
  const hand = atHand(desk, visitor, '/herd');
  const herd = hand === undefined ? undefined : herdNow(hand.answer);
  if (hand === undefined || herd === undefined) return undefined;
  const groups = herd.moment.groups.map(({ name }) => name);
  const query = herdQuery(url.searchParams, groups);
  return { hand, all: herd.rows, rows: chosen(herd.rows, query), query, groups };
};

const herdPage = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const found = askedHerd(desk, ask);
  if (found === undefined) return goTo('/begin');
  const { hand, all, rows, query } = found;
  const { format, frame, answer } = hand;
  return page({
    ...frame,
    title: say('Herd'),
    children: (
      <>
        <p class="lead">
          {say('As at {milking}, {time}.', {
            milking: format.milking(answer.milking.id),
            time: format.clock(instantText(answer.milking.start)),
          })}
        </p>
        {query.problems.map((problem) => (
          <p class="problem" role="alert">
            {problem}
          </p>
        ))}
        <Choice query={query} groups={found.groups} />
        {all.length === 0 ? (
          <p>
            {sayWith('No cow is in the herd yet. <a>Write down the first one</a>, or read in a herd list.', {
              a: (inner) => <a href="/write">{inner}</a>,
            })}
          </p>
        ) : rows.length === 0 ? (
          <Nobody query={query} all={all.length} />
        ) : (
          <>
            <p id="count">
              <strong>{countText(rows, all.length)}</strong>
            </p>
            <HerdTable rows={rows} query={query} speaking={hand} />
            <p>
              <a href={addressOf('/herd.csv', query)}>
                {say('{n, plural, one {This cow} other {These # cows}} as a table file (CSV)', { n: rows.length })}
              </a>
            </p>
          </>
        )}
      </>
    ),
  });
};

const countText = (rows: readonly HerdRow[], all: number): string => {
  const held = rows.filter((row) => row.milk.hold === 'held').length;
  const meat = rows.filter((row) => row.meat.held).length;
  const who =
    rows.length === all
      ? say('{n, plural, one {# cow} other {# cows}}', { n: all })
      : say('{n, number} of {all, plural, one {# cow} other {# cows}}', { n: rows.length, all });
  const inMilk = rows.filter((row) => row.inMilk).length;
  return say('{who}: {inMilk} in milk, {held} on milk hold, {meat} on meat hold', { who, inMilk, held, meat });
};

const Nobody = ({ query, all }: { query: HerdQuery; all: number }) => (
  <>
    <p class="problem" role="status">
      {query.find === undefined
        ? say('None of {n, plural, one {# cow} other {# cows}} is on this list.', { n: all })
        : say('None of {n, plural, one {# cow} other {# cows}} answers to “{find}” here.', {
            n: all,
            find: query.find,
          })}
    </p>
    <p>
      {query.find === undefined
        ? sayWith('<herd>the whole herd</herd>.', { herd: toHerd })
        : sayWith(
            '<a>See what is written under {find}</a>: cows that left, numbers like it, lines without a cow. Or see <herd>the whole herd</herd>.',
            {
              find: query.find,
              a: (inner) => <a href={`/cow/${encodeURIComponent(query.find ?? '')}`}>{inner}</a>,
              herd: toHerd,
            },
          )}
    </p>
  </>
);

const toHerd = (inner: Child) => <a href="/herd">{inner}</a>;

const Choice = ({ query, groups }: { query: HerdQuery; groups: readonly string[] }) => (
  <search>
    <form class="row choice-of-cows" method="get" action="/herd">
      <p class="field">
        <label for="find">{say('Number, or part of it')}</label>
        <input id="find" name="find" value={query.find ?? ''} maxlength={40} autocomplete="off" inputmode="text" />
      </p>
      <p class="field">
        <label for="group">{say('Group')}</label>
        <select id="group" name="group">
          <option value="">{say('All groups')}</option>
          {groups.map((group) => (
            <option value={group} selected={group === query.group}>
              {group}
            </option>
          ))}
        </select>
      </p>
      <p class="field">
        <label for="hold">{say('On hold')}</label>
        <select id="hold" name="hold">
          <option value="">{say('Held or not')}</option>
          <option value="milk" selected={query.hold === 'milk'}>
            {say('Milk on hold')}
          </option>
          <option value="meat" selected={query.hold === 'meat'}>
            {say('Meat on hold')}
          </option>
        </select>
      </p>
      <p class="field">
        <label for="show">{say('List')}</label>
        <select id="show" name="show">
          <option value="">{say('Every cow')}</option>
          <option value="dry-off" selected={query.show === 'dry-off'}>
            {say('Due for dry-off')}
          </option>
          <option value="fresh" selected={query.show === 'fresh'}>
            {say('Fresh')}
          </option>
        </select>
      </p>
      {query.sort === undefined ? null : <input type="hidden" name="sort" value={query.sort} />}
      {query.sort !== undefined && query.down ? <input type="hidden" name="down" value="1" /> : null}
      <p class="field">
        <button type="submit">{say('Show')}</button>
      </p>
    </form>
    {query.sort === undefined ? null : (
      <p>
        {say('Sorted by a column.')}{' '}
        <a href={addressOf('/herd', query, { sort: undefined, down: false })}>{say('In the order of the sheets')}</a>
      </p>
    )}
  </search>
);
