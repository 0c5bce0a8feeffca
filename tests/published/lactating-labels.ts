/**
 * Labels of medicines for cows in milk as United States federal law printed them: the section of 21 CFR, hours of milk
 * after the last dose, the count of milkings where the section gives one beside the hours, and days of meat.
 */
export interface Label {
  readonly name: string;
  readonly section: string;
  readonly route: string;
  readonly hours: number | 'none';
  readonly milkings?: number;
  readonly meatDays: number;
}

export const LACTATING: readonly Label[] = [
  { name: 'Amoxicillin, udder', section: '526.88', route: 'udder', hours: 60, milkings: 5, meatDays: 12 },
  { name: 'Ceftiofur HCl, udder', section: '526.313', route: 'udder', hours: 72, meatDays: 2 },
  { name: 'Cephapirin sodium, udder', section: '526.365', route: 'udder', hours: 96, meatDays: 4 },
  { name: 'Cloxacillin sodium, udder', section: '526.464', route: 'udder', hours: 48, milkings: 4, meatDays: 10 },
  { name: 'Hetacillin, udder', section: '526.1130', route: 'udder', hours: 72, milkings: 6, meatDays: 10 },
  { name: 'Penicillin G procaine, udder', section: '526.1696', route: 'udder', hours: 60, milkings: 5, meatDays: 3 },
  { name: 'Penicillin G procaine, muscle', section: '522.1696b', route: 'muscle', hours: 48, meatDays: 4 },
  { name: 'Flunixin, vein', section: '522.970', route: 'vein', hours: 36, meatDays: 4 },
  { name: 'Flunixin, pour-on', section: '524.970', route: 'pour-on', hours: 48, meatDays: 8 },
  { name: 'Tripelennamine', section: '522.2615', route: 'muscle', hours: 24, milkings: 2, meatDays: 4 },
  { name: 'Sulfadimethoxine, bolus', section: '520.2220d', route: 'mouth', hours: 60, milkings: 5, meatDays: 7 },
  { name: 'Ceftiofur sodium', section: '522.313c', route: 'muscle', hours: 'none', meatDays: 4 },
];
