/** What went wrong, in other languages: the titles of the problems and the way on. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from './sentences.ts';

export const problemSaid = {
  'Go back with your browser: what you had filled in is still there. Or go to <a>the next milking</a>.': {
    es: 'Vuelva atrás con el navegador: lo que había escrito sigue ahí. O vaya al <a>próximo ordeño</a>.',
    fr: 'Revenez en arrière avec le navigateur : ce que vous aviez rempli est encore là. Ou allez à <a>la prochaine traite</a>.',
    pl: 'Wróć przyciskiem przeglądarki: to, co wpisano, nadal tam jest. Albo przejdź do <a>następnego doju</a>.',
    uk: 'Поверніться назад у браузері: те, що ви заповнили, ще там. Або перейдіть до <a>наступного доїння</a>.',
  },
  'Request {id}': { es: 'Petición {id}', fr: 'Demande {id}', pl: 'Żądanie {id}', uk: 'Запит {id}' },
  'The request cannot be read': {
    es: 'No se puede leer la petición',
    fr: 'La demande ne peut pas être lue',
    pl: 'Nie da się odczytać żądania',
    uk: 'Запит не вдалося прочитати',
  },
  'Something in the request is not as it must be': {
    es: 'Algo en la petición no es como debe ser',
    fr: 'Quelque chose dans la demande n’est pas comme il faut',
    pl: 'Coś w żądaniu nie jest takie, jak być musi',
    uk: 'Щось у запиті не так, як має бути',
  },
  'Say who you are': {
    es: 'Diga quién es',
    fr: 'Dites qui vous êtes',
    pl: 'Powiedz, kim jesteś',
    uk: 'Скажіть, хто ви',
  },
  'This device may not do that': {
    es: 'Este aparato no puede hacer eso',
    fr: 'Cet appareil ne peut pas faire cela',
    pl: 'Temu urządzeniu tego nie wolno',
    uk: 'Цьому пристрою цього не дозволено',
  },
  'Another site sent this': {
    es: 'Esto lo envió otro sitio',
    fr: 'Un autre site a envoyé ceci',
    pl: 'Wysłała to inna witryna',
    uk: 'Це надіслав інший сайт',
  },
  'Not in the open': {
    es: 'No sin cifrar',
    fr: 'Pas sans chiffrement',
    pl: 'Nie bez szyfrowania',
    uk: 'Не без шифрування',
  },
  'There is no such thing here': {
    es: 'Aquí no hay tal cosa',
    fr: 'Il n’y a rien de tel ici',
    pl: 'Nie ma tu niczego takiego',
    uk: 'Такого тут немає',
  },
  'That is not done this way': {
    es: 'Eso no se hace así',
    fr: 'Cela ne se fait pas ainsi',
    pl: 'Tego się tak nie robi',
    uk: 'Це робиться не так',
  },
  'The request took too long': {
    es: 'La petición tardó demasiado',
    fr: 'La demande a pris trop de temps',
    pl: 'Żądanie trwało za długo',
    uk: 'Запит тривав задовго',
  },
  'That is the book of another farm': {
    es: 'Ese es el libro de otra granja',
    fr: 'C’est le livre d’une autre ferme',
    pl: 'To księga innego gospodarstwa',
    uk: 'Це книга іншої ферми',
  },
  'The book cannot answer that': {
    es: 'El libro no puede responder a eso',
    fr: 'Le livre ne peut pas répondre à cela',
    pl: 'Księga nie może na to odpowiedzieć',
    uk: 'Книга не може на це відповісти',
  },
  'Too much at once': { es: 'Demasiado de una vez', fr: 'Trop à la fois', pl: 'Za dużo naraz', uk: 'Забагато за раз' },
  'Not a type that is taken here': {
    es: 'Aquí no se toma este tipo',
    fr: 'Ce type n’est pas pris ici',
    pl: 'Takiego rodzaju się tu nie przyjmuje',
    uk: 'Такого виду тут не приймають',
  },
  'This server does not answer to that name': {
    es: 'Este servidor no responde a ese nombre',
    fr: 'Ce serveur ne répond pas à ce nom',
    pl: 'Ten serwer nie odpowiada na tę nazwę',
    uk: 'Цей сервер не відповідає на таке ім’я',
  },
  'Too long a head of the request': {
    es: 'La cabecera de la petición es demasiado larga',
    fr: 'L’en-tête de la demande est trop long',
    pl: 'Nagłówek żądania jest za długi',
    uk: 'Заголовок запиту задовгий',
  },
  'Too many requests': {
    es: 'Demasiadas peticiones',
    fr: 'Trop de demandes',
    pl: 'Za dużo żądań',
    uk: 'Забагато запитів',
  },
  'There is nothing at that address': {
    es: 'No hay nada en esa dirección',
    fr: 'Il n’y a rien à cette adresse',
    pl: 'Pod tym adresem niczego nie ma',
    uk: 'За цією адресою нічого немає',
  },
  'Too many wrong tokens': {
    es: 'Demasiadas claves equivocadas',
    fr: 'Trop de jetons faux',
    pl: 'Za dużo błędnych kluczy',
    uk: 'Забагато неправильних ключів',
  },
  'Something went wrong that the server was not made for': {
    es: 'Falló algo para lo que el servidor no está hecho',
    fr: 'Une chose que le serveur ne prévoit pas a mal tourné',
    pl: 'Stało się coś, na co serwer nie jest przygotowany',
    uk: 'Сталося щось, до чого сервер не готовий',
  },
  'The book is in use': {
    es: 'El libro está ocupado',
    fr: 'Le livre est occupé',
    pl: 'Księga jest zajęta',
    uk: 'Книга зайнята',
  },
  'The disk is full': {
    es: 'El disco está lleno',
    fr: 'Le disque est plein',
    pl: 'Dysk jest pełny',
    uk: 'Диск повний',
  },
  'The disk or the file of the book gives trouble': {
    es: 'El disco o el archivo del libro da problemas',
    fr: 'Le disque ou le fichier du livre pose problème',
    pl: 'Są kłopoty z dyskiem albo z plikiem księgi',
    uk: 'Проблеми з диском або файлом книги',
  },
} as const satisfies Sentences;
