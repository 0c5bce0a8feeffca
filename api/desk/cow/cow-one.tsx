/** One cow on the page of her number: who she is, her lists, her holds; and what stands under the number without a cow. */
import type { Voice } from '../../../print/speech.ts';
import type { CowHistory } from '../../../projections/history.ts';
import { asidesByCow } from '../../../projections/standing.ts';
import { mayAsk } from '../../devices/roles.ts';
import type { EntryFinder } from '../../tonight.ts';
import type { Ask, Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import type { HerdNow } from '../herd/herd-rows.ts';
import { say } from '../say.tsx';
import type { FoundCow } from './cow-found.ts';
import { holdSpans, marksOf } from './cow-holds.ts';
import { leavingAddress } from './cow-leaving.ts';
import { CowWho, NumbersBorne } from './cow-who.tsx';
import { CowWhy, Reasons } from './cow-why.tsx';
import { Timeline } from './timeline.tsx';

export interface Setting {
  readonly desk: Desk;
  readonly ask: Ask;
  readonly hand: AtHand;
  readonly herd: HerdNow;
  readonly voice: Voice;
  /** As asked. */
  readonly number: string;
  readonly history: CowHistory;
  readonly entries: EntryFinder;
}

/** This page's address with something put in another way. */
export const addressOf = ({ ask: { url } }: Setting, change: Readonly<Record<string, string | undefined>>): string => {
  const asked = new URLSearchParams(url.searchParams);
  for (const [name, value] of Object.entries(change)) {
    if (value === undefined) asked.delete(name);
    else asked.set(name, value);
  }
  return asked.size === 0 ? url.pathname : `${url.pathname}?${asked}`;
};

/** Lines under this number that stand without a cow, at the head of the milk-hold sheet. */
export const Unplaced = ({ setting: { number, hand, entries } }: { setting: Setting }) => {
  const rows = hand.answer.views.sheets['milk-hold'].unplaced.filter((row) => row.number === number);
  return rows.length === 0 ? null : (
    <section class="notices alert" aria-labelledby="unplaced">
      <h2 id="unplaced">{say('Find this cow before milking')}</h2>
      <p>
        {say(
          'Under {number} stands something whose cow is not certain; it heads the milk-hold sheet until it is settled.',
          { number },
        )}
      </p>
      {rows.map((row) => (
        <>
          <Reasons reasons={[row.because]} entries={entries} speaking={hand} />
          <p>
            <a href={`/open#${encodeURIComponent(row.key)}`}>{say('Settle it')}</a>
          </p>
        </>
      ))}
    </section>
  );
};

export const OneCow = ({
  found,
  index,
  isAlone,
  setting,
}: {
  found: FoundCow;
  index: number;
  isAlone: boolean;
  setting: Setting;
}) => {
  const { hand, herd, desk, ask, voice } = setting;
  const { file, there } = found;
  const { moment } = herd;
  const id = `cow-${index + 1}`;
  const asides = there?.standing.asides ?? asidesByCow(hand.answer.known).get(file.cow.key) ?? [];
  const all = ask.url.searchParams.get('line') === 'all';
  return (
    <section class="card" aria-labelledby={id}>
      <h2 id={id}>
        {isAlone
          ? say('Who she is')
          : say('Cow {nth}: {numbers}', {
              nth: index + 1,
              numbers: [found.number, ...(file.cow.officialId === undefined ? [] : [file.cow.officialId])].join(', '),
            })}
      </h2>
      <CowWho found={found} herd={herd} speaking={hand} />
      <p>
        <a href={leavingAddress(found.number, file.animal.key)}>{say('Statement of her holds, for a buyer (PDF)')}</a>
      </p>
      <NumbersBorne found={found} speaking={hand} />
      {there !== undefined && mayAsk(ask.visitor.caller.role, 'push') ? (
        <p class="actions">
          <a class="button" href={`/write?cow=${encodeURIComponent(addressee(found, isAlone))}`}>
            {say('Write something about her')}
          </a>
        </p>
      ) : null}
      {there === undefined ? null : (
        <>
          <h3>{say('Lists')}</h3>
          {isAlone ? null : (
            <p>{say('The lists name cows by number: where two bear one, a line may be the other’s.')}</p>
          )}
          <CowWhy lists={there.why.lists} entries={setting.entries} speaking={hand} />
        </>
      )}
      <h3>{say('Holds on a time line')}</h3>
      <Timeline
        cow={isAlone ? found.number : say('{number} (cow {nth})', { number: found.number, nth: index + 1 })}
        id={id}
        spans={holdSpans(file, moment, asides, there !== undefined)}
        marks={marksOf(file, moment)}
        now={desk.now()}
        zone={hand.schedule.inForceAt(desk.now()).zone}
        locale={voice.words.locale}
        all={all}
        other={addressOf(setting, { line: all ? undefined : 'all' })}
        speaking={hand}
      />
    </section>
  );
};

/** Her barn number; where it may mean another cow too, her official number. */
const addressee = ({ number, file }: FoundCow, isAlone: boolean): string =>
  isAlone ? number : (file.cow.officialId ?? number);
