/** Which lists a cow is on and why: the rule, the sentence with its arithmetic, and the entries behind it. */
import type { Entry } from '../../../events/entry.ts';
import type { Because } from '../../../projections/because.ts';
import type { WhyEntry, WhyList } from '../../../projections/why.ts';
import { instantText } from '../../../shared/instant.ts';
import type { Speaking } from '../speaking.ts';
import { titleOf } from '../write/written.tsx';

const NAMES: Readonly<Record<WhyList, string>> = {
  'milk-hold': 'Milk hold',
  'bands-off': 'Bands off',
  'treat-now': 'Treat now',
  'dry-off': 'Dry-off',
  'fresh-moves': 'Fresh moves',
  sort: 'Sort',
  counts: 'Counts',
  'milking-plan': 'Slow cows',
  'beef-hold': 'Beef hold',
};

interface Props {
  readonly lists: readonly WhyEntry[];
  readonly entries: ReadonlyMap<string, Entry>;
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
        Not on:{' '}
        {lists
          .filter(({ on }) => !on)
          .map(({ list }) => NAMES[list].toLowerCase())
          .join(', ')}
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
    <h4>
      {NAMES[list.list]}: {list.on ? 'yes' : 'no'}
    </h4>
    <Reasons reasons={list.reasons} entries={entries} speaking={speaking} />
    {list.over.length === 0 ? null : (
      <>
        <p>Over:</p>
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
              {entry.subject === undefined ? '' : ` ${entry.subject}`}, {speaking.format.time(instantText(entry.at))},
              by {entry.author}, entry {entry.position}
            </small>
          );
        })}
      </li>
    ))}
  </ul>
);
