/** One number for each of a list. As `Float64Array.from`, which goes through an iterator and takes many times as long. */
export function floatsOf<T>(list: ArrayLike<T>, of: (value: T, i: number) => number): Float64Array {
  const out = new Float64Array(list.length);
  for (let i = 0; i < out.length; i++) out[i] = of(list[i], i);
  return out;
}
