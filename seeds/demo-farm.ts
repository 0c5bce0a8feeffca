/** The demo's farm: invented whole, its people, times, sizes and telephone numbers included. */
import type { FarmSetUp } from '../events/kinds/farm-set-up.ts';
import { DEMO_MILKINGS, DEMO_ZONE } from './calendar.ts';

/** Who writes, and on which device. */
export const CREW = {
  nuala: { name: 'Nuala Terpstra', source: 'office' },
  bram: { name: 'Bram', source: 'parlour' },
  ifeoma: { name: 'Ifeoma', source: 'phone' },
  casimir: { name: 'Casimir', source: 'phone' },
} as const;

export const VET = 'Dr Quillfeather';

export const DEMO_FARM: FarmSetUp = {
  name: 'Sallowmere Dairy',
  timeZone: DEMO_ZONE,
  paper: 'A4',
  languages: ['en'],
  milkings: DEMO_MILKINGS,
  parlour: { stalls: 22, turnMinutes: 11, slowFromMinutes: 10, slowExtraMinutes: 3 },
  groups: [
    { name: 'Heifers', kind: 'milking', takes: 'first-lactation', order: 1, capacity: 110 },
    { name: 'High', kind: 'milking', takes: 'later-lactations', order: 2, capacity: 104 },
    { name: 'Steady', kind: 'milking', order: 3, capacity: 120 },
    { name: 'Once', kind: 'milking', order: 4, milkedAt: ['morning'] },
    { name: 'Fresh', kind: 'fresh', order: 5, capacity: 14 },
    { name: 'Hospital', kind: 'hospital', order: 6, capacity: 12 },
    { name: 'Dry', kind: 'dry' },
    { name: 'Close-up', kind: 'close-up', capacity: 40 },
  ],
  mark: 'orange leg band, left hind',
  freshHold: { milkings: 8, daysBeforeDue: 14 },
  freshPenHours: 60,
  freshHoldMayMove: false,
  dryOff: {
    days: 60,
    minimumDays: 45,
    weekday: 'thursday',
    lookAheadDays: 7,
    longMilkingDays: 305,
    product: 'Cloxacillin benzathine, dry cow',
  },
  gestationDays: 283,
  offLabel: 'vet',
  milkTo: {
    treated: 'red bucket, then the slurry',
    fresh: 'calf house, blue churn',
    abnormal: 'red bucket, then the slurry',
  },
  chores: {
    before: ['Sheets on the wall, old ones off', 'Tank cooling on, outlet shut', 'Filter sock in'],
    after: [
      'Filter sock out, look at it',
      'Plant washed hot',
      'Write up treatments and lame cows',
      'Bands off the cleared cows',
    ],
  },
  footBath: ['tuesday', 'friday'],
  phones: [
    { who: 'Nuala, herd manager', number: '020 910 0001' },
    { who: `${VET}, vet`, number: '020 910 0002' },
    { who: 'Milk buyer', number: '020 910 0003' },
    { who: 'Milking plant', number: '020 910 0004' },
  ],
};
