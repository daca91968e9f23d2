import { type Analysis, analyse } from './analysis.ts';
import { findLacks, type SheetLacks } from './bench/lacks.ts';
import { type ComparedWithTexts, compareWithTexts } from './changes/with-texts.ts';
import { causeOf, type Written } from './features/cause.ts';
import { type ColourPlace, listColours, nearestCodes, type Shade } from './features/colours.ts';
import { complete } from './features/completion.ts';
import type { PlacedCompletion } from './features/completion-item.ts';
import { findDefinition, findTypeDefinition, type Target } from './features/definition.ts';
import { type Explanation, explain } from './features/explain.ts';
import { listFindingsAt } from './features/findings-at.ts';
import { fixAll } from './features/fix-all.ts';
import { listFolds } from './features/folding.ts';
import { followUps } from './features/follow-ups.ts';
import { formatOnType, formatRange, formatText, type TextChange } from './features/formatting.ts';
import { describeAt, type Hover } from './features/hover.ts';
import { describeHints, type HintKind, type InlayHint, listInlayHints } from './features/inlay-hints.ts';
import { type Lens, listLenses } from './features/lenses.ts';
import { NAMES } from './features/names-facade.ts';
import { listNotComputed, type NotComputed } from './features/not-computed.ts';
import { listSelections } from './features/selection.ts';
import { listTokens, type TokenChunk } from './features/semantic-tokens.ts';
import { listSilences } from './features/silence.ts';
import { type DocumentSymbol, listSymbols } from './features/symbols.ts';
import { type Tryable, tryableAt } from './features/tryable.ts';
import { type Change, type WhatIf, whatIf } from './features/what-if.ts';
import { findAll, findSilenced } from './findings/find.ts';
import type { Finding } from './findings/rule.ts';
import { createTrees } from './model/trees.ts';
import type { Source } from './names/mention.ts';
import { sheetsOf } from './names/name.ts';
import { gatherWorkspace } from './names/workspace.ts';
import type { Edit, Fix } from './problem.ts';
import { findProject } from './project/project.ts';
import { listRefactorings } from './refactor/list.ts';
import type { Refactoring } from './refactor/refactoring.ts';
import type { Silenced } from './silence/settle.ts';
import { idAt, placeOf } from './summary/places.ts';
import { summarise } from './summary/summarise.ts';
import type { Summary } from './summary/summary.ts';
import type { Span } from './syntax/node.ts';
import { rangeOf } from './syntax/tree.ts';
import type { FileId, World } from './world.ts';

/**
 * The whole product on one page. Every operation takes an analysis, which is one version of one text in its world,
 * and answers from it; offsets are UTF-16 units of that text. Nothing here waits, throws or has a memory of its own
 * beyond what was parsed.
 */
