/** The farm that the big herd stands on: invented, with as many pens as the herd needs. */
import type { FarmSetUp } from '../events/kinds/farm-set-up.ts';
import { DEMO_FARM } from './demo-farm.ts';

export const BIG_HERD_ZONE = 'Europe/Dublin';

const THREE = [
  { name: 'morning', start: '04:30' },
  { name: 'noon', start: '12:30' },
  { name: 'night', start: '20:30' },
];
const TWO = [
  { name: 'morning', start: '05:00' },
  { name: 'afternoon', start: '16:30' },
];

export const milkingsOf = (milkings: 2 | 3): FarmSetUp['milkings'] => (milkings === 3 ? THREE : TWO);

/** A pen holds about 200 cows in milk. */
export const pensOf = (cows: number): string[] =>
  Array.from({ length: Math.max(2, Math.ceil((cows * 0.8) / 200)) }, (_, index) => `Pen ${index + 1}`);

export const bigHerdFarm = (cows: number, milkings: 2 | 3, from: string): FarmSetUp => ({
  ...DEMO_FARM,
  name: 'Longacre Dairy',
  timeZone: BIG_HERD_ZONE,
  from,
  milkings: milkingsOf(milkings),
  parlour: { stalls: cows > 1_000 ? 80 : 22, turnMinutes: 9, slowFromMinutes: 10, slowExtraMinutes: 3 },
  groups: [
    ...pensOf(cows).map((name, index) => ({ name, kind: 'milking' as const, order: index + 1 })),
    { name: 'Fresh', kind: 'fresh', order: 50 },
    { name: 'Hospital', kind: 'hospital', order: 51 },
    { name: 'Dry', kind: 'dry' },
    { name: 'Close-up', kind: 'close-up' },
  ],
});
