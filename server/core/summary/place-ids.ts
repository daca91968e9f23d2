/** The ids under which the summary knows things of the text. */
export const partId = (name: string) => `part:${name}`;
export const terminalPlaceId = (part: string, terminal: string) => `terminal:${part}.${terminal}`;
export const axisId = (name: string) => `axis:${name}`;
export const linkId = (number: number) => `link:${number}`;
export const settingId = (part: string, setting: string) => `setting:${part}.${setting}`;
export const findingId = (index: number) => `finding:${index}`;
