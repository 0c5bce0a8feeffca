/** The codes of the standard beside the book's own words. What has no code is left out on the way out and noted on the way in. */
import type { Calving } from '../../events/kinds/calving.ts';
import type { CowLeft } from '../../events/kinds/cow-left.ts';
import type { PregnancyCheck } from '../../events/kinds/pregnancy-check.ts';
import type { Service } from '../../events/kinds/service.ts';
import type { Treatment } from '../../events/kinds/treatment.ts';

/** Calving ease 1 to 5, in the standard's order. */
export const EASE = [
  'EasyUnassisted',
  'EasyAssisted',
  'DifficultExtraAssistance',
  'DifficultVeterinaryCare',
  'CaesareanOrSurgery',
] as const;

export const easeCode = (ease: Calving['ease']): string | undefined =>
  ease === undefined ? undefined : EASE[ease - 1];

export const easeOf = (code: string): number | undefined => {
  const place = (EASE as readonly string[]).indexOf(code);
  return place < 0 ? undefined : place + 1;
};

const SERVICES = {
  insemination: 'Insemination',
  natural: 'NaturalService',
  embryo: 'Implantation',
} as const satisfies Record<Service['how'], string>;

export const serviceCode = (how: Service['how']): string => SERVICES[how];

export const serviceOf = (code: string): Service['how'] | undefined => {
  if (code === 'RunWithBull') return 'natural';
  return (['insemination', 'natural', 'embryo'] as const).find((how) => SERVICES[how] === code);
};

const RESULTS = {
  pregnant: 'Pregnant',
  twins: 'Multiple',
  empty: 'Empty',
  unsure: 'Unknown',
} as const satisfies Record<PregnancyCheck['result'], string>;

export const resultCode = (result: PregnancyCheck['result']): string => RESULTS[result];

export const resultOf = (code: string): PregnancyCheck['result'] | undefined =>
  (['pregnant', 'twins', 'empty', 'unsure'] as const).find((result) => RESULTS[result] === code);

type Quarter = NonNullable<Treatment['quarters']>[number];

const POSITIONS = {
  'left-front': 'UdderFrontLeft',
  'right-front': 'UdderFrontRight',
  'left-hind': 'UdderRearLeft',
  'right-hind': 'UdderRearRight',
  'left-rear': 'UdderRearLeft',
  'right-rear': 'UdderRearRight',
} as const satisfies Record<Quarter, string>;

export const positionCode = (quarter: Quarter): string => POSITIONS[quarter];

export const quarterOf = (code: string): Quarter | undefined =>
  (['left-front', 'right-front', 'left-hind', 'right-hind'] as const).find((quarter) => POSITIONS[quarter] === code);

/** UN/CEFACT units of a dose by the words people write; the first word is the one that comes back. */
const UNITS: Readonly<Record<string, readonly [string, ...string[]]>> = {
  MLT: ['ml', 'millilitre', 'milliliter', 'millilitres', 'milliliters'],
  LTR: ['l', 'litre', 'liter', 'litres', 'liters'],
  MGM: ['mg', 'milligram', 'milligrams'],
  GRM: ['g', 'gram', 'grams'],
  XTU: ['tube', 'tubes'],
  XVI: ['vial', 'vials'],
  XAR: ['suppository', 'suppositories'],
  XCQ: ['cartridge', 'cartridges'],
  SYR: ['syringe', 'syringes'],
};

export const unitCode = (unit: string): string | undefined =>
  Object.entries(UNITS).find(([, words]) => words.includes(unit.trim().toLowerCase()))?.[0];

export const unitOf = (code: string): string | undefined => UNITS[code]?.[0];

/** How she left, as the standard says it; `died` is an event of its own. */
export const departureCodes = (
  reason: Exclude<CowLeft['reason'], 'died'>,
): { readonly departureKind: string; readonly departureReason: string } => {
  switch (reason) {
    case 'sold-for-beef':
      return { departureKind: 'Slaughter', departureReason: 'Slaughter' };
    case 'sold-for-milking':
      return { departureKind: 'Sale', departureReason: 'Sale' };
    case 'other':
      return { departureKind: 'Other', departureReason: 'Other' };
  }
};

/** The reason that a departure's codes come to; undefined where they say nothing the book has a word for. */
export const departureOf = (kind: string | undefined, reason: string | undefined): CowLeft['reason'] | undefined => {
  if (kind === 'Slaughter' || reason === 'Slaughter') return 'sold-for-beef';
  if (kind === 'Sale' || (kind === undefined && reason === 'Sale')) return 'sold-for-milking';
  return kind === 'Other' ? 'other' : undefined;
};
