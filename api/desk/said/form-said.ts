/** What the longer forms and their fields say, and who a cow is, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from './sentences.ts';

export const formSaid = {
  '{things, plural, one {One thing is} other {# things are}} to be mended:': {
    es: 'Hay que corregir {things, plural, =1 {una cosa} one {# cosa} other {# cosas}}:',
    fr: '{things, plural, =1 {Une chose est} one {# chose est} other {# choses sont}} à corriger :',
    pl: '{things, plural, =1 {Jedna rzecz jest} one {# rzecz jest} few {# rzeczy są} many {# rzeczy jest} other {# rzeczy jest}} do poprawienia:',
    uk: 'Треба виправити {things, plural, =1 {одну річ} one {# річ} few {# речі} many {# речей} other {# речі}}:',
  },
  '"{text}" is not a date and a time; write it like 2026-03-14 16:40': {
    es: '"{text}" no es una fecha y una hora; escríbalas así: 2026-03-14 16:40',
    fr: '« {text} » n’est pas une date et une heure ; écrivez-les ainsi : 2026-03-14 16:40',
    pl: '„{text}” to nie data i godzina; napisz tak: 2026-03-14 16:40',
    uk: '«{text}» — це не дата й час; пишіть так: 2026-03-14 16:40',
  },
  '{time} never was: the clocks of {zone} skipped it; give a time before or after': {
    es: '{time} no existió: los relojes de {zone} la saltaron; diga una hora anterior o posterior',
    fr: '{time} n’a pas existé : les horloges de {zone} l’ont sautée ; donnez une heure avant ou après',
    pl: '{time} nigdy nie było: zegary {zone} to przeskoczyły; podaj czas wcześniejszy lub późniejszy',
    uk: '{time} не було: годинники {zone} це перескочили; вкажіть час до або після',
  },
  '{time} came twice when the clocks of {zone} were put back; give a time before or after that hour': {
    es: '{time} se dio dos veces al atrasar los relojes de {zone}; diga una hora anterior o posterior a esa',
    fr: '{time} est passée deux fois quand les horloges de {zone} ont reculé ; donnez une heure avant ou après celle-là',
    pl: '{time} było dwa razy, gdy cofnięto zegary {zone}; podaj czas przed tą godziną lub po niej',
    uk: '{time} було двічі, коли годинники {zone} перевели назад; вкажіть час до тієї години або після неї',
  },
  'this form was saved already and said something else then; open a new one, and take back what was wrong': {
    es: 'este formulario ya se guardó y entonces decía otra cosa; abra uno nuevo y retire lo que estaba mal',
    fr: 'ce formulaire a déjà été enregistré et disait alors autre chose ; ouvrez-en un nouveau et reprenez ce qui était faux',
    pl: 'ten formularz już zapisano i mówił wtedy co innego; otwórz nowy i cofnij to, co było źle',
    uk: 'цю форму вже збережено, і тоді в ній було інше; відкрийте нову й заберіть назад те, що було не так',
  },
  'This form was saved already, and now says something else. What was saved then stands; look at it, and save here again if this is what you want':
    {
      es: 'Este formulario ya se guardó y ahora dice otra cosa. Lo que se guardó entonces sigue en pie; mírelo y guarde aquí de nuevo si es lo que quiere',
      fr: 'Ce formulaire a déjà été enregistré et dit maintenant autre chose. Ce qui a été enregistré alors reste ; regardez-le, et enregistrez ici de nouveau si c’est ce que vous voulez',
      pl: 'Ten formularz już zapisano, a teraz mówi co innego. To, co wtedy zapisano, stoi; obejrzyj to i zapisz tutaj ponownie, jeśli tego chcesz',
      uk: 'Цю форму вже збережено, а тепер у ній інше. Збережене тоді чинне; погляньте на нього і збережіть тут ще раз, якщо хочете саме цього',
    },
  NEW: { es: 'NUEVA', fr: 'NOUVEAU', pl: 'NOWA', uk: 'НОВА' },
  'lactation {lactation}': {
    es: 'lactación {lactation}',
    fr: 'lactation {lactation}',
    pl: 'laktacja {lactation}',
    uk: 'лактація {lactation}',
  },
  'in milk': { es: 'en leche', fr: 'en lait', pl: 'daje mleko', uk: 'доїться' },
  'not in milk': { es: 'no está en leche', fr: 'pas en lait', pl: 'nie daje mleka', uk: 'не доїться' },
  '{days, plural, one {# day in milk} other {# days in milk}}': {
    es: '{days, plural, one {# día} other {# días}} en leche',
    fr: '{days, plural, one {# jour} other {# jours}} en lait',
    pl: '{days, plural, one {# dzień} few {# dni} many {# dni} other {# dnia}} laktacji',
    uk: '{days, plural, one {# день} few {# дні} many {# днів} other {# дня}} лактації',
  },
  'official number {number}': {
    es: 'número oficial {number}',
    fr: 'numéro officiel {number}',
    pl: 'numer urzędowy {number}',
    uk: 'офіційний номер {number}',
  },
  'milk not on hold': {
    es: 'leche no retenida',
    fr: 'lait non retenu',
    pl: 'mleko nie jest wstrzymane',
    uk: 'молоко не затримане',
  },
  'MILK ON HOLD, no end known': {
    es: 'LECHE RETENIDA, sin final conocido',
    fr: 'LAIT RETENU, fin inconnue',
    pl: 'MLEKO WSTRZYMANE, koniec nieznany',
    uk: 'МОЛОКО ЗАТРИМАНЕ, кінець невідомий',
  },
  'MILK ON HOLD, in the tank from {milking}': {
    es: 'LECHE RETENIDA, al tanque desde {milking}',
    fr: 'LAIT RETENU, dans le tank dès {milking}',
    pl: 'MLEKO WSTRZYMANE, do zbiornika od {milking}',
    uk: 'МОЛОКО ЗАТРИМАНЕ, у танк від {milking}',
  },
  '{milk}; meat on hold': {
    es: '{milk}; carne retenida',
    fr: '{milk} ; viande retenue',
    pl: '{milk}; karencja mięsa',
    uk: '{milk}; м’ясо затримане',
  },
  'There is no cow {number} in the herd at the next milking. If you save it, it stands unplaced at the head of the milk-hold sheet until somebody settles who it was.':
    {
      es: 'No hay ninguna vaca {number} en el rebaño en el próximo ordeño. Si lo guarda, queda sin vaca al principio de la hoja de leche retenida hasta que alguien aclare cuál era.',
      fr: 'Il n’y a pas de vache {number} dans le troupeau à la prochaine traite. Si vous enregistrez, cela reste sans vache en tête de la feuille du lait retenu jusqu’à ce que quelqu’un règle de laquelle il s’agit.',
      pl: 'W stadzie nie ma na następnym doju krowy {number}. Jeśli zapiszesz, wpis stanie bez krowy na początku arkusza wstrzymanego mleka, aż ktoś wyjaśni, która to była.',
      uk: 'На наступному доїнні в стаді немає корови {number}. Якщо зберегти, запис стоятиме без корови на початку аркуша затриманого молока, доки хтось не з’ясує, котра це була.',
    },
  'No cow of the herd was {number} then: what was written of her belongs to no cow until somebody settles it.': {
    es: 'Entonces ninguna vaca del rebaño era la {number}: lo anotado no es de ninguna vaca hasta que alguien lo aclare.',
    fr: 'À ce moment aucune vache du troupeau n’était la {number} : ce qui est noté n’est à aucune vache jusqu’à ce que quelqu’un le règle.',
    pl: 'Wtedy żadna krowa w stadzie nie miała numeru {number}: to, co zapisano, nie należy do żadnej krowy, aż ktoś to wyjaśni.',
    uk: 'Тоді жодна корова стада не мала номера {number}: записане не належить жодній корові, доки хтось не з’ясує.',
  },
  'At the next milking no cow of the herd is {number}.': {
    es: 'En el próximo ordeño ninguna vaca del rebaño es la {number}.',
    fr: 'À la prochaine traite aucune vache du troupeau n’est la {number}.',
    pl: 'Na następnym doju żadna krowa w stadzie nie ma numeru {number}.',
    uk: 'На наступному доїнні жодна корова стада не має номера {number}.',
  },
  '{number} may mean {cows, plural, one {# cow} other {# cows}}. Saved under this number, it may count for each of them; better use her official number.':
    {
      es: '{number} puede ser {cows, plural, one {# vaca} other {# vacas}}. Guardado con este número, puede contar para cada una; mejor use su número oficial.',
      fr: '{number} peut désigner {cows, plural, one {# vache} other {# vaches}}. Enregistré sous ce numéro, cela peut compter pour chacune ; prenez plutôt son numéro officiel.',
      pl: '{number} może oznaczać {cows, plural, one {# krowę} few {# krowy} many {# krów} other {# krowy}}. Zapisane pod tym numerem może liczyć się każdej z nich; lepiej użyj numeru urzędowego.',
      uk: '{number} може означати {cows, plural, one {# корову} few {# корови} many {# корів} other {# корови}}. Збережене під цим номером може рахуватися кожній; краще вкажіть її офіційний номер.',
    },
} as const satisfies Sentences;
