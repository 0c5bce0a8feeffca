/**
 * Why a line stands on a sheet: the rule's number, a key, the values of the arithmetic and the entries behind it.
 * No words: `print/` puts them on, in each language. A key added here and not worded there fails the build.
 * Instants are RFC 3339 text in UTC, days `YYYY-MM-DD`, milkings their ids.
 */
export type RuleNumber = `R-${number}`;
type Time = string;
type Day = string;
type Milking = string;

/** Causes of off-label use as the folds see them. */
export type OffLabelCause = 'said' | 'route' | 'doses' | 'interval' | 'age' | 'class';
/** Why a number may mean a cow without being sure. */
export type MayBe = 'two-cows' | 'leading-zeros' | 'old-number' | 'not-in-herd-then' | 'one-official-number';

/** A tank load that a milking's milk went into. */
export interface TankLoadSaid {
  readonly tank: string;
  readonly collectedAt: string | null;
  readonly ticket: string | null;
}

export interface Sayings {
  // Milk hold, why a cow is on it. `planned`: the last dose of a running course, not given yet.
  'hold.hours': { medicine: string; hours: number; lastDose: Time; planned: boolean; ends: Time };
  /** `floorHours`: twelve hours a milking, when that is what governs; else null. */
  'hold.milkings': {
    medicine: string;
    milkings: number;
    lastDose: Time;
    planned: boolean;
    ends: Time | null;
    floorHours: number | null;
  };
  'hold.hours-and-milkings': {
    medicine: string;
    hours: number;
    milkings: number;
    lastDose: Time;
    planned: boolean;
    ends: Time | null;
    governs: 'hours' | 'milkings';
  };
  'hold.label-longer': { medicine: string; listed: Time; ends: Time | null };
  'hold.course-running': { medicine: string; given: number; of: number; plannedLast: Time; ends: Time | null };
  'hold.dose-not-recorded': { medicine: string; dose: number; of: number; due: Milking | null };
  'hold.not-listed': { medicine: string };
  'hold.label-unknown': { medicine: string };
  'hold.not-for-milking-cows': { medicine: string };
  'hold.off-label-no-vet': { medicine: string; causes: OffLabelCause[] };
  'hold.off-label-milkings-only': { medicine: string; milkings: number };
  'hold.vet': {
    medicine: string;
    hours: number;
    lastDose: Time;
    planned: boolean;
    ends: Time;
    prescribedBy: string | null;
  };
  'hold.off-label-eu': {
    medicine: string;
    basis: 'one-and-a-half' | 'zero' | 'not-authorised';
    labelHours: number | null;
    hours: number;
    lastDose: Time;
    planned: boolean;
    ends: Time;
  };
  'hold.dry-cow-until-calving': { medicine: string; given: Time };
  'hold.dry-cow-after-calving': {
    medicine: string;
    calved: Time;
    calvedOn?: Day;
    hours: number | null;
    milkings: number | null;
    ends: Time | null;
  };
  'hold.dry-cow-early': {
    medicine: string;
    given: Time;
    minimumDays: number;
    calved: Time;
    calvedOn?: Day;
    ends: Time | null;
  };
  'hold.dry-cow-milked-again': { medicine: string; given: Time };
  'hold.dry-cow-not-stated': { driedOff: Day | null };
  /** She stood there since then and calved, or came so, and no dry-off is written down. */
  'hold.no-dry-off': { group: string; since: Day };
  'hold.back-from-dry': { group: string; since: Day; back: Day };
  'hold.fresh': { calved: Time; calvedOn?: Day; hours: number | null; milkings: number | null; ends: Time | null };
  'hold.fresh-not-set': { calved: Time; calvedOn?: Day };
  'hold.before-due': { due: Day; days: number };
  'hold.set-by-person': { reason: string; since: Time; author: string };
  'hold.residue-positive': { sampled: Time; method: string | null };
  'hold.entered-until': { until: Time };
  'hold.entered-unknown': Record<never, never>;
  'hold.entry-set-aside': { problem: string };
  'hold.dry-in-milked-group': { group: string };
  'hold.may-be-her': { number: string; how: MayBe; about: string };
  // Unplaced, at the head of the milk-hold sheet. `about` is a medicine or the kind of entry.
  'unplaced.not-in-herd': { number: string; about: string; at: Time };
  'unplaced.two-cows': { number: string; about: string; at: Time; cows: string[] };
  'unplaced.leading-zeros': { number: string; about: string; at: Time; mayBe: string[] };
  'unplaced.old-number': { number: string; about: string; at: Time; mayBe: string[] };
  'unplaced.dose-struck': { number: string; about: string; at: Time; reason: string };
  /** `cows`: numbers that can be read in it, none of them a cow of the herd. */
  'unplaced.set-aside': { problem: string; cows: readonly string[] };
  'unplaced.left-on-hold': { left: Day; until: Time | null };
  // Treat now
  'treat.due': { planned: Time; lastGiven: Time; everyHours: number };
  'treat.overdue': { planned: Time; due: Milking | null; lastGiven: Time; everyHours: number };
  // Dry-off
  'dry-off.due': { due: Day; days: number; target: Day; dryOffOn: Day; weekday: string | null };
  'dry-off.under-minimum': { daysLeft: number; minimum: number };
  'dry-off.product-minimum': { product: string; minimum: number; daysLeft: number };
  'dry-off.twins': Record<never, never>;
  'dry-off.on-hold': { until: Time | null };
  'dry-off.no-service': Record<never, never>;
  'dry-off.not-confirmed': { daysInMilk: number; limit: number };
  'dry-off.no-due-date': Record<never, never>;
  // Fresh pen
  'fresh.out': { calved: Time; calvedOn?: Day; hours: number; wanted: number; lactation: number };
  'fresh.at-capacity': { group: string; head: number; capacity: number };
  'fresh.stay-hours': { calved: Time; calvedOn?: Day; hours: number; wanted: number };
  'fresh.stay-on-hold': { until: Time | null };
  'fresh.stay-no-group': { lactation: number };
  'fresh.stay-hours-not-set': Record<never, never>;
  'fresh.stay-not-calved': Record<never, never>;
  'fresh.stay-calving-unknown': Record<never, never>;
  'fresh.in-calved': { calved: Time; calvedOn?: Day; group: string };
  'fresh.in-due': { due: Day; days: number; group: string };
  // Sort
  'sort.request': { reason: string; forWhom: string | null; to: string | null };
  'sort.dry-off': { product: string | null };
  'sort.fresh-move': { to: string };
  'sort.dose': { medicine: string; dose: number; of: number };
  'sort.cannot-dry': { group: string };
  'sort.cannot-left': { left: Day };
  'sort.cannot-unknown': Record<never, never>;
  'sort.cannot-not-milked': { group: string };
  // Beef hold
  'meat.days': { medicine: string; days: number; doses: number; lastDose: Time; planned: boolean; ends: Time };
  'meat.off-label-eu': {
    medicine: string;
    basis: 'one-and-a-half' | 'zero' | 'not-authorised';
    labelDays: number | null;
    days: number;
    lastDose: Time;
    planned: boolean;
    ends: Time;
  };
  'meat.vet': {
    medicine: string;
    days: number;
    lastDose: Time;
    planned: boolean;
    ends: Time;
    prescribedBy: string | null;
  };
  'meat.unknown': { medicine: string };
  'meat.not-listed': { medicine: string };
  'meat.off-label-no-vet': { medicine: string; causes: OffLabelCause[] };
  'meat.course-running': { medicine: string; given: number; of: number; plannedLast: Time; ends: Time | null };
  'meat.dose-not-recorded': { medicine: string; dose: number; of: number };
  'meat.label-longer': { medicine: string; listed: Time; ends: Time | null };
  'meat.after-calving': { medicine: string; calved: Time; calvedOn?: Day; hours: number; ends: Time };
  'meat.product-not-stated': { driedOff: Day | null };
  'meat.no-dry-off': { group: string; since: Day };
  'meat.back-from-dry': { group: string; since: Day; back: Day };
  'meat.entered-until': { until: Time };
  'meat.entered-unknown': Record<never, never>;
  'meat.entry-set-aside': { problem: string };
  'meat.may-be-her': { number: string; how: MayBe; about: string };
  // Why a cow is or is not on a list, beside the reasons above
  'why.tank-from': { until: Time; lastHeld: Milking | null; tankFrom: Milking | null };
  'why.no-hold': Record<never, never>;
  'why.not-milked': { group: string };
  'why.not-on-last-sheet': Record<never, never>;
  'why.no-dose-due': Record<never, never>;
  'why.dose-later': { medicine: string; dose: number; of: number; planned: Time; due: Milking };
  'why.not-in-milk': Record<never, never>;
  'why.not-in-calf': { daysInMilk: number | null; limit: number };
  'why.dry-off-later': { due: Day; dryOffOn: Day; lookAheadDays: number };
  'why.not-in-fresh-pen': { group: string };
  'why.nobody-asked': Record<never, never>;
  'why.counted': { group: string; inMilk: boolean };
  'why.minutes': { minutes: number; slowFrom: number };
  'why.no-minutes': Record<never, never>;
  'why.no-meat-hold': Record<never, never>;
  // Doubts and alerts
  'doubt.unplaced': { number: string; about: string; at: Time };
  'doubt.two-cows': { number: string; cows: string[] };
  'doubt.leading-zeros': { number: string; mayBe: string[] };
  'doubt.struck-unplaced': { number: string; about: string; at: Time };
  'doubt.set-aside': { problem: string; cows: string[] };
  'doubt.milk-not-stated': { cow: string; group: string };
  'doubt.vet-time-not-longer': { cow: string; medicine: string; vetHours: number; labelHours: number | null };
  'doubt.vet-time-unplaced': { treatment: string };
  /** `number`: as the vet's time says; `of`: as the treatment does. */
  'doubt.vet-time-elsewhere': { number: string; of: string; about: string; at: Time };
  'doubt.both-still-wanted': { cow: string; course: string; other: string };
  'doubt.dose-not-recorded': { cow: string; medicine: string; dose: number; of: number };
  'doubt.retired-medicine': { cow: string; medicine: string };
  'doubt.two-groups': { cow: string; groups: string[]; at: Time };
  'doubt.unknown-group': { cow: string; group: string };
  'doubt.after-leaving': { cow: string; about: string; at: Time; left: Day };
  'doubt.after-renumbering': { number: string; about: string; at: Time; cow: string };
  'doubt.entered-again': { number: string; at: Time; cows: string[] };
  'doubt.dry-off-when-dry': { cow: string; at: Time };
  'doubt.calved-in-milk': { cow: string; at: Time };
  'doubt.among-dry': { cow: string; group: string; since: Day };
  /** A date that lies after the entry that gives it. */
  'doubt.date-ahead': { cow: string; what: 'dry-off' | 'calving'; day: Day; at: Time };
  'doubt.past-due': { cow: string; due: Day; days: number };
  'doubt.calved-early': { cow: string; due: Day; days: number };
  'doubt.sort-several-places': { cow: string; places: string[] };
  'doubt.strike-of-nothing': { entry: string };
  'doubt.strike-of-strike': { entry: string };
  'doubt.one-id-two-contents': { id: string };
  'doubt.unknown-language': { language: string };
  'doubt.number-in-use': { number: string; at: Time };
  'doubt.two-labels': { medicine: string; at: Time };
  /** `from`: the date that both are for. */
  'doubt.two-set-ups': { at: Time; from: Day };
  'doubt.head-count': { group: string; count: number; book: number; at: Time };
  'doubt.no-farm': Record<never, never>;
  /** `phase`: before the milking, inside it, or after it. `loads`: where its milk is; `collectedAt` null while still here. */
  'alert.late-news': {
    cow: string;
    milking: Milking;
    phase: 'before' | 'running' | 'over';
    until: Time | null;
    about: string;
    loads: TankLoadSaid[];
    ref: string;
    /** On the set that says so at last. */
    saidHere?: true;
  };
  'alert.late-unplaced': {
    number: string;
    about: string;
    milking: Milking;
    phase: 'before' | 'running' | 'over';
    loads: TankLoadSaid[];
    ref: string;
  };
  'alert.no-sheet': { milking: Milking; cows: string[]; loads: TankLoadSaid[] };
  'alert.tank-positive': { tank: string; at: Time; milkings: Milking[]; collectedAt: Time | null };
  'alert.left-on-hold': {
    cow: string;
    left: Day;
    milkUntil: Time | null;
    meatUntil: Time | null;
    milk: boolean;
    meat: boolean;
    reason: string;
  };
}

export type SayingKey = keyof Sayings;

/** One reason: which rule, which saying, its values, and the ids of the entries behind it. */
export interface BecauseOf<K extends SayingKey> {
  readonly rule: RuleNumber;
  readonly key: K;
  readonly values: Sayings[K];
  readonly entries: readonly string[];
}

export type Because = { [K in SayingKey]: BecauseOf<K> }[SayingKey];

/** A list of ids that grew keeps room for more; reasons are kept by the ten thousand, so each has its own. */
export const because = <K extends SayingKey>(
  rule: RuleNumber,
  key: K,
  values: Sayings[K],
  entries: readonly string[],
): Because => ({ rule, key, values, entries: entries.slice() }) as unknown as Because;
