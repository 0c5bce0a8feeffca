/** Who a cow is, and in words where her milk and her meat stand at the milking. */
import { wordsFor } from '../../../print/words.ts';
import { leavingOf } from '../../../projections/unplaced.ts';
import { instantText } from '../../../shared/instant.ts';
import { hearer } from '../hearer.ts';
import { type HerdNow, type MilkNow, meatNow, milkNow } from '../herd/herd-rows.ts';
import { say, sayWith } from '../say.tsx';
import type { Speaking } from '../speaking.ts';
import { whoText } from '../who.tsx';
import type { FoundCow } from './cow-found.ts';

interface Props {
  readonly found: FoundCow;
  readonly herd: HerdNow;
  readonly speaking: Speaking;
}

export const CowWho = ({ found, herd, speaking }: Props) => {
  const { there, file } = found;
  const { format } = speaking;
  const left = leavingOf(file.cow, herd.moment);
  if (there === undefined)
    return (
      <p class="problem">
        {left === undefined
          ? say('She is not in the herd at this milking; she came later.')
          : say(
              left.data.to === undefined
                ? 'She is not in the herd: left {time}, {reason}.'
                : 'She is not in the herd: left {time}, {reason}, to {to}.',
              {
                time: format.time(instantText(left.at)),
                reason: wordsFor(hearer().tag).keeper.leftReasons[left.data.reason] ?? left.data.reason,
                ...(left.data.to === undefined ? {} : { to: left.data.to }),
              },
            )}
      </p>
    );
  const { standing, why } = there;
  const milk = milkNow(standing, herd.moment);
  const meat = meatNow(standing, herd.moment);
  return (
    <>
      <p>{whoText({ ...why, daysInMilk: why.inMilk ? why.daysInMilk : null })}</p>
      <dl class="standing">
        <div class={milk.hold === 'held' ? 'is-held' : undefined}>
          <dt>{say('Milk')}</dt>
          <dd>
            {milk.hold === 'held' ? (
              <>
                <strong>{say('On hold: keep it out of the tank.')}</strong> {milkUntil(milk, format)}
                {standing.running.some((piece) => piece.began >= herd.moment.milking.start)
                  ? ` ${say('Something was done inside this milking: ask whether she was milked before it.')}`
                  : ''}
              </>
            ) : milk.hold === 'waits' ? (
              sayWith(
                milk.until === null
                  ? '<b>On hold when she is milked.</b> She is not milked in {group}; no end is known.'
                  : '<b>On hold when she is milked.</b> She is not milked in {group}; held until {time}.',
                {
                  b: (inner) => <strong>{inner}</strong>,
                  group: standing.group.name,
                  ...(milk.until === null ? {} : { time: format.time(instantText(milk.until)) }),
                },
              )
            ) : standing.inMilkDuring ? (
              say('Not on hold: nothing in the book keeps it out of the tank.')
            ) : (
              say('Not in milk.')
            )}
          </dd>
        </div>
        <div class={meat.held ? 'is-held' : undefined}>
          <dt>{say('Meat')}</dt>
          <dd>
            {meat.held ? (
              <>
                <strong>{say('On hold: not for meat.')}</strong>{' '}
                {meat.until === null
                  ? say('No end is known.')
                  : say('Held until {time}.', { time: format.time(instantText(meat.until)) })}
              </>
            ) : (
              say('Not on hold: nothing in the book holds it.')
            )}
          </dd>
        </div>
      </dl>
    </>
  );
};

const milkUntil = ({ until, tankFrom }: MilkNow, format: Speaking['format']): string => {
  if (until === null) return say('No end is known.');
  const time = format.time(instantText(until));
  return tankFrom === null
    ? say('Held until {time}; no milking of hers is planned after that.', { time })
    : say('Held until {time}; in the tank from {milking}.', { time, milking: format.milking(tankFrom) });
};

/** "412 since …; 9 until …", where she bore several. */
export const NumbersBorne = ({ found: { file }, speaking: { format } }: Omit<Props, 'herd'>) => {
  const { spans } = file.cow;
  return spans.length < 2 ? null : (
    <p>
      {say('Numbers she bore: {numbers}.', {
        numbers: spans
          .map(({ number, from, to }) =>
            to === null
              ? say('{number} since {from}', { number, from: format.time(instantText(from)) })
              : say('{number} from {from} to {to}', {
                  number,
                  from: format.time(instantText(from)),
                  to: format.time(instantText(to)),
                }),
          )
          .join('; '),
      })}
    </p>
  );
};
