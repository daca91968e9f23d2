/** An edit seldom puts in or takes out more than that; what stands farther away is looked for among all. */
const NEAR = 16;

/**
 * Where things stood in a list when they were last found: in the next version of the list they stand there or near, so
 * nothing has to be counted anew when something is put in before them.
 */
export class LastPlaces<K extends object> {
  private readonly places = new WeakMap<K, number>();

  /** Notes where something stands that is new, or elsewhere than in the list before. */
  note(thing: K, place: number): void {
    this.places.set(thing, place);
  }

  /**
   * The place of something in a list.
   * @param isAt whether it stands at a place
   * @param find looks for it among all, where it is not near to where it was
   * @returns less than 0 where it is nowhere
   */
  find(thing: K, isAt: (place: number) => boolean, find: () => number): number {
    const known = this.places.get(thing);
    if (known === undefined) return -1;
    const place = findNear(known, isAt) ?? find();
    if (place !== known && place >= 0) this.places.set(thing, place);
    return place;
  }
}

function findNear(known: number, isAt: (place: number) => boolean): number | undefined {
  for (let off = 0; off <= NEAR; off++) {
    if (isAt(known + off)) return known + off;
    if (isAt(known - off)) return known - off;
  }
  return undefined;
}
