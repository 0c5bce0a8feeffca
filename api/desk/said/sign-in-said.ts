/** Signing in, and forms that can't be taken, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from './sentences.ts';

export const signInSaid = {
  'Sign in': { es: 'Entrar', fr: 'Se connecter', pl: 'Zaloguj', uk: 'Увійти' },
  'Your name, as it should stand behind what you write down': {
    es: 'Su nombre, tal como debe figurar en lo que anote',
    fr: 'Votre nom, tel qu’il doit figurer à côté de ce que vous notez',
    pl: 'Twoje imię i nazwisko, tak jak ma stać przy tym, co zapiszesz',
    uk: 'Ваше ім’я, як воно має стояти біля того, що ви записуєте',
  },
  'Token of this device': {
    es: 'Clave de este aparato',
    fr: 'Jeton de cet appareil',
    pl: 'Klucz tego urządzenia',
    uk: 'Ключ цього пристрою',
  },
  'This token is not good here: it is mistyped, of another book, or taken back. Ask whoever keeps the book.': {
    es: 'Esta clave no vale aquí: está mal escrita, es de otro libro o se retiró. Pregunte a quien lleva el libro.',
    fr: 'Ce jeton ne vaut pas ici : il est mal tapé, d’un autre livre, ou retiré. Demandez à qui tient le livre.',
    pl: 'Ten klucz tu nie działa: jest błędnie wpisany, z innej księgi albo cofnięty. Zapytaj osobę, która prowadzi księgę.',
    uk: 'Цей ключ тут не діє: його набрано з помилкою, він від іншої книги або відкликаний. Спитайте того, хто веде книгу.',
  },
  'Too many wrong tokens came from there; wait {seconds, plural, one {# second} other {# seconds}}.': {
    es: 'Llegaron demasiadas claves erróneas desde ahí; espere {seconds, plural, one {# segundo} many {# de segundos} other {# segundos}}.',
    fr: 'Trop de mauvais jetons sont venus de là ; attendez {seconds, plural, one {# seconde} many {# de secondes} other {# secondes}}.',
    pl: 'Z tego miejsca przyszło za dużo błędnych kluczy; odczekaj {seconds, plural, one {# sekundę} few {# sekundy} many {# sekund} other {# sekundy}}.',
    uk: 'Звідти надійшло забагато хибних ключів; зачекайте {seconds, plural, one {# секунду} few {# секунди} many {# секунд} other {# секунди}}.',
  },
  'That is too fast; wait {seconds, plural, one {# second} other {# seconds}}, then go on.': {
    es: 'Va demasiado rápido; espere {seconds, plural, one {# segundo} many {# de segundos} other {# segundos}} y siga.',
    fr: 'C’est trop rapide ; attendez {seconds, plural, one {# seconde} many {# de secondes} other {# secondes}}, puis continuez.',
    pl: 'To za szybko; odczekaj {seconds, plural, one {# sekundę} few {# sekundy} many {# sekund} other {# sekundy}} i idź dalej.',
    uk: 'Це зашвидко; зачекайте {seconds, plural, one {# секунду} few {# секунди} many {# секунд} other {# секунди}} і продовжуйте.',
  },
  'Type the token of this device': {
    es: 'Escriba la clave de este aparato',
    fr: 'Tapez le jeton de cet appareil',
    pl: 'Wpisz klucz tego urządzenia',
    uk: 'Введіть ключ цього пристрою',
  },
  'Whoever keeps the book makes one with {command}; it is shown once.': {
    es: 'La hace quien lleva el libro, con {command}; se muestra una sola vez.',
    fr: 'Qui tient le livre en fait un avec {command} ; il n’est montré qu’une fois.',
    pl: 'Robi go osoba prowadząca księgę: {command}; pokazuje się tylko raz.',
    uk: 'Його робить той, хто веде книгу: {command}; показується лише раз.',
  },
  'This address signs in this one browser; it does not work a second time.': {
    es: 'Esta dirección abre la entrada a este navegador; no sirve una segunda vez.',
    fr: 'Cette adresse connecte ce navigateur seul ; elle ne sert pas une seconde fois.',
    pl: 'Ten adres loguje tylko tę przeglądarkę; drugi raz nie zadziała.',
    uk: 'Ця адреса впускає лише цей браузер; удруге вона не спрацює.',
  },
  'That address was used already, or is older than ten minutes; start again, or sign in with a token': {
    es: 'Esa dirección ya se usó, o tiene más de diez minutos; empiece de nuevo, o entre con una clave',
    fr: 'Cette adresse a déjà servi, ou a plus de dix minutes ; recommencez, ou connectez-vous avec un jeton',
    pl: 'Ten adres był już użyty albo ma ponad dziesięć minut; zacznij od nowa albo zaloguj się kluczem',
    uk: 'Цю адресу вже використано, або їй понад десять хвилин; почніть знову або увійдіть із ключем',
  },
  'Say your name: it stands behind what you write down': {
    es: 'Diga su nombre: figura en lo que anote',
    fr: 'Dites votre nom : il figure à côté de ce que vous notez',
    pl: 'Podaj imię i nazwisko: stoi przy tym, co zapisujesz',
    uk: 'Назвіть своє ім’я: воно стоїть біля того, що ви записуєте',
  },
  'A device of the role {role} has no desk; sign in with another': {
    es: 'Un aparato con el papel {role} no tiene escritorio; entre con otro',
    fr: 'Un appareil du rôle {role} n’a pas de bureau ; connectez-vous avec un autre',
    pl: 'Urządzenie w roli {role} nie ma tu biurka; zaloguj się innym',
    uk: 'Пристрій із роллю {role} не має стола; увійдіть з іншого',
  },
  'A device of the role {role} may not do that': {
    es: 'Un aparato con el papel {role} no puede hacer eso',
    fr: 'Un appareil du rôle {role} ne peut pas faire cela',
    pl: 'Urządzeniu w roli {role} tego nie wolno',
    uk: 'Пристрою з роллю {role} цього не дозволено',
  },
  'You are not signed in any more, so nothing was saved. Sign in in another window, then go back here and save again': {
    es: 'Su entrada ha caducado, así que no se guardó nada. Entre en otra ventana, vuelva aquí y guarde de nuevo',
    fr: 'Vous n’êtes plus connecté, rien n’a donc été enregistré. Connectez-vous dans une autre fenêtre, revenez ici et enregistrez de nouveau',
    pl: 'Nie jesteś już zalogowany, więc niczego nie zapisano. Zaloguj się w innym oknie, wróć tutaj i zapisz jeszcze raz',
    uk: 'Ви вже не ввійшли, тому нічого не збережено. Увійдіть в іншому вікні, поверніться сюди і збережіть ще раз',
  },
  'This page takes what its own form sends': {
    es: 'Esta página solo toma lo que envía su propio formulario',
    fr: 'Cette page ne prend que ce qu’envoie son propre formulaire',
    pl: 'Ta strona przyjmuje tylko to, co wysyła jej własny formularz',
    uk: 'Ця сторінка приймає лише те, що надсилає її власна форма',
  },
  'The form is too long; send less at once': {
    es: 'El formulario es demasiado largo; envíe menos de una vez',
    fr: 'Le formulaire est trop long ; envoyez moins à la fois',
    pl: 'Formularz jest za długi; wyślij mniej naraz',
    uk: 'Форма задовга; надішліть менше за раз',
  },
  'The form cannot be read; go back and send it again': {
    es: 'El formulario no se puede leer; vuelva atrás y envíelo de nuevo',
    fr: 'Le formulaire ne peut pas être lu ; revenez en arrière et renvoyez-le',
    pl: 'Formularza nie da się odczytać; wróć i wyślij go jeszcze raz',
    uk: 'Форму не вдалося прочитати; поверніться й надішліть її ще раз',
  },
  'This form is not from your own sign-in, so nothing was saved; open it again': {
    es: 'Este formulario no es de su propia entrada, así que no se guardó nada; ábralo de nuevo',
    fr: 'Ce formulaire ne vient pas de votre propre connexion, rien n’a donc été enregistré ; ouvrez-le de nouveau',
    pl: 'Ten formularz nie pochodzi z twojego logowania, więc niczego nie zapisano; otwórz go ponownie',
    uk: 'Ця форма не з вашого входу, тому нічого не збережено; відкрийте її знову',
  },
} as const satisfies Sentences;
