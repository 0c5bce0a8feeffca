/**
 * Which doses a vet's time bears on: those of the treatment it names, wherever that stands, or of what was entered
 * instead of it. Where its number says another cow, or the medicine is another by now, it only lengthens.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import type { Animal, HerVetTime } from './animal.ts';
import { isGiving } from './bearing.ts';
import { type Farm, medicineKey } from './farm.ts';
import { itself, placeOf } from './fold-order.ts';
import { type Corrections, medicineIn } from './instead.ts';
import type { Strikes } from './strikes.ts';

type VetTime = EntryOf<'vet-hold-time'>;

/** A vet's time whose number is not that of the treatment it names. */
export interface VetElsewhere {
  readonly entry: VetTime;
  readonly dose: Entry;
}

export interface VetTimesLaid {
  /** Those that went by their treatment, so that their number says no more whose they are. */
  readonly byTreatment: ReadonlySet<Entry>;
  readonly elsewhere: readonly VetElsewhere[];
}

/** A dose that a vet's time is about. `isSame`: of the medicine that it was said of. */
interface About {
  readonly dose: Entry;
  readonly isSame: boolean;
}

/** Lays every vet's time to the doors where its treatment stands. `entries` in fold order; `meant`: whom its number means. */
export const layVetTimes = (
  entries: readonly Entry[],
  animals: readonly Animal[],
  corrections: Corrections,
  meant: ReadonlyMap<Entry, readonly Animal[]>,
): VetTimesLaid => {
  const byTreatment = new Set<Entry>();
  const elsewhere: VetElsewhere[] = [];
  const about = aboutOf([...meant.keys()] as VetTime[], entries, corrections);
  if (about.size === 0) return { byTreatment, elsewhere };
  const doors = doorsOf(new Set([...about.values()].flatMap((each) => each.map(({ dose }) => dose))), animals);
  for (const [time, doses] of about) {
    byTreatment.add(time);
    const agrees = (dose: Entry, animal?: Animal): boolean =>
      time.subject === dose.subject || (animal !== undefined && meant.get(time)?.includes(animal) === true);
    const hers = new Map<Animal, { doses: string[]; isSure: boolean }>();
    for (const { dose, isSame } of doses) {
      for (const animal of doors.get(dose) ?? []) {
        const have = hers.get(animal) ?? { doses: [], isSure: true };
        hers.set(animal, { doses: [...have.doses, dose.id], isSure: have.isSure && isSame && agrees(dose, animal) });
      }
    }
    for (const animal of meant.get(time) ?? []) if (!hers.has(animal)) takeAway(animal, time);
    for (const [animal, word] of hers) lay(animal, time, word);
    const [first] = doses;
    const isAgreed = doses.some(({ dose }) =>
      [undefined, ...(doors.get(dose) ?? [])].some((each) => agrees(dose, each)),
    );
    if (first !== undefined && !isAgreed) elsewhere.push({ entry: time, dose: first.dose });
  }
  return { byTreatment, elsewhere };
};

const aboutOf = (
  times: readonly VetTime[],
  entries: readonly Entry[],
  corrections: Corrections,
): ReadonlyMap<VetTime, readonly About[]> => {
  if (times.length === 0) return new Map();
  const wanted = new Map<string, Entry[]>();
  for (const { data } of times)
    for (const id of [data.treatment, ...(corrections.get(data.treatment)?.right ?? []).map(({ id }) => id)])
      wanted.set(id, []);
  for (const entry of entries) if (isGiving(entry)) wanted.get(entry.id)?.push(entry);
  return new Map(
    times.flatMap((time): [VetTime, About[]][] => {
      const named = wanted.get(time.data.treatment) ?? [];
      const correction = corrections.get(time.data.treatment);
      const right = (correction?.right ?? []).filter((each) => wanted.get(each.id)?.includes(each) === true);
      const about = [
        ...named.map((dose) => ({ dose, isSame: true })),
        ...right.map((dose) => ({ dose, isSame: isOfMedicine(dose, correction?.was ?? []) })),
      ];
      return about.length === 0 ? [] : [[time, about]];
    }),
  );
};

const isOfMedicine = (dose: Entry, was: readonly Entry[]): boolean => was.every((each) => keyOf(each) === keyOf(dose));

const keyOf = (entry: Entry): string => medicineKey(medicineIn(entry) ?? '');

const doorsOf = (doses: ReadonlySet<Entry>, animals: readonly Animal[]): ReadonlyMap<Entry, readonly Animal[]> => {
  const doors = new Map<Entry, Animal[]>();
  for (const animal of animals) {
    for (const entry of animal.assigned) {
      if (!isGiving(entry) || !doses.has(entry)) continue;
      const have = doors.get(entry);
      if (have === undefined) doors.set(entry, [animal]);
      else have.push(animal);
    }
  }
  return doors;
};

const takeAway = (animal: Animal, time: VetTime): void => {
  const place = animal.assigned.indexOf(time);
  if (place < 0) return;
  animal.assigned.splice(place, 1);
  animal.unsure?.delete(time);
};

const lay = (animal: Animal, time: VetTime, { doses, isSure }: Pick<HerVetTime, 'doses' | 'isSure'>): void => {
  if (!animal.assigned.includes(time)) animal.assigned.splice(placeOf(animal.assigned, time, itself), 0, time);
  animal.unsure?.delete(time);
  if (!isSure) {
    // It may be the one's or the other's: hers whose dose it names, or hers whose number it gives.
    animal.unsure ??= new Map();
    animal.unsure.set(time, 'two-cows');
  }
  if (isSure && doses.every((id) => id === time.data.treatment)) return;
  animal.vetTimes ??= new Map();
  animal.vetTimes.set(time, { entry: time, doses, isSure });
};

/** Vet's times on a dose that is laid to no one cow's door. */
export const vetTimesOn = (
  { farm, strikes }: { readonly farm: Farm; readonly strikes: Strikes },
  dose: Entry,
): readonly HerVetTime[] => {
  const struck = [...strikes.corrections].filter(([, { right }]) => right.some(({ id }) => id === dose.id));
  const under = (id: string, isSame: boolean): HerVetTime[] =>
    (farm.vetTimes.get(id) ?? []).map((entry) => ({
      entry,
      doses: [dose.id],
      isSure: isSame && entry.subject === dose.subject,
    }));
  return [...under(dose.id, true), ...struck.flatMap(([id, { was }]) => under(id, isOfMedicine(dose, was)))];
};
