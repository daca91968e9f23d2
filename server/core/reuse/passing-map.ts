/** So many keys may go, for each that is there, before the map is made anew; of few keys nothing is gained. */
const MOST_GONE = 1 / 4;
const FEW = 100;

/**
 * A map whose keys come and go over a long time. V8 keeps the place of a key that is deleted, and takes twice the room as
 * soon as all places are used, although many are empty; it never goes back while a quarter is used. Made anew now and then a
 * map stays as small as what is in it, and a delete costs no more than some of what it takes by itself.
 */
export class PassingMap<K, V> {
  /** To read and to set; another object after some deletes. */
  map = new Map<K, V>();
  private gone = 0;

  delete(key: K): void {
    if (!this.map.delete(key)) return;
    this.gone++;
    if (this.gone <= Math.max(FEW, this.map.size * MOST_GONE)) return;
    this.map = new Map(this.map);
    this.gone = 0;
  }
}
