/** A thing set aside as it was said, with the reason, when, from whom and by which way; and the way to enter it again. */

import type { Aside } from '../../../events/entry.ts';
import { isEntryType } from '../../../events/kinds.ts';
import { instantText } from '../../../shared/instant.ts';
import { mayWrite } from '../../devices/roles.ts';
import type { Desk, Visitor } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { say } from '../say.tsx';
import { Links, writePath } from './open-entries.tsx';

interface Said {
  readonly text: string;
  readonly door: string | null;
  readonly pointer: string | null;
}

/** Refused at a door, or recorded from another book and of no use to this version. */
const saidOf = ({ book }: Desk, aside: Aside): Said | undefined => {
  const kept = book.setAside(aside.key);
  if (kept !== undefined) return kept;
  const place = /^position (\d+)$/.exec(aside.id ?? '')?.[1];
  const [row] = place === undefined ? book.find(aside.id ?? '') : book.rows(Number(place) - 1, 1);
  return row === undefined ? undefined : { text: row.entry, door: null, pointer: null };
};

export const SetAside = ({
  desk,
  aside,
  hand,
  visitor,
}: {
  desk: Desk;
  aside: Aside;
  hand: AtHand;
  visitor: Visitor;
}) => {
  const said = saidOf(desk, aside);
  const { type, subject, author, time, source } = facts(said?.text ?? '');
  // A line refused here names its door itself, if any is known: another name there is that of a book it came through.
  const peer = said?.door === source ? null : (said?.door ?? null);
  const from = peer === null ? (said?.door ?? author) : author;
  return (
    <>
      <p class="hint">
        {say('Set aside {time}', { time: hand.format.time(instantText(aside.recordedAt)) })}
        {from === undefined ? '' : `, ${say('from {who}', { who: from })}`}
        {author === undefined || author === from ? '' : `, ${say('said by {who}', { who: author })}`}
        {peer === null ? '' : `; ${say('it came from another book, through {peer}', { peer })}`}
        {time === undefined ? '' : `; ${say('it says it happened {time}', { time })}`}
        {said?.pointer === null || said?.pointer === undefined
          ? ''
          : `; ${say('the fault is at {place}', { place: said.pointer })}`}
        .
      </p>
      {said === undefined ? null : (
        <>
          <p>{say('What was said, exactly:')}</p>
          <pre>{said.text}</pre>
        </>
      )}
      <Links
        ways={
          type !== undefined && isEntryType(type) && mayWrite(visitor.caller.role, type)
            ? [[writePath(type, subject), say('Enter it again, put right')]]
            : [['/write', say('Write down what happened')]]
        }
      />
    </>
  );
};

/** What can be read in it, if anything. */
const facts = (text: string): { type?: string; subject?: string; author?: string; time?: string; source?: string } => {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== 'object' || value === null) return {};
    const textAt = (field: string): Record<string, string> => {
      const found: unknown = Object.entries(value).find(([name]) => name === field)?.[1];
      return typeof found === 'string' ? { [field]: found } : {};
    };
    return { ...textAt('type'), ...textAt('subject'), ...textAt('author'), ...textAt('time'), ...textAt('source') };
  } catch {
    return {};
  }
};
