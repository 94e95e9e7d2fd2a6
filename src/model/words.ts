/** Words and ids made from ids and titles, where the author gives none. */

/** "not-shown" becomes "not shown". */
export function spacedWords(id: string): string {
  return id.replaceAll('-', ' ');
}

/** "Logo switch" becomes "logo switch"; legends, abbreviations and single letters stay: "AC bus 2", "LIT annunciator", "X-ray". */
export function withSmallInitial(title: string): string {
  return /^\p{Lu}\p{Ll}/u.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;
}

/** "the logo lights", "the LIT annunciator". */
export function nounOf(title: string): string {
  return `the ${withSmallInitial(title)}`;
}

/** The sequence that latches a message. */
export function latchOf(message: string): string {
  return `${message}-latch`;
}
