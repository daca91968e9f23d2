import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { cautionItems } from './cautions.ts';
import { chartItems } from './charts.ts';
import { commissioningItems } from './commissioning.ts';
import { drawMachine } from './draw-machine.ts';
import { headlineItems } from './headline.ts';
import { inputItems } from './inputs.ts';
import { keepWhileWired } from './keep.ts';
import { cutItems } from './lists/cut-list.ts';
import { partsListItems } from './lists/parts-list.ts';
import { wireLoadItems } from './lists/wire-loads.ts';
import { loopItems } from './pictures/loop.ts';
import { motionItems } from './pictures/motion.ts';
import { screwItems } from './pictures/screw.ts';
import { spindleItems } from './pictures/spindle.ts';
import { supplyItems } from './pictures/supply.ts';
import { timingItems } from './pictures/timing.ts';
import { settingsItems } from './settings/section.ts';
import type { Summary, SummaryItem } from './summary.ts';

const kept = new WeakMap<Analysis, Summary>();

/** The wiring summary of one version of a machine; of a part sheet there is none. */
export function summarise(analysis: Analysis): Summary {
  let summary = kept.get(analysis);
  if (!summary) {
    summary =
      analysis.kind === 'machine' ? summariseMachine(analysis) : { title: '', items: [], broken: false };
    kept.set(analysis, summary);
  }
  return summary;
}

function summariseMachine(analysis: MachineAnalysis): Summary {
  const revision = analysis.machine.fields.text('revision')?.value;
  return {
    title: analysis.machine.title,
    ...(revision !== undefined && { revision }),
    broken: analysis.problems.some((problem) => problem.code === 'yaml/syntax'),
    items: [
      ...headlineItems(analysis),
      ...supplyItems(analysis),
      ...keepWhileWired(analysis, 'drawing', drawingItems),
      ...keepWhileWired(analysis, 'inputs', inputItems),
      ...loopItems(analysis),
      ...keepWhileWired(analysis, 'charts', chartItems),
      ...timingItems(analysis),
      ...motionItems(analysis),
      ...screwItems(analysis),
      ...spindleItems(analysis),
      ...keepWhileWired(analysis, 'cut list', cutItems),
      ...wireLoadItems(analysis),
      ...keepWhileWired(analysis, 'parts list', partsListItems),
      ...settingsItems(analysis),
      ...commissioningItems(analysis),
      ...cautionItems(analysis),
    ],
  };
}

function drawingItems(analysis: MachineAnalysis): SummaryItem[] {
  return [{ id: 'drawing', section: 'drawing', kind: 'drawing', drawing: drawMachine(analysis) }];
}
