import type { Drawing } from '../../server/core/summary/drawing/drawing.ts';
import { toLayoutGraph } from '../../server/core/summary/drawing/elk-graph.ts';
import type { LaidOut } from '../../server/core/summary/drawing/layout.ts';
import type { Plan } from '../../server/core/summary/drawing/plan.ts';
import { planDrawing } from '../../server/core/summary/drawing/plan.ts';
import { settleColumns } from '../../server/core/summary/drawing/settle.ts';
import { type Standing, steady } from '../../server/core/summary/drawing/standing.ts';
import type { Layouter } from './layouter.ts';

/** Lays drawings out one after the other so that what stands stays where it is. */
export interface Arranger {
  /** @param view which part of the wiring it is; each stands by itself */
  readonly arrange: (view: string, drawing: Drawing, folded: ReadonlySet<string>) => Promise<Standing>;
  /** Forgets what stands, so that the next layout is as if there had been none. */
  readonly forget: () => void;
}

export function createArranger(layouter: Layouter): Arranger {
  const standing = new Map<string, Standing>();
  /** The last layout, for an edit that moves nothing: a colour, a label, a place. */
  let last: { readonly graph: string; readonly laidOut: LaidOut } | undefined;

  const layOut = async (plan: Plan, before: Standing | undefined): Promise<LaidOut> => {
    const plain = toLayoutGraph(plan);
    const graph = JSON.stringify(plain);
    if (last?.graph !== graph) {
      const laidOut = await layouter.layout(before ? steady(plain, plan, before) : plain);
      last = { graph, laidOut: settleColumns(plan, laidOut, before) };
    }
    return last.laidOut;
  };
  return {
    arrange: async (view, drawing, folded) => {
      const before = standing.get(view);
      const plan = planDrawing(drawing, folded, before?.plan);
      const now = { plan, laidOut: await layOut(plan, before) };
      standing.set(view, now);
      return now;
    },
    forget: () => {
      standing.clear();
      last = undefined;
    },
  };
}
