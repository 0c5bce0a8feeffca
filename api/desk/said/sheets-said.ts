/** The names of the sheets and lists, and the page of an issued set, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from './sentences.ts';

export const sheetsSaid = {
  'Wall set': { es: 'Juego de la pared', fr: 'Jeu du mur', pl: 'Zestaw na ścianę', uk: 'Комплект на стіну' },
  'Dry-off': { es: 'Secado', fr: 'Tarissement', pl: 'Zasuszanie', uk: 'Запуск' },
  'Fresh moves': { es: 'Recién paridas', fr: 'Fraîches', pl: 'Świeżo wycielone', uk: 'Новотільні' },
  Sort: { es: 'Aparte', fr: 'Tri', pl: 'Oddzielanie', uk: 'Відділення' },
  Counts: { es: 'Recuento', fr: 'Comptage', pl: 'Liczenie', uk: 'Підрахунок' },
  'Milking plan': { es: 'Plan de ordeño', fr: 'Plan de traite', pl: 'Plan doju', uk: 'План доїння' },
  'Beef hold': { es: 'Carne retenida', fr: 'Viande retenue', pl: 'Karencja mięsa', uk: 'Затримка м’яса' },
  Office: { es: 'Oficina', fr: 'Bureau', pl: 'Biuro', uk: 'Контора' },
  'Bands off': { es: 'Quitar banda', fr: 'Bandes à ôter', pl: 'Zdjąć opaski', uk: 'Зняти стрічки' },
  'Treat now': { es: 'Tratar ahora', fr: 'À traiter', pl: 'Leczyć teraz', uk: 'Лікувати зараз' },
  'Slow cows': { es: 'Vacas lentas', fr: 'Vaches lentes', pl: 'Wolne krowy', uk: 'Повільні корови' },
  'Sheets {ref}': { es: 'Hojas {ref}', fr: 'Feuilles {ref}', pl: 'Arkusze {ref}', uk: 'Аркуші {ref}' },
  'For {milking}, issued {time}. Take the old sheets down when you hang these up.': {
    es: 'Para {milking}, emitidas {time}. Quite las hojas viejas cuando cuelgue estas.',
    fr: 'Pour {milking}, émises {time}. Retirez les vieilles feuilles quand vous accrochez celles-ci.',
    pl: 'Na dój {milking}, wydano {time}. Wieszając te, zdejmij stare arkusze.',
    uk: 'На доїння {milking}, видано {time}. Вішаючи ці, зніміть старі аркуші.',
  },
  'Sent to the printer {printer}.': {
    es: 'Enviadas a la impresora {printer}.',
    fr: 'Envoyées à l’imprimante {printer}.',
    pl: 'Wysłano do drukarki {printer}.',
    uk: 'Надіслано на принтер {printer}.',
  },
  'The printer did not take them; print them from here.': {
    es: 'La impresora no las aceptó; imprímalas desde aquí.',
    fr: 'L’imprimante ne les a pas prises ; imprimez-les d’ici.',
    pl: 'Drukarka ich nie przyjęła; wydrukuj je stąd.',
    uk: 'Принтер їх не прийняв; надрукуйте їх звідси.',
  },
  '{sheet}: the paper is kept by the book that issued it': {
    es: '{sheet}: el papel lo guarda el libro que lo emitió',
    fr: '{sheet} : le papier est gardé par le livre qui l’a émis',
    pl: '{sheet}: papier przechowuje księga, która go wydała',
    uk: '{sheet}: папір зберігає книга, яка його видала',
  },
  'Print each from your browser. When a sheet comes back, <a>write it up</a>.': {
    es: 'Imprima cada una desde el navegador. Cuando vuelva una hoja, <a>pásela al libro</a>.',
    fr: 'Imprimez chacune depuis votre navigateur. Quand une feuille revient, <a>reportez-la</a>.',
    pl: 'Wydrukuj każdy z przeglądarki. Gdy arkusz wróci, <a>przepisz go</a>.',
    uk: 'Друкуйте кожен із браузера. Коли аркуш повернеться, <a>перенесіть його</a>.',
  },
  'There is no sheet "{sheet}"': {
    es: 'No hay ninguna hoja "{sheet}"',
    fr: 'Il n’y a pas de feuille « {sheet} »',
    pl: 'Nie ma arkusza „{sheet}”',
    uk: 'Аркуша «{sheet}» немає',
  },
  'The {sheet} paper of set {ref} is not kept in this book': {
    es: 'El papel {sheet} del juego {ref} no se guarda en este libro',
    fr: 'Le papier {sheet} du jeu {ref} n’est pas gardé dans ce livre',
    pl: 'Papieru {sheet} z zestawu {ref} nie ma w tej księdze',
    uk: 'Паперу {sheet} з комплекту {ref} у цій книзі немає',
  },
  'No set {ref} was issued that this book knows of; check the ref': {
    es: 'Este libro no sabe de ningún juego {ref} emitido; revise la referencia',
    fr: 'Ce livre ne connaît aucun jeu {ref} émis ; vérifiez la référence',
    pl: 'Ta księga nie wie o wydaniu zestawu {ref}; sprawdź oznaczenie',
    uk: 'Ця книга не знає про виданий комплект {ref}; перевірте позначку',
  },
} as const satisfies Sentences;
