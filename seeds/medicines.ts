/**
 * The demo's medicine cupboard, by active ingredient. Labels are data that a farm enters from its own packages: the
 * hours and days of those marked with a section follow the United States' published conditions of use (21 CFR), as an
 * example; the others are made up. Nobody may treat a cow by this list.
 */
import type { MedicineListed } from '../events/kinds/medicine-listed.ts';

export const MEDICINES = {
  // 526.1696: 60 h, 3 d.
  penicillinUdder: {
    name: 'Penicillin G procaine, udder',
    active: 'penicillin G procaine',
    kind: 'medicine',
    route: 'udder',
    for: ['milking'],
    milkHold: { hours: 60 },
    meatDays: 3,
    maxDoses: 3,
    minIntervalHours: 8,
  },
  // 526.88: 60 h "5 milkings", 12 d.
  amoxicillin: {
    name: 'Amoxicillin, udder',
    active: 'amoxicillin trihydrate',
    kind: 'medicine',
    route: 'udder',
    for: ['milking'],
    milkHold: { hours: 60, milkings: 5 },
    meatDays: 12,
    maxDoses: 3,
    minIntervalHours: 8,
  },
  // 526.464: "4 milkings" as a farm may enter it, 10 d.
  cloxacillin: {
    name: 'Cloxacillin sodium, udder',
    active: 'cloxacillin sodium',
    kind: 'medicine',
    route: 'udder',
    for: ['milking'],
    milkHold: { milkings: 4 },
    meatDays: 10,
    maxDoses: 3,
    minIntervalHours: 8,
  },
  // 526.365: 96 h, 4 d.
  cephapirin: {
    name: 'Cephapirin sodium, udder',
    active: 'cephapirin sodium',
    kind: 'medicine',
    route: 'udder',
    for: ['milking'],
    milkHold: { hours: 96 },
    meatDays: 4,
    maxDoses: 2,
    minIntervalHours: 8,
  },
  // 522.1696b: 48 h, 4 d.
  penicillinMuscle: {
    name: 'Penicillin G procaine, muscle',
    active: 'penicillin G procaine',
    kind: 'medicine',
    route: 'muscle',
    milkHold: { hours: 48 },
    meatDays: 4,
    maxDoses: 4,
    minIntervalHours: 20,
  },
  // 522.313c: no milk clause, 4 d.
  ceftiofur: {
    name: 'Ceftiofur sodium, injection',
    active: 'ceftiofur sodium',
    kind: 'medicine',
    route: 'muscle',
    milkHold: 'none',
    meatDays: 4,
    maxDoses: 5,
    minIntervalHours: 20,
  },
  // 522.970: 36 h, 4 d.
  flunixin: {
    name: 'Flunixin, vein',
    active: 'flunixin meglumine',
    kind: 'medicine',
    route: 'vein',
    for: ['milking', 'young'],
    milkHold: { hours: 36 },
    meatDays: 4,
    maxDoses: 3,
    minIntervalHours: 10,
  },
  // 520.2220d: 60 h, 7 d.
  sulfadimethoxine: {
    name: 'Sulfadimethoxine, bolus',
    active: 'sulfadimethoxine',
    kind: 'medicine',
    route: 'mouth',
    milkHold: { hours: 60 },
    meatDays: 7,
    maxDoses: 5,
    minIntervalHours: 20,
  },
  // 522.2471: not for female dairy cattle from 20 months.
  tilmicosin: {
    name: 'Tilmicosin, under the skin',
    active: 'tilmicosin',
    kind: 'medicine',
    route: 'under the skin',
    for: ['young'],
    milkHold: 'not-for-milking-cows',
    meatDays: 42,
    notFromAgeMonths: 20,
    authorisedForMilkAnimals: false,
  },
  // 522.956, entered without its limit of age: a farm that milks writes it down as not for milking cows and no more.
  florfenicol: {
    name: 'Florfenicol and flunixin, under the skin',
    active: 'florfenicol, flunixin meglumine',
    kind: 'medicine',
    route: 'under the skin',
    milkHold: 'not-for-milking-cows',
    meatDays: 38,
  },
  meloxicam: {
    name: 'Meloxicam, injection',
    active: 'meloxicam',
    kind: 'medicine',
    route: 'under the skin',
    milkHold: { hours: 120 },
    meatDays: 15,
    maxDoses: 1,
  },
  ketoprofen: {
    name: 'Ketoprofen, injection',
    active: 'ketoprofen',
    kind: 'medicine',
    route: 'muscle',
    milkHold: 'none',
    meatDays: [{ upToDoses: 1, days: 2 }, { upToDoses: 3, days: 4 }, { days: 9 }],
    maxDoses: 5,
    minIntervalHours: 20,
  },
  woundSpray: {
    name: 'Oxytetracycline, wound spray',
    active: 'oxytetracycline',
    kind: 'medicine',
    route: 'skin',
    milkHold: 'unknown',
    meatDays: 'unknown',
  },
  vaccine: {
    name: 'Calf scour vaccine, muscle',
    active: 'inactivated rotavirus and coronavirus',
    kind: 'vaccine',
    route: 'muscle',
    milkHold: 'none',
    meatDays: 0,
  },
  // 526.464: 30 d before calving, none after, 30 d.
  cloxacillinDry: {
    name: 'Cloxacillin benzathine, dry cow',
    active: 'cloxacillin benzathine',
    kind: 'medicine',
    route: 'udder',
    for: ['dry'],
    milkHold: 'not-for-milking-cows',
    meatDays: 30,
    dryCow: { minimumDryDays: 30, milkHoldAfterCalving: 'none', earlyCalving: 'ask-vet' },
  },
  // 526.1696b, the older low strength: 42 d, 24 h, 60 d and not within 24 h after calving.
  penicillinDry: {
    name: 'Penicillin and dihydrostreptomycin, dry cow',
    active: 'penicillin G procaine, dihydrostreptomycin',
    kind: 'medicine',
    route: 'udder',
    for: ['dry'],
    milkHold: 'not-for-milking-cows',
    meatDays: 60,
    dryCow: {
      minimumDryDays: 42,
      milkHoldAfterCalving: { hours: 24 },
      meatHoursAfterCalving: 24,
      earlyCalving: 'ask-vet',
    },
  },
  framycetinDry: {
    name: 'Framycetin, dry cow',
    active: 'framycetin sulphate',
    kind: 'medicine',
    route: 'udder',
    for: ['dry'],
    milkHold: 'not-for-milking-cows',
    meatDays: 10,
    dryCow: { minimumDryDays: 42, milkHoldAfterCalving: { hours: 96 }, earlyCalving: 'minimum-plus-hold' },
  },
  sealant: {
    name: 'Bismuth subnitrate, teat sealant',
    active: 'bismuth subnitrate',
    kind: 'sealant',
    route: 'udder',
    for: ['dry'],
    milkHold: 'none',
    meatDays: 0,
  },
} satisfies Record<string, MedicineListed>;

export type MedicineKey = keyof typeof MEDICINES;

/** On the shelf of a neighbour, not on the farm's list. */
export const NOT_LISTED = 'Tylosin, injection';
