/** Polish. Wants a native reader of the trade before anybody relies on it. */
import type { MayBe, OffLabelCause, TankLoadSaid } from '../../projections/because.ts';
import type { Words } from './dictionary.ts';
import type { Format, Forms } from './format.ts';
import { keeperPl } from './keeper-pl.ts';
import { whyPl } from './why-pl.ts';

const days: Forms = { one: '# dzień', few: '# dni', many: '# dni', other: '# dnia' };
const milkings: Forms = { one: '# dój', few: '# doje', many: '# dojów', other: '# doju' };
const doses: Forms = { one: '# dawka', few: '# dawki', many: '# dawek', other: '# dawki' };
const cows: Forms = { one: '# krowa', few: '# krowy', many: '# krów', other: '# krowy' };

const causes: Record<OffLabelCause, string> = {
  said: 'zapisano poza etykietą',
  route: 'inna droga niż na etykiecie',
  doses: 'więcej dawek niż na etykiecie',
  interval: 'dawki częściej niż na etykiecie',
  age: 'przekroczony wiek z etykiety',
  class: 'nie dla tej grupy zwierząt',
};

const leftReasons: Readonly<Record<string, string>> = {
  'sold-for-beef': 'sprzedana na mięso',
  'sold-for-milking': 'sprzedana do doju',
  died: 'padła',
  other: 'inny powód',
};

const offLabel = (list: readonly OffLabelCause[], f: Format): string => f.list(list.map((cause) => causes[cause]));

const mayBe = (number: string, how: MayBe, about: string, f: Format): string => {
  const what = `${f.about(about)}, zapisano dla numeru ${number}`;
  if (how === 'two-cows') return `${what}, a mogą go mieć dwie krowy`;
  if (how === 'leading-zeros') return `${what}, jej numer bez zer z przodu`;
  if (how === 'old-number') return `${what}, który przedtem był jej numerem`;
  if (how === 'one-official-number') return `${what}, który ma jej numer urzędowy i może być tą krową`;
  return `${what}, gdy nie było jej w stadzie`;
};

const lastDose = ({ planned }: { planned: boolean }): string =>
  planned ? 'planowana ostatnia dawka' : 'ostatnia dawka';

const ends = (time: string | null, f: Format): string =>
  time === null ? 'końca nie da się jeszcze wyliczyć' : `koniec ${f.time(time)}`;

const afterCalving = (hours: number | null, count: number | null, f: Format): string =>
  [hours === null ? '' : f.hours(hours), count === null ? '' : f.count(count, milkings)].filter(Boolean).join(' i ');

const euBasis = (basis: 'one-and-a-half' | 'zero' | 'not-authorised', label: string, unauthorised: string): string => {
  if (basis === 'one-and-a-half') return `poza etykietą, 1,5 × ${label} z etykiety`;
  return basis === 'zero' ? 'poza etykietą, etykieta zero' : `poza etykietą, ${unauthorised}`;
};

const whereIsLoad = (load: TankLoadSaid, f: Format): string =>
  load.collectedAt === null
    ? `Zbiornik ${load.tank}: mleko jeszcze jest, nie oddawać, zbadać`
    : `Zbiornik ${load.tank}: odebrane ${f.time(load.collectedAt)}${load.ticket === null ? '' : ` (kwit ${load.ticket})`}: dzwonić do odbiorcy`;

const notStated = (driedOff: string | null, f: Format): string =>
  `${driedOff === null ? 'przyszła zasuszona' : `zasuszona ${f.day(driedOff)}`}, a środka do zasuszania nie podano; wstrzymana, aż zostanie podany (lub „none”)`;
const noDryOff = (v: { group: string; since: string }, f: Format): string =>
  `w ${v.group} od ${f.day(v.since)} bez zapisanego zasuszenia: środka do zasuszania nie podano; wstrzymana, aż zostanie podany (lub „none”)`;
const courseRunning = (
  v: { medicine: string; given: number; of: number; plannedLast: string; ends: string | null },
  f: Format,
): string =>
  `${v.medicine}: podana dawka ${v.given} z ${v.of}, ostatnia planowana ${f.time(v.plannedLast)}, potem etykieta: ${ends(v.ends, f)}`;
const labelLonger = (v: { medicine: string; listed: string; ends: string | null }, f: Format): string =>
  `${v.medicine}: ${f.time(v.listed)} wpisano dłuższą etykietę w czasie wstrzymania: ${ends(v.ends, f)}`;
const offLabelNoVet = (v: { medicine: string; causes: OffLabelCause[] }, f: Format): string =>
  `${v.medicine}, poza etykietą (${offLabel(v.causes, f)}): brak czasu od weterynarza; wstrzymana, aż zostanie wpisany`;
const notListed = (v: { medicine: string }): string =>
  `${v.medicine} nie ma na liście; wstrzymana, aż zostanie wpisana etykieta lub czas od weterynarza`;
const setAside = (v: { problem: string }): string =>
  `wpisu o niej nie dało się użyć: ${v.problem}; wstrzymana, aż ktoś to wyjaśni`;
const onHold = (until: string | null, f: Format): string =>
  until === null ? 'mleko wstrzymane, koniec nieznany' : `mleko wstrzymane do ${f.time(until)}`;

