import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import { numberOf } from '../../model/link-number.ts';
import { lengthOf, wireOf } from '../../model/link-wire.ts';
import { colourOf } from '../../model/wire-text.ts';
import type { Link } from '../../model/wiring.ts';
import { formatQuantity } from '../../units/index.ts';
import { linkId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { wireMark } from '../swatch.ts';
import { type Cell, joinWords, NOTHING, type Row, type Table } from '../tables/table.ts';

/** A conductor to cut. */
interface Piece {
  readonly link: Link;
  /** Its place in the order of the text. */
  readonly number: number;
  readonly gauge: string;
  /** In m2, for sorting; 0 where the wire is not known. */
  readonly area: number;
  readonly colour: string;
  /** In m; undefined where no length is written. */
  readonly length: number | undefined;
}

/** What to cut and label: single wires, cables with their conductors, and how much of each wire to have at hand. */
export function cutItems({ machine }: MachineAnalysis): SummaryItem[] {
  const pieces = machine.links.map((link) => pieceOf(link, numberOf(machine, link)));
  const single = pieces.filter(({ link }) => link.cable === undefined).sort(byWire);
  const inCables = pieces.filter(({ link }) => link.cable !== undefined);
  return [
    item('cut-list', cutTable(say`Single wires`, single, say`No single wire yet.`)),
    item(
      'cables',
      cableTable(
        machine.cables.map(({ name }) => name),
        inCables,
      ),
    ),
    item('conductors', cutTable(say`Conductors of cables`, inCables, say`No cable yet.`)),
    item('wire-totals', totalsTable(single)),
  ];
}

function item(id: string, table: Table): SummaryItem {
  return { id, section: 'lists', kind: 'table', table };
}

function pieceOf(link: Link, number: number): Piece {
  const wire = wireOf(link)?.value;
  return {
    link,
    number,
    gauge: wire?.gauge ?? NOTHING,
    area: wire?.area ?? 0,
    colour: colourOf(link) ?? NOTHING,
    length: lengthOf(link)?.value.value,
  };
}

/** Thick before thin, then by colour, then long before short, so that little is left over of each reel. */
function byWire(a: Piece, b: Piece): number {
  return (
    b.area - a.area || compare(a.colour, b.colour) || (b.length ?? 0) - (a.length ?? 0) || a.number - b.number
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

const metres = (length: number | undefined): string =>
  length === undefined ? NOTHING : formatQuantity(length, 'm', 4);

function colourCell(colour: string): Cell {
  return colour === NOTHING ? colour : { text: colour, view: wireMark(colour, colour) };
}

function cutTable(title: string, pieces: readonly Piece[], empty: string): Table {
  const rows = pieces.map(({ link, number, gauge, colour, length }): Row => {
    const [from, to] = [link.from.id, link.to.id];
    return {
      id: linkId(number),
      cells: [
        link.label ?? link.cable ?? say`link ${number}`,
        gauge,
        colourCell(colour),
        metres(length),
        from ?? '',
        to ?? '',
      ],
    };
  });
  const columns = [
    { title: say`Label` },
    { title: say`Wire` },
    { title: say`Colour` },
    { title: say`Length`, number: true },
    { title: say`From` },
    { title: say`To` },
  ];
  return {
    title,
    columns,
    rows,
    empty,
    ...(pieces.some(({ length }) => length === undefined) && {
      note: say`Lengths that are not written in the definition must be measured.`,
    }),
  };
}

function cableTable(names: readonly string[], pieces: readonly Piece[]): Table {
  const rows = [...new Set(names)].flatMap((name): Row[] => {
    const own = pieces.filter(({ link }) => link.cable === name);
    const [first] = own;
    if (!first) return [];
    const shared = first.link.wire.shared;
    const ends = (end: 'from' | 'to') => joinWords(own.map(({ link }) => link[end].part));
    return [
      {
        id: linkId(first.number),
        cells: [
          name,
          shared?.text('wire')?.value ?? NOTHING,
          metres(shared?.quantity('length')?.value.value),
          String(own.length),
          ends('from'),
          ends('to'),
          shared?.text('screen')?.value ?? NOTHING,
        ],
      },
    ];
  });
  const columns = [
    { title: say`Cable` },
    { title: say`Type` },
    { title: say`Length`, number: true },
    { title: say`Conductors used`, number: true },
    { title: say`From` },
    { title: say`To` },
    { title: say`Screen joined at` },
  ];
  return { title: say`Cables`, columns, rows, empty: say`No cable yet.` };
}

/** How much of each wire the cut list takes, without waste. */
function totalsTable(pieces: readonly Piece[]): Table {
  const totals = new Map<string, { piece: Piece; count: number; length: number; isKnown: boolean }>();
  for (const piece of pieces) {
    const key = `${piece.gauge} ${piece.colour}`;
    const there = totals.get(key) ?? { piece, count: 0, length: 0, isKnown: true };
    totals.set(key, {
      piece: there.piece,
      count: there.count + 1,
      length: there.length + (piece.length ?? 0),
      isKnown: there.isKnown && piece.length !== undefined,
    });
  }
  const rows = [...totals.values()].map(
    ({ piece, count, length, isKnown }): Row => ({
      cells: [
        piece.gauge,
        colourCell(piece.colour),
        String(count),
        length > 0 ? (isKnown ? metres(length) : say`more than ${metres(length)}`) : NOTHING,
      ],
    }),
  );
  const columns = [
    { title: say`Wire` },
    { title: say`Colour` },
    { title: say`Pieces`, number: true },
    { title: say`In all`, number: true },
  ];
  return {
    title: say`Wire to have at hand`,
    columns,
    rows,
    note: say`Single wires only, without waste.`,
    empty: say`No single wire yet.`,
  };
}
