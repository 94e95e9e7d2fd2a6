import type { Aircraft } from '../model/index.ts';

/** What an aircraft is called on a day, from the book's date on: its registration may change. */
export function registrationOn(
  { registration, changes }: Pick<Aircraft, 'registration' | 'changes'>,
  day: string,
): string {
  const renamed = changes.filter(({ option, date }) => option === 'registration' && date <= day);
  return renamed.at(-1)?.value ?? registration;
}
