/** A milking as it was known then, beside what hung on the wall, beside what is known now; every difference with its reason. */
import type { Child } from 'hono/jsx';
import type { EntryOf } from '../../../events/entry.ts';
import { parseInstant } from '../../../shared/instant.ts';
import { parseLocalDay } from '../../../shared/local-day.ts';
import type { ReplayQuestion } from '../../replay.ts';
import { type Difference, type DifferenceReason, type IssuedThen, type Replay, replay } from '../../replay.ts';
import type { Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { page } from '../layout.tsx';
import { SHEETS } from '../milking.tsx';
import { inEnglish, type Sentence, say, sayWith } from '../say.tsx';
import { HeldBeside, ListsBeside } from './records-beside.tsx';
import { sheetOfIssued, sheetOfViews } from './records-lists.ts';

/** Throws a `UserProblem` where the book knew no farm at that moment. */
export const thenPage = (desk: Desk, hand: AtHand, question: ReplayQuestion): Promise<Response> => {
  const answer = replay(desk.book, question);
  const { format } = hand;
  const { past, present, issued, differences } = answer;
  const wall = onWall(answer, question.ref);
  const three = {
    past: sheetOfViews(past.views),
    wall: wall === undefined ? undefined : { ref: wall.data.ref, sheetOf: sheetOfIssued(wall) },
    present: sheetOfViews(present.views),
  };
  return page({
    ...hand.frame,
    title: say('As known then: {milking}', { milking: format.milking(past.milking.id) }),
    children: (
      <>
        <p class="lead">
          {say(
            'What this book knew with {past, plural, one {# entry} other {# entries}}, worked out as of {time}; beside it what hung on the wall, and what {now, plural, one {# entry} other {# entries}} say now.',
            { past: past.position, time: format.time(past.views.asOf), now: present.position },
          )}
        </p>
        <section class="card" aria-labelledby="wall">
          <h2 id="wall">{say('On the wall')}</h2>
          {issued.length === 0 ? <p>{say('No sheets were issued for this milking.')}</p> : null}
          {issued.map((set) => (
            <IssuedSet set={set} hand={hand} isShown={set.ref === wall?.data.ref} />
          ))}
        </section>
        <section aria-labelledby="lists">
          <h2 id="lists">{say('List by list')}</h2>
          <ListsBeside three={three} />
        </section>
        <section aria-labelledby="held">
          <h2 id="held">{say('Milk out of the tank, cow by cow')}</h2>
          <HeldBeside three={three} format={format} />
        </section>
        <section aria-labelledby="differences">
          <h2 id="differences">{say('What would be otherwise by what is known now, and why')}</h2>
          <Differences differences={differences} hand={hand} />
        </section>
        <p>
          <a href="/records">{say('Ask about another moment')}</a> ·{' '}
          <a href={`/milking/${past.milking.id}`}>{say('This milking as known now')}</a>
        </p>
      </>
    ),
  });
};

/** The set asked by its ref; else the last that was issued by then. */
const onWall = ({ past, present }: Replay, ref: string | undefined): EntryOf<'sheet-issued'> | undefined => {
  const sets = (ref === undefined ? past : present).known.farm.issued;
  return sets.findLast(({ data }) => data.milking === past.milking.id && (ref === undefined || data.ref === ref));
};

const IssuedSet = ({ set, hand, isShown }: { set: IssuedThen; hand: AtHand; isShown: boolean }) => (
  <div class="set">
    <h3>
      {sayWith('<a>{ref}</a>, issued {time}, position {position}', {
        a: (inner) => <a href={`/issued/${set.ref}`}>{inner}</a>,
        ref: set.ref,
        time: hand.format.time(set.issuedAt),
        position: String(set.position),
      })}
      {isShown ? ` ${say('(the one beside which the lists stand)')}` : ''}
    </h3>
    <p class={set.agrees === false ? 'problem' : undefined}>{verdictOf(set)}</p>
    {set.papers.length === 0 ? (
      <p>{say('Its papers are not kept in this book.')}</p>
    ) : (
      <ul class="papers">
        {set.papers.map((sheet) => (
          <li>
            <a class="button" href={`/issued/${set.ref}/${sheet}.pdf`}>
              {say('{sheet} (PDF)', { sheet: nameOf(sheet) })}
            </a>
          </li>
        ))}
      </ul>
    )}
  </div>
);

const nameOf = (sheet: string): string => {
  const name = Object.entries(SHEETS).find(([each]) => each === sheet)?.[1];
  return name === undefined ? sheet : say(name);
};

const verdictOf = ({ agrees, why }: IssuedThen): Child => {
  if (agrees === true) return say('Worked out again from the log at its position, every row agrees.');
  const says = why === null ? say('nobody can say why') : inEnglish(why);
  return (
    <>
      {say(agrees === false ? 'DOES NOT AGREE:' : 'Not worked out again here:')} {says}.
    </>
  );
};

const LIST_NAMES: Readonly<Record<string, Sentence>> = {
  'milk-hold': 'Milk hold',
  unplaced: 'Head of the milk-hold sheet',
  'treat-now': 'Treat now',
  'dry-off': 'Dry-off',
  'fresh-moves': 'Fresh moves',
  sort: 'Sort',
  'beef-hold': 'Beef hold',
};

const listName = (list: string): string => {
  const name = LIST_NAMES[list];
  return name === undefined ? list : say(name);
};

const Differences = ({ differences, hand }: { differences: readonly Difference[]; hand: AtHand }) =>
  differences.length === 0 ? (
    <p class="card">{say('Nothing that is known now would have changed these sheets.')}</p>
  ) : (
    <section class="scroll" tabindex={0} aria-label={say('Differences, the table')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('List')}</th>
            <th scope="col">{say('Cow')}</th>
            <th scope="col">{say('As known then')}</th>
            <th scope="col">{say('As known now')}</th>
            <th scope="col">{say('Why')}</th>
          </tr>
        </thead>
        <tbody>
          {differences.map(({ list, cow, was, is, because }) => (
            <tr>
              <td>{listName(list)}</td>
              <th scope="row">
                <span class="cow">{cow}</span>
              </th>
              <td>{inWords(list, was, hand)}</td>
              <td>{inWords(list, is, hand)}</td>
              <td>
                {because.length === 0 ? say('no other entry: the time of asking is another') : null}
                {because.map((reason) => (
                  <p>
                    {whyText(reason, hand)} <span class="hint code">{reason.entry}</span>
                  </p>
                ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

const TIMES = /\d{4}-\d{2}-\d{2}(T[\d:.]+Z|\/[^,;]+)?/g;

/** The row's facts with the times as the farm's clock has them. */
const inWords = (list: string, says: string | null, { format }: AtHand): Child => {
  if (says === null) return say('not on it');
  if (list === 'unplaced') return say('on it');
  const words = says.replace(TIMES, (text, more?: string) => {
    if (!parseLocalDay(text.slice(0, 10)).ok) return text;
    if (more === undefined) return format.day(text);
    if (more.startsWith('/')) return format.milking(text);
    return parseInstant(text).ok ? format.time(text) : text;
  });
  return inEnglish(words);
};

const whyText = ({ how, type, time, recordedtime, author }: DifferenceReason, { format }: AtHand): Child => {
  const known = format.time(recordedtime);
  if (how === 'struck-since') return say('struck {time} by {author}', { time: known, author });
  if (how === 'set-aside-later')
    return sayWith('an entry was set aside {time}: {problem}', { time: known, problem: inEnglish(type) });
  return say('{about} of {time}, known here only from {known}, by {author}', {
    about: format.about(type),
    time: format.time(time),
    known,
    author,
  });
};
