/**
 * The part of ELK's JSON graph format that the drawing uses: what goes into the layout, and, once laid out, the same
 * objects with their places filled in. Ids are our own running numbers, so that no name can upset the layout.
 * Format: Eclipse Layout Kernel, "JSON Format" (https://eclipse.dev/elk/documentation/tooldevelopers/graphdatastructure/jsonformat.html).
 */
export interface LayoutGraph {
  readonly id: string;
  readonly layoutOptions: Readonly<Record<string, string>>;
  readonly children: readonly LayoutNode[];
  readonly edges: readonly LayoutEdge[];
}

export interface LayoutNode {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly layoutOptions: Readonly<Record<string, string>>;
  readonly ports: readonly LayoutPort[];
}

/** A point on the rim of a block where wires join. Its place is given, relative to the block. */
export interface LayoutPort {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Room that nothing else may take, outside the rim. */
  readonly labels?: readonly {
    readonly id: string;
    readonly text: string;
    readonly width: number;
    readonly height: number;
  }[];
  readonly layoutOptions: Readonly<Record<string, string>>;
}

export interface LayoutEdge {
  readonly id: string;
  readonly sources: readonly string[];
  readonly targets: readonly string[];
  /** Where it ran before, for a layout that keeps what stands. */
  readonly sections?: readonly LayoutSection[];
}

export interface LayoutSection {
  readonly id: string;
  readonly startPoint: Point;
  readonly endPoint: Point;
  readonly bendPoints: readonly Point[];
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** What the layout gives back, as far as the drawing reads it. */
export interface LaidOut {
  readonly width?: number;
  readonly height?: number;
  readonly children?: readonly LaidOutNode[];
  readonly edges?: readonly LaidOutEdge[];
}

export interface LaidOutNode {
  readonly id: string;
  readonly x?: number;
  readonly y?: number;
  readonly width?: number;
}

export interface LaidOutEdge {
  readonly id: string;
  readonly sections?: readonly {
    readonly startPoint: Point;
    readonly endPoint: Point;
    readonly bendPoints?: readonly Point[];
  }[];
  readonly junctionPoints?: readonly Point[];
}
