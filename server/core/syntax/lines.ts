/** Where the line of an offset begins. A line end that stands at the offset itself ends that line. */
export function startOfLine(text: string, at: number): number {
  // From -1 backwards lastIndexOf looks at 0 all the same, where a line end would be one that comes after.
  return at <= 0 ? 0 : text.lastIndexOf('\n', at - 1) + 1;
}
