import { asMap, unpackShapes } from './packed.ts';
import type { MapShape } from './shape.ts';
import { MACHINE_ROW, PROJECT_ROW, SHEET_ROW, TABLE } from './shapes.generated.ts';

const SHAPES = unpackShapes(TABLE);

/** What `NAME.machine.yaml` may say. */
export const machineShape: MapShape = asMap(SHAPES[MACHINE_ROW]);

/** What `NAME.part.yaml` may say. */
export const sheetShape: MapShape = asMap(SHAPES[SHEET_ROW]);

/** What `.fettle.yaml` may say. */
export const projectShape: MapShape = asMap(SHAPES[PROJECT_ROW]);

/** A link with its wire, as an item of `wiring`. */
export const linkShape: MapShape = wiringBranch('link');

/** A cable, as an item of `wiring`. */
export const cableShape: MapShape = wiringBranch('cable');

function wiringBranch(key: string): MapShape {
  const list = machineShape.keys.get('wiring')?.shape;
  const item = list?.kind === 'list' ? list.item : undefined;
  const branches = item?.kind === 'either' ? item.branches : [];
  return asMap(branches.find((branch) => branch.kind === 'map' && branch.keys.has(key)));
}
