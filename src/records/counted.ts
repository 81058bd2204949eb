/** '1 child', '3 children': a count with its noun, whose plural takes an s where none is given. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
