/** What a number means on a cow's page, in other languages: one cow, several, or none. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const cowNumberSaid = {
  '{number} may mean {n, plural, one {# cow} other {# cows}}: each of them stands below. What is written under this number may count for each, and holds each.':
    {
      es: '{number} puede ser {n, plural, one {# vaca} other {# vacas}}: cada una está abajo. Lo anotado con este número puede contar para cada una, y retiene a cada una.',
      fr: '{number} peut désigner {n, plural, one {# vache} other {# vaches}} : chacune est ci-dessous. Ce qui est noté sous ce numéro peut compter pour chacune, et retient chacune.',
      pl: '{number} może oznaczać {n, plural, one {# krowę} few {# krowy} many {# krów} other {# krowy}}: każda stoi niżej. To, co zapisano pod tym numerem, może liczyć się każdej i wstrzymuje każdą.',
      uk: '{number} може означати {n, plural, one {# корову} few {# корови} many {# корів} other {# корови}}: кожна стоїть нижче. Записане під цим номером може рахуватися кожній і затримує кожну.',
    },
  'She bore the number {number}; now she is {now}.': {
    es: 'Llevó el número {number}; ahora es la {now}.',
    fr: 'Elle a porté le numéro {number} ; maintenant elle est la {now}.',
    pl: 'Nosiła numer {number}; teraz to {now}.',
    uk: 'Вона мала номер {number}; тепер вона {now}.',
  },
  'Nobody bears {number}; without zeros in front it is {now}.': {
    es: 'Ninguna lleva {number}; sin ceros delante es la {now}.',
    fr: 'Aucune ne porte {number} ; sans zéros devant, c’est la {now}.',
    pl: 'Żadna nie nosi {number}; bez zer z przodu to {now}.',
    uk: 'Жодна не має {number}; без нулів попереду це {now}.',
  },
  '{n, plural, one {A cow that is gone bore the number {number} too: <a>show her as well</a>} other {# cows that are gone bore the number {number} too: <a>show them as well</a>}}.':
    {
      es: '{n, plural, one {# vaca que ya no está llevó también el número {number}: <a>mostrarla también</a>} other {# vacas que ya no están llevaron también el número {number}: <a>mostrarlas también</a>}}.',
      fr: '{n, plural, one {# vache partie a porté aussi le numéro {number} : <a>la montrer aussi</a>} other {# vaches parties ont porté aussi le numéro {number} : <a>les montrer aussi</a>}}.',
      pl: '{n, plural, one {# krowa, której już nie ma, też nosiła numer {number}: <a>pokaż i ją</a>} few {# krowy, których już nie ma, też nosiły numer {number}: <a>pokaż i je</a>} many {# krów, których już nie ma, też nosiło numer {number}: <a>pokaż i je</a>} other {# krowy, których już nie ma, też nosiły numer {number}: <a>pokaż i je</a>}}.',
      uk: '{n, plural, =1 {Корова, якої вже немає, теж мала номер {number}: <a>показати і її</a>} one {# корова, яких уже немає, теж мали номер {number}: <a>показати і їх</a>} few {# корови, яких уже немає, теж мали номер {number}: <a>показати і їх</a>} many {# корів, яких уже немає, теж мали номер {number}: <a>показати і їх</a>} other {# корови, яких уже немає, теж мали номер {number}: <a>показати і їх</a>}}.',
    },
  'Numbers she bore: {numbers}.': {
    es: 'Números que llevó: {numbers}.',
    fr: 'Numéros qu’elle a portés : {numbers}.',
    pl: 'Numery, które nosiła: {numbers}.',
    uk: 'Номери, які вона мала: {numbers}.',
  },
  '{number} since {from}': {
    es: '{number} desde {from}',
    fr: '{number} depuis {from}',
    pl: '{number} od {from}',
    uk: '{number} від {from}',
  },
  '{number} from {from} to {to}': {
    es: '{number} de {from} a {to}',
    fr: '{number} de {from} à {to}',
    pl: '{number} od {from} do {to}',
    uk: '{number} від {from} до {to}',
  },
  'No cow of the herd bears or bore the number {number}. Check the number.': {
    es: 'Ninguna vaca del rebaño lleva ni llevó el número {number}. Revise el número.',
    fr: 'Aucune vache du troupeau ne porte ni n’a porté le numéro {number}. Vérifiez le numéro.',
    pl: 'Żadna krowa w stadzie nie nosi ani nie nosiła numeru {number}. Sprawdź numer.',
    uk: 'Жодна корова стада не має й не мала номера {number}. Перевірте номер.',
  },
  'No cow of the herd bears or bore the number {number}. Check the number, perhaps it is one of these.': {
    es: 'Ninguna vaca del rebaño lleva ni llevó el número {number}. Revise el número, quizá sea uno de estos.',
    fr: 'Aucune vache du troupeau ne porte ni n’a porté le numéro {number}. Vérifiez le numéro, c’est peut-être l’un de ceux-ci.',
    pl: 'Żadna krowa w stadzie nie nosi ani nie nosiła numeru {number}. Sprawdź numer, może to jeden z tych.',
    uk: 'Жодна корова стада не має й не мала номера {number}. Перевірте номер, може, це один із цих.',
  },
  'Numbers like it: {numbers}': {
    es: 'Números parecidos: {numbers}',
    fr: 'Numéros semblables : {numbers}',
    pl: 'Podobne numery: {numbers}',
    uk: 'Схожі номери: {numbers}',
  },
  'Find another number': {
    es: 'Buscar otro número',
    fr: 'Chercher un autre numéro',
    pl: 'Znajdź inny numer',
    uk: 'Знайти інший номер',
  },
  Find: { es: 'Buscar', fr: 'Chercher', pl: 'Znajdź', uk: 'Знайти' },
  'The whole herd': { es: 'Todo el rebaño', fr: 'Tout le troupeau', pl: 'Całe stado', uk: 'Усе стадо' },
  'Write down a new cow': {
    es: 'Anotar una vaca nueva',
    fr: 'Noter une nouvelle vache',
    pl: 'Zapisz nową krowę',
    uk: 'Записати нову корову',
  },
  'The milking': { es: 'El ordeño', fr: 'La traite', pl: 'Dój', uk: 'Доїння' },
} as const satisfies Sentences;