export const pl: Words = {
  locale: 'pl',
  clocksChange: 'w międzyczasie zmiana czasu',
  milkingNames: { morning: 'rano', noon: 'południe', afternoon: 'popołudnie', evening: 'wieczór', night: 'noc' },
  kinds: {
    'farm-set-up': 'dane gospodarstwa',
    'medicine-listed': 'etykieta leku',
    'medicine-received': 'przyjęcie leku',
    'medicine-disposed': 'utylizacja leku',
    'cow-entered': 'wejście do stada',
    'number-changed': 'zmiana numeru',
    'cow-left': 'wyjście ze stada',
    calving: 'wycielenie',
    abortion: 'poronienie',
    service: 'krycie',
    'pregnancy-check': 'badanie cielności',
    'dry-off': 'zasuszenie',
    treatment: 'leczenie',
    'vet-hold-time': 'czas od weterynarza',
    'course-ended': 'koniec kuracji',
    'milk-hold': 'wstrzymanie mleka',
    'milk-hold-lifted': 'koniec wstrzymania',
    'milking-finished': 'koniec doju',
    'tank-collection': 'odbiór mleka ze zbiornika',
    'sheet-returned': 'zwrócony zestaw arkuszy',
    'sheet-issued': 'wydany zestaw arkuszy',
    'book-continued': 'kontynuacja książki',
    'residue-test': 'badanie pozostałości',
    'group-move': 'zmiana grupy',
    'sort-request': 'prośba o oddzielenie',
    'sort-done': 'oddzielenie zrobione',
    'head-count': 'liczenie',
    'milk-record': 'pomiar mleka',
    'entry-struck': 'skreślony wpis',
    settled: 'wyjaśniona wątpliwość',
  },
  keeper: { ...keeperPl, offLabelCauses: causes, leftReasons },
  says: {
    ...whyPl,
    'hold.hours': (v, f) => `${v.medicine}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.milkings, milkings)}${v.floorHours === null ? '' : `, nigdy mniej niż 12 h na dój = ${f.hours(v.floorHours)}`}: ${ends(v.ends, f)}`,
    'hold.hours-and-milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.hours(v.hours)} i ${f.count(v.milkings, milkings)}, co później: ${ends(v.ends, f)}`,
    'hold.label-longer': labelLonger,
    'hold.course-running': courseRunning,
    'hold.dose-not-recorded': (v, f) =>
      `${v.medicine}: dawki ${v.dose} z ${v.of}${v.due === null ? '' : `, termin ${f.milking(v.due)},`} nie zapisano; wstrzymana, aż będzie zapisana lub kuracja zakończona`,
    'hold.not-listed': notListed,
    'hold.label-unknown': (v) =>
      `${v.medicine}: lista nie zna karencji mleka; wstrzymana, aż zostanie wpisana etykieta`,
    'hold.not-for-milking-cows': (v) => `${v.medicine} nie jest dla krów dojonych; wstrzymana, aż weterynarz poda czas`,
    'hold.off-label-no-vet': offLabelNoVet,
    'hold.off-label-milkings-only': (v, f) =>
      `${v.medicine}, poza etykietą: etykieta podaje ${f.count(v.milkings, milkings)}, bez godzin; wstrzymana, aż weterynarz poda czas`,
    'hold.vet': (v, f) =>
      `${v.medicine}: czas od weterynarza${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelHours === null ? 'czas' : f.hours(v.labelHours), 'niedopuszczony dla zwierząt mlecznych')}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.dry-cow-until-calving': (v, f) =>
      `${v.medicine}, środek do zasuszania podany ${f.time(v.given)}: wstrzymana do wycielenia, potem czas z etykiety`,
    'hold.dry-cow-after-calving': (v, f) =>
      `${v.medicine}, środek do zasuszania: wycielenie ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.dry-cow-early': (v, f) =>
      `${v.medicine}, podany ${f.time(v.given)}, wycielenie ${f.calving(v)}: przed minimum środka do zasuszania (${f.count(v.minimumDays, days)}): pytać weterynarza, zbadać mleko; ${v.ends === null ? 'wstrzymana do czasu od weterynarza lub czystego badania' : ends(v.ends, f)}`,
    'hold.dry-cow-milked-again': (v, f) =>
      `${v.medicine}, środek do zasuszania podany ${f.time(v.given)}, i znów dojona bez wycielenia; wstrzymana, aż weterynarz poda czas`,
    'hold.dry-cow-not-stated': (v, f) => notStated(v.driedOff, f),
    'hold.no-dry-off': noDryOff,
    'hold.back-from-dry': (v, f) =>
      `w ${v.group} od ${f.day(v.since)} do ${f.day(v.back)} bez zapisanego zasuszenia i znów dojona: czy dostała środek do zasuszania? Wstrzymana do czystego badania; wykreśl przeniesienie, jeśli nigdy tam nie stała`,
    'hold.fresh': (v, f) =>
      `świeżo wycielona: ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.fresh-not-set': (v, f) =>
      `wycielenie ${f.calving(v)}: gospodarstwo nie ustaliło wstrzymania po wycieleniu; wstrzymana, aż ustali`,
    'hold.before-due': (v, f) => `termin ${f.day(v.due)}, jeszcze dojona na mniej niż ${f.count(v.days, days)} przed`,
    'hold.set-by-person': (v, f) => `„${v.reason}”, od ${f.time(v.since)} (${v.author}), do odwołania`,
    'hold.residue-positive': (v, f) =>
      `badanie pozostałości dodatnie${v.method === null ? '' : ` (${v.method})`}, próbka ${f.time(v.sampled)}; wstrzymana do czystego badania`,
    'hold.entered-until': (v, f) => `weszła do księgi wstrzymana do ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'weszła do księgi bez słowa o karencji mleka; wstrzymana, aż zostanie podana',
    'hold.entry-set-aside': setAside,
    'hold.dry-in-milked-group': (v) => `krowa zasuszona w ${v.group}: nie do zbiornika`,
    'hold.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: wyjaśnić, która to była`,
    'unplaced.not-in-herd': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: nie było krowy o tym numerze. Znaleźć przed dojem`,
    'unplaced.two-cows': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: może być ${f.list(v.cows)}, wszystkie wstrzymane. Ustalić która przed dojem`,
    'unplaced.leading-zeros': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: może być ${f.list(v.mayBe)}, wstrzymana. Znaleźć przed dojem`,
    'unplaced.old-number': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: nikt już nie miał tego numeru; może być ${f.list(v.mayBe)}, wstrzymana. Znaleźć przed dojem`,
    'unplaced.dose-struck': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, skreślono („${v.reason}”): która krowa to dostała?`,
    'unplaced.set-aside': (v, f) =>
      `Wpisu nie dało się użyć i ${v.cows.length === 0 ? 'nie podaje czytelnej krowy' : `podaje ${f.list(v.cows)}, a takiej krowy w stadzie nie ma`}: ${v.problem}`,
    'unplaced.left-on-hold': (v, f) =>
      `wyszła ${f.day(v.left)} wstrzymana${v.until === null ? '' : ` do ${f.time(v.until)}`}. Jeśli się pojawi, mleko osobno`,
    'treat.due': (v, f) => `ostatnia ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = podać ${f.time(v.planned)}`,
    'treat.overdue': (v, f) =>
      `ostatnia ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = podać ${f.time(v.planned)}${v.due === null ? '' : `, ${f.milking(v.due)}`}, a nie zapisano: pytać przed podaniem`,
    'dry-off.due': (v, f) =>
      `termin wycielenia ${f.day(v.due)} − ${f.count(v.days, days)} zasuszenia = ${f.day(v.target)}${v.weekday === null ? '' : `; dzień zasuszania ${f.weekday(v.weekday)}: ${f.day(v.dryOffOn)}`}`,
    'dry-off.under-minimum': (v, f) =>
      `${f.count(v.daysLeft, days)} do wycielenia, mniej niż minimum ${f.count(v.minimum, days)}`,
    'dry-off.product-minimum': (v, f) =>
      `${v.product} wymaga ${f.count(v.minimum, days)} przed wycieleniem, zostało ${f.number(v.daysLeft)}: pytać weterynarza`,
    'dry-off.twins': () => 'bliźnięta: może wycielić się wcześniej',
    'dry-off.on-hold': (v, f) => onHold(v.until, f),
    'dry-off.no-service': () => 'brak krycia za tą datą: sprawdzić',
    'dry-off.not-confirmed': (v, f) =>
      `${f.count(v.daysInMilk, days)} laktacji, ponad ${f.number(v.limit)}, cielność niepotwierdzona`,
    'dry-off.no-due-date': () => 'cielna, termin nieznany',
    'fresh.out': (v, f) =>
      `wycielenie ${f.calving(v)}, ${f.hours(v.hours)} temu (wymagane ${f.hours(v.wanted)}), laktacja ${v.lactation}, nic jej nie zatrzymuje`,
    'fresh.at-capacity': (v) => `${v.group} pełna: ${v.head} razem z nią, miejsc ${v.capacity}`,
    'fresh.stay-hours': (v, f) => `wycielenie ${f.calving(v)}, ${f.hours(v.hours)} temu, wymagane ${f.hours(v.wanted)}`,
    'fresh.stay-on-hold': (v, f) => onHold(v.until, f),
    'fresh.stay-no-group': (v) => `żadna grupa nie bierze laktacji ${v.lactation}: powiedzieć dokąd`,
    'fresh.stay-hours-not-set': () => 'gospodarstwo nie podało, jak długo zostają świeżo wycielone',
    'fresh.stay-not-calved': () => 'jeszcze się nie wycieliła',
    'fresh.stay-calving-unknown': () => 'nie wiadomo, kiedy się wycieliła',
    'fresh.in-calved': (v, f) => `wycielenie ${f.calving(v)}, wciąż w ${v.group}`,
    'fresh.in-due': (v, f) =>
      v.days < 0
        ? `termin był ${f.day(v.due)}, ${f.count(-v.days, days)} temu, w ${v.group}`
        : `termin ${f.day(v.due)}, za ${f.count(v.days, days)}, w ${v.group}`,
    'sort.request': (v) =>
      `${v.reason}${v.forWhom === null ? '' : `, dla: ${v.forWhom}`}${v.to === null ? '' : `, dokąd: ${v.to}`}`,
    'sort.dry-off': (v) => `zasuszyć${v.product === null ? '' : `: ${v.product}`}`,
    'sort.fresh-move': (v) => `ze świeżo wycielonych, dokąd: ${v.to}`,
    'sort.dose': (v) => `leczyć: ${v.medicine}, dawka ${v.dose} z ${v.of}`,
    'sort.cannot-dry': (v) => `zasuszona, w ${v.group}: nie przejdzie przez dojarnię`,
    'sort.cannot-left': (v, f) => `wyszła ${f.day(v.left)}`,
    'sort.cannot-unknown': () => 'nie ma krowy o tym numerze',
    'sort.cannot-not-milked': (v) => `${v.group} nie jest dojona o tej porze`,
    'meat.days': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} (${f.count(v.doses, doses)}) = ${f.time(v.ends)}`,
    'meat.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelDays === null ? 'czas' : f.count(v.labelDays, days), 'niedopuszczony dla zwierząt rzeźnych')}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.vet': (v, f) =>
      `${v.medicine}: czas od weterynarza${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.unknown': (v) => `${v.medicine}: lista nie zna karencji mięsa; wstrzymana, aż zostanie wpisana`,
    'meat.not-listed': notListed,
    'meat.off-label-no-vet': offLabelNoVet,
    'meat.course-running': courseRunning,
    'meat.dose-not-recorded': (v) =>
      `${v.medicine}: dawki ${v.dose} z ${v.of} nie zapisano; wstrzymana, aż będzie zapisana lub kuracja zakończona`,
    'meat.label-longer': labelLonger,
    'meat.after-calving': (v, f) =>
      `${v.medicine}, środek do zasuszania: wycielenie ${f.sum(v.calved, v.hours, v.ends, v.calvedOn)}`,
    'meat.product-not-stated': (v, f) => notStated(v.driedOff, f),
    'meat.no-dry-off': noDryOff,
    'meat.back-from-dry': (v, f) =>
      `w ${v.group} od ${f.day(v.since)} do ${f.day(v.back)} bez zapisanego zasuszenia: nie podano, czy dostała środek do zasuszania; wykreśl przeniesienie, jeśli nigdy tam nie stała`,
    'meat.entered-until': (v, f) => `weszła do księgi z karencją mięsa do ${f.time(v.until)}`,
    'meat.entered-unknown': () => 'weszła do księgi bez słowa o karencji mięsa; wstrzymana, aż zostanie podana',
    'meat.entry-set-aside': setAside,
    'meat.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: wyjaśnić, która to była`,
    'doubt.unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, podaje ${v.number}, której nie było w stadzie: która to krowa?`,
    'doubt.two-cows': (v, f) => `Numer ${v.number} może oznaczać ${f.list(v.cows)}: która?`,
    'doubt.leading-zeros': (v, f) =>
      `Numer ${v.number} pasuje do ${f.list(v.mayBe)} tylko bez zer z przodu: czy to ona?`,
    'doubt.struck-unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, dla ${v.number} skreślono bez podania, co jest prawdą: która krowa to dostała?`,
    'doubt.set-aside': (v, f) =>
      `Wpisu nie dało się użyć: ${v.problem}${v.cows.length === 0 ? '; nie podaje czytelnej krowy' : `; wstrzymane z jego powodu: ${f.list(v.cows)}`}`,
    'doubt.milk-not-stated': (v) =>
      `${v.cow}, w ${v.group}, nie ma w księdze wycielenia ani zasuszenia: czy daje mleko? Przyjęto, że tak`,
    'doubt.vet-time-not-longer': (v, f) =>
      `${v.cow}, ${v.medicine}: ${f.hours(v.vetHours)} od weterynarza nie jest dłuższe niż etykieta${v.labelHours === null ? '' : ` (${f.hours(v.labelHours)})`}; obowiązuje etykieta`,
    'doubt.vet-time-unplaced': (v) => `Czas od weterynarza podaje leczenie ${v.treatment}, którego nie ma w księdze`,
    'doubt.vet-time-elsewhere': (v, f) =>
      `Czas od weterynarza zapisano dla ${v.number}, ale leczenie, które podaje, ${f.about(v.about)}, ${f.time(v.at)}, zapisano dla ${v.of}: może tylko przedłużyć tamto wstrzymanie. O którą krowę chodziło weterynarzowi?`,
    'doubt.both-still-wanted': (v) =>
      `${v.cow} jest na kuracji ${v.course} i dostała ${v.other}: czy oba są potrzebne?`,
    'doubt.dose-not-recorded': (v) => `${v.cow}, ${v.medicine}: dawki ${v.dose} z ${v.of} nie zapisano: czy podano?`,
    'doubt.retired-medicine': (v) => `${v.cow} dostała ${v.medicine}, którego nie ma już na liście`,
    'doubt.two-groups': (v, f) => `${v.cow} przeniesiono naraz do ${f.list(v.groups)}, ${f.time(v.at)}: gdzie jest?`,
    'doubt.unknown-group': (v) => `${v.cow} przeniesiono do ${v.group}, takiej grupy nie ma`,
    'doubt.after-leaving': (v, f) => `${v.cow}: ${f.about(v.about)}, ${f.time(v.at)}, choć wyszła ${f.day(v.left)}`,
    'doubt.after-renumbering': (v, f) =>
      `${v.number}: ${f.about(v.about)}, ${f.time(v.at)}, choć krowa o tym numerze miała już numer ${v.cow}: czy to ona?`,
    'doubt.entered-again': (v, f) =>
      `Numer ${v.number} wprowadzono ${f.time(v.at)} z numerem urzędowym krowy ${f.list(v.cows)}, która tu jest: co wstrzymuje jedną, wstrzymuje obie. Jeśli to ta sama krowa, wykreśl ten wpis i zmień jej numer; jeśli inna, wykreśl go i wprowadź ją z jej własnym numerem urzędowym`,
    'doubt.dry-off-when-dry': (v, f) => `${v.cow} zasuszono ${f.time(v.at)}, a już była zasuszona`,
    'doubt.calved-in-milk': (v, f) =>
      `${v.cow} wycieliła się ${f.time(v.at)}, dając mleko: czy nie zapisano zasuszenia?`,
    'doubt.among-dry': (v, f) =>
      `${v.cow} według zapisów daje mleko, a od ${f.day(v.since)} stoi wśród zasuszonych w ${v.group}: zapisz zasuszenie i środek albo przenieś ją z powrotem`,
    'doubt.date-ahead': (v, f) =>
      `${v.cow} weszła do księgi ${f.time(v.at)} z datą ${v.what === 'dry-off' ? 'zasuszenia' : 'wycielenia'} ${f.day(v.day)}, która jeszcze nie nadeszła: jaka jest właściwa?`,
    'doubt.past-due': (v, f) =>
      `${v.cow} miała termin ${f.day(v.due)}, ${f.count(v.days, days)} temu, a wycielenia nie zapisano`,
    'doubt.calved-early': (v, f) =>
      `${v.cow} wycieliła się ${f.count(v.days, days)} przed terminem, ${f.day(v.due)}: wcześnie`,
    'doubt.sort-several-places': (v, f) => `${v.cow} oddzielić do ${f.list(v.places)}: dokąd?`,
    'doubt.strike-of-nothing': (v) => `Skreśla się wpis ${v.entry}, którego nie ma w księdze`,
    'doubt.strike-of-strike': (v) => `Skreśla się skreślenie ${v.entry}: wpisać poprawny wpis jeszcze raz`,
    'doubt.one-id-two-contents': (v) => `Dwa wpisy mają id ${v.id} i mówią co innego; liczą się oba`,
    'doubt.unknown-language': (v) => `Języka „${v.language}” nie ma w słowniku; arkusze drukują się po angielsku`,
    'doubt.number-in-use': (v, f) => `Numer ${v.number} nadano ponownie, ${f.time(v.at)}, a ma go inna krowa`,
    'doubt.two-labels': (v, f) =>
      `${v.medicine} jest na liście dwa razy o tej samej godzinie, ${f.time(v.at)}, z różnymi etykietami: obowiązuje dłuższa. Która jest właściwa? Wykreśl drugą`,
    'doubt.two-set-ups': (v, f) =>
      `Dane gospodarstwa wpisano dwa razy o tej samej godzinie, ${f.time(v.at)}, jedne i drugie od: ${f.day(v.from)}, i nie są takie same: obowiązuje to, co wstrzymuje dłużej. Które są właściwe? Wykreśl drugie`,
    'doubt.head-count': (v, f) => `${v.group}: naliczono ${v.count}, ${f.time(v.at)}, w księdze ${v.book}`,
    'doubt.no-farm': () =>
      'W tej księdze nie ma gospodarstwa: nie da się wyliczyć niczego, co zależy od jego dojów i zasad',
    'alert.late-news': (v, f) => {
      const what = `${v.cow} jest wstrzymana (${f.about(v.about)}, ${v.until === null ? 'koniec nieznany' : `do ${f.time(v.until)}`}) na dój ${f.milking(v.milking)}, a arkusz ${v.ref} tego nie mówił`;
      if (v.phase === 'before')
        return `${what}: ${v.saidHere === true ? 'te arkusze już to mówią: zdjąć stare' : 'wydać arkusze ponownie i zdjąć stare'}`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running' ? `${what}: zapytać, czy była dojona wcześniej. ${milk}` : `${what}. ${milk}`;
    },
    'alert.late-unplaced': (v, f) => {
      const what = `Nie wiadomo, która to krowa: ${f.about(v.about)}${v.number === '' ? '' : `, numer ${v.number}`}. Dotyczy doju ${f.milking(v.milking)}, a arkusz ${v.ref} tego nie mówił`;
      if (v.phase === 'before') return `${what}: wydać arkusze ponownie i zdjąć stare`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running'
        ? `${what}: zapytać, która to była i czy była dojona wcześniej. ${milk}`
        : `${what}. ${milk}`;
    },
    'alert.no-sheet': (v, f) =>
      `Dój ${f.milking(v.milking)} zaczął się bez arkusza wstrzymanego mleka, a wstrzymane były: ${f.list(v.cows)}. ${v.loads.map((load) => whereIsLoad(load, f)).join('; ')}`,
    'alert.tank-positive': (v, f) =>
      `Badanie pozostałości zbiornika ${v.tank} dodatnie, ${f.time(v.at)}: ${v.collectedAt === null ? 'mleko jeszcze jest: nie oddawać' : `odebrane ${f.time(v.collectedAt)}: dzwonić do odbiorcy`}. Doje w nim: ${v.milkings.length === 0 ? 'nieznane' : f.list(v.milkings.map((milking) => f.milking(milking)))}`,
    'alert.left-on-hold': (v, f) => {
      const until = (time: string | null) => (time === null ? 'koniec nieznany' : `do ${f.time(time)}`);
      const holds = [
        v.milk ? `karencja mleka, ${until(v.milkUntil)}` : '',
        v.meat ? `karencja mięsa, ${until(v.meatUntil)}` : '',
      ];
      return `${v.cow} wyszła ${f.day(v.left)} (${leftReasons[v.reason] ?? v.reason}); ${f.list(holds.filter(Boolean))}: zawiadomić kupującego na piśmie`;
    },
  },
  crew: {
    'hold.hours': () => '',
    'hold.milkings': () => '',
    'hold.hours-and-milkings': () => '',
    'hold.label-longer': () => '',
    'hold.course-running': (v) => `kuracja trwa, ${v.given} z ${v.of}`,
    'hold.dose-not-recorded': (v) => `dawka ${v.dose} z ${v.of} niezapisana: podano?`,
    'hold.not-listed': () => 'nie ma na liście: pytać',
    'hold.label-unknown': () => 'karencja nieznana: pytać',
    'hold.not-for-milking-cows': () => 'nie dla krów dojonych: pytać weterynarza',
    'hold.off-label-no-vet': () => 'poza etykietą, brak czasu od weterynarza: pytać',
    'hold.off-label-milkings-only': () => 'poza etykietą, brak czasu od weterynarza: pytać',
    'hold.vet': () => '',
    'hold.off-label-eu': () => '',
    'hold.dry-cow-until-calving': () => 'środek do zasuszania, od tego czasu bez wycielenia',
    'hold.dry-cow-after-calving': (v, f) => `środek do zasuszania, wycielenie ${f.calving(v)}`,
    'hold.dry-cow-early': (v, f) =>
      `środek do zasuszania, wycielenie za wcześnie, ${f.calving(v)}: pytać weterynarza, zbadać mleko`,
    'hold.dry-cow-milked-again': () => 'środek do zasuszania, znów dojona: pytać weterynarza',
    'hold.dry-cow-not-stated': () => 'środka do zasuszania nie podano: pytać',
    'hold.no-dry-off': () => 'zasuszenia nie zapisano, środka nie podano: pytać',
    'hold.back-from-dry': (v, f) =>
      `znów dojona, od ${f.day(v.since)} stała wśród zasuszonych bez zapisanego zasuszenia: zapytać, zbadać mleko`,
    'hold.fresh': (v, f) => `wycielenie ${f.calving(v)}`,
    'hold.fresh-not-set': (v, f) => `wycielenie ${f.calving(v)}, wstrzymanie nieustalone`,
    'hold.before-due': (v, f) => `termin wycielenia ${f.day(v.due)}`,
    'hold.set-by-person': (v, f) => `${v.reason}, od ${f.time(v.since)} (${v.author})`,
    'hold.residue-positive': (v, f) => `badanie pozostałości dodatnie, ${f.time(v.sampled)}`,
    'hold.entered-until': (v, f) => `przyszła wstrzymana do ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'przyszła bez słowa o karencji: pytać',
    'hold.entry-set-aside': () => 'wpisu o niej nie dało się użyć: pytać w biurze',
    'hold.dry-in-milked-group': (v) => `stoi w ${v.group}`,
    'hold.may-be-her': (v, f) => `może to numer ${v.number}: ${f.about(v.about)}`,
    'unplaced.set-aside': (v) =>
      v.cows.length === 0
        ? 'Wpisu nie dało się odczytać i nie podaje krowy: pytać w biurze, która to krowa'
        : 'Wpisu dla tego numeru nie dało się użyć, a takiej krowy w stadzie nie ma: pytać w biurze',
    'treat.due': (v, f) => `podać ${f.time(v.planned)}; ostatnia ${f.time(v.lastGiven)}`,
    'treat.overdue': (v, f) => `miała być ${f.time(v.planned)}; ostatnia zapisana ${f.time(v.lastGiven)}`,
    'sort.request': (v) => `${v.reason}${v.forWhom === null ? '' : `, dla: ${v.forWhom}`}`,
    'sort.fresh-move': () => 'ze świeżo wycielonych',
  },
  labels: {
    onlyFor: (when) => `Tylko: ${when}`,
    takeOldDown: 'Zdjąć stary arkusz.',
    replaces: (ref) => `Zastępuje ${ref}: tamten zdjąć.`,
    rehearsal: 'ĆWICZENIE: nie dla prawdziwych krów',
    notIssued: 'niewydany',
    printed: (time) => `wydruk ${time}`,
    page: (page, pages) => `Strona ${page} z ${pages}`,
    linesHere: (here, all) => `wierszy na tej stronie: ${here} z ${all}`,
    continued: 'ciąg dalszy',
    part: (part, parts) => `część ${part} z ${parts}`,
    book: 'księga',
    position: 'pozycja',
    root: 'korzeń',
    whenUnsure: 'W razie wątpliwości: mleko poza zbiornik i pytać.',
    cautions:
      'Stosować się do etykiety i weterynarza. Obowiązują przepisy miejscowe. Ten arkusz to rachunek z tego, co zapisano; nie zastępuje ani jednego, ani drugiego.',
    initials: 'podpis',
    medicine: 'lek',
    done: 'gotowe',
    byHand: 'Dopisane ręcznie po wydruku',
    byHandWhat: 'mleko osobno? dlaczego i kto powiedział',
    alerts: 'Alarmy',
    cow: 'krowa',
    group: 'grupa',
    why: 'dlaczego',
    since: 'od',
    until: 'do',
    noEndKnown: 'koniec nieznany',
    lastDose: (time) => `ostatnia dawka ${time}`,
    quarters: {
      'left-front': 'lewa przednia',
      'right-front': 'prawa przednia',
      'left-hind': 'lewa tylna',
      'right-hind': 'prawa tylna',
      'left-rear': 'lewa tylna',
      'right-rear': 'prawa tylna',
    },
    front: 'przód',
    leftLetter: 'L',
    rightLetter: 'P',
    milkHold: 'Mleko wstrzymane',
    milkOut: (n, f) =>
      f.count(n, {
        one: '# krowa: mleko poza zbiornik',
        few: '# krowy: mleko poza zbiornik',
        many: '# krów: mleko poza zbiornik',
        other: '# krowy: mleko poza zbiornik',
      }),
    noneHeld: 'Na tym doju żadna krowa nie ma wstrzymanego mleka.',
    noneHeldButFind: 'Żadna krowa stada nie ma wstrzymanego mleka, ale krowy u góry trzeba jeszcze znaleźć.',
    find: 'Znaleźć przed dojem',
    findHow: 'Do tego czasu: mleko każdej możliwej krowy zostaje poza zbiornikiem.',
    unreadable: 'bez numeru',
    dryAmongMilkers: 'Zasuszona wśród dojonych: nie do zbiornika',
    groupHeld: (group, n, f) => `${group}: wstrzymane ${f.number(n)}`,
    groupNone: (group) => `${group}: żadna wstrzymana`,
    wears: (mark) => `Każda nosi: ${mark}`,
    isNew: 'NOWA',
    milkTo: (place) => `mleko do: ${place}`,
    keepApart: 'mleko: nie do zbiornika',
    causes: {
      treated: 'Leczona',
      fresh: 'Świeżo wycielona',
      abnormal: 'Złe mleko',
      dry: 'Zasuszona',
      unknown: 'Nie wiadomo',
    },
    inTheTank: 'do zbiornika od',
    keepOut: 'NIE. Koniec nieznany: pytać',
    keepOutDry: 'NIE. Zasuszona: pytać',
    afterTime: (time) => `po ${time}`,
    milkingsLeft: (n, f) =>
      n === 1
        ? 'tylko ten dój'
        : f.count(n, { few: 'jeszcze # doje', many: 'jeszcze # dojów', other: 'jeszcze # doju' }),
    askFirst: 'Podano w czasie tego doju: zapytać, czy była dojona wcześniej',
    bandsOff: (n, f) => `Zdjąć opaski: ${f.count(n, cows)} wolne od ostatniego arkusza`,
    bandOff: 'opaska zdjęta',
    noneCleared: 'Zdjąć opaski: żadna od ostatniego arkusza.',
    freeSince: (time) => `wolna od ${time}`,
    notBefore: (time) => `nie przed ${time}`,
    gone: 'Na ostatnim arkuszu, nie na tym, i nie zwolnione',
    goneHow: {
      'dried-off': 'zasuszona',
      left: 'wyszła ze stada',
      struck: 'wpis skreślono: pytać przed zdjęciem opaski',
      'not-milked-now': 'jej grupa nie jest teraz dojona',
    },
    treatNow: (n, f) => `Leczyć teraz: ${f.count(n, doses)}`,
    noneToTreat: 'Leczyć teraz: na tym doju żadnej dawki.',
    dose: (dose, of) => `dawka ${dose} z ${of}`,
    amount: (value, unit) => `${value} ${unit}`,
    askBeforeGiving: 'ZALEGŁA: pytać przed podaniem',
    bandNoLine: 'Opaska, a nie ma na liście, albo na liście bez opaski: mleko poza zbiornik i pytać.',
    milkWentIn: 'Wstrzymane mleko w przewodzie lub zbiorniku? STOP. Nie oddawać. Nie płukać. Dzwonić:',
    dryOff: 'Zasuszanie',
    dryOffRule: 'Wydoić do końca. Oczyścić strzyki. Opaska przed wyjściem.',
    dryOffCount: (n, f) =>
      f.count(n, {
        one: '# krowa do zasuszenia',
        few: '# krowy do zasuszenia',
        many: '# krów do zasuszenia',
        other: '# krowy do zasuszenia',
      }),
    noneToDryOff: 'Żadna krowa nie jest do zasuszenia.',
    dryOffOn: (day) => `zasuszyć ${day}`,
    calvingDue: (day) => `termin wycielenia ${day}`,
    overdue: (n, f) => `ZALEGŁE o ${f.count(n, days)}`,
    product: 'środek',
    sealant: 'czop',
    band: 'opaska',
    quartersDone: 'ćwiartki, czop, opaska',
    undecided: 'Długo w laktacji, cielność niepotwierdzona: zdecydować',
    noneUndecided: 'Żadna krowa nie jest długo w laktacji bez potwierdzonej cielności.',
    daysInMilk: (n, f) => `${f.count(n, days)} laktacji`,
    decision: 'decyzja',
    freshMoves: 'Świeżo wycielone',
    movesOut: (n, f) => `Wychodzą ze świeżo wycielonych: ${f.count(n, cows)}`,
    noneOut: 'Ze świeżo wycielonych na tym doju nie wychodzi żadna.',
    goesTo: (group) => `do: ${group}`,
    from: (group) => `z: ${group}`,
    stays: 'Zostają w świeżo wycielonych',
    noneStay: 'Żadna nie zostaje w świeżo wycielonych.',
    comesIn: 'Wchodzą do świeżo wycielonych',
    noneIn: 'Żadna nie wchodzi do świeżo wycielonych.',
    pen: 'W kojcu: obejrzeć każdą',
    nonePen: 'Kojec świeżo wycielonych jest pusty.',
    calved: (time) => `wycielenie ${time}`,
    notCalved: 'brak zapisanego wycielenia',
    milkingsSince: (n, f) => `${f.count(n, milkings)} od tego czasu`,
    ease: (ease) => `przebieg ${ease}`,
    calf: (sex, alive, number) =>
      `${sex === 'female' ? 'cieliczka' : 'byczek'}${number === undefined ? '' : ` ${number}`}${alive ? '' : ', martwe'}`,
    temperature: 'temperatura',
    milkCheckedBy: 'mleko sprawdził',
    sort: 'Oddzielanie',
    sortCount: (n, f) =>
      f.count(n, {
        one: '# krowa do oddzielenia',
        few: '# krowy do oddzielenia',
        many: '# krów do oddzielenia',
        other: '# krowy do oddzielenia',
      }),
    noneToSort: 'Na tym doju nie oddziela się żadnej krowy.',
    to: (places) => `do: ${places}`,
    whereTo: 'dokąd',
    backTo: (group) => `wraca do: ${group}`,
    noPlace: 'miejsca nie podano: pytać',
    placesDiffer: 'kilka miejsc: pytać',
    cannotCome: 'Chciane, a nie przejdą',
    tally: (n, f) => `oddzielono: ______ z ${f.number(n)}`,
    counts: 'Liczenie',
    expected: 'powinno być',
    counted: 'naliczono',
    inMilk: 'dające mleko',
    held: 'wstrzymane',
    cameIn: 'przyszły',
    wentOut: 'odeszły',
    movements: 'Przyszły i odeszły od ostatniego liczenia',
    nobodyMoved: 'Od ostatniego liczenia żadna nie przyszła ani nie odeszła, a liczby się zgadzają.',
    allGroups: 'wszystkie grupy',
    lastCount: (n, when, difference, f) =>
      `ostatnie liczenie ${f.number(n)}${when === null ? '' : `, ${f.time(when)}`}: ${difference === 0 ? 'zgodne z księgą' : `o ${f.number(Math.abs(difference))} ${difference > 0 ? 'więcej' : 'mniej'} niż w księdze`}`,
    notMilkedNow: 'nie dojona o tej porze',
    capacity: (head) => `miejsc ${head}`,
    noGroups: 'Gospodarstwo nie ma grup w księdze.',
    plan: 'Plan doju',
    planTotal: (start, finish, duration) => `Początek ${start}, koniec około ${finish}, ${duration}`,
    nonePlanned: 'Na tym doju nie ma krów do doju.',
    order: 'kolejność',
    cows: 'krowy',
    turns: 'tury',
    start: 'początek',
    finish: 'koniec około',
    minutes: 'minuty',
    duration: (hours, minutes) => (hours === 0 ? `${minutes} min` : `${hours} h ${minutes} min`),
    slow: 'Wolne krowy: podłączać pierwsze',
    noneSlow: 'Wolnych krów nie stwierdzono.',
    before: 'Przed dojem',
    after: 'Po doju',
    footBath: 'KĄPIEL RACIC na tym doju',
    noFootBath: 'Bez kąpieli racic na tym doju.',
    beefHold: 'Karencja mięsa',
    beefRule: 'Żadna krowa z tej listy nie może iść na ubój.',
    beefCount: (n, f) =>
      f.count(n, {
        one: '# krowa z karencją mięsa',
        few: '# krowy z karencją mięsa',
        many: '# krów z karencją mięsa',
        other: '# krowy z karencją mięsa',
      }),
    noneBeefHeld: 'Żadna krowa nie ma karencji mięsa.',
    wall: 'Mleko wstrzymane i plan',
    office: 'Biuro',
    noAlerts: 'Brak alarmów.',
    doubts: 'Wątpliwości do wyjaśnienia',
    noDoubts: 'Brak wątpliwości.',
    dosesMissing: 'Dawki niezapisane',
    noDosesMissing: 'Wszystkie planowane dawki są zapisane.',
    notReturned: 'Arkusze niezwrócone',
    allReturned: 'Wszystkie arkusze zwrócone.',
    forTheVet: 'Dla weterynarza',
    nothingForTheVet: 'Nic nie czeka na weterynarza.',
    openEnded: 'Wstrzymane, dopóki ktoś nie powie więcej',
    nobodyOpenEnded: 'Żadna inna nie jest wstrzymana bez znanego końca.',
  },
};
