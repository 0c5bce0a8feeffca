/** What stands around every page, in other languages. Wants a native reader of the trade before anybody relies on it. */
import type { Sentences } from './sentences.ts';

export const frameSaid = {
  'Skip to the page': {
    es: 'Ir a la página',
    fr: 'Aller à la page',
    pl: 'Przejdź do strony',
    uk: 'Перейти до сторінки',
  },
  Places: { es: 'Secciones', fr: 'Rubriques', pl: 'Działy', uk: 'Розділи' },
  Milking: { es: 'Ordeño', fr: 'Traite', pl: 'Dój', uk: 'Доїння' },
  'Write down': { es: 'Anotar', fr: 'Noter', pl: 'Zapisz', uk: 'Записати' },
  'From paper': { es: 'Del papel', fr: 'Du papier', pl: 'Z papieru', uk: 'З паперу' },
  Herd: { es: 'Rebaño', fr: 'Troupeau', pl: 'Stado', uk: 'Стадо' },
  'To settle': { es: 'Por resolver', fr: 'À régler', pl: 'Do wyjaśnienia', uk: 'З’ясувати' },
  Medicines: { es: 'Medicamentos', fr: 'Médicaments', pl: 'Leki', uk: 'Ліки' },
  Farm: { es: 'Granja', fr: 'Ferme', pl: 'Gospodarstwo', uk: 'Ферма' },
  Records: { es: 'Registros', fr: 'Registres', pl: 'Rejestry', uk: 'Записи' },
  'Sign out': { es: 'Salir', fr: 'Se déconnecter', pl: 'Wyloguj', uk: 'Вийти' },
  Language: { es: 'Idioma', fr: 'Langue', pl: 'Język', uk: 'Мова' },
  '“{language}” is not a language that is spoken here; choose one at the foot of a page': {
    es: '“{language}” no es un idioma que se hable aquí; elija uno al pie de una página',
    fr: '« {language} » n’est pas une langue parlée ici ; choisissez-en une au bas d’une page',
    pl: '„{language}” nie jest językiem, którym tu się mówi; wybierz inny u dołu strony',
    uk: '«{language}» — тут цією мовою не говорять; виберіть іншу внизу сторінки',
  },
  'Follow the label and the veterinarian; local rules and licensed practice decide. When unsure, keep the milk out of the tank and ask.':
    {
      es: 'Siga la etiqueta y al veterinario; mandan las normas locales y la práctica autorizada. Si duda, deje la leche fuera del tanque y pregunte.',
      fr: 'Suivez l’étiquette et le vétérinaire ; les règles locales et la pratique autorisée décident. Dans le doute, gardez le lait hors du tank et demandez.',
      pl: 'Trzymaj się etykiety i zaleceń lekarza weterynarii; rozstrzygają miejscowe przepisy i uprawniona praktyka. W razie wątpliwości nie wlewaj mleka do zbiornika i pytaj.',
      uk: 'Дотримуйтеся етикетки та вказівок ветеринара; вирішують місцеві правила й ліцензована практика. Якщо не певні, не зливайте молоко в танк і спитайте.',
    },
} as const satisfies Sentences;
