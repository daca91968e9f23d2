/** So many members are looked for one by one; more are found by walking once over all. */
const FEW = 16;

/** Where some of the members of a list stand, in the order of the list. */
export function placesOf<E>(some: ReadonlySet<E>, list: readonly E[]): number[] {
  const places: number[] = [];
  if (some.size > FEW) {
    for (let place = 0; place < list.length; place++) if (some.has(list[place] as E)) places.push(place);
    return places;
  }
  for (const member of some) {
    const place = list.indexOf(member);
    if (place >= 0) places.push(place);
  }
  return places.sort((a, b) => a - b);
}
