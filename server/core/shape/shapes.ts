import { machineSchema, sheetSchema } from '../../../schemas/index.ts';
import { compileShape } from './compile.ts';
import type { MapShape, Shape } from './shape.ts';

/** What `NAME.machine.yaml` may say. */
export const machineShape: MapShape = asMap(compileShape(machineSchema));

/** What `NAME.part.yaml` may say. */
export const sheetShape: MapShape = asMap(compileShape(sheetSchema));

/** A link with its wire, as an item of `wiring`. */
export const linkShape: MapShape = wiringBranch('link');

/** A cable, as an item of `wiring`. */
export const cableShape: MapShape = wiringBranch('cable');

function asMap(shape: Shape | undefined): MapShape {
  if (shape?.kind !== 'map') throw new Error(`a map was expected, not ${shape?.kind}`);
  return shape;
}

function wiringBranch(key: string): MapShape {
  const list = machineShape.keys.get('wiring')?.shape;
  const item = list?.kind === 'list' ? list.item : undefined;
  const branches = item?.kind === 'either' ? item.branches : [];
  return asMap(branches.find((branch) => branch.kind === 'map' && branch.keys.has(key)));
}
