/** What a time line draws, as a table of holds and a list of days: the same numbers, beginnings and ends. */
import { type Instant, instantText } from '../../../shared/instant.ts';
import type { Speaking } from '../speaking.ts';
import type { HoldSpan, Mark } from './cow-holds.ts';

export interface Bar {
  readonly span: HoldSpan;
  /** In the table beside it. */
  readonly nth: number;
  readonly x: number;
  readonly end: number;
}

const STATES = { over: 'over', running: 'RUNS', 'to come': 'to come' } as const;

export const HoldTable = ({ bars, cow, speaking }: { bars: readonly Bar[]; cow: string; speaking: Speaking }) =>
  bars.length === 0 ? null : (
    <section class="scroll" aria-label={`Holds of cow ${cow}`} tabindex={0}>
      <table class="stack">
        <thead>
          <tr>
            <th scope="col">No.</th>
            <th scope="col">Hold</th>
            <th scope="col">From</th>
            <th scope="col">Until</th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {bars.map(({ span, nth }) => (
            <tr class={span.is === 'running' && span.of === 'milk' ? 'held' : undefined}>
              <th scope="row" class="number">
                {nth}
              </th>
              <td>
                {span.of}, {STATES[span.is]}
              </td>
              <td data-label="From">{span.began === null ? 'while it stands' : timeOf(span.began, speaking)}</td>
              <td data-label="Until">{span.end === null ? 'no end known' : timeOf(span.end, speaking)}</td>
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

const WHAT: Readonly<Record<Mark['what'], string>> = {
  entered: 'came into the book',
  calved: 'calved',
  aborted: 'lost the calf, milked',
  'dry-off': 'dried off',
  'to dry off': 'to be dried off',
  due: 'calving due',
  left: 'left the herd',
};

export const MarkDays = ({ marks, now, speaking }: { marks: readonly Mark[]; now: Instant; speaking: Speaking }) => (
  <ul class="inline days">
    {marks.map(({ at, what, day }) => (
      <li>
        {WHAT[what]} {day === null ? timeOf(at, speaking) : speaking.format.day(day)}
      </li>
    ))}
    <li>now {timeOf(now, speaking)}</li>
  </ul>
);

const timeOf = (at: Instant, { format }: Speaking): string => format.time(instantText(at));
