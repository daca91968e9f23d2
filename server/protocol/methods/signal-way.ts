import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  SymbolKind,
} from 'vscode-languageserver';
import type { Station, Step } from '../../core/features/signal-way.ts';
import { toSpanRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';

/** A signal's way from end to end, as a call hierarchy: what drives an input, and what an output drives. */
export function registerSignalWay(session: Session): void {
  const { connection, fettle } = session;
  const hierarchy = connection.languages.callHierarchy;
  hierarchy.onPrepare(
    guard(connection, 'signal', null, async ({ textDocument, position }) => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return null;
      const stations = fettle.stations(analysed.analysis, analysed.document.offsetAt(position));
      return stations.map((station) => toItem(analysed, station));
    }),
  );
  const follow = async (item: CallHierarchyItem, find: typeof fettle.signalFrom) => {
    const analysed = await session.analysisOf(item.uri);
    const { data }: { data?: unknown } = item;
    if (!analysed || !isStation(data)) return [];
    return find(analysed.analysis, data).map((step) => ({
      item: toItem(analysed, step.station, step),
      fromRanges: step.along.map((at) => toSpanRange(analysed, at)),
    }));
  };
  hierarchy.onIncomingCalls(
    guard(connection, 'signal', [], async ({ item }): Promise<CallHierarchyIncomingCall[]> => {
      const steps = await follow(item, fettle.signalInto);
      return steps.map(({ item: from, fromRanges }) => ({ from, fromRanges }));
    }),
  );
  hierarchy.onOutgoingCalls(
    guard(connection, 'signal', [], async ({ item }): Promise<CallHierarchyOutgoingCall[]> => {
      const steps = await follow(item, fettle.signalFrom);
      return steps.map(({ item: to, fromRanges }) => ({ to, fromRanges }));
    }),
  );
}

function toItem(analysed: Analysed, { part, circuit, about, at }: Station, step?: Step): CallHierarchyItem {
  const range = toSpanRange(analysed, at);
  const through = step && step.through.length > 0 ? ` through ${step.through.join(', ')}` : '';
  return {
    name: `${part}.${circuit}`,
    detail: about + through,
    kind: SymbolKind.Event,
    uri: analysed.document.uri,
    range,
    selectionRange: range,
    data: { part, circuit },
  };
}

function isStation(data: unknown): data is Pick<Station, 'part' | 'circuit'> {
  const given = data as Partial<Station> | null;
  return typeof given?.part === 'string' && typeof given.circuit === 'string';
}
