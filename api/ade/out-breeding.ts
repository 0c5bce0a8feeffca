/** Calvings, services, pregnancy checks, lost pregnancies and drying-off. */
import type { EntryOf } from '../../events/entry.ts';
import { lactationAt } from '../../projections/lactation.ts';
import { instantText } from '../../shared/instant.ts';
import { addDays, daysBetween, type LocalDay } from '../../shared/local-day.ts';
import { easeCode, resultCode, serviceCode } from './codes.ts';
import { identifierOf } from './names.ts';
import { movesOf, NO_PRODUCT } from './out-herd.ts';
import { animalOf, eventOf, farmLocation, metaOf, type Outgoing } from './outgoing.ts';
import type { Resource } from './resource.ts';

const GESTATION_DAYS = 283;

export const parturitionOf = (out: Outgoing, entry: EntryOf<'calving'>): Resource[] => {
  const { calves, ease, group } = entry.data;
  const cow = out.cows.get(entry);
  const file = out.known.files.find((each) => each.animal.key === cow?.key);
  const progeny = calves.map((calf, index) => ({
    resourceType: 'icarProgenyDetailsResource',
    meta: metaOf(out, entry, 'birth', String(index + 1)),
    ...(calf.number === undefined ? {} : { identifier: identifierOf(calf.number), managementTag: calf.number }),
    specie: 'Cattle',
    gender: genderOf(calf.sex),
    birthStatus: calf.alive ? 'Alive' : 'Stillborn',
  }));
  return [
    eventOf(out, entry, 'icarReproParturitionEventResource', {
      damParity: file === undefined ? undefined : lactationAt(file.cow, file.lactations, entry.at),
      liveProgeny: calves.filter((calf) => calf.alive).length,
      totalProgeny: calves.length,
      calvingEase: easeCode(ease),
      progenyDetails: progeny,
    }),
    ...births(out, entry),
    ...movesOf(out, entry, group),
  ];
};

const genderOf = (sex: 'female' | 'male'): string => (sex === 'female' ? 'Female' : 'Male');

/** A calf with a number is an animal of its own, born here of this dam. */
const births = (out: Outgoing, entry: EntryOf<'calving'>): Resource[] =>
  entry.data.calves.flatMap(({ number, sex, alive }, index): Resource[] => {
    if (number === undefined || !alive) return [];
    const calf = identifierOf(number);
    const meta = metaOf(out, entry, 'birth', String(index + 1));
    return [
      {
        resourceType: 'icarMovementBirthEventResource',
        meta,
        id: meta.sourceId,
        eventDateTime: instantText(entry.at),
        animal: calf,
        location: farmLocation(out),
        registrationReason: 'Born',
        animalDetail: {
          resourceType: 'icarAnimalCoreResource',
          identifier: calf,
          specie: 'Cattle',
          gender: genderOf(sex),
          birthDate: instantText(entry.at),
          managementTag: number,
          parentage: [{ parentOf: calf, gender: 'Female', relation: 'Genetic', identifier: animalOf(out, entry) }],
        },
      },
    ];
  });

export const inseminationOf = (out: Outgoing, entry: EntryOf<'service'>): Resource[] => [
  eventOf(out, entry, 'icarReproInseminationEventResource', {
    inseminationType: serviceCode(entry.data.how),
    sireOfficialName: entry.data.sire,
  }),
];

/** The age of the foetus follows from the service that the check confirms, else from the date it gives for the calving. */
export const checkOf = (out: Outgoing, entry: EntryOf<'pregnancy-check'>): Resource[] => {
  const { result, servedOn, dueOn } = entry.data;
  const { schedule } = out.moment;
  const day = schedule.dayOf(entry.at);
  const gestation = schedule.inForceOn(day).data.gestationDays ?? GESTATION_DAYS;
  const served = (servedOn ?? (dueOn === undefined ? undefined : addDays(dueOn as LocalDay, -gestation))) as
    | LocalDay
    | undefined;
  const age = served === undefined ? undefined : daysBetween(served, day);
  return [
    eventOf(out, entry, 'icarReproPregnancyCheckEventResource', {
      result: resultCode(result),
      foetalAge: age === undefined || age < 0 ? undefined : age,
      foetusCount: result === 'twins' ? 2 : undefined,
      remark: dueOn === undefined ? undefined : `due ${dueOn}${servedOn === undefined ? '; no service known' : ''}`,
    }),
  ];
};

/** Whether she is milked after losing the calf is a lactation status seen at the same time: the abortion has no field for it. */
export const abortionOf = (out: Outgoing, entry: EntryOf<'abortion'>): Resource[] => {
  const { milked, daysCarried, group } = entry.data;
  return [
    eventOf(out, entry, 'icarReproAbortionEventResource', {
      remark: daysCarried === undefined ? undefined : `carried ${daysCarried} days`,
    }),
    ...(milked === undefined
      ? []
      : [
          eventOf(
            out,
            entry,
            'icarLactationStatusObservedEventResource',
            { observedStatus: milked ? 'Fresh' : 'Dry' },
            'milked',
          ),
        ]),
    ...movesOf(out, entry, group),
  ];
};

export const dryOffOf = (out: Outgoing, entry: EntryOf<'dry-off'>): Resource[] => [
  eventOf(out, entry, 'icarMilkingDryOffEventResource'),
  ...(entry.data.product === 'none'
    ? [eventOf(out, entry, 'icarTreatmentEventResource', { procedure: NO_PRODUCT }, 'product')]
    : []),
  ...movesOf(out, entry, entry.data.group),
];

/** A product that no certain dosing stands for (the dry-off is struck, or its cow is not known) is said without an end. */
export const productOf = (out: Outgoing, entry: EntryOf<'dry-off'>): Resource[] => {
  const { product } = entry.data;
  if (product === undefined || product === 'none') return [];
  return [eventOf(out, entry, 'icarTreatmentEventResource', { medicine: { name: product } }, 'product')];
};
