/**
 * The entry of a table by a word that came from outside; undefined for one that the table does not have. A plain look-up
 * would also find what every object has by birth, such as `constructor`.
 */
export function pick<T>(table: Readonly<Record<string, T>>, key: string | undefined): T | undefined {
  return key !== undefined && Object.hasOwn(table, key) ? table[key] : undefined;
}
