import type { Analysis } from '../../server/core/analysis.ts';
import { HINT_KINDS } from '../../server/core/features/inlay-hints.ts';
import type { Fettle } from '../../server/core/fettle.ts';
import type { Finding } from '../../server/core/findings/rule.ts';
import type { Span } from '../../server/core/syntax/node.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import type { FileId } from '../../server/core/world.ts';

/** What is said of one version of a text, as one text for each feature: equal texts are equal answers, byte by byte. */
export type Everything = Readonly<Record<string, string>>;

/**
 * Asks everything of an analysis that does not depend on a cursor. Places are written as offsets of their file, since
 * no two analyses share blocks.
 * @param others the other files whose places may be named
 */
export function everythingOf(fettle: Fettle, analysis: Analysis, others: readonly FileId[] = []): Everything {
  const { tree, values } = analysis;
  const end = tree.text.length;
  const write = (what: unknown): string =>
    JSON.stringify(what, (_, value) => plain(fettle, analysis, others, value), 1);
  const hints = fettle.inlayHints(analysis, 0, end, new Set(HINT_KINDS));
  return {
    findings: write(fettle.findings(analysis).map(withoutFixes)),
    silenced: write(
      fettle.silenced(analysis).map(({ finding, by, reason }) => [withoutFixes(finding), by, reason]),
    ),
    values: write(
      [...values.byAddress.values()].map((value) => ({
        ...value,
        shown: value.shown,
        formula: value.formula,
        working: value.working,
        inputs: value.inputs.map((input) => ({ ...input, shown: input.shown })),
      })),
    ),
    missing: write([...values.missing.values()]),
    summary: write(fettle.summary(analysis)),
    tokens: write(
      fettle
        .tokens(analysis)
        .map(({ block, tokens }) => tokens.map(({ from, to, ...what }) => [{ block, from, to }, what])),
    ),
    symbols: write(fettle.symbols(analysis)),
    hints: write(hints),
    'told of hints': write([
      ...fettle.describeHints(
        analysis,
        hints.map(({ address }) => address),
      ),
    ]),
    lenses: write(fettle.lenses(analysis)),
    'not computed': write(fettle.notComputed(analysis)),
    colours: write(fettle.colours(analysis)),
    folds: write(fettle.folds(analysis)),
    wants: write(analysis.wants),
  };
}

/** What is said of one place of a text, as one text for each feature. */
export function everythingAt(fettle: Fettle, analysis: Analysis, offset: number): Everything {
  const write = (what: unknown): string =>
    JSON.stringify(what ?? null, (_, value) => plain(fettle, analysis, [], value), 1);
  const found = fettle.findingsAt(analysis, offset, offset);
  const renamable = fettle.prepareRename(analysis, offset, [analysis]);
  return {
    hover: write(fettle.hover(analysis, offset)),
    completions: write(fettle.completions(analysis, offset)),
    refactorings: write(fettle.refactorings(analysis, offset, offset)),
    'findings here': write(found.map(({ code, fixes }) => [code, fixes])),
    silences: write(found.map((finding) => fettle.silences(analysis, finding))),
    definition: write(fettle.definition(analysis, offset)),
    'type definition': write(fettle.typeDefinition(analysis, offset)),
    highlights: write(fettle.highlights(analysis, offset)),
    'linked places': write(fettle.linkedPlaces(analysis, offset)),
    rename: write(renamable.kind === 'refused' ? renamable : renamable.places.map(({ mention }) => mention)),
    selections: write(fettle.selections(analysis, offset)),
    'what follows': write(fettle.followUps(analysis, offset, offset)),
    tryable: write(fettle.tryableAt(analysis, offset)),
    stations: write(fettle.stations(analysis, offset)),
    id: write(fettle.idAt(analysis, offset)),
    layout: write(fettle.formatOnType(analysis, offset)),
  };
}

/** Cures are looked for when somebody asks for them, which takes long. */
function withoutFixes({
  at,
  data,
  related,
  code,
  severity,
  message,
  title,
}: Finding): Omit<Finding, 'fixes'> {
  return { at, data, ...(related && { related }), code, severity, message, title };
}

/** The cures of all findings, which are looked for when somebody asks, and what of them is safe. */
export function curesOf(fettle: Fettle, analysis: Analysis, others: readonly FileId[] = []): string {
  const findings = fettle.findings(analysis).map(({ code, fixes }) => [code, fixes]);
  return JSON.stringify(
    [findings, fettle.fixAll(analysis)],
    (_, value) => plain(fettle, analysis, others, value),
    1,
  );
}

/** JSON knows neither places nor maps nor sets nor numbers without end. */
function plain(fettle: Fettle, { file, tree }: Analysis, others: readonly FileId[], value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) return String(value);
  if (typeof value !== 'object' || value === null) return value;
  if (value instanceof Map) return [...value];
  if (value instanceof Set) return [...value];
  if (!('block' in value && 'from' in value && 'to' in value)) return value;
  const own = rangeOf(tree, value as Span);
  if (own) return `${file}:${own.from}-${own.to}`;
  for (const other of others) {
    const range = fettle.rangeIn(other, value as Span);
    if (range) return `${other}:${range.from}-${range.to}`;
  }
  // A sheet that ships, or a place that is in no text any more: its words must still be the same.
  const { block, from, to } = value as Span;
  return `?:${from}-${to} ${block.text.slice(from, to)}`;
}
