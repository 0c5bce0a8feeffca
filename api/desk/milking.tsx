/** The first page: the next milking, what stands on each sheet, what changed since the last one, and the button that issues it. */

import { PRINTED_NAMES } from '../../print/sheets.ts';
import type { Milking } from '../../projections/schedule.ts';
import { firstOf } from '../../projections/schedule.ts';
import type { Views } from '../../projections/views.ts';
import { instantText } from '../../shared/instant.ts';
import { parseLocalDay } from '../../shared/local-day.ts';
import { mayAsk } from '../devices/roles.ts';
import type { Ask, Desk, DeskPage } from './ask.ts';
import { type AtHand, atHand } from './at-hand.ts';
import { Cows } from './cows.tsx';
import { goTo, page } from './layout.tsx';
import { Notices } from './notices.tsx';
import { PaperTroubleSaid } from './paper-trouble.tsx';
import { type Sentence, say, sayWith } from './say.tsx';
import { sinceLast } from './since-last.ts';

export const milkingPages: readonly DeskPage[] = [
  { method: 'get', path: '/', right: 'sheets', run: (desk, ask) => milkingPage(desk, ask) },
  {
    method: 'get',
    path: '/milking/:date/:name',
    right: 'sheets',
    run: (desk, ask) => milkingPage(desk, ask, `${ask.params.date}/${ask.params.name}`),
  },
  {
    method: 'get',
    path: '/milking',
    right: 'sheets',
    run: (desk, { url }) => {
      const day = parseLocalDay(url.searchParams.get('date') ?? '');
      const name = url.searchParams.get('name') ?? '';
      const { schedule } = desk.knowing.now().known.farm;
      const there = day.ok ? schedule?.on(day.value) : undefined;
      const milking = there?.find((each) => each.name === name) ?? there?.[0];
      return goTo(milking === undefined ? '/' : `/milking/${milking.id}`);
    },
  },
];

const milkingPage = (desk: Desk, ask: Ask, milking?: string): Response | Promise<Response> => {
  const hand = atHand(desk, ask.visitor, '/', milking);
  if (hand === undefined) return goTo('/begin');
  const { answer, format, frame } = hand;
  const { views } = answer;
  const { visitor } = ask;
  return page({
    ...frame,
    title: `${format.longDay(answer.milking.day)}, ${format.milkingName(answer.milking.name)}`,
    children: (
      <>
        <p class="lead">
          {say('Starts {start}; {minutes, plural, one {# minute} other {# minutes}}, done about {ends}.', {
            start: format.clock(views.milking.start),
            minutes: Math.round(views.sheets['milking-plan'].minutes),
            ends: format.clock(views.sheets['milking-plan'].ends),
          })}
        </p>
        <Notices notices={views.alerts} kind="alert" hand={hand} />
        <Issuing desk={desk} ask={ask} hand={hand} />
        <Lists views={views} hand={hand} />
        <Notices notices={views.doubts} kind="doubt" hand={hand} />
        <Others hand={hand} desk={desk} />
        {mayAsk(visitor.caller.role, 'push') ? (
          <p>
            <a href="/write">{say('Write something down')}</a> ·{' '}
            <a href="/paper">{say('Write up a sheet that came back')}</a>
          </p>
        ) : null}
      </>
    ),
  });
};

