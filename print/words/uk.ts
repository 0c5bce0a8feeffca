/** Ukrainian. Wants a native reader of the trade before anybody relies on it. */
import type { MayBe, OffLabelCause, TankLoadSaid } from '../../projections/because.ts';
import type { Words } from './dictionary.ts';
import type { Format, Forms } from './format.ts';
import { keeperUk } from './keeper-uk.ts';
import { whyUk } from './why-uk.ts';

const days: Forms = { one: '# день', few: '# дні', many: '# днів', other: '# дня' };
const milkings: Forms = { one: '# доїння', few: '# доїння', many: '# доїнь', other: '# доїння' };
const doses: Forms = { one: '# доза', few: '# дози', many: '# доз', other: '# дози' };
const cows: Forms = { one: '# корова', few: '# корови', many: '# корів', other: '# корови' };

const causes: Record<OffLabelCause, string> = {
  said: 'записано як поза етикеткою',
  route: 'інший спосіб, ніж на етикетці',
  doses: 'більше доз, ніж на етикетці',
  interval: 'дози частіше, ніж на етикетці',
  age: 'старша за вік на етикетці',
  class: 'не для цієї групи тварин',
};

const leftReasons: Readonly<Record<string, string>> = {
  'sold-for-beef': 'продана на м’ясо',
  'sold-for-milking': 'продана на доїння',
  died: 'загинула',
  other: 'інша причина',
};

const offLabel = (list: readonly OffLabelCause[], f: Format): string => f.list(list.map((cause) => causes[cause]));

const mayBe = (number: string, how: MayBe, about: string, f: Format): string => {
  const what = `${f.about(about)}, записано на номер ${number}`;
  if (how === 'two-cows') return `${what}, який можуть мати дві корови`;
  if (how === 'leading-zeros') return `${what}, її номер без нулів попереду`;
  if (how === 'old-number') return `${what}, який раніше був її номером`;
  if (how === 'one-official-number') return `${what}, який має її офіційний номер і може бути цією коровою`;
  return `${what}, коли її не було в стаді`;
};

const lastDose = ({ planned }: { planned: boolean }): string => (planned ? 'остання доза за планом' : 'остання доза');

const ends = (time: string | null, f: Format): string =>
  time === null ? 'кінець ще не можна обчислити' : `кінець ${f.time(time)}`;

const afterCalving = (hours: number | null, count: number | null, f: Format): string =>
  [hours === null ? '' : f.hours(hours), count === null ? '' : f.count(count, milkings)].filter(Boolean).join(' і ');

const euBasis = (basis: 'one-and-a-half' | 'zero' | 'not-authorised', label: string, unauthorised: string): string => {
  if (basis === 'one-and-a-half') return `поза етикеткою, 1,5 × ${label} з етикетки`;
  return basis === 'zero' ? 'поза етикеткою, на етикетці нуль' : `поза етикеткою, ${unauthorised}`;
};

const whereIsLoad = (load: TankLoadSaid, f: Format): string =>
  load.collectedAt === null
    ? `Танк ${load.tank}: молоко ще тут, не відправляти, перевірити`
    : `Танк ${load.tank}: забрано ${f.time(load.collectedAt)}${load.ticket === null ? '' : ` (квитанція ${load.ticket})`}: дзвонити покупцеві`;

const notStated = (driedOff: string | null, f: Format): string =>
  `${driedOff === null ? 'прийшла сухостійною' : `запущена ${f.day(driedOff)}`}, а засіб для запуску не вказано; затримана, доки не вкажуть (або «none»)`;
const noDryOff = (v: { group: string; since: string }, f: Format): string =>
  `в ${v.group} від ${f.day(v.since)} без записаного запуску: засіб для запуску не вказано; затримана, доки не вкажуть (або «none»)`;
const courseRunning = (
  v: { medicine: string; given: number; of: number; plannedLast: string; ends: string | null },
  f: Format,
): string =>
  `${v.medicine}: дано дозу ${v.given} з ${v.of}, остання за планом ${f.time(v.plannedLast)}, далі етикетка: ${ends(v.ends, f)}`;
const labelLonger = (v: { medicine: string; listed: string; ends: string | null }, f: Format): string =>
  `${v.medicine}: ${f.time(v.listed)} внесено довшу етикетку, поки тривала затримка: ${ends(v.ends, f)}`;
const offLabelNoVet = (v: { medicine: string; causes: OffLabelCause[] }, f: Format): string =>
  `${v.medicine}, поза етикеткою (${offLabel(v.causes, f)}): немає часу від ветеринара; затримана, доки не внесуть`;
const notListed = (v: { medicine: string }): string =>
  `${v.medicine} немає в списку; затримана, доки не внесуть етикетку або час від ветеринара`;
const setAside = (v: { problem: string }): string =>
  `запис про неї не можна використати: ${v.problem}; затримана, доки хтось не з’ясує`;
const onHold = (until: string | null, f: Format): string =>
  until === null ? 'молоко затримане, кінець невідомий' : `молоко затримане до ${f.time(until)}`;

