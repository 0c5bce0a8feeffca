/** French. Wants a native reader of the trade before anybody relies on it. */
import type { MayBe, OffLabelCause, TankLoadSaid } from '../../projections/because.ts';
import type { Words } from './dictionary.ts';
import type { Format, Forms } from './format.ts';
import { keeperFr } from './keeper-fr.ts';
import { whyFr } from './why-fr.ts';

const days: Forms = { one: '# jour', other: '# jours' };
const milkings: Forms = { one: '# traite', other: '# traites' };
const doses: Forms = { one: '# dose', other: '# doses' };
const cows: Forms = { one: '# vache', other: '# vaches' };

const causes: Record<OffLabelCause, string> = {
  said: 'noté hors étiquette',
  route: 'autre voie que l’étiquette',
  doses: 'plus de doses que l’étiquette',
  interval: 'doses plus rapprochées que l’étiquette',
  age: 'âge de l’étiquette dépassé',
  class: 'pas pour cette classe d’animaux',
};

const leftReasons: Readonly<Record<string, string>> = {
  'sold-for-beef': 'vendue pour la viande',
  'sold-for-milking': 'vendue pour la traite',
  died: 'morte',
  other: 'autre raison',
};

const offLabel = (list: readonly OffLabelCause[], f: Format): string => f.list(list.map((cause) => causes[cause]));

const mayBe = (number: string, how: MayBe, about: string, f: Format): string => {
  const what = `${f.about(about)}, noté pour le numéro ${number}`;
  if (how === 'two-cows') return `${what}, que deux vaches peuvent porter`;
  if (how === 'leading-zeros') return `${what}, le sien aux zéros de tête près`;
  if (how === 'old-number') return `${what}, qui était le sien avant`;
  if (how === 'one-official-number') return `${what}, qui a son numéro officiel et peut être cette vache`;
  return `${what} quand elle n’était pas dans le troupeau`;
};

const lastDose = ({ planned }: { planned: boolean }): string => (planned ? 'dernière dose prévue' : 'dernière dose');

const ends = (time: string | null, f: Format): string =>
  time === null ? 'fin pas encore calculable' : `fin ${f.time(time)}`;

const afterCalving = (hours: number | null, count: number | null, f: Format): string =>
  [hours === null ? '' : f.hours(hours), count === null ? '' : f.count(count, milkings)].filter(Boolean).join(' et ');

const euBasis = (basis: 'one-and-a-half' | 'zero' | 'not-authorised', label: string, unauthorised: string): string => {
  if (basis === 'one-and-a-half') return `hors étiquette, 1,5 × ${label} de l’étiquette`;
  return basis === 'zero' ? 'hors étiquette, étiquette zéro' : `hors étiquette, ${unauthorised}`;
};

const whereIsLoad = (load: TankLoadSaid, f: Format): string =>
  load.collectedAt === null
    ? `Tank ${load.tank} : le lait est encore là, ne le livrez pas, analysez-le`
    : `Tank ${load.tank} : collecté ${f.time(load.collectedAt)}${load.ticket === null ? '' : ` (bon ${load.ticket})`} : appelez l’acheteur`;

const notStated = (driedOff: string | null, f: Format): string =>
  `${driedOff === null ? 'entrée tarie' : `tarie ${f.day(driedOff)}`} et le produit de tarissement n’est pas dit ; retenue jusqu’à ce qu’il le soit (ou « none »)`;
const noDryOff = (v: { group: string; since: string }, f: Format): string =>
  `dans ${v.group} depuis ${f.day(v.since)} sans tarissement noté : le produit de tarissement n’est pas dit ; retenue jusqu’à ce qu’il le soit (ou « none »)`;
const courseRunning = (
  v: { medicine: string; given: number; of: number; plannedLast: string; ends: string | null },
  f: Format,
): string =>
  `${v.medicine} : dose ${v.given} sur ${v.of} donnée, dernière prévue ${f.time(v.plannedLast)}, puis l’étiquette : ${ends(v.ends, f)}`;
const labelLonger = (v: { medicine: string; listed: string; ends: string | null }, f: Format): string =>
  `${v.medicine} : une étiquette plus longue a été notée ${f.time(v.listed)} pendant la retenue : ${ends(v.ends, f)}`;
const offLabelNoVet = (v: { medicine: string; causes: OffLabelCause[] }, f: Format): string =>
  `${v.medicine}, hors étiquette (${offLabel(v.causes, f)}) : le délai du vétérinaire manque ; retenue jusqu’à ce qu’il soit noté`;
const notListed = (v: { medicine: string }): string =>
  `${v.medicine} n’est pas sur la liste ; retenue jusqu’à ce que l’étiquette ou le délai du vétérinaire soit noté`;
const setAside = (v: { problem: string }): string =>
  `une note à son sujet est inutilisable : ${v.problem} ; retenue jusqu’à ce que quelqu’un la règle`;
const onHold = (until: string | null, f: Format): string =>
  until === null ? 'lait retenu, fin inconnue' : `lait retenu jusqu’à ${f.time(until)}`;

