/** A number at a fixed count of decimals, for files people read. rounded(1.23456, 2) = 1.23 */
export const rounded = (value: number, digits = 4): number => Number(value.toFixed(digits));
