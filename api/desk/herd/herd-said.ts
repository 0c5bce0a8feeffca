/** The herd page in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const herdSaid = {
  'As at {milking}, {time}.': {
    es: 'A fecha de {milking}, {time}.',
    fr: 'État au {milking}, {time}.',
    pl: 'Stan na {milking}, {time}.',
    uk: 'Станом на {milking}, {time}.',
  },
  'There is no {what, select, group {group} hold {hold} list {list} other {column}} “{said}”, so it was left out; choose from the list.':
    {
      es: 'No hay {what, select, group {ningún grupo} hold {ninguna retención} list {ninguna lista} other {ninguna columna}} “{said}”, así que se dejó aparte; elija de la lista.',
      fr: 'Il n’y a pas de {what, select, group {lot} hold {retenue} list {liste} other {colonne}} « {said} », cela a donc été laissé de côté ; choisissez dans la liste.',
      pl: 'Nie ma {what, select, group {grupy} hold {wstrzymania} list {listy} other {kolumny}} „{said}”, więc to pominięto; wybierz z listy.',
      uk: 'Немає {what, select, group {групи} hold {затримки} list {списку} other {стовпця}} «{said}», тож це пропущено; виберіть зі списку.',
    },
  'No cow is in the herd yet. <a>Write down the first one</a>, or read in a herd list.': {
    es: 'Aún no hay ninguna vaca en el rebaño. <a>Anote la primera</a>, o lea una lista del rebaño.',
    fr: 'Il n’y a encore aucune vache dans le troupeau. <a>Notez la première</a>, ou lisez une liste du troupeau.',
    pl: 'W stadzie nie ma jeszcze żadnej krowy. <a>Zapisz pierwszą</a> albo wczytaj spis stada.',
    uk: 'У стаді ще немає жодної корови. <a>Запишіть першу</a> або зчитайте список стада.',
  },
  '{n, plural, one {# cow} other {# cows}}': {
    es: '{n, plural, one {# vaca} other {# vacas}}',
    fr: '{n, plural, one {# vache} other {# vaches}}',
    pl: '{n, plural, one {# krowa} few {# krowy} many {# krów} other {# krowy}}',
    uk: '{n, plural, one {# корова} few {# корови} many {# корів} other {# корови}}',
  },
  '{n, number} of {all, plural, one {# cow} other {# cows}}': {
    es: '{n, number} de {all, plural, one {# vaca} other {# vacas}}',
    fr: '{n, number} sur {all, plural, one {# vache} other {# vaches}}',
    pl: '{n, number} z {all, plural, one {# krowy} few {# krów} many {# krów} other {# krowy}}',
    uk: '{n, number} з {all, plural, one {# корови} few {# корів} many {# корів} other {# корови}}',
  },
  '{who}: {inMilk} in milk, {held} on milk hold, {meat} on meat hold': {
    es: '{who}: {inMilk} en leche, {held} con la leche retenida, {meat} con la carne retenida',
    fr: '{who} : {inMilk} en lait, {held} avec lait retenu, {meat} avec viande retenue',
    pl: '{who}: dające mleko {inMilk}, mleko wstrzymane {held}, karencja mięsa {meat}',
    uk: '{who}: дійних {inMilk}, молоко затримане {held}, м’ясо затримане {meat}',
  },
  '{n, plural, one {This cow} other {These # cows}} as a table file (CSV)': {
    es: '{n, plural, one {Esta vaca} other {Estas # vacas}} como archivo de tabla (CSV)',
    fr: '{n, plural, one {# vache} other {Ces # vaches}} en fichier de tableau (CSV)',
    pl: '{n, plural, one {Ta krowa} few {Te # krowy} many {Te # krów} other {# krowy}} jako plik tabeli (CSV)',
    uk: '{n, plural, =1 {Ця корова} one {# корова} few {Ці # корови} many {Ці # корів} other {# корови}} файлом таблиці (CSV)',
  },
  'None of {n, plural, one {# cow} other {# cows}} is on this list.': {
    es: 'Ninguna de {n, plural, one {# vaca} other {# vacas}} está en esta lista.',
    fr: 'Aucune vache sur {n, plural, one {#} other {#}} n’est sur cette liste.',
    pl: 'Żadnej z {n, plural, one {# krowy} few {# krów} many {# krów} other {# krowy}} nie ma na tej liście.',
    uk: 'Жодної з {n, plural, one {# корови} few {# корів} many {# корів} other {# корови}} немає в цьому списку.',
  },
  'None of {n, plural, one {# cow} other {# cows}} answers to “{find}” here.': {
    es: 'Ninguna de {n, plural, one {# vaca} other {# vacas}} responde aquí a “{find}”.',
    fr: 'Aucune vache sur {n, plural, one {#} other {#}} ne répond ici à « {find} ».',
    pl: 'Żadna z {n, plural, one {# krowy} few {# krów} many {# krów} other {# krowy}} nie odpowiada tu na „{find}”.',
    uk: 'Жодна з {n, plural, one {# корови} few {# корів} many {# корів} other {# корови}} не відповідає тут на «{find}».',
  },
  '<herd>the whole herd</herd>.': {
    es: '<herd>Todo el rebaño</herd>.',
    fr: '<herd>Tout le troupeau</herd>.',
    pl: '<herd>Całe stado</herd>.',
    uk: '<herd>Усе стадо</herd>.',
  },
  '<a>See what is written under {find}</a>: cows that left, numbers like it, lines without a cow. Or see <herd>the whole herd</herd>.':
    {
      es: '<a>Vea lo que está anotado con {find}</a>: vacas que salieron, números parecidos, líneas sin vaca. O vea <herd>todo el rebaño</herd>.',
      fr: '<a>Voyez ce qui est noté sous {find}</a> : vaches parties, numéros semblables, lignes sans vache. Ou voyez <herd>tout le troupeau</herd>.',
      pl: '<a>Zobacz, co zapisano pod {find}</a>: krowy, które odeszły, podobne numery, wiersze bez krowy. Albo zobacz <herd>całe stado</herd>.',
      uk: '<a>Погляньте, що записано під {find}</a>: корови, що вибули, схожі номери, рядки без корови. Або погляньте на <herd>усе стадо</herd>.',
    },
  'Number, or part of it': {
    es: 'Número, o parte de él',
    fr: 'Numéro, ou une partie',
    pl: 'Numer lub jego część',
    uk: 'Номер або його частина',
  },
  'On hold': { es: 'Retenida', fr: 'Retenue', pl: 'Wstrzymana', uk: 'Затримана' },
  'All groups': { es: 'Todos', fr: 'Tous', pl: 'Wszystkie', uk: 'Усі' },
  'Held or not': { es: 'Sí o no', fr: 'Oui ou non', pl: 'Tak lub nie', uk: 'Так чи ні' },
  'Milk on hold': { es: 'Leche retenida', fr: 'Lait retenu', pl: 'Mleko wstrzymane', uk: 'Молоко затримане' },
  'Meat on hold': { es: 'Carne retenida', fr: 'Viande retenue', pl: 'Karencja mięsa', uk: 'М’ясо затримане' },
  'Every cow': { es: 'Todas', fr: 'Toutes', pl: 'Wszystkie', uk: 'Усі корови' },
  'Due for dry-off': { es: 'Para secar', fr: 'À tarir', pl: 'Do zasuszenia', uk: 'На запуск' },
  Fresh: { es: 'Recién paridas', fr: 'Fraîches', pl: 'Świeżo wycielone', uk: 'Новотільні' },
  'Sorted by a column.': {
    es: 'En el orden de una columna.',
    fr: 'Dans l’ordre d’une colonne.',
    pl: 'W kolejności kolumny.',
    uk: 'За порядком стовпця.',
  },
  'In the order of the sheets': {
    es: 'En el orden de las hojas',
    fr: 'Dans l’ordre des feuilles',
    pl: 'W kolejności arkuszy',
    uk: 'За порядком аркушів',
  },
  Lactation: { es: 'Lactación', fr: 'Lactation', pl: 'Laktacja', uk: 'Лактація' },
  'Days in milk': { es: 'Días en leche', fr: 'Jours en lait', pl: 'Dni laktacji', uk: 'Днів лактації' },
  'In milk': { es: 'En leche', fr: 'En lait', pl: 'Daje mleko', uk: 'Доїться' },
  'Milk hold until': {
    es: 'Leche retenida hasta',
    fr: 'Lait retenu jusqu’à',
    pl: 'Mleko wstrzymane do',
    uk: 'Молоко затримане до',
  },
  'In the tank from': { es: 'Al tanque desde', fr: 'Dans le tank dès', pl: 'Do zbiornika od', uk: 'В танк від' },
  'Meat hold until': {
    es: 'Carne retenida hasta',
    fr: 'Viande retenue jusqu’à',
    pl: 'Karencja mięsa do',
    uk: 'М’ясо затримане до',
  },
  'Calving due': { es: 'Parto previsto', fr: 'Vêlage prévu', pl: 'Termin wycielenia', uk: 'Отелення очікують' },
  'not known': { es: 'no se sabe', fr: 'inconnu', pl: 'nie wiadomo', uk: 'невідомо' },
  'not milked here; {end}': {
    es: 'aquí no se ordeña; {end}',
    fr: 'pas traite ici ; {end}',
    pl: 'tu nie dojona; {end}',
    uk: 'тут не доять; {end}',
  },
  'once {number}': { es: 'antes {number}', fr: 'avant {number}', pl: 'dawniej {number}', uk: 'колись {number}' },
} as const satisfies Sentences;