const Issuing = ({ desk, ask, hand }: { desk: Desk; ask: Ask; hand: AtHand }) => {
  const { answer, format } = hand;
  const { known } = answer;
  const { visitor } = ask;
  const last = known.farm.issued.findLast((each) => each.data.milking === answer.milking.id);
  const troubles = desk.issuing.troubles.standing();
  const isNowhere = troubles.some(({ ref }) => ref !== undefined && ref === last?.data.ref);
  const since = sinceLast(answer);
  return (
    <section class="card issue" aria-label={say('Sheets')}>
      {last === undefined ? (
        <p>
          <strong>{say('No sheet is issued for this milking yet.')}</strong>
        </p>
      ) : (
        <p>
          {sayWith(
            isNowhere ? 'Issued, but not printed: <a>{ref}</a>, {time}.' : 'On the wall: <a>{ref}</a>, issued {time}.',
            {
              a: (inner) => <a href={`/issued/${last.data.ref}`}>{inner}</a>,
              ref: last.data.ref,
              time: format.time(instantText(last.at)),
            },
          )}
        </p>
      )}
      <PaperTroubleSaid troubles={troubles} format={format} />
      {since === undefined ? null : (
        <p>
          {say(
            'Since the last sheet: {fresh, plural, one {# cow} other {# cows}} new on hold, {off, plural, one {# cow} other {# cows}} off (bands off), {gone, plural, one {# cow} other {# cows}} gone otherwise.',
            { ...since },
          )}
        </p>
      )}
      <div class="actions">
        {mayAsk(visitor.caller.role, 'issue') ? (
          <form method="post" action="/issue">
            <input type="hidden" name="once" value={visitor.once()} />
            <input type="hidden" name="milking" value={answer.milking.id} />
            <button type="submit" class="big">
              {say(desk.printer === undefined ? 'Issue the sheets and show them' : 'Issue the sheets and print them')}
            </button>
          </form>
        ) : null}
        <a class="button" href={`/look/${answer.milking.id}/wall`}>
          {say('Look at the wall sheets first')}
        </a>
      </div>
      <details>
        <summary>{say('Look at one sheet')}</summary>
        <ul class="inline">
          {PRINTED_NAMES.map((name) => (
            <li>
              <a href={`/look/${answer.milking.id}/${name}`}>{say(SHEETS[name])}</a>
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
};

/** To be said. */
export const SHEETS = {
  wall: 'Wall set',
  'milk-hold': 'Milk hold',
  'dry-off': 'Dry-off',
  'fresh-moves': 'Fresh moves',
  sort: 'Sort',
  counts: 'Counts',
  'milking-plan': 'Milking plan',
  'beef-hold': 'Beef hold',
  office: 'Office',
} as const satisfies Readonly<Record<(typeof PRINTED_NAMES)[number] | 'wall', Sentence>>;

const Lists = ({ views, hand }: { views: Views; hand: AtHand }) => {
  const { sheets } = views;
  const hold = sheets['milk-hold'];
  const dry = sheets['dry-off'];
  const fresh = sheets['fresh-moves'];
  return (
    <dl class="lists">
      <div class="hold">
        <dt>{counted('<b>{n}</b> milk out of the tank', hold.held.length)}</dt>
        <dd>
          {hold.unplaced.length > 0 ? (
            <p class="problem">
              {say('Find first: {numbers}.', {
                numbers: hold.unplaced.map((row) => row.number ?? say('a number nobody can read')).join(', '),
              })}{' '}
              <a href="/open">{say('Settle')}</a>
            </p>
          ) : null}
          {hold.held.length === 0 ? <p>{say('Nobody is on hold.')}</p> : null}
          {hold.groups.map((group) => {
            const rows = hold.held.filter((row) => row.group === group.group);
            return (
              <p>
                <span class="group">{group.group}</span>{' '}
                {rows.length === 0 ? (
                  say('none on hold')
                ) : (
                  <Cows numbers={rows.map((row) => row.cow)} fresh={newOf(rows)} />
                )}
              </p>
            );
          })}
          <Elsewhere views={views} />
        </dd>
      </div>
      <div>
        <dt>{counted('<b>{n}</b> bands off', hold.cleared.length)}</dt>
        <dd>{hold.cleared.length === 0 ? say('Nobody.') : <Cows numbers={hold.cleared.map((row) => row.cow)} />}</dd>
      </div>
      <div>
        <dt>{counted('<b>{n}</b> treat now', hold.treat.length)}</dt>
        <dd>
          {hold.treat.length === 0
            ? say('Nobody.')
            : hold.treat.map((row) => (
                <p>
                  <Cows numbers={[row.cow]} />{' '}
                  {say(
                    row.overdue
                      ? '{medicine}, dose {dose} of {of} (overdue: ask first)'
                      : '{medicine}, dose {dose} of {of}',
                    { medicine: row.medicine, dose: row.dose, of: row.of },
                  )}
                </p>
              ))}
        </dd>
      </div>
      <div>
        <dt>{counted('<b>{n}</b> sort at the gate', sheets.sort.cows.length)}</dt>
        <dd>
          {sheets.sort.cows.length === 0
            ? say('Nobody.')
            : [...groupsOf(sheets.sort.cows)].map(([to, rows]) => (
                <p>
                  <span class="group">{to}</span> <Cows numbers={rows.map((row) => row.cow)} />
                </p>
              ))}
          {sheets.sort.cannot.length > 0 ? (
            <p>
              {sayWith('Won’t come through: {cows}', {
                cows: <Cows numbers={sheets.sort.cannot.map((row) => row.cow)} />,
              })}
            </p>
          ) : null}
        </dd>
      </div>
      <div>
        <dt>{counted('<b>{n}</b> leave the fresh pen', fresh.out.length)}</dt>
        <dd>
          {fresh.out.map((row) => (
            <p>{sayWith('{cow} to {group}', { cow: <Cows numbers={[row.cow]} />, group: row.to })}</p>
          ))}
          <p>
            {fresh.in.length === 0
              ? say('{n, plural, one {# cow stays} other {# cows stay}}.', { n: fresh.stay.length })
              : sayWith('{n, plural, one {# cow stays} other {# cows stay}}; come in: {cows}', {
                  n: fresh.stay.length,
                  cows: <Cows numbers={fresh.in.map((row) => row.cow)} />,
                })}
          </p>
        </dd>
      </div>
      <div>
        <dt>{counted('<b>{n}</b> due for dry-off', dry.due.length)}</dt>
        <dd>
          {dry.due.length === 0 ? say('Nobody.') : <Cows numbers={dry.due.map((row) => row.cow)} />}
          {dry.undecided.length > 0 ? (
            <p>{sayWith('Undecided: {cows}', { cows: <Cows numbers={dry.undecided.map((row) => row.cow)} /> })}</p>
          ) : null}
        </dd>
      </div>
      <div>
        <dt>{counted('<b>{n}</b> in milk', sheets.counts.total.inMilk)}</dt>
        <dd>
          <ul class="inline">
            {sheets.counts.groups.map((row) => (
              <li>
                <a href={`/herd?group=${encodeURIComponent(row.group)}`}>{row.group}</a> {row.head}
                {row.countedDifference !== null && row.countedDifference !== 0
                  ? ` ${say('(last count {count}, {difference})', {
                      count: row.lastCount ?? '',
                      difference: `${row.countedDifference > 0 ? '+' : ''}${row.countedDifference}`,
                    })}`
                  : ''}
              </li>
            ))}
          </ul>
        </dd>
      </div>
      <div>
        <dt>{counted('<b>{n}</b> beef hold', sheets['beef-hold'].cows.length)}</dt>
        <dd>
          <a href={`/look/${hand.answer.milking.id}/beef-hold`}>{say('The list')}</a>
        </dd>
      </div>
      {views.notReturned.length > 0 ? (
        <div>
          <dt>{counted('<b>{n}</b> not written up', views.notReturned.length)}</dt>
          <dd>
            <ul class="inline">
              {views.notReturned.slice(-8).map(({ ref, milking }) => (
                <li>
                  <a href={`/paper?ref=${ref}`}>{ref}</a> {hand.format.milking(milking)}
                </li>
              ))}
            </ul>
          </dd>
        </div>
      ) : null}
    </dl>
  );
};

/** How many, large, and what of. */
const counted = (sentence: Sentence, n: number) => sayWith(sentence, { n, b: (inner) => <b>{inner}</b> });

/** Held cows that stand in no group of this milking: strayed dry ones and the like. */
const Elsewhere = ({ views }: { views: Views }) => {
  const hold = views.sheets['milk-hold'];
  const named = new Set(hold.groups.map(({ group }) => group));
  const rows = hold.held.filter((row) => !named.has(row.group));
  return rows.length === 0 ? null : (
    <p>
      <span class="group">{say('elsewhere')}</span> <Cows numbers={rows.map((row) => row.cow)} fresh={newOf(rows)} />
    </p>
  );
};

const newOf = (rows: readonly { readonly cow: string; readonly isNew: boolean }[]): ReadonlySet<string> =>
  new Set(rows.filter((row) => row.isNew).map((row) => row.cow));

const groupsOf = <T extends { readonly to: readonly string[] }>(rows: readonly T[]): Map<string, T[]> => {
  const map = new Map<string, T[]>();
  for (const row of rows) {
    const to = row.to.join(` ${say('or')} `) || say('ask where to');
    map.set(to, [...(map.get(to) ?? []), row]);
  }
  return map;
};

const Others = ({ hand, desk }: { hand: AtHand; desk: Desk }) => {
  const { answer, schedule, format } = hand;
  const before = schedule.startedBy((answer.milking.start - 1) as Milking['start']);
  const after = firstOf(schedule.after(answer.milking.start));
  const names = [...new Set(schedule.inForceAt(desk.now()).data.milkings.map(({ name }) => name))];
  return (
    <nav class="others" aria-label={say('Other milkings')}>
      {before === undefined ? null : <a href={`/milking/${before.id}`}>← {format.milking(before.id)}</a>}
      {after === undefined ? null : <a href={`/milking/${after.id}`}>{format.milking(after.id)} →</a>}
      <form method="get" action="/milking">
        <label>
          {say('Date')} <input type="date" name="date" value={answer.milking.day} required />
        </label>
        <label>
          {say('Milking')}{' '}
          <select name="name">
            {names.map((name) => (
              <option value={name} selected={name === answer.milking.name}>
                {format.milkingName(name)}
              </option>
            ))}
          </select>
        </label>
        <button class="quiet" type="submit">
          {say('Go')}
        </button>
      </form>
    </nav>
  );
};
