/** A milking as it was known then, beside what hung on the wall, beside what is known now; every difference with its reason. */
import type { EntryOf } from '../../../events/entry.ts';
import { parseInstant } from '../../../shared/instant.ts';
import { parseLocalDay } from '../../../shared/local-day.ts';
import { plural } from '../../command-line/settings.ts';
import type { ReplayQuestion } from '../../replay.ts';
import { type Difference, type DifferenceReason, type IssuedThen, type Replay, replay } from '../../replay.ts';
import type { Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { page } from '../layout.tsx';
import { SHEETS } from '../milking.tsx';
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
    title: `As known then: ${format.milking(past.milking.id)}`,
    children: (
      <>
        <p class="lead">
          What this book knew with {plural(past.position, 'entry', 'entries')}, worked out as of{' '}
          {format.time(past.views.asOf)}; beside it what hung on the wall, and what{' '}
          {plural(present.position, 'entry', 'entries')} say now.
        </p>
        <section class="card" aria-labelledby="wall">
          <h2 id="wall">On the wall</h2>
          {issued.length === 0 ? <p>No sheets were issued for this milking.</p> : null}
          {issued.map((set) => (
            <IssuedSet set={set} hand={hand} isShown={set.ref === wall?.data.ref} />
          ))}
        </section>
        <section aria-labelledby="lists">
          <h2 id="lists">List by list</h2>
          <ListsBeside three={three} />
        </section>
        <section aria-labelledby="held">
          <h2 id="held">Milk out of the tank, cow by cow</h2>
          <HeldBeside three={three} format={format} />
        </section>
        <section aria-labelledby="differences">
          <h2 id="differences">What would be otherwise by what is known now, and why</h2>
          <Differences differences={differences} hand={hand} />
        </section>
        <p>
          <a href="/records">Ask about another moment</a> ·{' '}
          <a href={`/milking/${past.milking.id}`}>This milking as known now</a>
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
      <a href={`/issued/${set.ref}`}>{set.ref}</a>, issued {hand.format.time(set.issuedAt)}, position {set.position}
      {isShown ? ' (the one beside which the lists stand)' : ''}
    </h3>
    <p class={set.agrees === false ? 'problem' : undefined}>{verdictOf(set)}</p>
    {set.papers.length === 0 ? (
      <p>Its papers are not kept in this book.</p>
    ) : (
      <ul class="papers">
        {set.papers.map((sheet) => (
          <li>
            <a class="button" href={`/issued/${set.ref}/${sheet}.pdf`}>
              {nameOf(sheet)} (PDF)
            </a>
          </li>
        ))}
      </ul>
    )}
  </div>
);

const nameOf = (sheet: string): string => Object.entries(SHEETS).find(([name]) => name === sheet)?.[1] ?? sheet;

const verdictOf = ({ agrees, why }: IssuedThen): string => {
  if (agrees === true) return 'Worked out again from the log at its position, every row agrees.';
  const says = why ?? 'nobody can say why';
  return agrees === false ? `DOES NOT AGREE: ${says}.` : `Not worked out again here: ${says}.`;
};

const LIST_NAMES: Readonly<Record<string, string>> = {
  'milk-hold': 'Milk hold',
  unplaced: 'Head of the milk-hold sheet',
  'treat-now': 'Treat now',
  'dry-off': 'Dry-off',
  'fresh-moves': 'Fresh moves',
  sort: 'Sort',
  'beef-hold': 'Beef hold',
};

const Differences = ({ differences, hand }: { differences: readonly Difference[]; hand: AtHand }) =>
  differences.length === 0 ? (
    <p class="card">Nothing that is known now would have changed these sheets.</p>
  ) : (
    <section class="scroll" tabindex={0} aria-label="Differences, the table">
      <table>
        <thead>
          <tr>
            <th scope="col">List</th>
            <th scope="col">Cow</th>
            <th scope="col">As known then</th>
            <th scope="col">As known now</th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {differences.map(({ list, cow, was, is, because }) => (
            <tr>
              <td>{LIST_NAMES[list] ?? list}</td>
              <th scope="row">
                <span class="cow">{cow}</span>
              </th>
              <td>{inWords(list, was, hand)}</td>
              <td>{inWords(list, is, hand)}</td>
              <td>
                {because.length === 0 ? 'no other entry: the time of asking is another' : null}
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
const inWords = (list: string, says: string | null, { format }: AtHand): string => {
  if (says === null) return 'not on it';
  if (list === 'unplaced') return 'on it';
  return says.replace(TIMES, (text, more?: string) => {
    if (!parseLocalDay(text.slice(0, 10)).ok) return text;
    if (more === undefined) return format.day(text);
    if (more.startsWith('/')) return format.milking(text);
    return parseInstant(text).ok ? format.time(text) : text;
  });
};

const whyText = ({ how, type, time, recordedtime, author }: DifferenceReason, { format }: AtHand): string => {
  const known = format.time(recordedtime);
  if (how === 'struck-since') return `struck ${known} by ${author}`;
  if (how === 'set-aside-later') return `an entry was set aside ${known}: ${type}`;
  return `${format.about(type)} of ${format.time(time)}, known here only from ${known}, by ${author}`;
};
