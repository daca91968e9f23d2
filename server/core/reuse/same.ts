import { isSameList } from '../same-list.ts';

/** Whether two results say the same: the same object, or lists, sets, maps or records that hold the same objects. */
export function saysTheSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a)) return Array.isArray(b) && isSameList(a, b);
  if (a instanceof Map) return b instanceof Map && isSameMap(a, b);
  if (a instanceof Set) return b instanceof Set && isSameList([...a], [...b]);
  return (
    isRecord(a) &&
    isRecord(b) &&
    isSameList(Object.keys(a), Object.keys(b)) &&
    isSameList(Object.values(a), Object.values(b))
  );
}

function isRecord(thing: unknown): thing is object {
  return typeof thing === 'object' && thing !== null && Object.getPrototypeOf(thing) === Object.prototype;
}

/** Whether two maps hold the same under the same keys in the same order. */
export function isSameMap<K, V>(a: ReadonlyMap<K, V>, b: ReadonlyMap<K, V>): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  const others = b.entries();
  for (const [key, value] of a) {
    const other = others.next().value;
    if (!other || other[0] !== key || !Object.is(other[1], value)) return false;
  }
  return true;
}
