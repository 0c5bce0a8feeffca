/**
 * What a language must be able to say on the record keeper's papers: the register of medicines, a cow's history, and the
 * statement for a buyer. A language that lacks a word does not compile.
 */
import type { OffLabelCause } from '../../projections/because.ts';
import type { Format } from './format.ts';

/** Fields of the entries that are written about a cow. */
export const COW_FIELDS = [
  'about',
  'amount',
  'batch',
  'born',
  'calvedOn',
  'calves',
  'course',
  'daysCarried',
  'driedOffOn',
  'driedOffWith',
  'dueOn',
  'ease',
  'entry',
  'forWhom',
  'from',
  'givenBy',
  'group',
  'hold',
  'how',
  'instead',
  'kg',
  'lactation',
  'meatDays',
  'meatHoldDays',
  'meatHoldUntil',
  'medicine',
  'method',
  'milkHoldHours',
  'milkHoldUntil',
  'milkHours',
  'milked',
  'milking',
  'minutes',
  'of',
  'offLabel',
  'officialId',
  'peakFlow',
  'prescribedBy',
  'product',
  'quarters',
  'reason',
  'request',
  'result',
  'route',
  'sampledAt',
  'servedOn',
  'sire',
  'to',
  'treatment',
  'until',
] as const;
export type CowField = (typeof COW_FIELDS)[number];

/** Values that are codes and not words of the writer's own. */
export const CODED = [
  'clear',
  'cow',
  'embryo',
  'empty',
  'insemination',
  'natural',
  'none',
  'nothing',
  'positive',
  'pregnant',
  'tank',
  'twins',
  'unknown',
  'unsure',
] as const;
export type Coded = (typeof CODED)[number];

export interface KeeperOwnLabels {
  // All three papers
  readonly notWrittenDown: string;
  readonly someNotWrittenDown: string;
  readonly barnNumber: string;
  readonly officialNumber: string;
  readonly active: string;
  readonly batch: string;
  readonly quantity: string;
  readonly route: string;
  readonly reason: string;
  readonly givenBy: string;
  readonly prescribedBy: string;
  readonly byLabel: string;
  readonly offLabel: (causes: string) => string;
  readonly supplier: string;
  readonly supplierAddress: string;
  readonly proof: string;
  readonly zero: string;
  readonly untilOver: (time: string) => string;
  readonly untilTime: (time: string) => string;
  readonly writtenDownAt: (time: string) => string;
  readonly struckBy: (who: string, time: string, why: string) => string;
  readonly instead: (what: string) => string;
  readonly insteadNothing: string;
  readonly insteadNotSaid: string;
  readonly atPosition: (position: number) => string;
  readonly noSuchCow: string;
  // The register
  readonly register: string;
  readonly wholeBook: string;
  readonly fromDay: (day: string) => string;
  readonly toDay: (day: string) => string;
  readonly period: (from: string, to: string) => string;
  readonly treatments: (count: number, format: Format) => string;
  readonly struckTreatments: (count: number, format: Format) => string;
  readonly noTreatments: string;
  readonly lacking: (count: number, format: Format) => string;
  readonly noneLacking: string;
  readonly maybeTreatments: (count: number, format: Format) => string;
  readonly animal: string;
  readonly medicineColumn: string;
  readonly dosesColumn: string;
  readonly whyColumn: string;
  readonly supplyColumn: string;
  readonly inAll: (doses: number, quantity: string, format: Format) => string;
  readonly otherCorrections: string;
  readonly noOtherCorrections: string;
  readonly what: string;
  readonly correction: string;
  readonly stock: (time: string) => string;
  readonly noStock: string;
  readonly expires: string;
  readonly received: string;
  readonly used: string;
  readonly disposed: string;
  readonly left: string;
  readonly moreOut: string;
  /** A cow that bears another number now. */
  readonly nowNumbered: (number: string) => string;
  /** Beside what is left of a batch. */
  readonly notTakenOff: (doses: number, format: Format) => string;
  readonly withoutQuantity: (doses: number, format: Format) => string;
  // A cow's history
  readonly history: (number: string) => string;
  readonly entriesCount: (count: number, format: Format) => string;
  readonly clocksOf: (zone: string) => string;
  readonly bore: (number: string, from: string, to: string | null) => string;
  readonly manyCows: (number: string, cows: number, format: Format) => string;
  readonly nobody: (number: string) => string;
  readonly cowNumbered: (index: number) => string;
  readonly mayBe: (whose: string) => string;
  readonly happened: string;
  readonly learnt: string;
  readonly who: string;
  readonly by: (who: string, device: string) => string;
  readonly through: (peer: string) => string;
  readonly everyHours: (hours: string) => string;
  readonly yes: string;
  readonly no: string;
  readonly fields: Readonly<Record<CowField, string>>;
  readonly coded: Readonly<Record<Coded, string>>;
  // The statement for a buyer
  readonly statement: string;
  readonly whatBookKnows: string;
  readonly notGuarantee: string;
  readonly born: string;
  readonly leftOn: string;
  readonly boughtBy: string;
  readonly stillHere: (time: string) => string;
  readonly holdsAt: (time: string) => string;
  readonly holdsAtLeaving: (time: string) => string;
  readonly notHeld: string;
  readonly noEndAskVet: string;
  readonly nothingHeld: string;
  readonly restsOn: (entries: number, since: string, format: Format) => string;
  readonly lastTreatment: (treatments: number, medicine: string, time: string, format: Format) => string;
  readonly noTreatmentEver: string;
  readonly behind: string;
  readonly noneBehind: string;
  readonly lastDoseColumn: string;
  readonly notKnown: string;
  readonly nothingMissing: string;
  readonly missingHere: (what: string, where: string) => string;
  readonly statedBy: string;
  readonly name: string;
  readonly signature: string;
  readonly date: string;
  readonly receivedBy: string;
}

/** What a language has said elsewhere already: causes of off-label use, and why a cow left. */
export interface KeeperLabels extends KeeperOwnLabels {
  readonly offLabelCauses: Readonly<Record<OffLabelCause, string>>;
  readonly leftReasons: Readonly<Record<string, string>>;
}
