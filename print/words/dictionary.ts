/**
 * What a language must be able to say on paper: every saying of the rules, a short crew form of every hold,
 * and every label of every sheet. A language that lacks one does not compile.
 */
import type { SayingKey, Sayings } from '../../projections/because.ts';
import type { HoldCause } from '../../projections/views.ts';
import type { Format } from './format.ts';
import type { KeeperLabels } from './keeper.ts';

export type HoldKey = Extract<SayingKey, `hold.${string}`>;

export type Say<K extends SayingKey> = (values: Sayings[K], format: Format) => string;
export type Says = { readonly [K in SayingKey]: Say<K> };
/** What the crew read in fewer words than the office. */
export type CrewKey =
  | HoldKey
  | 'unplaced.set-aside'
  | 'treat.due'
  | 'treat.overdue'
  | 'sort.request'
  | 'sort.fresh-move';
/**
 * For the wall: what a milker needs beside the cause and the medicine's name, which the row says itself;
 * empty where those say it all. No arithmetic.
 */
export type CrewSays = { readonly [K in CrewKey]: Say<K> };

/** The six names of the four quarters: hind and rear are one place in two countries' English. */
export type Quarter = 'left-front' | 'right-front' | 'left-hind' | 'right-hind' | 'left-rear' | 'right-rear';

