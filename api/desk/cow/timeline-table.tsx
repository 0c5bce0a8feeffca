/** What a time line draws, as a table of holds and a list of days: the same numbers, beginnings and ends. */
import { type Instant, instantText } from '../../../shared/instant.ts';
import { type Sentence, say } from '../say.tsx';
import type { Speaking } from '../speaking.ts';
import type { HoldSpan, Mark } from './cow-holds.ts';

export interface Bar {
  readonly span: HoldSpan;
  /** In the table beside it. */
  readonly nth: number;
  readonly x: number;
  readonly end: number;
}

const STATES = {
  milk: { over: 'milk, over', running: 'milk, RUNS', 'to come': 'milk, to come' },
  meat: { over: 'meat, over', running: 'meat, RUNS', 'to come': 'meat, to come' },
} as const satisfies Readonly<Record<HoldSpan['of'], Readonly<Record<HoldSpan['is'], Sentence>>>>;

export const HoldTable = ({ bars, cow, speaking }: { bars: readonly Bar[]; cow: string; speaking: Speaking }) =>
  bars.length === 0 ? null : (
    <section class="scroll" aria-label={say('Holds of cow {cow}', { cow })} tabindex={0}>
      <table class="stack">
        <thead>
          <tr>
            <th scope="col">{say('No.')}</th>
            <th scope="col">{say('Hold')}</th>
            <th scope="col">{say('From')}</th>
            <th scope="col">{say('Until')}</th>
            <th scope="col">{say('Why')}</th>
          </tr>
        </thead>
        <tbody>
          {bars.map(({ span, nth }) => (
            <tr class={span.is === 'running' && span.of === 'milk' ? 'held' : undefined}>
              <th scope="row" class="number">
                {nth}
              </th>
              <td>{say(STATES[span.of][span.is])}</td>
              <td data-label={say('From')}>
                {span.began === null ? say('while it stands') : timeOf(span.began, speaking)}
              </td>
              <td data-label={say('Until')}>{span.end === null ? say('no end known') : timeOf(span.end, speaking)}</td>
              <td>
                {span.reasons.map((reason) => (
                  <p>
                    {speaking.says(reason)} <span class="rule">{reason.rule}</span>
                  </p>
                ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );

const WHAT = {
  entered: 'came into the book',
  calved: 'calved',
  aborted: 'lost the calf, milked',
  'dry-off': 'dried off',
  'to dry off': 'to be dried off',
  due: 'calving due',
  left: 'left the herd',
} as const satisfies Readonly<Record<Mark['what'], Sentence>>;

export const MarkDays = ({ marks, now, speaking }: { marks: readonly Mark[]; now: Instant; speaking: Speaking }) => (
  <ul class="inline days">
    {marks.map(({ at, what, day }) => (
      <li>
        {say(WHAT[what])} {day === null ? timeOf(at, speaking) : speaking.format.day(day)}
      </li>
    ))}
    <li>{say('now {time}', { time: timeOf(now, speaking) })}</li>
  </ul>
);

const timeOf = (at: Instant, { format }: Speaking): string => format.time(instantText(at));
