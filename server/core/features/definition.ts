import type { Analysis } from '../analysis.ts';
import type { Span } from '../syntax/node.ts';
import type { FileId } from '../world.ts';
import { thingAt } from './thing.ts';

/** Where something is defined; without a span it is the file itself. */
export interface Target {
  readonly file: FileId;
  readonly at: Span | undefined;
  /** The name that leads there. */
  readonly origin: Span;
}

/** From a part's name to its entry, from a terminal or setting to its line in the sheet, from a sheet's name to its file. */
export function findDefinition(analysis: Analysis, offset: number): Target | undefined {
  const { thing } = thingAt(analysis, offset);
  if (!thing || analysis.kind !== 'machine') return undefined;
  const { machine, file } = analysis;
  switch (thing.kind) {
    case 'part': {
      const part = machine.parts.get(thing.name);
      return part && { file, at: part.key, origin: thing.at };
    }
    case 'axis': {
      const axis = machine.axes.get(thing.name);
      return axis && { file, at: axis.key, origin: thing.at };
    }
    case 'terminal': {
      const sheet = machine.parts.get(thing.part)?.sheet;
      const terminal = sheet?.terminals.get(thing.terminal);
      return sheet && terminal && { file: sheet.file, at: terminal.at, origin: thing.at };
    }
    case 'setting':
      return thing.part.sheet && { file: thing.part.sheet.file, at: thing.setting.key, origin: thing.at };
    case 'sheet': {
      const part = machine.parts.get(thing.part);
      return part?.sheetFile !== undefined && part.sheet
        ? { file: part.sheetFile, at: undefined, origin: thing.at }
        : undefined;
    }
    case 'other':
      return undefined;
  }
}
