/**
 * How conductors are laid, with the letters of IEC 60204-1: B1 single conductors in conduit or duct, B2 a cable in
 * conduit or duct, C on a wall or an open tray, E in free air or on a perforated tray.
 */
export type Laying = 'B1' | 'B2' | 'C' | 'E';

type CapacityRow = readonly [size: number, byLaying: Readonly<Record<Laying, number>>];

/**
 * EN 60204-1 Table 6: PVC-insulated copper, 40 C ambient, 70 C conductor; nominal mm2 and A. Read in drive makers'
 * manuals: 0.75 C and E, 1 B2 and C, 1.5 B2 and E, 2.5 C and E, 4 B2 and C, 6 B2 and E. The rest, all of B1 and the
 * sizes below 0.75 mm2 among them, is from memory of the standard: have it checked before relying on it. Those small
 * sizes are its rows for pairs in electronics, which have no B1; B2 stands there too.
 */
const TABLE_6: readonly CapacityRow[] = [
  [0.2, { B1: 4.3, B2: 4.3, C: 4.4, E: 4.4 }],
  [0.5, { B1: 7.5, B2: 7.5, C: 7.5, E: 7.8 }],
  [0.75, { B1: 8.6, B2: 8.5, C: 9.8, E: 10.4 }],
  [1, { B1: 10.3, B2: 10.1, C: 11.7, E: 12.4 }],
  [1.5, { B1: 13.5, B2: 13.1, C: 15.2, E: 16.1 }],
  [2.5, { B1: 18.3, B2: 17.4, C: 21, E: 22 }],
  [4, { B1: 24, B2: 23, C: 28, E: 30 }],
  [6, { B1: 31, B2: 30, C: 36, E: 37 }],
  [10, { B1: 44, B2: 40, C: 50, E: 52 }],
  [16, { B1: 59, B2: 54, C: 66, E: 70 }],
];

/**
 * Current that a conductor may carry all the time at 40 C ambient, alone in its conduit (EN 60204-1 Table 6). A
 * size between two rows carries what the smaller one does; a gauge number goes by its area (`awgArea`).
 * @param size m2
 * @returns A; NaN for a size below the smallest row, since nothing is known of it.
 */
export function conductorCapacity(size: number, laying: Laying): number {
  const row = TABLE_6.findLast(([listed]) => listed * 1e-6 <= size * (1 + 1e-6));
  return row === undefined ? Number.NaN : row[1][laying];
}

/** NFPA 79 Table 12.5.1, copper, 75 C column: AWG number and A. From memory: check the standard before relying on it. */
const NFPA_79: readonly (readonly [gauge: number, current: number])[] = [
  [30, 0.5],
  [28, 0.8],
  [26, 1],
  [24, 2],
  [22, 3],
  [20, 5],
  [18, 7],
];

/**
 * Current that a small conductor may carry by NFPA 79: for gauges from 30 to 18, and those between two rows as the
 * thinner one. Thicker wire goes by `conductorCapacity` of its area.
 * @param gauge AWG number
 * @returns A; NaN for a gauge outside the table.
 */
export function smallConductorCapacity(gauge: number): number {
  const row = gauge >= 18 ? NFPA_79.findLast(([listed]) => listed >= gauge) : undefined;
  return row === undefined ? Number.NaN : row[1];
}

/**
 * Factor on the capacity of a conductor for the temperature around it: sqrt((limit - t) / (limit - reference)), since
 * what a conductor heats by goes with the square of its current. EN 60204-1 Table D.1 (70 C PVC, 40 C) and
 * IEC 60364-5-52 (30 C) print this rounded.
 * @param ambient deg C
 * @param reference deg C, for which the capacity is given
 * @param limit deg C, that the conductor may reach
 * @returns 1; 0 at or above the limit; NaN for a reference not below the limit.
 */
export function ambientFactor(ambient: number, reference = 40, limit = 70): number {
  const room = limit > reference ? limit - reference : Number.NaN;
  return Math.sqrt(Math.max(0, limit - ambient) / room);
}

type GroupingRow = readonly [most: number, factor: number];

/** EN 60204-1 Table D.2, conduit and duct (B1, B2) and a single layer on a tray (C, E). From memory of the standard. */
const TABLE_D2: Readonly<Record<Laying, readonly GroupingRow[]>> = {
  B1: [
    [1, 1],
    [2, 0.8],
    [4, 0.65],
    [6, 0.57],
    [9, 0.5],
  ],
  B2: [
    [1, 1],
    [2, 0.8],
    [4, 0.65],
    [6, 0.57],
    [9, 0.5],
  ],
  C: [
    [1, 1],
    [2, 0.85],
    [4, 0.75],
    [6, 0.72],
    [9, 0.7],
  ],
  E: [
    [1, 1],
    [2, 0.88],
    [4, 0.77],
    [6, 0.73],
    [9, 0.72],
  ],
};

/**
 * Factor on the capacity of conductors that run together (EN 60204-1 Table D.2). A number between two rows takes the
 * factor of the greater.
 * @param circuits number of loaded circuits, or of loaded pairs, that run together
 * @returns 1; NaN for fewer than one or more than the table's nine.
 */
export function groupingFactor(circuits: number, laying: Laying): number {
  return firstReaching(TABLE_D2[laying], circuits);
}

/** NEC Table 310.15(C)(1). From memory, not read: 1 to 3 conductors, and 10 to 20. */
const NEC_GROUPING: readonly GroupingRow[] = [
  [3, 1],
  [6, 0.8],
  [9, 0.7],
  [20, 0.5],
  [30, 0.45],
  [40, 0.4],
];

/**
 * Factor on the capacity of conductors that share a raceway or cable (NEC Table 310.15(C)(1)).
 * @param conductors number that carry current
 * @returns 1; 0.35 from 41 up; NaN for fewer than one.
 */
export function conductorCountFactor(conductors: number): number {
  return conductors > 40 ? 0.35 : firstReaching(NEC_GROUPING, conductors);
}

function firstReaching(rows: readonly GroupingRow[], count: number): number {
  const row = count >= 1 ? rows.find(([most]) => count <= most) : undefined;
  return row === undefined ? Number.NaN : row[1];
}
