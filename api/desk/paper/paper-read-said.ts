/** A written-up sheet read over before it is saved, and how its lines stand in the book, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const paperReadSaid = {
  'Read this, then save: {ref}': {
    es: 'Lea esto y luego guarde: {ref}',
    fr: 'Lisez ceci, puis enregistrez : {ref}',
    pl: 'Przeczytaj, potem zapisz: {ref}',
    uk: 'Прочитайте, тоді збережіть: {ref}',
  },
  'Something came into the book since you read this over. Read it again before you save.': {
    es: 'Algo entró en el libro desde que usted repasó esto. Léalo otra vez antes de guardar.',
    fr: 'Quelque chose est entré dans le livre depuis votre relecture. Relisez avant d’enregistrer.',
    pl: 'Od tego przejrzenia coś weszło do księgi. Przeczytaj jeszcze raz przed zapisaniem.',
    uk: 'Відколи ви це перечитали, до книги щось надійшло. Перечитайте ще раз, перш ніж зберегти.',
  },
  'Will be recorded': { es: 'Se anotará', fr: 'Sera noté', pl: 'Zostanie zapisane', uk: 'Буде записано' },
  'Nothing was done.': {
    es: 'No se hizo nada.',
    fr: 'Rien n’a été fait.',
    pl: 'Niczego nie zrobiono.',
    uk: 'Нічого не зроблено.',
  },
  'Not ticked': { es: 'Sin marcar', fr: 'Pas coché', pl: 'Nie zaznaczone', uk: 'Не позначено' },
  'In the book already, not recorded again': {
    es: 'Ya en el libro, no se anota otra vez',
    fr: 'Déjà dans le livre, pas noté de nouveau',
    pl: 'Już w księdze, nie zapisuje się ponownie',
    uk: 'Уже в книзі, удруге не записується',
  },
  'Look at these': { es: 'Mire esto', fr: 'Regardez ceci', pl: 'Spójrz na to', uk: 'Погляньте на це' },
  'Goes into the note of the return': {
    es: 'Va a la nota de la devolución',
    fr: 'Va dans la note du retour',
    pl: 'Idzie do uwagi o zwrocie',
    uk: 'Іде до примітки про повернення',
  },
  'The set {ref} then counts as returned.': {
    es: 'Entonces el juego {ref} cuenta como devuelto.',
    fr: 'Le jeu {ref} compte alors comme revenu.',
    pl: 'Zestaw {ref} liczy się wtedy jako zwrócony.',
    uk: 'Тоді комплект {ref} вважається повернутим.',
  },
  'The set {ref} then counts as returned, written by {who}.': {
    es: 'Entonces el juego {ref} cuenta como devuelto, escrito por {who}.',
    fr: 'Le jeu {ref} compte alors comme revenu, écrit par {who}.',
    pl: 'Zestaw {ref} liczy się wtedy jako zwrócony, pisze {who}.',
    uk: 'Тоді комплект {ref} вважається повернутим, пише {who}.',
  },
  'Save {n, plural, one {# entry} other {# entries}}': {
    es: 'Guardar {n, plural, one {# entrada} other {# entradas}}',
    fr: 'Enregistrer {n, plural, one {# note} other {# notes}}',
    pl: 'Zapisz {n, plural, one {# wpis} few {# wpisy} many {# wpisów} other {# wpisu}}',
    uk: 'Зберегти {n, plural, one {# запис} few {# записи} many {# записів} other {# запису}}',
  },
  'Go back and change it': {
    es: 'Volver y cambiarlo',
    fr: 'Revenir et changer',
    pl: 'Wróć i zmień',
    uk: 'Повернутися й змінити',
  },
  'Then, at the milking {milking}': {
    es: 'Después, en el ordeño {milking}',
    fr: 'Ensuite, à la traite {milking}',
    pl: 'Potem, na doju {milking}',
    uk: 'Тоді, на доїнні {milking}',
  },
  'Alerts and doubts that this brings': {
    es: 'Avisos y dudas que esto trae',
    fr: 'Alertes et doutes que cela amène',
    pl: 'Ostrzeżenia i wątpliwości, które to wnosi',
    uk: 'Тривоги й сумніви, які це дає',
  },
  'Not counted: {groups}': {
    es: 'Sin contar: {groups}',
    fr: 'Pas comptés : {groups}',
    pl: 'Nie policzono: {groups}',
    uk: 'Не пораховано: {groups}',
  },
  'Milking finished {time}': {
    es: 'Ordeño terminado {time}',
    fr: 'Traite finie {time}',
    pl: 'Dój zakończony {time}',
    uk: 'Доїння закінчено {time}',
  },
  'Milking finished: in the book already, {time}': {
    es: 'Ordeño terminado: ya en el libro, {time}',
    fr: 'Traite finie : déjà dans le livre, {time}',
    pl: 'Dój zakończony: już w księdze, {time}',
    uk: 'Доїння закінчено: уже в книзі, {time}',
  },
  'When the milking finished is not said: the book takes its planned end and an hour': {
    es: 'No se dice cuándo terminó el ordeño: el libro toma su final previsto y una hora',
    fr: 'La fin de la traite n’est pas dite : le livre prend la fin prévue et une heure',
    pl: 'Nie podano, kiedy zakończył się dój: księga bierze jego planowany koniec i godzinę',
    uk: 'Не сказано, коли закінчили доїння: книга бере запланований кінець і годину',
  },
  'The groups add up to {sum}, the sheet says {all} for all of them: check the figures': {
    es: 'Los grupos suman {sum}, la hoja dice {all} para todos: revise las cifras',
    fr: 'Les lots font {sum} en tout, la feuille dit {all} pour tous : vérifiez les chiffres',
    pl: 'Grupy dają razem {sum}, arkusz podaje dla wszystkich {all}: sprawdź liczby',
    uk: 'Групи разом дають {sum}, аркуш каже для всіх {all}: перевірте числа',
  },
} as const satisfies Sentences;
