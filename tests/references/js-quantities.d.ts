// The package brings no types; this is the part of it that the tests use.
declare module 'js-quantities' {
  interface Quantity {
    to(unit: string): Quantity;
    readonly scalar: number;
  }
  export default function Qty(text: string): Quantity;
}
