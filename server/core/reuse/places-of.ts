/** So many members are looked for one by one; more are found by walking once over all. */
const FEW = 16;

/** Where some of the members of a list stand, in the order of the list. */
export function placesOf<E>(some: ReadonlySet<E>, list: readonly E[]): number[] {
  if (some.size > FEW) return [...list.keys()].filter((place) => some.has(list[place] as E));
  const places = [...some].map((member) => list.indexOf(member)).filter((place) => place >= 0);
  return places.sort((a, b) => a - b);
}
