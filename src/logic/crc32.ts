/**
 * The checksum of ISO 3309 and ITU-T V.42 over the UTF-8 bytes of a text, as 32 bits. It finds every change within four
 * neighbouring bytes.
 */
export function crc32(text: string): number {
  let rest = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  }
  return ~rest >>> 0;
}
