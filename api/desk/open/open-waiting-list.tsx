/** The holds without an end on the page where things are settled, each with the form or the entry that ends it. */

import { mayWrite } from '../../devices/roles.ts';
import { type Sentence, say } from '../say.tsx';
import { Entries, Links, writePath } from './open-entries.tsx';
import type { OnPage } from './open-on-page.ts';
import { Stands } from './open-stands.tsx';
import { dryOffPath, enterAgainPath } from './open-stating.ts';
import { VetTimes } from './open-vet.tsx';
import type { EndedBy, WaitingHold } from './open-waiting.ts';

export const Waiting = ({ holds, on }: { holds: readonly WaitingHold[]; on: OnPage }) =>
  holds.length === 0 ? null : (
    <section class="open waiting" aria-labelledby="open-waiting">
      <h2 id="open-waiting">{say('Holds without an end ({n})', { n: String(holds.length) })}</h2>
      <p class="hint">{say('Nothing ends these by itself: they wait for the vet, or for an entry.')}</p>
      {holds.map((hold, index) => (
        <WaitingItem hold={hold} number={index} on={on} />
      ))}
    </section>
  );

const WaitingItem = ({ hold, number, on }: { hold: WaitingHold; number: number; on: OnPage }) => {
  const { hand, visitor, moment } = on;
  const { standing, reasons, endedBy, treatment } = hold;
  const entries = reasons.flatMap((reason) => reason.entries);
  return (
    <article class="card item" id={`hold:${standing.file.cow.key}:${treatment ?? entries[0] ?? number}`}>
      <h3 id={`hold-${number}`}>
        {standing.number}: {waitsFor(endedBy)}
      </h3>
      <ul>
        {reasons.map((reason) => (
          <li>{say(reason.key.startsWith('meat.') ? 'Meat: {why}' : 'Milk: {why}', { why: hand.says(reason) })}</li>
        ))}
      </ul>
      <Stands standings={[standing]} moment={moment} hand={hand} />
      <Entries ids={entries} byId={on.byId} hand={hand} visitor={visitor} keepHer />
      {endedBy === 'the-vet' && treatment !== undefined && mayWrite(visitor.caller.role, 'vet-hold-time') ? (
        <VetTimes cow={standing.number} treatment={treatment} number={number} hand={hand} visitor={visitor} />
      ) : (
        <EndingEntry hold={hold} on={on} />
      )}
    </article>
  );
};

const waitsFor = (endedBy: EndedBy): string =>
  said(endedBy === 'the-vet' ? 'the vet’s times are wanted' : ENDS[endedBy]);

const said = (sentence: Sentence | undefined): string => (sentence === undefined ? '' : say(sentence));

const ENDS: Partial<Record<EndedBy, Sentence>> = {
  'milk-hold-lifted': 'held by a person until it is lifted',
  'residue-test': 'held until a clear test',
  'the-farm': 'no fresh hold is set for the farm',
  'cow-entered': 'came into the book without a word on her holds',
  'dry-off': 'the dry-cow product is not stated',
  'group-move': 'dry, in a group that is milked',
};

/** Kind, path and words of what ends a hold that waits for an entry. */
const endingsOf = (hold: WaitingHold, on: OnPage): readonly (readonly [string, string, Sentence])[] => {
  const { endedBy, standing, reasons } = hold;
  const cow = standing.number;
  switch (endedBy) {
    case 'milk-hold-lifted':
      return [[endedBy, writePath(endedBy, cow), 'Lift the milk hold']];
    case 'residue-test':
      return [[endedBy, writePath(endedBy, cow), 'Write down a clear test']];
    case 'group-move':
      return [[endedBy, writePath(endedBy, cow), 'Move her']];
    case 'the-farm':
      return [['farm-set-up', '/farm', 'Set the fresh hold of the farm']];
    case 'cow-entered':
    case 'dry-off': {
      const id = reasons[0]?.entries[0] ?? '';
      const behind = on.byId.get(id)?.[0];
      const { zone } = on.hand.schedule.inForceAt(on.desk.now());
      const strike = `/write/entry-struck?entry=${encodeURIComponent(id)}`;
      if (endedBy === 'cow-entered' && behind?.type === 'cow-entered')
        return [
          [endedBy, enterAgainPath(behind, zone), ENTER_HER_AGAIN],
          ['entry-struck', strike, STRIKE_HER_FIRST],
        ];
      const path = dryOffPath(hold, behind, zone);
      if (behind?.type !== 'dry-off') return [[endedBy, path, STATE_THE_PRODUCT]];
      return [
        [endedBy, path, 'Enter it again, with what was left out'],
        ['entry-struck', strike, 'Then strike the entry that left it out'],
      ];
    }
    default:
      return [];
  }
};

const STATE_THE_PRODUCT =
  'Write her dry-off down with the product, or "none", dated while she was dry in this herd; nothing has to be struck' satisfies Sentence;
const ENTER_HER_AGAIN = 'Enter her again at that same time, with the holds stated' satisfies Sentence;
const STRIKE_HER_FIRST =
  'Only then strike the entry that left it out: without the new one she leaves the herd, with all that was written of her' satisfies Sentence;

const EndingEntry = ({ hold, on }: { hold: WaitingHold; on: OnPage }) => (
  <Links
    ways={endingsOf(hold, on).flatMap(([type, path, words]) =>
      mayWrite(on.visitor.caller.role, type) ? [[path, say(words)] as const] : [],
    )}
  />
);