export const fr: Words = {
  locale: 'fr',
  clocksChange: 'changement d’heure entre les deux',
  milkingNames: { morning: 'matin', noon: 'midi', afternoon: 'après-midi', evening: 'soir', night: 'nuit' },
  kinds: {
    'farm-set-up': 'les données de la ferme',
    'medicine-listed': 'une étiquette',
    'medicine-received': 'une réception de médicament',
    'medicine-disposed': 'une élimination de médicament',
    'cow-entered': 'une entrée',
    'number-changed': 'un changement de numéro',
    'cow-left': 'un départ',
    calving: 'un vêlage',
    abortion: 'un avortement',
    service: 'une saillie',
    'pregnancy-check': 'un constat de gestation',
    'dry-off': 'un tarissement',
    treatment: 'un traitement',
    'vet-hold-time': 'un délai du vétérinaire',
    'course-ended': 'la fin d’un traitement',
    'milk-hold': 'une retenue de lait',
    'milk-hold-lifted': 'une levée de retenue',
    'milking-finished': 'la fin d’une traite',
    'tank-collection': 'une collecte du tank',
    'sheet-returned': 'un jeu de feuilles rendu',
    'sheet-issued': 'un jeu de feuilles émis',
    'book-continued': 'un livre continué',
    'residue-test': 'un test de résidus',
    'group-move': 'un changement de lot',
    'sort-request': 'une demande de tri',
    'sort-done': 'un tri fait',
    'head-count': 'un comptage',
    'milk-record': 'un contrôle de lait',
    'entry-struck': 'une note rayée',
    settled: 'un doute réglé',
  },
  keeper: { ...keeperFr, offLabelCauses: causes, leftReasons },
  says: {
    ...whyFr,
    'hold.hours': (v, f) => `${v.medicine} : ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.milkings': (v, f) =>
      `${v.medicine} : ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.milkings, milkings)}${v.floorHours === null ? '' : `, jamais moins de 12 h par traite = ${f.hours(v.floorHours)}`} : ${ends(v.ends, f)}`,
    'hold.hours-and-milkings': (v, f) =>
      `${v.medicine} : ${lastDose(v)} ${f.time(v.lastDose)} + ${f.hours(v.hours)} et ${f.count(v.milkings, milkings)}, le plus tard des deux : ${ends(v.ends, f)}`,
    'hold.label-longer': labelLonger,
    'hold.course-running': courseRunning,
    'hold.dose-not-recorded': (v, f) =>
      `${v.medicine} : la dose ${v.dose} sur ${v.of}${v.due === null ? '' : `, prévue ${f.milking(v.due)},`} n’est pas notée ; retenue jusqu’à ce qu’elle le soit ou que le traitement soit arrêté`,
    'hold.not-listed': notListed,
    'hold.label-unknown': (v) =>
      `${v.medicine} : la liste ne connaît pas son délai lait ; retenue jusqu’à ce que l’étiquette soit notée`,
    'hold.not-for-milking-cows': (v) =>
      `${v.medicine} n’est pas pour les vaches en lait ; retenue jusqu’à ce que le vétérinaire donne un délai`,
    'hold.off-label-no-vet': offLabelNoVet,
    'hold.off-label-milkings-only': (v, f) =>
      `${v.medicine}, hors étiquette : l’étiquette dit ${f.count(v.milkings, milkings)} et aucune heure ; retenue jusqu’à ce que le vétérinaire donne un délai`,
    'hold.vet': (v, f) =>
      `${v.medicine} : délai du vétérinaire${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelHours === null ? 'le délai' : f.hours(v.labelHours), 'non autorisé pour les animaux laitiers')} : ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.dry-cow-until-calving': (v, f) =>
      `${v.medicine}, produit de tarissement donné ${f.time(v.given)} : retenue jusqu’au vêlage, puis le délai de l’étiquette`,
    'hold.dry-cow-after-calving': (v, f) =>
      `${v.medicine}, produit de tarissement : vêlage ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)} : ${ends(v.ends, f)}`,
    'hold.dry-cow-early': (v, f) =>
      `${v.medicine}, donné ${f.time(v.given)}, vêlage ${f.calving(v)} : avant le minimum de ${f.count(v.minimumDays, days)} du produit : demandez au vétérinaire, analysez le lait ; ${v.ends === null ? 'retenue jusqu’au délai du vétérinaire ou à un test négatif' : ends(v.ends, f)}`,
    'hold.dry-cow-milked-again': (v, f) =>
      `${v.medicine}, produit de tarissement donné ${f.time(v.given)}, et traite à nouveau sans vêlage ; retenue jusqu’à ce que le vétérinaire donne un délai`,
    'hold.dry-cow-not-stated': (v, f) => notStated(v.driedOff, f),
    'hold.no-dry-off': noDryOff,
    'hold.back-from-dry': (v, f) =>
      `dans ${v.group} du ${f.day(v.since)} au ${f.day(v.back)} sans tarissement noté, et de nouveau traite : a-t-elle reçu un produit de tarissement ? Retenue jusqu’à un test négatif ; rayez le changement de groupe si elle n’y a jamais été`,
    'hold.fresh': (v, f) =>
      `fraîche : vêlage ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)} : ${ends(v.ends, f)}`,
    'hold.fresh-not-set': (v, f) =>
      `vêlage ${f.calving(v)} : la ferme n’a pas fixé la retenue après vêlage ; retenue jusqu’à ce qu’elle le soit`,
    'hold.before-due': (v, f) => `vêlage prévu ${f.day(v.due)}, encore traite à moins de ${f.count(v.days, days)}`,
    'hold.set-by-person': (v, f) => `« ${v.reason} », depuis ${f.time(v.since)} (${v.author}), jusqu’à la levée`,
    'hold.residue-positive': (v, f) =>
      `test de résidus positif${v.method === null ? '' : ` (${v.method})`}, échantillon de ${f.time(v.sampled)} ; retenue jusqu’à un test négatif`,
    'hold.entered-until': (v, f) => `entrée dans le livre, retenue jusqu’à ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'entrée dans le livre sans un mot sur le lait ; retenue jusqu’à ce que ce soit dit',
    'hold.entry-set-aside': setAside,
    'hold.dry-in-milked-group': (v) => `vache tarie dans ${v.group} : pas dans le tank`,
    'hold.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)} : reste à savoir laquelle c’était`,
    'unplaced.not-in-herd': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)} : aucune vache de ce numéro. Trouvez-la avant la traite`,
    'unplaced.two-cows': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)} : peut être ${f.list(v.cows)}, toutes retenues. Trouvez laquelle avant la traite`,
    'unplaced.leading-zeros': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)} : peut être ${f.list(v.mayBe)}, retenue. Trouvez-la avant la traite`,
    'unplaced.old-number': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)} : plus personne ne portait ce numéro ; peut être ${f.list(v.mayBe)}, retenue. Trouvez-la avant la traite`,
    'unplaced.dose-struck': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, a été rayé (« ${v.reason} ») : quelle vache l’a reçu ?`,
    'unplaced.set-aside': (v, f) =>
      `Une note est inutilisable et ${v.cows.length === 0 ? 'ne nomme aucune vache lisible' : `nomme ${f.list(v.cows)}, qui n’est pas une vache du troupeau`} : ${v.problem}`,
    'unplaced.left-on-hold': (v, f) =>
      `partie ${f.day(v.left)} retenue${v.until === null ? '' : ` jusqu’à ${f.time(v.until)}`}. Si elle apparaît, lait dehors`,
    'treat.due': (v, f) => `dernière ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = à donner ${f.time(v.planned)}`,
    'treat.overdue': (v, f) =>
      `dernière ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = à donner ${f.time(v.planned)}${v.due === null ? '' : `, à ${f.milking(v.due)}`}, et pas notée : demandez avant de donner`,
    'dry-off.due': (v, f) =>
      `vêlage prévu ${f.day(v.due)} − ${f.count(v.days, days)} tarie = ${f.day(v.target)}${v.weekday === null ? '' : ` ; jour de tarissement ${f.weekday(v.weekday)} : ${f.day(v.dryOffOn)}`}`,
    'dry-off.under-minimum': (v, f) =>
      `${f.count(v.daysLeft, days)} avant le vêlage, moins que le minimum de ${f.count(v.minimum, days)}`,
    'dry-off.product-minimum': (v, f) =>
      `${v.product} veut ${f.count(v.minimum, days)} avant le vêlage, il en reste ${f.number(v.daysLeft)} : demandez au vétérinaire`,
    'dry-off.twins': () => 'porte des jumeaux : peut vêler tôt',
    'dry-off.on-hold': (v, f) => onHold(v.until, f),
    'dry-off.no-service': () => 'aucune saillie derrière la date : à vérifier',
    'dry-off.not-confirmed': (v, f) =>
      `${f.count(v.daysInMilk, days)} en lait, plus de ${f.number(v.limit)}, gestation non confirmée`,
    'dry-off.no-due-date': () => 'gestante, date de vêlage inconnue',
    'fresh.out': (v, f) =>
      `vêlage ${f.calving(v)}, il y a ${f.hours(v.hours)} (${f.hours(v.wanted)} voulues), lactation ${v.lactation}, rien ne la retient`,
    'fresh.at-capacity': (v) => `${v.group} est plein : ${v.head} avec elle, place pour ${v.capacity}`,
    'fresh.stay-hours': (v, f) => `vêlage ${f.calving(v)}, il y a ${f.hours(v.hours)}, ${f.hours(v.wanted)} voulues`,
    'fresh.stay-on-hold': (v, f) => onHold(v.until, f),
    'fresh.stay-no-group': (v) => `aucun lot ne prend la lactation ${v.lactation} : dites où elle va`,
    'fresh.stay-hours-not-set': () => 'la ferme n’a pas dit combien de temps restent les fraîches',
    'fresh.stay-not-calved': () => 'pas encore vêlé',
    'fresh.stay-calving-unknown': () => 'date de vêlage inconnue',
    'fresh.in-calved': (v, f) => `vêlage ${f.calving(v)}, encore dans ${v.group}`,
    'fresh.in-due': (v, f) =>
      v.days < 0
        ? `prévue ${f.day(v.due)}, il y a ${f.count(-v.days, days)}, dans ${v.group}`
        : `prévue ${f.day(v.due)}, dans ${f.count(v.days, days)}, lot ${v.group}`,
    'sort.request': (v) =>
      `${v.reason}${v.forWhom === null ? '' : `, pour ${v.forWhom}`}${v.to === null ? '' : `, vers ${v.to}`}`,
    'sort.dry-off': (v) => `tarir${v.product === null ? '' : ` avec ${v.product}`}`,
    'sort.fresh-move': (v) => `sort des fraîches, vers ${v.to}`,
    'sort.dose': (v) => `traiter : ${v.medicine}, dose ${v.dose} sur ${v.of}`,
    'sort.cannot-dry': (v) => `tarie, dans ${v.group} : ne passe pas en salle`,
    'sort.cannot-left': (v, f) => `partie ${f.day(v.left)}`,
    'sort.cannot-unknown': () => 'aucune vache de ce numéro',
    'sort.cannot-not-milked': (v) => `${v.group} n’est pas trait à cette traite`,
    'meat.days': (v, f) =>
      `${v.medicine} : ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} (${f.count(v.doses, doses)}) = ${f.time(v.ends)}`,
    'meat.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelDays === null ? 'le délai' : f.count(v.labelDays, days), 'non autorisé pour les animaux de boucherie')} : ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.vet': (v, f) =>
      `${v.medicine} : délai du vétérinaire${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.unknown': (v) =>
      `${v.medicine} : la liste ne connaît pas son délai viande ; retenue jusqu’à ce qu’il soit noté`,
    'meat.not-listed': notListed,
    'meat.off-label-no-vet': offLabelNoVet,
    'meat.course-running': courseRunning,
    'meat.dose-not-recorded': (v) =>
      `${v.medicine} : la dose ${v.dose} sur ${v.of} n’est pas notée ; retenue jusqu’à ce qu’elle le soit ou que le traitement soit arrêté`,
    'meat.label-longer': labelLonger,
    'meat.after-calving': (v, f) =>
      `${v.medicine}, produit de tarissement : vêlage ${f.sum(v.calved, v.hours, v.ends, v.calvedOn)}`,
    'meat.product-not-stated': (v, f) => notStated(v.driedOff, f),
    'meat.no-dry-off': noDryOff,
    'meat.back-from-dry': (v, f) =>
      `dans ${v.group} du ${f.day(v.since)} au ${f.day(v.back)} sans tarissement noté : on ne dit pas si elle a reçu un produit de tarissement ; rayez le changement de groupe si elle n’y a jamais été`,
    'meat.entered-until': (v, f) => `entrée dans le livre, viande retenue jusqu’à ${f.time(v.until)}`,
    'meat.entered-unknown': () => 'entrée dans le livre sans un mot sur la viande ; retenue jusqu’à ce que ce soit dit',
    'meat.entry-set-aside': setAside,
    'meat.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)} : reste à savoir laquelle c’était`,
    'doubt.unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, nomme ${v.number}, qui n’était pas dans le troupeau : quelle vache était-ce ?`,
    'doubt.two-cows': (v, f) => `Le numéro ${v.number} peut être ${f.list(v.cows)} : laquelle ?`,
    'doubt.leading-zeros': (v, f) =>
      `Le numéro ${v.number} ne correspond à ${f.list(v.mayBe)} que sans les zéros de tête : est-ce elle ?`,
    'doubt.struck-unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, pour ${v.number} a été rayé sans dire ce qui est vrai : quelle vache l’a reçu ?`,
    'doubt.set-aside': (v, f) =>
      `Une note est inutilisable : ${v.problem}${v.cows.length === 0 ? ' ; elle ne nomme aucune vache lisible' : ` ; retenue pour elle : ${f.list(v.cows)}`}`,
    'doubt.milk-not-stated': (v) =>
      `${v.cow}, dans ${v.group}, n’a ni vêlage ni tarissement au livre : est-elle en lait ? Comptée en lait`,
    'doubt.vet-time-not-longer': (v, f) =>
      `${v.cow}, ${v.medicine} : les ${f.hours(v.vetHours)} du vétérinaire ne dépassent pas l’étiquette${v.labelHours === null ? '' : ` (${f.hours(v.labelHours)})`} ; l’étiquette vaut`,
    'doubt.vet-time-unplaced': (v) =>
      `Un délai du vétérinaire nomme le traitement ${v.treatment}, qui n’est pas au livre`,
    'doubt.vet-time-elsewhere': (v, f) =>
      `Un délai du vétérinaire est noté pour ${v.number}, mais le traitement qu’il nomme, ${f.about(v.about)}, ${f.time(v.at)}, est noté pour ${v.of} : il ne peut qu’allonger cette retenue. Laquelle le vétérinaire voulait-il dire ?`,
    'doubt.both-still-wanted': (v) =>
      `${v.cow} suit un traitement de ${v.course} et a reçu ${v.other} : veut-on encore les deux ?`,
    'doubt.dose-not-recorded': (v) =>
      `${v.cow}, ${v.medicine} : la dose ${v.dose} sur ${v.of} n’est pas notée : a-t-elle été donnée ?`,
    'doubt.retired-medicine': (v) => `${v.cow} a reçu ${v.medicine}, qui n’est plus sur la liste`,
    'doubt.two-groups': (v, f) =>
      `${v.cow} a été mise dans ${f.list(v.groups)} en même temps, ${f.time(v.at)} : où est-elle ?`,
    'doubt.unknown-group': (v) => `${v.cow} a été mise dans ${v.group}, un lot que la ferme n’a pas`,
    'doubt.after-leaving': (v, f) =>
      `${v.cow} : ${f.about(v.about)}, ${f.time(v.at)}, bien que partie ${f.day(v.left)}`,
    'doubt.after-renumbering': (v, f) =>
      `${v.number} : ${f.about(v.about)}, ${f.time(v.at)}, alors que la vache de ce numéro portait déjà le ${v.cow} : était-ce elle ?`,
    'doubt.entered-again': (v, f) =>
      `Le numéro ${v.number} a été entré ${f.time(v.at)} avec le numéro officiel de ${f.list(v.cows)}, qui est là : ce qui retient l’une retient les deux. Si c’est la même vache, rayez cette entrée et changez son numéro ; si c’en est une autre, rayez-la et entrez-la avec son propre numéro officiel`,
    'doubt.dry-off-when-dry': (v, f) => `${v.cow} a été tarie ${f.time(v.at)}, et l’était déjà`,
    'doubt.calved-in-milk': (v, f) => `${v.cow} a vêlé ${f.time(v.at)} en étant en lait : un tarissement non noté ?`,
    'doubt.among-dry': (v, f) =>
      `${v.cow} est en lait d’après ce qui est noté, et avec les taries dans ${v.group} depuis ${f.day(v.since)} : notez le tarissement et son produit, ou ramenez-la`,
    'doubt.date-ahead': (v, f) =>
      `${v.cow} est entrée dans le livre ${f.time(v.at)} avec un ${v.what === 'dry-off' ? 'tarissement' : 'vêlage'} du ${f.day(v.day)}, un jour encore à venir : quelle est la date ?`,
    'doubt.past-due': (v, f) =>
      `${v.cow} devait vêler ${f.day(v.due)}, il y a ${f.count(v.days, days)}, et aucun vêlage n’est noté`,
    'doubt.calved-early': (v, f) => `${v.cow} a vêlé ${f.count(v.days, days)} avant la date, ${f.day(v.due)} : tôt`,
    'doubt.sort-several-places': (v, f) => `${v.cow} est à trier vers ${f.list(v.places)} : où ?`,
    'doubt.strike-of-nothing': (v) => `On raye la note ${v.entry}, qui n’est pas au livre`,
    'doubt.strike-of-strike': (v) => `On raye une rature, ${v.entry} : notez plutôt à nouveau la bonne note`,
    'doubt.one-id-two-contents': (v) => `Deux notes ont l’id ${v.id} et disent autre chose ; les deux comptent`,
    'doubt.unknown-language': (v) =>
      `La langue « ${v.language} » de la ferme n’est pas au dictionnaire ; ses feuilles sont en anglais`,
    'doubt.number-in-use': (v, f) =>
      `Le numéro ${v.number} a été redonné, ${f.time(v.at)}, alors qu’une autre vache le porte`,
    'doubt.two-labels': (v, f) =>
      `${v.medicine} est deux fois sur la liste à la même heure, ${f.time(v.at)}, avec des étiquettes différentes : la plus longue vaut. Laquelle est juste ? Rayez l’autre`,
    'doubt.two-set-ups': (v, f) =>
      `Les données de la ferme sont notées deux fois à la même heure, ${f.time(v.at)}, toutes deux à partir de ${f.day(v.from)}, et ne disent pas la même chose : ce qui retient le plus longtemps vaut. Lesquelles sont justes ? Rayez les autres`,
    'doubt.head-count': (v, f) => `${v.group} : ${v.count} comptées ${f.time(v.at)}, ${v.book} au livre`,
    'doubt.no-farm': () =>
      'Aucune ferme dans ce livre : rien de ce qui dépend de ses traites ou de ses règles ne se calcule',
    'alert.late-news': (v, f) => {
      const what = `${v.cow} est retenue (${f.about(v.about)}, ${v.until === null ? 'fin inconnue' : `jusqu’à ${f.time(v.until)}`}) à la traite ${f.milking(v.milking)}, et la feuille ${v.ref} ne le disait pas`;
      if (v.phase === 'before')
        return `${what} : ${v.saidHere === true ? 'ces feuilles le disent : retirez les vieilles' : 'émettez les feuilles à nouveau et retirez les vieilles'}`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join(' ; ');
      return v.phase === 'running' ? `${what} : demandez si elle a été traite avant. ${milk}` : `${what}. ${milk}`;
    },
    'alert.late-unplaced': (v, f) => {
      const what = `On ne sait pas quelle vache c’est : ${f.about(v.about)}${v.number === '' ? '' : `, numéro ${v.number}`}. Cela touche la traite ${f.milking(v.milking)}, et la feuille ${v.ref} ne le disait pas`;
      if (v.phase === 'before') return `${what} : émettez les feuilles à nouveau et retirez les vieilles`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join(' ; ');
      return v.phase === 'running'
        ? `${what} : demandez qui c’était et si elle a été traite avant. ${milk}`
        : `${what}. ${milk}`;
    },
    'alert.no-sheet': (v, f) =>
      `La traite ${f.milking(v.milking)} a commencé sans feuille de lait retenu alors que ${f.list(v.cows)} l’étaient. ${v.loads.map((load) => whereIsLoad(load, f)).join(' ; ')}`,
    'alert.tank-positive': (v, f) =>
      `Test de résidus du tank ${v.tank} positif, ${f.time(v.at)} : ${v.collectedAt === null ? 'le lait est encore là : ne le livrez pas' : `collecté ${f.time(v.collectedAt)} : appelez l’acheteur`}. Traites dedans : ${v.milkings.length === 0 ? 'inconnues' : f.list(v.milkings.map((milking) => f.milking(milking)))}`,
    'alert.left-on-hold': (v, f) => {
      const until = (time: string | null) => (time === null ? 'fin inconnue' : `jusqu’à ${f.time(time)}`);
      const holds = [
        v.milk ? `lait retenu, ${until(v.milkUntil)}` : '',
        v.meat ? `viande retenue, ${until(v.meatUntil)}` : '',
      ];
      return `${v.cow} est partie ${f.day(v.left)} (${leftReasons[v.reason] ?? v.reason}) avec ${f.list(holds.filter(Boolean))} : prévenez l’acheteur par écrit`;
    },
  },
  crew: {
    'hold.hours': () => '',
    'hold.milkings': () => '',
    'hold.hours-and-milkings': () => '',
    'hold.label-longer': () => '',
    'hold.course-running': (v) => `traitement en cours, ${v.given} sur ${v.of}`,
    'hold.dose-not-recorded': (v) => `dose ${v.dose} sur ${v.of} non notée : donnée ?`,
    'hold.not-listed': () => 'pas sur la liste : demandez',
    'hold.label-unknown': () => 'délai lait inconnu : demandez',
    'hold.not-for-milking-cows': () => 'pas pour vaches en lait : demandez au vétérinaire',
    'hold.off-label-no-vet': () => 'hors étiquette, délai du vétérinaire manquant : demandez-lui',
    'hold.off-label-milkings-only': () => 'hors étiquette, délai du vétérinaire manquant : demandez-lui',
    'hold.vet': () => '',
    'hold.off-label-eu': () => '',
    'hold.dry-cow-until-calving': () => 'produit de tarissement, pas vêlé depuis',
    'hold.dry-cow-after-calving': (v, f) => `produit de tarissement, vêlage ${f.calving(v)}`,
    'hold.dry-cow-early': (v, f) =>
      `produit de tarissement, vêlage trop tôt, ${f.calving(v)} : demandez au vétérinaire, analysez le lait`,
    'hold.dry-cow-milked-again': () => 'produit de tarissement, traite à nouveau : demandez au vétérinaire',
    'hold.dry-cow-not-stated': () => 'produit de tarissement non dit : demandez',
    'hold.no-dry-off': () => 'tarissement non noté, produit non dit : demandez',
    'hold.back-from-dry': (v, f) =>
      `de nouveau traite après ${f.day(v.since)} chez les taries sans tarissement noté : demandez, testez son lait`,
    'hold.fresh': (v, f) => `vêlage ${f.calving(v)}`,
    'hold.fresh-not-set': (v, f) => `vêlage ${f.calving(v)}, retenue après vêlage non fixée`,
    'hold.before-due': (v, f) => `va vêler ${f.day(v.due)}`,
    'hold.set-by-person': (v, f) => `${v.reason}, depuis ${f.time(v.since)} (${v.author})`,
    'hold.residue-positive': (v, f) => `test de résidus positif, ${f.time(v.sampled)}`,
    'hold.entered-until': (v, f) => `arrivée retenue jusqu’à ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'arrivée sans un mot sur le lait : demandez',
    'hold.entry-set-aside': () => 'une note à son sujet est inutilisable : demandez au bureau',
    'hold.dry-in-milked-group': (v) => `se trouve dans ${v.group}`,
    'hold.may-be-her': (v, f) => `peut être le numéro ${v.number} : ${f.about(v.about)}`,
    'unplaced.set-aside': (v) =>
      v.cows.length === 0
        ? 'Une note est illisible et ne nomme aucune vache : demandez au bureau de quelle vache il s’agit'
        : 'Une note pour ce numéro est inutilisable, et ce n’est pas une vache du troupeau : demandez au bureau',
    'treat.due': (v, f) => `à donner ${f.time(v.planned)} ; dernière ${f.time(v.lastGiven)}`,
    'treat.overdue': (v, f) => `était à donner ${f.time(v.planned)} ; dernière notée ${f.time(v.lastGiven)}`,
    'sort.request': (v) => `${v.reason}${v.forWhom === null ? '' : `, pour ${v.forWhom}`}`,
    'sort.fresh-move': () => 'sort des fraîches',
  },
  labels: {
    onlyFor: (when) => `Seulement pour le ${when}`,
    takeOldDown: 'Retirez la vieille feuille.',
    replaces: (ref) => `Elle remplace ${ref} : retirez celle-là.`,
    rehearsal: 'RÉPÉTITION : pas pour de vraies vaches',
    notIssued: 'non émise',
    printed: (time) => `imprimée ${time}`,
    page: (page, pages) => `Page ${page} sur ${pages}`,
    linesHere: (here, all) => `lignes sur cette page : ${here} sur ${all}`,
    continued: 'suite',
    part: (part, parts) => `partie ${part} sur ${parts}`,
    book: 'livre',
    position: 'position',
    root: 'racine',
    whenUnsure: 'Dans le doute : lait hors du tank, et demandez.',
    cautions:
      'Suivez l’étiquette et le vétérinaire. Les règles locales priment. Cette feuille est un calcul sur ce qui est noté ; elle ne remplace ni l’un ni l’autre.',
    initials: 'initiales',
    medicine: 'médicament',
    done: 'fait',
    byHand: 'Noté à la main depuis l’impression',
    byHandWhat: 'lait dehors ? pourquoi, et qui l’a dit',
    alerts: 'Alertes',
    cow: 'vache',
    group: 'lot',
    why: 'pourquoi',
    since: 'depuis',
    until: 'jusqu’à',
    noEndKnown: 'fin inconnue',
    lastDose: (time) => `dernière dose ${time}`,
    quarters: {
      'left-front': 'avant gauche',
      'right-front': 'avant droit',
      'left-hind': 'arrière gauche',
      'right-hind': 'arrière droit',
      'left-rear': 'arrière gauche',
      'right-rear': 'arrière droit',
    },
    front: 'avant',
    leftLetter: 'G',
    rightLetter: 'D',
    milkHold: 'Lait retenu',
    milkOut: (n, f) => f.count(n, { one: '# vache : lait hors du tank', other: '# vaches : lait hors du tank' }),
    noneHeld: 'Aucune vache n’a le lait retenu à cette traite.',
    noneHeldButFind: 'Aucune vache du troupeau n’a le lait retenu, mais celles d’en haut restent à trouver.',
    find: 'Trouvez celles-ci avant la traite',
    findHow: 'Jusque-là : le lait de toute vache possible reste hors du tank.',
    unreadable: 'sans numéro',
    dryAmongMilkers: 'Vache tarie parmi les laitières : pas dans le tank',
    groupHeld: (group, n, f) => `${group} : ${f.count(n, { one: '# retenue', other: '# retenues' })}`,
    groupNone: (group) => `${group} : aucune retenue`,
    wears: (mark) => `Chacune porte : ${mark}`,
    isNew: 'NOUVEAU',
    milkTo: (place) => `lait vers : ${place}`,
    keepApart: 'lait : pas dans le tank',
    causes: { treated: 'Traitée', fresh: 'Fraîche', abnormal: 'Lait anormal', dry: 'Tarie', unknown: 'Inconnu' },
    inTheTank: 'dans le tank dès',
    keepOut: 'DEHORS. Fin inconnue : demandez',
    keepOutDry: 'DEHORS. Elle est tarie : demandez',
    afterTime: (time) => `après ${time}`,
    milkingsLeft: (n, f) => (n === 1 ? 'cette traite seulement' : f.count(n, { other: 'encore # traites' })),
    askFirst: 'Donné pendant cette traite : demandez si elle a été traite avant',
    bandsOff: (n, f) =>
      `Bandes à ôter : ${f.count(n, { one: '# vache libre', other: '# vaches libres' })} depuis la dernière feuille`,
    bandOff: 'bande ôtée',
    noneCleared: 'Bandes à ôter : aucune depuis la dernière feuille.',
    freeSince: (time) => `libre depuis ${time}`,
    notBefore: (time) => `pas avant ${time}`,
    gone: 'Sur la dernière feuille, pas sur celle-ci, et non libérées',
    goneHow: {
      'dried-off': 'tarie',
      left: 'partie',
      struck: 'la note a été rayée : demandez avant d’ôter la bande',
      'not-milked-now': 'son lot n’est pas trait maintenant',
    },
    treatNow: (n, f) => `À traiter : ${f.count(n, doses)}`,
    noneToTreat: 'À traiter : aucune dose à cette traite.',
    dose: (dose, of) => `dose ${dose} sur ${of}`,
    amount: (value, unit) => `${value} ${unit}`,
    askBeforeGiving: 'EN RETARD : demandez avant de donner',
    bandNoLine: 'Bande mais pas sur la liste, ou sur la liste sans bande : lait hors du tank, et demandez.',
    milkWentIn: 'Du lait retenu dans la ligne ou le tank ? ARRÊTEZ. Ne livrez pas. Ne lavez rien. Appelez :',
    dryOff: 'Tarissement',
    dryOffRule: 'Videz-la bien. Nettoyez les trayons. Bande posée avant qu’elle parte.',
    dryOffCount: (n, f) => f.count(n, { one: '# vache à tarir', other: '# vaches à tarir' }),
    noneToDryOff: 'Aucune vache à tarir.',
    dryOffOn: (day) => `tarir ${day}`,
    calvingDue: (day) => `vêlage prévu ${day}`,
    overdue: (n, f) => `EN RETARD de ${f.count(n, days)}`,
    product: 'produit',
    sealant: 'obturateur',
    band: 'bande posée',
    quartersDone: 'quartiers, obturateur, bande',
    undecided: 'Longtemps en lait sans gestation confirmée : décidez',
    noneUndecided: 'Aucune vache longtemps en lait sans gestation confirmée.',
    daysInMilk: (n, f) => `${f.count(n, days)} en lait`,
    decision: 'décidé',
    freshMoves: 'Fraîches',
    movesOut: (n, f) => `Sortent des fraîches : ${f.count(n, cows)}`,
    noneOut: 'Sortent des fraîches : aucune à cette traite.',
    goesTo: (group) => `vers ${group}`,
    from: (group) => `de ${group}`,
    stays: 'Restent aux fraîches',
    noneStay: 'Aucune ne reste aux fraîches.',
    comesIn: 'Entrent aux fraîches',
    noneIn: 'Aucune n’entre aux fraîches.',
    pen: 'Dans la case : regardez chacune',
    nonePen: 'La case des fraîches est vide.',
    calved: (time) => `vêlage ${time}`,
    notCalved: 'aucun vêlage noté',
    milkingsSince: (n, f) => `${f.count(n, milkings)} depuis`,
    ease: (ease) => `facilité ${ease}`,
    calf: (sex, alive, number) =>
      `${sex === 'female' ? 'velle' : 'veau mâle'}${number === undefined ? '' : ` ${number}`}${alive ? '' : ', mort'}`,
    temperature: 'température',
    milkCheckedBy: 'lait vérifié par',
    sort: 'Tri',
    sortCount: (n, f) => f.count(n, { one: '# vache à trier', other: '# vaches à trier' }),
    noneToSort: 'Aucune vache à trier à cette traite.',
    to: (places) => `vers ${places}`,
    whereTo: 'vers où',
    backTo: (group) => `retour à ${group}`,
    noPlace: 'lieu non dit : demandez',
    placesDiffer: 'plusieurs lieux : demandez',
    cannotCome: 'Demandées, et ne passeront pas',
    tally: (n, f) => `triées : ______ sur ${f.number(n)}`,
    counts: 'Comptage',
    expected: 'attendues',
    counted: 'comptées',
    inMilk: 'en lait',
    held: 'retenues',
    cameIn: 'entrées',
    wentOut: 'sorties',
    movements: 'Entrées et sorties depuis le dernier comptage',
    nobodyMoved: 'Aucune entrée ni sortie depuis le dernier comptage, et les comptes sont justes.',
    allGroups: 'tous les lots',
    lastCount: (n, when, difference, f) =>
      `dernier comptage ${f.number(n)}${when === null ? '' : `, ${f.time(when)}`} : ${difference === 0 ? 'juste avec le livre' : `${f.number(Math.abs(difference))} de ${difference > 0 ? 'plus' : 'moins'} que le livre`}`,
    notMilkedNow: 'pas trait à cette traite',
    capacity: (head) => `place pour ${head}`,
    noGroups: 'La ferme n’a aucun lot dans le livre.',
    plan: 'Plan de traite',
    planTotal: (start, finish, duration) => `Début ${start}, fin vers ${finish}, ${duration}`,
    nonePlanned: 'Aucune vache à traire à cette traite.',
    order: 'ordre',
    cows: 'vaches',
    turns: 'tours',
    start: 'début',
    finish: 'fin vers',
    minutes: 'minutes',
    duration: (hours, minutes) => (hours === 0 ? `${minutes} min` : `${hours} h ${minutes} min`),
    slow: 'Vaches lentes : branchez-les d’abord',
    noneSlow: 'Aucune vache lente connue.',
    before: 'Avant la traite',
    after: 'Après la traite',
    footBath: 'PÉDILUVE à cette traite',
    noFootBath: 'Pas de pédiluve à cette traite.',
    beefHold: 'Viande retenue',
    beefRule: 'Aucune vache de cette liste ne part à l’abattoir.',
    beefCount: (n, f) => f.count(n, { one: '# vache, viande retenue', other: '# vaches, viande retenue' }),
    noneBeefHeld: 'Aucune vache n’a la viande retenue.',
    wall: 'Lait retenu et plan',
    office: 'Bureau',
    noAlerts: 'Aucune alerte.',
    doubts: 'Doutes à régler',
    noDoubts: 'Aucun doute.',
    dosesMissing: 'Doses non notées',
    noDosesMissing: 'Toutes les doses prévues sont notées.',
    notReturned: 'Feuilles non rendues',
    allReturned: 'Toutes les feuilles sont rendues.',
    forTheVet: 'Pour le vétérinaire',
    nothingForTheVet: 'Rien n’attend le vétérinaire.',
    openEnded: 'Retenues tant que personne n’en dit plus',
    nobodyOpenEnded: 'Aucune autre n’est retenue sans fin connue.',
  },
};
