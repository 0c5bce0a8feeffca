/** Who a cow is, and in words where her milk and her meat stand at the milking. */
import { leavingOf } from '../../../projections/unplaced.ts';
import { instantText } from '../../../shared/instant.ts';
import { type HerdNow, meatNow, milkNow } from '../herd/herd-rows.ts';
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
          ? 'She is not in the herd at this milking; she came later.'
          : `She is not in the herd: left ${format.time(instantText(left.at))}, ${left.data.reason.replaceAll('-', ' ')}${left.data.to === undefined ? '' : `, to ${left.data.to}`}.`}
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
          <dt>Milk</dt>
          <dd>
            {milk.hold === 'held' ? (
              <>
                <strong>On hold: keep it out of the tank.</strong>{' '}
                {milk.until === null
                  ? 'No end is known.'
                  : `Held until ${format.time(instantText(milk.until))}; ${milk.tankFrom === null ? 'no milking of hers is planned after that.' : `in the tank from ${format.milking(milk.tankFrom)}.`}`}
                {standing.running.some((piece) => piece.began >= herd.moment.milking.start)
                  ? ' Something was done inside this milking: ask whether she was milked before it.'
                  : ''}
              </>
            ) : milk.hold === 'waits' ? (
              <>
                <strong>On hold when she is milked.</strong> She is not milked in {standing.group.name};{' '}
                {milk.until === null ? 'no end is known.' : `held until ${format.time(instantText(milk.until))}.`}
              </>
            ) : standing.inMilkDuring ? (
              'Not on hold: nothing in the book keeps it out of the tank.'
            ) : (
              'Not in milk.'
            )}
          </dd>
        </div>
        <div class={meat.held ? 'is-held' : undefined}>
          <dt>Meat</dt>
          <dd>
            {meat.held ? (
              <>
                <strong>On hold: not for meat.</strong>{' '}
                {meat.until === null ? 'No end is known.' : `Held until ${format.time(instantText(meat.until))}.`}
              </>
            ) : (
              'Not on hold: nothing in the book holds it.'
            )}
          </dd>
        </div>
      </dl>
    </>
  );
};

/** "412 since …; 9 until …", where she bore several. */
export const NumbersBorne = ({ found: { file }, speaking: { format } }: Omit<Props, 'herd'>) => {
  const { spans } = file.cow;
  return spans.length < 2 ? null : (
    <p>
      Numbers she bore:{' '}
      {spans
        .map(({ number, from, to }) =>
          to === null
            ? `${number} since ${format.time(instantText(from))}`
            : `${number} from ${format.time(instantText(from))} to ${format.time(instantText(to))}`,
        )
        .join('; ')}
      .
    </p>
  );
};
