/** "a", "a or b", "a, b or c". An empty list gives an empty string. */
export function list(words: readonly string[], conjunction: 'and' | 'or' = 'or'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${conjunction} ${words[words.length - 1]}`;
}

/** As `list`, each word in double quotes. */
export function quoted(words: readonly string[], conjunction: 'and' | 'or' = 'or'): string {
  return list(
    words.map((word) => `"${word}"`),
    conjunction,
  );
}
