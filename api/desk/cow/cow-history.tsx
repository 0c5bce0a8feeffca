/**
 * All that is written about a cow, the latest first: when it happened and when this book learnt of it, who said so on which
 * device, whose it is where a number meant several cows; what was struck with a line through it, and what stands instead.
 */
import type { EntryOf } from '../../../events/entry.ts';
import { insteadOf, whoseText } from '../../../print/history.ts';
import { detailOf, type PlaceOf } from '../../../print/history-words.ts';
import type { Voice } from '../../../print/speech.ts';
import type { CowHistory, HistoryLine } from '../../../projections/history.ts';
import { HOUR, instantText } from '../../../shared/instant.ts';
import { mayAsk, unwritable } from '../../devices/roles.ts';
import type { Visitor } from '../ask.ts';
import { say, sayWith } from '../say.tsx';
import { titleOf } from '../write/written.tsx';

export interface HistoryShown {
  readonly history: CowHistory;
  readonly placeOf: PlaceOf;
  /** Where an entry of an id can be read; undefined where it is about no cow. */
  readonly linkOf: (id: string) => string | undefined;
  readonly voice: Voice;
  readonly visitor: Visitor;
  /** Milk records too, which are many. */
  readonly withRecords: boolean;
  /** From 1. */
  readonly part: number;
  readonly addressOf: (change: { readonly records?: boolean; readonly part?: number }) => string;
}

const A_PART = 200;

export const History = (shown: HistoryShown) => {
  const { history, withRecords, part, addressOf } = shown;
  const strikesShown = new Set(history.lines.flatMap(({ struck }) => struck?.id ?? []));
  const all = history.lines.filter(({ entry }) => !strikesShown.has(entry.id)).toReversed();
  const records = all.filter(({ entry }) => entry.type === 'milk-record').length;
  const lines = withRecords ? all : all.filter(({ entry }) => entry.type !== 'milk-record');
  const parts = Math.max(1, Math.ceil(lines.length / A_PART));
  const at = Math.min(part, parts);
  return (
    <section aria-labelledby="history">
      <h2 id="history">{say('History')}</h2>
      <p>
        {say('{n, plural, one {# entry} other {# entries}}, the latest first.', { n: lines.length })}{' '}
        {records === 0 ? null : withRecords ? (
          <a href={addressOf({ records: false })}>{say('Without her milk records')}</a>
        ) : (
          <a href={addressOf({ records: true })}>
            {say('Show {n, plural, one {# milk record} other {# milk records}} too', { n: records })}
          </a>
        )}
      </p>
      {lines.length === 0 ? null : (
        <section class="scroll" aria-label={say('Entries about her')} tabindex={0}>
          <table class="history stack">
            <thead>
              <tr>
                <th scope="col">{say('Happened')}</th>
                <th scope="col">{say('This book learnt of it')}</th>
                <th scope="col">{say('What')}</th>
                <th scope="col">{say('Who said so')}</th>
              </tr>
            </thead>
            <tbody>
              {lines.slice((at - 1) * A_PART, at * A_PART).map((line) => (
                <Line line={line} shown={shown} />
              ))}
            </tbody>
          </table>
        </section>
      )}
      {parts === 1 ? null : (
        <nav class="actions" aria-label={say('Parts of the history')}>
          {at > 1 ? <a href={addressOf({ part: at - 1 })}>← {say('Later entries')}</a> : null}
          <span>{say('Part {part} of {parts}', { part: at, parts })}</span>
          {at < parts ? <a href={addressOf({ part: at + 1 })}>{say('Earlier entries')} →</a> : null}
        </nav>
      )}
    </section>
  );
};

const Line = ({ line, shown }: { line: HistoryLine; shown: HistoryShown }) => {
  const { history, placeOf, voice, visitor } = shown;
  const { entry, struck } = line;
  const { format } = voice;
  const whose = whoseText(line, history, voice);
  const happened = format.time(instantText(entry.at));
  const Said = ({ children }: { children?: string }) =>
    struck === undefined ? <span>{children}</span> : <del>{children}</del>;
  return (
    <tr id={`entry-${entry.position}`}>
      <th scope="row">
        <Said>{happened}</Said>
      </th>
      <td data-label={say('This book learnt of it')}>
        <Said>{format.time(instantText(entry.recordedAt))}</Said>
        {entry.recordedAt - entry.at >= HOUR ? (
          <small class="hint">{laterBy(entry.recordedAt - entry.at)}</small>
        ) : null}
      </td>
      <td>
        <p>
          <strong>
            <Said>{titleOf(entry)}</Said>
          </strong>
          {whose === undefined ? null : ` (${whose})`}
        </p>
        <p>
          <Said>{detailOf(entry, voice, placeOf)}</Said>
        </p>
        {struck === undefined ? null : <Struck by={struck} shown={shown} />}
        {struck === undefined && mayStrike(line, visitor) ? (
          <p class="on-screen">
            <a
              href={`/write/entry-struck?entry=${encodeURIComponent(entry.id)}`}
              aria-label={say('Take it back: {what}, {time}', { what: titleOf(entry), time: happened })}
            >
              {say('Take it back')}
            </a>
          </p>
        ) : null}
      </td>
      <td data-label={say('Who said so')}>
        {say('{author}, on {device}', { author: entry.author, device: entry.source })}
        {entry.via === undefined ? null : <small class="hint">{say('through {book}', { book: entry.via })}</small>}
        <small class="hint">
          {entry.subject === undefined
            ? say('entry {position}', { position: entry.position })
            : say('entry {position}, written under {number}', { position: entry.position, number: entry.subject })}
        </small>
      </td>
    </tr>
  );
};

const Struck = ({ by, shown: { voice, placeOf, linkOf } }: { by: EntryOf<'entry-struck'>; shown: HistoryShown }) => {
  const { instead } = by.data;
  const link = instead === undefined ? undefined : linkOf(instead);
  const { format } = voice;
  return (
    <p class="struck-by">
      {sayWith('<b>Struck</b> by {author} on {device}, {time}', {
        b: (inner) => <strong>{inner}</strong>,
        author: by.author,
        device: by.source,
        time: format.time(instantText(by.at)),
      })}
      {by.recordedAt - by.at >= HOUR
        ? ` (${say('this book learnt of it {time}', { time: format.time(instantText(by.recordedAt)) })})`
        : ''}
      : {by.data.reason}.{' '}
      {link === undefined ? (
        insteadOf(instead, voice, placeOf)
      ) : (
        <a href={link}>{insteadOf(instead, voice, placeOf)}</a>
      )}
      .
    </p>
  );
};

const laterBy = (milliseconds: number): string => {
  const hours = Math.floor(milliseconds / HOUR);
  return hours < 48
    ? say('{n, plural, one {# hour} other {# hours}} later', { n: hours })
    : say('{n, plural, one {# day} other {# days}} later', { n: Math.floor(hours / 24) });
};

const NEVER_STRUCK = new Set(['entry-struck', 'sheet-issued', 'book-continued']);

const mayStrike = ({ entry }: HistoryLine, { caller }: Visitor): boolean =>
  mayAsk(caller.role, 'push') &&
  !NEVER_STRUCK.has(entry.type) &&
  unwritable(caller, { type: 'entry-struck', source: caller.name, data: { entry: entry.id } }, () => [entry.source]) ===
    undefined;
