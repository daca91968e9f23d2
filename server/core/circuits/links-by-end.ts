/** Which links end where, by the numbers of their ends; as chains in two plain lists, since it is made at every edit of a link. */
export class LinksByEnd {
  /** By the number of an end: the last place of `ends` at which it stands, or -1. */
  private readonly last: Int32Array;
  /** By place of `ends`: the place before at which the same end stands, or -1. */
  private readonly before: Int32Array;

  /** @param ends the numbers of both ends of every link, link by link */
  constructor(ends: Int32Array) {
    let most = -1;
    for (const end of ends) if (end > most) most = end;
    this.last = new Int32Array(most + 1).fill(-1);
    this.before = new Int32Array(ends.length);
    for (let place = 0; place < ends.length; place++) {
      const end = ends[place] ?? 0;
      this.before[place] = this.last[end] ?? -1;
      this.last[end] = place;
    }
  }

  /** Whether any link ends there. */
  has(end: number): boolean {
    return (this.last[end] ?? -1) >= 0;
  }

  /** The places of the links that end there, in order; twice the one of a link that ends there twice. */
  placesOf(end: number): number[] {
    const places: number[] = [];
    for (let place = this.last[end] ?? -1; place >= 0; place = this.before[place] ?? -1)
      places.push(place >> 1);
    return places.reverse();
  }
}
