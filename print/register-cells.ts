/** The cells of one treatment in the printed register, as it stands or struck. What a law asks for and nobody wrote down says so. */
import type { OffLabelCause } from '../projections/because.ts';
import type { HoldOnRegister, MissingField, RegisterRow } from '../projections/medicine-row.ts';
import type { Quantity } from '../projections/medicine-stock.ts';
import type { StruckDose } from '../projections/struck-records.ts';
import { type Block, stack } from './blocks.ts';
import { type Hand, named, say } from './keeper-cells.ts';
import { correctionLines } from './register-rest.ts';
import type { Voice } from './speech.ts';
import { say as sayBecause } from './words.ts';

const NUMBER = 11;

/** What stands in the cells, however the treatment came to be known. */
interface Treatment {
  readonly cow: string;
  readonly cowNow: string | null;
  /** Said where it is not one known cow's. */
  readonly unsure: string | null;
  readonly officialId: string | null;
  readonly medicine: string;
  readonly active: string | null;
  readonly batches: readonly string[];
  readonly routes: readonly string[];
  readonly given: readonly { readonly at: string; readonly amount: Quantity | null; readonly writtenDown: string }[];
  readonly quantities: readonly Quantity[];
  readonly reasons: readonly string[];
  readonly givenBy: readonly string[];
  readonly prescribedBy: readonly string[];
  readonly missing: readonly MissingField[];
}

export const treatmentCells = (
  each: RegisterRow,
  mayBeOf: readonly string[],
  voice: Voice,
  widths: readonly number[],
): Block[] => {
  const [, , , why = 0, milk = 0, meat = 0, supply = 0] = widths;
  const { keeper } = voice.words;
  const lacks = lackingIn(each, voice);
  const unsure = mayBeOf.length > 0 ? keeper.mayBe(mayBeOf.join(' / ')) : each.placed ? null : keeper.noSuchCow;
  return [
    ...firstCells({ ...each, unsure }, voice, widths, {}),
    stack([...whyLines(each, voice, why, {}), say(useOf(each.offLabel, voice), why)]),
    holdCell(each.milkHold, voice, milk),
    holdCell(each.meatHold, voice, meat),
    stack([
      lacks(keeper.supplier, each.supplier ?? '', 'supplier', supply),
      ...(each.supplierAddress === null ? [] : [named(keeper.supplierAddress, each.supplierAddress, supply)]),
      lacks(keeper.proof, each.proof ?? '', 'proof', supply),
    ]),
  ];
};

/** Its own words with a line through them; who struck it, when and why, without. */
export const struckCells = (each: StruckDose, voice: Voice, widths: readonly number[]): Block[] => {
  const [, , , why = 0, milk = 0, meat = 0] = widths;
  const { dose } = each;
  const hand = { struck: true };
  const some = (text: string | undefined): string[] => (text === undefined ? [] : [text]);
  const treatment: Treatment = {
    cow: each.cow,
    cowNow: null,
    unsure: null,
    officialId: each.officialId,
    medicine: dose.medicine,
    active: each.active,
    batches: some(dose.batch),
    routes: some(dose.route),
    given: [{ at: each.given, amount: dose.amount ?? null, writtenDown: each.writtenDown }],
    quantities: dose.amount === undefined ? [] : [dose.amount],
    reasons: some(dose.reason),
    givenBy: some(dose.givenBy ?? each.writtenBy),
    prescribedBy: some(dose.prescribedBy),
    missing: [],
  };
  const { fields } = voice.words.keeper;
  const saidHours = [
    [fields.milkHoldHours, dose.milkHoldHours],
    [fields.meatHoldDays, dose.meatHoldDays],
  ].filter((pair): pair is [string, number] => pair[1] !== undefined);
  return [
    ...firstCells(treatment, voice, widths, hand),
    stack([
      ...whyLines(treatment, voice, why, hand),
      ...(dose.offLabel === true ? [say(useOf(['said'], voice), why, hand)] : []),
      ...saidHours.map(([name, value]) => named(name, voice.format.number(value), why, hand)),
    ]),
    // The two columns of holds are free: a struck dose holds nothing. Who struck it takes the first, what is true the other.
    stack(correctionLines(each, voice, milk, 'struck')),
    stack(correctionLines(each, voice, meat, 'instead')),
    say('', 1),
  ];
};

