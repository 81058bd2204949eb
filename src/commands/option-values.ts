import { InvalidArgumentError } from 'commander';
import { isIsoDate } from '../records/dates.js';

export const isoDate = (text: string): string => {
  if (isIsoDate(text)) return text;
  throw new InvalidArgumentError('A calendar date as YYYY-MM-DD is accepted.');
};

export const month = (text: string): string => {
  if (isIsoDate(`${text}-01`)) return text;
  throw new InvalidArgumentError('A month as YYYY-MM is accepted.');
};

export const whole = (text: string): number => {
  if (/^\d+$/.test(text)) return Number(text);
  throw new InvalidArgumentError('A whole number is accepted.');
};

export const upTo =
  (most: number) =>
  (text: string): number => {
    if (/^\d+$/.test(text) && Number(text) >= 1 && Number(text) <= most) return Number(text);
    throw new InvalidArgumentError(`A whole number from 1 to ${most} is accepted.`);
  };

export const probability = (text: string): number => {
  if (Number(text) > 0 && Number(text) < 1) return Number(text);
  throw new InvalidArgumentError('A number between 0 and 1 is accepted, such as 0.1.');
};
