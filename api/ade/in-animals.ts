/**
 * Which cow an identifier of another system means. An official number means her wherever the herd or the file knows it; else an
 * animal resource of the file gives her management tag; else the identifier itself is read as her barn number.
 */
import type { Herd } from '../../projections/who.ts';
import { isBarnNumber, officialDigits } from '../../shared/cow-number.ts';
import type { Fields } from './in-fields.ts';
import type { Incoming } from './in-resource.ts';
import { BARN_SCHEME } from './names.ts';
import type { Identifier } from './resource.ts';

export interface AnimalNamed {
  readonly official: string | undefined;
  /** Her barn number. */
  readonly tag: string | undefined;
}

export interface Animals {
  /** What an entry about her has as its subject; undefined where no number can be read. */
  readonly subjectOf: (identifier: Identifier | undefined) => string | undefined;
  /** The barn number that she bears in the book’s herd, before the file has its say. */
  readonly numberInHerd: (identifier: Identifier | undefined) => string | undefined;
  readonly namedBy: (fields: Fields) => AnimalNamed;
  /** Is she in the herd of the book? */
  readonly inHerd: (named: AnimalNamed) => boolean;
}

const key = ({ id, scheme }: Identifier): string => `${scheme}|${id}`;

export const animalsOf = (resources: readonly Incoming[], herd: Herd): Animals => {
  const index = new Map<string, AnimalNamed>();
  const officials = new Set<string>();
  const tags = new Set<string>();
  for (const animal of herd.animals) {
    if (!animal.present) continue;
    if (animal.officialId !== undefined) officials.add(animal.officialId);
    for (const span of animal.spans) if (span.to === null) tags.add(span.number);
  }
  const inBook = { officials: new Set(officials), tags };
  for (const resource of resources) {
    const isArrival = resource.kind === 'movementarrivalevent';
    const core = isArrival ? resource.fields.object('animalDetail') : resource.fields;
    if (core === undefined || !(isArrival || resource.kind === 'animalcore')) continue;
    const identifiers = identifiersIn(core, resource.animal);
    const named = namesIn(core, identifiers);
    for (const each of identifiers) if (each.scheme !== BARN_SCHEME) index.set(key(each), named);
    if (named.official !== undefined && (isArrival || named.tag !== undefined)) officials.add(named.official);
  }
  return {
    subjectOf: (identifier) => {
      if (identifier === undefined) return undefined;
      const { id, scheme } = identifier;
      if (scheme === BARN_SCHEME) return isBarnNumber(id) ? id : undefined;
      const digits = officialDigits(id);
      if (digits !== undefined && officials.has(digits)) return digits;
      const named = index.get(key(identifier));
      if (named?.official !== undefined && officials.has(named.official)) return named.official;
      if (named?.tag !== undefined) return named.tag;
      return digits ?? (isBarnNumber(id) ? id : undefined);
    },
    numberInHerd: (identifier) => {
      if (identifier === undefined) return undefined;
      const official = officialDigits(identifier.id);
      const bearer = herd.animals.find(
        (animal) => animal.present && official !== undefined && animal.officialId === official,
      );
      return (
        bearer?.spans.find((span) => span.to === null)?.number ?? (tags.has(identifier.id) ? identifier.id : undefined)
      );
    },
    namedBy: (fields) => namesIn(fields, identifiersIn(fields, undefined)),
    inHerd: ({ official, tag }) =>
      (official !== undefined && inBook.officials.has(official)) || (tag !== undefined && inBook.tags.has(tag)),
  };
};

const identifiersIn = (core: Fields, animal: Identifier | undefined): Identifier[] => {
  const one = core.object('identifier');
  const all = [...(one === undefined ? [] : [one]), ...core.objects('alternativeIdentifiers')];
  const read = all.flatMap((each) => {
    const id = each.text('id');
    return id === undefined ? [] : [{ id, scheme: each.text('scheme') ?? '' }];
  });
  return animal === undefined ? read : [animal, ...read];
};

const namesIn = (core: Fields, identifiers: readonly Identifier[]): AnimalNamed => {
  const tag = core.text('managementTag');
  const barn = identifiers.find(({ id, scheme }) => scheme === BARN_SCHEME && isBarnNumber(id))?.id;
  const readable = identifiers.find(({ id }) => officialDigits(id) === undefined && isBarnNumber(id))?.id;
  return {
    official: identifiers.map(({ id }) => officialDigits(id)).find((each) => each !== undefined),
    tag: tag !== undefined && isBarnNumber(tag) ? tag : (barn ?? readable),
  };
};
