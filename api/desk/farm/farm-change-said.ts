/** The set-up in force, and what a change of it would do, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const farmChangeSaid = {
  'The farm': { es: 'La explotación', fr: 'L’exploitation', pl: 'Gospodarstwo', uk: 'Ферма' },
  'The set-up is written down.': {
    es: 'Los ajustes están anotados.',
    fr: 'Les réglages sont notés.',
    pl: 'Ustawienia są zapisane.',
    uk: 'Налаштування записано.',
  },
  'No cow is in the book yet: <a>go on with setting up</a>.': {
    es: 'Aún no hay ninguna vaca en el libro: <a>siga con la preparación</a>.',
    fr: 'Aucune vache n’est encore dans le livre : <a>continuez la mise en place</a>.',
    pl: 'W księdze nie ma jeszcze żadnej krowy: <a>przygotowuj dalej</a>.',
    uk: 'У книзі ще немає жодної корови: <a>налаштовуйте далі</a>.',
  },
  'Not in force yet': {
    es: 'Aún no en vigor',
    fr: 'Pas encore en vigueur',
    pl: 'Jeszcze nie obowiązuje',
    uk: 'Ще не чинне',
  },
  'From {day}': { es: 'Desde el {day}', fr: 'À partir du {day}', pl: 'Od: {day}', uk: 'Від: {day}' },
  'In force': { es: 'En vigor', fr: 'En vigueur', pl: 'Obowiązuje', uk: 'Чинне' },
  'In force since {day}': {
    es: 'En vigor desde el {day}',
    fr: 'En vigueur depuis le {day}',
    pl: 'Obowiązuje od: {day}',
    uk: 'Чинне від: {day}',
  },
  'Change the set-up': {
    es: 'Cambiar los ajustes',
    fr: 'Changer les réglages',
    pl: 'Zmień ustawienia',
    uk: 'Змінити налаштування',
  },
  'The manager changes it.': {
    es: 'Los cambia la persona encargada.',
    fr: 'C’est le responsable qui les change.',
    pl: 'Zmienia je kierownik.',
    uk: 'Їх змінює керівник.',
  },
  'Every change is written down and stays readable. You see what it does to the cows before it is saved.': {
    es: 'Cada cambio se anota y se puede seguir leyendo. Antes de guardarlo verá qué les hace a las vacas.',
    fr: 'Chaque changement est noté et reste lisible. Vous voyez ce qu’il fait aux vaches avant qu’il soit enregistré.',
    pl: 'Każda zmiana jest zapisana i pozostaje do odczytania. Zanim ją zapiszesz, zobaczysz, co zrobi z krowami.',
    uk: 'Кожну зміну записано, і її завжди можна прочитати. Перш ніж зберегти, ви побачите, що вона робить із коровами.',
  },
  'See what it changes': {
    es: 'Ver qué cambia',
    fr: 'Voir ce qui change',
    pl: 'Zobacz, co się zmieni',
    uk: 'Побачити, що зміниться',
  },
  'It counts from': { es: 'Cuenta desde', fr: 'Compte à partir du', pl: 'Liczy się od', uk: 'Діє від' },
  'From the first milking of that date; the days before keep the rules they had': {
    es: 'Desde el primer ordeño de esa fecha; los días anteriores conservan las reglas que tenían',
    fr: 'Dès la première traite de cette date ; les jours d’avant gardent leurs règles',
    pl: 'Od pierwszego doju tego dnia; dni wcześniejsze zachowują swoje reguły',
    uk: 'Від першого доїння тієї дати; попередні дні зберігають свої правила',
  },
  'While you filled this in, the set-up was changed by somebody else ({what}). What you typed is still here and would undo that where it differs; look at it, then save again':
    {
      es: 'Mientras usted rellenaba esto, otra persona cambió los ajustes ({what}). Lo que escribió sigue aquí y desharía ese cambio donde difiera; mírelo y guarde de nuevo',
      fr: 'Pendant que vous remplissiez ceci, quelqu’un d’autre a changé les réglages ({what}). Ce que vous avez écrit est encore là et déferait cela où il en diffère ; regardez-le, puis enregistrez de nouveau',
      pl: 'Gdy to wypełniałeś, ktoś inny zmienił ustawienia ({what}). To, co wpisałeś, nadal tu jest i cofnęłoby tamto tam, gdzie się różni; obejrzyj to i zapisz ponownie',
      uk: 'Поки ви це заповнювали, налаштування змінив хтось інший ({what}). Те, що ви ввели, досі тут і скасувало б ту зміну там, де різниться; погляньте й збережіть ще раз',
    },
  'from another date': {
    es: 'desde otra fecha',
    fr: 'à partir d’une autre date',
    pl: 'od innej daty',
    uk: 'від іншої дати',
  },
  'Nothing is said otherwise than before.': {
    es: 'Nada se dice de otro modo que antes.',
    fr: 'Rien n’est dit autrement qu’avant.',
    pl: 'Wszystko jest tak jak przedtem.',
    uk: 'Усе так само, як було.',
  },
  'What is said otherwise': {
    es: 'Lo que cambia',
    fr: 'Ce qui est dit autrement',
    pl: 'Co jest inaczej',
    uk: 'Що тепер інакше',
  },
  'What is said otherwise, the table': {
    es: 'Lo que cambia, la tabla',
    fr: 'Ce qui est dit autrement, le tableau',
    pl: 'Co jest inaczej, tabela',
    uk: 'Що тепер інакше, таблиця',
  },
  Before: { es: 'Antes', fr: 'Avant', pl: 'Przedtem', uk: 'До' },
  After: { es: 'Después', fr: 'Après', pl: 'Potem', uk: 'Після' },
  'not there': { es: 'no estaba', fr: 'absent', pl: 'nie było', uk: 'не було' },
  'taken away': { es: 'quitado', fr: 'ôté', pl: 'usunięte', uk: 'прибрано' },
  'Nothing is saved yet. The new set-up would count from {day}.': {
    es: 'Todavía no se ha guardado nada. Los ajustes nuevos contarían desde el {day}.',
    fr: 'Rien n’est encore enregistré. Les nouveaux réglages compteraient à partir du {day}.',
    pl: 'Nic jeszcze nie zapisano. Nowe ustawienia liczyłyby się od: {day}.',
    uk: 'Ще нічого не збережено. Нові налаштування діяли б від: {day}.',
  },
  '{day} has passed: the milkings since then are worked out anew, and so are the holds that count milkings. Sheets that were issued stay as they were printed.':
    {
      es: 'El {day} ya pasó: los ordeños desde entonces se calculan de nuevo, y también las retenciones que cuentan ordeños. Las hojas emitidas quedan como se imprimieron.',
      fr: 'Le {day} est passé : les traites depuis lors sont recalculées, et les retenues qui comptent des traites aussi. Les feuilles émises restent comme imprimées.',
      pl: '{day} już minął: doje od tego dnia są liczone na nowo, tak samo wstrzymania liczone w dojach. Wydane arkusze zostają tak, jak je wydrukowano.',
      uk: '{day}: цей день минув, доїння від нього рахуються заново, і затримки, що лічать доїння, теж. Видані аркуші лишаються такими, як надруковано.',
    },
  'It counts from today on: a milking of today that was moved or taken out changes with it. Sheets that were issued stay as they were printed; issue them again.':
    {
      es: 'Cuenta desde hoy: un ordeño de hoy que se movió o se quitó cambia con ello. Las hojas emitidas quedan como se imprimieron; emítalas otra vez.',
      fr: 'Cela compte dès aujourd’hui : une traite d’aujourd’hui déplacée ou ôtée change avec. Les feuilles émises restent comme imprimées ; émettez-les à nouveau.',
      pl: 'Liczy się od dziś: dzisiejszy dój, który przesunięto albo usunięto, zmienia się razem z tym. Wydane arkusze zostają tak, jak je wydrukowano; wydaj je ponownie.',
      uk: 'Діє від сьогодні: сьогоднішнє доїння, яке перенесли або прибрали, міняється разом із цим. Видані аркуші лишаються такими, як надруковано; видайте їх знову.',
    },
  'No fresh hold is set: every cow that calves is held without end until one is.': {
    es: 'No hay retención de recién paridas fijada: toda vaca que pare queda retenida sin final hasta que la haya.',
    fr: 'Aucune retenue des fraîches n’est fixée : toute vache qui vêle est retenue sans fin jusqu’à ce qu’il y en ait une.',
    pl: 'Nie ustalono wstrzymania po wycieleniu: każda krowa, która się wycieli, jest wstrzymana bez końca, aż to ustalicie.',
    uk: 'Затримку новотільних не встановлено: кожна корова, що отелилась, затримана без кінця, доки її не встановлять.',
  },
  'Group {group} is taken away, and still has {n, plural, one {# cow} other {# cows}}. They count as milked, in a group that nobody knows, until each is moved.':
    {
      es: 'El grupo {group} se quita, y aún tiene {n, plural, one {# vaca} other {# vacas}}. Cuentan como ordeñadas, en un grupo que nadie conoce, hasta que se mueva cada una.',
      fr: 'Le lot {group} est ôté, et compte encore {n, plural, one {# vache} other {# vaches}}. Elles comptent comme traites, dans un lot inconnu, jusqu’à ce que chacune soit déplacée.',
      pl: 'Grupa {group} znika, a stoi w niej jeszcze {n, plural, one {# krowa} few {# krowy} many {# krów} other {# krowy}}. Liczą się jako dojone, w nieznanej grupie, aż każda zostanie przeniesiona.',
      uk: 'Групу {group} прибрано, а в ній ще {n, plural, one {# корова} few {# корови} many {# корів} other {# корови}}. Вони рахуються як дійні, у невідомій групі, доки кожну не переведуть.',
    },
  'Save the set-up': {
    es: 'Guardar los ajustes',
    fr: 'Enregistrer les réglages',
    pl: 'Zapisz ustawienia',
    uk: 'Зберегти налаштування',
  },
} as const satisfies Sentences;
