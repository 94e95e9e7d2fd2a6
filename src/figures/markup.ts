/** Text made safe for SVG, as content and between double quotes; characters that XML forbids are left out. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
    .replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
}

/** A length or coordinate, to a hundredth of a unit. */
export function number(value: number): string {
  return String(Math.round(value * 100) / 100);
}
