/** Doubts about which cow is meant, and whose treatment a vet's time is about. */
import { instantText } from '../shared/instant.ts';
import { because } from './because.ts';
import { medicineIn } from './instead.ts';
import type { Known } from './know.ts';
import type { Moment } from './moment.ts';
import { unplacedKey } from './notice-keys.ts';
import { aboutOf } from './unplaced.ts';
import type { Notice } from './views.ts';

export const herdDoubts = (known: Known, moment: Moment): Notice[] => {
  const { herd } = known;
  const numbersOf = (animals: readonly { spans: readonly { number: string }[] }[]): string[] =>
    animals.map((animal) => animal.spans.at(-1)?.number ?? '');
  return [
    ...herd.unplaced.map(({ entry, how, mayBe }): Notice => {
      const values = { number: entry.subject ?? '', about: aboutOf(entry), at: instantText(entry.at) };
      return {
        key: unplacedKey(entry.id),
        because:
          how === 'leading-zeros'
            ? because('R-25', 'doubt.leading-zeros', { number: values.number, mayBe: numbersOf(mayBe) }, [entry.id])
            : because('R-25', 'doubt.unplaced', values, [entry.id]),
      };
    }),
    ...herd.ambiguous.map(({ entry, animals }): Notice => {
      const values = { number: entry.subject ?? '', cows: animals.map((animal) => animal.officialId ?? animal.key) };
      return {
        key: `two-cows:${values.number}:${entry.id}`,
        because: because('R-25', 'doubt.two-cows', values, [entry.id]),
      };
    }),
    ...herd.numberInUse.map(
      ({ entry, number }): Notice => ({
        key: `number-in-use:${number}:${entry.id}`,
        because: because('R-25', 'doubt.number-in-use', { number, at: instantText(entry.at) }, [entry.id]),
      }),
    ),
    ...herd.enteredAgain.map(({ entry, animals }): Notice => {
      const cows = animals.map(({ spans }) => spans.findLast(({ from }) => from <= entry.at)?.number ?? '');
      const values = { number: entry.subject ?? '', at: instantText(entry.at), cows };
      return {
        key: `entered-again:${entry.id}`,
        because: because('R-25', 'doubt.entered-again', values, [entry.id, ...animals.map(({ key }) => key)]),
      };
    }),
    ...herd.vetElsewhere.map(({ entry, dose }): Notice => {
      const about = medicineIn(dose) ?? dose.type;
      const values = { number: entry.subject ?? '', of: dose.subject ?? '', about, at: instantText(dose.at) };
      return {
        key: `vet-time-elsewhere:${entry.id}`,
        because: because('R-15', 'doubt.vet-time-elsewhere', values, [entry.id, dose.id]),
      };
    }),
    ...herd.afterRenumbering.map(({ entry, animal }): Notice => {
      const cow = animal.spans.findLast(({ from }) => from <= entry.at)?.number ?? '';
      const values = { number: entry.subject ?? '', about: aboutOf(entry), at: instantText(entry.at), cow };
      return {
        key: unplacedKey(entry.id),
        because: because('R-25', 'doubt.after-renumbering', values, [entry.id]),
      };
    }),
    ...herd.afterLeaving.map(({ entry, animal }): Notice => {
      const left = known.files
        .find((file) => file.animal.key === animal.key)
        ?.cow.left.findLast((each) => each.at <= entry.at);
      const day = moment.schedule.dayOf(left?.at ?? entry.at);
      return {
        key: unplacedKey(entry.id),
        because: because(
          'R-25',
          'doubt.after-leaving',
          { cow: entry.subject ?? '', about: aboutOf(entry), at: instantText(entry.at), left: day },
          [entry.id, ...(left === undefined ? [] : [left.id])],
        ),
      };
    }),
  ];
};
