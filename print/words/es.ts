/** Spanish, of crews from both sides of the ocean. Wants a native reader of the trade before anybody relies on it. */
import type { MayBe, OffLabelCause, TankLoadSaid } from '../../projections/because.ts';
import type { Words } from './dictionary.ts';
import type { Format, Forms } from './format.ts';
import { keeperEs } from './keeper-es.ts';
import { whyEs } from './why-es.ts';

const days: Forms = { one: '# día', other: '# días' };
const milkings: Forms = { one: '# ordeño', other: '# ordeños' };
const doses: Forms = { one: '# dosis', other: '# dosis' };
const cows: Forms = { one: '# vaca', other: '# vacas' };

const causes: Record<OffLabelCause, string> = {
  said: 'anotado fuera de etiqueta',
  route: 'otra vía que la etiqueta',
  doses: 'más dosis que la etiqueta',
  interval: 'dosis más seguidas que la etiqueta',
  age: 'pasada la edad de la etiqueta',
  class: 'no es para esta clase de animal',
};

const leftReasons: Readonly<Record<string, string>> = {
  'sold-for-beef': 'vendida para carne',
  'sold-for-milking': 'vendida para ordeño',
  died: 'muerta',
  other: 'otro motivo',
};

const offLabel = (list: readonly OffLabelCause[], f: Format): string => f.list(list.map((cause) => causes[cause]));

const mayBe = (number: string, how: MayBe, about: string, f: Format): string => {
  const what = `${f.about(about)}, anotado para el número ${number}`;
  if (how === 'two-cows') return `${what}, que puede ser de dos vacas`;
  if (how === 'leading-zeros') return `${what}, el suyo salvo los ceros delante`;
  if (how === 'old-number') return `${what}, que antes era el suyo`;
  if (how === 'one-official-number') return `${what}, que tiene su número oficial y puede ser esta vaca`;
  return `${what} cuando ella no estaba en el rebaño`;
};

const lastDose = ({ planned }: { planned: boolean }): string => (planned ? 'última dosis prevista' : 'última dosis');

const ends = (time: string | null, f: Format): string =>
  time === null ? 'aún no se puede calcular el final' : `termina ${f.time(time)}`;

const afterCalving = (hours: number | null, count: number | null, f: Format): string =>
  [hours === null ? '' : f.hours(hours), count === null ? '' : f.count(count, milkings)].filter(Boolean).join(' y ');

const euBasis = (basis: 'one-and-a-half' | 'zero' | 'not-authorised', label: string, unauthorised: string): string => {
  if (basis === 'one-and-a-half') return `fuera de etiqueta, 1,5 × ${label} de la etiqueta`;
  return basis === 'zero' ? 'fuera de etiqueta, etiqueta cero' : `fuera de etiqueta, ${unauthorised}`;
};

const whereIsLoad = (load: TankLoadSaid, f: Format): string =>
  load.collectedAt === null
    ? `Tanque ${load.tank}: la leche sigue aquí, no la entregue, analícela`
    : `Tanque ${load.tank}: recogida ${f.time(load.collectedAt)}${load.ticket === null ? '' : ` (albarán ${load.ticket})`}: llame al comprador`;

const notStated = (driedOff: string | null, f: Format): string =>
  `${driedOff === null ? 'entró seca' : `secada ${f.day(driedOff)}`} y no se dice el producto de secado; retenida hasta que se diga (o "none")`;
const noDryOff = (v: { group: string; since: string }, f: Format): string =>
  `en ${v.group} desde ${f.day(v.since)} sin secado anotado: no se dice con qué se secó; retenida hasta que se diga (o "none")`;
const courseRunning = (
  v: { medicine: string; given: number; of: number; plannedLast: string; ends: string | null },
  f: Format,
): string =>
  `${v.medicine}: dosis ${v.given} de ${v.of} dada, última prevista ${f.time(v.plannedLast)}, después la etiqueta: ${ends(v.ends, f)}`;
const labelLonger = (v: { medicine: string; listed: string; ends: string | null }, f: Format): string =>
  `${v.medicine}: el ${f.time(v.listed)} se anotó una etiqueta más larga con la retención en curso: ${ends(v.ends, f)}`;
const offLabelNoVet = (v: { medicine: string; causes: OffLabelCause[] }, f: Format): string =>
  `${v.medicine}, fuera de etiqueta (${offLabel(v.causes, f)}): falta el tiempo del veterinario; retenida hasta anotarlo`;
const notListed = (v: { medicine: string }): string =>
  `${v.medicine} no está en la lista; retenida hasta anotar su etiqueta o el tiempo del veterinario`;
const setAside = (v: { problem: string }): string =>
  `una entrada sobre ella no sirvió: ${v.problem}; retenida hasta que alguien lo resuelva`;
const onHold = (until: string | null, f: Format): string =>
  until === null ? 'leche retenida, sin final conocido' : `leche retenida hasta ${f.time(until)}`;

