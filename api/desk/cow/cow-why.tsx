/** Which lists a cow is on and why: the rule, the sentence with its arithmetic, and the entries behind it. */
import type { Because } from '../../../projections/because.ts';
import type { WhyEntry, WhyList } from '../../../projections/why.ts';
import { instantText } from '../../../shared/instant.ts';
import type { EntryFinder } from '../../tonight.ts';
import { type Sentence, say } from '../say.tsx';
import type { Speaking } from '../speaking.ts';
import { titleOf } from '../write/written.tsx';

const NAMES = {
  'milk-hold': 'Milk hold',
  'bands-off': 'Bands off',
  'treat-now': 'Treat now',
  'dry-off': 'Dry-off',
  'fresh-moves': 'Fresh moves',
  sort: 'Sort',
  counts: 'Counts',
  'milking-plan': 'Slow cows',
  'beef-hold': 'Beef hold',
} as const satisfies Readonly<Record<WhyList, Sentence>>;

interface Props {
  readonly lists: readonly WhyEntry[];
  readonly entries: EntryFinder;
  readonly speaking: Speaking;
}

export const CowWhy = ({ lists, entries, speaking }: Props) => (
  <>
    {lists
      .filter(({ on }) => on)
      .map((list) => (
        <List list={list} entries={entries} speaking={speaking} />
      ))}
    <details>
      <summary>
        {say('Not on: {lists}', {
          lists: lists
            .filter(({ on }) => !on)
            .map(({ list }) => say(NAMES[list]).toLowerCase())
            .join(', '),
        })}
      </summary>
      {lists
        .filter(({ on }) => !on)
        .map((list) => (
          <List list={list} entries={entries} speaking={speaking} />
        ))}
    </details>
  </>
);

const List = ({ list, entries, speaking }: { list: WhyEntry } & Omit<Props, 'lists'>) => (
  <section class="of-list">
    <h4>{say(list.on ? '{list}: yes' : '{list}: no', { list: say(NAMES[list.list]) })}</h4>
    <Reasons reasons={list.reasons} entries={entries} speaking={speaking} />
    {list.over.length === 0 ? null : (
      <>
        <p>{say('Over:')}</p>
        <Reasons reasons={list.over} entries={entries} speaking={speaking} />
      </>
    )}
  </section>
);

export const Reasons = ({ reasons, entries, speaking }: { reasons: readonly Because[] } & Omit<Props, 'lists'>) => (
  <ul class="why">
    {reasons.map((reason) => (
      <li>
        <span class="rule">{reason.rule}</span> {speaking.says(reason)}
        {[...new Set(reason.entries)].map((id) => {
          const entry = entries.get(id);
          return entry === undefined ? null : (
            <small class="hint">
              {titleOf(entry)}
              {entry.subject === undefined ? '' : ` ${entry.subject}`},{' '}
              {say('{time}, by {author}, entry {position}', {
                time: speaking.format.time(instantText(entry.at)),
                author: entry.author,
                position: entry.position,
              })}
            </small>
          );
        })}
      </li>
    ))}
  </ul>
);
