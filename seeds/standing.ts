/** Who stands where in the demo at a moment, so that the people of the demo can count and weigh what is there. */
import { calving } from '../events/kinds/calving.ts';
import { cowEntered } from '../events/kinds/cow-entered.ts';
import { dryOff } from '../events/kinds/dry-off.ts';
import { groupMove } from '../events/kinds/group-move.ts';
import { numberChanged } from '../events/kinds/number-changed.ts';
import { type Instant, parseInstant } from '../shared/instant.ts';
import { mustBe } from '../shared/refusal.ts';
import { byText } from '../shared/text-order.ts';
import { DEMO_FARM } from './demo-farm.ts';
import type { Arrival } from './say.ts';

export interface Standing {
  number: string;
  group: string;
  inMilk: boolean;
  lactation: number;
  /** When she last calved, or the start of the day. */
  calved: Instant;
}

const UNMILKED = new Set(
  DEMO_FARM.groups.filter(({ kind }) => kind === 'dry' || kind === 'close-up').map(({ name }) => name),
);

/** Entries in the order in which the book folds them; one walk through them for all moments asked, which must go forward in time. */
export const walkThrough = (arrivals: readonly Arrival[]): ((until: Instant) => readonly Standing[]) => {
  const steps = arrivals
    .map(({ said }) => ({ said, time: mustBe(parseInstant(said.time)) }))
    .sort((a, b) => a.time - b.time || byText(a.said.id, b.said.id));
  const standing: Standing[] = [];
  let done = 0;
  const find = (number: string | undefined): Standing | undefined => standing.find((cow) => cow.number === number);
  return (until) => {
    for (let step = steps[done]; step !== undefined && step.time <= until; step = steps[++done]) {
      const { said, time } = step;
      const cow = find(said.subject);
      if (said.type === 'cow-entered' && said.subject !== undefined) {
        const { group, lactation } = cowEntered.schema.parse(said.data);
        standing.push({
          number: said.subject,
          group,
          inMilk: lactation > 0 && !UNMILKED.has(group),
          lactation,
          calved: time,
        });
      } else if (cow === undefined) continue;
      else if (said.type === 'group-move') cow.group = groupMove.schema.parse(said.data).to;
      else if (said.type === 'number-changed') cow.number = numberChanged.schema.parse(said.data).to;
      else if (said.type === 'cow-left') standing.splice(standing.indexOf(cow), 1);
      else if (said.type === 'dry-off') {
        cow.group = dryOff.schema.parse(said.data).group ?? cow.group;
        cow.inMilk = false;
      } else if (said.type === 'calving') {
        cow.group = calving.schema.parse(said.data).group ?? cow.group;
        Object.assign(cow, { inMilk: true, calved: time, lactation: cow.lactation + 1 });
      }
    }
    return standing;
  };
};