export interface Fettle extends Readonly<typeof NAMES> {
  /** Analyses a text. Files in `wants` should be fetched, and the text analysed again. */
  readonly analyse: (file: FileId, text: string) => Analysis;
  /** A place in a file that was read for some analysis, such as a sheet, as offsets of its text. */
  readonly rangeIn: (file: FileId, at: Span) => { readonly from: number; readonly to: number } | undefined;
  /** Forgets what was kept of a file that is closed or gone. */
  readonly forget: (file: FileId) => void;
  /** What is wrong or could be better, in the order of the text. */
  readonly findings: (analysis: Analysis) => readonly Finding[];
  /** The findings that somebody has silenced; summary and reports tell them. */
  readonly silenced: (analysis: Analysis) => readonly Silenced[];
  /** The findings that touch a stretch; their cures are with them. */
  readonly findingsAt: (analysis: Analysis, from: number, to: number) => readonly Finding[];
  /** How a finding can be silenced. */
  readonly silences: (analysis: Analysis, finding: Finding) => readonly Fix[];
  /** What could be done with a stretch where nothing is wrong. */
  readonly refactorings: (analysis: Analysis, from: number, to: number) => readonly Refactoring[];
  /** All cures that are safe, together. */
  readonly fixAll: (analysis: Analysis) => readonly Edit[];
  /** What stands at an offset, with its numbers and their working, as Markdown. */
  readonly hover: (analysis: Analysis, offset: number) => Hover | undefined;
  /** What could be written at an offset. */
  readonly completions: (analysis: Analysis, offset: number) => readonly PlacedCompletion[];
  /** Numbers to show within a stretch of the text. */
  readonly inlayHints: (
    analysis: Analysis,
    from: number,
    to: number,
    kinds: ReadonlySet<HintKind>,
  ) => readonly InlayHint[];
  /** What is told of the values of such numbers, by their addresses. */
  readonly describeHints: (analysis: Analysis, addresses: readonly string[]) => ReadonlyMap<string, string>;
  /** What a computed value goes back to, by its address. */
  readonly causeOf: (analysis: Analysis, address: string) => Written | undefined;
  /** One version of a text without what it means: enough for names and layout, and much quicker. */
  readonly read: (file: FileId, text: string) => Source;
  /** The files that a text needs and that are not known yet. It is told from the text alone, before anything is computed. */
  readonly wantsOf: (file: FileId, text: string) => readonly FileId[];
  /** The texts of the workspace and the sheets that they use. Those in `wants` should be fetched, and asked for again. */
  readonly workspace: () => { readonly sources: readonly Source[]; readonly wants: readonly FileId[] };
  /** Where the thing at an offset is defined, in this text or in a sheet. */
  readonly definition: (source: Source, offset: number) => readonly Target[];
  /** Where it stands what the thing at an offset is: the sheet of a part, the circuits of a terminal. */
  readonly typeDefinition: (source: Source, offset: number) => readonly Target[];
  /** What can be folded away, and what a selection grows to. */
  readonly folds: typeof listFolds;
  readonly selections: typeof listSelections;
  /** The outline. */
  readonly symbols: (analysis: Analysis) => readonly DocumentSymbol[];
  /** A derived value by its address, with its working in plain text. */
  readonly explain: (analysis: Analysis, address: string) => Explanation;
  /** What could be computed if more were written down, by what is lacking. */
  readonly notComputed: (analysis: Analysis) => readonly NotComputed[];
  /** What a part sheet lacks, tried on a bench where everything else is known; undefined where nothing is computed from it. */
  readonly sheetLacks: (analysis: Analysis) => SheetLacks | undefined;
  /** What some changes of values would do, without making them. */
  readonly whatIf: (analysis: Analysis, changes: readonly Change[]) => WhatIf;
  /** The wire colours that are written down, and the codes for a shade, the nearest first. */
  readonly colours: (analysis: Analysis) => readonly ColourPlace[];
  readonly nearestCodes: (shade: Shade) => readonly { readonly code: string; readonly name: string }[];
  /** What each word means, in pieces that stay the same object while their text does. */
  readonly tokens: (analysis: Analysis) => readonly TokenChunk[];
  /** How to lay the text out: blanks alone change. All of it, the lines of a stretch, or what typing has just finished. */
  readonly format: (analysis: Analysis) => readonly TextChange[];
  readonly formatRange: (analysis: Analysis, from: number, to: number) => readonly TextChange[];
  readonly formatOnType: (analysis: Analysis, offset: number) => readonly TextChange[];
  /** What follows from the difference between an analysis and how it was when some files had other texts. */
  readonly compareWithTexts: (analysis: Analysis, texts: ReadonlyMap<FileId, string>) => ComparedWithTexts;
  /** What updates the settings that follow from the figures within a stretch. */
  readonly followUps: (analysis: Analysis, from: number, to: number) => readonly Fix[];
  /** The value at an offset that another one can be tried in place of. */
  readonly tryableAt: (analysis: Analysis, offset: number) => Tryable | undefined;
  /** Headline figures to show above axes, supplies and parts. */
  readonly lenses: (analysis: Analysis) => readonly Lens[];
  /** The wiring summary. */
  readonly summary: (analysis: Analysis) => Summary;
  /** Where in the text a thing of the summary stands, and which thing stands at an offset. */
  readonly placeOf: (analysis: Analysis, id: string) => Span | undefined;
  readonly idAt: (analysis: Analysis, offset: number) => string | undefined;
}

/**
 * Makes the product over a world: the files of an editor, of a command line, or of a test.
 * @param areEdited whether texts are edited, so that it pays to note what each result rests on; a command line reads them once
 */
export function createFettle(world: World, areEdited = true): Fettle {
  const trees = createTrees(areEdited);
  const read = (file: FileId, text: string, wants: FileId[] = []): Source => ({
    file,
    tree: trees.read(file, text),
    world,
    project: findProject(file, world, trees, wants),
  });
  const open = (file: FileId, wants?: FileId[]): Source | undefined => {
    const state = world.file(file);
    return state?.kind === 'text' ? read(file, state.text, wants) : undefined;
  };
  return {
    ...NAMES,
    analyse: (file, text) => analyse(file, text, world, trees),
    rangeIn: (file, at) => {
      const tree = trees.get(file);
      return tree && rangeOf(tree, at);
    },
    forget: trees.forget,
    findings: findAll,
    silenced: findSilenced,
    findingsAt: listFindingsAt,
    silences: listSilences,
    refactorings: listRefactorings,
    fixAll,
    hover: describeAt,
    completions: complete,
    inlayHints: listInlayHints,
    describeHints,
    read: (file, text) => read(file, text),
    wantsOf: (file, text) => {
      const wants: FileId[] = [];
      sheetsOf(read(file, text, wants), wants);
      return wants;
    },
    workspace: () => gatherWorkspace(world, open),
    definition: (source, offset) => findDefinition(source, offset, open),
    typeDefinition: (source, offset) => findTypeDefinition(source, offset, open),
    folds: listFolds,
    selections: listSelections,
    symbols: listSymbols,
    explain,
    notComputed: listNotComputed,
    sheetLacks: (analysis) => (analysis.kind === 'part' ? findLacks(analysis) : undefined),
    whatIf,
    tryableAt,
    followUps,
    compareWithTexts,
    causeOf,
    colours: listColours,
    nearestCodes,
    tokens: listTokens,
    format: formatText,
    formatRange,
    formatOnType,
    lenses: listLenses,
    summary: summarise,
    placeOf,
    idAt,
  };
}
