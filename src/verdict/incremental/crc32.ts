// CRC-32 as in ISO 3309 and RFC 1952: polynomial 0x04C11DB7, reflected, all ones before and after. It detects damage, not
// manipulation. Check value: 0xCBF43926 for the nine bytes "123456789" (common knowledge, no source).

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/** CRC-32 of the UTF-8 bytes of a text, eight hexadecimal digits. */
export function crc32(text: string): string {
  let rest = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    rest = (rest >>> 8) ^ table[(rest ^ byte) & 0xff]!;
  }
  return ((rest ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}
