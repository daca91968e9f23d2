import type { Analysis } from '../../../server/core/analysis.ts';
import { HINT_KINDS } from '../../../server/core/features/inlay-hints.ts';
import type { DocumentSymbol } from '../../../server/core/features/symbols.ts';
import type { Fettle } from '../../../server/core/fettle.ts';
import type { Drawing } from '../../../server/core/summary/drawing/drawing.ts';
import { itemView } from '../../../server/core/summary/item-view.ts';
import type { SummaryItem } from '../../../server/core/summary/summary.ts';
import { type View, withoutTools } from '../../../server/core/summary/view.ts';
import { rangeOf } from '../../../server/core/syntax/tree.ts';

const KINDS = new Set(HINT_KINDS);

/** Everything that is derived from one machine, each as text that reads well in a diff. */
export function deriveViews(fettle: Fettle, analysis: Analysis): ReadonlyMap<string, string> {
  const { text } = analysis.tree;
  const line = (offset: number) => text.slice(0, offset).split('\n').length;
  return new Map([
    [
      'values.txt',
      [...analysis.values.byAddress.values()]
        .map(
          (value) =>
            `${value.address} = ${value.shown}${value.limit ? ` (${value.limit})` : ''}\n    ${value.working}\n    ${value.source}\n`,
        )
        .join(''),
    ],
    [
      'missing.txt',
      [...analysis.values.missing.values()].map(({ address, needs }) => `${address}: ${needs}\n`).join(''),
    ],
    [
      'findings.txt',
      fettle
        .findings(analysis)
        .map(
          (finding) =>
            `${line(rangeOf(analysis.tree, finding.at)?.from ?? 0)} ${finding.severity} ${finding.code}: ${finding.message}\n`,
        )
        .join(''),
    ],
    [
      'inline-numbers.txt',
      fettle
        .inlayHints(analysis, 0, text.length, KINDS)
        .map((hint) => `${line(hint.offset)} ${hint.kind}: ${hint.label}\n`)
        .join(''),
    ],
    [
      'outline.txt',
      fettle
        .symbols(analysis)
        .map((symbol) => printSymbol(symbol, ''))
        .join(''),
    ],
    [
      'summary.txt',
      fettle
        .summary(analysis)
        .items.map((item) => `== ${item.id}\n${printItem(item)}\n`)
        .join(''),
    ],
  ]);
}

function printItem(item: SummaryItem): string {
  if (item.kind === 'drawing') return printDrawing(item.drawing);
  if (item.kind === 'picture') return `${item.picture.title}\n${item.picture.says.join('\n')}\n`;
  const view = itemView(item);
  return view ? printView(withoutTools(view) ?? '') : '';
}

/** The blocks and lines of the drawing before it is laid out. */
function printDrawing({ parts, links }: Drawing): string {
  const blocks = parts.map(
    (part) => `${part.name} (${part.partClass}): ${part.terminals.map(({ name }) => name).join(' ')}`,
  );
  const lines = links.map((link) =>
    [link.kind, link.from, link.to, link.colour, link.label, link.cable].filter(Boolean).join(' '),
  );
  return [...blocks, ...lines].join('\n');
}

function printSymbol(symbol: DocumentSymbol, indent: string): string {
  return `${indent}${symbol.kind} ${symbol.name}\n${symbol.children.map((child) => printSymbol(child, `${indent}  `)).join('')}`;
}

/** The words of a view, one row of a table or one paragraph a line. */
function printView(view: View): string {
  if (typeof view === 'string') return view;
  const inner = view.children.map(printView).join(view.tag === 'tr' ? ' | ' : '');
  return ['tr', 'p', 'li', 'h1', 'h2', 'h3', 'header'].includes(view.tag) ? `${inner}\n` : inner;
}