export const es: Words = {
  locale: 'es',
  clocksChange: 'en medio cambia la hora',
  milkingNames: { morning: 'mañana', noon: 'mediodía', afternoon: 'tarde', evening: 'tarde', night: 'noche' },
  kinds: {
    'farm-set-up': 'los datos de la granja',
    'medicine-listed': 'una etiqueta',
    'medicine-received': 'una entrada de medicamento',
    'medicine-disposed': 'una baja de medicamento',
    'cow-entered': 'una entrada de vaca',
    'number-changed': 'un cambio de número',
    'cow-left': 'una salida',
    calving: 'un parto',
    abortion: 'un aborto',
    service: 'una cubrición',
    'pregnancy-check': 'un diagnóstico de preñez',
    'dry-off': 'un secado',
    treatment: 'un tratamiento',
    'vet-hold-time': 'un tiempo del veterinario',
    'course-ended': 'el fin de un tratamiento',
    'milk-hold': 'una retención de leche',
    'milk-hold-lifted': 'el fin de una retención',
    'milking-finished': 'el fin de un ordeño',
    'tank-collection': 'una recogida del tanque',
    'sheet-returned': 'un juego de hojas devuelto',
    'sheet-issued': 'un juego de hojas emitido',
    'book-continued': 'un libro continuado',
    'residue-test': 'una prueba de residuos',
    'group-move': 'un cambio de grupo',
    'sort-request': 'un aparte pedido',
    'sort-done': 'un aparte hecho',
    'head-count': 'un recuento',
    'milk-record': 'un control de leche',
    'entry-struck': 'una entrada tachada',
    settled: 'una duda resuelta',
  },
  keeper: { ...keeperEs, offLabelCauses: causes, leftReasons },
  says: {
    ...whyEs,
    'hold.hours': (v, f) => `${v.medicine}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.milkings, milkings)}${v.floorHours === null ? '' : `, nunca menos de 12 h por ordeño = ${f.hours(v.floorHours)}`}: ${ends(v.ends, f)}`,
    'hold.hours-and-milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.hours(v.hours)} y ${f.count(v.milkings, milkings)}, lo que termine más tarde: ${ends(v.ends, f)}`,
    'hold.label-longer': labelLonger,
    'hold.course-running': courseRunning,
    'hold.dose-not-recorded': (v, f) =>
      `${v.medicine}: la dosis ${v.dose} de ${v.of}${v.due === null ? '' : `, prevista ${f.milking(v.due)},`} no está anotada; retenida hasta que lo esté o termine el tratamiento`,
    'hold.not-listed': notListed,
    'hold.label-unknown': (v) =>
      `${v.medicine}: la lista no sabe cuánto retener la leche; retenida hasta anotar la etiqueta`,
    'hold.not-for-milking-cows': (v) =>
      `${v.medicine} no es para vacas en ordeño; retenida hasta que el veterinario dé un tiempo`,
    'hold.off-label-no-vet': offLabelNoVet,
    'hold.off-label-milkings-only': (v, f) =>
      `${v.medicine}, fuera de etiqueta: la etiqueta dice ${f.count(v.milkings, milkings)} y ninguna hora; retenida hasta que el veterinario dé un tiempo`,
    'hold.vet': (v, f) =>
      `${v.medicine}: tiempo del veterinario${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelHours === null ? 'el tiempo' : f.hours(v.labelHours), 'no autorizado para animales de leche')}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.dry-cow-until-calving': (v, f) =>
      `${v.medicine}, producto de secado dado ${f.time(v.given)}: retenida hasta el parto y después lo que diga la etiqueta`,
    'hold.dry-cow-after-calving': (v, f) =>
      `${v.medicine}, producto de secado: parió ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.dry-cow-early': (v, f) =>
      `${v.medicine}, dado ${f.time(v.given)}, parió ${f.calving(v)}: antes del mínimo de ${f.count(v.minimumDays, days)} del producto de secado: pregunte al veterinario, analice la leche; ${v.ends === null ? 'retenida hasta el tiempo del veterinario o una prueba limpia' : ends(v.ends, f)}`,
    'hold.dry-cow-milked-again': (v, f) =>
      `${v.medicine}, producto de secado dado ${f.time(v.given)}, y ordeñada otra vez sin parir; retenida hasta que el veterinario dé un tiempo`,
    'hold.dry-cow-not-stated': (v, f) => notStated(v.driedOff, f),
    'hold.no-dry-off': noDryOff,
    'hold.back-from-dry': (v, f) =>
      `en ${v.group} del ${f.day(v.since)} al ${f.day(v.back)} sin secado anotado, y de nuevo en ordeño: ¿se le puso un producto de secado? Retenida hasta una prueba limpia; tache el cambio de grupo si nunca estuvo allí`,
    'hold.fresh': (v, f) =>
      `recién parida: parió ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.fresh-not-set': (v, f) =>
      `parió ${f.calving(v)}: la granja no ha fijado la retención tras el parto; retenida hasta que lo haga`,
    'hold.before-due': (v, f) => `parto previsto ${f.day(v.due)}, aún en ordeño a menos de ${f.count(v.days, days)}`,
    'hold.set-by-person': (v, f) => `"${v.reason}", desde ${f.time(v.since)} (${v.author}), hasta que se levante`,
    'hold.residue-positive': (v, f) =>
      `prueba de residuos positiva${v.method === null ? '' : ` (${v.method})`}, muestra de ${f.time(v.sampled)}; retenida hasta una prueba limpia`,
    'hold.entered-until': (v, f) => `entró en el libro retenida hasta ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'entró en el libro sin decir nada de retención de leche; retenida hasta que se diga',
    'hold.entry-set-aside': setAside,
    'hold.dry-in-milked-group': (v) => `vaca seca en ${v.group}: que no vaya al tanque`,
    'hold.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: hay que aclarar de cuál era`,
    'unplaced.not-in-herd': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: no había vaca con este número. Encuéntrela antes de ordeñar`,
    'unplaced.two-cows': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: puede ser ${f.list(v.cows)}, todas retenidas. Encuentre cuál antes de ordeñar`,
    'unplaced.leading-zeros': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: puede ser ${f.list(v.mayBe)}, retenida. Encuéntrela antes de ordeñar`,
    'unplaced.old-number': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: nadie llevaba ya ese número; puede ser ${f.list(v.mayBe)}, retenida. Encuéntrela antes de ordeñar`,
    'unplaced.dose-struck': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, se tachó ("${v.reason}"): ¿qué vaca la recibió?`,
    'unplaced.set-aside': (v, f) =>
      `Una entrada no sirvió y ${v.cows.length === 0 ? 'no nombra vaca que se pueda leer' : `nombra ${f.list(v.cows)}, que no es vaca del rebaño`}: ${v.problem}`,
    'unplaced.left-on-hold': (v, f) =>
      `salió ${f.day(v.left)} retenida${v.until === null ? '' : ` hasta ${f.time(v.until)}`}. Si aparece, leche fuera`,
    'treat.due': (v, f) => `última ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = toca ${f.time(v.planned)}`,
    'treat.overdue': (v, f) =>
      `última ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = tocaba ${f.time(v.planned)}${v.due === null ? '' : `, en ${f.milking(v.due)}`}, y no está anotada: pregunte antes de darla`,
    'dry-off.due': (v, f) =>
      `parto previsto ${f.day(v.due)} − ${f.count(v.days, days)} seca = ${f.day(v.target)}${v.weekday === null ? '' : `; se seca en ${f.weekday(v.weekday)}: ${f.day(v.dryOffOn)}`}`,
    'dry-off.under-minimum': (v, f) =>
      `${f.count(v.daysLeft, days)} hasta el parto, menos del mínimo de ${f.count(v.minimum, days)}`,
    'dry-off.product-minimum': (v, f) =>
      `${v.product} pide ${f.count(v.minimum, days)} antes del parto, quedan ${f.number(v.daysLeft)}: pregunte al veterinario`,
    'dry-off.twins': () => 'lleva gemelos: puede adelantarse',
    'dry-off.on-hold': (v, f) => onHold(v.until, f),
    'dry-off.no-service': () => 'sin cubrición tras la fecha: compruébelo',
    'dry-off.not-confirmed': (v, f) =>
      `${f.count(v.daysInMilk, days)} en leche, más de ${f.number(v.limit)}, sin preñez confirmada`,
    'dry-off.no-due-date': () => 'preñada, sin fecha de parto conocida',
    'fresh.out': (v, f) =>
      `parió ${f.calving(v)}, hace ${f.hours(v.hours)} (se piden ${f.hours(v.wanted)}), lactación ${v.lactation}, sin retención que la deje`,
    'fresh.at-capacity': (v) => `${v.group} está lleno: ${v.head} con ella, sitio para ${v.capacity}`,
    'fresh.stay-hours': (v, f) => `parió ${f.calving(v)}, hace ${f.hours(v.hours)}, se piden ${f.hours(v.wanted)}`,
    'fresh.stay-on-hold': (v, f) => onHold(v.until, f),
    'fresh.stay-no-group': (v) => `ningún grupo toma vacas de lactación ${v.lactation}: diga adónde va`,
    'fresh.stay-hours-not-set': () => 'la granja no ha dicho cuánto se quedan las recién paridas',
    'fresh.stay-not-calved': () => 'aún no ha parido',
    'fresh.stay-calving-unknown': () => 'no se sabe cuándo parió',
    'fresh.in-calved': (v, f) => `parió ${f.calving(v)} y sigue en ${v.group}`,
    'fresh.in-due': (v, f) =>
      v.days < 0
        ? `tocaba ${f.day(v.due)}, hace ${f.count(-v.days, days)}, en ${v.group}`
        : `toca ${f.day(v.due)}, en ${f.count(v.days, days)}, en ${v.group}`,
    'sort.request': (v) =>
      `${v.reason}${v.forWhom === null ? '' : `, para ${v.forWhom}`}${v.to === null ? '' : `, a ${v.to}`}`,
    'sort.dry-off': (v) => `secar${v.product === null ? '' : ` con ${v.product}`}`,
    'sort.fresh-move': (v) => `sale de recién paridas, a ${v.to}`,
    'sort.dose': (v) => `tratar: ${v.medicine}, dosis ${v.dose} de ${v.of}`,
    'sort.cannot-dry': (v) => `seca, en ${v.group}: no pasa por la sala`,
    'sort.cannot-left': (v, f) => `salió ${f.day(v.left)}`,
    'sort.cannot-unknown': () => 'no hay vaca con este número',
    'sort.cannot-not-milked': (v) => `${v.group} no se ordeña en este ordeño`,
    'meat.days': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} (${f.count(v.doses, doses)}) = ${f.time(v.ends)}`,
    'meat.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelDays === null ? 'el tiempo' : f.count(v.labelDays, days), 'no autorizado para animales de consumo')}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.vet': (v, f) =>
      `${v.medicine}: tiempo del veterinario${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.unknown': (v) => `${v.medicine}: la lista no sabe cuánto retener la carne; retenida hasta anotarlo`,
    'meat.not-listed': notListed,
    'meat.off-label-no-vet': offLabelNoVet,
    'meat.course-running': courseRunning,
    'meat.dose-not-recorded': (v) =>
      `${v.medicine}: la dosis ${v.dose} de ${v.of} no está anotada; retenida hasta que lo esté o termine el tratamiento`,
    'meat.label-longer': labelLonger,
    'meat.after-calving': (v, f) =>
      `${v.medicine}, producto de secado: parió ${f.sum(v.calved, v.hours, v.ends, v.calvedOn)}`,
    'meat.product-not-stated': (v, f) => notStated(v.driedOff, f),
    'meat.no-dry-off': noDryOff,
    'meat.back-from-dry': (v, f) =>
      `en ${v.group} del ${f.day(v.since)} al ${f.day(v.back)} sin secado anotado: no se dice si se le puso un producto de secado; tache el cambio de grupo si nunca estuvo allí`,
    'meat.entered-until': (v, f) => `entró en el libro con la carne retenida hasta ${f.time(v.until)}`,
    'meat.entered-unknown': () => 'entró en el libro sin decir nada de retención de carne; retenida hasta que se diga',
    'meat.entry-set-aside': setAside,
    'meat.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: hay que aclarar de cuál era`,
    'doubt.unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, nombra a ${v.number}, que no estaba en el rebaño: ¿qué vaca era?`,
    'doubt.two-cows': (v, f) => `El número ${v.number} puede ser ${f.list(v.cows)}: ¿cuál?`,
    'doubt.leading-zeros': (v, f) =>
      `El número ${v.number} solo coincide con ${f.list(v.mayBe)} sin los ceros delante: ¿es ella?`,
    'doubt.struck-unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, para ${v.number} se tachó sin decir qué era verdad: ¿qué vaca la recibió?`,
    'doubt.set-aside': (v, f) =>
      `Una entrada no sirvió: ${v.problem}${v.cows.length === 0 ? '; no nombra vaca que se pueda leer' : `; retenida por ella: ${f.list(v.cows)}`}`,
    'doubt.milk-not-stated': (v) =>
      `${v.cow}, en ${v.group}, no tiene parto ni secado en el libro: ¿está en leche? Se toma como en leche`,
    'doubt.vet-time-not-longer': (v, f) =>
      `${v.cow}, ${v.medicine}: las ${f.hours(v.vetHours)} del veterinario no pasan de la etiqueta${v.labelHours === null ? '' : ` (${f.hours(v.labelHours)})`}; vale la etiqueta`,
    'doubt.vet-time-unplaced': (v) =>
      `Un tiempo del veterinario nombra el tratamiento ${v.treatment}, que no está en el libro`,
    'doubt.vet-time-elsewhere': (v, f) =>
      `Un tiempo del veterinario se anotó para ${v.number}, pero el tratamiento que nombra, ${f.about(v.about)}, ${f.time(v.at)}, está anotado para ${v.of}: solo puede alargar esa retención. ¿Cuál quiso decir el veterinario?`,
    'doubt.both-still-wanted': (v) =>
      `${v.cow} sigue un tratamiento de ${v.course} y recibió ${v.other}: ¿se quieren los dos?`,
    'doubt.dose-not-recorded': (v) =>
      `${v.cow}, ${v.medicine}: la dosis ${v.dose} de ${v.of} no está anotada: ¿se dio?`,
    'doubt.retired-medicine': (v) => `${v.cow} recibió ${v.medicine}, que ya no está en la lista`,
    'doubt.two-groups': (v, f) => `${v.cow} se puso en ${f.list(v.groups)} a la vez, ${f.time(v.at)}: ¿dónde está?`,
    'doubt.unknown-group': (v) => `${v.cow} se puso en ${v.group}, un grupo que la granja no tiene`,
    'doubt.after-leaving': (v, f) => `${v.cow}: ${f.about(v.about)}, ${f.time(v.at)}, aunque salió ${f.day(v.left)}`,
    'doubt.after-renumbering': (v, f) =>
      `${v.number}: ${f.about(v.about)}, ${f.time(v.at)}, aunque la vaca de ese número ya llevaba el ${v.cow}: ¿era ella?`,
    'doubt.entered-again': (v, f) =>
      `El número ${v.number} se dio de alta ${f.time(v.at)} con el número oficial de ${f.list(v.cows)}, que está aquí: lo que retiene a una retiene a las dos. Si es la misma vaca, tache esa entrada y cambie su número; si es otra, táchela y dela de alta con su propio número oficial`,
    'doubt.dry-off-when-dry': (v, f) => `${v.cow} se secó ${f.time(v.at)}, y ya estaba seca`,
    'doubt.calved-in-milk': (v, f) => `${v.cow} parió ${f.time(v.at)} estando en leche: ¿falta anotar un secado?`,
    'doubt.among-dry': (v, f) =>
      `${v.cow} está en leche por lo que hay anotado, y con las secas en ${v.group} desde ${f.day(v.since)}: anote el secado y su producto, o llévela de vuelta`,
    'doubt.date-ahead': (v, f) =>
      `${v.cow} entró en el libro ${f.time(v.at)} con ${v.what === 'dry-off' ? 'un secado' : 'un parto'} de ${f.day(v.day)}, un día aún por venir: ¿cuál es la fecha?`,
    'doubt.past-due': (v, f) =>
      `${v.cow} tenía que parir ${f.day(v.due)}, hace ${f.count(v.days, days)}, y no hay parto anotado`,
    'doubt.calved-early': (v, f) =>
      `${v.cow} parió ${f.count(v.days, days)} antes de la fecha, ${f.day(v.due)}: temprano`,
    'doubt.sort-several-places': (v, f) => `${v.cow} se aparta a ${f.list(v.places)}: ¿adónde?`,
    'doubt.strike-of-nothing': (v) => `Se tacha la entrada ${v.entry}, que no está en el libro`,
    'doubt.strike-of-strike': (v) => `Se tacha una tachadura, ${v.entry}: anote de nuevo la entrada correcta`,
    'doubt.one-id-two-contents': (v) => `Dos entradas llevan el id ${v.id} y dicen cosas distintas; cuentan las dos`,
    'doubt.unknown-language': (v) =>
      `El idioma "${v.language}" de la granja no está en el diccionario; sus hojas salen en inglés`,
    'doubt.number-in-use': (v, f) => `El número ${v.number} se dio otra vez, ${f.time(v.at)}, y otra vaca lo lleva`,
    'doubt.two-labels': (v, f) =>
      `${v.medicine} está en la lista dos veces a la misma hora, ${f.time(v.at)}, con etiquetas distintas: vale la más larga. ¿Cuál es la correcta? Tache la otra`,
    'doubt.two-set-ups': (v, f) =>
      `Los datos de la granja están dos veces a la misma hora, ${f.time(v.at)}, ambos desde ${f.day(v.from)}, y no dicen lo mismo: vale lo que retiene más tiempo. ¿Cuáles son los correctos? Tache los otros`,
    'doubt.head-count': (v, f) => `${v.group}: ${v.count} contadas ${f.time(v.at)}, ${v.book} en el libro`,
    'doubt.no-farm': () => 'No hay granja en este libro: nada que dependa de sus ordeños o reglas se puede calcular',
    'alert.late-news': (v, f) => {
      const what = `${v.cow} está retenida (${f.about(v.about)}, ${v.until === null ? 'sin final conocido' : `hasta ${f.time(v.until)}`}) en el ordeño ${f.milking(v.milking)}, y la hoja ${v.ref} no lo decía`;
      if (v.phase === 'before')
        return `${what}: ${v.saidHere === true ? 'estas hojas ya lo dicen: quite las viejas' : 'emita las hojas otra vez y quite las viejas'}`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running' ? `${what}: pregunte si se ordeñó antes. ${milk}` : `${what}. ${milk}`;
    },
    'alert.late-unplaced': (v, f) => {
      const what = `No se sabe qué vaca es: ${f.about(v.about)}${v.number === '' ? '' : `, número ${v.number}`}. Atañe al ordeño ${f.milking(v.milking)}, y la hoja ${v.ref} no lo decía`;
      if (v.phase === 'before') return `${what}: emita las hojas otra vez y quite las viejas`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running' ? `${what}: pregunte quién era y si se ordeñó antes. ${milk}` : `${what}. ${milk}`;
    },
    'alert.no-sheet': (v, f) =>
      `El ordeño ${f.milking(v.milking)} empezó sin hoja de leche retenida, con retención de ${f.list(v.cows)}. ${v.loads.map((load) => whereIsLoad(load, f)).join('; ')}`,
    'alert.tank-positive': (v, f) =>
      `Prueba de residuos del tanque ${v.tank} positiva, ${f.time(v.at)}: ${v.collectedAt === null ? 'la leche sigue aquí: no la entregue' : `recogida ${f.time(v.collectedAt)}: llame al comprador`}. Ordeños en él: ${v.milkings.length === 0 ? 'no se sabe' : f.list(v.milkings.map((milking) => f.milking(milking)))}`,
    'alert.left-on-hold': (v, f) => {
      const until = (time: string | null) => (time === null ? 'sin final conocido' : `hasta ${f.time(time)}`);
      const holds = [
        v.milk ? `leche retenida, ${until(v.milkUntil)}` : '',
        v.meat ? `carne retenida, ${until(v.meatUntil)}` : '',
      ];
      return `${v.cow} salió ${f.day(v.left)} (${leftReasons[v.reason] ?? v.reason}) con ${f.list(holds.filter(Boolean))}: avise al comprador por escrito`;
    },
  },
  crew: {
    'hold.hours': () => '',
    'hold.milkings': () => '',
    'hold.hours-and-milkings': () => '',
    'hold.label-longer': () => '',
    'hold.course-running': (v) => `tratamiento en curso, ${v.given} de ${v.of}`,
    'hold.dose-not-recorded': (v) => `dosis ${v.dose} de ${v.of} sin anotar: ¿se dio?`,
    'hold.not-listed': () => 'no está en la lista: pregunte',
    'hold.label-unknown': () => 'retención no conocida: pregunte',
    'hold.not-for-milking-cows': () => 'no es para vacas en ordeño: pregunte al veterinario',
    'hold.off-label-no-vet': () => 'fuera de etiqueta, falta el tiempo del veterinario: pregúntele',
    'hold.off-label-milkings-only': () => 'fuera de etiqueta, falta el tiempo del veterinario: pregúntele',
    'hold.vet': () => '',
    'hold.off-label-eu': () => '',
    'hold.dry-cow-until-calving': () => 'producto de secado, no ha parido desde entonces',
    'hold.dry-cow-after-calving': (v, f) => `producto de secado, parió ${f.calving(v)}`,
    'hold.dry-cow-early': (v, f) =>
      `producto de secado, parió demasiado pronto, ${f.calving(v)}: pregunte al veterinario, analice la leche`,
    'hold.dry-cow-milked-again': () => 'producto de secado, ordeñada otra vez: pregunte al veterinario',
    'hold.dry-cow-not-stated': () => 'producto de secado no dicho: pregunte',
    'hold.no-dry-off': () => 'secado no anotado, producto no dicho: pregunte',
    'hold.back-from-dry': (v, f) =>
      `de nuevo en ordeño tras estar con las secas desde ${f.day(v.since)} sin secado anotado: pregunte, analice su leche`,
    'hold.fresh': (v, f) => `parió ${f.calving(v)}`,
    'hold.fresh-not-set': (v, f) => `parió ${f.calving(v)}, retención tras el parto no fijada`,
    'hold.before-due': (v, f) => `va a parir ${f.day(v.due)}`,
    'hold.set-by-person': (v, f) => `${v.reason}, desde ${f.time(v.since)} (${v.author})`,
    'hold.residue-positive': (v, f) => `prueba de residuos positiva, ${f.time(v.sampled)}`,
    'hold.entered-until': (v, f) => `llegó retenida hasta ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'llegó sin decir nada de retención: pregunte',
    'hold.entry-set-aside': () => 'algo anotado sobre ella no sirvió: pregunte en la oficina',
    'hold.dry-in-milked-group': (v) => `está en ${v.group}`,
    'hold.may-be-her': (v, f) => `puede ser el número ${v.number}: ${f.about(v.about)}`,
    'unplaced.set-aside': (v) =>
      v.cows.length === 0
        ? 'Algo anotado no se pudo leer y no nombra vaca: pregunte en la oficina qué vaca era'
        : 'Algo anotado para este número no sirvió, y no es vaca del rebaño: pregunte en la oficina',
    'treat.due': (v, f) => `toca ${f.time(v.planned)}; última ${f.time(v.lastGiven)}`,
    'treat.overdue': (v, f) => `tocaba ${f.time(v.planned)}; última anotada ${f.time(v.lastGiven)}`,
    'sort.request': (v) => `${v.reason}${v.forWhom === null ? '' : `, para ${v.forWhom}`}`,
    'sort.fresh-move': () => 'sale de recién paridas',
  },
  labels: {
    onlyFor: (when) => `Solo para el ${when}`,
    takeOldDown: 'Quite la hoja vieja.',
    replaces: (ref) => `Sustituye a ${ref}: quite aquella.`,
    rehearsal: 'ENSAYO: no es para vacas de verdad',
    notIssued: 'sin emitir',
    printed: (time) => `impresa ${time}`,
    page: (page, pages) => `Página ${page} de ${pages}`,
    linesHere: (here, all) => `líneas en esta página: ${here} de ${all}`,
    continued: 'sigue',
    part: (part, parts) => `parte ${part} de ${parts}`,
    book: 'libro',
    position: 'posición',
    root: 'raíz',
    whenUnsure: 'En la duda: leche fuera del tanque, y pregunte.',
    cautions:
      'Siga la etiqueta y al veterinario. Mandan las normas locales. Esta hoja es aritmética sobre lo anotado; no sustituye a ninguno.',
    initials: 'iniciales',
    medicine: 'medicamento',
    done: 'hecho',
    byHand: 'Anotado a mano desde la impresión',
    byHandWhat: '¿leche fuera? por qué, y quién lo dijo',
    alerts: 'Avisos',
    cow: 'vaca',
    group: 'grupo',
    why: 'por qué',
    since: 'desde',
    until: 'hasta',
    noEndKnown: 'sin final conocido',
    lastDose: (time) => `última dosis ${time}`,
    quarters: {
      'left-front': 'delantero izquierdo',
      'right-front': 'delantero derecho',
      'left-hind': 'trasero izquierdo',
      'right-hind': 'trasero derecho',
      'left-rear': 'trasero izquierdo',
      'right-rear': 'trasero derecho',
    },
    front: 'delante',
    leftLetter: 'I',
    rightLetter: 'D',
    milkHold: 'Leche retenida',
    milkOut: (n, f) => f.count(n, { one: '# vaca: leche fuera del tanque', other: '# vacas: leche fuera del tanque' }),
    noneHeld: 'Ninguna vaca tiene la leche retenida en este ordeño.',
    noneHeldButFind: 'Ninguna vaca del rebaño tiene la leche retenida, pero faltan por encontrar las de arriba.',
    find: 'Encuentre estas antes de ordeñar',
    findHow: 'Hasta encontrarlas: la leche de cualquiera que pueda ser queda fuera del tanque.',
    unreadable: 'sin número',
    dryAmongMilkers: 'Vaca seca entre las de ordeño: que no vaya al tanque',
    groupHeld: (group, n, f) => `${group}: ${f.count(n, { one: '# retenida', other: '# retenidas' })}`,
    groupNone: (group) => `${group}: ninguna retenida`,
    wears: (mark) => `Cada una lleva: ${mark}`,
    isNew: 'NUEVA',
    milkTo: (place) => `leche a: ${place}`,
    keepApart: 'leche: no al tanque',
    causes: {
      treated: 'Tratada',
      fresh: 'Recién parida',
      abnormal: 'Leche anormal',
      dry: 'Seca',
      unknown: 'No se sabe',
    },
    inTheTank: 'al tanque desde',
    keepOut: 'FUERA. Sin final conocido: pregunte',
    keepOutDry: 'FUERA. Está seca: pregunte',
    afterTime: (time) => `después de ${time}`,
    milkingsLeft: (n, f) => (n === 1 ? 'solo este ordeño' : f.count(n, { other: 'quedan # ordeños' })),
    askFirst: 'Dado durante este ordeño: pregunte si se ordeñó antes',
    bandsOff: (n, f) =>
      `Quitar banda: ${f.count(n, { one: '# vaca libre', other: '# vacas libres' })} desde la última hoja`,
    bandOff: 'banda quitada',
    noneCleared: 'Quitar banda: ninguna desde la última hoja.',
    freeSince: (time) => `libre desde ${time}`,
    notBefore: (time) => `no antes de ${time}`,
    gone: 'En la última hoja, no en esta, y sin liberar',
    goneHow: {
      'dried-off': 'secada',
      left: 'salió del rebaño',
      struck: 'la entrada se tachó: pregunte antes de quitar la banda',
      'not-milked-now': 'su grupo no se ordeña ahora',
    },
    treatNow: (n, f) => `Tratar ahora: ${f.count(n, doses)}`,
    noneToTreat: 'Tratar ahora: no toca ninguna dosis en este ordeño.',
    dose: (dose, of) => `dosis ${dose} de ${of}`,
    amount: (value, unit) => `${value} ${unit}`,
    askBeforeGiving: 'ATRASADA: pregunte antes de darla',
    bandNoLine: 'Banda y no está en la lista, o en la lista y sin banda: leche fuera del tanque, y pregunte.',
    milkWentIn: '¿Leche retenida en la línea o en el tanque? PARE. No entregue. No la lave. Llame a:',
    dryOff: 'Secado',
    dryOffRule: 'Ordéñela del todo. Limpie los pezones. Banda puesta antes de que salga.',
    dryOffCount: (n, f) => f.count(n, { one: '# vaca para secar', other: '# vacas para secar' }),
    noneToDryOff: 'No toca secar ninguna vaca.',
    dryOffOn: (day) => `secar ${day}`,
    calvingDue: (day) => `parto previsto ${day}`,
    overdue: (n, f) => `ATRASADA ${f.count(n, days)}`,
    product: 'producto',
    sealant: 'sellador',
    band: 'banda puesta',
    quartersDone: 'cuartos, sellador, banda',
    undecided: 'Mucho tiempo en leche y sin preñez confirmada: decida',
    noneUndecided: 'Ninguna vaca lleva mucho en leche sin preñez confirmada.',
    daysInMilk: (n, f) => `${f.count(n, days)} en leche`,
    decision: 'decidido',
    freshMoves: 'Recién paridas',
    movesOut: (n, f) => `Salen de recién paridas: ${f.count(n, cows)}`,
    noneOut: 'Salen de recién paridas: ninguna en este ordeño.',
    goesTo: (group) => `a ${group}`,
    from: (group) => `de ${group}`,
    stays: 'Se quedan en recién paridas',
    noneStay: 'Ninguna se queda en recién paridas.',
    comesIn: 'Entran en recién paridas',
    noneIn: 'Ninguna entra en recién paridas.',
    pen: 'En el corral: mire cada una',
    nonePen: 'El corral de recién paridas está vacío.',
    calved: (time) => `parió ${time}`,
    notCalved: 'sin parto anotado',
    milkingsSince: (n, f) => `${f.count(n, milkings)} desde entonces`,
    ease: (ease) => `facilidad ${ease}`,
    calf: (sex, alive, number) =>
      `${sex === 'female' ? 'ternera' : 'ternero'}${number === undefined ? '' : ` ${number}`}${alive ? '' : ', muerto'}`,
    temperature: 'temperatura',
    milkCheckedBy: 'leche revisada por',
    sort: 'Aparte',
    sortCount: (n, f) => f.count(n, { one: '# vaca para apartar', other: '# vacas para apartar' }),
    noneToSort: 'No hay que apartar ninguna vaca en este ordeño.',
    to: (places) => `a ${places}`,
    whereTo: 'adónde',
    backTo: (group) => `vuelve a ${group}`,
    noPlace: 'sitio no dicho: pregunte',
    placesDiffer: 'más de un sitio: pregunte',
    cannotCome: 'Pedidas, y no van a pasar',
    tally: (n, f) => `apartadas: ______ de ${f.number(n)}`,
    counts: 'Recuento',
    expected: 'se esperan',
    counted: 'contadas',
    inMilk: 'en leche',
    held: 'retenidas',
    cameIn: 'entraron',
    wentOut: 'salieron',
    movements: 'Entradas y salidas desde el último recuento',
    nobodyMoved: 'Ninguna entró ni salió desde el último recuento, y las cuentas cuadran.',
    allGroups: 'todos los grupos',
    lastCount: (n, when, difference, f) =>
      `último recuento ${f.number(n)}${when === null ? '' : `, ${f.time(when)}`}: ${difference === 0 ? 'cuadra con el libro' : `${f.number(Math.abs(difference))} ${difference > 0 ? 'más' : 'menos'} que el libro`}`,
    notMilkedNow: 'no se ordeña en este ordeño',
    capacity: (head) => `sitio para ${head}`,
    noGroups: 'La granja no tiene grupos en el libro.',
    plan: 'Plan de ordeño',
    planTotal: (start, finish, duration) => `Empieza ${start}, acaba hacia ${finish}, ${duration}`,
    nonePlanned: 'No hay vacas que ordeñar en este ordeño.',
    order: 'orden',
    cows: 'vacas',
    turns: 'tandas',
    start: 'empieza',
    finish: 'acaba hacia',
    minutes: 'minutos',
    duration: (hours, minutes) => (hours === 0 ? `${minutes} min` : `${hours} h ${minutes} min`),
    slow: 'Vacas lentas: ponga la unidad primero',
    noneSlow: 'No se conocen vacas lentas.',
    before: 'Antes de ordeñar',
    after: 'Después de ordeñar',
    footBath: 'PEDILUVIO en este ordeño',
    noFootBath: 'Sin pediluvio en este ordeño.',
    beefHold: 'Carne retenida',
    beefRule: 'Ninguna vaca de esta lista puede ir al matadero.',
    beefCount: (n, f) => f.count(n, { one: '# vaca con la carne retenida', other: '# vacas con la carne retenida' }),
    noneBeefHeld: 'Ninguna vaca tiene la carne retenida.',
    wall: 'Leche retenida y plan',
    office: 'Oficina',
    noAlerts: 'No hay avisos.',
    doubts: 'Dudas por resolver',
    noDoubts: 'No hay dudas.',
    dosesMissing: 'Dosis sin anotar',
    noDosesMissing: 'Todas las dosis previstas están anotadas.',
    notReturned: 'Hojas no devueltas',
    allReturned: 'Todas las hojas están devueltas.',
    forTheVet: 'Para el veterinario',
    nothingForTheVet: 'Nada espera al veterinario.',
    openEnded: 'Retenidas hasta que alguien diga más',
    nobodyOpenEnded: 'Ninguna otra está retenida sin fin conocido.',
  },
};
