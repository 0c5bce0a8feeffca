/** What a change does to the cows' holds, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const farmEffectSaid = {
  'NOW HELD': { es: 'AHORA RETENIDA', fr: 'MAINTENANT RETENUE', pl: 'TERAZ WSTRZYMANA', uk: 'ТЕПЕР ЗАТРИМАНА' },
  'NOW FREE': { es: 'AHORA LIBRE', fr: 'MAINTENANT LIBRE', pl: 'TERAZ WOLNA', uk: 'ТЕПЕР ВІЛЬНА' },
  longer: { es: 'más tiempo', fr: 'plus longtemps', pl: 'dłużej', uk: 'довше' },
  shorter: { es: 'menos tiempo', fr: 'moins longtemps', pl: 'krócej', uk: 'коротше' },
  'What it does to the cows': {
    es: 'Qué les hace a las vacas',
    fr: 'Ce que cela fait aux vaches',
    pl: 'Co to robi z krowami',
    uk: 'Що це робить із коровами',
  },
  'What it would bring up': {
    es: 'Qué haría aparecer',
    fr: 'Ce que cela ferait apparaître',
    pl: 'Co by z tego wyszło na jaw',
    uk: 'Що через це з’явилося б',
  },
  'And {n} more like these.': {
    es: 'Y {n} más como estos.',
    fr: 'Et {n} de plus du même genre.',
    pl: 'I jeszcze {n} podobnych.',
    uk: 'І ще {n} таких.',
  },
  'No cow’s milk hold changes at the milking {at}.': {
    es: 'La leche retenida no cambia en ninguna vaca en el ordeño {at}.',
    fr: 'Le lait retenu ne change pour aucune vache à la traite {at}.',
    pl: 'Wstrzymanie mleka nie zmienia się u żadnej krowy na doju {at}.',
    uk: 'Затримка молока не міняється в жодної корови на доїнні {at}.',
  },
  'No cow’s meat hold changes.': {
    es: 'La carne retenida no cambia en ninguna vaca.',
    fr: 'La viande retenue ne change pour aucune vache.',
    pl: 'Karencja mięsa nie zmienia się u żadnej krowy.',
    uk: 'Затримка м’яса не міняється в жодної корови.',
  },
  '{n, plural, one {# cow} other {# cows}} would be free sooner. Only the label in your hand and the vet can say that this is right.':
    {
      es: '{n, plural, one {# vaca quedaría libre} other {# vacas quedarían libres}} antes. Solo la etiqueta que tiene en la mano y el veterinario pueden decir que esto es correcto.',
      fr: '{n, plural, one {# vache serait libre} other {# vaches seraient libres}} plus tôt. Seuls l’étiquette que vous tenez et le vétérinaire peuvent dire que c’est juste.',
      pl: '{n, plural, one {# krowa byłaby wolna} few {# krowy byłyby wolne} many {# krów byłoby wolnych} other {# krowy byłoby wolne}} wcześniej. Tylko etykieta w twojej ręce i weterynarz mogą powiedzieć, że to słuszne.',
      uk: '{n, plural, one {# корова стала б вільною} few {# корови стали б вільними} many {# корів стали б вільними} other {# корови стали б вільними}} раніше. Лише етикетка у вас у руці та ветеринар можуть сказати, що це правильно.',
    },
  'Cows whose hold changes, the table': {
    es: 'Vacas cuya retención cambia, la tabla',
    fr: 'Vaches dont la retenue change, le tableau',
    pl: 'Krowy, których wstrzymanie się zmienia, tabela',
    uk: 'Корови, чия затримка міняється, таблиця',
  },
  '{n, plural, one {# milk hold changes} other {# milk holds change}}, seen from the milking {at}': {
    es: 'Leche: {n, plural, one {cambia # retención} other {cambian # retenciones}}, vista desde el ordeño {at}',
    fr: 'Lait : {n, plural, one {# retenue change} other {# retenues changent}}, vu de la traite {at}',
    pl: 'Mleko: {n, plural, one {zmienia się # wstrzymanie} few {zmieniają się # wstrzymania} many {zmienia się # wstrzymań} other {zmienia się # wstrzymania}}, patrząc od doju {at}',
    uk: 'Молоко: {n, plural, one {міняється # затримка} few {міняються # затримки} many {міняється # затримок} other {міняється # затримки}}, якщо дивитися від доїння {at}',
  },
  '{n, plural, one {# meat hold changes} other {# meat holds change}}': {
    es: 'Carne: {n, plural, one {cambia # retención} other {cambian # retenciones}}',
    fr: 'Viande : {n, plural, one {# retenue change} other {# retenues changent}}',
    pl: 'Mięso: {n, plural, one {zmienia się # karencja} few {zmieniają się # karencje} many {zmienia się # karencji} other {zmienia się # karencji}}',
    uk: 'М’ясо: {n, plural, one {міняється # затримка} few {міняються # затримки} many {міняється # затримок} other {міняється # затримки}}',
  },
  'So she is': { es: 'Así que queda', fr: 'Elle est donc', pl: 'Więc jest', uk: 'Отже, вона' },
  'And {n} more cows.': {
    es: 'Y {n, plural, one {# vaca} other {# vacas}} más.',
    fr: 'Et {n, plural, one {# vache} other {# vaches}} de plus.',
    pl: 'I jeszcze {n, plural, one {# krowa} few {# krowy} many {# krów} other {# krowy}}.',
    uk: 'І ще {n, plural, one {# корова} few {# корови} many {# корів} other {# корови}}.',
  },
  'not on hold': { es: 'sin retención', fr: 'pas retenue', pl: 'nie wstrzymana', uk: 'не затримана' },
  'on hold, no end known': {
    es: 'retenida, sin final conocido',
    fr: 'retenue, fin inconnue',
    pl: 'wstrzymana, koniec nieznany',
    uk: 'затримана, кінець невідомий',
  },
  'until {time}, in the tank from {milking}': {
    es: 'hasta {time}, al tanque desde {milking}',
    fr: 'jusqu’à {time}, dans le tank dès {milking}',
    pl: 'do {time}, do zbiornika od {milking}',
    uk: 'до {time}, в танк від {milking}',
  },
} as const satisfies Sentences;
