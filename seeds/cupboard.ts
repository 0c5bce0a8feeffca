/** Medicines listed when the book began, deliveries to the shelf, and the courses of the last weeks that are long over. */
import { addDays, type LocalDay } from '../shared/local-day.ts';
import { at, HERD_DAY, TODAY } from './calendar.ts';
import { chanceOf } from './chance.ts';
import type { Cow } from './cow.ts';
import { VET } from './demo-farm.ts';
import { batchOf, dose } from './example-cows/story.ts';
import { isQuietAround } from './lives.ts';
import { MEDICINES, type MedicineKey } from './medicines.ts';
import { type Arrival, say } from './say.ts';

const KEYS = Object.keys(MEDICINES).filter((key): key is MedicineKey => Object.hasOwn(MEDICINES, key));
const BY_TUBE = new Set<MedicineKey>([
  'penicillinUdder',
  'amoxicillin',
  'cloxacillin',
  'cephapirin',
  'cloxacillinDry',
  'penicillinDry',
  'framycetinDry',
  'sealant',
]);

export const medicinesListed = (): Arrival[] =>
  KEYS.map((key) => say('medicine-listed', undefined, at('2026-01-29', '20:10'), MEDICINES[key], { key }));

export const deliveries = (): Arrival[] => [
  ...KEYS.map((key, index) =>
    say(
      'medicine-received',
      undefined,
      at(addDays(HERD_DAY, 1 + (index % 5) * 7), '14:00'),
      {
        medicine: MEDICINES[key].name,
        quantity: BY_TUBE.has(key)
          ? { value: key === 'cloxacillinDry' ? 240 : 96, unit: 'tube' }
          : { value: 500, unit: 'ml' },
        batch: batchOf(key),
        expires: addDays(TODAY, 300 + index * 20),
        supplier: `${VET}'s practice`,
        supplierAddress: '3 Tannery Row, Sallowmere',
        proof: `invoice ${8_800 + index}`,
      },
      { key },
    ),
  ),
  say('medicine-disposed', undefined, at('2026-03-02', '14:30'), {
    medicine: MEDICINES.cloxacillin.name,
    quantity: { value: 3, unit: 'tube' },
    batch: 'CL-3988',
    how: 'out of date, handed back to the vet',
  }),
];

/** What mastitis, lameness and fever were treated with in the weeks that are over: on label, complete, and long free. */
const COURSES: readonly { readonly medicine: MedicineKey; readonly doses: number; readonly reason: string }[] = [
  { medicine: 'penicillinUdder', doses: 3, reason: 'mastitis' },
  { medicine: 'cloxacillin', doses: 3, reason: 'mastitis' },
  { medicine: 'cephapirin', doses: 2, reason: 'mastitis' },
  { medicine: 'amoxicillin', doses: 2, reason: 'mastitis' },
  { medicine: 'flunixin', doses: 1, reason: 'fever' },
  { medicine: 'ceftiofur', doses: 1, reason: 'foul foot' },
  { medicine: 'penicillinUdder', doses: 3, reason: 'mastitis' },
];
const LAST_COURSE = addDays(TODAY, -16);

export const pastCourses = (cows: readonly Cow[]): Arrival[] => {
  const used = new Set<string>();
  const days: LocalDay[] = [];
  for (let day = addDays(HERD_DAY, 2); day <= LAST_COURSE; day = addDays(day, 1)) days.push(day);
  return days.flatMap((date, index) => {
    const chance = chanceOf(`sick on ${date}`);
    const course = COURSES[index % COURSES.length];
    const cow = chance.oneOf(
      cows.filter(
        (each) =>
          !used.has(each.number) && isInMilk(each, date) && isQuietAround(each, date) && each.came === undefined,
      ),
    );
    if (course === undefined) return [];
    used.add(cow.number);
    // Morning, afternoon, morning: the tubes go in at milking.
    return Array.from({ length: course.doses }, (_, given) => {
      const when =
        given === 1
          ? `${date} 15:${chance.whole(45, 58)}`
          : `${addDays(date, given === 2 ? 1 : 0)} 05:${chance.whole(20, 40)}`;
      const more =
        course.doses === 1
          ? { reason: course.reason }
          : {
              reason: course.reason,
              course: { id: `course-${cow.number}-${date}`, dose: given + 1, of: course.doses, everyHours: 12 },
            };
      return dose(cow.number, course.medicine, when, more);
    });
  });
};

/** Milked twice a day on that date and for a while yet. */
const isInMilk = (cow: Cow, date: LocalDay): boolean => {
  const calved = cow.facts.filter(({ kind, day }) => kind === 'calving' && day <= date).at(-1)?.day;
  const dry = cow.facts.some(
    ({ kind, day }) => kind === 'dry-off' && calved !== undefined && day > calved && day <= date,
  );
  const once = cow.facts.some((fact) => fact.kind === 'move' && fact.to === 'Once' && fact.day <= addDays(date, 12));
  return calved !== undefined && calved < addDays(date, -10) && !dry && !once;
};
