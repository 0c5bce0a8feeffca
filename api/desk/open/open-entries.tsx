/** Entries behind what stands open, with both times, and the way to strike one or to enter it again. */
import type { Entry } from '../../../events/entry.ts';
import type { Known } from '../../../projections/know.ts';
import { instantText } from '../../../shared/instant.ts';
import { mayWrite } from '../../devices/roles.ts';
import type { Visitor } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { say } from '../say.tsx';

/** What only the book writes, and strikes, can't be struck; a settling ends a matter and is not undone. */
const STAYS = new Set(['sheet-issued', 'entry-struck', 'book-continued', 'settled']);
/** Entered with what belongs to it, not by a form for one cow. */
const NOT_AGAIN = new Set([...STAYS, 'farm-set-up', 'medicine-listed', 'sheet-returned']);

/** The entries of a book by id; one id may stand for several. */
export type EntriesById = Pick<ReadonlyMap<string, readonly Entry[]>, 'get'>;

export const entriesById = ({ ids }: Known): EntriesById => ({
  get: (id) => [...ids.find(id)].sort((a, b) => a.position - b.position),
});

export const Entries = ({
  ids,
  byId,
  hand,
  visitor,
  keepHer,
}: {
  ids: readonly string[];
  byId: EntriesById;
  hand: AtHand;
  visitor: Visitor;
  /** What ends the matter is said beside it: her entering is offered neither for striking nor for another. */
  keepHer?: true;
}) => {
  const found = [...new Set(ids)].flatMap((id) => byId.get(id) ?? []);
  if (found.length === 0) return null;
  const struck = new Map(hand.answer.known.strikes.struck.map(({ entry, by }) => [entry, by]));
  const time = (instant: Entry['at']) => hand.format.time(instantText(instant));
  return (
    <details class="behind">
      <summary>
        {say('{n, plural, one {The entry behind it} other {The # entries behind it}}', { n: found.length })}
      </summary>
      <ul>
        {found.map((entry) => (
          <li>
            <p>
              <strong>
                {entry.subject === undefined ? '' : `${entry.subject}: `}
                {hand.format.about(entry.type)}
              </strong>{' '}
              {detailOf(entry)}
            </p>
            <p class="hint">
              {say('Happened {at}; written down {recorded} by {author}, {device}; position {position}', {
                at: time(entry.at),
                recorded: time(entry.recordedAt),
                author: entry.author,
                device: entry.source,
                position: String(entry.position),
              })}
            </p>
            <Struck by={struck.get(entry)} time={time} />
            {struck.has(entry) || (keepHer && entry.type === 'cow-entered') ? null : (
              <Ways entry={entry} visitor={visitor} />
            )}
          </li>
        ))}
      </ul>
    </details>
  );
};

const Struck = ({ by, time }: { by: Entry | undefined; time: (instant: Entry['at']) => string }) =>
  by?.type === 'entry-struck' ? (
    <p class="hint">
      {say('Struck {time} by {author}: {reason}', {
        time: time(by.recordedAt),
        author: by.author,
        reason: by.data.reason,
      })}
    </p>
  ) : null;

const Ways = ({ entry, visitor }: { entry: Entry; visitor: Visitor }) => {
  const ways: [path: string, words: string][] = [];
  if (!STAYS.has(entry.type) && mayWrite(visitor.caller.role, 'entry-struck'))
    ways.push([
      `/write/entry-struck?entry=${encodeURIComponent(entry.id)}`,
      say(
        entry.type === 'cow-entered'
          ? 'Strike this entry: she leaves the herd, with all that was written of her'
          : 'Strike this entry',
      ),
    ]);
  if (!NOT_AGAIN.has(entry.type) && mayWrite(visitor.caller.role, entry.type))
    ways.push([writePath(entry.type, entry.subject), say('Enter it again, put right')]);
  return <Links ways={ways} />;
};

/** Ways on, each a path and its words. */
export const Links = ({ ways }: { ways: readonly (readonly [path: string, words: string])[] }) =>
  ways.length === 0 ? null : (
    <p class="ways">
      {ways.map(([path, words]) => (
        <>
          <a href={path}>{words}</a>{' '}
        </>
      ))}
    </p>
  );

export const writePath = (type: string, cow?: string): string =>
  `/write/${type}${cow === undefined ? '' : `?cow=${encodeURIComponent(cow)}`}`;

/** What it says, field by field. */
const detailOf = (entry: Entry): string =>
  Object.entries(entry.data)
    .filter(([field]) => field !== 'sheets')
    .map(([field, value]) => `${field} ${typeof value === 'object' ? JSON.stringify(value) : String(value)}`)
    .join(', ');
