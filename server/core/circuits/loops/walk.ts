/**
 * A walk through a graph in depth, with a list in place of recursion. For each node it knows when it was entered, and the
 * earliest node that is known to be reached from there, which is what the searches of Tarjan compare.
 */
export class Walk {
  /** By node: as which it was entered, from 1; 0 while it was not. */
  readonly order: Int32Array;
  /** By node: the lowest order that is reached from it. */
  readonly low: Int32Array;
  /** The nodes on the way from the root. */
  readonly path: number[] = [];
  private time = 0;

  constructor(nodes: number) {
    this.order = new Int32Array(nodes);
    this.low = new Int32Array(nodes);
  }

  enter(node: number): void {
    this.time += 1;
    this.order[node] = this.time;
    this.low[node] = this.time;
    this.path.push(node);
  }

  lower(node: number, to = 0): void {
    if (to < (this.low[node] ?? 0)) this.low[node] = to;
  }
}
