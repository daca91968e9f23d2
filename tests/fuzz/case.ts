/** What is tried in one go; plain data, so that it can be stored as it is and tried again. */
export interface TextCase {
  /** Its name says whether it is a machine, a sheet or a project. */
  readonly file: string;
  /** The versions of its text, each made from the one before by one edit. The last is examined. */
  readonly versions: readonly string[];
  /** Other files of the workspace. */
  readonly others: Readonly<Record<string, string>>;
  /** Where the cursor stands in the last version, as a share of its length from 0 to 1. */
  readonly cursor: number;
}

/** What a run found wrong with a case. */
export class Fault extends Error {
  override readonly name = 'Fault';
}

/** Says what must hold. @throws Fault */
export function must(holds: boolean, what: () => string): asserts holds {
  if (!holds) throw new Fault(what());
}
