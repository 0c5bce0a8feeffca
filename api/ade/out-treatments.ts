/** Doses as treatments; a course, or a dose with a reason or a prescriber, as a treatment program around its treatments. */
import type { EntryOf } from '../../events/entry.ts';
import { medicineKey } from '../../projections/farm.ts';
import { instantText } from '../../shared/instant.ts';
import { positionCode, unitCode } from './codes.ts';
import type { DosingHold } from './dosing-holds.ts';
import { dayAsTime, eventOf, metaOf, modifiedBy, type Outgoing } from './outgoing.ts';
import { given, type Resource } from './resource.ts';

type Dose = EntryOf<'treatment'>;

/** The resources of one dosing: a product that the dry-off or the arrival names is a part of that entry. */
export const treatmentsOf = (out: Outgoing, hold: DosingHold): Resource[] => {
  const { dosing } = hold;
  const withdrawals = withdrawalsOf(hold);
  const first = dosing.doses[0];
  const behind = productEntry(out, first);
  if (behind !== undefined) {
    const event = eventOf(
      out,
      behind,
      'icarTreatmentEventResource',
      { medicine: { name: dosing.medicine }, withdrawals },
      'product',
    );
    return [{ ...event, eventDateTime: instantText(first.at), meta: modifiedBy(out, event.meta, hold.entries) }];
  }
  const treatments = dosing.doses.map((dose) => {
    const event = eventOf(out, dose, 'icarTreatmentEventResource', { ...doseFields(out, dose), withdrawals });
    return { ...event, meta: modifiedBy(out, event.meta, hold.entries) };
  });
  const reasons = [...new Set(dosing.doses.flatMap((dose) => dose.data.reason ?? []))];
  if (dosing.course === undefined && reasons.length === 0 && dosing.vet.prescribedBy === undefined) return treatments;
  const meta = metaOf(out, first, 'program');
  return [
    {
      ...eventOf(out, first, 'icarTreatmentProgramEventResource'),
      meta: modifiedBy(out, meta, hold.entries),
      id: meta.sourceId,
      ...given({
        responsible: dosing.vet.prescribedBy,
        diagnoses: reasons.map((name) => ({ name })),
        courses: [courseOf(out, hold, withdrawals)],
        treatments,
      }),
    },
  ];
};

/** A dose of a dry-cow product that the dry-off or the arrival itself names. */
const productEntry = (out: Outgoing, dose: Dose): EntryOf<'dry-off'> | EntryOf<'cow-entered'> | undefined => {
  const entry = out.certain.get(dose.id);
  return entry?.type === 'dry-off' || entry?.type === 'cow-entered' ? entry : undefined;
};

/** A hold of zero is written as one that ends with the dose; one without end as one that names no end. */
const withdrawalsOf = ({ milk, meat }: DosingHold): Record<string, unknown>[] => [
  given({ productType: 'Milk', endDate: milk === null ? undefined : instantText(milk) }),
  given({ productType: 'Meat', endDate: meat === null ? undefined : instantText(meat) }),
];

export const doseFields = (out: Outgoing, dose: Dose): Record<string, unknown> => {
  const { data } = dose;
  const unit = data.amount === undefined ? undefined : unitCode(data.amount.unit);
  const comment = [
    ...(data.course === undefined ? [] : [`dose ${data.course.dose} of ${data.course.of}`]),
    // Units are free words in the book; what the standard has no unit for is said in words.
    ...(data.amount === undefined || unit !== undefined ? [] : [`amount ${data.amount.value} ${data.amount.unit}`]),
  ];
  return given({
    responsible: data.givenBy,
    medicine: { name: data.medicine },
    procedure: data.route,
    batches: batchesOf(out, data.medicine, data.batch),
    dose: unit === undefined ? undefined : { doseQuantity: data.amount?.value, doseUnits: unit },
    positions: (data.quarters ?? []).map((quarter) => ({ position: positionCode(quarter) })),
    comment: comment.length === 0 ? undefined : comment.join('; '),
  });
};

const batchesOf = (out: Outgoing, medicine: string, batch: string | undefined): Record<string, unknown>[] => {
  if (batch === undefined) return [];
  const received = out.known.farm.received.find(
    ({ data }) => data.batch === batch && medicineKey(data.medicine) === medicineKey(medicine),
  );
  return [given({ identifier: batch, expiryDate: dayAsTime(out, received?.data.expires) })];
};

const courseOf = (out: Outgoing, hold: DosingHold, withdrawals: readonly unknown[]): Record<string, unknown> => {
  const { dosing } = hold;
  const { course, doses, last } = dosing;
  // A course that was ended early is what was given; one with a dose still to come, or one missing between, is a plan.
  const planned = course !== undefined && (course.running || course.gaps.length > 0);
  const hours = course === undefined ? undefined : course.everyHours;
  return given({
    startDate: instantText(doses[0].at),
    endDate: instantText(course?.plannedLast ?? last.at),
    medicine: { name: dosing.medicine },
    numberOfTreatments: planned ? course.of : (course?.given ?? doses.length),
    treatmentInterval: hours === undefined ? undefined : Math.max(1, Math.round(hours)),
    batches: [...new Set(doses.flatMap((dose) => dose.data.batch ?? []))].flatMap((batch) =>
      batchesOf(out, dosing.medicine, batch),
    ),
    planOrActual: planned ? 'Plan' : 'Actual',
    withdrawals,
  });
};

/** A struck dose: what was said, with no end worked out, as nothing follows from it any more. */
export const struckDose = (out: Outgoing, dose: Dose): Resource =>
  eventOf(out, dose, 'icarTreatmentEventResource', doseFields(out, dose));

export const medicineOf = (out: Outgoing, entry: EntryOf<'medicine-listed'>): Resource => ({
  resourceType: 'icarMedicineResource',
  meta: metaOf(out, entry),
  name: entry.data.name,
});
