/** A thing that differs between two versions; undefined where it is not there. At least one of the two is there. */
export interface Changed<T> {
  readonly id: string;
  readonly before: T | undefined;
  readonly after: T | undefined;
}

/**
 * What differs between two lists of things with names: first those of the version before, in its order, then those
 * that are new.
 * @param words what makes two things of one name the same; functions are called for things that both versions have
 */
export function compareNamed<T>(
  before: ReadonlyMap<string, T>,
  after: ReadonlyMap<string, T>,
  words: (thing: T) => string,
): Changed<T>[] {
  return [...new Set([...before.keys(), ...after.keys()])]
    .map((id) => ({ id, before: before.get(id), after: after.get(id) }))
    .filter(
      (each) =>
        each.before === undefined || each.after === undefined || words(each.before) !== words(each.after),
    );
}
