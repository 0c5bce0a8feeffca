/** What is wrong with a farm's set-up as it was typed, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const farmReadSaid = {
  '"{text}" is not a number; type digits, such as 12 or 7.5': {
    es: '"{text}" no es un número; escriba cifras, como 12 o 7,5',
    fr: '« {text} » n’est pas un nombre ; écrivez des chiffres, comme 12 ou 7,5',
    pl: '„{text}” to nie liczba; wpisz cyfry, na przykład 12 albo 7,5',
    uk: '«{text}» — це не число; пишіть цифрами, наприклад 12 або 7,5',
  },
  'Fill this in: it is needed': {
    es: 'Rellene esto: hace falta',
    fr: 'Remplissez ceci : il le faut',
    pl: 'Wypełnij to: jest potrzebne',
    uk: 'Заповніть це: воно потрібне',
  },
  'Say whose number this is, or clear it': {
    es: 'Diga de quién es este número, o bórrelo',
    fr: 'Dites à qui est ce numéro, ou effacez-le',
    pl: 'Podaj, czyj to numer, albo go wyczyść',
    uk: 'Скажіть, чий це номер, або очистьте його',
  },
  'Give the number, or clear the name': {
    es: 'Dé el número, o borre el nombre',
    fr: 'Donnez le numéro, ou effacez le nom',
    pl: 'Podaj numer albo wyczyść nazwę',
    uk: 'Вкажіть номер або очистьте ім’я',
  },
  'Give this milking a name, such as morning': {
    es: 'Dé un nombre a este ordeño, como mañana',
    fr: 'Donnez un nom à cette traite, comme matin',
    pl: 'Nadaj temu dojowi nazwę, na przykład rano',
    uk: 'Дайте цьому доїнню назву, наприклад ранок',
  },
  'Say when this milking starts, such as 04:30': {
    es: 'Diga a qué hora empieza este ordeño, como 04:30',
    fr: 'Dites quand débute cette traite, par exemple 04:30',
    pl: 'Podaj, kiedy zaczyna się ten dój, na przykład 04:30',
    uk: 'Скажіть, коли починається це доїння, наприклад 04:30',
  },
  'The farm needs at least one milking: its name and its start': {
    es: 'La explotación necesita al menos un ordeño: su nombre y su comienzo',
    fr: 'Il faut à l’exploitation au moins une traite : son nom et son début',
    pl: 'Gospodarstwo potrzebuje co najmniej jednego doju: nazwy i początku',
    uk: 'Фермі потрібне щонайменше одне доїння: його назва й початок',
  },
  'Give this group a name, or take its kind out': {
    es: 'Dé un nombre a este grupo, o quite su clase',
    fr: 'Donnez un nom à ce lot, ou ôtez son genre',
    pl: 'Nadaj tej grupie nazwę albo usuń jej rodzaj',
    uk: 'Дайте цій групі назву або приберіть її вид',
  },
  'Say what kind of group {name} is: it decides whether its cows are milked': {
    es: 'Diga qué clase de grupo es {name}: decide si sus vacas se ordeñan',
    fr: 'Dites de quel genre est le lot {name} : cela décide si ses vaches sont traites',
    pl: 'Podaj, jakiego rodzaju jest grupa {name}: od tego zależy, czy jej krowy są dojone',
    uk: 'Скажіть, якого виду група {name}: від цього залежить, чи доять її корів',
  },
  'Milkings are ticked for {name}: choose "only at those ticked", or untick them': {
    es: 'Hay ordeños marcados para {name}: elija "solo en los marcados", o desmárquelos',
    fr: 'Des traites sont cochées pour {name} : choisissez « seulement à celles cochées », ou décochez-les',
    pl: 'Dla grupy {name} zaznaczono doje: wybierz „tylko na zaznaczonych” albo je odznacz',
    uk: 'Для групи {name} позначено доїння: виберіть «лише на позначених» або зніміть позначки',
  },
  'The farm needs at least one group: its name and its kind': {
    es: 'La explotación necesita al menos un grupo: su nombre y su clase',
    fr: 'Il faut à l’exploitation au moins un lot : son nom et son genre',
    pl: 'Gospodarstwo potrzebuje co najmniej jednej grupy: nazwy i rodzaju',
    uk: 'Фермі потрібна щонайменше одна група: її назва й вид',
  },
} as const satisfies Sentences;
