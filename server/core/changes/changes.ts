import type { Analysis, MachineAnalysis } from '../analysis.ts';
import type { Step } from '../commission/step.ts';
import { findAll } from '../findings/find.ts';
import type { Finding } from '../findings/rule.ts';
import type { Changed } from './changed.ts';
import { compareFindings } from './findings.ts';
import { compareSteps } from './steps.ts';
import { compareLinks, compareParts, compareSettings, type LinkFacts, type PartFacts } from './things.ts';
import { type ChangedValue, compareValues } from './values.ts';

/** What follows from the differences between two versions of a machine or of a part sheet. */
export interface Changes {
  readonly title: string;
  readonly revision: { readonly before: string | undefined; readonly after: string | undefined };
  readonly parts: readonly Changed<PartFacts>[];
  readonly links: readonly Changed<LinkFacts>[];
  /** Values to key in again, by `part.setting`. */
  readonly settings: readonly Changed<string>[];
  readonly values: readonly ChangedValue[];
  readonly appeared: readonly Finding[];
  readonly gone: readonly Finding[];
  /** Commissioning steps to do again (`after` is there), and those that fall away. */
  readonly steps: readonly Changed<Step>[];
}

/**
 * Compares two versions by what follows from them, not by their lines. A version with itself gives nothing; the two
 * the other way round give the same with before and after exchanged.
 */
export function compareVersions(before: Analysis, after: Analysis): Changes {
  const both = before.kind === 'machine' && after.kind === 'machine' ? ([before, after] as const) : undefined;
  const parts = both ? compareParts(...both) : [];
  const links = both ? compareLinks(...both) : [];
  const settings = both ? compareSettings(...both) : [];
  return {
    title: titleOf(after) || titleOf(before),
    revision: { before: revisionOf(before), after: revisionOf(after) },
    parts,
    links,
    settings,
    values: compareValues(before, after),
    ...compareFindings(findAll(before), findAll(after)),
    steps: both ? compareSteps(...both, parts, links, settings) : [],
  };
}

function titleOf(analysis: Analysis): string {
  if (analysis.kind === 'project') return '';
  return analysis.kind === 'machine' ? analysis.machine.title : analysis.sheet.title;
}

function revisionOf(analysis: Analysis): string | undefined {
  return analysis.kind === 'machine' ? readRevision(analysis) : undefined;
}

function readRevision({ machine }: MachineAnalysis): string | undefined {
  return machine.fields.text('revision')?.value;
}

/** True when nothing follows from whatever differs. */
export function isEmpty({ parts, links, settings, values, appeared, gone, steps }: Changes): boolean {
  return [parts, links, settings, values, appeared, gone, steps].every(({ length }) => length === 0);
}
