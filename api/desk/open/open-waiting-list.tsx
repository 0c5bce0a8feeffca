/** The holds without an end on the page where things are settled, each with the form or the entry that ends it. */

import { mayWrite } from '../../devices/roles.ts';
import type { Visitor } from '../ask.ts';
import { type Sentence, say } from '../say.tsx';
import { Entries, Links, writePath } from './open-entries.tsx';
import type { OnPage } from './open-on-page.ts';
import { Stands } from './open-stands.tsx';
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
      <Entries ids={entries} byId={on.byId} hand={hand} visitor={visitor} />
      {endedBy === 'the-vet' && treatment !== undefined && mayWrite(visitor.caller.role, 'vet-hold-time') ? (
        <VetTimes cow={standing.number} treatment={treatment} number={number} hand={hand} visitor={visitor} />
      ) : (
        <EndingEntry hold={hold} visitor={visitor} />
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
const endingsOf = ({ endedBy, standing, reasons }: WaitingHold): readonly (readonly [string, string, Sentence])[] => {
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
      const strike = `/write/entry-struck?entry=${encodeURIComponent(reasons[0]?.entries[0] ?? '')}`;
      return [
        [endedBy, writePath(endedBy, cow), 'Enter it again, with what was left out'],
        ['entry-struck', strike, 'Then strike the entry that left it out'],
      ];
    }
    default:
      return [];
  }
};

const EndingEntry = ({ hold, visitor }: { hold: WaitingHold; visitor: Visitor }) => (
  <Links
    ways={endingsOf(hold).flatMap(([type, path, words]) =>
      mayWrite(visitor.caller.role, type) ? [[path, say(words)] as const] : [],
    )}
  />
);