const firstCells = (each: Treatment, voice: Voice, widths: readonly number[], hand: Hand): Block[] => {
  const [animal = 0, medicine = 0, doses = 0] = widths;
  const { words, format } = voice;
  const { keeper } = words;
  const lacks = lackingIn(each, voice, hand);
  const amount = ({ value, unit }: Quantity): string => voice.labels.amount(format.number(value), unit);
  return [
    stack([
      say(each.cow, animal, { ...hand, size: NUMBER, bold: true }),
      ...(each.cowNow === null ? [] : [say(keeper.nowNumbered(each.cowNow), animal, { ...hand, bold: true })]),
      ...(each.unsure === null ? [] : [say(each.unsure, animal, { ...hand, bold: true })]),
      lacks(keeper.officialNumber, each.officialId ?? '', 'official-number', animal),
    ]),
    stack([
      say(each.medicine, medicine, { ...hand, bold: true }),
      lacks(keeper.active, each.active ?? '', 'active', medicine),
      lacks(keeper.batch, each.batches.join(', '), 'batch', medicine),
      lacks(keeper.route, each.routes.join(', '), 'route', medicine),
    ]),
    stack([
      ...each.given.flatMap((dose) => [
        say(`${format.time(dose.at)}${dose.amount === null ? '' : `, ${amount(dose.amount)}`}`, doses, {
          ...hand,
          bold: true,
        }),
        say(keeper.writtenDownAt(format.time(dose.writtenDown)), doses, hand),
      ]),
      ...(each.given.length > 1 && each.quantities.length > 0
        ? [say(keeper.inAll(each.given.length, each.quantities.map(amount).join(' + '), format), doses, hand)]
        : []),
      ...(each.missing.includes('amount') ? [lacks(keeper.quantity, '', 'amount', doses)] : []),
    ]),
  ];
};

const whyLines = (
  each: Pick<Treatment, 'reasons' | 'givenBy' | 'prescribedBy' | 'missing'>,
  voice: Voice,
  width: number,
  hand: Hand,
): Block[] => {
  const { keeper } = voice.words;
  const lacks = lackingIn(each, voice, hand);
  return [
    lacks(keeper.reason, each.reasons.join('; '), 'reason', width),
    lacks(keeper.givenBy, each.givenBy.join(', '), 'given-by', width),
    lacks(keeper.prescribedBy, each.prescribedBy.join(', '), 'prescribed-by', width),
  ];
};

/** A field with its value; missing in all doses or in some of them, it is said, and loud. */
const lackingIn =
  ({ missing }: Pick<Treatment, 'missing'>, { words }: Voice, hand: Hand = {}) =>
  (name: string, value: string, field: MissingField, width: number): Block => {
    const { keeper } = words;
    if (value === '') return named(name, keeper.notWrittenDown, width, { ...hand, loud: missing.includes(field) });
    return missing.includes(field)
      ? stack([named(name, value, width, hand), say(keeper.someNotWrittenDown, width, { ...hand, bold: true })])
      : named(name, value, width, hand);
  };

const useOf = (causes: readonly OffLabelCause[], { words, format }: Voice): string => {
  const { keeper } = words;
  if (causes.length === 0) return keeper.byLabel;
  return keeper.offLabel(format.list(causes.map((cause) => keeper.offLabelCauses[cause])));
};

/** Zero is written as zero; else until when, whether that is over, and the arithmetic. */
const holdCell = (hold: HoldOnRegister, voice: Voice, width: number): Block => {
  const { labels, words, format } = voice;
  const { keeper } = words;
  if (hold.zero) return say(keeper.zero, width, { bold: true });
  const { until } = hold;
  const end =
    until === null ? labels.noEndKnown : (hold.ended ? keeper.untilOver : keeper.untilTime)(format.time(until));
  return stack([
    say(end, width, { bold: true }),
    ...hold.because.map((because) => say(sayBecause(words, because, format), width)),
  ]);
};