export const uk: Words = {
  locale: 'uk',
  clocksChange: 'між ними переводять годинник',
  milkingNames: { morning: 'ранок', noon: 'полудень', afternoon: 'день', evening: 'вечір', night: 'ніч' },
  kinds: {
    'farm-set-up': 'дані ферми',
    'medicine-listed': 'етикетка ліків',
    'medicine-received': 'надходження ліків',
    'medicine-disposed': 'списання ліків',
    'cow-entered': 'вхід у стадо',
    'number-changed': 'зміна номера',
    'cow-left': 'вибуття',
    calving: 'отелення',
    abortion: 'аборт',
    service: 'осіменіння',
    'pregnancy-check': 'перевірка тільності',
    'dry-off': 'запуск',
    treatment: 'лікування',
    'vet-hold-time': 'час від ветеринара',
    'course-ended': 'кінець курсу',
    'milk-hold': 'затримка молока',
    'milk-hold-lifted': 'кінець затримки',
    'milking-finished': 'кінець доїння',
    'tank-collection': 'забирання молока з танка',
    'sheet-returned': 'повернений набір аркушів',
    'sheet-issued': 'виданий набір аркушів',
    'book-continued': 'продовження книги',
    'residue-test': 'тест на залишки',
    'group-move': 'зміна групи',
    'sort-request': 'прохання відділити',
    'sort-done': 'відділено',
    'head-count': 'підрахунок',
    'milk-record': 'облік молока',
    'entry-struck': 'закреслений запис',
    settled: 'з’ясований сумнів',
  },
  keeper: { ...keeperUk, offLabelCauses: causes, leftReasons },
  says: {
    ...whyUk,
    'hold.hours': (v, f) => `${v.medicine}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.milkings, milkings)}${v.floorHours === null ? '' : `, не менше 12 год на доїння = ${f.hours(v.floorHours)}`}: ${ends(v.ends, f)}`,
    'hold.hours-and-milkings': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.hours(v.hours)} і ${f.count(v.milkings, milkings)}, що пізніше: ${ends(v.ends, f)}`,
    'hold.label-longer': labelLonger,
    'hold.course-running': courseRunning,
    'hold.dose-not-recorded': (v, f) =>
      `${v.medicine}: дозу ${v.dose} з ${v.of}${v.due === null ? '' : `, на ${f.milking(v.due)},`} не записано; затримана, доки не запишуть або не закінчать курс`,
    'hold.not-listed': notListed,
    'hold.label-unknown': (v) => `${v.medicine}: список не знає затримки молока; затримана, доки не внесуть етикетку`,
    'hold.not-for-milking-cows': (v) => `${v.medicine} не для дійних корів; затримана, доки ветеринар не дасть час`,
    'hold.off-label-no-vet': offLabelNoVet,
    'hold.off-label-milkings-only': (v, f) =>
      `${v.medicine}, поза етикеткою: на етикетці ${f.count(v.milkings, milkings)}, без годин; затримана, доки ветеринар не дасть час`,
    'hold.vet': (v, f) =>
      `${v.medicine}: час від ветеринара${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelHours === null ? 'час' : f.hours(v.labelHours), 'не дозволено для молочних тварин')}: ${lastDose(v)} ${f.sum(v.lastDose, v.hours, v.ends)}`,
    'hold.dry-cow-until-calving': (v, f) =>
      `${v.medicine}, засіб для запуску дано ${f.time(v.given)}: затримана до отелення, далі час з етикетки`,
    'hold.dry-cow-after-calving': (v, f) =>
      `${v.medicine}, засіб для запуску: отелення ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.dry-cow-early': (v, f) =>
      `${v.medicine}, дано ${f.time(v.given)}, отелення ${f.calving(v)}: раніше за мінімум засобу для запуску (${f.count(v.minimumDays, days)}): питати ветеринара, перевірити молоко; ${v.ends === null ? 'затримана до часу від ветеринара або чистого тесту' : ends(v.ends, f)}`,
    'hold.dry-cow-milked-again': (v, f) =>
      `${v.medicine}, засіб для запуску дано ${f.time(v.given)}, і знову доїться без отелення; затримана, доки ветеринар не дасть час`,
    'hold.dry-cow-not-stated': (v, f) => notStated(v.driedOff, f),
    'hold.no-dry-off': noDryOff,
    'hold.back-from-dry': (v, f) =>
      `у ${v.group} від ${f.day(v.since)} до ${f.day(v.back)} без записаного запуску, і знову доїться: чи давали їй засіб для запуску? Затримана до чистого тесту; викресліть переведення, якщо вона там не стояла`,
    'hold.fresh': (v, f) =>
      `новотільна: отелення ${f.calving(v)} + ${afterCalving(v.hours, v.milkings, f)}: ${ends(v.ends, f)}`,
    'hold.fresh-not-set': (v, f) =>
      `отелення ${f.calving(v)}: ферма не встановила затримку після отелення; затримана, доки не встановить`,
    'hold.before-due': (v, f) => `отелення очікують ${f.day(v.due)}, ще доїться менш як за ${f.count(v.days, days)}`,
    'hold.set-by-person': (v, f) => `«${v.reason}», від ${f.time(v.since)} (${v.author}), доки не знімуть`,
    'hold.residue-positive': (v, f) =>
      `тест на залишки позитивний${v.method === null ? '' : ` (${v.method})`}, проба ${f.time(v.sampled)}; затримана до чистого тесту`,
    'hold.entered-until': (v, f) => `внесена в книгу затриманою до ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'внесена в книгу без слова про затримку молока; затримана, доки не вкажуть',
    'hold.entry-set-aside': setAside,
    'hold.dry-in-milked-group': (v) => `сухостійна в ${v.group}: не в танк`,
    'hold.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: з’ясувати, яка це була корова`,
    'unplaced.not-in-herd': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: корови з цим номером не було. Знайти до доїння`,
    'unplaced.two-cows': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: може бути ${f.list(v.cows)}, усі затримані. З’ясувати до доїння`,
    'unplaced.leading-zeros': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: може бути ${f.list(v.mayBe)}, затримана. Знайти до доїння`,
    'unplaced.old-number': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}: цього номера тоді вже ніхто не мав; може бути ${f.list(v.mayBe)}, затримана. Знайти до доїння`,
    'unplaced.dose-struck': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, закреслено («${v.reason}»): яка корова це отримала?`,
    'unplaced.set-aside': (v, f) =>
      `Запис не можна використати, і ${v.cows.length === 0 ? 'корову в ньому не прочитати' : `в ньому ${f.list(v.cows)}, а такої корови в стаді немає`}: ${v.problem}`,
    'unplaced.left-on-hold': (v, f) =>
      `вибула ${f.day(v.left)} затриманою${v.until === null ? '' : ` до ${f.time(v.until)}`}. Якщо з’явиться, молоко окремо`,
    'treat.due': (v, f) => `остання ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = дати ${f.time(v.planned)}`,
    'treat.overdue': (v, f) =>
      `остання ${f.time(v.lastGiven)} + ${f.hours(v.everyHours)} = дати ${f.time(v.planned)}${v.due === null ? '' : `, ${f.milking(v.due)}`}, а не записано: спитати перед тим, як дати`,
    'dry-off.due': (v, f) =>
      `отелення очікують ${f.day(v.due)} − ${f.count(v.days, days)} сухостою = ${f.day(v.target)}${v.weekday === null ? '' : `; день запуску ${f.weekday(v.weekday)}: ${f.day(v.dryOffOn)}`}`,
    'dry-off.under-minimum': (v, f) =>
      `${f.count(v.daysLeft, days)} до отелення, менше за мінімум ${f.count(v.minimum, days)}`,
    'dry-off.product-minimum': (v, f) =>
      `${v.product} потребує ${f.count(v.minimum, days)} до отелення, лишилось ${f.number(v.daysLeft)}: питати ветеринара`,
    'dry-off.twins': () => 'двійня: може отелитись раніше',
    'dry-off.on-hold': (v, f) => onHold(v.until, f),
    'dry-off.no-service': () => 'за датою немає осіменіння: перевірити',
    'dry-off.not-confirmed': (v, f) =>
      `${f.count(v.daysInMilk, days)} лактації, понад ${f.number(v.limit)}, тільність не підтверджено`,
    'dry-off.no-due-date': () => 'тільна, дата отелення невідома',
    'fresh.out': (v, f) =>
      `отелення ${f.calving(v)}, ${f.hours(v.hours)} тому (треба ${f.hours(v.wanted)}), лактація ${v.lactation}, ніщо її не тримає`,
    'fresh.at-capacity': (v) => `${v.group} повна: ${v.head} разом із нею, місць ${v.capacity}`,
    'fresh.stay-hours': (v, f) => `отелення ${f.calving(v)}, ${f.hours(v.hours)} тому, треба ${f.hours(v.wanted)}`,
    'fresh.stay-on-hold': (v, f) => onHold(v.until, f),
    'fresh.stay-no-group': (v) => `жодна група не бере лактацію ${v.lactation}: скажіть куди`,
    'fresh.stay-hours-not-set': () => 'ферма не сказала, скільки лишаються новотільні',
    'fresh.stay-not-calved': () => 'ще не отелилась',
    'fresh.stay-calving-unknown': () => 'невідомо, коли отелилась',
    'fresh.in-calved': (v, f) => `отелення ${f.calving(v)}, досі в ${v.group}`,
    'fresh.in-due': (v, f) =>
      v.days < 0
        ? `чекали ${f.day(v.due)}, ${f.count(-v.days, days)} тому, в ${v.group}`
        : `чекають ${f.day(v.due)}, через ${f.count(v.days, days)}, в ${v.group}`,
    'sort.request': (v) =>
      `${v.reason}${v.forWhom === null ? '' : `, для: ${v.forWhom}`}${v.to === null ? '' : `, куди: ${v.to}`}`,
    'sort.dry-off': (v) => `запустити${v.product === null ? '' : `: ${v.product}`}`,
    'sort.fresh-move': (v) => `з новотільних, куди: ${v.to}`,
    'sort.dose': (v) => `лікувати: ${v.medicine}, доза ${v.dose} з ${v.of}`,
    'sort.cannot-dry': (v) => `сухостійна, в ${v.group}: через зал не пройде`,
    'sort.cannot-left': (v, f) => `вибула ${f.day(v.left)}`,
    'sort.cannot-unknown': () => 'корови з цим номером немає',
    'sort.cannot-not-milked': (v) => `${v.group} цього разу не доять`,
    'meat.days': (v, f) =>
      `${v.medicine}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} (${f.count(v.doses, doses)}) = ${f.time(v.ends)}`,
    'meat.off-label-eu': (v, f) =>
      `${v.medicine}, ${euBasis(v.basis, v.labelDays === null ? 'час' : f.count(v.labelDays, days), 'не дозволено для забійних тварин')}: ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.vet': (v, f) =>
      `${v.medicine}: час від ветеринара${v.prescribedBy === null ? '' : ` (${v.prescribedBy})`}, ${lastDose(v)} ${f.time(v.lastDose)} + ${f.count(v.days, days)} = ${f.time(v.ends)}`,
    'meat.unknown': (v) => `${v.medicine}: список не знає затримки м’яса; затримана, доки не внесуть`,
    'meat.not-listed': notListed,
    'meat.off-label-no-vet': offLabelNoVet,
    'meat.course-running': courseRunning,
    'meat.dose-not-recorded': (v) =>
      `${v.medicine}: дозу ${v.dose} з ${v.of} не записано; затримана, доки не запишуть або не закінчать курс`,
    'meat.label-longer': labelLonger,
    'meat.after-calving': (v, f) =>
      `${v.medicine}, засіб для запуску: отелення ${f.sum(v.calved, v.hours, v.ends, v.calvedOn)}`,
    'meat.product-not-stated': (v, f) => notStated(v.driedOff, f),
    'meat.no-dry-off': noDryOff,
    'meat.back-from-dry': (v, f) =>
      `у ${v.group} від ${f.day(v.since)} до ${f.day(v.back)} без записаного запуску: не сказано, чи давали їй засіб для запуску; викресліть переведення, якщо вона там не стояла`,
    'meat.entered-until': (v, f) => `внесена в книгу з затримкою м’яса до ${f.time(v.until)}`,
    'meat.entered-unknown': () => 'внесена в книгу без слова про затримку м’яса; затримана, доки не вкажуть',
    'meat.entry-set-aside': setAside,
    'meat.may-be-her': (v, f) => `${mayBe(v.number, v.how, v.about, f)}: з’ясувати, яка це була корова`,
    'doubt.unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, називає ${v.number}, якої не було в стаді: яка це корова?`,
    'doubt.two-cows': (v, f) => `Номер ${v.number} може означати ${f.list(v.cows)}: котру?`,
    'doubt.leading-zeros': (v, f) =>
      `Номер ${v.number} збігається з ${f.list(v.mayBe)} лише без нулів попереду: це вона?`,
    'doubt.struck-unplaced': (v, f) =>
      `${f.about(v.about)}, ${f.time(v.at)}, на ${v.number} закреслено, не сказавши, що правда: яка корова це отримала?`,
    'doubt.set-aside': (v, f) =>
      `Запис не можна використати: ${v.problem}${v.cows.length === 0 ? '; корову в ньому не прочитати' : `; через нього затримані: ${f.list(v.cows)}`}`,
    'doubt.milk-not-stated': (v) =>
      `${v.cow}, в ${v.group}, не має в книзі ні отелення, ні запуску: чи доїться? Вважаємо, що так`,
    'doubt.vet-time-not-longer': (v, f) =>
      `${v.cow}, ${v.medicine}: ${f.hours(v.vetHours)} від ветеринара не довші за етикетку${v.labelHours === null ? '' : ` (${f.hours(v.labelHours)})`}; діє етикетка`,
    'doubt.vet-time-unplaced': (v) => `Час від ветеринара називає лікування ${v.treatment}, якого немає в книзі`,
    'doubt.vet-time-elsewhere': (v, f) =>
      `Час від ветеринара записано на ${v.number}, але лікування, яке він називає, ${f.about(v.about)}, ${f.time(v.at)}, записано на ${v.of}: він може лише подовжити те утримання. Яку корову мав на увазі ветеринар?`,
    'doubt.both-still-wanted': (v) => `${v.cow} на курсі ${v.course} і отримала ${v.other}: чи потрібні обидва?`,
    'doubt.dose-not-recorded': (v) => `${v.cow}, ${v.medicine}: дозу ${v.dose} з ${v.of} не записано: чи дали?`,
    'doubt.retired-medicine': (v) => `${v.cow} отримала ${v.medicine}, якого вже немає в списку`,
    'doubt.two-groups': (v, f) => `${v.cow} поставили одночасно в ${f.list(v.groups)}, ${f.time(v.at)}: де вона?`,
    'doubt.unknown-group': (v) => `${v.cow} поставили в ${v.group}, такої групи немає`,
    'doubt.after-leaving': (v, f) => `${v.cow}: ${f.about(v.about)}, ${f.time(v.at)}, хоча вибула ${f.day(v.left)}`,
    'doubt.after-renumbering': (v, f) =>
      `${v.number}: ${f.about(v.about)}, ${f.time(v.at)}, хоча корова з цим номером тоді вже мала номер ${v.cow}: це вона?`,
    'doubt.entered-again': (v, f) =>
      `Номер ${v.number} внесли ${f.time(v.at)} з офіційним номером корови ${f.list(v.cows)}, яка тут: що затримує одну, затримує обидві. Якщо це та сама корова, викресліть цей запис і змініть її номер; якщо інша, викресліть його і внесіть її з її власним офіційним номером`,
    'doubt.dry-off-when-dry': (v, f) => `${v.cow} запущена ${f.time(v.at)}, а вже була сухостійна`,
    'doubt.calved-in-milk': (v, f) => `${v.cow} отелилась ${f.time(v.at)}, коли доїлась: чи не записали запуск?`,
    'doubt.among-dry': (v, f) =>
      `${v.cow} за записами доїться, а від ${f.day(v.since)} стоїть серед сухостійних у ${v.group}: запишіть запуск і засіб або переведіть її назад`,
    'doubt.date-ahead': (v, f) =>
      `${v.cow} внесена в книгу ${f.time(v.at)} з датою ${v.what === 'dry-off' ? 'запуску' : 'отелення'} ${f.day(v.day)}, яка ще не настала: яка правильна?`,
    'doubt.past-due': (v, f) =>
      `${v.cow} мала отелитись ${f.day(v.due)}, ${f.count(v.days, days)} тому, а отелення не записано`,
    'doubt.calved-early': (v, f) => `${v.cow} отелилась на ${f.count(v.days, days)} раніше дати, ${f.day(v.due)}: рано`,
    'doubt.sort-several-places': (v, f) => `${v.cow} відділити до ${f.list(v.places)}: куди?`,
    'doubt.strike-of-nothing': (v) => `Закреслюють запис ${v.entry}, якого немає в книзі`,
    'doubt.strike-of-strike': (v) => `Закреслюють закреслення ${v.entry}: внесіть правильний запис ще раз`,
    'doubt.one-id-two-contents': (v) => `Два записи мають id ${v.id} і кажуть різне; рахуються обидва`,
    'doubt.unknown-language': (v) => `Мови «${v.language}» немає в словнику; аркуші друкуються англійською`,
    'doubt.number-in-use': (v, f) => `Номер ${v.number} дали знову, ${f.time(v.at)}, а його має інша корова`,
    'doubt.two-labels': (v, f) =>
      `${v.medicine} у списку двічі на той самий час, ${f.time(v.at)}, з різними етикетками: діє довша. Яка правильна? Викресліть іншу`,
    'doubt.two-set-ups': (v, f) =>
      `Дані ферми внесено двічі на той самий час, ${f.time(v.at)}, одні й другі від: ${f.day(v.from)}, і вони різні: діє те, що затримує довше. Які правильні? Викресліть інші`,
    'doubt.head-count': (v, f) => `${v.group}: нараховано ${v.count}, ${f.time(v.at)}, у книзі ${v.book}`,
    'doubt.no-farm': () => 'У цій книзі немає ферми: нічого, що залежить від її доїнь чи правил, не обчислити',
    'alert.late-news': (v, f) => {
      const what = `${v.cow} затримана (${f.about(v.about)}, ${v.until === null ? 'кінець невідомий' : `до ${f.time(v.until)}`}) на доїння ${f.milking(v.milking)}, а аркуш ${v.ref} цього не казав`;
      if (v.phase === 'before')
        return `${what}: ${v.saidHere === true ? 'ці аркуші вже це кажуть: зніміть старі' : 'видайте аркуші знову і зніміть старі'}`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running' ? `${what}: спитайте, чи її доїли раніше. ${milk}` : `${what}. ${milk}`;
    },
    'alert.late-unplaced': (v, f) => {
      const what = `Невідомо, яка це корова: ${f.about(v.about)}${v.number === '' ? '' : `, номер ${v.number}`}. Це стосується доїння ${f.milking(v.milking)}, а аркуш ${v.ref} цього не казав`;
      if (v.phase === 'before') return `${what}: видайте аркуші знову і зніміть старі`;
      const milk = v.loads.map((load) => whereIsLoad(load, f)).join('; ');
      return v.phase === 'running'
        ? `${what}: спитайте, яка це була і чи її доїли раніше. ${milk}`
        : `${what}. ${milk}`;
    },
    'alert.no-sheet': (v, f) =>
      `Доїння ${f.milking(v.milking)} почалося без аркуша затриманого молока, а затримані були: ${f.list(v.cows)}. ${v.loads.map((load) => whereIsLoad(load, f)).join('; ')}`,
    'alert.tank-positive': (v, f) =>
      `Тест на залишки танка ${v.tank} позитивний, ${f.time(v.at)}: ${v.collectedAt === null ? 'молоко ще тут: не відправляти' : `забрано ${f.time(v.collectedAt)}: дзвонити покупцеві`}. Доїння в ньому: ${v.milkings.length === 0 ? 'невідомі' : f.list(v.milkings.map((milking) => f.milking(milking)))}`,
    'alert.left-on-hold': (v, f) => {
      const until = (time: string | null) => (time === null ? 'кінець невідомий' : `до ${f.time(time)}`);
      const holds = [
        v.milk ? `затримка молока, ${until(v.milkUntil)}` : '',
        v.meat ? `затримка м’яса, ${until(v.meatUntil)}` : '',
      ];
      return `${v.cow} вибула ${f.day(v.left)} (${leftReasons[v.reason] ?? v.reason}); ${f.list(holds.filter(Boolean))}: повідомити покупця письмово`;
    },
  },
  crew: {
    'hold.hours': () => '',
    'hold.milkings': () => '',
    'hold.hours-and-milkings': () => '',
    'hold.label-longer': () => '',
    'hold.course-running': (v) => `курс триває, ${v.given} з ${v.of}`,
    'hold.dose-not-recorded': (v) => `дозу ${v.dose} з ${v.of} не записано: дали?`,
    'hold.not-listed': () => 'немає в списку: питати',
    'hold.label-unknown': () => 'затримка невідома: питати',
    'hold.not-for-milking-cows': () => 'не для дійних корів: питати ветеринара',
    'hold.off-label-no-vet': () => 'поза етикеткою, немає часу від ветеринара: питати',
    'hold.off-label-milkings-only': () => 'поза етикеткою, немає часу від ветеринара: питати',
    'hold.vet': () => '',
    'hold.off-label-eu': () => '',
    'hold.dry-cow-until-calving': () => 'засіб для запуску, відтоді не телилась',
    'hold.dry-cow-after-calving': (v, f) => `засіб для запуску, отелення ${f.calving(v)}`,
    'hold.dry-cow-early': (v, f) =>
      `засіб для запуску, отелилась зарано, ${f.calving(v)}: питати ветеринара, перевірити молоко`,
    'hold.dry-cow-milked-again': () => 'засіб для запуску, знову доїться: питати ветеринара',
    'hold.dry-cow-not-stated': () => 'засіб для запуску не вказано: питати',
    'hold.no-dry-off': () => 'запуск не записано, засіб не вказано: питати',
    'hold.back-from-dry': (v, f) =>
      `знову доїться, від ${f.day(v.since)} стояла серед сухостійних без записаного запуску: запитати, перевірити молоко`,
    'hold.fresh': (v, f) => `отелення ${f.calving(v)}`,
    'hold.fresh-not-set': (v, f) => `отелення ${f.calving(v)}, затримку не встановлено`,
    'hold.before-due': (v, f) => `отелення очікують ${f.day(v.due)}`,
    'hold.set-by-person': (v, f) => `${v.reason}, від ${f.time(v.since)} (${v.author})`,
    'hold.residue-positive': (v, f) => `тест на залишки позитивний, ${f.time(v.sampled)}`,
    'hold.entered-until': (v, f) => `прийшла затриманою до ${f.time(v.until)}`,
    'hold.entered-unknown': () => 'прийшла без слова про затримку: питати',
    'hold.entry-set-aside': () => 'запис про неї не можна використати: питати в конторі',
    'hold.dry-in-milked-group': (v) => `стоїть у ${v.group}`,
    'hold.may-be-her': (v, f) => `може бути номер ${v.number}: ${f.about(v.about)}`,
    'unplaced.set-aside': (v) =>
      v.cows.length === 0
        ? 'Запис не прочитати, і корови в ньому немає: питати в конторі, яка це корова'
        : 'Запис про цей номер не можна використати, а такої корови в стаді немає: питати в конторі',
    'treat.due': (v, f) => `дати ${f.time(v.planned)}; остання ${f.time(v.lastGiven)}`,
    'treat.overdue': (v, f) => `мали дати ${f.time(v.planned)}; остання записана ${f.time(v.lastGiven)}`,
    'sort.request': (v) => `${v.reason}${v.forWhom === null ? '' : `, для: ${v.forWhom}`}`,
    'sort.fresh-move': () => 'з новотільних',
  },
  labels: {
    onlyFor: (when) => `Тільки: ${when}`,
    takeOldDown: 'Зніміть старий аркуш.',
    replaces: (ref) => `Замінює ${ref}: той зніміть.`,
    rehearsal: 'НАВЧАННЯ: не для справжніх корів',
    notIssued: 'не видано',
    printed: (time) => `друк ${time}`,
    page: (page, pages) => `Сторінка ${page} з ${pages}`,
    linesHere: (here, all) => `рядків на сторінці: ${here} з ${all}`,
    continued: 'далі',
    part: (part, parts) => `частина ${part} з ${parts}`,
    book: 'книга',
    position: 'позиція',
    root: 'корінь',
    whenUnsure: 'Коли сумніваєтесь: молоко не в танк, і питайте.',
    cautions:
      'Дотримуйтесь етикетки й ветеринара. Діють місцеві правила. Цей аркуш — лише підрахунок із записаного; він не замінює ні того, ні того.',
    initials: 'підпис',
    medicine: 'ліки',
    done: 'готово',
    byHand: 'Дописано рукою після друку',
    byHandWhat: 'молоко окремо? чому і хто сказав',
    alerts: 'Тривоги',
    cow: 'корова',
    group: 'група',
    why: 'чому',
    since: 'від',
    until: 'до',
    noEndKnown: 'кінець невідомий',
    lastDose: (time) => `остання доза ${time}`,
    quarters: {
      'left-front': 'ліва передня',
      'right-front': 'права передня',
      'left-hind': 'ліва задня',
      'right-hind': 'права задня',
      'left-rear': 'ліва задня',
      'right-rear': 'права задня',
    },
    front: 'перед',
    leftLetter: 'Л',
    rightLetter: 'П',
    milkHold: 'Молоко затримане',
    milkOut: (n, f) =>
      f.count(n, {
        one: '# корова: молоко не в танк',
        few: '# корови: молоко не в танк',
        many: '# корів: молоко не в танк',
        other: '# корови: молоко не в танк',
      }),
    noneHeld: 'На цьому доїнні жодної корови із затриманим молоком.',
    noneHeldButFind: 'Жодної корови стада із затриманим молоком, але корів угорі ще треба знайти.',
    find: 'Знайти до доїння',
    findHow: 'Доти: молоко кожної можливої корови лишається не в танку.',
    unreadable: 'без номера',
    dryAmongMilkers: 'Сухостійна серед дійних: не в танк',
    groupHeld: (group, n, f) => `${group}: затримано ${f.number(n)}`,
    groupNone: (group) => `${group}: жодної затриманої`,
    wears: (mark) => `Кожна має: ${mark}`,
    isNew: 'НОВА',
    milkTo: (place) => `молоко: ${place}`,
    keepApart: 'молоко: не в танк',
    causes: {
      treated: 'Лікована',
      fresh: 'Новотільна',
      abnormal: 'Погане молоко',
      dry: 'Сухостійна',
      unknown: 'Невідомо',
    },
    inTheTank: 'в танк від',
    keepOut: 'НЕ В ТАНК. Кінець невідомий: питати',
    keepOutDry: 'НЕ В ТАНК. Сухостійна: питати',
    afterTime: (time) => `після ${time}`,
    milkingsLeft: (n, f) =>
      n === 1
        ? 'лише це доїння'
        : f.count(n, { one: 'ще # доїння', few: 'ще # доїння', many: 'ще # доїнь', other: 'ще # доїння' }),
    askFirst: 'Дано під час цього доїння: спитати, чи її доїли раніше',
    bandsOff: (n, f) => `Зняти стрічки: ${f.count(n, cows)} вільні від останнього аркуша`,
    bandOff: 'стрічку знято',
    noneCleared: 'Зняти стрічки: жодної від останнього аркуша.',
    freeSince: (time) => `вільна від ${time}`,
    notBefore: (time) => `не раніше ${time}`,
    gone: 'На останньому аркуші, не на цьому, і не звільнені',
    goneHow: {
      'dried-off': 'запущена',
      left: 'вибула зі стада',
      struck: 'запис закреслено: питати, перш ніж зняти стрічку',
      'not-milked-now': 'її групу зараз не доять',
    },
    treatNow: (n, f) => `Лікувати зараз: ${f.count(n, doses)}`,
    noneToTreat: 'Лікувати зараз: на цьому доїнні жодної дози.',
    dose: (dose, of) => `доза ${dose} з ${of}`,
    amount: (value, unit) => `${value} ${unit}`,
    askBeforeGiving: 'ПРОСТРОЧЕНО: спитати перед тим, як дати',
    bandNoLine: 'Стрічка є, а в списку немає, або в списку без стрічки: молоко не в танк, і питайте.',
    milkWentIn: 'Затримане молоко в лінії чи танку? СТОП. Не відправляти. Не мити. Дзвонити:',
    dryOff: 'Запуск',
    dryOffRule: 'Видоїти повністю. Очистити дійки. Стрічку вдягти, перш ніж піде.',
    dryOffCount: (n, f) =>
      f.count(n, {
        one: '# корова на запуск',
        few: '# корови на запуск',
        many: '# корів на запуск',
        other: '# корови на запуск',
      }),
    noneToDryOff: 'Жодної корови на запуск.',
    dryOffOn: (day) => `запустити ${day}`,
    calvingDue: (day) => `отелення очікують ${day}`,
    overdue: (n, f) => `ПРОСТРОЧЕНО на ${f.count(n, days)}`,
    product: 'засіб',
    sealant: 'герметик',
    band: 'стрічка',
    quartersDone: 'чверті, герметик, стрічка',
    undecided: 'Довго доїться, тільність не підтверджено: вирішити',
    noneUndecided: 'Жодна корова не доїться довго без підтвердженої тільності.',
    daysInMilk: (n, f) => `${f.count(n, days)} лактації`,
    decision: 'рішення',
    freshMoves: 'Новотільні',
    movesOut: (n, f) => `Ідуть з новотільних: ${f.count(n, cows)}`,
    noneOut: 'З новотільних на цьому доїнні не йде жодна.',
    goesTo: (group) => `до: ${group}`,
    from: (group) => `з: ${group}`,
    stays: 'Лишаються в новотільних',
    noneStay: 'Жодна не лишається в новотільних.',
    comesIn: 'Заходять у новотільні',
    noneIn: 'Жодна не заходить у новотільні.',
    pen: 'У загоні: оглянути кожну',
    nonePen: 'Загін новотільних порожній.',
    calved: (time) => `отелення ${time}`,
    notCalved: 'отелення не записано',
    milkingsSince: (n, f) => `${f.count(n, milkings)} відтоді`,
    ease: (ease) => `легкість ${ease}`,
    calf: (sex, alive, number) =>
      `${sex === 'female' ? 'теличка' : 'бичок'}${number === undefined ? '' : ` ${number}`}${alive ? '' : ', мертве'}`,
    temperature: 'температура',
    milkCheckedBy: 'молоко перевірив',
    sort: 'Відділення',
    sortCount: (n, f) =>
      f.count(n, {
        one: '# корову відділити',
        few: '# корови відділити',
        many: '# корів відділити',
        other: '# корови відділити',
      }),
    noneToSort: 'На цьому доїнні нікого не відділяють.',
    to: (places) => `до: ${places}`,
    whereTo: 'куди',
    backTo: (group) => `назад до: ${group}`,
    noPlace: 'місце не вказано: питати',
    placesDiffer: 'кілька місць: питати',
    cannotCome: 'Просили, а не пройдуть',
    tally: (n, f) => `відділено: ______ з ${f.number(n)}`,
    counts: 'Підрахунок',
    expected: 'має бути',
    counted: 'нараховано',
    inMilk: 'дійних',
    held: 'затримано',
    cameIn: 'прийшли',
    wentOut: 'пішли',
    movements: 'Прийшли й пішли від останнього підрахунку',
    nobodyMoved: 'Від останнього підрахунку ніхто не прийшов і не пішов, і числа збігаються.',
    allGroups: 'усі групи',
    lastCount: (n, when, difference, f) =>
      `останній підрахунок ${f.number(n)}${when === null ? '' : `, ${f.time(when)}`}: ${difference === 0 ? 'збігся з книгою' : `на ${f.number(Math.abs(difference))} ${difference > 0 ? 'більше' : 'менше'}, ніж у книзі`}`,
    notMilkedNow: 'цього разу не доять',
    capacity: (head) => `місць ${head}`,
    noGroups: 'Ферма не має груп у книзі.',
    plan: 'План доїння',
    planTotal: (start, finish, duration) => `Початок ${start}, кінець близько ${finish}, ${duration}`,
    nonePlanned: 'На цьому доїнні немає кого доїти.',
    order: 'порядок',
    cows: 'корови',
    turns: 'заходи',
    start: 'початок',
    finish: 'кінець близько',
    minutes: 'хвилини',
    duration: (hours, minutes) => (hours === 0 ? `${minutes} хв` : `${hours} год ${minutes} хв`),
    slow: 'Повільні корови: під’єднувати першими',
    noneSlow: 'Повільних корів не відомо.',
    before: 'Перед доїнням',
    after: 'Після доїння',
    footBath: 'ВАННА ДЛЯ РАТИЦЬ на цьому доїнні',
    noFootBath: 'Без ванни для ратиць на цьому доїнні.',
    beefHold: 'Затримка м’яса',
    beefRule: 'Жодна корова з цього списку не йде на забій.',
    beefCount: (n, f) =>
      f.count(n, {
        one: '# корова із затримкою м’яса',
        few: '# корови із затримкою м’яса',
        many: '# корів із затримкою м’яса',
        other: '# корови із затримкою м’яса',
      }),
    noneBeefHeld: 'Жодної корови із затримкою м’яса.',
    wall: 'Затримане молоко і план',
    office: 'Контора',
    noAlerts: 'Тривог немає.',
    doubts: 'Сумніви, які треба з’ясувати',
    noDoubts: 'Сумнівів немає.',
    dosesMissing: 'Незаписані дози',
    noDosesMissing: 'Усі заплановані дози записано.',
    notReturned: 'Неповернуті аркуші',
    allReturned: 'Усі аркуші повернуто.',
    forTheVet: 'Для ветеринара',
    nothingForTheVet: 'Ніщо не чекає на ветеринара.',
    openEnded: 'Затримані, доки хтось не скаже більше',
    nobodyOpenEnded: 'Жодну іншу не затримано без відомого кінця.',
  },
};
