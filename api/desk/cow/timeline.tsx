/**
 * A cow's holds drawn on a time line, and the same as a table: nothing is in the drawing alone. Places along it are in per
 * cent and letters are in their own size, so that it can be read on a phone, on paper and in the dark without a script.
 */
import type { Instant } from '../../../shared/instant.ts';
import type { Zone } from '../../../shared/zone.ts';
import { type Sentence, say } from '../say.tsx';
import type { Speaking } from '../speaking.ts';
import type { HoldSpan, Mark } from './cow-holds.ts';
import { along, lanesOf, type Stretch, stretchOf, ticksOf } from './timeline-scale.ts';
import { type Bar, HoldTable, MarkDays } from './timeline-table.tsx';

export interface Drawn {
  readonly cow: string;
  /** Tells apart the drawings of one page. */
  readonly id: string;
  readonly spans: readonly HoldSpan[];
  readonly marks: readonly Mark[];
  readonly now: Instant;
  readonly zone: Zone;
  readonly locale: string;
  readonly all: boolean;
  /** Address of this page with the whole line, or with the last months. */
  readonly other: string;
  readonly speaking: Speaking;
}

const LANE = 20;
const WORD = 18;
/** Per cent kept free after a bar for its number, and around a word for the next one. */
const NUMBER_ROOM = 8;
const WORD_ROOM = 26;

export const Timeline = (drawn: Drawn) => {
  const { cow, id, spans, marks, now, all, other } = drawn;
  const stretch = stretchOf(spans, marks, now, all);
  const seen = spans.filter(({ began, end }) => (began ?? now) <= stretch.to && (end === null || end >= stretch.from));
  const bars = seen.map((span, index): Bar => {
    const x = along(stretch, span.began ?? now);
    return { span, nth: index + 1, x, end: span.end === null ? 100 : along(stretch, span.end) };
  });
  const earlier = spans.length - seen.length;
  return (
    <figure class="timeline">
      {spans.length === 0 ? (
        <p>{say('No hold of hers is in the book.')}</p>
      ) : (
        <Drawing drawn={drawn} stretch={stretch} bars={bars} />
      )}
      <figcaption id={`${id}-caption`}>
        {seen.length === 0 ? null : `${say('The numbers are those of the table below.')} `}
        {earlier > 0
          ? `${say('{n, plural, one {# more hold lies} other {# more holds lie}} outside this stretch.', { n: earlier })} `
          : ''}
        <a href={other}>{say(all ? 'The last months only' : 'The whole time line')}</a>
      </figcaption>
      <HoldTable bars={bars} cow={cow} speaking={drawn.speaking} />
      <MarkDays marks={marks} now={now} speaking={drawn.speaking} />
    </figure>
  );
};

const Drawing = ({ drawn, stretch, bars }: { drawn: Drawn; stretch: Stretch; bars: readonly Bar[] }) => {
  const { cow, id, marks, now, zone, locale } = drawn;
  const words = [...marks.filter(({ at }) => at >= stretch.from && at <= stretch.to), { at: now, what: 'now' as const }]
    .map(({ at, what }) => wordAt(what, along(stretch, at)))
    .sort((a, b) => a.from - b.from);
  const wordLanes = lanesOf(words);
  const milk = rowOf(bars.filter(({ span }) => span.of === 'milk'));
  const meat = rowOf(bars.filter(({ span }) => span.of === 'meat'));
  const head = (Math.max(0, ...wordLanes) + 1) * WORD + 6;
  const meatTop = head + WORD + milk.height + 8;
  const foot = meatTop + WORD + meat.height + 4;
  return (
    <svg class="line" width="100%" height={foot + 20} role="img" aria-labelledby={`${id}-title`}>
      <title id={`${id}-title`}>
        {say('Holds of cow {cow} on a time line. The table and the list below say the same.', { cow })}
      </title>
      {ticksOf(stretch, zone, locale).map(({ x, label, minor }) => (
        <g class={minor ? 'minor' : undefined}>
          <line class="axis" x1={`${x}%`} x2={`${x}%`} y1={head} y2={foot} />
          {x > 96 ? null : (
            <text x={`${x}%`} y={foot + 15} dx="3">
              {label}
            </text>
          )}
        </g>
      ))}
      <line class="axis" x1="0" x2="100%" y1={foot} y2={foot} />
      {words.map(({ what, x, isBefore }, index) => {
        const top = (wordLanes[index] ?? 0) * WORD;
        return (
          <g>
            <line class={what === 'now' ? 'now' : 'mark'} x1={`${x}%`} x2={`${x}%`} y1={top + 4} y2={foot} />
            <text
              class={what === 'now' ? 'strong' : undefined}
              x={`${x}%`}
              y={top + 13}
              dx={isBefore ? '-4' : '4'}
              text-anchor={isBefore ? 'end' : 'start'}
            >
              {say(WORDS[what])}
            </text>
          </g>
        );
      })}
      <Row title={say('Milk')} kind="held" top={head} row={milk} />
      <Row title={say('Meat')} kind="meat" top={meatTop} row={meat} />
    </svg>
  );
};

/** Short: there is little room along the line. */
const WORDS = {
  entered: 'entered',
  calved: 'calved',
  aborted: 'aborted',
  'dry-off': 'dry-off',
  'to dry off': 'to dry off',
  due: 'due',
  left: 'left',
  now: 'now',
} as const satisfies Readonly<Record<Mark['what'] | 'now', Sentence>>;

/** Its word stands after the line, or before it where little is left after. */
const wordAt = (what: Mark['what'] | 'now', x: number) => {
  const isBefore = x > 100 - WORD_ROOM;
  return { what, x, isBefore, from: isBefore ? x - WORD_ROOM : x, to: isBefore ? x : x + WORD_ROOM };
};

interface RowDrawn {
  readonly bars: readonly Bar[];
  readonly lanes: readonly number[];
  readonly height: number;
}

const rowOf = (bars: readonly Bar[]): RowDrawn => {
  const lanes = lanesOf(bars.map(({ x, end }) => ({ from: x, to: end + NUMBER_ROOM })));
  return { bars, lanes, height: (Math.max(0, ...lanes) + 1) * LANE };
};

const Row = ({ title, kind, top, row }: { title: string; kind: 'held' | 'meat'; top: number; row: RowDrawn }) => (
  <g>
    <text class="strong" x="0" y={top + 13}>
      {row.bars.length === 0 ? say('{of}: none', { of: title }) : title}
    </text>
    {row.bars.map(({ span, nth, x, end }, index) => {
      const y = top + WORD + (row.lanes[index] ?? 0) * LANE;
      const isAtEdge = end > 92;
      return (
        <g>
          <rect class={kind} x={`${x}%`} y={y + 3} width={`${Math.max(0, end - x)}%`} height="10" />
          {span.end === null ? (
            <svg x="100%" y={y} overflow="visible" aria-hidden="true">
              <path class={kind} d="M-12 -1 L0 8 L-12 17 Z" />
            </svg>
          ) : null}
          <text
            class="nth"
            x={`${isAtEdge ? x : end}%`}
            y={y + 13}
            dx={isAtEdge ? '-4' : '4'}
            text-anchor={isAtEdge ? 'end' : 'start'}
          >
            {nth}
          </text>
        </g>
      );
    })}
  </g>
);