export interface Labels {
  // The page
  readonly onlyFor: (when: string) => string;
  readonly takeOldDown: string;
  readonly replaces: (ref: string) => string;
  readonly rehearsal: string;
  readonly notIssued: string;
  readonly printed: (time: string) => string;
  readonly page: (page: number, pages: number) => string;
  readonly linesHere: (here: number, all: number) => string;
  readonly continued: string;
  readonly part: (part: number, parts: number) => string;
  readonly book: string;
  readonly position: string;
  readonly root: string;
  readonly whenUnsure: string;
  readonly cautions: string;
  readonly initials: string;
  readonly medicine: string;
  readonly done: string;
  readonly byHand: string;
  readonly byHandWhat: string;
  readonly alerts: string;
  // Columns that several sheets share
  readonly cow: string;
  readonly group: string;
  readonly why: string;
  readonly since: string;
  readonly until: string;
  readonly noEndKnown: string;
  readonly lastDose: (time: string) => string;
  readonly quarters: Readonly<Record<Quarter, string>>;
  readonly front: string;
  readonly leftLetter: string;
  readonly rightLetter: string;
  // Milk hold
  readonly milkHold: string;
  readonly milkOut: (cows: number, format: Format) => string;
  readonly noneHeld: string;
  /** The same, where numbers stand above that nobody in the herd is known by. */
  readonly noneHeldButFind: string;
  readonly find: string;
  readonly findHow: string;
  readonly unreadable: string;
  readonly dryAmongMilkers: string;
  readonly groupHeld: (group: string, held: number, format: Format) => string;
  readonly groupNone: (group: string) => string;
  readonly wears: (mark: string) => string;
  readonly isNew: string;
  readonly milkTo: (place: string) => string;
  readonly keepApart: string;
  readonly causes: Readonly<Record<HoldCause, string>>;
  readonly inTheTank: string;
  readonly keepOut: string;
  readonly keepOutDry: string;
  readonly afterTime: (time: string) => string;
  readonly milkingsLeft: (milkings: number, format: Format) => string;
  readonly askFirst: string;
  readonly bandsOff: (cows: number, format: Format) => string;
  readonly noneCleared: string;
  readonly bandOff: string;
  readonly freeSince: (time: string) => string;
  readonly notBefore: (time: string) => string;
  readonly gone: string;
  readonly goneHow: Readonly<Record<'dried-off' | 'left' | 'struck' | 'not-milked-now', string>>;
  readonly treatNow: (cows: number, format: Format) => string;
  readonly noneToTreat: string;
  readonly dose: (dose: number, of: number) => string;
  readonly amount: (value: string, unit: string) => string;
  readonly askBeforeGiving: string;
  readonly bandNoLine: string;
  readonly milkWentIn: string;
  // Dry-off
  readonly dryOff: string;
  readonly dryOffRule: string;
  readonly dryOffCount: (cows: number, format: Format) => string;
  readonly noneToDryOff: string;
  readonly dryOffOn: (day: string) => string;
  readonly calvingDue: (day: string) => string;
  readonly overdue: (days: number, format: Format) => string;
  readonly product: string;
  readonly sealant: string;
  readonly band: string;
  readonly quartersDone: string;
  readonly undecided: string;
  readonly noneUndecided: string;
  readonly daysInMilk: (days: number, format: Format) => string;
  readonly decision: string;
  // Fresh pen
  readonly freshMoves: string;
  readonly movesOut: (cows: number, format: Format) => string;
  readonly noneOut: string;
  readonly goesTo: (group: string) => string;
  readonly from: (group: string) => string;
  readonly stays: string;
  readonly noneStay: string;
  readonly comesIn: string;
  readonly noneIn: string;
  readonly pen: string;
  readonly nonePen: string;
  readonly calved: (time: string) => string;
  readonly notCalved: string;
  readonly milkingsSince: (milkings: number, format: Format) => string;
  readonly ease: (ease: number) => string;
  readonly calf: (sex: string, alive: boolean, number: string | undefined) => string;
  readonly temperature: string;
  readonly milkCheckedBy: string;
  // Sort
  readonly sort: string;
  readonly sortCount: (cows: number, format: Format) => string;
  readonly noneToSort: string;
  readonly to: (places: string) => string;
  readonly whereTo: string;
  readonly backTo: (group: string) => string;
  readonly noPlace: string;
  readonly placesDiffer: string;
  readonly cannotCome: string;
  readonly tally: (cows: number, format: Format) => string;
  // Counts
  readonly counts: string;
  readonly expected: string;
  readonly counted: string;
  readonly inMilk: string;
  readonly held: string;
  readonly cameIn: string;
  readonly wentOut: string;
  readonly movements: string;
  readonly nobodyMoved: string;
  readonly allGroups: string;
  readonly lastCount: (count: number, when: string | null, difference: number, format: Format) => string;
  readonly notMilkedNow: string;
  readonly capacity: (head: number) => string;
  readonly noGroups: string;
  // Milking plan
  readonly plan: string;
  readonly planTotal: (start: string, ends: string, duration: string) => string;
  readonly nonePlanned: string;
  readonly order: string;
  readonly cows: string;
  readonly turns: string;
  readonly start: string;
  readonly finish: string;
  readonly minutes: string;
  readonly duration: (hours: number, minutes: number, format: Format) => string;
  readonly slow: string;
  readonly noneSlow: string;
  readonly before: string;
  readonly after: string;
  readonly footBath: string;
  readonly noFootBath: string;
  // Beef hold
  readonly beefHold: string;
  readonly beefRule: string;
  readonly beefCount: (cows: number, format: Format) => string;
  readonly noneBeefHeld: string;
  // Wall and office
  readonly wall: string;
  readonly office: string;
  readonly noAlerts: string;
  readonly doubts: string;
  readonly noDoubts: string;
  readonly dosesMissing: string;
  readonly noDosesMissing: string;
  readonly notReturned: string;
  readonly allReturned: string;
  readonly forTheVet: string;
  readonly nothingForTheVet: string;
  /** Holds without end that neither the vet's word nor a missing dose would end. */
  readonly openEnded: string;
  readonly nobodyOpenEnded: string;
}

export interface Words {
  /** BCP 47; goes into the PDF and to `Intl`. */
  readonly locale: string;
  /** Said beside a sum whose two ends have different offsets from UTC. */
  readonly clocksChange: string;
  readonly labels: Labels;
  readonly says: Says;
  readonly crew: CrewSays;
  /** The record keeper's papers. */
  readonly keeper: KeeperLabels;
  /** Usual names of milkings; a farm's own other name prints as written. */
  readonly milkingNames: Readonly<Record<string, string>>;
  /** Kinds of entry as sayings name them ("a calving"); another text, such as a medicine, prints as written. */
  readonly kinds: Readonly<Record<string, string>>;
}
