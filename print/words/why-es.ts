/** Spanish of why a cow is on a list or not. Wants a native reader of the trade before anybody relies on it. */
import type { Forms } from './format.ts';
import type { WhySays } from './why-en.ts';

const days: Forms = { one: '# día', other: '# días' };

export const whyEs: WhySays = {
  'why.tank-from': (v, f) =>
    v.tankFrom === null
      ? `su leche queda fuera más allá de ${f.time(v.until)}; después no hay ningún ordeño suyo previsto`
      : `${v.lastHeld === null ? '' : `el ordeño ${f.milking(v.lastHeld)} no empieza después de ${f.time(v.until)}, así que `}su leche puede ir al tanque desde ${f.milking(v.tankFrom)}`,
  'why.no-hold': () => 'nada retiene su leche',
  'why.not-milked': (v) => `no se ordeña en ${v.group}; sus retenciones esperan hasta que se ordeñe`,
  'why.not-on-last-sheet': () => 'no estaba en la última hoja de leche retenida emitida, o sigue retenida',
  'why.no-dose-due': () => 'a ningún tratamiento suyo le queda una dosis por dar',
  'why.dose-later': (v, f) =>
    `${v.medicine}: dosis ${v.dose} de ${v.of} prevista ${f.time(v.planned)}, ordeño más cercano ${f.milking(v.due)}`,
  'why.not-in-milk': () => 'no está en leche',
  'why.not-in-calf': (v, f) =>
    v.daysInMilk === null
      ? 'preñez sin confirmar'
      : `preñez sin confirmar, ${f.count(v.daysInMilk, days)} en leche; por decidir están las que pasan de ${v.limit}`,
  'why.dry-off-later': (v, f) =>
    `parto previsto ${f.day(v.due)}, secado ${f.day(v.dryOffOn)}: faltan más de ${f.count(v.lookAheadDays, days)}`,
  'why.not-in-fresh-pen': (v) =>
    `está en ${v.group}, no en recién paridas, y allí no ha parido ni está a menos de una semana del parto`,
  'why.nobody-asked': () => 'nadie la ha pedido, y ninguna lista quiere apartarla',
  'why.counted': (v) => `contada en ${v.group}, ${v.inMilk ? 'en leche' : 'no en leche'}`,
  'why.minutes': (v, f) =>
    `tiempo de ordeño habitual ${f.number(v.minutes)} min (mediana de sus últimos diez controles); lenta desde ${f.number(v.slowFrom)} min`,
  'why.no-minutes': () => 'no hay tiempos de ordeño anotados de ella',
  'why.no-meat-hold': () => 'nada retiene su carne',
};
