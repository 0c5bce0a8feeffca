/** What the statement for a buyer says, in words, for paper and for the terminal alike. */
import type { HoldStated, Leaving } from '../projections/leaving.ts';
import type { MissingField, RegisterRow } from '../projections/medicine-row.ts';
import type { Voice } from './speech.ts';
import { say } from './words.ts';

/** A name and its value; `loud` where it must not be missed. */
export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly loud?: boolean;
}

export const whoSheIs = (leaving: Leaving, { words, format }: Voice): Fact[] => {
  const { keeper } = words;
  const { left } = leaving;
  const others = leaving.otherNumbers.length === 0 ? '' : ` (${leaving.otherNumbers.join(', ')})`;
  const known = (name: string, value: string | null): Fact =>
    value === null ? { name, value: keeper.notWrittenDown, loud: true } : { name, value };
  return [
    known(keeper.officialNumber, leaving.officialId),
    { name: keeper.barnNumber, value: `${leaving.cow}${others}` },
    known(keeper.born, leaving.born === null ? null : format.day(leaving.born)),
    ...(left === null
      ? []
      : [
          {
            name: keeper.leftOn,
            value: `${format.time(left.at)}, ${keeper.leftReasons[left.reason] ?? left.reason}`,
          },
        ]),
    ...(left?.to == null ? [] : [{ name: keeper.boughtBy, value: left.to }]),
  ];
};

export const holdsHeading = ({ left, at }: Leaving, { words, format }: Voice): string =>
  (left === null ? words.keeper.holdsAt : words.keeper.holdsAtLeaving)(format.time(at));

/** Until when, or that no end is known, or that there is none. */
export const endOf = (hold: HoldStated, { words, format }: Voice): string => {
  const { keeper } = words;
  if (!hold.held) return keeper.notHeld;
  return hold.until === null ? keeper.noEndAskVet : keeper.untilTime(format.time(hold.until));
};

export const reasonsOf = (hold: HoldStated, { words, format }: Voice): string[] => [
  ...new Set(hold.reasons.map((because) => say(words, because, format))),
];

/** What the statement rests on. */
export const basisOf = (leaving: Leaving, { words, format }: Voice): string[] => {
  const { keeper } = words;
  const { lastTreatment } = leaving;
  return [
    ...(leaving.milk.held || leaving.meat.held ? [] : [keeper.nothingHeld]),
    keeper.restsOn(leaving.entries, format.time(leaving.since), format),
    lastTreatment === null
      ? keeper.noTreatmentEver
      : keeper.lastTreatment(leaving.treatmentsInBook, lastTreatment.medicine, format.time(lastTreatment.at), format),
  ];
};

/** Each dose of a treatment, with its quantity. */
export const dosesOf = (row: RegisterRow, { words, labels, format }: Voice): string[] =>
  row.given.map(
    ({ at, amount }) =>
      `${format.time(at)}, ${amount === null ? `${words.keeper.quantity}: ${words.keeper.notWrittenDown}` : labels.amount(format.number(amount.value), amount.unit)}`,
  );

export const factsOf = (row: RegisterRow, { words }: Voice): Fact[] => {
  const { keeper } = words;
  const known = (name: string, value: string): Fact =>
    value === '' ? { name, value: keeper.notWrittenDown, loud: true } : { name, value };
  return [
    known(keeper.active, row.active ?? ''),
    known(keeper.batch, row.batches.join(', ')),
    known(keeper.route, row.routes.join(', ')),
    known(keeper.reason, row.reasons.join('; ')),
    known(keeper.prescribedBy, row.prescribedBy.join(', ')),
  ];
};

/** What a buyer may miss of a treatment. */
const ASKED: ReadonlySet<MissingField> = new Set(['amount', 'active', 'batch', 'route', 'prescribed-by']);

const nameOf = (field: MissingField, { words }: Voice): string => {
  const { keeper } = words;
  const names: Readonly<Record<MissingField, string>> = {
    amount: keeper.quantity,
    route: keeper.route,
    batch: keeper.batch,
    reason: keeper.reason,
    'given-by': keeper.givenBy,
    'prescribed-by': keeper.prescribedBy,
    'official-number': keeper.officialNumber,
    supplier: keeper.supplier,
    proof: keeper.proof,
    active: keeper.active,
  };
  return names[field];
};

export const notKnownOf = (leaving: Leaving, voice: Voice): string[] => {
  const { words, format } = voice;
  const { keeper } = words;
  const missing = leaving.treatments.flatMap((row) => {
    const fields = row.missing.filter((field) => ASKED.has(field)).map((field) => nameOf(field, voice));
    return fields.length === 0
      ? []
      : [keeper.missingHere(fields.join(', '), `${row.medicine}, ${format.time(row.lastDose)}`)];
  });
  return [
    ...(leaving.officialId === null ? [keeper.missingHere(keeper.officialNumber, leaving.cow)] : []),
    ...new Set(leaving.doubts.map(({ because }) => say(words, because, format))),
    ...missing,
  ];
};
