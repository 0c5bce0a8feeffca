/** French of why a cow is on a list or not. Wants a native reader of the trade before anybody relies on it. */
import type { Forms } from './format.ts';
import type { WhySays } from './why-en.ts';

const days: Forms = { one: '# jour', other: '# jours' };

export const whyFr: WhySays = {
  'why.tank-from': (v, f) =>
    v.tankFrom === null
      ? `son lait reste dehors après ${f.time(v.until)} ; aucune traite d’elle n’est prévue ensuite`
      : `${v.lastHeld === null ? '' : `la traite ${f.milking(v.lastHeld)} ne commence pas après ${f.time(v.until)}, donc `}son lait peut aller dans le tank dès ${f.milking(v.tankFrom)}`,
  'why.no-hold': () => 'rien ne retient son lait',
  'why.not-milked': (v) => `elle n’est pas traite dans ${v.group} ; ce qui la retient attend qu’elle le soit`,
  'why.not-on-last-sheet': () =>
    'elle n’était pas sur la dernière feuille du lait retenu émise, ou elle est encore retenue',
  'why.no-dose-due': () => 'aucun traitement d’elle n’a de dose encore à donner',
  'why.dose-later': (v, f) =>
    `${v.medicine} : dose ${v.dose} sur ${v.of} prévue ${f.time(v.planned)}, traite la plus proche ${f.milking(v.due)}`,
  'why.not-in-milk': () => 'elle n’est pas en lait',
  'why.not-in-calf': (v, f) =>
    v.daysInMilk === null
      ? 'gestation non confirmée'
      : `gestation non confirmée, ${f.count(v.daysInMilk, days)} en lait ; à décider : celles au-delà de ${v.limit}`,
  'why.dry-off-later': (v, f) =>
    `vêlage prévu ${f.day(v.due)}, tarissement ${f.day(v.dryOffOn)} : dans plus de ${f.count(v.lookAheadDays, days)}`,
  'why.not-in-fresh-pen': (v) =>
    `elle est dans ${v.group}, pas aux fraîches, et n’y a pas vêlé ni n’est à moins d’une semaine du vêlage`,
  'why.nobody-asked': () => 'personne ne l’a demandée, et aucune liste ne veut la trier',
  'why.counted': (v) => `comptée dans ${v.group}, ${v.inMilk ? 'en lait' : 'pas en lait'}`,
  'why.minutes': (v, f) =>
    `durée de traite habituelle ${f.number(v.minutes)} min (médiane de ses dix derniers contrôles) ; lente dès ${f.number(v.slowFrom)} min`,
  'why.no-minutes': () => 'aucune durée de traite n’est notée pour elle',
  'why.no-meat-hold': () => 'rien ne retient sa viande',
};
