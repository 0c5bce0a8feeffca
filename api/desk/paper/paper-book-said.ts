/** How a set and its lines stand in the book when the sheet comes back, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from '../said/sentences.ts';

export const paperBookSaid = {
  'in the book already: counted {count} ({author})': {
    es: 'ya en el libro: contadas {count} ({author})',
    fr: 'déjà dans le livre : comptées {count} ({author})',
    pl: 'już w księdze: naliczono {count} ({author})',
    uk: 'уже в книзі: нараховано {count} ({author})',
  },
  'no cow of the herd is {number} at that milking any more: ticked, it stands unplaced until settled': {
    es: 'en ese ordeño ya ninguna vaca del rebaño es {number}: marcado, queda sin vaca hasta que se aclare',
    fr: 'à cette traite, plus aucune vache du troupeau n’est {number} : coché, cela reste sans vache jusqu’à ce que ce soit réglé',
    pl: 'na tym doju żadna krowa stada nie jest już {number}: zaznaczone stoi bez krowy, aż się wyjaśni',
    uk: 'на тому доїнні в стаді вже немає корови {number}: позначене стоятиме без корови, доки не з’ясують',
  },
  '{number} may mean {n, plural, one {# cow} other {# cows}}: ticked, it may count for each of them': {
    es: '{number} puede ser {n, plural, one {# vaca} other {# vacas}}: marcado, puede contar para cada una',
    fr: '{number} peut désigner {n, plural, one {# vache} other {# vaches}} : coché, cela peut compter pour chacune',
    pl: '{number} może oznaczać {n, plural, one {# krowę} few {# krowy} many {# krów} other {# krowy}}: zaznaczone może liczyć się każdej z nich',
    uk: '{number} може означати {n, plural, one {# корову} few {# корови} many {# корів} other {# корови}}: позначене може рахуватися кожній',
  },
  'her number is {number} now': {
    es: 'su número ahora es {number}',
    fr: 'son numéro est maintenant {number}',
    pl: 'jej numer to teraz {number}',
    uk: 'її номер тепер {number}',
  },
  'she left the herd {time}': {
    es: 'salió del rebaño {time}',
    fr: 'elle a quitté le troupeau {time}',
    pl: 'wyszła ze stada {time}',
    uk: 'вибула зі стада {time}',
  },
  'the earlier doses of this course are not in this book; get the other book’s entries first': {
    es: 'las dosis anteriores de este tratamiento no están en este libro; traiga primero las entradas del otro libro',
    fr: 'les doses précédentes de ce traitement ne sont pas dans ce livre ; prenez d’abord les notes de l’autre livre',
    pl: 'wcześniejszych dawek tej kuracji nie ma w tej księdze; najpierw pobierz wpisy drugiej księgi',
    uk: 'попередніх доз цього курсу в цій книзі немає; спершу візьміть записи іншої книги',
  },
  'in the book already: given {when}': {
    es: 'ya en el libro: dada {when}',
    fr: 'déjà dans le livre : donnée {when}',
    pl: 'już w księdze: podana {when}',
    uk: 'уже в книзі: дано {when}',
  },
  'overdue when the sheet was printed': {
    es: 'atrasada cuando se imprimió la hoja',
    fr: 'en retard quand la feuille a été imprimée',
    pl: 'zaległa, gdy drukowano arkusz',
    uk: 'прострочена, коли друкували аркуш',
  },
  'every dose behind this line was struck since: ask first': {
    es: 'todas las dosis detrás de esta línea se tacharon después: pregunte antes',
    fr: 'toutes les doses derrière cette ligne ont été rayées depuis : demandez d’abord',
    pl: 'wszystkie dawki stojące za tym wierszem skreślono: najpierw zapytaj',
    uk: 'усі дози за цим рядком відтоді викреслено: спершу спитайте',
  },
  'the course was ended {when}': {
    es: 'el tratamiento se terminó {when}',
    fr: 'le traitement a été arrêté {when}',
    pl: 'kurację zakończono {when}',
    uk: 'курс закінчено {when}',
  },
  'a dose of it outside this course is in the book, {when}: if it is this one, do not tick': {
    es: 'en el libro hay una dosis fuera de este tratamiento, {when}: si es esta, no la marque',
    fr: 'une dose hors de ce traitement est dans le livre, {when} : si c’est celle-ci, ne cochez pas',
    pl: 'w księdze jest dawka poza tą kuracją, {when}: jeśli to ta, nie zaznaczaj',
    uk: 'у книзі є доза поза цим курсом, {when}: якщо це вона, не позначайте',
  },
  'in the book already: dried off {when}': {
    es: 'ya en el libro: secada {when}',
    fr: 'déjà dans le livre : tarie {when}',
    pl: 'już w księdze: zasuszona {when}',
    uk: 'уже в книзі: запущена {when}',
  },
  'in the book already: she was dry at that milking': {
    es: 'ya en el libro: estaba seca en ese ordeño',
    fr: 'déjà dans le livre : elle était tarie à cette traite',
    pl: 'już w księdze: na tym doju była zasuszona',
    uk: 'уже в книзі: на тому доїнні вона була сухостійна',
  },
  'in the book already: moved to {group} {time}': {
    es: 'ya en el libro: pasada a {group} {time}',
    fr: 'déjà dans le livre : passée dans {group} {time}',
    pl: 'już w księdze: przeniesiona do: {group} {time}',
    uk: 'уже в книзі: переведена до: {group} {time}',
  },
  'in the book already: she stands in {group}': {
    es: 'ya en el libro: está en {group}',
    fr: 'déjà dans le livre : elle est dans {group}',
    pl: 'już w księdze: stoi w: {group}',
    uk: 'уже в книзі: стоїть у: {group}',
  },
  'she was moved to {group} {time}': {
    es: 'se pasó a {group} {time}',
    fr: 'elle a été passée dans {group} {time}',
    pl: 'przeniesiono ją do: {group} {time}',
    uk: 'її переведено до: {group} {time}',
  },
  'written up at its own line of another sheet': {
    es: 'se anota en su propia línea de otra hoja',
    fr: 'se reporte à sa propre ligne d’une autre feuille',
    pl: 'przepisuje się w jej własnym wierszu innego arkusza',
    uk: 'переноситься у власному рядку іншого аркуша',
  },
  'struck since: nobody asks for her any more': {
    es: 'tachada después: ya nadie la pide',
    fr: 'rayé depuis : plus personne ne la demande',
    pl: 'skreślono: nikt już o nią nie prosi',
    uk: 'відтоді викреслено: її вже ніхто не просить',
  },
  'in the book already: sorted {time}': {
    es: 'ya en el libro: apartada {time}',
    fr: 'déjà dans le livre : triée {time}',
    pl: 'już w księdze: oddzielona {time}',
    uk: 'уже в книзі: відділена {time}',
  },
  'This set came back already: {told}. What you tick now is added to it.': {
    es: 'Este juego ya volvió: {told}. Lo que marque ahora se le añade.',
    fr: 'Ce jeu est déjà revenu : {told}. Ce que vous cochez maintenant s’y ajoute.',
    pl: 'Ten zestaw już wrócił: {told}. To, co teraz zaznaczysz, zostanie dodane.',
    uk: 'Цей комплект уже повернувся: {told}. Позначене тепер до нього додасться.',
  },
  'written up {time} by {author}': {
    es: 'pasado al libro {time} por {author}',
    fr: 'reporté {time} par {author}',
    pl: 'przepisano {time}, {author}',
    uk: 'перенесено {time}, {author}',
  },
  '{told}, from {by}': {
    es: '{told}, de {by}',
    fr: '{told}, de {by}',
    pl: '{told}, od: {by}',
    uk: '{told}, від: {by}',
  },
  '{told}. Its note: {note}': {
    es: '{told}. Su nota: {note}',
    fr: '{told}. Sa note : {note}',
    pl: '{told}. Jego uwaga: {note}',
    uk: '{told}. Його примітка: {note}',
  },
  'A later set for this milking is {ref}. Write up the one that was written on; what one has, the other does not ask for again.':
    {
      es: 'Hay un juego posterior para este ordeño, {ref}. Pase al libro el que lleva lo escrito; lo que tiene uno, el otro no lo vuelve a pedir.',
      fr: 'Un jeu plus récent pour cette traite est {ref}. Reportez celui sur lequel on a écrit ; ce que l’un a, l’autre ne le redemande pas.',
      pl: 'Późniejszy zestaw na ten dój to {ref}. Przepisz ten, na którym pisano; o to, co ma jeden, drugi nie pyta ponownie.',
      uk: 'Пізніший комплект на це доїння — {ref}. Перенесіть той, на якому писали; що є в одному, того другий знову не питає.',
    },
  'This set was issued by another book of this farm; its lines came with it.': {
    es: 'Este juego lo emitió otro libro de esta granja; sus líneas vinieron con él.',
    fr: 'Ce jeu a été émis par un autre livre de cette ferme ; ses lignes sont venues avec lui.',
    pl: 'Ten zestaw wydała inna księga tego gospodarstwa; jego wiersze przyszły razem z nim.',
    uk: 'Цей комплект видала інша книга цього господарства; його рядки надійшли разом із ним.',
  },
  'The lines of its {sheet} sheet can’t be read by this version; write what was done on it as lines by hand.': {
    es: 'Esta versión no puede leer las líneas de su hoja {sheet}; escriba como líneas a mano lo que se hizo en ella.',
    fr: 'Cette version ne peut pas lire les lignes de sa feuille {sheet} ; écrivez en lignes à la main ce qui y a été fait.',
    pl: 'Ta wersja nie może odczytać wierszy arkusza {sheet}; to, co z niego zrobiono, wpisz jako wiersze ręczne.',
    uk: 'Ця версія не може прочитати рядків його аркуша {sheet}; що за ним зроблено, запишіть рядками від руки.',
  },
  'milk-hold ¦ a sheet of a set': {
    es: 'leche retenida',
    fr: 'lait retenu',
    pl: 'mleko wstrzymane',
    uk: 'молоко затримане',
  },
  'dry-off ¦ a sheet of a set': { es: 'secado', fr: 'tarissement', pl: 'zasuszanie', uk: 'запуск' },
  'fresh-moves ¦ a sheet of a set': { es: 'recién paridas', fr: 'fraîches', pl: 'świeżo wycielone', uk: 'новотільні' },
  'sort ¦ a sheet of a set': { es: 'aparte', fr: 'tri', pl: 'oddzielanie', uk: 'відділення' },
  'counts ¦ a sheet of a set': { es: 'recuento', fr: 'comptage', pl: 'liczenie', uk: 'підрахунок' },
  'This device returns the sheet with its notes; doses, moves, sorts and counts are written up at the manager’s or the crew’s.':
    {
      es: 'Este aparato devuelve la hoja con sus notas; dosis, cambios de grupo, apartes y recuentos se pasan en el del encargado o el del equipo.',
      fr: 'Cet appareil rend la feuille avec ses notes ; doses, déplacements, tris et comptages se reportent sur celui du responsable ou de l’équipe.',
      pl: 'To urządzenie zwraca arkusz z uwagami; dawki, przeniesienia, oddzielenia i liczenia przepisuje się u kierownika albo u załogi.',
      uk: 'Цей пристрій повертає аркуш із примітками; дози, переведення, відділення й підрахунки переносять на пристрої керівника або бригади.',
    },
} as const satisfies Sentences;
