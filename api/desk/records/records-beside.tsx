/** Three columns: as known then, on the wall, as known now. What differs is said in words and not by colour. */
import type { Format } from '../../../print/words/format.ts';
import { byCowNumber } from '../../../shared/cow-number.ts';
import { say } from '../say.tsx';
import { type HeldThen, heldOf, listsOf, type sheetOfViews } from './records-lists.ts';

type SheetOf = ReturnType<typeof sheetOfViews>;

export interface Three {
  readonly past: SheetOf;
  /** Absent where nothing was issued by then. */
  readonly wall: { readonly ref: string; readonly sheetOf: SheetOf } | undefined;
  readonly present: SheetOf;
}

export const ListsBeside = ({ three }: { three: Three }) => {
  const past = listsOf(three.past);
  const wall =
    three.wall === undefined ? undefined : new Map(listsOf(three.wall.sheetOf).map((each) => [each.list, each.cows]));
  const present = new Map(listsOf(three.present).map((each) => [each.list, each.cows]));
  return (
    <section class="scroll" tabindex={0} aria-label={say('Lists side by side, the table')}>
      <table>
        <Head three={three} first={say('List')} />
        <tbody>
          {past.map(({ list, cows }) => {
            const issued = wall?.get(list);
            const today = present.get(list) ?? [];
            const differs = !same(cows, today) || (issued !== undefined && !same(cows, issued));
            return (
              <tr>
                <th scope="row">
                  {say(list)}
                  {differs ? <small> {say('(differs)')}</small> : null}
                </th>
                <td>{numbers(cows)}</td>
                <td>{issued === undefined ? say('not issued') : numbers(issued)}</td>
                <td>{numbers(today)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
};

export const HeldBeside = ({ three, format }: { three: Three; format: Format }) => {
  const past = byCow(heldOf(three.past));
  const wall = three.wall === undefined ? undefined : byCow(heldOf(three.wall.sheetOf));
  const present = byCow(heldOf(three.present));
  const cows = [...new Set([...past.keys(), ...(wall?.keys() ?? []), ...present.keys()])].sort(byCowNumber);
  if (cows.length === 0) return <p class="card">{say('Nobody was on hold at any of the three.')}</p>;
  const says = (rows: readonly HeldThen[] | undefined): string =>
    rows === undefined || rows.length === 0
      ? say('not on it')
      : rows.map(sayOne).reduce((one, more) => say('{one}; and {more}', { one, more }));
  const sayOne = (held: HeldThen): string => {
    const until = held.until === null ? say('without end') : say('until {time}', { time: format.time(held.until) });
    return held.tankFrom === null
      ? until
      : say('{until}, in the tank from {milking}', { until, milking: format.milking(held.tankFrom) });
  };
  return (
    <section class="scroll" tabindex={0} aria-label={say('Cows side by side, the table')}>
      <table>
        <Head three={three} first={say('Cow')} />
        <tbody>
          {cows.map((cow) => {
            const told = [
              says(past.get(cow)),
              wall === undefined ? say('nothing issued') : says(wall.get(cow)),
              says(present.get(cow)),
            ];
            const compared = wall === undefined ? [told[0], told[2]] : told;
            return (
              <tr>
                <th scope="row">
                  <span class="cow">{cow}</span>
                  {new Set(compared).size > 1 ? <small> {say('(differs)')}</small> : null}
                </th>
                {told.map((each) => (
                  <td>{each}</td>
                ))}
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
};

const Head = ({ three, first }: { three: Three; first: string }) => (
  <thead>
    <tr>
      <th scope="col">{first}</th>
      <th scope="col">{say('As known then')}</th>
      <th scope="col">
        {three.wall === undefined
          ? say('On the wall: nothing by then')
          : say('On the wall: {ref}', { ref: three.wall.ref })}
      </th>
      <th scope="col">{say('As known now')}</th>
    </tr>
  </thead>
);

/** A number may be borne by two cows. */
const byCow = (rows: readonly HeldThen[]): ReadonlyMap<string, readonly HeldThen[]> => {
  const map = new Map<string, HeldThen[]>();
  for (const row of rows) map.set(row.cow, [...(map.get(row.cow) ?? []), row]);
  return map;
};
const numbers = (cows: readonly string[]): string =>
  cows.length === 0 ? say('none ¦ of cows on a list') : cows.join(', ');
const same = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((cow) => b.includes(cow));
