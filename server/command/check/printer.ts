import type { Checked, ShownFinding } from './checked.ts';

/** Writes results one file after the other, so that nothing is kept of files that were written. */
export interface Printer {
  readonly begin: () => string;
  readonly file: (checked: Checked) => string;
  readonly end: () => string;
}

/** What a printer may need to know. */
export interface PrinterOptions {
  readonly colour: boolean;
  /** True for findings that make the check fail. */
  readonly fails: (finding: ShownFinding) => boolean;
}

/** Escapes text for XML, and leaves out characters that XML 1.0 cannot hold. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\P{Cc}\t\n\r]|[\ufffe\uffff]|\p{Surrogate}/gu, '\ufffd')
    .replace(/[&<>"']/g, (char) => `&#${char.charCodeAt(0)};`);
}
