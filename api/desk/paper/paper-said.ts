/** The form of a sheet that came back, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const paperSaid = {
  'From paper back to the book': {
    es: 'Del papel otra vez al libro',
    fr: 'Du papier vers le livre',
    pl: 'Z papieru z powrotem do księgi',
    uk: 'З паперу назад у книгу',
  },
  'Ref at the foot of the sheet': {
    es: 'Referencia al pie de la hoja',
    fr: 'Référence au pied de la feuille',
    pl: 'Oznaczenie u dołu arkusza',
    uk: 'Позначка внизу аркуша',
  },
  'Nine symbols, like ACEF-3479-K; small letters and no hyphens will do.': {
    es: 'Nueve signos, como ACEF-3479-K; valen minúsculas y sin guiones.',
    fr: 'Neuf signes, comme ACEF-3479-K ; des minuscules sans tirets conviennent aussi.',
    pl: 'Dziewięć znaków, jak ACEF-3479-K; mogą być małe litery i bez łączników.',
    uk: 'Дев’ять знаків, як ACEF-3479-K; можна малими літерами й без дефісів.',
  },
  'Open the sheet': { es: 'Abrir la hoja', fr: 'Ouvrir la feuille', pl: 'Otwórz arkusz', uk: 'Відкрити аркуш' },
  'Not written up yet': {
    es: 'Sin pasar al libro todavía',
    fr: 'Pas encore reportées',
    pl: 'Jeszcze nie przepisane',
    uk: 'Ще не перенесені',
  },
  'Every set of an earlier milking is returned.': {
    es: 'Todos los juegos de ordeños anteriores han vuelto.',
    fr: 'Tous les jeux des traites précédentes sont revenus.',
    pl: 'Wszystkie zestawy z wcześniejszych dojów wróciły.',
    uk: 'Усі комплекти попередніх доїнь повернулися.',
  },
  'Write up {ref}': { es: 'Pasar {ref} al libro', fr: 'Reporter {ref}', pl: 'Przepisz {ref}', uk: 'Перенести {ref}' },
  'For {milking}, {time}; issued {issued}.': {
    es: 'Para {milking}, {time}; emitidas {issued}.',
    fr: 'Pour {milking}, {time} ; émises {issued}.',
    pl: 'Na dój {milking}, {time}; wydano {issued}.',
    uk: 'На доїння {milking}, {time}; видано {issued}.',
  },
  'The paper itself': { es: 'El papel mismo', fr: 'Le papier lui-même', pl: 'Sam papier', uk: 'Сам папір' },
  'Another sheet': { es: 'Otra hoja', fr: 'Une autre feuille', pl: 'Inny arkusz', uk: 'Інший аркуш' },
  'Write one thing down': {
    es: 'Anotar una sola cosa',
    fr: 'Noter une seule chose',
    pl: 'Zapisz jedną rzecz',
    uk: 'Записати щось одне',
  },
  'The farm has no milking {milking} any more, so “at this milking” has no time; write down what stands on the sheet one by one':
    {
      es: 'La granja ya no tiene el ordeño {milking}, así que “en este ordeño” no tiene hora; anote una por una las cosas que están en la hoja',
      fr: 'La ferme n’a plus de traite {milking}, « à cette traite » n’a donc pas d’heure ; notez une par une les choses qui sont sur la feuille',
      pl: 'Gospodarstwo nie ma już doju {milking}, więc „na tym doju” nie ma godziny; zapisz po kolei to, co stoi na arkuszu',
      uk: 'Доїння {milking} у господарстві вже немає, тож «на цьому доїнні» не має часу; запишіть те, що на аркуші, одне по одному',
    },
  'This set is for {milking}, which has not begun: nothing on it can have been done yet. Come back with it after the milking.':
    {
      es: 'Este juego es para {milking}, que no ha empezado: todavía no puede haberse hecho nada de lo que dice. Vuelva con él después del ordeño.',
      fr: 'Ce jeu est pour {milking}, qui n’a pas commencé : rien de ce qu’il porte ne peut encore être fait. Revenez avec lui après la traite.',
      pl: 'Ten zestaw jest na dój {milking}, który się nie zaczął: niczego z niego nie można było jeszcze zrobić. Wróć z nim po doju.',
      uk: 'Цей комплект — на доїння {milking}, яке ще не почалося: нічого з нього ще не могли зробити. Поверніться з ним після доїння.',
    },
  'That form was saved before and counts once. If you changed something in it since, that is not recorded: tick it here.':
    {
      es: 'Ese formulario ya se había guardado y cuenta una vez. Si después cambió algo en él, eso no está anotado: márquelo aquí.',
      fr: 'Ce formulaire était déjà enregistré et compte une fois. Si vous y avez changé quelque chose depuis, ce n’est pas noté : cochez-le ici.',
      pl: 'Ten formularz zapisano już wcześniej i liczy się raz. Jeśli potem coś w nim zmieniono, tego nie zapisano: zaznacz to tutaj.',
      uk: 'Ту форму вже було збережено, і рахується вона один раз. Якщо ви відтоді щось у ній змінили, це не записано: позначте тут.',
    },
  'Saved. The set {ref} is returned; what was not ticked stands open below.': {
    es: 'Guardado. El juego {ref} ha vuelto; lo que no se marcó sigue abierto abajo.',
    fr: 'Enregistré. Le jeu {ref} est revenu ; ce qui n’est pas coché reste ouvert ci-dessous.',
    pl: 'Zapisano. Zestaw {ref} wrócił; to, czego nie zaznaczono, stoi otwarte poniżej.',
    uk: 'Збережено. Комплект {ref} повернувся; не позначене лишається відкритим нижче.',
  },
  'There is nothing new on it: the set is returned, and what is ticked is in the book': {
    es: 'No hay nada nuevo: el juego ha vuelto y lo marcado está en el libro',
    fr: 'Il n’y a rien de nouveau : le jeu est revenu, et ce qui est coché est dans le livre',
    pl: 'Nie ma w nim nic nowego: zestaw wrócił, a to, co zaznaczono, jest w księdze',
    uk: 'Нічого нового немає: комплект повернувся, а позначене вже є в книзі',
  },
  'Read it over': { es: 'Repasar', fr: 'Relire', pl: 'Przejrzyj', uk: 'Перечитати' },
  'Read it over, then save': {
    es: 'Repasar y luego guardar',
    fr: 'Relire, puis enregistrer',
    pl: 'Przejrzyj, potem zapisz',
    uk: 'Перечитати, тоді зберегти',
  },
  'Tick what was done. What is not ticked records nothing. Each thing counts as done at this milking unless it has a time of its own.':
    {
      es: 'Marque lo que se hizo. Lo que no se marca no anota nada. Cada cosa cuenta como hecha en este ordeño, salvo que lleve su propia hora.',
      fr: 'Cochez ce qui a été fait. Ce qui n’est pas coché ne note rien. Chaque chose compte comme faite à cette traite, sauf si elle a sa propre heure.',
      pl: 'Zaznacz, co zrobiono. To, czego nie zaznaczysz, niczego nie zapisuje. Każda rzecz liczy się jako zrobiona na tym doju, chyba że ma własny czas.',
      uk: 'Позначте, що зроблено. Не позначене нічого не записує. Усе рахується зробленим на цьому доїнні, якщо не має власного часу.',
    },
  'Who wrote on the sheet': {
    es: 'Quién escribió en la hoja',
    fr: 'Qui a écrit sur la feuille',
    pl: 'Kto pisał na arkuszu',
    uk: 'Хто писав на аркуші',
  },
  'Counts as the giver of each dose that has no initials of its own.': {
    es: 'Cuenta como quien dio cada dosis que no lleva sus propias iniciales.',
    fr: 'Compte comme ayant donné chaque dose sans initiales propres.',
    pl: 'Liczy się jako podający każdą dawkę bez własnego podpisu.',
    uk: 'Вважається тим, хто дав кожну дозу без власного підпису.',
  },
  'Anything else on the sheet': {
    es: 'Algo más en la hoja',
    fr: 'Autre chose sur la feuille',
    pl: 'Coś jeszcze na arkuszu',
    uk: 'Щось іще на аркуші',
  },
  'Nothing is saved yet. {n, plural, one {# thing} other {# things}} to mend:': {
    es: 'Todavía no se ha guardado nada. Hay que corregir {n, plural, one {# cosa} other {# cosas}}:',
    fr: 'Rien n’est encore enregistré. {n, plural, one {# chose} other {# choses}} à corriger :',
    pl: 'Nic jeszcze nie zapisano. Do poprawienia: {n, plural, one {# rzecz} few {# rzeczy} many {# rzeczy} other {# rzeczy}}:',
    uk: 'Ще нічого не збережено. Треба виправити {n, plural, one {# річ} few {# речі} many {# речей} other {# речі}}:',
  },
  'Finished {time}, by the book.': {
    es: 'Terminado {time}, según el libro.',
    fr: 'Finie {time}, d’après le livre.',
    pl: 'Zakończony {time}, według księgi.',
    uk: 'Закінчено {time}, за книгою.',
  },
  'finished at (such as 18:40)': {
    es: 'terminado a las (por ejemplo 18:40)',
    fr: 'finie à (par exemple 18:40)',
    pl: 'zakończony o (na przykład 18:40)',
    uk: 'закінчено о (наприклад 18:40)',
  },
} as const satisfies Sentences;
