import type { Circuit, Sheet } from './sheet.ts';

const bySheet = new WeakMap<Sheet, ReadonlyMap<string, readonly Circuit[]>>();

/** The circuits of a sheet that are of one kind. */
export function circuitsIn(sheet: Sheet, kind: string): readonly Circuit[] {
  let byKind = bySheet.get(sheet);
  if (!byKind) {
    byKind = gatherKinds(sheet);
    bySheet.set(sheet, byKind);
  }
  return byKind.get(kind) ?? [];
}

function gatherKinds(sheet: Sheet): ReadonlyMap<string, readonly Circuit[]> {
  const byKind = new Map<string, Circuit[]>();
  for (const circuit of sheet.circuits.values()) {
    const there = byKind.get(circuit.kind);
    if (there) there.push(circuit);
    else byKind.set(circuit.kind, [circuit]);
  }
  return byKind;
}
