/** Words made from ids and titles, where the author gives none. */

/** "not-shown" becomes "not shown". */
export function spacedWords(id: string): string {
  return id.replaceAll('-', ' ');
}

/** "Logo lights" becomes "the logo lights"; legends and abbreviations stay in capitals: "the LIT annunciator". */
export function nounOf(title: string): string {
  const small = /^\p{Lu}(?=\P{Lu})(?! )/u.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;
  return `the ${small}`;
}
